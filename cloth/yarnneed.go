package cloth

import (
	"fmt"
	"strings"
)

// yarns works out length and mass of every yarn, in warp and in weft.
func (w *work) yarns() {
	s, r, in := w.s, &w.r, w.in
	inDents := w.sley.endsIn(r.Dents)
	r.WarpStripes = in.warpStripes(inDents)
	r.WeftStripes = Threads(s.WeftOrder, in.Weft.Name, r.Picks)
	warpM := float64(r.Ends) * r.WarpLengthCM / 100
	w.figure("warp_m", "Warp yarn", warpM, "m", "%d ends × %s cm ÷ 100", r.Ends, num(r.WarpLengthCM))
	pickCM := s.pickCM(r.ReedWidthCM)
	weftM := float64(r.Picks) * pickCM / 100
	w.figure("weft_m", "Weft yarn", weftM, "m", "%d picks × (%s cm in the reed × (1 + %s crimp) + %s cm turn) ÷ 100", r.Picks, num(r.ReedWidthCM), num(s.WeftCrimp), num(s.WeftTurnCM))
	headingM := w.headings(pickCM)
	ends, picks := in.endsOf(inDents), in.picksOf(r.Picks)
	inCloth := []string{}
	inClothG := 0.0
	for _, y := range in.Yarns() {
		n := YarnNeed{Name: y.Name, Yarn: y, Ends: ends[y.Name], Picks: picks[y.Name]}
		n.WarpM = float64(n.Ends) * r.WarpLengthCM / 100
		n.WeftM = float64(n.Picks) * pickCM / 100
		if y.Name == s.HeadingYarn {
			n.HeadingM = headingM
		}
		n.LengthM = n.WarpM + n.WeftM + n.HeadingM
		n.MassG = n.LengthM * y.Tex / 1000
		if n.LengthM == 0 && (y.Name != in.Warp.Name && y.Name != in.Weft.Name || len(s.WarpOrder)+len(s.WeftOrder) > 0) {
			continue
		}
		n.Figures = w.needFigures(n, y, pickCM)
		r.Yarns = append(r.Yarns, n)
		clothM := float64(n.Ends)*r.WovenLengthCM/100 + n.WeftM
		inClothG += clothM * y.Tex / 1000
		inCloth = append(inCloth, fmt.Sprintf("%s m × %s tex", num(clothM), num(y.Tex)))
	}
	area := w.realWidthCM() * r.FinishedLengthCM / 1e4
	r.ClothG = inClothG
	r.MassGPerM2 = inClothG / area
	w.figure("mass_g_per_m2", "Mass of the finished cloth", r.MassGPerM2, "g/m²", "yarn in the cloth, warp as woven and weft, fibre lost in fulling not taken off: (%s) ÷ 1000 ÷ %s m²", strings.Join(inCloth, " + "), num(area))
}

// headings is the weft of samples and headings, in m.
func (w *work) headings(pickCM float64) float64 {
	s, r := w.s, &w.r
	extra := (s.SampleCM + s.HeadingCM) * float64(r.Warps)
	if extra <= 0 {
		return 0
	}
	m := extra * r.PicksPerCMOnLoom * pickCM / 100
	where := "not in the weft above, any like yarn serves"
	if s.HeadingYarn != "" {
		where = "of " + s.HeadingYarn + ", counted with that yarn"
	}
	w.figure("heading_weft_m", "Weft for samples and headings, besides", m, "m", "%s: %s cm × %s picks per cm × %s cm a pick ÷ 100", where, num(extra), num(r.PicksPerCMOnLoom), num(pickCM))
	return m
}

// needFigures is one yarn's length and mass and what they come from.
func (w *work) needFigures(n YarnNeed, y Yarn, pickCM float64) []Figure {
	var parts []string
	for _, p := range []struct {
		m    float64
		text string
	}{
		{n.WarpM, fmt.Sprintf("%d ends × %s m of warp", n.Ends, num(w.r.WarpLengthCM/100))},
		{n.WeftM, fmt.Sprintf("%d picks × %s m of weft", n.Picks, num(pickCM/100))},
		{n.HeadingM, fmt.Sprintf("%s m of weft for samples and headings", num(n.HeadingM))},
	} {
		if p.m > 0 {
			parts = append(parts, p.text)
		}
	}
	if len(parts) == 0 {
		parts = []string{"0 ends and picks of it"}
	}
	return []Figure{
		y.gristFigure(),
		{"yarn_m:" + n.Name, "Length of " + n.Name, n.LengthM, "m", fmt.Sprintf("%s = %s m", strings.Join(parts, " + "), num(n.LengthM))},
		{"yarn_g:" + n.Name, "Mass of " + n.Name, n.MassG, "g", fmt.Sprintf("%s m × %s tex ÷ 1000 = %s g", num(n.LengthM), num(y.Tex), num(n.MassG))},
	}
}

// Root is the yarn that lies in hand: itself, or what it was before it was dyed.
func (y Yarn) Root() string { return orDefault(y.DyedFrom, y.Name) }

// shortOfYarn says which yarn in hand does not reach; what is dyed of a yarn
// comes out of the same hand.
func (w *work) shortOfYarn() {
	needM, dyed := map[string]float64{}, map[string]int{}
	for _, n := range w.r.Yarns {
		needM[n.Yarn.Root()] += n.LengthM
		dyed[n.Yarn.Root()]++
	}
	said := map[string]bool{}
	for _, n := range w.r.Yarns {
		root, y := n.Yarn.Root(), n.Yarn
		if !y.HaveInHand || said[root] || needM[root] <= y.InHandM+1e-6 {
			continue
		}
		said[root] = true
		of := ""
		if dyed[root] > 1 || y.Name != root {
			of = ", dyed and undyed together,"
		}
		w.short("yarn:"+root, "%s m of %s%s are needed, but %s m are in hand: short by %s m.", num(needM[root]), root, of, num(y.InHandM), num(needM[root]-y.InHandM))
	}
}
