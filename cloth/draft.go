package cloth

import (
	"fmt"
	"strings"
)

// MaxDraft is the most ends, and the most picks, of a draft's repeat.
const MaxDraft = 64

// Draft is the repeat of an interlacing: Draft[pick][end] says whether the warp
// lies over the weft. The first pick woven is the first row.
type Draft [][]bool

// ParseDraft reads rows of marks, one row for each pick: X, #, 1 or ■ where the
// warp lies over the weft, ., -, 0, o or □ where under it; spaces say nothing.
// The error says what is wrong with the rows, to stand after the field's name.
func ParseDraft(rows []string) (Draft, error) {
	if len(rows) == 0 || len(rows) > MaxDraft {
		return nil, fmt.Errorf("has %d rows, from 1 to %d can be", len(rows), MaxDraft)
	}
	var d Draft
	for i, row := range rows {
		var marks []bool
		for _, r := range row {
			switch {
			case strings.ContainsRune("Xx#1■", r):
				marks = append(marks, true)
			case strings.ContainsRune(".-0oO□", r):
				marks = append(marks, false)
			case r != ' ':
				return nil, fmt.Errorf("has the mark %q in row %d", r, i+1)
			}
		}
		if len(marks) == 0 || len(marks) > MaxDraft {
			return nil, fmt.Errorf("has %d marks in row %d, from 1 to %d can be", len(marks), i+1, MaxDraft)
		}
		if i > 0 && len(marks) != len(d[0]) {
			return nil, fmt.Errorf("has %d marks in row %d but %d in the first", len(marks), i+1, len(d[0]))
		}
		d = append(d, marks)
	}
	return d, d.interlaced()
}

// interlaced refuses a draft in which a thread lies on one face all along: such
// a thread is not woven in.
func (d Draft) interlaced() error {
	for i := range d {
		if d.pickChanges(i) == 0 {
			return fmt.Errorf("leaves the pick of row %d on one face: it would not be woven in", i+1)
		}
	}
	for e := range d[0] {
		if d.endChanges(e) == 0 {
			return fmt.Errorf("leaves the end of mark %d on one face: it would not be woven in", e+1)
		}
	}
	return nil
}

// pickChanges is how often a pick changes face across the ends of a repeat.
func (d Draft) pickChanges(pick int) int {
	n, row := 0, d[pick]
	for e := range row {
		if row[e] != row[(e+1)%len(row)] {
			n++
		}
	}
	return n
}

// endChanges is how often an end changes face along the picks of a repeat.
func (d Draft) endChanges(end int) int {
	n := 0
	for i := range d {
		if d[i][end] != d[(i+1)%len(d)][end] {
			n++
		}
	}
	return n
}

// mostChanges are the intersections of the pick, and of the end, that change
// face most often: where the threads are most crowded, they set the sett.
func (d Draft) mostChanges() (pick, end int) {
	for i := range d {
		pick = max(pick, d.pickChanges(i))
	}
	for e := range d[0] {
		end = max(end, d.endChanges(e))
	}
	return pick, end
}

// stepped is a draft of ends that follow one row, each pick moved on by so many.
func stepped(row []bool, step int) Draft {
	n := len(row)
	d := make(Draft, n)
	for i := range d {
		d[i] = make([]bool, n)
		for e := range d[i] {
			d[i][e] = row[((e-i*step)%n+n)%n]
		}
	}
	return d
}

// floats is a row of so many ends up and then so many down.
func floats(up, down int) []bool {
	row := make([]bool, up+down)
	for i := range up {
		row[i] = true
	}
	return row
}

// blocks is a draft in which every thread of d is repeated: a basket from a tabby.
func blocks(d Draft, ends, picks int) Draft {
	var out Draft
	for _, row := range d {
		var wide []bool
		for _, m := range row {
			for range ends {
				wide = append(wide, m)
			}
		}
		for range picks {
			out = append(out, wide)
		}
	}
	return out
}

// pointed is a twill that turns after so many ends and picks: its rows and
// columns run to and fro, which makes lozenges.
func pointed(d Draft, ends, picks int) Draft {
	fro := func(n, i int) int {
		if round := 2 * (n - 1); i%round < n {
			return i % round
		} else {
			return round - i%round
		}
	}
	out := make(Draft, 2*(picks-1))
	for i := range out {
		for e := range 2 * (ends - 1) {
			out[i] = append(out[i], d[fro(picks, i)%len(d)][fro(ends, e)%len(d[0])])
		}
	}
	return out
}

// picked takes the rows of d in another order: a broken twill.
func picked(d Draft, rows ...int) Draft {
	var out Draft
	for _, i := range rows {
		out = append(out, d[i])
	}
	return out
}
