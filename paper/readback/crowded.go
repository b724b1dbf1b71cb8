package readback

import (
	"fmt"

	"ellwand/geometry"
)

// Crowded says, a sentence each, what writing runs off its page, by less than
// 0.9 cm left at the sides or 0.3 cm above and below, or stands on other writing.
func Crowded(pages []Page) ([]string, error) {
	face, err := Face()
	if err != nil {
		return nil, err
	}
	var out []string
	for n, p := range pages {
		var boxes []geometry.Rect
		for _, s := range p.Said {
			b := geometry.Rect{MinX: s.At.X, MaxX: s.At.X + s.WidthCM(face), MinY: s.At.Y - 0.7*s.SizeCM, MaxY: s.At.Y + 0.2*s.SizeCM}
			if b.MinX < 0.9 || b.MaxX > p.WideCM-0.9 || b.MinY < 0.3 || b.MaxY > p.HighCM-0.3 {
				out = append(out, fmt.Sprintf("page %d: %q runs to (%.2f, %.2f) of %.2f × %.2f cm", n+1, s.Text, b.MaxX, b.MaxY, p.WideCM, p.HighCM))
			}
			for i, o := range boxes {
				if min(b.MaxX, o.MaxX)-max(b.MinX, o.MinX) > 0.02 && min(b.MaxY, o.MaxY)-max(b.MinY, o.MinY) > 0.02 {
					out = append(out, fmt.Sprintf("page %d: %q stands on %q", n+1, s.Text, p.Said[i].Text))
				}
			}
			boxes = append(boxes, b)
		}
	}
	return out, nil
}
