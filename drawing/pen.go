package drawing

// MMPerPt is one point in mm; a point is 1/72 in, an inch 25.4 mm exactly.
const MMPerPt = 25.4 / 72

// ThinnestPt is the thinnest line a page may carry, in pt: below it a copy of
// a copy loses the line (the house's own rule for print).
const ThinnestPt = 0.5

// A Pen draws a line: its weight in pt on paper, its dash in pt (on, off, on,
// off; zeros at the end are left out, all zeros is a whole line), its tone. The
// zero Pen draws nothing. Round gives round ends to the line and its dashes.
//
// Weights are of the paper: a Group's scale never changes them.
type Pen struct {
	Weight float64
	Dash   [4]float64
	Tone   Tone
	Round  bool
}

// The pens of the house. Each is a kind of line with one meaning, on paper and
// on screen alike; weights are 0.6 of the pixel weights of the screen.
var (
	PenOutline   = Pen{Weight: 1.2, Tone: Ink}                                     // a board seen
	PenEdge      = Pen{Weight: 0.9, Tone: Ink}                                     // outline of a board that has two edges
	PenSeam      = Pen{Weight: 1.8, Tone: Ink}                                     // sides fixed in the shop
	PenSiteSeam  = Pen{Weight: 1.8, Dash: [4]float64{6, 2.4, 1.2, 2.4}, Tone: Ink} // closed only at the venue
	PenCut       = Pen{Weight: 2.1, Dash: [4]float64{8.4, 1.8}, Tone: Ink}         // where the blade goes
	PenCutInside = Pen{Weight: 0.9, Dash: [4]float64{8.4, 1.8}, Tone: Ink}         // the same, inside a board
	PenHidden    = Pen{Weight: 0.75, Dash: [4]float64{3.6, 2.4}, Tone: Ink}        // behind something
	PenInHand    = Pen{Weight: 1.2, Dash: [4]float64{1.8, 2.4}, Tone: Chalk}       // not set down yet
	PenMeets     = Pen{Weight: 3, Tone: Chalk}                                     // where what is in hand meets
	PenDimension = Pen{Weight: 0.6, Tone: Ink}                                     // with saw-tick ends
	PenTick      = Pen{Weight: 1.2, Tone: Ink}                                     // the saw-tick itself
	PenReach     = Pen{Weight: 0.6, Dash: [4]float64{0.6, 3}, Tone: Line}          // carries a height or width over
	PenReachLine = Pen{Weight: 0.6, Tone: Line}                                    // from a thing to its dimension
	PenGround    = Pen{Weight: 1.2, Tone: Ink}                                     // runs past the set piece on both sides
	PenHair      = Pen{Weight: 0.6, Tone: Line}                                    // hairlines of tables
	PenRule      = Pen{Weight: 1.5, Tone: Ink}                                     // over a heading
	PenHeadRule  = Pen{Weight: 2, Tone: Ink}                                       // under a page's head
	PenPerson    = Pen{Weight: 0.75, Tone: Pencil}                                 // a person for scale
	PenGreenery  = Pen{Weight: 1.2, Dash: [4]float64{7.2, 3}, Tone: Ink}           // graphs: with greenery
	PenDraped    = Pen{Weight: 1.5, Dash: [4]float64{0.01, 4.2}, Tone: Ink, Round: true}
)

// In is the pen in another tone.
func (p Pen) In(t Tone) Pen { p.Tone = t; return p }

// At is the pen at another weight, in pt.
func (p Pen) At(pt float64) Pen { p.Weight = pt; return p }

// Draws says whether the pen leaves a mark.
func (p Pen) Draws() bool { return p.Weight > 0 && p.Tone != None }

// MM is the pen's weight in mm.
func (p Pen) MM() float64 { return p.Weight * MMPerPt }

// DashMM is the dash in mm, without the zeros at its end; nil is a whole line.
func (p Pen) DashMM() []float64 {
	var d []float64
	for i, v := range p.Dash {
		if v == 0 && allZero(p.Dash[i:]) {
			break
		}
		d = append(d, v*MMPerPt)
	}
	return d
}

func allZero(vs []float64) bool {
	for _, v := range vs {
		if v != 0 {
			return false
		}
	}
	return true
}
