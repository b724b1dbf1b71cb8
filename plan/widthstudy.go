package plan

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"ellwand/cloth"
	"ellwand/layout"
)

// maxWidths is how many widths a study looks at first; where the reed has more
// whole dents, they are thinned evenly, and all those around the narrowest
// width that fits are looked at after.
const maxWidths = 60

// Widths is the cloth at every finished width in whole dents, from the
// narrowest that takes every piece to the widest the loom weaves, and at the
// width of the lay there is. That is shown's, which may be nil, and the one kept
// in the plan, as far as they still serve: no row as wide or wider is longer.
// o.Seconds is shared by all widths. When ctx is done, the rows so far are given
// with ctx's error.
func Widths(ctx context.Context, p *Plan, shown *Result, o Options, progress func(done, all int)) ([]WidthRow, error) {
	pr, err := prepareItems(p)
	if err != nil {
		return nil, err
	}
	pr.Problem.WidthCM = max(widestWoven(p), layout.NarrowestCM(pr.Problem))
	if len(p.Real.inHand()) == 0 { // else the flaws are those of cloth woven already
		if err := pr.layFlaws(p); err != nil {
			return nil, err
		}
	}
	pr.pin(p.Lay)
	all := cloth.WidthSteps(p.setting(), p.Loom, layout.NarrowestCM(pr.Problem))
	if len(all) == 0 {
		return []WidthRow{}, nil
	}
	chosen := thinned(len(all), maxWidths)
	gap := 0 // widths left out between two chosen
	if len(chosen) > 1 {
		gap = chosen[1] - chosen[0]
	}
	st := &widthStudy{ctx: ctx, p: p, base: pr.Problem, o: o, known: presentLays(p, pr, shown),
		lays: map[int]layout.Lay{}, searched: map[int]bool{}, bounds: map[int]float64{}, widthsCM: all}
	for _, l := range st.known {
		chosen = st.withWidth(l.WidthCM, chosen)
	}
	secs := max(0, o.Seconds)
	secs -= min(secs/10, st.boundTime().Seconds())
	left := secs * float64(gap) / float64(len(chosen)+gap)
	if err := st.lay(chosen, secs-left, progress); err != nil {
		rows, _ := st.rows()
		return rows, err
	}
	if err := st.refine(chosen, left); err != nil {
		rows, _ := st.rows()
		return rows, err
	}
	if progress != nil {
		progress(len(chosen), len(chosen))
	}
	return st.rows()
}

// presentLays is the lay shown and the one kept in the plan, those that place
// the study's pieces soundly on cloth of their own width.
func presentLays(p *Plan, pr *Prepared, shown *Result) []layout.Lay {
	var out []layout.Lay
	add := func(l layout.Lay) {
		at := pr.Problem
		at.WidthCM = l.WidthCM
		l.LengthCM = layout.ReachCM(at, l.Placements)
		if layout.Check(at, l) == nil {
			out = append(out, l)
		}
	}
	if kept, ok := LayAsLeft(p, pr); ok {
		kept.WidthCM = p.Lay.WidthCM
		add(kept)
	}
	same := func(a, b layout.Item) bool { return a.ID == b.ID }
	if shown != nil && slices.EqualFunc(shown.Prepared.Problem.Items, pr.Problem.Items, same) {
		add(shown.Lay)
	}
	return out
}

// sameWidthCM is how near two widths are that count as one: far less than a dent.
const sameWidthCM = 1e-3

// withWidth puts one more width, at which the pieces are known to lie, among
// those of the study and those chosen of them, if the loom weaves it.
func (st *widthStudy) withWidth(widthCM float64, chosen []int) []int {
	all := st.widthsCM
	k, _ := slices.BinarySearch(all, widthCM-sameWidthCM)
	if k == len(all) {
		return chosen
	}
	if all[k] > widthCM+sameWidthCM {
		st.widthsCM = slices.Insert(slices.Clone(all), k, widthCM)
		chosen = slices.Clone(chosen)
		for n := range chosen {
			if chosen[n] >= k {
				chosen[n]++
			}
		}
	}
	if n, there := slices.BinarySearch(chosen, k); !there {
		chosen = slices.Insert(chosen, n, k)
	}
	return chosen
}

