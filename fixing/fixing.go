package fixing

import (
	"slices"

	"bowerwright/assume"
	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/stock"
	"bowerwright/unit"
)

// A Board is what a frame is made of: real sizes, how it lies, and the
// specific gravity of its timber (0: unknown, taken as 0.5).
type Board struct {
	frame.Boards
	Gravity float64
}

// Settings say how somebody wants to fix. The zero value is a shop with the
// catalogue's hardware and No. 8 screws, a driver of usual length and no
// right-angle head; the piece is seen from the front.
type Settings struct {
	Rules     Rules
	Catalogue *stock.Catalogue // nil: the built-in one
	Metric    bool             // bolts, pegs, plates and screws in metric sizes where nothing is named
	Screws    []string         // thicknesses in order of preference; none: No. 8, then No. 6, or 4 mm, then 3.5 mm
	Lengths   []unit.Length    // lengths of screw at hand; none: all that are sold

	Driver        Tool // zero fields take the rules'
	RightAngle    Tool // likewise
	HasRightAngle bool

	Eyes         []Eye // none: see DefaultEyes
	BothSides    bool  // the default eyes look from behind as well
	DressedBelow unit.Length
	DressedAbove unit.Length // heads higher than this are covered by dressing; zero: none

	Often   bool // goes up and down often: bolts or inserts at every seam
	Inserts bool // threaded inserts rather than bolts right through
	Rows    int  // 2: two rows through the depth wherever boards are deep enough
	Flat    FlatWay
	Seams   map[int]Choice // by seam number
	Hooks   []Hook
}

// A Choice is what somebody decided for one seam.
type Choice struct {
	One    bool // a single screw or bolt, in spite of its warning
	Rows   int  // 2: twice as many, in two rows through the depth, or a Problem
	Site   bool // closed only at the venue
	Often  bool // as Settings.Often, for this seam alone
	Screws bool // screws although it is a site seam or goes up and down often
}

// A FlatWay is how two flat frames are joined.
type FlatWay int

// The ways; the zero is plates on the back.
const (
	Plates FlatWay = iota
	Battens
	CounterboredBolts
)

// A Method is how a seam is fixed.
type Method string

// The methods.
const (
	Screwed    Method = "screws"
	Bolted     Method = "bolts"
	Inserted   Method = "threaded inserts"
	Plated     Method = "plates"
	Battened   Method = "battens"
	BoredBolts Method = "counterbored bolts"
)

// A Plan is how a layout is fixed.
type Plan struct {
	Seams  []Seam  // those that are fixed, by number
	Hooks  []Fixed // where hooks and ties go, in the order asked for
	Totals []Total // what to buy, by name
}

// A Seam is how one seam is fixed.
type Seam struct {
	Number    int
	Index     int // in the layout's seams
	Method    Method
	Across    bool // two, one behind the other across the depth
	Rows      int  // 2: as many again in a second row through the depth
	Fasteners []Fastener
	Pegs      []Peg
	Plates    []Piece // plates or battens on the back
	Bag       []Item  // hardware, for the bag that goes with the seam
	Seen      int     // pairs of an eye and a head that it sees
	Looks     int     // pairs there are
	Notes     []Note  // warnings
}

// A Fastener is one screw or bolt in its place.
type Fastener struct {
	Kind     stock.Hardware
	Name     string // as sold: No. 8 x 1 1/4 in
	Gauge    string // No. 8; "" for a bolt
	Diameter unit.Length
	Root     unit.Length // zero for a bolt
	Length   unit.Length

	Along  float64    // from the seam's left end, where it crosses the seam
	Off    float64    // from the seam towards its second side: 0 but for plates and battens
	Depth  float64    // behind the front edges, where it crosses the seam
	Head   int        // frame that holds the head
	Tip    int        // frame that holds the point or the nut
	At     geom.Point // the head, on the face it sits in
	HeadIn float64    // depth of the head behind the front edges
	Axis   geom.Point // unit vector along which it is driven, in the plane; zero when driven from the back
	Slant  unit.Angle // from square to the board, the point towards the side away from the driver
	From   Side       // the open side a slanted one, or one of a plate, is driven from
	Way    string     // the axis in words: up, down to the left, from the back

	First       float64 // thickness of the board (or plate) under the head, along the axis
	Penetration float64 // into the board behind, point included
	Spare       float64 // wood left over the point, square to the board
	Holes       Holes
	Tool        Reach
	Room        float64 // clear in front of the head along the axis, at most Horizon
}

// Diameters of penetration: 6 are wanted by the standard.
func (f Fastener) Diameters() float64 { return f.Penetration / f.Diameter.MM() }

// WayFrom says the way a fastener of a layout seen from the front is driven, as
// it looks from one side: from the back left and right change places.
func (f Fastener) WayFrom(side Side) string {
	axis := f.Axis
	if axis == (geom.Point{}) {
		return f.Way
	}
	if side == Back {
		axis.X = -axis.X
	}
	way := direction(axis)
	if f.From != NoSide {
		way += ", from the " + string(f.From)
	}
	return way
}

// A Side is the open front or back of the piece.
type Side string

// The sides.
const (
	NoSide Side = ""
	Back   Side = "back"
	Front  Side = "front"
)

// A Reach is the driver that a fastener takes.
type Reach string

