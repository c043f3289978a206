package layout

import (
	"bowerwright/geom"
	"bowerwright/unit"
)

// A Kind is the as-built shape of all frames of one name, in mm about an origin
// of its own. Outside and Inside have one corner each per corner of the frame,
// counter-clockwise; side k runs from corner k to the next, counted from 1.
//
// Open says that the last side (last corner to first) is no board: the frame is
// an arch whose two ends are feet.
type Kind struct {
	Name            string
	Outside, Inside geom.Polygon
	Open            bool
}

// A Place says where one frame goes: by position (At and Turn) or by
// attachment. With both, At places and every attachment must hold; without At
// the first attachment places and the others must hold.
//
// A mirrored frame is its kind seen in a mirror (x to -x before any turn). Its
// sides keep their numbers, which then run clockwise.
type Place struct {
	ID, Kind string
	Mirror   bool
	Turn     unit.Angle  // anticlockwise; used with At and with a corner attachment
	At       *geom.Point // where the kind's own origin goes
	Attach   []Attach
}

// An Attach lays side Side of this frame against side ToSide of frame To, the
// two faces Settings.Gap apart; or, when Corner is not 0, puts corner Corner of
// this frame on corner ToCorner of To, turned by the place's Turn and without
// any gap.
type Attach struct {
	To               string
	Side, ToSide     int
	Align            Align
	Shift            float64 // mm along To's side, towards its end
	Corner, ToCorner int
}

// An Align says how a side lies along the side it is attached to. A side starts
// at the corner that has its number, also when its frame is mirrored.
type Align int

// The alignments. The zero Align is Centred.
const (
	Centred    Align = iota // middle on middle
	FlushStart              // one end level with the start of To's side
	FlushEnd                // one end level with the end of To's side
)

// Settings of a layout, all in mm. A zero field takes its default; Gap has none.
type Settings struct {
	Gap            float64   // between the faces of every seam: paint and unevenness; 0 or more
	JointTolerance float64   // what two boards may be off at a joint and still be called joined; over 0
	NearMiss       float64   // what is further off than the joint tolerance and nearer than this was probably meant to touch
	Heights        []float64 // where the clear width is taken, above the floor
}

// Defaults of Settings.
const (
	// DefaultJointTolerance is 1/32 in, a gap that glue and paint still hide:
	// common practice, no source.
	DefaultJointTolerance = 25.4 / 32
	// DefaultNearMiss is 1/2 in: nobody leaves so narrow a slot on purpose
	// (common practice, no source).
	DefaultNearMiss = 25.4 / 2
)

const foot = 304.8 // mm, exact (NIST SP 811, appendix B)

// DefaultHeights are those at which people pass an opening, floor, waist,
// shoulder and over a head: 0, 3, 5 and 6 1/2 ft (common practice, no source).
func DefaultHeights() []float64 { return []float64{0, 3 * foot, 5 * foot, 6.5 * foot} }

func (s Settings) withDefaults() Settings {
	if s.JointTolerance <= 0 {
		s.JointTolerance = DefaultJointTolerance
	}
	if s.NearMiss <= 0 {
		s.NearMiss = DefaultNearMiss
	}
	if s.Heights == nil {
		s.Heights = DefaultHeights()
	}
	return s
}

// seamReach is the widest that two faces may be apart and still make a seam.
func (s Settings) seamReach() float64 { return s.Gap + s.JointTolerance }

// cornerReach is the widest that two corners may be apart and still touch.
// Round one point where several seams end, the corners opposite each other are
// two gaps apart (six triangles), so the gap counts twice.
func (s Settings) cornerReach() float64 { return 2*s.Gap + s.JointTolerance }

// loopReach is how far off a frame may lie from a second place that it is
// attached to and the loop still be called closed. Where two frames side by
// side sit on a longer one, the gap of their own seam shifts the second along
// it; a loop takes up the gaps of two such seams.
func (s Settings) loopReach() float64 { return 2*s.Gap + s.JointTolerance }

// nearReach is the distance over which boards have nothing to do with each other.
func (s Settings) nearReach() float64 { return max(s.NearMiss, s.cornerReach()) }

// A Layout is what Build found. Frames are in the order of the places given;
// every other list names frames by their index in it. Coordinates are as the
// package comment says; after Back they are those of somebody behind.
type Layout struct {
	Frames   []Frame
	Seams    []Seam    // by Number
	Touches  []Touch   // corner-only contacts, by frame numbers
	Misses   []Miss    // near misses, by frame numbers
	Overlaps []Overlap // by frame numbers

	Standing []Standing // boards along the floor line, left to right
	Feet     []Foot     // ends of open frames on the floor, left to right
	Tips     []Tip      // corners on the floor that belong to no standing board or foot, left to right
	Hanging  []Hanging  // frames that do not reach the floor, by number
	Groups   [][]int    // frames joined through seams, each by number; one group when all is one piece

	Outline []geom.Polygon // round each group, counter-clockwise; see outline
	Voids   []geom.Polygon // openings between frames, clockwise, as the wood lies on their left

	Width, Height float64
	Origin        geom.Point // where the (0, 0) of the places given has come to lie
	Doubled       float64    // length over which two boards lie together, summed over the seams
	Clear         []Clear    // one for each of Settings.Heights, in their order
	FromBack      bool
}

