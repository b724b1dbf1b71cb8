package cautions

import (
	"strings"
	"testing"
)

// Every caution says whose advice comes first, and is fit to stand on a card.
func TestEveryCautionDefersToSomeone(t *testing.T) {
	for _, s := range []Stage{RawFleece, Scouring, Combing, Carding, HeatedCombs, LongWork, WarpWeighted, Finishing, Cutting} {
		text := Of(s)
		if !strings.HasSuffix(text, ".") || len(text) < 60 || len(text) > 300 ||
			!strings.Contains(text, "advice") && !strings.Contains(text, "follow") && !strings.Contains(text, "guidance") {
			t.Errorf("%s: %q", s, text)
		}
	}
	if Of("idleness") != "" {
		t.Error("a stage that is none has a caution")
	}
}
