package fixing

import (
	"slices"
	"strings"
	"testing"

	"bowerwright/snag"
	"bowerwright/stock"
	"bowerwright/unit"
)

// crowded has frames above and below one board, so short and narrow that the
// screws of the two seams find no room beside each other.
func crowded() *made {
	m := &made{}
	narrow := board(0.75, 1.5, true)
	m.box("big", 40, 40, narrow)
	m.box("small", 3.2, 14, narrow)
	m.at("B", "big", 0, 0)
	m.at("U", "small", 10, 40)
	m.at("D", "small", 10, 40-0.75-14)
	return m
}

func uneven() *made {
	m := &made{}
	m.box("a", 24, 24, flat)
	m.box("b", 24, 24, board(1.5, 3.5, false))
	m.at("A", "a", 0, 0)
	m.at("B", "b", 0, 24)
	return m
}

// Every code is met, and says what helps.
func TestEveryProblem(t *testing.T) {
	empty := stock.Catalogue{}
	met := map[Code]bool{}
	for _, c := range []struct {
		code Code
		m    *made
		s    Settings
	}{
		{NoScrew, stacked(6, 24, oneByFour), Settings{Screws: []string{"No. 99"}}},
		{NoScrew, stacked(6, 24, oneByFour), Settings{Catalogue: &empty}},
		{TooShort, stacked(6, 3, oneByFour), Settings{}},
		{TooShort, stacked(4, 5, oneByFour), Settings{Often: true, Seams: map[int]Choice{1: {One: true}}, Rules: wide()}},
		{TooThin, stacked(6, 24, board(0.75, 0.8, true)), Settings{Screws: []string{"No. 10"}}},
		{NoLength, stacked(6, 24, board(0.25, 3.5, true)), Settings{}},
		{NoReach, stacked(6, 4.6, oneByFour), Settings{Screws: []string{"No. 6"}, Driver: Tool{Half: 3 * inch}}},
		{NoReach, stacked(6, 4.6, oneByFour), Settings{Often: true, Seams: map[int]Choice{1: {One: true}}, Rules: spanner(6)}},
		{Crossing, crowded(), Settings{HasRightAngle: true, RightAngle: Tool{Length: 20, Bit: 10, Half: 10}}},
		{Uneven, uneven(), Settings{}},
		{NoPlate, stacked(6, 24, board(0.75, 0.9, false)), Settings{}},
		{NoPlate, stacked(6, 24, board(0.75, 1.2, false)), Settings{Flat: Battens}},
		{NoBore, stacked(6, 24, board(0.5, 3.5, false)), Settings{Flat: CounterboredBolts}},
		{NoBolt, stacked(6, 40, board(4.5, 6, true)), Settings{Often: true}},
		{NoBolt, stacked(6, 24, oneByFour), Settings{Often: true, Catalogue: &empty}},
		{NoRows, stacked(6, 24, flat), Settings{Seams: map[int]Choice{1: {Rows: 2}}}},
		{NoRows, stacked(6, 24, flat), Settings{Flat: Battens, Seams: map[int]Choice{1: {Rows: 2}}}},
		{TooThin, stacked(6, 24, board(0.75, 0.8, true)), Settings{Seams: map[int]Choice{1: {Rows: 2}}}},
		{NoFrame, stacked(6, 24, oneByFour), Settings{Hooks: []Hook{{Frame: "X", Side: 1}}}},
		{NoFrame, stacked(6, 24, oneByFour), Settings{Hooks: []Hook{{Frame: "A", Side: 7}}}},
		{NoHook, stacked(6, 24, oneByFour), Settings{Hooks: []Hook{{Frame: "A", Side: 1, Count: 500}}}},
		{NoHook, stacked(6, 24, board(0.75, 3.5, false)), Settings{Hooks: []Hook{{Frame: "A", Side: 1}}}},
	} {
		l, b := c.m.build(t)
		p, problems := Fix(l, b, c.s)
		if len(problems) != 1 || problems[0].Code != c.code {
			t.Errorf("%s: got %+v\n%s", c.code, problems, text(l, p))
			continue
		}
		bad := problems[0]
		met[c.code] = true
		what, help := bad.Text(unit.Style{})
		if what == "" || help == "" || strings.HasSuffix(what+help, ".") || bad.Frames[0] == "" {
			t.Errorf("%s: %q, %q, frames %v", c.code, what, help, bad.Frames)
		}
		if strings.HasPrefix(string(c.code), "fixing-hook") == (bad.Seam != 0) {
			t.Errorf("%s names seam %d", c.code, bad.Seam)
		}
	}
	for _, k := range Snags {
		if !met[Code(k.Code)] {
			t.Errorf("nothing meets %s", k.Code)
		}
	}
	if len(Snags) != len(met) {
		t.Errorf("%d codes are listed, %d were met", len(Snags), len(met))
	}
	if _, err := snag.Merge(Snags); err != nil {
		t.Error(err)
	}
}

