package job

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"bowerwright/frame"
	"bowerwright/unit"
)

// A shape is a kind of frame on its way to parts.
type shape struct {
	Kind
	def     ShapeDef
	boards  frame.Boards
	board   board
	mark    unit.Length   // of the tape
	given   frame.Measure // the size that was given, where the shape has several
	named   bool          // given says something
	round   *frame.RoundRing
	outline frame.Outline
	asked   frame.Frame // no rounding
	built   frame.Frame
	pins    map[int]unit.Length
	letter  string
	placed  int
	make    int // placed and spare
}

// measures are the sizes that one key of the job file stands for.
var measures = map[string]frame.Measure{
	"side": frame.Side, "flats": frame.Flats, "points": frame.Points, "inside flats": frame.InsideFlats,
	"corner circle": frame.CornerCircle, "inscribed circle": frame.InscribedCircle,
	"height": frame.Height, "width": frame.Width, "outside": frame.Outside, "inside": frame.Inside,
	"diameter": frame.Diameter,
}

// sizeKeys are the keys of measures, in the order in which a size is looked for.
var sizeKeys = []string{"side", "flats", "points", "inside flats", "corner circle", "inscribed circle", "height", "width", "outside", "inside", "diameter"}

// makeShapes draws an outline of every kind, and says what cannot be made.
func (p *planner) makeShapes() {
	p.kindAt = map[string]int{}
	p.refusedKinds = map[string]bool{}
	for _, k := range p.spec.Kinds {
		s, ok := p.makeShape(k)
		p.refusedKinds[k.Name] = !ok
		if ok {
			p.kindAt[k.Name] = len(p.kinds)
			p.kinds = append(p.kinds, s)
		}
	}
}

func (p *planner) makeShape(k Kind) (*shape, bool) {
	path := "frames." + k.Name
	def, ok := ShapeNamed(k.Shape)
	if !ok {
		p.fault("no shape is called %q", k.Shape)
		return nil, false
	}
	s := &shape{Kind: k, def: def, pins: map[int]unit.Length{}}
	s.mark = p.set.mark
	if s.board, ok = p.boardOf(k); !ok {
		// The boards have their own snag; the shape may still have another.
		if _, err := s.draw(); err != nil {
			p.refused(s, path, err)
		}
		return nil, false
	}
	s.boards = frame.Boards{Thickness: s.board.thickness, Width: s.board.width, OnEdge: !k.Flat}
	o, err := s.draw()
	if err == nil {
		s.outline = o
		s.asked, err = frame.Build(o, frame.Settings{Boards: s.boards, JointTolerance: p.set.tolerance, Density: s.board.density})
	}
	if err != nil {
		p.refused(s, path, err)
		return nil, false
	}
	return s, true
}

// boardOf finds a kind's boards; those without a size have been named already.
func (p *planner) boardOf(k Kind) (board, bool) {
	name := k.Timber
	if name == "" && len(p.spec.Timber) > 0 {
		name = p.spec.Timber[0].Name
	}
	b, ok := p.timber[name]
	if !ok && len(p.spec.Timber) > 0 {
		p.fault("no boards are called %q", name)
	}
	return b, b.thickness > 0 && b.width > 0
}

// draw makes the outline from the kind's measures.
func (s *shape) draw() (frame.Outline, error) {
	l := func(key string) unit.Length { return s.Lengths[key] }
	fit := frame.CornersOn
	if s.Words["circle"] == "flats" {
		fit = frame.FlatsOn
	}
	square, open := s.Words["feet"] == "square", s.Words["open"] == "yes"
	switch s.def.Name {
	case "rectangle":
		return frame.Rectangle(l("width"), l("height"))
	case "diamond":
		if side, ok := s.Lengths["side"]; ok {
			return frame.DiamondFromSide(side, s.Angles["angle"])
		}
		return frame.Diamond(l("width"), l("height"))
	case "kite":
		return frame.Kite(l("width"), l("bottom"), l("top"))
	case "house":
		return frame.House(l("width"), l("eaves"), l("ridge"))
	case "half hexagon":
		m, size := s.size()
		return frame.HalfHexagon(m, size, open)
	case "elongated hexagon":
		return frame.LongHexagon(l("width"), l("height"), l("uprights"))
	case "arch":
		return frame.HalfRound(s.Counts["segments"], l("outside"), fit, square)
	case "arch on legs":
		return frame.ArchOnLegs(l("width"), l("legs"), s.Counts["segments"], fit)
	case "corners":
		if open {
			return frame.OpenByCorners(s.Corners, square)
		}
		return frame.ByCorners(s.Corners)
	case "sides":
		return s.drawRun()
	case "ring":
		return s.drawRing()
	}
	n := s.def.Sides
	if n == 0 {
		n = s.Counts["sides"]
	}
	m, size := s.size()
	return frame.Regular(n, m, size, s.stance(), s.boards.Depth())
}

