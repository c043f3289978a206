package making

import (
	"math"

	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/stock"
	"bowerwright/unit"
)

// A Corner is what strengthens the corners of a kind besides glue.
type Corner string

// The choices; GlueAlone is the zero.
const (
	GlueAlone Corner = ""
	Brads     Corner = "brads"
	Blocks    Corner = "corner block"
	Plates    Corner = "plate"
	Splines   Corner = "spline"
)

// Places are where the pieces of one corner lie behind the front edge; none for
// pieces that do not lie side by side.
func (p Piece) Places() []float64 {
	if p.Behind == [2]float64{} {
		return nil
	}
	var out []float64
	for i := range p.Count {
		share := float64(i) / float64(max(1, p.Count-1))
		out = append(out, p.Behind[0]+share*(p.Behind[1]-p.Behind[0]))
	}
	return out
}

// Corners are what the corners of one frame take.
type Corners struct {
	Choice Corner
	How    string  // they are strengthened, without measures
	Pieces []Piece // by corner; none where a corner takes nothing
	Glue   float64 // ml for all joints, both coats, waste included
	Tape   Tape    // for rolling, zero otherwise
}

// Tape is gluing tape: strips of one width, each as long as given.
type Tape struct {
	Strips        int
	Width, Length float64
}

// A Piece is what one corner takes. A block or spline is cut: its Length is cut
// square at both ends, a block has one edge ripped to Bevel and a spline, cut
// larger than its slot, has its grain along Length, across the joint. A plate or
// brad is bought under its Name.
type Piece struct {
	Corner                   int
	Name                     string
	Cut                      bool
	Count                    int
	Length, Width, Thickness float64
	Bevel                    unit.Angle // of a block's edge, from square to its face
	Wider                    bool       // block: of its two faces the wider one lies on a side, at a corner under 90°; else the narrower
	At                       float64    // brad: from the tip; block: behind the front edge
	Behind                   [2]float64 // brad, spline: the first and the last of them at a corner, behind the front edge, the others evenly between
	Slot                     float64    // spline: depth of its slot, from the tip along the mitre
	Lean                     unit.Angle // spline: of both boards of the cradle that holds the corner, from the table
	Inner                    bool       // brad: driven from the inside face, at a corner that turns inwards
	Screw                    string     // of a plate or block
	Screws                   int
}

// holesOfPlate is how many screws a plate takes: the catalogue's have four
// holes.
const holesOfPlate = 4

func (m *maker) corners(k Kind, g GlueUp) Corners {
	c := Corners{Choice: k.Corner, How: howOf(k), Glue: m.glue(k)}
	if g.Method == Rolled {
		c.Tape = m.tape(k, g)
	}
	if k.Ring.Outside > 0 && (k.Corner == Brads || k.Corner == Blocks || k.Corner == Splines) {
		m.fail(Problem{Code: CornerRound, Kind: k.Name, Corner: 1, Choice: k.Corner})
		return c
	}
	for _, corner := range jointCorners(k.Frame) {
		if p, ok := m.piece(k, corner); ok {
			c.Pieces = append(c.Pieces, p)
			c.Glue += m.splineGlue(p)
		}
	}
	return c
}

func (m *maker) piece(k Kind, corner int) (Piece, bool) {
	switch k.Corner {
	case Brads:
		return m.brads(k, corner)
	case Blocks:
		return m.block(k, corner)
	case Plates:
		return m.plate(k, corner)
	case Splines:
		return m.spline(k, corner)
	}
	return Piece{}, false
}

// glue is for both faces of every joint, sized and coated. Between layers each
// broad face is coated once.
func (m *maker) glue(k Kind) float64 {
	r, layers := m.shop.Rates.Glue, float64(max(k.Layers, 1))
	area := 0.0
	for _, corner := range jointCorners(k.Frame) {
		area += layers * 2 * 2 * mitreArea(k.Frame, corner)
	}
	for _, p := range k.Frame.Parts {
		area += (layers - 1) * math.Abs(p.Face.Area())
	}
	return area / r.Coverage * (1 + r.Waste)
}

