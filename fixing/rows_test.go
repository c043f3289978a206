package fixing

import (
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/unit"
)

var twoRows = Settings{Seams: map[int]Choice{1: {Rows: 2}}}

// Two rows are the usual screws twice: at the same places along the seam, as far
// from each other and from the edges as the rules say, and in the bag.
func TestTwoRows(t *testing.T) {
	for _, often := range []bool{false, true} {
		usual, rows := Settings{Often: often}, twoRows
		rows.Often = often
		_, one := stacked(6, 24, oneByFour).fix(t, usual)
		_, two := stacked(6, 24, oneByFour).fix(t, rows)
		a, b := one.Seams[0], two.Seams[0]
		if a.Rows != 0 || b.Rows != 2 || len(b.Fasteners) != 2*len(a.Fasteners) {
			t.Fatalf("often %v: %d fasteners in one row, %d in %d", often, len(a.Fasteners), len(b.Fasteners), b.Rows)
		}
		r := workWith(rows).rules
		edge, pitch := r.Edge, r.PitchAcross
		if often {
			edge, pitch = r.BoltEdge, r.BoltPitch
		}
		for i, f := range a.Fasteners {
			front, back := b.Fasteners[2*i], b.Fasteners[2*i+1]
			near := func(what string, got, want float64) {
				if math.Abs(got-want) > 1e-9 {
					t.Errorf("often %v, %d: %s %v, want %v", often, i, what, got, want)
				}
			}
			near("along, front row", front.Along, f.Along)
			near("along, back row", back.Along, f.Along)
			near("as far from the middle", front.Depth+back.Depth, 3.5*inch)
			if back.Depth-front.Depth < pitch.of(f.Diameter)-1e-9 || front.Depth < edge.of(f.Diameter)-1e-9 {
				t.Errorf("often %v: rows at %v and %v", often, front.Depth, back.Depth)
			}
		}
		for i, x := range a.Bag {
			if b.Bag[i].Name != x.Name || b.Bag[i].Count != 2*x.Count {
				t.Errorf("often %v: %v in the bag, then %v", often, a.Bag, b.Bag)
			}
		}
	}
}

// Rows stay apart by their pitch down to the thinnest boards that take two; below
// that a seam that asks for two is a problem that says so, and a job that asks
// for them wherever there is room has one.
func TestRowsOnThinBoards(t *testing.T) {
	r := workWith(Settings{}).rules
	least := 2*r.Edge + r.PitchAcross
	for _, over := range []bool{false, true} {
		wide := float64(least) * 0.138 // No. 6, the thinner of the two
		if over {
			wide += 0.01
		} else {
			wide -= 0.01
		}
		b := board(0.75, wide, true)
		l, boards := stacked(6, 24, b).build(t)
		plan, problems := Fix(l, boards, twoRows)
		if over {
			if len(problems) != 0 || plan.Seams[0].Rows != 2 || plan.Seams[0].Fasteners[0].Gauge != "No. 6" {
				t.Fatalf("%v in: %+v", wide, problems)
			}
			f := plan.Seams[0].Fasteners
			if gap := f[1].Depth - f[0].Depth; math.Abs(gap-r.PitchAcross.of(f[0].Diameter)) > 0.3 {
				t.Errorf("rows %v mm apart", gap)
			}
			continue
		}
		if len(problems) != 1 || problems[0].Code != TooThin || !problems[0].Rows {
			t.Fatalf("%v in: %+v", wide, problems)
		}
		if _, help := problems[0].Text(unit.Style{}); !strings.Contains(help, "leave two rows out") {
			t.Errorf("helps: %q", help)
		}
		plan, problems = Fix(l, boards, Settings{Rows: 2})
		if len(problems) != 0 || plan.Seams[0].Rows != 0 || len(plan.Seams[0].Fasteners) != 2 {
			t.Errorf("asked for in general: %+v %+v", problems, plan)
		}
	}
}

// A side too short for two along has two across, which are two rows of one; one
// screw by choice stays one.
func TestRowsWhereThereAreTwoAcross(t *testing.T) {
	for _, s := range []Settings{twoRows, {Rows: 2}} {
		_, usual := stacked(6, 6, oneByFour).fix(t, Settings{})
		_, p := stacked(6, 6, oneByFour).fix(t, s)
		if !usual.Seams[0].Across {
			t.Fatal("the side is to be too short for two along")
		}
		if m := p.Seams[0]; !m.Across || len(m.Fasteners) != 2 || !slices.Contains(m.Notes, TwoAcross) {
			t.Errorf("%+v", m)
		}
	}
	if _, p := stacked(6, 24, oneByFour).fix(t, Settings{Rows: 2, Seams: map[int]Choice{1: {One: true}}}); len(p.Seams[0].Fasteners) != 1 {
		t.Errorf("%d screws, one is chosen", len(p.Seams[0].Fasteners))
	}
	if _, p := stacked(6, 24, oneByFour).fix(t, Settings{Rows: 2}); p.Seams[0].Rows != 2 {
		t.Error("asked for in general, and there is room")
	}
}
