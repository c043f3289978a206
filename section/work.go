package section

import "fmt"

// A Way is how units are put together.
type Way int

const (
	Lying   Way = iota // flat, and left lying: a section in the shop
	Tilted             // flat, then tilted up as one about the heel
	BuiltUp            // standing, from the base upward
)

func (w Way) String() string {
	return []string{"lying", "laid flat and tilted up", "built up from the base"}[w]
}

// A Reach is one place from which a driver gets at all screws of a seam.
type Reach struct {
	From            string // in words, for the paper
	Blocks          []int  // frames that are in the way once they are in place
	Lying, Standing bool   // whether it can be used in either
}

// An Assembly is units to be put together into one: the frames of a section in the
// shop, or sections on site.
type Assembly struct {
	Frames []Frame
	Seams  []Seam
	Reach  [][]Reach // of each seam; a nil list is reached always
	Units  [][]int   // of frames; what is joined inside a unit is done already
	Way    Way
	// Ballast is how many units of ballast lie on the base. They go on while the
	// first hands still hold.
	Ballast int
	// Stands says whether frames that are joined and ballasted stay up when they
	// are let go; nil trusts that they do.
	Stands func(frames []int) bool
	// Crew says how many people a doing needs for frames, or for what stands of
	// them; nil leaves it unsaid.
	Crew  func(d Doing, frames []int) int
	Rates Rates
	Work  int // steps the search may take; 0 is Steps
}

// Rates are minutes of a maker who knows the piece, for each time something is
// done; all of them are assumptions of the caller.
type Rates struct {
	Lay, Put, Screw, Unscrew, Tilt, Ballast, Undress, Take, Sweep float64
	// Strangers is how many times as long people take who did not build it, at
	// the least and at the most: 3 to 4 in common practice, no source.
	Strangers [2]float64
}

// A Doing is what a step does.
type Doing int

const (
	Lay        Doing = iota // a unit is laid down in its place
	Put                     // a unit is put up in its place and held
	Drive                   // screws of seams
	Tilt                    // the whole is tilted up and held
	BallastOn               // in its places on the base
	LetGo                   // of all that stands
	Undress                 // greenery, fabric, lights off
	Hold                    // hands on a unit, or on the whole
	Undo                    // screws of seams
	Take                    // a held unit is taken off
	Lower                   // the whole is let down flat
	BallastOff              // the base is free
	Sweep                   // floor searched for screws and wire, screws counted back
)

var doings = []string{"lay down", "put up and hold", "drive", "tilt up and hold", "ballast on", "let go",
	"undress", "hold", "undo", "take off", "lower", "ballast off", "sweep"}

func (d Doing) String() string { return doings[d] }

// A Step is one thing done by people who then look at the next line.
type Step struct {
	Do      Doing
	Frames  []int // of the unit, or all that stand
	Seams   []int
	From    []int   // which reach of each seam, -1 where any serves
	Screws  int     // driven or undone
	People  int     // 0 is not said
	Minutes float64 // of a maker
}

// An Order is the steps of an assembly, first to last.
type Order struct {
	Way   Way
	Steps []Step
}

// Minutes adds up the steps: for makers, and for strangers at the least and at
// the most.
func (o Order) Minutes(r Rates) (makers, least, most float64) {
	for _, s := range o.Steps {
		makers += s.Minutes
	}
	return makers, makers * r.Strangers[0], makers * r.Strangers[1]
}

// Screws counts what is driven, or undone.
func (o Order) Screws() int {
	n := 0
	for _, s := range o.Steps {
		n += s.Screws
	}
	return n
}

// A Help is a change after which there is an order. Each was tried.
type Help int

const (
	OtherWay     Help = iota // tilted up instead of built up, or built up instead
	KeepTogether             // the seam closed in the shop: its two units travel as one
	OpenReach                // the seam made to be reached from elsewhere
)

func (h Help) String() string {
	return []string{"put it up the other way", "close the seam in the shop, so that its frames travel together", "make the seam reachable from another place"}[h]
}

// A Blocked says that there is no order, and what stands in the way.
type Blocked struct {
	Seam   int   // whose screws cannot be reached when their turn comes; -1 for none
	By     []int // frames in place that are in the way
	Frames []int // without a seam: what would stand on nothing, or not stay up
	Helps  []Help
	Tired  bool // the work allowed ran out before all orders had been tried
}

func (b *Blocked) Error() string {
	switch {
	case b.Tired:
		return "section: no order found within the work allowed"
	case b.Seam < 0:
		return fmt.Sprintf("section: frames %v would stand on nothing or not stay up", b.Frames)
	}
	return fmt.Sprintf("section: the screws of seam %d cannot be reached when their turn comes", b.Seam)
}

// Within is the assembly of putting one section together in the shop, lying, frame
// by frame.
func (j Assembly) Within(frames []int) Assembly {
	j.Way, j.Units = Lying, nil
	for _, f := range frames {
		j.Units = append(j.Units, []int{f})
	}
	return j
}
