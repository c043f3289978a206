package statics

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// reference is a model of testdata, in inches and pounds.
type reference struct {
	E, G, A, Iin, Iout, J, Kappa float64
	Nodes                        []Vec
	Elems                        []struct {
		I, J  Node
		Depth Vec
	}
	Links []struct{ I, J Node }
	Fix   [][2]json.RawMessage
	Loads [][2]json.RawMessage
}

func readJSON(t testing.TB, name string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name+".json"))
	if err == nil {
		err = json.Unmarshal(text, into)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func decode[T any](t testing.TB, raw json.RawMessage) (v T) {
	t.Helper()
	if err := json.Unmarshal(raw, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// build makes a model of a reference; a link is a stick a thousand times as
// stiff, as in the decks.
func (r reference) build(t testing.TB, twist float64) (*Model, Case) {
	t.Helper()
	if twist == 0 {
		twist = r.J
	}
	sec := Section{E: r.E, G: r.G, Area: r.A, Deep: r.Iout, Wide: r.Iin, Twist: twist, Shear: r.Kappa}
	stiff := sec
	stiff.E, stiff.G = 1e3*sec.E, 1e3*sec.G
	var m Model
	for _, at := range r.Nodes {
		m.Node(at, "")
	}
	for _, e := range r.Elems {
		m.Member(Member{A: e.I, B: e.J, Depth: e.Depth, Section: sec})
	}
	for _, l := range r.Links {
		m.Member(Member{A: l.I, B: l.J, Depth: Vec{0, 0, 1}, Section: stiff})
	}
	for _, f := range r.Fix {
		n := decode[Node](t, f[0])
		for _, d := range decode[[]int](t, f[1]) {
			m.Hold(n, 1<<d)
		}
	}
	var c Case
	for _, l := range r.Loads {
		v := decode[[6]float64](t, l[1])
		c.Nodal = append(c.Nodal, Nodal{Node: decode[Node](t, l[0]), Load: Load{Vec(v[:3]), Vec(v[3:])}})
	}
	return &m, c
}

func solve(t testing.TB, m *Model, c Case) *Result {
	t.Helper()
	p, err := Prepare(context.Background(), m, Limits{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := p.Solve(context.Background(), c)
	if err != nil {
		t.Fatal(err)
	}
	if r.Outcome != Settled {
		if r.Loose != nil {
			t.Fatalf("loose: groups %v, seams %v, unknown %d of node %d", r.Loose.Groups, r.Loose.Seams, r.Loose.Unknown, r.Loose.At)
		}
		t.Fatalf("outcome %v after %d steps", r.Outcome, r.Steps)
	}
	return r
}

func near(t testing.TB, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: %.10g, want %.10g within %g of it", what, got, want, share)
	}
}

// otherShare allows for rounding: links a thousand times as stiff as sticks leave
// one part in a million of the softest wall.
const otherShare = 1e-6

// TestReferenceModels holds the solver to two others: a Timoshenko beam solver
// that shares no code with this one, and CalculiX 2.20 with B32R elements, four
// a member, Poisson's ratio 0. B32R has a torsion constant of its own, 4
// I₁I₂/(I₁+I₂); rigid corners and restrained warping make it stiffer where stubby
// sticks twist.
func TestReferenceModels(t *testing.T) {
	var others map[string]map[string]struct {
		Other, B32R float64
		Node        int
		Dof         int
	}
	readJSON(t, "other-solver", &others)
	for _, c := range []struct {
		name    string
		share   float64 // what CalculiX may be stiffer or softer by
		stiffer float64 // or at least stiffer by
	}{
		{"cant-strong", 0.002, 0},
		{"cant-weak", 0.002, 0},
		{"portal-sway", 0.002, 0},
		{"portal-udl", 0.002, 0},
		{"hex-vertex", 0.002, 0},
		{"hex-flat", 0.002, 0},
		{"elbow", 0.015, 0},
		{"seven-grav", 0.006, 0},
		{"seven-top", 0.25, 0.10},
		{"sevenbig-grav", 0.002, 0},
		{"sevenbig-top", 0.04, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			var ref reference
			readJSON(t, c.name, &ref)
			brick := others[c.name]["J-B32R"]
			with := func(twist float64) float64 {
				m, load := ref.build(t, twist)
				return solve(t, m, load).Moves[brick.Node].Shift[brick.Dof]
			}
			near(t, "against the other beam solver", with(0), others[c.name]["exactJ"].Other, otherShare)
			got := with(4 * ref.Iin * ref.Iout / (ref.Iin + ref.Iout))
			near(t, "the same, with B32R's torsion", got, brick.Other, otherShare)
			near(t, "against CalculiX", brick.B32R, got, c.share)
			if c.stiffer > 0 && brick.B32R/got > 1-c.stiffer {
				t.Errorf("CalculiX is to be stiffer by %v: %v against %v", c.stiffer, brick.B32R, got)
			}
		})
	}
}
