package packet

import (
	"testing"

	"bowerwright/drawing"
)

// On the back view of forty frames every seam finds room for its number: the
// picture is larger than that of a few, and labels give way to numbers.
func TestEverySeamIsNumbered(t *testing.T) {
	for _, r := range fixingJobs(t) {
		if r.Job.Name != "forty" {
			continue
		}
		var s sheet
		bare := backOf(&s, r, box{drillLeft, 0, drillRight, picHeight(r) - 4}, true, false)
		said := map[string]int{}
		for _, w := range drawing.Texts(drawing.List{Items: s.items}) {
			said[w]++
		}
		missing := 0
		for _, m := range r.Seams {
			if said[itoa(m.Number)] == 0 {
				missing++
			}
		}
		if len(r.Seams) <= manySeams || bare > 0 || missing > 0 {
			t.Errorf("%d seams, %d without room, %d without a number", len(r.Seams), bare, missing)
		}
		for _, f := range r.Frames {
			if said[f.Label] == 0 {
				t.Errorf("frame %s has no label", f.Label)
			}
		}
		// In the room of a small job not all find one, and small labels help.
		tight := box{drillLeft, 0, drillRight, drillFoot - drillTop}
		usual, small := backWith(&sheet{}, r, tight, true, false, false), backWith(&sheet{}, r, tight, true, false, true)
		if usual == 0 || small > usual || backOf(&sheet{}, r, tight, true, false) != min(usual, small) {
			t.Errorf("%d seams bare with large labels, %d with small ones", usual, small)
		}
		return
	}
	t.Fatal("no job of forty frames")
}