// A Frame in its place.
type Frame struct {
	ID, Kind        string
	Place           int // index into the places given
	Number          int // from 1 in reading order, see numberFrames
	Open            bool
	Move            geom.Move    // from the kind's own coordinates to here
	Outside, Inside geom.Polygon // corners in the kind's order: clockwise when the move mirrors
	Box             geom.Box
	Centre          geom.Point // of the outline's area
	Up              geom.Point // the direction that is up here, in the kind's own coordinates
	TopSide         int        // the side whose middle is highest: where the up-mark goes
}

// Sides is the number of boards of the frame.
func (f Frame) Sides() int {
	if f.Open {
		return len(f.Outside) - 1
	}
	return len(f.Outside)
}

// Side gives the ends of the outside of side k (from 1) where it lies, and the
// unit vector pointing away from the frame.
func (f Frame) Side(k int) (from, to, out geom.Point) {
	s := f.face(k, false)
	return s.from, s.to, s.out
}

// face is side k as an outside or an inner face.
func (f Frame) face(k int, inner bool) face {
	outline := f.Outside
	if inner {
		outline = f.Inside
	}
	return newFace(outline[k-1], outline[k%len(outline)], f.Move.Mirror != inner)
}

// A SeamSide is one frame's side of a seam. From and To are mm along the side
// from the corner where it starts, From < To. Inner means the face towards the
// frame's own opening: a small frame set inside a big one.
type SeamSide struct {
	Frame, Side int
	Inner       bool
	From, To    float64
}

// A Seam is where a side of one frame lies against a side of another. Two
// short frames on one long side are two seams.
type Seam struct {
	Number   int         // from 1 in reading order of the middles
	Sides    [2]SeamSide // the lower frame number first
	From, To geom.Point  // the contact along the middle between the faces, left to right, else upwards
	Length   float64
	Gap      float64 // between the faces at the middle of the contact; below 0 they are pressed
	Flush    bool    // both sides end together at both ends, within the joint tolerance
}

// Middle of the contact.
func (s Seam) Middle() geom.Point { return s.From.Lerp(s.To, 0.5) }

// A Touch is a place where two frames meet in a corner only, or along less than
// LeastSeam: nothing can be fixed there.
type Touch struct {
	Frames [2]int
	At     geom.Point
	Gap    float64 // distance between them, mm
}

// A Miss is a place where two frames come close without meeting.
type Miss struct {
	Frames   [2]int
	At       geom.Point // middle of the slot
	Distance float64    // mm
	Towards  geom.Point // unit vector from the first frame to the second
}

// An Overlap is wood of two frames in the same place. Depth is the least shift
// that would free the two boards that bite deepest, Area (mm2) all the wood that
// is in both frames.
type Overlap struct {
	Frames      [2]int
	Depth, Area float64
	At          geom.Point // middle of the largest piece
}

// A Standing is a board that lies along the floor line, from x to x.
type Standing struct {
	Frame, Side int
	From, To    float64
}

// A Foot is an end of an open frame on the floor: its first or last corner.
type Foot struct {
	Frame, Corner int
	From, To      float64
}

// A Tip is a single corner on the floor: of the outside, or at an open end of
// the inside where that is lower.
type Tip struct {
	Frame, Corner int
	X             float64
}

// A Hanging frame has its lowest point Clearance mm above the floor.
type Hanging struct {
	Frame     int
	Clearance float64
}

// A Clear is the widest stretch free of boards at a height, between boards on
// its left and right. Found is false when there is none.
type Clear struct {
	Height      float64
	Found       bool
	Left, Right float64
	All         []geom.Interval // every stretch at this height, left to right
}

// Width of the stretch in mm, 0 when there is none.
func (c Clear) Width() float64 { return c.Right - c.Left }

// Build places the frames and reads the layout off them. It returns every
// problem there is, in the order of the places, then of the frame numbers for
// overlaps; a frame that cannot be placed is left out of the Layout together
// with those attached to it, and only the cause is a Problem.
func Build(kinds []Kind, places []Place, s Settings) (Layout, []Problem) {
	return build(kinds, places, s, nil)
}

func build(kinds []Kind, places []Place, s Settings, k *keeper) (Layout, []Problem) {
	s = s.withDefaults()
	frames, problems := place(kinds, places, s, k)
	l := Layout{Frames: frames}
	if len(frames) == 0 {
		return l, append(problems, Problem{Code: NothingPlaced, Place: -1, Attach: -1})
	}
	l.settle()
	numberFrames(l.Frames)
	l.meet(s)
	l.stand(s)
	l.Groups = l.groups()
	l.Outline, l.Voids = l.outline()
	l.Clear = l.clearWidths(s.Heights)
	for _, o := range l.Overlaps {
		problems = append(problems, o.problem(l.Frames))
	}
	return l, problems
}

// settle shifts everything so that the left end is x = 0 and the lowest point
// y = 0, and takes the overall size.
func (l *Layout) settle() {
	box := l.Frames[0].Box
	for _, f := range l.Frames[1:] {
		box = box.Union(f.Box)
	}
	l.Origin = box.Min.Mul(-1)
	for i := range l.Frames {
		l.Frames[i].shift(l.Origin)
	}
	l.Width, l.Height = box.Width(), box.Height()
}

func (f *Frame) shift(by geom.Point) {
	f.Move.Shift = f.Move.Shift.Add(by)
	f.Outside, f.Inside = f.Outside.Shift(by), f.Inside.Shift(by)
	f.Box = geom.Box{Min: f.Box.Min.Add(by), Max: f.Box.Max.Add(by)}
	f.Centre = f.Centre.Add(by)
}
