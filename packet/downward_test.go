package packet

import (
	"fmt"
	"testing"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

// TestDownward: rows in two columns over pages come once each and in order, down
// the left and then the right, never over each other or past the foot, and a
// title never ends a column.
func TestDownward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 150).Draw(t, "rows")
		type at struct {
			page, col int
			y, h      float64
			title     bool
		}
		var seen []at
		b := &book{}
		var d downward
		for i := range n {
			h := rapid.Float64Range(4, 12).Draw(t, "h")
			title := i+1 < n && i%7 == 0
			d = append(d, block{h: h, keep: title, draw: func(s *sheet, y float64) {
				s.say(drawing.Label(drawing.Pt(0, y), drawing.Small, fmt.Sprint(i)))
				seen = append(seen, at{len(b.pages), 0, y, h, title})
			}})
		}
		b.flow(paper{title: "down", blocks: []block{{h: rapid.Float64Range(1, 180).Draw(t, "above"), draw: func(*sheet, float64) {}}, d.block()}})
		if len(seen) != n {
			t.Fatalf("%d rows drawn of %d", len(seen), n)
		}
		for i := 1; i < n; i++ {
			p, q := seen[i-1], seen[i]
			q.col = p.col
			switch {
			case q.page != p.page:
				q.col = 0
			case q.y <= p.y:
				q.col++
			case q.y < p.y+p.h-1e-9:
				t.Fatalf("row %d lies over the one before", i)
			}
			if (q.page != p.page || q.col != p.col) && p.title {
				t.Fatalf("title %d ends a column", i-1)
			}
			if q.col > 1 || q.y+q.h > bodyFoot+1e-6 || q.page < p.page {
				t.Fatalf("row %d at %+v", i, q)
			}
			seen[i] = q
		}
	})
}
