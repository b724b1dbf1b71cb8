package prints

import (
	"fmt"
	"math"
	"strings"

	"ellwand/cautions"
	"ellwand/cloth"
	"ellwand/geometry"
	"ellwand/paper"
)

// toSpin are the yarns of the cloth that are still to be spun, with their grist
// worked out.
func (m *maker) toSpin() []cloth.YarnNeed {
	var out []cloth.YarnNeed
	for _, n := range m.r.Reckoning.Yarns {
		if len(n.Yarn.Parts()) > 0 && !n.Yarn.HaveInHand {
			out = append(out, n)
		}
	}
	return out
}

// spinning is a card for each yarn that is to be spun.
func (m *maker) spinning() []paper.Sheet {
	var out []paper.Sheet
	for _, n := range m.toSpin() {
		out = append(out, m.spin(n))
	}
	return out
}

// look is what a thread looks like: what the spinner measures.
type look struct {
	tex, mm, turnsPerCM, angleDeg   float64
	twist, thicknessFrom, angleFrom string
}

// wrapsPerCM is how many lie side by side in 1 cm.
func (l look) wrapsPerCM() float64 { return 10 / l.mm }

// spinAngleDeg is the surface angle of hand-combed wool in the guide by Peter
// and Jacque Teal (SOAR 1995 handout, textilelinks.com), from its rows.
const spinAngleDeg = 25.0

// lookOf is the yarn's own thickness and twist; where the plan gives no twist,
// that of the usual angle.
func lookOf(y cloth.Yarn) look {
	l := look{tex: y.Tex, turnsPerCM: y.TwistPerCM, twist: y.Twist, angleFrom: "from the twist that the plan gives"}
	l.mm, l.thicknessFrom = y.DiameterMM()
	if l.turnsPerCM > 0 {
		l.angleDeg = y.SurfaceAngleDeg()
		return l
	}
	l.angleDeg = spinAngleDeg
	l.turnsPerCM = cloth.TwistPerCMForAngle(l.mm, l.angleDeg)
	l.angleFrom = "of hand-combed wool in the guide by Peter and Jacque Teal, for the plan gives no twist"
	return l
}

// singles is one of the threads that a plied yarn is made of.
func singles(y cloth.Yarn) cloth.Yarn {
	one := y
	one.Tex, one.Plies, one.WrapsPerCM = y.SinglesTex(), 1, 0
	one.TwistPerCM, one.Twist = y.SinglesTwistPerCM, y.SinglesTwist
	if one.Twist == "" {
		one.Twist = map[string]string{"S": "Z", "Z": "S"}[y.Twist]
	}
	return one
}

func (m *maker) spin(n cloth.YarnNeed) paper.Sheet {
	y, u := n.Yarn, m.u
	one := y
	if y.Plies > 1 {
		one = singles(y)
	}
	l := lookOf(one)
	facts := paper.Facts{
		{Label: "Spin in all", Value: fmt.Sprintf("%s, %s", u.far(y.SinglesM(n.LengthM)), grams(n.MassG)), From: m.spinShare(y)},
		{Label: "10 g of it are", Value: u.far(10000 / l.tex), From: fmt.Sprintf("10 g ÷ %s tex × 1000", number(l.tex, 1))},
		{Label: "Wraps", Value: u.perLength(l.wrapsPerCM()), From: fmt.Sprintf("thickness %s mm: %s", number(l.mm, 2), l.thicknessFrom)},
		{Label: "Twist", Value: fmt.Sprintf("%s, %s turns %s", l.twist, u.count(l.turnsPerCM), u.each())},
		{Label: "Angle of twist", Value: number(l.angleDeg, 0) + "°", From: l.angleFrom + "; a sample of your own is better"},
	}
	if y.Colour != "" {
		facts = append(facts, paper.Fact{Label: "Colour", Value: y.Colour})
	}
	all := []any{facts, paper.Heading("To lay the yarn on: true to scale"), lookFigure(l)}
	if y.Plies > 1 {
		all = append(all, m.plied(n)...)
	}
	all = append(all, m.time("spin:"+y.Name, "ply:"+y.Name),
		paper.Steps{
			"Spin a skein of about 10 g, wash it and let it dry without weight.",
			fmt.Sprintf("Weigh it, measure its length: metres ÷ grams × 10 is to be %s.", number(10000/l.tex, 0)),
			"Wrap it round a ruler without pulling, lay it on the drawing above, and spin on only when both agree.",
			"Measure again every few skeins, and write each one down: coarser yarn eats the fleece.",
		},
		caution(cautions.LongWork))
	return m.card("Spinning: "+y.Name, sources(y), blocks(all...)...)
}

// plied is what is said of plying.
func (m *maker) plied(n cloth.YarnNeed) []any {
	l := lookOf(n.Yarn)
	facts := paper.Facts{
		{Label: "Ply", Value: fmt.Sprintf("%d threads to %s, %s twist", n.Yarn.Plies, m.u.far(n.LengthM), n.Yarn.Twist), From: fmt.Sprintf("ply take-up %s", percent(n.Yarn.PlyTakeUp))},
		{Label: "10 g of it are", Value: m.u.far(10000 / l.tex)},
		{Label: "Wraps", Value: m.u.perLength(l.wrapsPerCM()), From: fmt.Sprintf("thickness %s mm: %s", number(l.mm, 2), l.thicknessFrom)},
	}
	if n.Yarn.TwistPerCM > 0 {
		facts = append(facts, paper.Fact{Label: "Plying twist", Value: fmt.Sprintf("%s turns %s, %s°", m.u.count(l.turnsPerCM), m.u.each(), number(l.angleDeg, 0))})
	}
	return []any{paper.Heading("Plied"), facts}
}