func (s *shape) drawRun() (frame.Outline, error) {
	var sides []unit.Length
	var angles []unit.Angle
	for _, r := range s.Run {
		sides = append(sides, r.Length)
		angles = append(angles, r.Inside)
	}
	return frame.BySides(sides, angles)
}

// drawRing is a ring left straight-sided by one size, or sawn round by two.
func (s *shape) drawRing() (frame.Outline, error) {
	n := s.Counts["segments"]
	outside, both := s.Lengths["outside"]
	inside, ok := s.Lengths["inside"]
	if both && ok {
		r, err := frame.RingSawnRound(n, outside, inside, s.boards.Depth(), s.mark, s.stance())
		s.round = &r
		return r.Blanks, err
	}
	m, size := s.size()
	return frame.Ring(n, m, size, s.stance(), s.boards.Depth())
}

// size is the one size given, and remembers which.
func (s *shape) size() (frame.Measure, unit.Length) {
	for _, key := range sizeKeys {
		if l, ok := s.Lengths[key]; ok {
			s.given, s.named = measures[key], true
			return s.given, l
		}
	}
	return frame.Side, 0
}

func (s *shape) stance() frame.Stance {
	if s.Words["stands on"] == "corner" {
		return frame.OnCorner
	}
	return frame.OnSide
}

// refused turns a shape's refusal into a snag with what to write.
func (p *planner) refused(s *shape, path string, err error) {
	var r *frame.Refusal
	if !errors.As(err, &r) {
		p.snag(snagShape, path, s.Name, err.Error(), "check its measures")
		return
	}
	mm := func(v float64) string { return p.w.text(p.w.looked(v)) }
	switch r.Code {
	case frame.NoSuchSize:
		p.fault("%s: %v", path, r)
	case frame.InsideCollapses:
		p.snag(snagBoardTooDeep, path, s.Name, fmt.Sprintf("boards laid %s are %s deep in the plane and fill the shape", laid(s.Flat), mm(r.Got)), p.shallower(s, r))
	case frame.BoardTooNarrow:
		p.snag(snagRingBoard, path, s.Name, fmt.Sprintf("the board is %s wide, too narrow for this ring", mm(r.Got)),
			fmt.Sprintf("use boards laid flat at least %s wide, or more segments", p.w.text(p.w.up(r.Least))))
	default:
		remedy := "change its measures"
		if r.Code == frame.DoesNotClose {
			remedy = "check its measures: each length and each inside angle; n sides have inside angles of 180 x (n - 2) degrees in all"
		}
		p.snag(snagShape, path, s.Name, plainRefusal(r, mm), remedy)
	}
}

// shallower says what to do about boards that fill the shape, with figures
// rounded to the side that works.
func (p *planner) shallower(s *shape, r *frame.Refusal) string {
	var ways []string
	if r.Most >= p.set.mark.MM() { // else no board is so thin
		ways = append(ways, fmt.Sprintf("write boards at most %s deep", p.w.text(p.w.down(r.Most))))
	}
	if s.Flat {
		ways = append(ways, "lay them on edge")
	}
	ways = append(ways, fmt.Sprintf("make it %.2f times as large", math.Ceil(r.Scale*100)/100))
	return strings.Join(ways, ", or ")
}

// plainRefusal says a refusal in the job's own unit.
func plainRefusal(r *frame.Refusal, mm func(float64) string) string {
	switch r.Code {
	case frame.BadMeasure:
		if r.Least > 0 {
			return fmt.Sprintf("%s is %s: it must be over %s and under %s", r.What, mm(r.Got), mm(r.Least), mm(r.Most))
		}
		return fmt.Sprintf("%s is %s: it must be over nothing and under %s", r.What, mm(r.Got), mm(r.Most))
	case frame.DoesNotClose:
		return fmt.Sprintf("walked round by its sides and angles, the last side ends %s from where the first begins", mm(r.Got))
	case frame.FeetNotOnFloor:
		return fmt.Sprintf("the feet must be level and the lowest: one is %s off", mm(r.Got))
	}
	return r.Error()
}
