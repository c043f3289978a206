package job

// SectionsFacts say in how few sections the set piece travels, how each passes
// every tight spot, and in which order it is put up and taken down. They are
// worked out where the job names tight spots.
type SectionsFacts struct {
	Says  string   `json:"says"`  // one line
	Over  bool     `json:"over"`  // something does not pass, cannot be done, or takes too long
	Amiss []string `json:"amiss"` // each thing that is over, in words

	Spots    []TightSpotFacts `json:"tight_spots"` // in the order in which they are met
	Sections []SectionFacts   `json:"sections"`
	Site     []SiteSeam       `json:"site_seams"`
	Screws   int              `json:"site_screws"`
	AtLeast  int              `json:"at_least"` // the fewest sections not ruled out
	Proved   bool             `json:"fewest"`   // fewer are ruled out, replayed by a program of its own
	Tied     bool             `json:"best_of_ties"`
	Rests    []string         `json:"rests_on"` // what fewest rests on
	Closed   []int            `json:"closed_in_the_shop"`

	Way     string       `json:"way"` // "laid flat and tilted up", "built up from the base"
	Because string       `json:"because,omitempty"`
	Shop    []OrderFacts `json:"in_the_shop"` // of each section of several frames
	Build   *OrderFacts  `json:"on_site,omitempty"`
	Strike  *OrderFacts  `json:"strike,omitempty"`

	Stuck      *StuckFacts   `json:"stuck,omitempty"`   // no parting passes
	Blocked    *BlockedFacts `json:"blocked,omitempty"` // no order of work
	NotChecked []string      `json:"not_checked"`
}

// TightSpotFacts are one tight spot.
type TightSpotFacts struct {
	Name     string     `json:"name"`
	Kind     string     `json:"kind"`
	Measures string     `json:"measures"`
	By       string     `json:"measured_by,omitempty"`
	Verified bool       `json:"verified"`
	Whole    *PassFacts `json:"whole,omitempty"`   // the set piece in one; nil for a ceiling
	Stands   *Size      `json:"stands,omitempty"`  // of a ceiling: left overhead, signed
	Tilting  *Size      `json:"tilting,omitempty"` // while it is tilted up
	Load     *Weight    `json:"load,omitempty"`    // of all that it carries, where it has a payload
	Payload  *Weight    `json:"payload,omitempty"`
}

// PassFacts are how one piece passes one tight spot, held still, its middle in
// the middle. Slack is what is left after wrapping and fingers, half on either
// side; clearance is the least of it, negative by what is missing.
type PassFacts struct {
	Spot      string `json:"spot"`
	Passes    bool   `json:"passes"`
	Hold      string `json:"hold"` // "upright", "on edge", "flat", "leaned", "broadside"
	Turn      Angle  `json:"turn"` // anticlockwise in its own plane, seen from the front
	Lean      Angle  `json:"lean"` // from upright
	FaceDown  bool   `json:"face_down"`
	Clearance Size   `json:"clearance"`
	Across    *Size  `json:"slack_across,omitempty"` // nil: no limit
	Up        *Size  `json:"slack_up,omitempty"`
	Along     *Size  `json:"slack_along,omitempty"`
	Says      string `json:"says"`
}

// SectionFacts are one unit that travels.
type SectionFacts struct {
	Letter string      `json:"letter"`
	Frames []string    `json:"frames"` // labels
	Weight Weight      `json:"weight"`
	Middle XY          `json:"middle"` // of the weight
	Width  Size        `json:"width"`  // as it stands
	Height Size        `json:"height"`
	Depth  Size        `json:"depth"`
	People int         `json:"people"` // who carry it flat; 0: no team is enough
	Holds  []HoldFact  `json:"hand_holds"`
	Most   Weight      `json:"most"` // what the hardest pressed carries
	Passes []PassFacts `json:"passes"`
}

// SiteSeam is a seam closed on site.
type SiteSeam struct {
	Number   int       `json:"number"`
	Frames   [2]string `json:"frames"`
	Sections [2]string `json:"sections"` // letters
	Count    int       `json:"count"`
	Thing    string    `json:"thing"`
}

// OrderFacts are the steps of one assembly.
type OrderFacts struct {
	Section string     `json:"section,omitempty"` // of an order in the shop
	Way     string     `json:"way"`
	Steps   []WorkStep `json:"steps"`
	Count   int        `json:"count"` // screws driven, or undone
	Makers  Time       `json:"makers"`
	Least   Time       `json:"strangers_least"`
	Most    Time       `json:"strangers_most"`
	By      string     `json:"by"` // who does it, as the job says
	Window  *Time      `json:"window,omitempty"`
	Fits    bool       `json:"fits"` // into the window, whoever does it at their slowest
}

// WorkStep is one thing done.
type WorkStep struct {
	Do     string   `json:"do"`
	What   []string `json:"what"` // letters of sections; in the shop, labels of frames
	Seams  []int    `json:"seams"`
	Count  int      `json:"count"`
	People int      `json:"people"` // 0: not said
	Time   Time     `json:"time"`
	Says   string   `json:"says"`
}

// StuckFacts say what stands against every parting.
type StuckFacts struct {
	Frames []string    `json:"frames"`
	Why    string      `json:"why"`
	Passes []PassFacts `json:"passes"`
}

// BlockedFacts say why there is no order of work.
type BlockedFacts struct {
	Seam   int      `json:"seam"` // its number, 0 for none
	Frames []string `json:"frames"`
	Says   string   `json:"says"`
	Helps  []string `json:"helps"` // each was tried
}

func (s *SectionsFacts) emptyLists() {
	if s == nil {
		return
	}
	empty(&s.Amiss)
	empty(&s.Spots)
	empty(&s.Sections)
	empty(&s.Site)
	empty(&s.Rests)
	empty(&s.Closed)
	empty(&s.Shop)
	empty(&s.NotChecked)
	for i := range s.Sections {
		empty(&s.Sections[i].Holds)
		empty(&s.Sections[i].Passes)
	}
	for i := range s.Shop {
		s.Shop[i].emptyLists()
	}
	s.Build.emptyLists()
	s.Strike.emptyLists()
	if s.Stuck != nil {
		empty(&s.Stuck.Passes)
	}
	if s.Blocked != nil {
		empty(&s.Blocked.Frames)
		empty(&s.Blocked.Helps)
	}
}

func (o *OrderFacts) emptyLists() {
	if o == nil {
		return
	}
	for i := range o.Steps {
		empty(&o.Steps[i].What)
		empty(&o.Steps[i].Seams)
	}
}
