package dressing

import (
	"math"
	"testing"

	"bowerwright/geom"
)

func TestEveryProblem(t *testing.T) {
	p := wall(t)
	nan := math.NaN()
	bow := geom.Polygon{{X: 0, Y: 0}, {X: 100, Y: 100}, {X: 100, Y: 0}, {X: 0, Y: 100}}
	for _, c := range []struct {
		code Code
		l    Layer
	}{
		{BadShare, Layer{Closes: 1.1}}, {BadShare, Layer{Closes: -0.1}}, {BadShare, Layer{Closes: nan}},
		{BadWet, Layer{Wet: 0.5}}, {BadWet, Layer{Wet: nan}}, {BadWet, Layer{Wet: math.Inf(1)}},
		{BadMass, Layer{Mass: -1}}, {BadMass, Layer{PerArea: nan}}, {BadMass, Layer{Front: math.Inf(-1)}},
		{NoFrame, Layer{On: Region{Frames: []int{1}}}}, {NoFrame, Layer{On: Region{Frames: []int{-1}}}},
		{BadRegion, Layer{On: Region{From: 500, To: 400}}}, {BadRegion, Layer{On: Region{From: nan}}},
		{BadRegion, Layer{On: Region{Shapes: []geom.Polygon{bow}}}},
		{BadRegion, Layer{On: Region{Shapes: []geom.Polygon{{{X: nan}, {Y: 1}, {X: 1}}}}}},
		{NoArea, Layer{On: Region{From: 9000, To: 9100}}},
		{NoArea, Layer{On: Region{Shapes: []geom.Polygon{rect(0, -300, 100, 200)}}}}, // below the floor
	} {
		c.l.Name = "ivy"
		s, problems := p.Dress(Way{"dressed", []Layer{c.l}})
		if len(problems) != 1 || problems[0].Code != c.code || problems[0].Layer != "ivy" || problems[0].Way != "dressed" {
			t.Errorf("%+v: problems %+v, want %s", c.l, problems, c.code)
			continue
		}
		if len(s.Layers) != 0 || len(s.Weights) != 1 {
			t.Errorf("%s: the layer hangs all the same", c.code)
		}
		if text, help := problems[0].Text(); text == "" || help == "" {
			t.Errorf("%s has no words", c.code)
		}
	}
}

func TestAllProblemsAtOnce(t *testing.T) {
	_, problems := wall(t).Build([]Way{
		{"bare", nil}, {"dressed", []Layer{{Name: "a", Closes: 2, Wet: 0.1}}}, {"dressed", []Layer{{Name: "b", Mass: -1}}}})
	var codes []Code
	for _, p := range problems {
		codes = append(codes, p.Code)
	}
	if len(codes) != 4 || codes[0] != BadShare || codes[1] != BadWet || codes[2] != WayTwice || codes[3] != BadMass {
		t.Errorf("codes %v", codes)
	}
	if text, _ := problems[2].Text(); text != `two ways of dressing are called "dressed"` {
		t.Errorf("said %q", text)
	}
}

func TestEveryCodeIsListed(t *testing.T) {
	if len(Snags) != 7 {
		t.Errorf("%d snags are listed", len(Snags))
	}
	seen := map[string]bool{}
	for _, s := range Snags {
		if s.Meaning == "" || seen[s.Code] {
			t.Errorf("%+v", s)
		}
		seen[s.Code] = true
	}
}