// wide wants bolts 14 D from the ends.
func wide() Rules {
	r := workWith(Settings{}).rules
	r.BoltEnd, r.BoltEndLeast = 14, 14
	return r
}

func spanner(room float64) Rules {
	r := workWith(Settings{}).rules
	r.NutRoom = room * inch
	return r
}

// Every note is met by some seam, has its sentence, and no sentence promises
// anything.
func TestEveryNote(t *testing.T) {
	mixed := &made{}
	mixed.box("edge", 24, 24, oneByFour)
	mixed.box("flat", 24, 24, flat)
	mixed.at("E", "edge", 0, 0)
	mixed.at("F", "flat", 0, 24)
	apart := &made{}
	apart.box("big", 40, 40, oneByFour)
	apart.box("small", 20, 18, oneByFour)
	apart.at("B", "big", 0, 0)
	apart.at("U", "small", 10, 40)
	apart.at("D", "small", 10, 40-0.75-18)
	site := func(c Choice) Settings { return Settings{Seams: map[int]Choice{1: c}} }
	met := map[Note]bool{}
	for _, c := range []struct {
		m    *made
		s    Settings
		want []Note
	}{
		{stacked(6, 24, oneByFour), site(Choice{One: true}), []Note{Pivot, Outside}},
		{stacked(6, 6, oneByFour), Settings{}, []Note{TwoAcross, NearMitre, Slanted}},
		{stacked(6, 9, oneByFour), Settings{HasRightAngle: true}, []Note{NeedsAngle, NearMitre}},
		{stacked(6, 24, oneByFour), site(Choice{Site: true, Screws: true}), []Note{Redriven}},
		{stacked(6, 24, board(0.75, 1.5, true)), Settings{Often: true}, []Note{NearEdge, Visible}},
		{stacked(6, 6, oneByFour), site(Choice{Site: true, One: true}), []Note{NoPegs}},
		{mixed, Settings{}, []Note{Mixed, Thinner}},
		{apart, Settings{}, []Note{Moved}},
	} {
		l, b := c.m.build(t)
		p, problems := Fix(l, b, c.s)
		for _, s := range p.Seams {
			for _, n := range s.Notes {
				met[n] = true
			}
		}
		for _, n := range c.want {
			if len(problems) > 0 || !slices.ContainsFunc(p.Seams, func(s Seam) bool { return has(s, n) }) {
				t.Errorf("no seam has the note %s: %v\n%s", n, problems, text(l, p))
			}
		}
	}
	for n, words := range noteTexts {
		if !met[n] || words == "" || n.Text() != words || !strings.HasSuffix(words, ".") || strings.Contains(strings.ToLower(words), "safe") {
			t.Errorf("%s: met %v, %q", n, met[n], words)
		}
	}
	if len(noteTexts) != len(met) {
		t.Errorf("%d notes have sentences, %d were met", len(noteTexts), len(met))
	}
}

// A seam that cannot be fixed takes no other with it.
func TestOneBadSeamLeavesTheOthers(t *testing.T) {
	m := stacked(6, 24, oneByFour)
	m.regular("tiny", 6, 3, oneByFour)
	m.attach("T", "tiny", "B", 1, 4)
	l, b := m.build(t)
	p, problems := Fix(l, b, Settings{})
	if len(p.Seams) != 1 || len(problems) != 1 || problems[0].Code != TooShort || problems[0].Frames == [2]string{} {
		t.Errorf("%+v\n%s", problems, text(l, p))
	}
}

// TooShort gives the figures: 3 / sqrt 3 = 1.732 less 0.866 of mitres is 0.866,
// and two No. 6
// along it want (5 + 5 + 10) x 0.138 = 2.76.
func TestTooShortIsSaidInFigures(t *testing.T) {
	l, b := stacked(6, 3, oneByFour).build(t)
	_, problems := Fix(l, b, Settings{Screws: []string{"No. 6"}})
	p := problems[0]
	if !near(p.Room/inch, 0.8660, 1e-4) || !near(p.Need/inch, 2.76, 1e-9) {
		t.Errorf("room %.3f, need %.3f", p.Room/inch, p.Need/inch)
	}
	what, _ := p.Text(unit.Style{Mark: inches / 16})
	if !strings.Contains(what, " in ") {
		t.Errorf("%q", what)
	}
}

func TestBoardsMustFitTheFrames(t *testing.T) {
	l, b := stacked(6, 24, oneByFour).build(t)
	defer func() {
		if recover() == nil {
			t.Error("a board too few went unseen")
		}
	}()
	Fix(l, b[:1], Settings{})
}
