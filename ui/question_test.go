package ui

import (
	"context"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// While something is asked the bar goes and Stop ends it, with an answer.
func TestQuestionIsStoppedAndAnswered(t *testing.T) {
	v, l := opened(t, "light")
	b := v.b
	answers := 0
	b.ask(1000, func(ctx context.Context) { <-ctx.Done() }, func(stopped bool) {
		if !stopped {
			t.Error("the answer does not know that it was stopped")
		}
		answers++
	})
	if !v.progress.Visible() || v.packOff.Disabled() {
		t.Errorf("bar %t, Stop disabled %t", v.progress.Visible(), v.packOff.Disabled())
	}
	test.Tap(v.packOff)
	l.until("an answer", func() bool { return answers == 1 })
	if v.progress.Visible() || !v.packOff.Disabled() || b.asked != nil {
		t.Errorf("answered, the bar is seen: %t, Stop disabled: %t", v.progress.Visible(), v.packOff.Disabled())
	}
}

// An answer is of the plan that was asked about; whatever changes it, and a
// second question, drops the first.
func TestQuestionIsDroppedByAChange(t *testing.T) {
	v, l := opened(t, "light")
	b := v.b
	for _, change := range []struct {
		name string
		make func()
	}{
		{"a number", func() {
			if err := b.set("body.stature_cm", "Stature", "181"); err != nil {
				t.Fatal(err)
			}
		}},
		{"undo", b.undo},
		{"a search", b.pack},
		{"another question", func() { b.ask(0, func(context.Context) {}, func(bool) {}) }},
	} {
		ended := make(chan bool, 1)
		b.ask(1000, func(ctx context.Context) { <-ctx.Done(); ended <- true }, func(bool) { t.Errorf("%s: answered", change.name) })
		change.make()
		select {
		case <-ended:
		case <-time.After(inVain):
			t.Fatalf("%s: the question goes on", change.name)
		}
		b.stop()
		l.until("nothing asked", func() bool { return b.asked == nil })
		l.rest(b)
	}
}

// Stopped at once, the question what piecing saves says what it has not tried.
func TestPiecingQuestionStoppedSaysWhatWasNotTried(t *testing.T) {
	v, l := opened(t, "light")
	v.whatPiecingSaves()
	if text := v.status.Text; !strings.Contains(text, "whole and cut apart") {
		t.Errorf("it is said that %q", text)
	}
	v.b.halt()
	l.until("the answer", func() bool { return v.Canvas().Overlays().Top() != nil })
	var said []string
	for _, o := range test.LaidOutObjects(v.Canvas().Overlays().Top()) {
		if p, ok := o.(*paragraph); ok {
			said = append(said, p.text)
		} else if b, ok := o.(*widget.Label); ok {
			said = append(said, b.Text)
		}
	}
	if text := strings.Join(said, "\n"); !strings.Contains(text, "Stopped before these were tried: body, sleeve") {
		t.Errorf("it says\n%s", text)
	}
}

// Stopped at once, the question what must move says that it does not know.
func TestMoveQuestionStoppedAnswers(t *testing.T) {
	v, l := opened(t, "light")
	v.mustMove()
	if v.b.asked == nil {
		t.Fatal("nothing is asked")
	}
	v.b.halt()
	l.until("the answer", func() bool { return v.b.asked == nil })
	if text := v.status.Text; v.Canvas().Overlays().Top() == nil && !strings.Contains(text, "Stopped before it was known") {
		t.Errorf("no answer; it is said that %q", text)
	}
}

// What is asked of a plan is not answered over the form for the next one.
func TestQuestionIsDroppedByNew(t *testing.T) {
	v, l := opened(t, "light")
	ended := make(chan bool, 1)
	v.b.ask(1000, func(ctx context.Context) { <-ctx.Done(); ended <- true }, func(bool) { t.Error("answered over the form") })
	v.newPlan()
	select {
	case <-ended:
	case <-time.After(inVain):
		t.Fatal("the question goes on")
	}
	l.rest(v.b)
	if v.progress.Visible() || !v.packOff.Disabled() {
		t.Errorf("dropped, the bar is seen: %t, Stop disabled: %t", v.progress.Visible(), v.packOff.Disabled())
	}
}

// An answer waits until what is open over the window is shut, and does not come at
// all where the plan has changed by then.
func TestAnswerWaitsForWhatIsOpen(t *testing.T) {
	for _, changes := range []bool{false, true} {
		v, l := opened(t, "light")
		shown := 0
		v.help()
		help := v.Canvas().Overlays().Top()
		v.ask(0, func(context.Context) {}, func(bool) { shown++ })
		l.until("the end of the search", func() bool { return v.b.asked == nil })
		l.drain()
		if shown > 0 {
			t.Fatal("the answer is shown over the page of keys")
		}
		if changes {
			if err := v.b.set("title", "title", "Another"); err != nil {
				t.Fatal(err)
			}
		}
		help.Hide()
		for end := time.Now().Add(time.Second); time.Now().Before(end) && shown == 0; l.drain() {
			time.Sleep(20 * time.Millisecond)
		}
		if want := map[bool]int{false: 1, true: 0}[changes]; shown != want {
			t.Errorf("with a change %t the answer is shown %d times", changes, shown)
		}
	}
}