// tape runs along the row, in as many strips as the pitch wants, and laps over
// the last joint at both ends.
func (m *maker) tape(k Kind, g GlueUp) Tape {
	r := m.shop.Rates.Glue
	strips := int(math.Ceil(k.Frame.Boards.Rise().MM()/r.TapePitch - 1e-9))
	return Tape{Strips: max(1, strips), Width: r.TapeWidth, Length: g.Row + 2*r.TapeLap}
}

// brads picks the longest brad that sits in both parts of a corner. They go in
// by turns from the one part and from the other, each at a place of its own
// behind the front edge, so that no two meet.
//
// With the tip at the origin, the outside face of one part along x and its wood
// at y > 0, the mitre is the line x = y tan s for a setting s. A brad driven
// square at x meets it at y = x / tan s. Its distance behind the other part's
// outside face is x sin 2s + y cos 2s, and it comes out where that is the
// depth of the boards or nothing (plane trigonometry).
func (m *maker) brads(k Kind, corner int) (Piece, bool) {
	f, r := k.Frame, m.shop.Rates.Corner
	setting := math.Abs(float64(f.Asked.Setting(corner)))
	best, found := Piece{}, false
	for _, b := range m.shop.Brads {
		if at, ok := r.bradAt(b.Length.MM(), f.Boards.Depth().MM(), setting, m.shop.Mark); ok {
			best, found = Piece{Corner: corner, Name: b.Name, Count: r.Brads, Length: b.Length.MM(), At: at, Behind: m.evenly(r.Brads, f.Boards.Rise().MM()),
				Thickness: b.Diameter.MM(), Inner: f.Asked.Setting(corner) < 0}, true
		}
	}
	if !found {
		m.fail(Problem{Code: BradRoom, Kind: k.Name, Corner: corner})
	}
	return best, found
}

// bradAt is how far from the tip a brad goes in: where it meets the middle of
// the mitre, nearer to the tip if it is too short for that, on a mark of the
// tape.
func (r CornerRates) bradAt(length, depth, setting, mark float64) (float64, bool) {
	tan := math.Tan(setting)
	most := (length - r.BradHold) * tan
	at := nearestMark(min(depth/2*tan, most), mark)
	if at > most+geom.Eps {
		at = markBelow(most, mark)
	}
	return at, at >= r.BradEnd-geom.Eps && length <= bradOut(at, depth, setting)-r.Keep
}

// evenly is where the first and the last of so many lie when they part a depth
// into equal lengths.
func (m *maker) evenly(n int, rise float64) [2]float64 {
	each := rise / float64(n+1)
	return [2]float64{nearestMark(each, m.shop.Mark), nearestMark(rise-each, m.shop.Mark)}
}

// nearestMark and markBelow bring a length to a mark of the tape; a mark of 0
// leaves it.
func nearestMark(mm, mark float64) float64 {
	if mark <= 0 {
		return mm
	}
	return math.Round(mm/mark) * mark
}

func markBelow(mm, mark float64) float64 {
	if mark <= 0 {
		return mm
	}
	return math.Floor(mm/mark+wholeMark) * mark
}

// wholeMark, in marks, keeps a length on a mark from losing one to the last
// digit of a float.
const wholeMark = 1e-9

// bradOut is how deep a brad at a distance from the tip goes before it comes out
// of the other part.
func bradOut(at, depth, setting float64) float64 {
	sin, cos := math.Sincos(2 * setting)
	switch {
	case cos > noTurn:
		return (depth - at*sin) / cos
	case cos < -noTurn:
		return at * sin / -cos
	}
	return math.Inf(1)
}

// noTurn is the cosine below which a brad runs along the other part: within
// a millionth of a square corner it does not come out of a board of any length.
const noTurn = 1e-6