// thinned is at most `most` of the numbers 0 to n−1, evenly spread, the first
// and the last among them.
func thinned(n, most int) []int {
	var out []int
	if n <= most {
		for i := range n {
			out = append(out, i)
		}
		return out
	}
	for k := range most {
		out = append(out, k*(n-1)/(most-1))
	}
	return out
}

// widthStudy holds the lays found, by index of width.
type widthStudy struct {
	ctx      context.Context
	p        *Plan
	base     layout.Problem
	o        Options
	known    []layout.Lay // that there were before
	lays     map[int]layout.Lay
	searched map[int]bool
	bounds   map[int]float64 // no lay there can be shorter
	widthsCM []float64
}

// lay lays the pieces at some of the widths, in so many seconds in all.
func (st *widthStudy) lay(some []int, secs float64, progress func(done, all int)) error {
	widths := make([]float64, len(some))
	for n, i := range some {
		widths[n] = st.widthsCM[i]
	}
	began := time.Now()
	told, known := 0, map[int]bool{}
	found := func(n int, _ layout.Lay) {
		if progress == nil {
			return
		}
		known[n] = true
		done := len(known)
		if secs > 0 { // every width is searched again: what is done is the time
			done = min(len(some), int(float64(len(some))*time.Since(began).Seconds()/secs))
		}
		if done > told {
			told = done
			progress(done, len(some))
		}
	}
	there := slices.Clone(st.known)
	for _, i := range sortedKeys(st.lays) {
		there = append(there, st.lays[i])
	}
	study, err := layout.Widths(st.ctx, st.base, widths, there, layout.Settings{Seed: st.o.Seed, Threads: st.o.Threads}, seconds(max(0, secs)), found)
	for n, l := range study.Lays {
		if len(l.Placements) == 0 {
			continue
		}
		p := st.base
		p.WidthCM = l.WidthCM
		if err := layout.Check(p, l); err != nil {
			return fmt.Errorf("the lay found at %.1f cm is not sound: %w", p.WidthCM, err)
		}
		st.lays[some[n]], st.searched[some[n]] = l, study.Searched[n]
	}
	if err != nil {
		return err
	}
	if len(st.lays) == 0 {
		return fmt.Errorf("the pieces cannot be laid at any width from %.1f to %.1f cm", widths[0], widths[len(widths)-1])
	}
	return nil
}

// refine looks at the widths left out just below the first that fits, so that
// the narrowest that fits is found to the dent.
func (st *widthStudy) refine(chosen []int, secs float64) error {
	for n, i := range chosen {
		if _, ok := st.lays[i]; !ok {
			continue
		}
		row, err := st.row(i) // without its bound yet
		if err != nil {
			return err
		}
		if !row.Fits {
			continue
		}
		if n == 0 || chosen[n-1]+1 == i {
			return nil
		}
		var between []int
		for k := chosen[n-1] + 1; k < i; k++ {
			between = append(between, k)
		}
		return st.lay(between, secs, nil)
	}
	return nil
}

// rows is a row for every width laid, from the narrowest up.
func (st *widthStudy) rows() ([]WidthRow, error) {
	rows := []WidthRow{}
	st.boundAll()
	var shortest layout.Lay // of narrower cloth
	for i := range st.widthsCM {
		l, ok := st.lays[i]
		if !ok {
			continue
		}
		p := st.base
		p.WidthCM = l.WidthCM
		narrower := shortest
		narrower.WidthCM = l.WidthCM
		if len(shortest.Placements) > 0 && shortest.LengthCM < l.LengthCM && layout.Check(p, narrower) == nil {
			st.lays[i] = narrower
		}
		if shortest = st.lays[i]; len(shortest.Placements) == 0 {
			continue
		}
		row, err := st.row(i)
		if err != nil {
			return rows, err
		}
		rows = append(rows, row)
	}
	return rows, nil
}

