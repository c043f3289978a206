package base

import (
	"math"
	"testing"

	"bowerwright/geom"
)

func TestEveryProblem(t *testing.T) {
	line := Line{200, 800, 0, 90}
	plate := func(change func(*Piece)) []Piece {
		p := PlateOf(Rectangle(0, -200, 1000, 600), ply)
		p.Name = "plate"
		change(&p)
		return []Piece{p}
	}
	x := func(x float64) *float64 { return &x }
	for _, c := range []struct {
		name string
		code Code
		base Base
	}{
		{"crossed", BadPiece, Base{Pieces: plate(func(p *Piece) {
			p.Footprint[0][0], p.Footprint[0][1] = p.Footprint[0][1], p.Footprint[0][0]
			p.Under = false
		})}},
		{"none", BadPiece, Base{Pieces: plate(func(p *Piece) { p.Footprint, p.Under = nil, false })}},
		{"no number", BadPiece, Base{Pieces: plate(func(p *Piece) { p.Footprint[0][0].X, p.Under = math.NaN(), false })}},
		{"no height", BadPiece, Base{Pieces: plate(func(p *Piece) { p.Up, p.Under = math.Inf(1), false })}},
		{"light", BadMass, Base{Pieces: plate(func(p *Piece) { p.Mass = -1 })}},
		{"beside", Overhangs, Base{Pieces: plate(func(p *Piece) { p.Footprint[0] = Rectangle(900, 0, 300, 300) })}},
		{"split beside", BadSplit, Base{Pieces: plate(func(p *Piece) { p.SplitAt = x(1000) })}},
		{"stake", BadStake, Base{Stakes: []Stake{{Pull: -3}}}},
		{"stake nowhere", BadStake, Base{Stakes: []Stake{{At: geom.Point{X: math.NaN()}}}}},
	} {
		_, problems := c.base.Stand([]Line{line})
		if len(problems) != 1 || problems[0].Code != c.code {
			t.Errorf("%s: %+v, want %s", c.name, problems, c.code)
			continue
		}
		if text, help := problems[0].Text(); text == "" || help == "" {
			t.Errorf("%s has no words", c.code)
		}
	}
	if text, help := (Problem{Code: NoFoot}).Text(); text == "" || help == "" {
		t.Error("no words for a piece without a foot")
	}
	s, problems := Base{Pieces: plate(func(p *Piece) { p.SplitAt = x(500) })}.Stand([]Line{line})
	if len(problems) != 0 || len(s.Deck) != 1 {
		t.Errorf("a plate in two pieces: %v", problems)
	}
}

// A tip stands on a plate below it and not on one beside it.
func TestTipsNeedAPlateToo(t *testing.T) {
	tip := []Line{{500, 500, 0, 90}}
	b := Base{Pieces: []Piece{PlateOf(Rectangle(400, -100, 300, 300), ply)}}
	if _, problems := b.Stand(tip); len(problems) != 0 {
		t.Error(problems)
	}
	b.Pieces[0].Footprint[0] = Rectangle(600, -100, 300, 300)
	if _, problems := b.Stand(tip); len(problems) != 1 || problems[0].Code != Overhangs {
		t.Error(problems)
	}
}

func TestEveryCodeIsListed(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range Snags {
		if s.Meaning == "" || seen[s.Code] {
			t.Errorf("%+v", s)
		}
		seen[s.Code] = true
	}
	if len(seen) != 6 {
		t.Errorf("%d snags", len(seen))
	}
}
