package garment

import "fmt"

// FitNote is one check of a garment on a body, in words.
type FitNote struct {
	Key  string // stable: "head through neck"
	OK   bool
	Text string // the two lengths compared, in words
	Rule string // what is asked for
	From string // where the rule comes from
}

func (n FitNote) String() string {
	verdict := "fits"
	if !n.OK {
		verdict = "does not fit"
	}
	return fmt.Sprintf("%s: %s. %s (%s; %s).", n.Key, verdict, n.Text, n.Rule, n.From)
}

// fitter collects checks for one garment on one body.
type fitter struct {
	g     Garment
	b     Body
	notes []FitNote
}

// FitNotes checks that a body can get into the garment and move in it. Checks
// for which the garment has no such part, or the body no such measurement, are
// left out; missing measurements are estimated first.
func FitNotes(g Garment, b Body) []FitNote {
	full, _ := b.Complete()
	f := &fitter{g: g, b: full}
	f.throughs()
	f.shoulders()
	f.armhole()
	f.raisedArm()
	f.hips()
	f.thigh()
	f.calf()
	f.stride()
	f.seat()
	f.hood()
	f.coif()
	f.cloak()
	f.legWraps()
	f.bag()
	f.apron()
	return f.notes
}

func (f *fitter) check(key string, have, want float64, haveName, wantName, rule, from string) {
	text := fmt.Sprintf("%s %.1f cm, %s %.1f cm", haveName, have, wantName, want)
	f.notes = append(f.notes, FitNote{key, have >= want-1e-6, text, rule, from})
}

// have finds a finished size and a measurement; false when either is missing.
func (f *fitter) have(size string, m Measure) (float64, float64, bool) {
	s, ok := f.g.SizeCM(size)
	b, ok2 := f.b.CM[m]
	return s, b, ok && ok2
}

// headRoomCM is what an opening has to have more than the head girth, at least:
// 2 to 4 cm, from memory.
const headRoomCM = 2

// throughs are the simple ones: this size is at least that girth and so much.
func (f *fitter) throughs() {
	for _, t := range []struct {
		key, size, sizeName string
		m                   Measure
		bodyName            string
		more                float64
		rule, from          string
	}{
		{"head through neck", "head_passage_cm", "neck opening with its slit", HeadGirth, "head girth with room", headRoomCM, "the opening with both lips of its slit is at least the head girth and 2 cm", "from memory: 2 to 4 cm"},
		{"neck in the opening", "neck_opening_cm", "neck opening", NeckBaseGirth, "neck base girth", 0, "the opening is at least the neck's base", commonPractice},
		{"upper arm in the sleeve", "sleeve_top_cm", "sleeve top", UpperArmGirth, "upper arm girth with room", 4, "the sleeve's top is at least the upper arm girth and 4 cm", commonPractice},
		{"chest in the body", "chest_cm", "girth of the garment", BustGirth, "bust girth with room", 4, "the garment is at least the bust girth and 4 cm", commonPractice},
		{"waist opening over the hips", "waist_opening_cm", "waist opening", HipGirth, "hip girth with room", 2, "the opening is at least the hip girth and 2 cm", commonPractice},
		{"foot through the leg", "leg_hem_cm", "leg's hem", FootGirth, "heel and ankle girth", 0, "the hem is at least the girth round heel and ankle", commonPractice},
	} {
		if s, b, ok := f.have(t.size, t.m); ok {
			f.check(t.key, s, b+t.more, t.sizeName, t.bodyName, t.rule, t.from)
		}
	}
	if s, b, ok := f.have("cuff_cm", HandGirth); ok {
		f.check("hand through cuff", s, b+1, "cuff", "hand girth with room", "a closed cuff is at least the hand girth and 1 cm", "from memory: 1 to 2 cm")
	}
}

