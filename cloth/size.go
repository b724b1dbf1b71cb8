package cloth

import "fmt"

// Size is how coarse a yarn is, in a count system or in wraps. System "" is none.
type Size struct {
	System string // key of a CountSystem, or wraps_per_cm or wraps_per_inch
	Count  float64
}

// Wraps are no count: what they say of the grist hangs on a diameter rule.
const (
	WrapsPerCM   = "wraps_per_cm"
	WrapsPerInch = "wraps_per_inch"
)

// SizeSystem is one way to give a size.
type SizeSystem struct{ Key, Label string }

// SizeSystems are all ways to give a size: the count systems, then the wraps.
func SizeSystems() []SizeSystem {
	var out []SizeSystem
	for _, s := range CountSystems() {
		out = append(out, SizeSystem{s.Key, s.Label})
	}
	return append(out, SizeSystem{WrapsPerCM, "wraps per cm"}, SizeSystem{WrapsPerInch, "wraps per inch"})
}

// Given says whether there is a size at all.
func (s Size) Given() bool { return s.System != "" }

// tex is the size in tex; wraps go by the yarn's diameter rule.
func (s Size) tex(y Yarn) (float64, error) {
	if err := positive("the size in "+s.System, s.Count); err != nil {
		return 0, err
	}
	switch s.System {
	case WrapsPerCM:
		return y.rule().Tex(10/s.Count, y.DensityGPerCM3, y.PackingShare), nil
	case WrapsPerInch:
		return y.rule().Tex(10*cmPerInch/s.Count, y.DensityGPerCM3, y.PackingShare), nil
	}
	system, ok := CountSystemByKey(s.System)
	if !ok {
		return 0, &FieldError{"the size's system", s.System, "a count system known"}
	}
	return system.Tex(s.Count), nil
}

// CountIn is the yarn's grist in a size system; 0 for a system not known.
func (y Yarn) CountIn(key string) float64 {
	switch key {
	case WrapsPerCM:
		return 10 / y.rule().DiameterMM(y.Tex, y.DensityGPerCM3, y.PackingShare)
	case WrapsPerInch:
		return 10 * cmPerInch / y.rule().DiameterMM(y.Tex, y.DensityGPerCM3, y.PackingShare)
	}
	if system, ok := CountSystemByKey(key); ok {
		return system.Count(y.Tex)
	}
	return 0
}

// Skein is a measured length of the yarn. How damp it was is said by one of
// moisture content, regain or the room's humidity; none: it is taken as at the
// standard regain.
type Skein struct {
	LengthM         float64
	MassG           float64
	ContentShare    float64 // water ÷ all
	RegainShare     float64 // water ÷ dry fibre
	HumidityPercent float64 // of the room it lay in for a day
	StandardRegain  float64 // at which the grist is told; 0: the agreed one of combed wool
}

// Given says whether a skein was measured.
func (k Skein) Given() bool { return k.LengthM > 0 && k.MassG > 0 }

// regainNow is the skein's regain when it was weighed, and how that is known.
func (k Skein) regainNow() (share float64, from string) {
	switch {
	case k.RegainShare > 0:
		return k.RegainShare, "regain " + num(k.RegainShare) + ", given"
	case k.ContentShare > 0:
		r := RegainFromContent(k.ContentShare)
		return r, fmt.Sprintf("regain %s = %s content ÷ (1 − %s)", num(r), num(k.ContentShare), num(k.ContentShare))
	case k.HumidityPercent > 0:
		r := WoolRegainAtHumidity(k.HumidityPercent)
		return r, fmt.Sprintf("regain %s, wool's in a room at %s %% humidity (14 to 15 %% at 65 %%: docslides.com, IWTO-33; the rest of the curve from memory)", num(r), num(k.HumidityPercent))
	}
	return k.standard(), "no humidity given: taken as at the standard regain"
}

func (k Skein) standard() float64 {
	if k.StandardRegain > 0 {
		return k.StandardRegain
	}
	return AgreedRegains()[0].Fraction
}

// Regains are the skein's regain as it was weighed and the standard one.
func (k Skein) Regains() (now, standard float64) {
	now, _ = k.regainNow()
	return now, k.standard()
}

// MassAtStandardG is the skein's mass at the standard regain.
func (k Skein) MassAtStandardG() float64 {
	now, _ := k.regainNow()
	return MassAtRegainG(k.MassG, now, k.standard())
}

// Tex is the skein's grist at the standard regain.
func (k Skein) Tex() float64 { return k.MassAtStandardG() / k.LengthM * 1000 }

// WoolRegainAtHumidity is wool's regain in a room of that humidity, taken from
// a curve between wetting and drying: 14.5 % at 65 % is between the 14 and 15 of
// docslides.com, IWTO-33; the other points are from memory, good to about a
// hundredth. A weighed and dried sample is better.
func WoolRegainAtHumidity(humidityPercent float64) float64 {
	curve := []struct{ humidity, regain float64 }{{0, 0}, {10, 0.04}, {20, 0.06}, {30, 0.08}, {40, 0.10}, {50, 0.118}, {65, 0.145}, {80, 0.19}, {90, 0.235}, {100, 0.33}}
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1], curve[i]
		if humidityPercent <= b.humidity {
			return a.regain + (b.regain-a.regain)*(max(0, humidityPercent)-a.humidity)/(b.humidity-a.humidity)
		}
	}
	return curve[len(curve)-1].regain
}

