package layout

import (
	"math/big"
	"slices"

	"ellwand/geometry"
)

// shareGround says whether two polygons share ground, in rationals and by other
// means than the check: between neighbouring corners and crossings along x, the
// stretches that each covers of the line halfway are compared.
func shareGround(p, q geometry.Polygon) bool {
	a, b := rational(p), rational(q)
	var xs []*big.Rat
	for _, v := range append(slices.Clone(a), b...) {
		xs = append(xs, v[0])
	}
	for i := range a {
		for j := range b {
			if x := crossingX(a[i], a[(i+1)%len(a)], b[j], b[(j+1)%len(b)]); x != nil {
				xs = append(xs, x)
			}
		}
	}
	slices.SortFunc(xs, func(u, v *big.Rat) int { return u.Cmp(v) })
	for k := 1; k < len(xs); k++ {
		if xs[k-1].Cmp(xs[k]) == 0 {
			continue
		}
		mid := new(big.Rat).Add(xs[k-1], xs[k])
		mid.Mul(mid, big.NewRat(1, 2))
		if meet(covered(a, mid), covered(b, mid)) {
			return true
		}
	}
	return false
}

type ratPoint [2]*big.Rat

// rational is the polygon's corners on the check's grid, as whole numbers.
func rational(p geometry.Polygon) []ratPoint {
	var out []ratPoint
	for _, v := range gridded(p) {
		out = append(out, ratPoint{new(big.Rat).SetFloat64(v.X), new(big.Rat).SetFloat64(v.Y)})
	}
	return out
}

// crossingX is where the lines through two edges cross, nil for parallel ones.
func crossingX(a, b, c, d ratPoint) *big.Rat {
	sub := func(u, v *big.Rat) *big.Rat { return new(big.Rat).Sub(u, v) }
	mul := func(u, v *big.Rat) *big.Rat { return new(big.Rat).Mul(u, v) }
	rx, ry, sx, sy := sub(b[0], a[0]), sub(b[1], a[1]), sub(d[0], c[0]), sub(d[1], c[1])
	det := sub(mul(rx, sy), mul(ry, sx))
	if det.Sign() == 0 {
		return nil
	}
	t := sub(mul(sub(c[0], a[0]), sy), mul(sub(c[1], a[1]), sx))
	t.Quo(t, det)
	return new(big.Rat).Add(a[0], mul(t, rx))
}

// covered is the stretches of the upright line at x inside the polygon.
func covered(p []ratPoint, x *big.Rat) [][2]*big.Rat {
	var ys []*big.Rat
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a[0].Cmp(x) < 0) == (b[0].Cmp(x) < 0) {
			continue
		}
		t := new(big.Rat).Quo(new(big.Rat).Sub(x, a[0]), new(big.Rat).Sub(b[0], a[0]))
		ys = append(ys, new(big.Rat).Add(a[1], t.Mul(t, new(big.Rat).Sub(b[1], a[1]))))
	}
	slices.SortFunc(ys, func(u, v *big.Rat) int { return u.Cmp(v) })
	var out [][2]*big.Rat
	for k := 0; k+1 < len(ys); k += 2 {
		out = append(out, [2]*big.Rat{ys[k], ys[k+1]})
	}
	return out
}

func meet(a, b [][2]*big.Rat) bool {
	for _, u := range a {
		for _, v := range b {
			lo, hi := u[0], u[1]
			if v[0].Cmp(lo) > 0 {
				lo = v[0]
			}
			if v[1].Cmp(hi) < 0 {
				hi = v[1]
			}
			if lo.Cmp(hi) < 0 {
				return true
			}
		}
	}
	return false
}
