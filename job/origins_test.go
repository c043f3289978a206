package job

import (
	"fmt"
	"slices"
	"testing"

	"bowerwright/assume"
	"bowerwright/unit"
)

// said finds an assumption in the list of those used.
func said(t testing.TB, r Result, id assume.ID) AssumedFacts {
	t.Helper()
	i := slices.IndexFunc(r.Assumed, func(a AssumedFacts) bool { return a.ID == string(id) })
	if i < 0 {
		t.Fatalf("%s is not listed", id)
	}
	return r.Assumed[i]
}

// Built in < shop file < job file < flag, whatever order they are given in,
// and the list of assumptions says the value and who said it.
func TestWhoSaidIt(t *testing.T) {
	all := []Override{{ID: "saw.hold", Value: 9, From: "shop file"}, {ID: "saw.hold", Value: 10, From: "job file"}, {ID: "saw.hold", Value: 11, From: "flag"}}
	for n, want := range []struct{ value, from string }{{"8 in", "built in"}, {"9 in", "shop file"}, {"10 in", "job file"}, {"11 in", "flag"}} {
		for _, order := range [][]int{{0, 1, 2}, {2, 1, 0}, {1, 2, 0}, {0, 2, 1}} {
			s := hexagons()
			for _, i := range order {
				if i < n {
					s.Assume = append(s.Assume, all[i])
				}
			}
			r := worked(t, s)
			a := said(t, r, assume.Hold)
			if a.Value != want.value || a.From != want.from {
				t.Errorf("%+v gives %s from %s, want %+v", s.Assume, a.Value, a.From, want)
			}
			if r.Saw.Hold.US != want.value || r.Timber[0].Hold.US != want.value {
				t.Errorf("the papers say %s and %s, want %s", r.Saw.Hold.US, r.Timber[0].Hold.US, want.value)
			}
		}
	}
}

// A field of a file counts as its file: a flag goes over it, and a job file's
// assumption over the shop's saw.
func TestFieldsAndAssumptions(t *testing.T) {
	for _, c := range []struct {
		saw         string
		assume      []Override
		value, from string
	}{
		{"shop file", nil, "3/16 in", "shop file"},
		{"job file", nil, "3/16 in", "job file"},
		{"shop file", []Override{{ID: "cut.kerf", Value: 0.0625, From: "job file"}}, "1/16 in", "job file"},
		{"job file", []Override{{ID: "cut.kerf", Value: 0.0625, From: "shop file"}}, "3/16 in", "job file"},
		{"job file", []Override{{ID: "cut.kerf", Value: 0.0625, From: "flag"}}, "1/16 in", "flag"},
	} {
		s := hexagons()
		s.Saw = Saw{Kerf: ptr(unit.Inch * 3 / 16), From: c.saw}
		s.Said = map[string]string{"cut.kerf": c.saw}
		s.Assume = c.assume
		r := worked(t, s)
		if a := said(t, r, assume.Kerf); a.Value != c.value || a.From != c.from || r.Timber[0].Kerf.US != c.value {
			t.Errorf("%+v: %s from %s, boards with %s", c, a.Value, a.From, r.Timber[0].Kerf.US)
		}
	}
}

// Only what the job used is listed, in the order of the ids, each with its
// source and range.
func TestAssumptionsUsed(t *testing.T) {
	r := worked(t, hexagons())
	var ids []string
	for _, a := range r.Assumed {
		ids = append(ids, a.ID)
		if a.Name == "" || a.Value == "" || a.Range == "" || a.Source == "" || a.Status == "" || a.From == "" {
			t.Errorf("%+v", a)
		}
	}
	if !slices.IsSorted(ids) {
		t.Error(ids)
	}
	for id, used := range map[assume.ID]bool{assume.Hold: true, assume.ClampHold: false, assume.Mark: true, assume.MarkMetric: false, assume.Swing: true} {
		if slices.Contains(ids, string(id)) != used {
			t.Errorf("%s: used is %v", id, !used)
		}
	}
	s := hexagons()
	s.Timber[0].Species = ""
	if a := said(t, worked(t, s), "board.species"); a.Value != assumedSpecies {
		t.Errorf("%+v", a)
	}
}

// A gap of 0 is not the same as none given.
func TestGapOfNothing(t *testing.T) {
	r := worked(t, hexagons())
	near(t, "gap not given", r.Job.Gap.MM, inch/32, 1e-3)
	if a := said(t, r, assume.SeamGap); a.From != "built in" {
		t.Errorf("%+v", a)
	}
	s := hexagons()
	s.Gap = ptr(unit.Length(0))
	r = worked(t, s)
	near(t, "gap of 0", r.Job.Gap.MM, 0, 0)
	near(t, "gaps in the width", r.Overall.GapsInWidth.MM, 0, 0)
	if a := said(t, r, assume.SeamGap); a.From != "job file" || a.Value != "0 in" {
		t.Errorf("%+v", a)
	}
}

// Nothing is pointed out as a near miss when the job says 0; 1/2 in is what is
// assumed. The frames stand 1/4 in apart.
func TestNearMissOfNothing(t *testing.T) {
	apart := spec("Q = square: side 10", "Q1 at 0 0", "Q2 at 10.25 0")
	if r := worked(t, apart); len(r.Near) != 1 || len(noted(r, "near-miss")) != 1 {
		t.Errorf("%+v", r.Near)
	}
	apart.NearMiss = ptr(unit.Length(0))
	if r := worked(t, apart); len(r.Near) != 0 || len(noted(r, "near-miss")) != 0 {
		t.Errorf("%+v", r.Near)
	}
}

// A joint tolerance of 0 closes nothing that is not closed: squares 1/50 in
// apart are a seam within the usual 1/32 in and none within 0.
func TestToleranceOfNothing(t *testing.T) {
	apart := spec("Q = square: side 10", "Q1 at 0 0", "Q2 at 10.02 0")
	apart.Gap = ptr(unit.Length(0))
	if r := worked(t, apart); len(r.Seams) != 1 {
		t.Errorf("%d seams", len(r.Seams))
	}
	apart.JointTolerance = ptr(unit.Length(0))
	if r := worked(t, apart); len(r.Seams) != 0 {
		t.Errorf("%d seams with no tolerance", len(r.Seams))
	}
	together := spec("Q = square: side 10", "Q1 at 0 0", "Q2 side 4 on Q1 side 2")
	together.JointTolerance = ptr(unit.Length(0))
	if r := worked(t, together); len(r.Seams) != 1 {
		t.Errorf("%d seams where sides were laid together", len(r.Seams))
	}
}

// A row of n squares of 10 in with a gap g at each seam is 10 n + (n-1) g wide,
// and (n-1) g of it is gaps.
func TestGapsInARow(t *testing.T) {
	for _, sixtyFourths := range []int{0, 1, 2, 5} {
		for n := 1; n <= 6; n++ {
			s := spec("Q = square: side 10", "Q1 at 0 0")
			for i := 2; i <= n; i++ {
				s.read(fmt.Sprintf("Q%d side 4 on Q%d side 2", i, i-1))
			}
			g := unit.Length(sixtyFourths) * unit.Inch / 64
			s.Gap = &g
			r := worked(t, s)
			gaps := float64(n-1) * g.MM()
			near(t, "gaps", r.Overall.GapsInWidth.MM, gaps, 0.001)
			near(t, "width", r.Overall.Width.MM, float64(n)*10*inch+gaps, 0.001)
			if len(r.Seams) != n-1 {
				t.Errorf("%d seams of %d squares", len(r.Seams), n)
			}
		}
	}
}