// Worked is the yarn with its grist worked out from what is known of it, and
// where that comes from. A measured skein goes before what was planned; then
// the finished yarn's size, then that of its singles with plies and ply
// take-up, then the tex given.
func (y Yarn) Worked() (Yarn, error) {
	planned, from, err := y.planned()
	if err != nil {
		return y, err
	}
	if err := y.validThread(); err != nil {
		return y, err
	}
	if !y.Skein.Given() {
		y.Tex, y.Grist = planned, Figure{"tex:" + y.Name, "Grist of " + y.Name, planned, "tex", from}
		return y, nil
	}
	k := y.Skein
	if k.StandardRegain == 0 {
		k.StandardRegain = y.Regain
	}
	y.Skein, y.Regain = k, k.standard()
	now, words := k.regainNow()
	y.Tex = k.Tex()
	from = fmt.Sprintf("measured skein, %s: %s g ÷ (1 + %s) × (1 + %s standard regain) ÷ %s m × 1000 = %s tex",
		words, num(k.MassG), num(now), num(k.standard()), num(k.LengthM), num(y.Tex))
	if planned > 0 {
		y.PlannedTex = planned
	}
	y.Grist = Figure{"tex:" + y.Name, "Grist of " + y.Name, y.Tex, "tex", from}
	return y, nil
}

// GristFrom is where the yarn's grist comes from, in words.
func (y Yarn) GristFrom() string { return y.gristFigure().From }

// gristFigure is where the grist comes from.
func (y Yarn) gristFigure() Figure {
	f := y.Grist
	if y.PlannedTex > 0 {
		f.From += fmt.Sprintf("; %s tex was planned, so it is %s", num(y.PlannedTex), coarser(y.Tex, y.PlannedTex))
	}
	return f
}

func coarser(tex, plannedTex float64) string {
	switch off := 100 * (tex/plannedTex - 1); {
	case off > 0.05:
		return fmt.Sprintf("%.1f %% coarser", off)
	case off < -0.05:
		return fmt.Sprintf("%.1f %% finer", -off)
	}
	return "as planned"
}

// worked is the input with every yarn's grist worked out.
func (in Input) worked() (Input, error) {
	var err error
	if in.Warp, err = in.Warp.Worked(); err != nil {
		return in, err
	}
	if in.Weft, err = in.Weft.Worked(); err != nil {
		return in, err
	}
	others := make([]Yarn, len(in.Others))
	for i, y := range in.Others {
		if others[i], err = y.Worked(); err != nil {
			return in, err
		}
	}
	in.Others = others
	return in, nil
}

// planned is the grist without the skein.
func (y Yarn) planned() (tex float64, from string, err error) {
	switch {
	case y.Size.Given():
		tex, err = y.Size.tex(y)
		from = fmt.Sprintf("%s in %s, of the finished yarn", num(y.Size.Count), y.Size.System)
		if y.Size.System == WrapsPerCM || y.Size.System == WrapsPerInch {
			from += ", by " + y.rule().Label
		}
		return tex, from + " = " + num(tex) + " tex", err
	case y.Singles.Given():
		one, err := y.Singles.tex(y)
		plies := float64(max(1, y.Plies))
		tex = one * plies / (1 - y.PlyTakeUp)
		return tex, fmt.Sprintf("singles of %s in %s: %s tex × %d plies ÷ (1 − %s ply take-up) = %s tex",
			num(y.Singles.Count), y.Singles.System, num(one), max(1, y.Plies), num(y.PlyTakeUp), num(tex)), err
	}
	return y.Tex, "as given = " + num(y.Tex) + " tex", nil
}

// SinglesTex is the grist of one of the yarn's singles: the plied yarn is
// shorter than its singles by the ply take-up.
func (y Yarn) SinglesTex() float64 { return y.Tex * (1 - y.PlyTakeUp) / float64(max(1, y.Plies)) }

// SinglesM is the length of all singles together for so much plied yarn, in m.
func (y Yarn) SinglesM(pliedM float64) float64 {
	return pliedM / (1 - y.PlyTakeUp) * float64(max(1, y.Plies))
}

// validThread refuses what no yarn can have.
func (y Yarn) validThread() error {
	k, of := y.Skein, " of "+y.Name
	if _, ok := DiameterRuleByKey(y.DiameterRule); !ok {
		return &FieldError{"the diameter rule" + of, y.DiameterRule, "a rule known"}
	}
	for _, err := range []error{
		loss("the ply take-up"+of, y.PlyTakeUp), atLeast0("the twist in turns per cm"+of, y.TwistPerCM),
		atLeast0("the wraps per cm"+of, y.WrapsPerCM), atLeast0("the density"+of, y.DensityGPerCM3), share("the packing"+of, y.PackingShare),
		atLeast0("the skein's length in m"+of, k.LengthM), atLeast0("the skein's mass in g"+of, k.MassG), loss("the skein's moisture content"+of, k.ContentShare),
		loss("the skein's regain"+of, k.RegainShare), loss("the standard regain"+of, k.StandardRegain),
		within("the humidity in per cent"+of, k.HumidityPercent, k.HumidityPercent >= 0 && k.HumidityPercent <= 100, "0 to 100"),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}