// block is glued into a corner behind the front edge: a piece of the frame's own
// board, one face on one side, one edge, bevelled by what the corner is off
// square, on the other. In a corner over 90° the bevel leans out over the narrower
// face, which lies on the side; under 90° it is the wider one. Width is that of
// the face on the side. A corner that turns inwards takes none.
func (m *maker) block(k Kind, corner int) (Piece, bool) {
	f, r := k.Frame, m.shop.Rates.Corner
	rise := f.Boards.Rise().MM()
	if f.Asked.Setting(corner) < 0 {
		return Piece{}, false
	}
	if need := r.BlockBack + r.Block; rise < need {
		m.fail(Problem{Code: BlockFlat, Kind: k.Name, Corner: corner, Room: rise, Need: need})
		return Piece{}, false
	}
	bevel := onScale(math.Pi/2 - 2*float64(f.Asked.Setting(corner)))
	if bevel > r.Bevel {
		m.fail(Problem{Code: BlockBevel, Kind: k.Name, Corner: corner, Room: bevel.Degrees(), Need: r.Bevel.Degrees()})
		return Piece{}, false
	}
	before, after := partsAt(f, corner)
	return Piece{Corner: corner, Name: "corner block", Cut: true, Count: 1, Length: rise - r.BlockBack,
		Width: min(r.Block, math.Floor(min(before.Inside, after.Inside)/2/blockMark)*blockMark), Thickness: f.Boards.Thickness.MM(),
		Bevel: bevel, Wider: bevel > 0 && f.Asked.Setting(corner) > math.Pi/4, At: r.BlockBack}, true
}

// bevelMark, in degrees, is the finest that a bevel is given to: a tenth, which
// is finer than a saw's scale shows. Blocks that are ripped alike then count as
// alike.
const bevelMark = 0.1

// onScale is an angle in radians without its sign, to the bevel's mark.
func onScale(a float64) unit.Angle {
	return unit.FromDegrees(math.Round(math.Abs(unit.Angle(a).Degrees())/bevelMark) / (1 / bevelMark))
}

// blockMark, in mm, is what a narrowed block's width is taken down to: a tenth
// of a millimetre, so that corners alike but for rounding take blocks alike.
const blockMark = 0.1

// partsAt are the parts that end and start at a corner where two meet.
func partsAt(f frame.Frame, corner int) (before, after frame.Part) {
	n := len(f.Parts)
	return f.Parts[(corner-2+n)%n], f.Parts[(corner-1)%n]
}

// plate lies on the back, square across the middle of a mitre. Its outer corners
// lie (length/2) sin s + (width/2) cos s beside the middle line of a board, for
// a setting s, and must not lie beyond its edge (plane trigonometry).
func (m *maker) plate(k Kind, corner int) (Piece, bool) {
	depth, setting := k.Frame.Boards.Depth().MM(), math.Abs(float64(k.Frame.Asked.Setting(corner)))
	best, found, room, shortest := Piece{}, false, 0.0, math.Inf(1)
	for _, p := range m.shop.Plates {
		fits := longestPlate(depth, p.Width.MM(), setting)
		room, shortest = max(room, fits), min(shortest, p.Length.MM())
		if p.Length.MM() <= fits {
			best, found = Piece{Corner: corner, Name: p.Name, Count: 1, Length: p.Length.MM(), Width: p.Width.MM(), Thickness: p.Thickness.MM(),
				Screw: m.screw(p.Screw, k.Frame.Boards.Rise().MM()+p.Thickness.MM()), Screws: holesOfPlate}, true
		}
	}
	if !found {
		m.fail(Problem{Code: PlateRoom, Kind: k.Name, Corner: corner, Room: room, Need: shortest})
	}
	return best, found
}

func longestPlate(depth, width, setting float64) float64 {
	room := depth/2 - width/2*math.Cos(setting)
	switch {
	case room < 0:
		return 0
	case math.Sin(setting) < noTurn:
		return math.Inf(1)
	}
	return 2 * room / math.Sin(setting)
}

// screw is the longest of a thickness that stays in wood so deep.
func (m *maker) screw(gauge string, deep float64) string {
	name := ""
	for _, s := range m.shop.Catalogue.Fasteners(stock.WoodScrew) {
		if s.Screw == gauge && s.Length.MM() <= deep-m.shop.Rates.Corner.Keep {
			name = s.Name
		}
	}
	return name
}
