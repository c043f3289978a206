package job

import (
	"slices"
	"strings"
	"testing"

	"bowerwright/unit"
)

// wantedOf is what is sawn under a mark.
func wantedOf(r Result, mark string) (out WantedFacts, timbers int) {
	for _, t := range r.Timber {
		for _, w := range t.Parts {
			if w.Mark == mark {
				out = w
				timbers++
			}
		}
	}
	return out, timbers
}

// Every batten of a drill sheet is in the cut list under its mark, at its length
// and as often as there are seams with it, and on a board.
func TestBattensAreSawn(t *testing.T) {
	r := worked(t, fixings()["battens"])
	marks := map[string]int{}
	for _, s := range r.Fixing.Seams {
		for _, q := range s.Pieces {
			marks[q.Mark]++
			w, n := wantedOf(r, q.Mark)
			if n != 1 || w.Length != q.Length || !strings.Contains(w.What, "across the backs") {
				t.Errorf("seam %d: %q is sawn %d times, %s, %q", s.Number, q.Mark, n, w.Length.US, w.What)
			}
			if mid := q.Start.MM + q.Length.MM/2; mid < q.From.MM-1.6 || mid > q.From.MM+1.6 { // two marks of the tape
				t.Errorf("seam %d: starts at %s, its middle at %s", s.Number, q.Start.US, q.From.US)
			}
		}
	}
	if len(marks) == 0 {
		t.Fatal("no batten")
	}
	for mark, n := range marks {
		if w, _ := wantedOf(r, mark); w.Need != n {
			t.Errorf("%s: %d wanted, %d sawn", mark, n, w.Need)
		}
		placed := 0
		for _, tf := range r.Timber {
			for _, b := range tf.Boards {
				placed += len(slices.DeleteFunc(slices.Clone(b.Parts), func(q SawnFacts) bool { return q.Mark != mark })) * len(b.Numbers)
			}
		}
		if placed != n {
			t.Errorf("%s: %d wanted, %d on boards", mark, n, placed)
		}
	}
}

// An arch has a batten across its feet, sawn, bought and screwed on; one wider
// than the boards are long is kept by a straight length of the shop's.
func TestFeetBattens(t *testing.T) {
	arch := spec("A = arch: segments 7, outside 60", "A1 at 0 0", "A2 at 80 0")
	r := worked(t, arch)
	a := r.Making.Kinds[0].Across
	if a == nil || a.Mark != "A+feet" {
		t.Fatalf("%+v", a)
	}
	if w, n := wantedOf(r, "A+feet"); n != 1 || w.Need != 2 || w.Length != a.Length || w.What != "batten across the feet, A arch" {
		t.Errorf("%d times, %+v", n, w)
	}
	if a.Length.MM < r.Making.Kinds[0].Batten.MM {
		t.Errorf("%s long between feet %s apart", a.Length.US, r.Making.Kinds[0].Batten.US)
	}
	arch.Timber[0].Length = 4 * unit.Foot
	arch.Timber[0].Lengths = nil
	r = worked(t, arch)
	if a := r.Making.Kinds[0].Across; a.Mark != "" {
		t.Errorf("%+v from boards of 4 ft", a)
	}
	if _, n := wantedOf(r, "A+feet"); n != 0 {
		t.Error("a batten longer than the boards is sawn")
	}
}

// Plates at corners are of the system that the job is shown in, as those at the
// seams, and their screws come with a pilot hole and how deep it is drilled.
func TestCornerPlatesAreOfOneSystem(t *testing.T) {
	for _, show := range []string{"us", "metric"} {
		s := asked(spec("Q = square: side 24, flat", "Q1 at 0 0"), corner("plate"))
		s.Show = show
		q := worked(t, s).Making.Kinds[0].Pieces[0]
		if inches := strings.Contains(q.What, " in "); inches != (show == "us") {
			t.Errorf("%s: %s with %s", show, q.What, q.Screw)
		}
		if q.Pilot == nil || q.Stop == nil || q.Pilot.MM <= 1 || q.Pilot.MM >= 4 || q.Stop.MM < 10 {
			t.Errorf("%s: %+v", show, q)
		}
	}
}
