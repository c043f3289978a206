package section

import (
	"fmt"

	"bowerwright/geom"
)

// A Frame is one frame of the set piece.
type Frame struct {
	Mass   float64    // kg
	Centre geom.Point // of gravity, seen from the front, mm
	Foot   bool       // it stands on the base or the floor
}

// A Seam joins two frames, counted from 0.
type Seam struct {
	A, B   int
	Screws int  // how many are driven on site if it becomes a site seam
	Shop   bool // it can only be closed in the shop: never a site seam
}

// Limits are what every section keeps to. A nil function limits nothing.
type Limits struct {
	// Pass says whether frames, in rising order, pass every tight spot as one
	// piece and can be lifted. A part of what passes must pass.
	Pass func(frames []int) bool
	Mass float64 // most that a section weighs, kg; 0 is no limit
	// Bear says whether frames can be carried as one piece without harm. It may
	// be slow: it is asked only of whole sections, last, and no more than Asks
	// times in each search; the checker asks again, so it should remember.
	Bear func(frames []int) bool
	Asks int // 0 is Asks
}

// Asks is the usual number of sections whose bearing one search may ask about.
const Asks = 300

// A Problem is what is to be cut into sections.
type Problem struct {
	Frames   []Frame
	Seams    []Seam
	Together [][2]int // pairs of frames kept in one section
	Apart    [][2]int // pairs kept in different ones
	Limits   Limits
	Work     int // steps each of the searches may take; 0 is Steps
}

// Steps is the usual budget of a search: one step is one frame put into one
// section. A set piece of 20 frames takes a few hundred.
const Steps = 20_000

// Most is how many frames a problem may have.
const Most = 64

// A Section is one unit that travels.
type Section struct {
	Letter string // A, B ... from left to right
	Frames []int  // rising
	Mass   float64
	Centre geom.Point
}

// A Plan is the sections found and what is known of fewer.
type Plan struct {
	Sections  []Section
	SiteSeams []int // indices of seams
	Screws    int   // in them
	// AtLeast is the fewest sections not ruled out. It is len(Sections) when that
	// is proved fewest; else the difference is the gap.
	AtLeast    int
	Refutation Refutation // of AtLeast - 1 sections
	// BestOfTies says that no plan of as many sections has fewer site screws, or
	// as few and evener masses. It is false when the work ran out before that was
	// known.
	BestOfTies bool
	Work       int // steps taken in all
}

// Fewest says whether no plan has fewer sections.
func (p Plan) Fewest() bool { return p.AtLeast == len(p.Sections) }

// A Refutation shows that so many sections cannot be enough. It is a tree, node
// by node, each before what is below it: a node names a unit (frames that
// cannot be parted), and below it the unit is put into each section begun so
// far in turn and then, if there are fewer than Sections, into a new one. -1 is
// an end: there a section holds too much, or can no longer become connected,
// or can grow no further and does not bear being carried.
type Refutation struct {
	Sections int
	Units    [][]int
	Tree     []int
}

// A Stuck says what stands against every plan.
type Stuck struct {
	Frames []int  // what cannot be parted, and fails by itself
	Why    string // in a few words
}

func (s *Stuck) Error() string {
	return fmt.Sprintf("section: frames %v %s", s.Frames, s.Why)
}

// check looks over a problem's own sense.
func (p Problem) check() error {
	n := len(p.Frames)
	if n == 0 || n > Most {
		return fmt.Errorf("section: %d frames; 1 to %d can be dealt with", n, Most)
	}
	in := func(a, b int) bool { return a >= 0 && b >= 0 && a < n && b < n && a != b }
	for i, s := range p.Seams {
		if !in(s.A, s.B) || s.Screws < 0 {
			return fmt.Errorf("section: seam %d joins frames %d and %d with %d screws", i, s.A, s.B, s.Screws)
		}
	}
	for _, ps := range [][][2]int{p.Together, p.Apart} {
		for _, q := range ps {
			if !in(q[0], q[1]) {
				return fmt.Errorf("section: a pair of frames %d and %d", q[0], q[1])
			}
		}
	}
	return nil
}
