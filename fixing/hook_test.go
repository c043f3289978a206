package fixing

import (
	"slices"
	"testing"

	"bowerwright/assume"
	"bowerwright/geom"
	"bowerwright/stock"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// Three hooks on a side of 24 / sqrt 3 = 13.856 in: in the middles of three equal
// stretches, at half the board's thickness, where no screw is.
func TestHooksByHand(t *testing.T) {
	l, p := stacked(6, 24, oneByFour).fix(t, Settings{Hooks: []Hook{{Frame: "A", Side: 2, Count: 3}, {Frame: "B", Side: 4, Kind: stock.Tie}}})
	if len(p.Hooks) != 4 {
		t.Fatalf("%d hooks", len(p.Hooks))
	}
	for i, want := range []float64{2.3094, 6.9282, 11.5470, 6.9282} {
		h := p.Hooks[i]
		f := l.Frames[h.Frame]
		if !near(h.Along/inch, want, 1e-3) || !near(f.Outside.BoundaryDist(h.At), 3*inch/8, 1e-6) || h.Thread != 3*inch/4 {
			t.Errorf("hook %d: %.4f along, want %.4f: %+v", i, h.Along/inch, want, h)
		}
	}
	if p.Hooks[3].Name != "screw eye for ties" || l.Frames[p.Hooks[3].Frame].ID != "B" {
		t.Errorf("the tie is %+v", p.Hooks[3])
	}
}

// On the side that carries a seam, hooks keep clear of its screws, whatever
// the numbers.
func TestHooksKeepClearOfScrews(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := stacked(6, rapid.Float64Range(9, 30).Draw(t, "flats"), board(0.75, rapid.Float64Range(1.5, 3.5).Draw(t, "width"), true))
		s := Settings{HasRightAngle: true, Hooks: []Hook{{Frame: "A", Side: 4, Count: rapid.IntRange(1, 5).Draw(t, "count")}, {Frame: "B", Side: 1, Count: 2}}}
		l, b := layoutOf(m)
		p, _ := Fix(l, b, s)
		w := workWith(s)
		hook, _ := w.cat.Fastener("1 in cup hook")
		for i, h := range p.Hooks {
			rise := b[h.Frame].Rise().MM()
			hp := pathOf(h.At, h.At, rise-h.Thread, rise, 0, 0)
			for _, seam := range p.Seams {
				for _, f := range seam.Fasteners {
					if d := axis(l, seam, f).dist(hp) - (f.Diameter+hook.Diameter).MM()/2; d < float64(w.rules.Apart)*hook.Diameter.MM()-slack {
						t.Fatalf("a hook %.2f mm from a screw", d)
					}
				}
			}
			a, z := ends(l.Frames[h.Frame], h.Side, h.At)
			if min(a, z) < float64(w.rules.EndLeast)*hook.Diameter.MM()-slack {
				t.Fatalf("hook %d is %.2f mm from a mitre", i, min(a, z))
			}
		}
	})
}

func TestPegsGoTogetherOneWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := stacked(6, rapid.Float64Range(6.5, 20).Draw(t, "flats"), board(0.75, rapid.Float64Range(1.5, 3.5).Draw(t, "width"), true))
		l, b := layoutOf(m)
		p, bad := Fix(l, b, Settings{Seams: map[int]Choice{1: {Site: true}}})
		if len(bad) > 0 {
			return
		}
		s := p.Seams[0]
		if has(s, NoPegs) != (len(s.Pegs) == 0) {
			t.Fatalf("%d pegs, notes %v", len(s.Pegs), s.Notes)
		}
		if len(s.Pegs) == 0 {
			return
		}
		q, r := s.Pegs[0], s.Pegs[1]
		rise := b[0].Rise().MM()
		if near(q.Depth, rise-r.Depth, 0.01) && near(q.Depth, r.Depth, 1) || q.Depth == r.Depth {
			t.Fatalf("pegs at depths %g and %g fit either way", q.Depth, r.Depth)
		}
		for _, peg := range s.Pegs {
			at := pathOf(peg.At.Sub(geom.Point{Y: 10}), peg.At.Add(geom.Point{Y: 10}), peg.Depth, peg.Depth, 0, 0)
			for _, f := range s.Fasteners {
				if d := axis(l, s, f).dist(at) - (peg.Hole+f.Diameter).MM()/2; d < peg.Hole.MM()/2-slack {
					t.Fatalf("a peg %.2f mm from a bolt", d)
				}
			}
			for k, into := range peg.Into {
				if into <= 0 || into > b[k].Depth().MM()-1 {
					t.Fatalf("a peg %.2f mm into a board", into)
				}
			}
		}
	})
}

