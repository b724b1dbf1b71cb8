package garment

import (
	"fmt"
	"math"
)

// Measure is a body measurement in cm, under its ISO 8559-1 name.
type Measure string

const (
	Stature         Measure = "stature_cm"
	BackNeckHeight  Measure = "back_neck_height_cm"
	BustGirth       Measure = "bust_girth_cm"
	WaistGirth      Measure = "waist_girth_cm"
	HipGirth        Measure = "hip_girth_cm"
	NeckGirth       Measure = "neck_girth_cm"
	NeckBaseGirth   Measure = "neck_base_girth_cm"
	HeadGirth       Measure = "head_girth_cm"
	ShoulderLength  Measure = "shoulder_length_cm"
	AcrossBack      Measure = "across_back_cm"
	BackNeckToWaist Measure = "back_neck_to_waist_cm"
	ScyeDepth       Measure = "scye_depth_cm"
	BackNeckToWrist Measure = "back_neck_to_wrist_cm"
	ArmLength       Measure = "arm_length_cm"
	UpperArmGirth   Measure = "upper_arm_girth_cm"
	WristGirth      Measure = "wrist_girth_cm"
	HandGirth       Measure = "hand_girth_cm"
	WaistHeight     Measure = "waist_height_cm"
	InsideLeg       Measure = "inside_leg_cm"
	BodyRise        Measure = "body_rise_cm"
	KneeHeight      Measure = "knee_height_cm"
	ThighGirth      Measure = "thigh_girth_cm"
	CalfGirth       Measure = "calf_girth_cm"
	AnkleGirth      Measure = "ankle_girth_cm"
	FootGirth       Measure = "foot_girth_cm"
)

// MeasureInfo describes one measurement for a form: what it is called, how it
// is taken, and the range accepted.
type MeasureInfo struct {
	Key          Measure
	Label        string
	Meaning      string
	MinCM, MaxCM float64
}

// Measures are all measurements, in the order in which a person is measured.
//
// Accepted ranges are wider than the grown-up bodies of ANSUR II (2012), which
// were 17 to 58 years old and fitter than the public: heights and lengths from
// 0.75 times the women's 5th to 1.25 times the men's 95th percentile, girths
// from 0.7 times the lower 5th to 1.5 times the upper 95th, scye depth and body
// rise from half to twice; each rounded to a whole cm, above 50 cm to 5 cm.
func Measures() []MeasureInfo {
	return []MeasureInfo{
		{Stature, "Stature", "floor to the top of the head, without shoes", 115, 235},
		{BackNeckHeight, "Back neck point (7th cervical) height", "floor to the knob at the base of the neck", 100, 205},
		{BustGirth, "Bust or chest girth", "greatest girth under the armpits, level, breathing normally; over the prominence of a bust", 60, 180},
		{WaistGirth, "Waist girth", "girth at the height of the navel", 50, 170},
		{HipGirth, "Hip girth", "greatest level girth over the buttocks", 65, 175},
		{NeckGirth, "Neck girth", "girth of the neck just below the Adam's apple", 21, 65},
		{NeckBaseGirth, "Neck base girth", "round the base of the neck, over the 7th cervical", 24, 70},
		{HeadGirth, "Head girth", "greatest level girth of the head, above the ears", 37, 90},
		{ShoulderLength, "Shoulder length", "base of the neck at the side to the shoulder point", 9, 21},
		{AcrossBack, "Across back width", "shoulder to shoulder across the back, armhole crease to armhole crease", 24, 60},
		{BackNeckToWaist, "Back neck point to waist", "7th cervical down the back to the waist", 29, 65},
		{ScyeDepth, "Scye depth", "7th cervical down to the level of the armpit", 7, 42},
		{BackNeckToWrist, "Back neck point to wrist", "7th cervical over the shoulder and the bent elbow to the wrist bone", 55, 120},
		{ArmLength, "Arm length", "shoulder point over the bent elbow to the wrist bone", 37, 80},
		{UpperArmGirth, "Upper arm girth", "greatest girth of the bent upper arm", 18, 65},
		{WristGirth, "Wrist girth", "round the wrist bone", 10, 29},
		{HandGirth, "Hand girth", "round the knuckles of the flat hand, thumb left out", 12, 34},
		{WaistHeight, "Waist height", "floor to the waist at the height of the navel", 70, 145},
		{InsideLeg, "Inside leg length", "floor to the crotch", 55, 115},
		{BodyRise, "Body rise", "waist height less inside leg length", 8, 49},
		{KneeHeight, "Knee height", "floor to the middle of the kneecap", 31, 65},
		{ThighGirth, "Thigh girth", "greatest level girth of the thigh", 37, 110},
		{CalfGirth, "Calf girth", "greatest level girth of the calf", 23, 65},
		{AnkleGirth, "Ankle girth", "smallest girth above the ankle bones", 14, 38},
		{FootGirth, "Heel and ankle girth", "round the heel and over the instep: what a foot needs to go through", 20, 55},
	}
}

// measureInfo finds one measurement's description.
func measureInfo(m Measure) (MeasureInfo, bool) {
	for _, i := range Measures() {
		if i.Key == m {
			return i, true
		}
	}
	return MeasureInfo{}, false
}

// CheckOne says whether cm is plausible for measurement m, in one sentence
// with a guess when the value seems to be in mm, m or inches.
func CheckOne(m Measure, cm float64) error {
	info, ok := measureInfo(m)
	if !ok {
		return fmt.Errorf("%q is no measurement of a body%s", m, didYouMean(string(m), measureNames()))
	}
	if cm >= info.MinCM && cm <= info.MaxCM {
		return nil
	}
	return fmt.Errorf("%s is %g cm; accepted is %g to %g cm%s", m, cm, info.MinCM, info.MaxCM, otherUnit(info, cm))
}

func measureNames() []string {
	var names []string
	for _, i := range Measures() {
		names = append(names, string(i.Key))
	}
	return names
}

// otherUnit guesses the unit a value out of range was written in.
func otherUnit(info MeasureInfo, cm float64) string {
	for _, u := range []struct {
		name  string
		perCM float64
	}{{"mm", 0.1}, {"m", 100}, {"inches", 2.54}} {
		if v := cm * u.perCM; v >= info.MinCM && v <= info.MaxCM {
			return fmt.Sprintf(" (did you mean %g cm, from %g %s?)", math.Round(v*10)/10, cm, u.name)
		}
	}
	return ""
}
