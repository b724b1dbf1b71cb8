package layout

import "math"

// column is one variable of a linear program: what it costs, and its share in
// some of the rows.
type column struct {
	cost float64
	rows []int
	at   []float64
}

// simplex is a linear program, min Σ cost·x with rows·x = rhs and x ≥ 0, that
// grows by columns: the inverse of the basis, kept whole, and its solution. It
// is only a guide; what it gives is proved elsewhere.
type simplex struct {
	basis   []column
	inverse [][]float64
	x       []float64
}

// duals is each row's price, by the columns in the basis.
func (s *simplex) duals() []float64 {
	y := make([]float64, len(s.basis))
	for i, c := range s.basis {
		if c.cost == 0 {
			continue
		}
		for j, v := range s.inverse[i] {
			y[j] += c.cost * v
		}
	}
	return y
}

// gain is how much less the whole costs for each unit of c, at these prices.
func (c column) gain(duals []float64) float64 {
	g := -c.cost
	for k, r := range c.rows {
		g += c.at[k] * duals[r]
	}
	return g
}

// enter takes c into the basis; false when nothing bounds it or the step would
// lose all precision.
func (s *simplex) enter(c column) bool {
	const small = 1e-9
	n := len(s.basis)
	d := make([]float64, n)
	for i := range n {
		for k, r := range c.rows {
			d[i] += s.inverse[i][r] * c.at[k]
		}
	}
	out, step := -1, math.Inf(1)
	for i := range n {
		if d[i] <= small {
			continue
		}
		if t := max(0, s.x[i]) / d[i]; t < step-1e-12 || t < step+1e-12 && d[i] > d[out] {
			out, step = i, t
		}
	}
	if out < 0 {
		return false
	}
	for j := range n {
		s.inverse[out][j] /= d[out]
	}
	s.x[out] = step
	for i := range n {
		if i == out || d[i] == 0 {
			continue
		}
		for j := range n {
			s.inverse[i][j] -= d[i] * s.inverse[out][j]
		}
		s.x[i] -= d[i] * step
	}
	s.basis[out] = c
	return true
}
