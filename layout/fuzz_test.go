package layout

import (
	"context"
	"encoding/binary"
	"math"
	"testing"
	"time"

	"ellwand/geometry"
)

// bytesFor takes what a problem is made of from the bytes of a fuzz run: mostly
// small numbers of quarter cm, so that things meet and are equal, and after 0xff
// any number there is.
type bytesFor struct{ raw []byte }

func (b *bytesFor) byte() byte {
	if len(b.raw) == 0 {
		return 0
	}
	v := b.raw[0]
	b.raw = b.raw[1:]
	return v
}

func (b *bytesFor) below(n int) int { return int(b.byte()) % n }

func (b *bytesFor) cm() float64 {
	switch v := b.byte(); {
	case v == 0xff && len(b.raw) >= 8:
		f := math.Float64frombits(binary.LittleEndian.Uint64(b.raw))
		b.raw = b.raw[8:]
		return f
	case v == 0xfe:
		return 0.001 * float64(b.byte()) // slivers
	case v == 0xfd:
		return 10 * float64(b.byte()) // long pieces
	default:
		return float64(v) / 4
	}
}

func (b *bytesFor) outline() geometry.Polygon {
	if b.below(3) == 0 {
		l, w := b.cm(), b.cm()
		return geometry.Polygon{{}, {X: l}, {X: l, Y: w}, {Y: w}}
	}
	var q geometry.Polygon
	for range 3 + b.below(6) {
		q = append(q, geometry.Point{X: b.cm(), Y: b.cm()})
	}
	if made, err := geometry.New(q); err == nil {
		return made
	}
	return q
}

func (b *bytesFor) item() Item {
	turns := [][]float64{{0}, {0, 180}, {0, 90, 180, 270}, {90, 270}}[b.below(4)]
	return Item{Outline: b.outline(), TurnsDeg: turns, MayFlip: b.below(2) == 0}
}

func (b *bytesFor) problem() Problem {
	p := Problem{WidthCM: b.cm()}
	if b.below(3) == 0 {
		p.GapCM = float64(b.below(8)) / 10
	}
	for range 1 + b.below(7) {
		it := b.item()
		for range 1 + b.below(2) { // duplicates
			p.Items = append(p.Items, it)
		}
	}
	if b.below(3) == 0 { // as wide as a piece to the last bit
		p.WidthCM = p.Items[0].Outline.Bounds().Height()
	}
	return p
}

// mustLay holds the first lay, and one that was searched for a little, to the
// exact check and to the rational one.
func mustLay(t *testing.T, p Problem) {
	if p.Validate() != nil {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	start, err := First(p)
	if err != nil {
		return
	}
	better, err := Improve(ctx, p, start, Settings{Seed: 1, MaxSteps: 6}, nil)
	if err != nil {
		t.Fatalf("the first lay was found, but then: %v", err)
	}
	for _, l := range []Lay{start, better} {
		if err := Check(p, l); err != nil {
			t.Fatalf("%v\n%+v\n%+v", err, p, l)
		}
		if err := clearOfAll(p, l); err != nil {
			t.Fatalf("%v\n%+v\n%+v", err, p, l)
		}
	}
	if better.LengthCM > start.LengthCM+1e-9 {
		t.Fatalf("searched for, the lay of %g cm becomes %g", start.LengthCM, better.LengthCM)
	}
	if low := LowerBound(p); low > better.LengthCM*(1+1e-9)+1e-6 {
		t.Fatalf("the bound is %g cm, the lay %g\n%+v", low, better.LengthCM, p)
	}
}

func seeds(f *testing.F) {
	f.Add([]byte{200, 1, 3, 0, 0, 100, 40, 1, 1, 0, 0, 100, 40, 1, 1})
	f.Add([]byte{160, 0, 3, 4, 1, 1, 2, 0, 0, 100, 0, 50, 80, 0, 1, 2, 1, 3, 0, 0, 80, 3, 80, 6, 0, 90, 1, 0})
	f.Add([]byte{120, 2, 2, 0, 0, 0xfe, 100, 0xfd, 100, 1, 0, 1, 0, 0xfd, 100, 40, 0, 1, 0})
	f.Add([]byte{0xff, 0, 0, 0, 0, 0, 0, 0xf8, 0x7f, 1, 1, 1, 0, 10, 10})
}

// FuzzLay makes any problem of any bytes.
func FuzzLay(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, raw []byte) { mustLay(t, (&bytesFor{raw}).problem()) })
}

// FuzzRealCloth puts flaws, measured and several lengths, repeats and pins
// beneath it, and asks what must move when the cloth has come out otherwise.
func FuzzRealCloth(f *testing.F) {
	seeds(f)
	f.Add([]byte{1, 3, 2, 40, 20, 52, 22, 46, 31, 2, 200, 1, 0, 0, 200, 3, 160, 2, 0, 0, 200, 3, 0, 0, 100, 40, 1, 0, 0, 0, 90, 40, 1, 0})
	f.Fuzz(func(t *testing.T, raw []byte) {
		b := &bytesFor{raw}
		var flaws []Flaw
		for range b.below(4) {
			flaws = append(flaws, Flaw{Outline: b.outline()})
		}
		var lengths []Length
		at := 0.0
		for range b.below(4) {
			l := Length{FromCM: at, ToCM: at + b.cm()}
			x := 0.0
			for range b.below(4) {
				l.Sides = append(l.Sides, Sides{x, b.cm(), b.cm()})
				x += b.cm()
			}
			lengths, at = append(lengths, l), l.ToCM+5
		}
		if len(lengths) > 0 {
			lengths = append(lengths, Length{FromCM: at, ToCM: math.Inf(1)})
		}
		repeat, ties, pin := b.cm(), b.byte(), b.byte()
		p := b.problem()
		was, err := First(p)
		p.Flaws, p.Lengths = flaws, lengths
		if ties%2 == 0 {
			mirror := b.cm()
			p.RepeatCM, p.MirrorCM = repeat, &mirror
			for i := range p.Items {
				if ties>>(1+i%6)%2 == 0 {
					p.Items[i].Along = Match{Group: 1, At: geometry.Point{X: b.cm()}, Toward: geometry.Point{X: 1}}
				}
			}
		}
		mustLay(t, p)
		if err != nil || p.Validate() != nil {
			return
		}
		if i := int(pin) % len(p.Items); pin > 128 {
			p.Items[i].Pinned = &was.Placements[i]
			if p.Validate() != nil {
				p.Items[i].Pinned = nil
			}
		}
		ctx, cancel := context.WithTimeout(context.Background(), time.Second)
		defer cancel()
		kept, err := Keep(ctx, p, was, was.LengthCM, Settings{Seed: 1})
		if err != nil {
			return // no lay within the time
		}
		if err := Check(p, kept.Lay); err != nil {
			t.Fatalf("what must move: %v\n%+v\n%+v", err, p, kept.Lay)
		}
	})
}
