package job

// StrengthFacts say whether seams, corners, boards and the joint to the base
// hold.
type StrengthFacts struct {
	Word string `json:"word"`
	Over bool   `json:"over"`
	Says string `json:"says"` // one line: what governs, where, under what

	Held     string          `json:"held"`      // how the frames are held to the base, in words
	Cases    []StrengthCase  `json:"cases"`     // at most twelve
	Governs  int             `json:"governs"`   // index in Cases, -1 where nothing could be reckoned
	Seams    []SeamUse       `json:"seams"`     // the worst of each, by number
	Move     Size            `json:"move"`      // the farthest that any place moves, mitres that do not give
	MoveMost Size            `json:"move_most"` // and mitres that do
	MoveCase string          `json:"move_case"`
	Loose    []LooseFacts    `json:"loose"`
	Pivots   []int           `json:"pivots"`  // seams of a single screw
	Outside  []int           `json:"outside"` // seams whose screws the timber standard does not cover
	Problems []StrengthAmiss `json:"problems"`
	Notes    []string        `json:"notes"`
}

// A StrengthCase is one load and what it asks of the parts.
type StrengthCase struct {
	Load   string    `json:"load"`
	Way    string    `json:"way"` // of dressing
	Force  Force     `json:"force"`
	Height Size      `json:"height"` // of the force, over the foot of the piece
	Lift   bool      `json:"lift"`   // on the way, held by hands
	Use    Use       `json:"use"`
	Where  string    `json:"where"`
	At     XY        `json:"at"`
	Band   [2]string `json:"band"` // the share with better and with poorer wood, screws and glue
	Move   Size      `json:"move"`
	Parts  []PartUse `json:"parts"` // the worst of each kind of part, the worst first
}

// PartUse is what one part uses of its limit.
type PartUse struct {
	Part  string `json:"part"` // "seam", "corner", "board", "base", "brace", "strongback", "movement"
	Where string `json:"where"`
	Use   Use    `json:"use"`
}

// SeamUse is the worst of one seam in any case.
type SeamUse struct {
	Seam  int   `json:"seam"`
	Use   Use   `json:"use"`
	Pull  Force `json:"pull"`  // along the screw that bears most
	Slide Force `json:"slide"` // across it
}

// LooseFacts are frames that can move without resistance, and how.
type LooseFacts struct {
	Says   string      `json:"says"`
	Frames []string    `json:"frames"`
	Seams  []int       `json:"seams"`
	Moves  []LooseMove `json:"moves"`
}

// A LooseMove is how one corner goes: the largest of all moves is 1.
type LooseMove struct {
	Frame  string  `json:"frame"`
	Corner int     `json:"corner"`
	At     XY      `json:"at"`
	Right  float64 `json:"right"`
	Back   float64 `json:"back"`
	Up     float64 `json:"up"`
}

// StrengthAmiss is something that is to be put right before strength can be
// relied on.
type StrengthAmiss struct {
	Code string `json:"code"`
	Says string `json:"says"`
	Help string `json:"help"`
}

func (s *StrengthFacts) emptyLists() {
	if s == nil {
		return
	}
	empty(&s.Cases)
	empty(&s.Seams)
	empty(&s.Loose)
	empty(&s.Pivots)
	empty(&s.Outside)
	empty(&s.Problems)
	empty(&s.Notes)
	for i := range s.Cases {
		empty(&s.Cases[i].Parts)
	}
	for i := range s.Loose {
		empty(&s.Loose[i].Seams)
		empty(&s.Loose[i].Moves)
	}
}
