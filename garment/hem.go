package garment

import "fmt"

// hemAt is where a hem hangs as an option: by the number given, or at a part of
// the leg whose height is taken as a share of the stature.
func hemAt() Param {
	p := Param{Key: "hem_at", Label: "Hem hangs", Meaning: "by the number given for it, or at a part of the leg, its height a share of the stature",
		Max: 4, Source: "the knee's share from ANSUR II medians; the others from memory", Choices: []Choice{{0, "by its number"}}}
	for i, h := range hemShares() {
		p.Choices = append(p.Choices, Choice{float64(i + 1), h.name})
	}
	return p
}

type hemShare struct {
	name  string
	share float64 // height above the floor, of the stature
}

// hemShares: the knee is at 48.7 of 175.5 cm in the median man and 44.8 of
// 162.6 cm in the median woman (ANSUR II, 2012): 0.277; the middle of the thigh,
// the calf and the ankle are from memory.
func hemShares() []hemShare {
	return []hemShare{{"mid-thigh", 0.38}, {"knee", 0.277}, {"calf", 0.18}, {"ankle", 0.06}}
}

// hemHeight is the hem's height above the floor and how it was found: what the
// number says, or the share of the stature that hem_at asks for. It is a
// finished size too.
func (w *worked) hemHeight(label string, numberCM float64, from string, a ...any) float64 {
	i := int(w.v["hem_at"])
	if i == 0 {
		w.size("hem_height_cm", label, numberCM, from, a...)
		return numberCM
	}
	h := hemShares()[i-1]
	cm := h.share * w.cm(Stature)
	w.size("hem_height_cm", label, cm, "%s, %g × stature %g cm", h.name, h.share, w.cm(Stature))
	return cm
}

// downTo is the way from the nape down to a hem, in words.
func downTo(neckCM, hemCM float64) string {
	return fmt.Sprintf("back neck height %g cm − hem %.4g cm above the floor", neckCM, hemCM)
}
