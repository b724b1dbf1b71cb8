package ui

import (
	"fmt"
	"io"
	"time"

	"fyne.io/fyne/v2"
)

// frameMeter tells how smoothly the strip follows the hand: the frames painted
// while something is dragged, and the longest that the window's goroutine was
// busy at a stretch. It is for those who work on the program.
type frameMeter struct {
	s       *strip
	to      io.Writer
	now     func() time.Time
	last    time.Time
	began   time.Time
	seen    fyne.Position
	frames  int
	longest time.Duration // since it was last told
	held    time.Duration // the longest while dragging
}

// meterFrames starts one. The tool kit ticks an animation once for every turn of
// its loop, in which it takes what has happened, and paints.
func meterFrames(s *strip, to io.Writer, now func() time.Time) {
	m := &frameMeter{s: s, to: to, now: now, last: now()}
	a := fyne.NewAnimation(24*time.Hour, func(float32) { m.tick() })
	a.Start()
}

func (m *frameMeter) tick() {
	t := m.now()
	turn := t.Sub(m.last)
	m.last = t
	m.longest = max(m.longest, turn)
	d := m.s.drag
	switch {
	case d != nil && d.moving && m.began.IsZero():
		m.began, m.frames, m.held = t, 0, 0
	case d != nil && d.moving:
		m.held = max(m.held, turn)
	case !m.began.IsZero():
		took := t.Sub(m.began)
		fmt.Fprintf(m.to, "dragged for %.2f s: %d frames, %.0f a second; longest turn %d ms\n",
			took.Seconds(), m.frames, float64(m.frames)/took.Seconds(), m.held.Milliseconds())
		m.began = time.Time{}
	}
	if at := m.place(); at != m.seen {
		m.seen = at
		m.frames++
	}
	if m.longest > 50*time.Millisecond {
		fmt.Fprintf(m.to, "a turn of %d ms\n", m.longest.Milliseconds())
	}
	m.longest = 0
}

// place changes whenever what is dragged, or the view, has moved.
func (m *frameMeter) place() fyne.Position {
	if d := m.s.drag; d.carries() {
		return m.s.lifted.raster.Position().AddXY(0, 1)
	}
	return m.s.origin
}
