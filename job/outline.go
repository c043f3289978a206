package job

import (
	"errors"
	"fmt"
	"strings"

	"bowerwright/frame"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A shape is a kind of frame on its way to parts.
type shape struct {
	Kind
	def     ShapeDef
	boards  frame.Boards
	board   board
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

// shapes makes an outline of every kind, and names what cannot be made.
func (p *planner) makeShapes() {
	if len(p.spec.Kinds) == 0 {
		p.snag(snagFrames, "frames", "", "no frames are described", "write at least one under frames, such as big: shape: hexagon, flats: 18 in")
	}
	p.kindAt = map[string]int{}
	for _, k := range p.spec.Kinds {
		s, ok := p.makeShape(k)
		if !ok {
			continue
		}
		p.kindAt[k.Name] = len(p.kinds)
		p.kinds = append(p.kinds, s)
	}
}

func (p *planner) makeShape(k Kind) (*shape, bool) {
	path := "frames." + k.Name
	def, ok := ShapeNamed(k.Shape)
	if !ok {
		p.snag(snagShapeUnknown, path+".shape", k.Shape, fmt.Sprintf("no shape is called %q", k.Shape), nearShape(k.Shape))
		return nil, false
	}
	s := &shape{Kind: k, def: def, pins: map[int]unit.Length{}}
	if s.board, ok = p.boardOf(k, path); !ok {
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

func nearShape(name string) string {
	var names []string
	for _, d := range Shapes {
		names = append(names, d.Name)
	}
	if near := snag.DidYouMean(name, names); near != "" {
		return fmt.Sprintf("did you mean %s?", near)
	}
	return "write one of " + strings.Join(names, ", ")
}

func (p *planner) boardOf(k Kind, path string) (board, bool) {
	name := k.Timber
	if name == "" && len(p.spec.Timber) > 0 {
		name = p.spec.Timber[0].Name
	}
	b, ok := p.timber[name]
	if !ok {
		if len(p.spec.Timber) > 0 {
			p.snag(snagTimberUnknown, path+".timber", name, fmt.Sprintf("no boards are called %q", name), p.nearTimber(name))
		}
		return b, false
	}
	return b, b.thickness > 0 && b.width > 0
}

func (p *planner) nearTimber(name string) string {
	var names []string
	for _, t := range p.spec.Timber {
		names = append(names, t.Name)
	}
	if near := snag.DidYouMean(name, names); near != "" {
		return fmt.Sprintf("did you mean %s?", near)
	}
	return "write one of " + strings.Join(names, ", ") + ", or describe it under timber"
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
		r, err := frame.RingSawnRound(n, outside, inside, s.boards.Depth(), s.stance())
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
		key := s.givenKey()
		p.snag(snagSizeUnclear, path+"."+key, key, fmt.Sprintf("%q is not clear for a frame of %s", key, sidesText(s)), "write one of: "+meanings(r, mm))
	case frame.InsideCollapses:
		laid := "on edge"
		if s.Flat {
			laid = "flat"
		}
		p.snag(snagBoardTooDeep, path, s.Name, fmt.Sprintf("boards laid %s are %s deep in the plane and fill the shape", laid, mm(r.Got)),
			fmt.Sprintf("write boards at most %s deep, lay them on edge, or make it %.2f times as large", mm(r.Most), r.Scale))
	case frame.BoardTooNarrow:
		p.snag(snagRingBoard, path, s.Name, fmt.Sprintf("the board is %s wide, too narrow for this ring", mm(r.Got)),
			fmt.Sprintf("use boards laid flat at least %s wide, or more segments", p.w.text(p.w.up(r.Least))))
	default:
		p.snag(snagShape, path, s.Name, plainRefusal(r, mm), "change its measures")
	}
}

func (s *shape) givenKey() string {
	for _, key := range sizeKeys {
		if _, ok := s.Lengths[key]; ok {
			return key
		}
	}
	return "shape"
}

func sidesText(s *shape) string {
	n := s.def.Sides
	if n == 0 {
		n = s.Counts["sides"] + s.Counts["segments"]
	}
	return fmt.Sprintf("%d sides", n)
}

// meanings lists what an unclear size could be, as it would be written, with
// the side that follows.
func meanings(r *frame.Refusal, mm func(float64) string) string {
	var out []string
	for _, m := range r.Meanings {
		out = append(out, fmt.Sprintf("%s: %s (its sides are then %s)", keyOf(m.Measure), mm(r.Got), mm(m.Side)))
	}
	return strings.Join(out, "; ")
}

func keyOf(m frame.Measure) string {
	for _, key := range sizeKeys {
		if measures[key] == m {
			return key
		}
	}
	return m.String()
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
		return fmt.Sprintf("the last side ends %s from where the first begins", mm(r.Got))
	case frame.FeetNotOnFloor:
		return fmt.Sprintf("the feet must be level and the lowest: one is %s off", mm(r.Got))
	}
	return r.Error()
}
