package cut

import (
	"fmt"
	"math"
	"strings"

	"bowerwright/unit"
)

// An Order is what is to be cut, from what, and how. Boards of one length,
// without limit or price, are told by Board and its trims; anything else by
// Stocks, and Board and the trims are then 0.
type Order struct {
	Board     unit.Length // full length of a board
	TrimFirst unit.Length // waste at the first end, at least
	TrimFar   unit.Length // waste at the far end, at least
	Stocks    []Stock
	Keep      unit.Length // least offcut worth keeping; 0 keeps every one
	Depth     unit.Length // stock dimension in the plane of the shape
	Kerf      unit.Length // of the blade, straight across
	Hold      unit.Length // least length held at a cut; 0 switches the rule off
	Turning   bool        // whether a part may lie any way up
	BySetting bool        // on a board parts lie by saw setting, and only then shortest first
	Parts     []Part
}

// A Part is a stick wanted Count times. Left and Right are the saw's settings
// from straight across, in (-90, 90) degrees; positive makes the inside
// shorter.
type Part struct {
	Name        string
	Outside     unit.Length
	Left, Right unit.Angle
	Count       int
}

// A Stock is boards of one length and price: to be bought, or on hand. Boards
// on hand, offcuts among them, do not count as bought.
type Stock struct {
	Name               string
	Length             unit.Length
	TrimFirst, TrimFar unit.Length // waste at the ends, at least
	Price              int64       // of a board, in minor units of one currency; 0 is free, or not known
	Limit              int         // boards to be had; 0 is no limit, and then they are bought
	OnHand             bool        // needs a Limit
	// Spans are lengths of a single free board on hand that cannot be used,
	// as a knot or a split. The board is first cut square on both sides of
	// each, Margin away from it, the blade towards the span. The ends so made
	// need no trim.
	Spans  []Span
	Margin unit.Length
	// Begun says that a part was cut from the board before: its length counts
	// from that part's right end, on the centre line. The cut that ended it, which
	// leans by Lean over the depth, positive to the far end, can be shared with
	// the first part, as between neighbours; there is no other first trim.
	Begun bool
	Lean  unit.Angle
}

// A Span is a length of a board from its first end.
type Span struct{ From, To unit.Length }

// Settings steer the solver.
type Settings struct {
	Work int64 // counted steps after which it stops; 0 means DefaultWork
}

// beside is the budget of a way that is only shown beside another: a quarter, so
// that four ways of a hard order take less than twice the time of one.
func (s Settings) beside() Settings {
	if s.Work == 0 {
		s.Work = DefaultWork
	}
	return Settings{Work: max(1, s.Work/4)}
}

// Beside are settings for a plan that is only shown beside another.
func Beside() Settings { return Settings{}.beside() }

// DefaultWork is the budget of a plan: a few seconds on a small machine.
const DefaultWork = 60_000_000

// MostParts is the greatest count of one part and of all parts together. It
// keeps sums of lengths and worths inside 64 bits.
const MostParts = 200_000

// longest is the greatest length in an order, far beyond any board: it keeps
// float64 nanometres exact to 2e-6.
const longest = 20 * unit.Metre

// A Why says why a part can never be cut.
type Why int

// The reasons.
const (
	NoFace        Why = iota + 1 // its ends meet before the shorter face: Has is that face
	TooLong                      // alone on a board it takes Has, the board has Needs
	NothingToHold                // at its cut Has can be held at most, Needs must
)

// A Trouble is a part that can never be cut.
type Trouble struct {
	Part       int // index in the order
	Name       string
	Why        Why
	Has, Needs unit.Length
}

// An Impossible lists every part that can never be cut.
type Impossible struct{ Parts []Trouble }

// Error names the parts and the numbers, in millimetres.
func (e *Impossible) Error() string {
	var b strings.Builder
	b.WriteString("cut: parts that cannot be cut:")
	for _, t := range e.Parts {
		fmt.Fprintf(&b, " %q (%s)", t.Name, t.says())
	}
	return b.String()
}

func (t Trouble) says() string {
	switch t.Why {
	case NoFace:
		return fmt.Sprintf("shorter face %.2f mm", t.Has.MM())
	case TooLong:
		return fmt.Sprintf("takes %.2f mm of a board of %.2f mm", t.Has.MM(), t.Needs.MM())
	}
	return fmt.Sprintf("leaves %.2f mm to hold, wants %.2f mm", t.Has.MM(), t.Needs.MM())
}

// valid says what is wrong with an order as such: our caller's fault.
func (o *Order) valid() error {
	for _, l := range []struct {
		name  string
		value unit.Length
		least unit.Length
	}{
		{"depth", o.Depth, 0}, {"kerf", o.Kerf, 0}, {"hold", o.Hold, 0}, {"offcut", o.Keep, 0},
	} {
		if l.value < l.least || l.value > longest {
			return fmt.Errorf("cut: %s of %g mm", l.name, l.value.MM())
		}
	}
	if err := o.validStocks(); err != nil {
		return err
	}
	all := 0
	for i, p := range o.Parts {
		if p.Outside <= 0 || p.Outside > longest || p.Count < 0 || p.Count > MostParts {
			return fmt.Errorf("cut: part %d (%q): %d of %g mm", i, p.Name, p.Count, p.Outside.MM())
		}
		for _, a := range []unit.Angle{p.Left, p.Right} {
			if !(math.Abs(float64(a)) < math.Pi/2) {
				return fmt.Errorf("cut: part %d (%q): setting of %g degrees", i, p.Name, a.Degrees())
			}
		}
		all += p.Count
	}
	if all > MostParts {
		return fmt.Errorf("cut: %d parts, at most %d", all, MostParts)
	}
	return nil
}
