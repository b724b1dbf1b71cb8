package judges

import (
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"ellwand/geometry"
	"ellwand/layout"
)

// Two judges that share no code: the exact check of package layout, and the
// geometry library simplefeatures, which follows the OGC's Simple Feature Access
// (its DE-9IM matrix says whether the insides of two polygons meet). They must
// agree on every pair, near-touching ones above all, and on all that the packer
// lays.

// gridCM is the grid on which the check is exact, as layout.Check documents.
const gridCM = 1e-6

// gridded is q in whole multiples of gridCM.
func gridded(q geometry.Polygon) geometry.Polygon {
	out := make(geometry.Polygon, len(q))
	for i, v := range q {
		out[i] = geometry.Point{X: math.Round(v.X / gridCM), Y: math.Round(v.Y / gridCM)}
	}
	return out
}

// overlap is the check's verdict on two outlines as they lie, in cm.
func overlap(t testing.TB, a, b geometry.Polygon) bool {
	lie := func(id string, q geometry.Polygon) layout.Item {
		return layout.Item{ID: id, Outline: q, TurnsDeg: []float64{0}}
	}
	const far = 1000 // so that both lie well within the strip
	p := layout.Problem{WidthCM: 2 * far, Items: []layout.Item{lie("a", a.Translate(far, far)), lie("b", b.Translate(far, far))}}
	l := layout.Lay{WidthCM: 2 * far, LengthCM: 2 * far, Placements: make([]layout.Placement, 2)}
	err := layout.Check(p, l)
	if err == nil {
		return false
	}
	var f *layout.Fault
	if !errors.As(err, &f) || f.Kind != layout.Overlapping {
		t.Errorf("%v and %v: %v", a, b, err)
	}
	return true
}

// outlineOf is a polygon for the library, of whole numbers.
func outlineOf(t testing.TB, q geometry.Polygon) geom.Geometry {
	p := geom.NewPolygon([]geom.LineString{edgesOf(q).MustAsLineString()})
	if err := p.Validate(); err != nil {
		t.Errorf("the library refuses %v: %v", q, err)
	}
	return p.AsGeometry()
}

// edgesOf is a polygon's outline alone.
func edgesOf(q geometry.Polygon) geom.Geometry {
	var xy []float64
	for _, v := range append(q[:len(q):len(q)], q[0]) {
		xy = append(xy, v.X, v.Y)
	}
	return geom.NewLineString(geom.NewSequence(xy, geom.DimXY)).AsGeometry()
}

// insidesMeet is the library's verdict on two outlines in grid units.
func insidesMeet(t testing.TB, a, b geometry.Polygon) bool {
	m, err := geom.Relate(outlineOf(t, a), outlineOf(t, b))
	if err != nil {
		t.Errorf("the library cannot judge %v and %v: %v", a, b, err)
		return false
	}
	return m[0] == '2'
}

// anyPiece has 3 to 7 corners on half centimetres, hollow ones too.
func anyPiece(r *rand.Rand) geometry.Polygon {
	for {
		pts := make([]geometry.Point, 3+r.IntN(5))
		for i := range pts {
			pts[i] = geometry.Point{X: float64(r.IntN(60)) / 2, Y: float64(r.IntN(60)) / 2}
		}
		if p, err := geometry.New(pts); err == nil {
			return p
		}
	}
}

// laidClose puts b where a corner of it lies on an edge of a, or a corner of a on
// an edge of b, and then off it by a little or nothing.
func laidClose(r *rand.Rand, a, b geometry.Polygon) geometry.Polygon {
	i, j := r.IntN(len(a)), r.IntN(len(b))
	u, v := a[i], a[(i+1)%len(a)]
	along := []float64{0, 0.25, 0.5, 1, r.Float64()}[r.IntN(5)]
	at := geometry.Point{X: u.X + along*(v.X-u.X), Y: u.Y + along*(v.Y-u.Y)}
	off := []float64{0, 0, gridCM, 2 * gridCM, 1e-5, 1e-3, 0.1, 2}[r.IntN(8)] * float64(1-2*r.IntN(2))
	long := math.Hypot(v.X-u.X, v.Y-u.Y)
	dx, dy := at.X-b[j].X-off*(v.Y-u.Y)/long, at.Y-b[j].Y+off*(v.X-u.X)/long
	return b.Translate(dx, dy)
}