// What is in the bags is what is in the seams, and what is bought is what is in
// the bags, in whole boxes.
func TestCountsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, s := drawn(t)
		s.Hooks = []Hook{{Frame: "A", Side: 1}}
		l, b := layoutOf(m)
		p, _ := Fix(l, b, s)
		bags := map[string]int{}
		for _, seam := range p.Seams {
			names := map[string]int{}
			for _, i := range seam.Bag {
				names[i.Name] += i.Count
				bags[i.Name] += i.Count
			}
			for _, f := range seam.Fasteners {
				names[f.Name]--
			}
			for _, f := range seam.Fasteners {
				if names[f.Name] != 0 {
					t.Fatalf("seam %d: bag %v for %d fasteners", seam.Number, seam.Bag, len(seam.Fasteners))
				}
			}
			if n := len(seam.Fasteners); seam.Method == Bolted && (names["1/4 in nut"] != n || names["1/4 in washer"] != 2*n) {
				t.Fatalf("seam %d: bag %v", seam.Number, seam.Bag)
			}
		}
		for _, h := range p.Hooks {
			bags[h.Name]++
		}
		cat := stock.BuiltIn()
		for _, total := range p.Totals {
			f, ok := cat.Fastener(total.Name)
			if !ok || total.Count != bags[total.Name] || total.Pack != f.Pack || total.Boxes*f.Pack < total.Count || (total.Boxes-1)*f.Pack >= total.Count {
				t.Fatalf("total %+v, bags %d", total, bags[total.Name])
			}
			delete(bags, total.Name)
		}
		if len(bags) > 0 {
			t.Fatalf("not bought: %v", bags)
		}
	})
}

// Every rule is read from its own assumption: changing one changes the rules,
// and no two share a value.
func TestRulesComeFromTheBook(t *testing.T) {
	book := assume.BuiltInBook()
	base := RulesFrom(book.Reader())
	used := book.Reader()
	RulesFrom(used)
	seen := map[Rules]assume.ID{base: "none"}
	for _, v := range used.Used() {
		changed, err := book.With(assume.Job, v.ID, (v.Low+v.High)/2+0.001)
		if err != nil {
			t.Fatal(err)
		}
		r := RulesFrom(changed.Reader())
		if other, twice := seen[r]; twice {
			t.Errorf("%s changes nothing that %s does not", v.ID, other)
		}
		seen[r] = v.ID
	}
	ids := []assume.ID{}
	for _, v := range book.Values() {
		if len(v.ID) > 7 && v.ID[:7] == "fixing." || len(v.ID) > 4 && v.ID[:4] == "eye." || len(v.ID) > 7 && v.ID[:7] == "driver." {
			ids = append(ids, v.ID)
		}
	}
	var read []assume.ID
	for _, v := range used.Used() {
		read = append(read, v.ID)
	}
	if !slices.Equal(ids, read) {
		t.Errorf("the book has %v, read are %v", ids, read)
	}
	if base.Edge != 2.5 || base.Keep != inch/16 || base.Standing != 63*inch || base.Slant != unit.FromDegrees(45) {
		t.Errorf("the built-in rules are %+v", base)
	}
}

// An edited assumption reaches the plan.
func TestEditedRules(t *testing.T) {
	r := workWith(Settings{}).rules
	r.Keep = inch / 2
	l, b := stacked(6, 24, oneByFour).build(t)
	p, problems := Fix(l, b, Settings{Rules: r})
	if len(problems) != 1 || problems[0].Code != NoLength {
		t.Errorf("with 1/2 in kept, 1/2 in - too little - is left to hold:\n%s%v", text(l, p), problems)
	}
	p, _ = Fix(l, b, Settings{Driver: Tool{Length: 20 * inch}})
	if got := p.Seams[0].Fasteners[0].Tool; got != AtASlant {
		t.Errorf("a driver of 20 in goes %s into 22 1/2 in with its bit", got)
	}
}