// armhole: armhole and gusset together reach below the armpit.
func (f *fitter) armhole() {
	if s, b, ok := f.have("armhole_depth_cm", ScyeDepth); ok {
		f.check("armpit above the gusset's point", s, b+2, "armhole and gusset", "scye depth with room", "armhole and gusset are together at least the scye depth and 2 cm", commonPractice)
	}
}

// hips: what goes round the hips is the straight body; gores only add to it.
func (f *fitter) hips() {
	if s, b, ok := f.have("chest_cm", HipGirth); ok {
		f.check("hips in the body", s, b+2, "girth of the garment", "hip girth with room", "the straight body, gores not counted, is at least the hip girth and 2 cm", commonPractice)
	}
	if s, b, ok := f.have("chest_cm", WaistGirth); ok {
		f.check("waist in the body", s, b+2, "girth of the garment", "waist girth with room", "the straight body is at least the waist girth and 2 cm", commonPractice)
	}
}

func (f *fitter) thigh() {
	if s, b, ok := f.have("leg_crotch_cm", ThighGirth); ok {
		f.check("thigh in the leg", s, b+2, "leg at the crotch", "thigh girth with room", "the leg at the crotch is at least the thigh girth and 2 cm", commonPractice)
	}
}

// calfHeightShare is where the calf is fullest, as a share of the knee's height.
const calfHeightShare = 0.7

// calf: the leg's width at the height of the calf, on the even taper from
// crotch to hem.
func (f *fitter) calf() {
	crotch, calf, ok := f.have("leg_crotch_cm", CalfGirth)
	hem, knee, ok2 := f.have("leg_hem_cm", KneeHeight)
	length, waist, ok3 := f.have("length_cm", WaistHeight)
	rise, ok4 := f.g.SizeCM("rise_cm")
	if !ok || !ok2 || !ok3 || !ok4 {
		return
	}
	down := waist - calfHeightShare*knee // below the waist
	if down >= length {
		return // the leg ends above the calf
	}
	t := max(0, (down-rise)/(length-rise))
	f.check("calf in the leg", crotch+t*(hem-crotch), calf+1, "leg at the calf", "calf girth with room",
		"the leg is at least the calf girth and 1 cm at 0.7 of the knee's height", commonPractice)
}

// stepShare is the length of a walking step as a share of the stature.
const stepShare = 0.45

// stride: in a step the ankles are 0.45 statures apart and the legs spread
// evenly from the crotch, so at the hem's height h they are
// step × (inside leg − h) / inside leg apart; the hem has to go round both: twice
// that and once round a leg, for which the calf (below the knee) or the thigh is
// taken. Worked: stature 176, inside leg 84, hem at 49, thigh 62: 79.2 × 35 / 84
// = 33.0; 2 × 33.0 + 62 = 128.0 cm.
func (f *fitter) stride() {
	hem, ok := f.g.SizeCM("hem_girth_cm")
	height, ok2 := f.g.SizeCM("hem_height_cm")
	name := "hem"
	if up, open := f.g.SizeCM("vent_cm"); open {
		hem, _ = f.g.SizeCM("vent_girth_cm")
		height, name = height+up, "girth where the sides open"
	}
	need, ok3 := f.stepGirthCM(height)
	if !ok || !ok2 || !ok3 || f.open() {
		return
	}
	f.check("a step in the hem", hem, need, name, "what a step needs",
		"the hem, or the lowest closed part above open sides, goes round both legs in a step of 0.45 statures", "geometry of a step; its length from memory")
}

// stepGirthCM is what goes round both legs in a step, at a height above the floor.
func (f *fitter) stepGirthCM(height float64) (float64, bool) {
	stature, ok := f.b.CM[Stature]
	leg, ok2 := f.b.CM[InsideLeg]
	round := ThighGirth
	if knee, known := f.b.CM[KneeHeight]; known && height < knee {
		round = CalfGirth
	}
	limb, ok3 := f.b.CM[round]
	if !ok || !ok2 || !ok3 {
		return 0, false
	}
	return 2*stepShare*stature*max(0, leg-height)/leg + limb, true
}