// sources are the fibres of a yarn: "outer coat of grey wether".
func sources(y cloth.Yarn) string {
	var parts []string
	for _, p := range y.Parts() {
		text := strings.TrimPrefix(cloth.CoatWords(p.Coat), "the ") + " of " + p.Lot
		if len(y.Parts()) > 1 {
			text = percent(p.Share) + " " + text
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}

// spinShare says how much of the yarn is spun with which tool.
func (m *maker) spinShare(y cloth.Yarn) string {
	out := ""
	for _, tool := range []string{"spindle", "wheel"} {
		for _, t := range m.r.Hours.Tasks {
			if t.Key == "spin:"+y.Name+":"+tool {
				if out != "" {
					out += ", "
				}
				out += fmt.Sprintf("%s by %s", m.u.far(t.Quantity), tool)
			}
		}
	}
	return out
}

// lookFigure is what the yarn is held against: threads side by side in so many
// cm at 1 : 1, one thread at its thickness, the same ten times as thick with its
// twist, and the twist's angle.
func lookFigure(l look) paper.Block {
	return paper.Figure{HighCM: 6.2, Draw: func(c *paper.Canvas, wide float64) {
		thin := paper.Line{Width: 0.02, Colour: paper.Ink}
		wraps(c, l, 3)
		c.Text("wraps, 1 : 1", 0, 2.1, 8.5, false, paper.Faint)
		c.Segment(0, 3.1, 6, 3.1, paper.Line{Width: l.mm / 10, Colour: paper.Ink})
		c.Text(fmt.Sprintf("one thread, %s mm, 1 : 1", number(l.mm, 2)), 0, 3.3, 8.5, false, paper.Faint)
		enlarged(c, l, 8, 5.2)
		c.Text(fmt.Sprintf("10 times as large, %s twist", l.twist), 7.2, 5.4, 8.5, false, paper.Faint)
		x, lean := 13.5, 1.0
		if l.twist == "S" {
			lean = -1
		}
		a := l.angleDeg * math.Pi / 180
		c.Segment(x, 0.2, x, 5.2, thin)
		c.Segment(x-lean*2.5*math.Sin(a), 2.7+2.5*math.Cos(a), x+lean*2.5*math.Sin(a), 2.7-2.5*math.Cos(a), paper.Line{Width: 0.04, Colour: paper.Ink})
		c.Text(fmt.Sprintf("thread upright: fibres lean %s°", number(l.angleDeg, 0)), 11.6, 5.4, 8.5, false, paper.Faint)
	}}
}

// wraps draws threads side by side over so many cm, dark and light in turn, over
// a rule in cm and mm.
func wraps(c *paper.Canvas, l look, overCM float64) {
	d := l.mm / 10
	c.Clip(0, 0.2, overCM, 1.2)
	for i := 0; float64(i)*d < overCM; i++ {
		colour := paper.Ink
		if i%2 == 1 {
			colour = paper.Rule
		}
		c.Fill(paper.Rect(float64(i)*d, 0.2, d, 1.2), colour)
	}
	c.Unclip()
	thin := paper.Line{Width: 0.02, Colour: paper.Ink}
	c.Segment(0, 1.5, overCM, 1.5, thin)
	for mm := 0; float64(mm) <= overCM*10+1e-9; mm++ {
		long := 0.15
		if mm%10 == 0 {
			long = 0.35
			c.Text(fmt.Sprint(mm/10), float64(mm)/10+0.06, 1.65, 7, false, paper.Faint)
		}
		c.Segment(float64(mm)/10, 1.5, float64(mm)/10, 1.5+long, thin)
	}
}

// enlarged draws a thread upright about x, ten times as large, high cm long, with
// the lines that its surface fibres follow.
func enlarged(c *paper.Canvas, l look, x, high float64) {
	const times = 10.0
	d, turn := l.mm/10*times, times/l.turnsPerCM
	c.Fill(paper.Rect(x-d/2, 0.2, d, high-0.2), paper.Tint)
	c.Clip(x-d/2, 0.2, d, high-0.2)
	// A fibre climbs one turn a turn's height; half of it is on the side seen.
	for y := 0.2 - turn; y < high+turn; y += turn / 2 {
		var line []geometry.Point
		for i := range 21 {
			phase := math.Pi * (float64(i)/20 - 0.5)
			across := d / 2 * math.Sin(phase)
			if l.twist == "S" {
				across = -across
			}
			line = append(line, geometry.Point{X: x + across, Y: y - turn*phase/(2*math.Pi)})
		}
		c.Stroke(line, false, paper.Line{Width: 0.03, Colour: paper.Ink})
	}
	c.Unclip()
	c.Segment(x-d/2, 0.2, x-d/2, high, paper.Line{Width: 0.03, Colour: paper.Ink})
	c.Segment(x+d/2, 0.2, x+d/2, high, paper.Line{Width: 0.03, Colour: paper.Ink})
}
