package job

import (
	"bowerwright/unit"
)

// plateOf is a base of one plate, inches.
func plateOf(width, depth float64) []BaseAsked {
	return []BaseAsked{{Name: "plate", Kind: "plate", Width: ins(width), Depth: ins(depth)}}
}

func ins(v float64) unit.Length { return unit.Length(v * float64(unit.Inch)) }

// standingTroubles are what dressing and base may ask for and cannot be.
var standingTroubles = []trouble{
	{"base-none", "base", with(spec("S = square: side 18, stands on corner", "S1 at 0 0"), func(s *Spec) {
		s.Base = []BaseAsked{{Name: "pegs", Kind: "stakes", Pull: 100, Sideways: 100}}
	}), "give it a base", func(s *Spec) { s.Base = plateOf(30, 30) }},
	{"base-overhang", "base", with(hexagons(), func(s *Spec) {
		s.Base = plateOf(2, 30)
		s.Base[0].Left = ptr(ins(-40))
	}), "make the base wider", func(s *Spec) { s.Base = plateOf(90, 30) }},
	{"base-rim", "base.rim.rim", with(hexagons(), func(s *Spec) {
		s.Base = []BaseAsked{{Name: "rim", Kind: "ring", Width: ins(90), Depth: ins(30), Rim: ins(15)}}
	}), "a smaller rim", func(s *Spec) { s.Base[0].Rim = ins(9) }},
	{"dressing-region", "dressing.draped.cloth", with(hexagons(), func(s *Spec) {
		s.Dressing = []WayAsked{{Name: "draped", Layers: []LayerAsked{{Name: "cloth", Mass: 1, From: ins(15), To: ins(5)}}}}
	}), "a band from below to above", func(s *Spec) { s.Dressing[0].Layers[0].From = 0 }},
	{"dressing-covers-none", "dressing.draped.cloth", with(hexagons(), func(s *Spec) {
		s.Dressing = []WayAsked{{Name: "draped", Layers: []LayerAsked{{Name: "cloth", Mass: 1, From: ins(500)}}}}
	}), "a place on the piece", func(s *Spec) { s.Dressing[0].Layers[0].From = 0 }},
}