// The reaches, best first.
const (
	Straight  Reach = "driver"
	Angled    Reach = "right-angle head"
	AtASlant  Reach = "driver at a slant"
	ByHand    Reach = "spanner"
	Socket    Reach = "thin-walled socket" // for a nut in its counterbore
	FromAbove Reach = "driver from the back"
)

// A Piece is a plate or a batten across a seam, on the back.
type Piece struct {
	Name          string
	Along         float64 // its middle, from the seam's left end
	Length, Width float64 // a plate's length lies across the seam, a batten's along it
	Of            int     // the frame of whose boards a batten is sawn, as an index of the layout
}

// A Peg locates the two frames of a site seam.
type Peg struct {
	Name         string
	Along, Depth float64
	At           geom.Point
	Into         [2]float64 // into each side's board
	Hole         unit.Length
}

// Fix fixes every seam of a layout whose frames are made of boards, one for
// each of its frames. A seam that cannot be fixed is a Problem and not in the
// Plan. Both come in the order of the seams' numbers. It panics when boards and
// frames are not equal in number: that is a fault of the caller.
func Fix(l layout.Layout, boards []Board, s Settings) (Plan, []Problem) {
	if len(boards) != len(l.Frames) {
		panic("fixing: one board for each frame is wanted")
	}
	w := newWork(l, boards, s)
	var plan Plan
	for i := range l.Seams {
		if seam, ok := w.fix(i); ok {
			plan.Seams = append(plan.Seams, seam)
		}
	}
	plan.Hooks = w.hooks()
	plan.Totals = totals(plan, w.cat)
	return plan, w.problems
}

// work is the state of one run.
type work struct {
	l        layout.Layout
	boards   []Board
	s        Settings
	rules    Rules
	cat      stock.Catalogue
	screws   []gauge
	bolts    bolts
	pegs     []stock.Fastener
	plated   []stock.Fastener
	eyes     []Eye
	woods    *woods
	paths    *paths
	covers   *covers
	problems []Problem

	plateScrews map[string]gauge // by the name that a plate gives them
}

// A gauge is a thickness of screw with the lengths to choose from, shortest
// first.
type gauge struct {
	stock.Screw
	sold []stock.Fastener
}

func newWork(l layout.Layout, boards []Board, s Settings) *work {
	w := &work{l: l, boards: boards, s: s, rules: s.Rules}
	if w.rules == (Rules{}) {
		w.rules = RulesFrom(assume.BuiltInBook().Reader())
	}
	if s.Catalogue != nil {
		w.cat = *s.Catalogue
	} else {
		w.cat = stock.BuiltIn()
	}
	w.rules.Driver = s.Driver.or(w.rules.Driver)
	w.rules.RightAngle = s.RightAngle.or(w.rules.RightAngle)
	w.eyes = s.Eyes
	if len(w.eyes) == 0 {
		w.eyes = DefaultEyes(l.Width, w.rules, s.BothSides)
	}
	w.screws = w.gauges()
	w.bolts = w.findBolts()
	w.pegs, w.plated = w.hardware(stock.Peg), w.hardware(stock.Plate)
	w.plateScrews = map[string]gauge{}
	for _, p := range w.plated {
		if g, ok := w.gauge(p.Screw); ok {
			w.plateScrews[p.Screw] = g
		}
	}
	w.woods = newWoods(l, boards)
	w.paths, w.covers = newPaths(), newCovers()
	return w
}

func (t Tool) or(usual Tool) Tool {
	pick := func(own, usual float64) float64 {
		if own > 0 {
			return own
		}
		return usual
	}
	return Tool{pick(t.Length, usual.Length), pick(t.Bit, usual.Bit), pick(t.Half, usual.Half)}
}

// hardware lists what there is of a kind in the system asked for; where that
// has none, all there is.
func (w *work) hardware(k stock.Hardware) []stock.Fastener {
	all := w.cat.Fasteners(k)
	var own []stock.Fastener
	for _, f := range all {
		d := f.Diameter
		if screw, ok := w.cat.Screw(f.Screw); ok && d == 0 {
			d = screw.Diameter
		}
		if metric(d) == w.s.Metric {
			own = append(own, f)
		}
	}
	if len(own) == 0 {
		return all
	}
	return own
}

// metric says whether a thickness is one of the metric system: no inch size of
// screw, bolt or peg is a whole number of tenths of a millimetre.
func metric(diameter unit.Length) bool { return unit.OnMark(diameter, unit.Millimetre/10) }

// gauges finds the screws to choose from; a thickness that the catalogue has
// not, or of which no length is at hand, is left out.
func (w *work) gauges() []gauge {
	names := w.s.Screws
	if len(names) == 0 {
		names = map[bool][]string{false: {"No. 8", "No. 6"}, true: {"4 mm", "3.5 mm"}}[w.s.Metric]
	}
	var out []gauge
	for _, name := range names {
		if g, ok := w.gauge(name); ok {
			out = append(out, g)
		}
	}
	return out
}

func (w *work) gauge(name string) (gauge, bool) {
	screw, ok := w.cat.Screw(name)
	g := gauge{Screw: screw}
	for _, f := range w.cat.Fasteners(stock.WoodScrew) {
		of, known := w.cat.Screw(f.Screw)
		if known && of.Name == screw.Name && (len(w.s.Lengths) == 0 || slices.Contains(w.s.Lengths, f.Length)) {
			g.sold = append(g.sold, f)
		}
	}
	return g, ok && len(g.sold) > 0
}