func (st *widthStudy) row(i int) (WidthRow, error) {
	lay := st.lays[i]
	at := *st.p
	at.Cloth.FinishedWidthCM = lay.WidthCM
	c, err := reckonCloth(&at, lay.WidthCM, lay.LengthCM)
	if err != nil {
		return WidthRow{}, err
	}
	problem := st.base
	problem.WidthCM = lay.WidthCM
	row := WidthRow{
		WidthCM: lay.WidthCM, LengthCM: lay.LengthCM, LowerBoundCM: st.bounds[i], AreaCM2: lay.WidthCM * lay.LengthCM,
		UsePercent: layout.UsePercent(problem, lay),
		WarpM:      float64(c.Ends) * c.WarpLengthCM / 100,
		Warps:      max(1, c.Warps),
	}
	row.Searched = st.searched[i] || row.ProvedShortest()
	for _, y := range c.Yarns {
		row.WeftM += y.LengthM
		row.MassG += y.MassG
	}
	row.WeftM -= row.WarpM
	row.Why, err = whyNot(&at, lay, c)
	row.Fits = row.Why == ""
	return row, err
}

// whyNot is why the lay cannot be cut from one warp of the loom and the yarn and
// wool there are; "" when it can.
func whyNot(p *Plan, lay layout.Lay, c cloth.Reckoning) (string, error) {
	in, err := p.clothInput(lay.WidthCM, lay.LengthCM)
	if err != nil {
		return "", err
	}
	switch most := cloth.MaxFinishedLengthCM(in); {
	case len(c.Shortfalls) > 0:
		return c.Shortfalls[0].Text, nil
	case lay.LengthCM > most+1e-6:
		return fmt.Sprintf("One warp makes at most %.1f cm of finished cloth.", most), nil
	}
	return "", nil
}

// WidthsText is the table in words, widths and lengths in cm or inches.
func WidthsText(rows []WidthRow, units string) string {
	var b strings.Builder
	if len(rows) == 0 {
		return "The loom weaves no width at which every piece fits.\n"
	}
	short, proved := "cm", false
	if units == "inch" {
		short = "in"
	}
	fmt.Fprintf(&b, "%9s %9s %11s %7s %8s %8s %8s  %s\n", "width "+short, "length "+short, "at least "+short, "used %", "warp m", "weft m", "mass g", "fits")
	for _, r := range rows {
		fits := "yes"
		if !r.Fits {
			fits = "no: " + r.Why
		}
		bound := fmt.Sprintf("%.1f", shown(r.LowerBoundCM, units))
		if r.ProvedShortest() {
			bound, proved = "proved", true
		}
		fmt.Fprintf(&b, "%9.1f %9.1f %11s %7.1f %8.0f %8.0f %8.0f  %s\n", shown(r.WidthCM, units), shown(r.LengthCM, units), bound, r.UsePercent, r.WarpM, r.WeftM, r.MassG, fits)
	}
	b.WriteString("\nAt least: no lay at that width can be shorter")
	if proved {
		b.WriteString("; proved: this one is as short as can be")
	}
	b.WriteString(".\n")
	if n := OnlyFirst(rows); n > 0 {
		fmt.Fprintf(&b, "%d of %d widths were only laid for a first time, as there was no time to search them: they may go shorter.\n", n, len(rows))
	}
	if n, ok := Narrowest(rows); ok {
		fmt.Fprintf(&b, "The narrowest that fits is %s wide and %s long.\n", lengthText(n.WidthCM, units), lengthText(n.LengthCM, units))
	} else {
		b.WriteString("At none of these widths can it be made as it stands.\n")
	}
	shortest := slices.MinFunc(rows, func(a, b WidthRow) int {
		switch {
		case a.AreaCM2 < b.AreaCM2:
			return -1
		case a.AreaCM2 > b.AreaCM2:
			return 1
		}
		return 0
	})
	fmt.Fprintf(&b, "Least cloth is taken at %s wide: %.2f m² of finished cloth.\n", lengthText(shortest.WidthCM, units), shortest.AreaCM2/1e4)
	if len(rows) >= maxWidths {
		fmt.Fprintf(&b, "Not every whole dent has a row: about %d widths are spread evenly over what the loom weaves.\n", maxWidths)
	}
	return b.String()
}