// judged counts what was tried.
type judged struct{ pairs, meet, close int }

func (j *judged) add(k judged) {
	j.pairs += k.pairs
	j.meet += k.meet
	j.close += k.close
}

// inParallel shares cases out over the cores, each part with its own seed.
func inParallel(cases int, part func(seed uint64, cases int) judged) judged {
	var all judged
	var mu sync.Mutex
	var wait sync.WaitGroup
	n := runtime.GOMAXPROCS(0)
	for k := range n {
		wait.Go(func() {
			j := part(uint64(k), cases/n)
			mu.Lock()
			all.add(j)
			mu.Unlock()
		})
	}
	wait.Wait()
	return all
}

func TestCheckAgreesWithAnIndependentLibrary(t *testing.T) {
	all := inParallel(100_000, func(seed uint64, cases int) (out judged) {
		r := rand.New(rand.NewPCG(seed, 6))
		for range cases {
			a, b := anyPiece(r), anyPiece(r)
			if r.IntN(4) == 0 {
				b = a
			}
			if r.IntN(8) == 0 {
				deg := r.Float64() * 360
				a, b = a.Turn(deg), b.Turn(deg)
			}
			b = laidClose(r, a, b)
			ga, gb := gridded(a), gridded(b)
			if geometry.Validate(ga) != nil || geometry.Validate(gb) != nil {
				continue
			}
			ours, theirs := overlap(t, a, b), insidesMeet(t, ga, gb)
			if ours != theirs || overlap(t, b, a) != ours {
				t.Errorf("%v\n%v:\noverlap by the check: %v, by the library: %v", ga, gb, ours, theirs)
				if t.Failed() {
					return out
				}
			}
			out.pairs++
			if ours {
				out.meet++
			}
			if d, ok := geom.Distance(edgesOf(ga), edgesOf(gb)); ok && d < 3 {
				out.close++
			}
		}
		return out
	})
	t.Logf("%d pairs, %d of them overlap, the outlines of %d meet or are less than 0.03 µm apart", all.pairs, all.meet, all.close)
	if all.pairs < 95_000 || all.meet < 20_000 || all.pairs-all.meet < 20_000 {
		t.Errorf("the cases try little: %+v", all)
	}
}

func TestAllThatThePackerLaysPassesBothJudges(t *testing.T) {
	all := inParallel(2500, func(seed uint64, cases int) (out judged) {
		r := rand.New(rand.NewPCG(seed, 7))
		for range cases {
			p := layout.Problem{WidthCM: 35 + 40*r.Float64()}
			for i := range 10 {
				turns := [][]float64{{0}, {0, 180}, {0, 90, 180, 270}}[r.IntN(3)]
				p.Items = append(p.Items, layout.Item{ID: string(rune('a' + i)), Outline: anyPiece(r), TurnsDeg: turns, MayFlip: r.IntN(2) == 0})
			}
			l, err := layout.First(p)
			if err != nil {
				t.Errorf("%v: %v", p, err)
				return out
			}
			if err := layout.Check(p, l); err != nil {
				t.Errorf("the packer lays what the check refuses: %v\n%v", err, p)
				return out
			}
			out.add(pairsApart(t, p, l))
		}
		return out
	})
	t.Logf("%d pairs laid by the packer, the outlines of %d meet or are less than 0.1 mm apart", all.pairs, all.close)
	if all.pairs < 100_000 || all.close < 10_000 {
		t.Errorf("the cases try little: %+v", all)
	}
}

// pairsApart has the library look at every two pieces of a lay.
func pairsApart(t testing.TB, p layout.Problem, l layout.Lay) (out judged) {
	var placed []geometry.Polygon
	for i, it := range p.Items {
		placed = append(placed, gridded(layout.Placed(it, l.Placements[i])))
	}
	for i, a := range placed {
		for _, b := range placed[:i] {
			out.pairs++
			if insidesMeet(t, a, b) {
				t.Errorf("the packer lays %v over %v, says the library", a, b)
				out.meet++
			}
			if d, ok := geom.Distance(edgesOf(a), edgesOf(b)); ok && d < 0.01/gridCM {
				out.close++
			}
		}
	}
	return out
}
