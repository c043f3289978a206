package jobfile

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"bowerwright/geom"
	"bowerwright/job"
	"bowerwright/unit"
)

// A Move is what a hand does with frames on the floor: see Moves for what each
// needs. Places are mm as in job.FloorFacts: from the left end and the floor.
type Move struct {
	Do     string      `json:"do"`
	Kind   string      `json:"kind,omitempty"`
	ID     string      `json:"id,omitempty"`
	IDs    []string    `json:"ids,omitempty"`
	At     *[2]float64 `json:"at,omitempty"`     // where the middle of the kind's foot goes
	Turn   float64     `json:"turn,omitempty"`   // degrees, anticlockwise
	Mirror bool        `json:"mirror,omitempty"` // seen in a mirror before it is turned
	Hold   *Hold       `json:"hold,omitempty"`
	Marks  [2]int      `json:"marks,omitempty"` // of the tape, to the right and up
	Steps  int         `json:"steps,omitempty"`
	By     *[2]float64 `json:"by,omitempty"`
}

// A Hold lays a side of a frame against a side of another.
type Hold struct {
	Side   int     `json:"side"`
	To     string  `json:"to"`
	ToSide int     `json:"toSide"`
	Align  string  `json:"align"` // as in a line of the layout; "" is centred
	Shift  float64 `json:"shift"` // mm
}

// Moves are the words that a Move may do.
//
//   - set: a new frame of Kind, or frame ID placed anew, At a place or by a Hold
//   - nudge: IDs by Marks; a frame that lies against a side slides along it
//   - turn: IDs by Steps: to the next of its sides, or by turnStep
//   - mirror: IDs, each about its own middle
//   - copy: IDs under new ids, moved By, else to the right of them
//   - takeaway: IDs back to the rack; what held on to them stays where it is
var Moves = []string{"set", "nudge", "turn", "mirror", "copy", "takeaway"}

// turnStep is by how much a frame turns that lies against nothing: a hexagon
// then stands on a corner, and three steps are a right angle.
const turnStep = math.Pi / 6

// A Moved tells what a move has done.
type Moved struct {
	Text []byte
	IDs  []string // frames whose lines have changed, sorted
	New  []string // those that are new
	Say  string   // in a few words, for undoing
}

// A CannotMoveError says why a move cannot be made, and what can be done.
type CannotMoveError struct{ Why, Do string }

// Error says it in a line.
func (e *CannotMoveError) Error() string {
	if e.Do == "" {
		return e.Why
	}
	return e.Why + "; " + e.Do
}

func cannot(do, why string, args ...any) error {
	return &CannotMoveError{fmt.Sprintf(why, args...), do}
}

// MoveFrames writes a move into the lines of the layout. All other lines stay
// as they are to the byte. f is what job.Floor sees of the same text. An error is a
// *CannotMoveError.
//
// Frames that hold on to one that moves go with it. A second hold, by which a
// frame closes a loop, is given up where only one of its two frames moves.
func MoveFrames(source []byte, f job.FloorFacts, m Move) (Moved, error) {
	g, err := newMover(source, f)
	if err != nil {
		return Moved{}, err
	}
	var say string
	switch m.Do {
	case "set":
		say, err = g.set(m)
	case "nudge", "turn", "mirror", "copy", "takeaway":
		say, err = g.each(m)
	default:
		err = cannot("", "there is no move called %q", m.Do)
	}
	if err != nil {
		return Moved{}, err
	}
	text, err := g.write()
	if err != nil {
		return Moved{}, err
	}
	return Moved{Text: text, IDs: slices.Sorted(maps.Keys(g.touched())), New: g.fresh, Say: say}, nil
}

// A mover is one move on its way into the text.
type mover struct {
	source []byte
	facts  job.FloorFacts
	frames map[string]*job.Placed // those that are laid out
	kinds  map[string]job.FloorKind
	taken  map[string]bool // every id of the text
	mark   unit.Length
	lines  lineWriter

	now   map[string]job.Place // frames placed anew, by id
	gone  map[string]bool
	fresh []string // ids of new frames
}

func newMover(source []byte, f job.FloorFacts) (*mover, error) {
	g := &mover{source: source, facts: f, frames: map[string]*job.Placed{}, kinds: map[string]job.FloorKind{}, taken: map[string]bool{},
		now: map[string]job.Place{}, gone: map[string]bool{}, lines: lineWriter{metric: f.Job.Show == "metric"}}
	for i := range f.Frames {
		g.frames[f.Frames[i].ID] = &f.Frames[i]
	}
	for _, k := range f.Kinds {
		g.kinds[k.Name] = k
	}
	_, file, _ := Read(source, "job file", nil, "")
	for path := range file.places {
		if id, ok := strings.CutPrefix(path, "layout."); ok {
			g.taken[id] = true
		}
	}
	g.mark, _ = unit.FromMM(f.Mark.MM, unit.Nanometre, unit.Nearest)
	if g.mark <= 0 {
		return nil, cannot("put right what the job says of its tape", "the finest mark of the tape is not known")
	}
	return g, nil
}

// touched are the frames whose lines change.
func (g *mover) touched() map[string]bool {
	out := maps.Clone(g.gone)
	for id := range g.now {
		out[id] = true
	}
	return out
}

// place is a frame's line as it stands now.
func (g *mover) place(id string) job.Place {
	if p, ok := g.now[id]; ok {
		return p
	}
	p := g.frames[id].Place
	p.Attach = slices.Clone(p.Attach)
	return p
}

// holdsOn is the frame that places another, "" for none.
func (g *mover) holdsOn(id string) string {
	if p := g.place(id); len(p.Attach) > 0 {
		return p.Attach[0].To
	}
	return ""
}

// within tells whether a frame is one of a set, or holds on to one by its first
// hold, over however many others.
func (g *mover) within(id string, set map[string]bool) bool {
	for range len(g.frames) + len(g.now) + 1 { // a ring ends somewhere
		if set[id] {
			return true
		}
		if g.frames[id] == nil && g.now[id].ID == "" {
			return false
		}
		id = g.holdsOn(id)
	}
	return false
}

// set is a new frame, or one that is placed anew.
func (g *mover) set(m Move) (string, error) {
	kind, old, new := m.Kind, g.frames[m.ID], m.ID == ""
	if !new && !g.taken[m.ID] {
		return "", cannot("", "there is no frame %s", m.ID)
	}
	if kind == "" && old != nil {
		kind = old.Kind
	}
	if old != nil && kind != old.Kind {
		return "", cannot("take it back to the rack, and another from there", "%s is of another kind", m.ID)
	}
	k, ok := g.kinds[kind]
	if !ok {
		return "", cannot("take another from the rack", "there is no kind of frame %q", kind)
	}
	id := m.ID
	if new {
		id = g.newID(g.prefix(k))
	}
	p := job.Place{ID: id, Kind: kind, Mirror: m.Mirror}
	switch {
	case m.Hold != nil:
		a, err := g.hold(k, id, *m.Hold)
		if err != nil {
			return "", err
		}
		p.Attach = []job.Attach{a}
	case m.At != nil && math.IsNaN(m.At[0]+m.At[1]+m.Turn):
		return "", cannot("", "that is no place")
	case m.At != nil:
		p.Turn = unit.FromDegrees(m.Turn)
		p.At = &geom.Point{X: onMark(m.At[0]-g.facts.Origin[0], g.mark), Y: m.At[1] - g.facts.Origin[1]}
	default:
		return "", cannot("", "a frame is set down at a place or against a side")
	}
	if !finitePlace(p) {
		return "", cannot("set it down nearer", "that is too far away")
	}
	if new {
		g.fresh = append(g.fresh, id)
		g.now[id] = p
		return id + " set down", nil
	}
	moving := map[string]bool{id: true}
	g.loosen(moving, false)
	g.now[id] = p
	return id + " moved", nil
}

// finitePlace tells whether a place can be written at all.
func finitePlace(p job.Place) bool {
	far := 0.0
	if p.At != nil {
		far = max(math.Abs(p.At.X), math.Abs(p.At.Y))
	}
	return far <= positions.high.MM() && !math.IsNaN(far+float64(p.Turn))
}

// hold checks a hold of a frame of a kind and makes it one of a line.
func (g *mover) hold(k job.FloorKind, id string, h Hold) (job.Attach, error) {
	to := g.frames[h.To]
	switch {
	case to == nil:
		return job.Attach{}, cannot("", "there is no frame %s to lie against", h.To)
	case g.within(h.To, map[string]bool{id: true}):
		return job.Attach{}, cannot("lay it against another, or take that one off first", "%s holds on to %s itself", h.To, id)
	case h.Side < 1 || h.Side > len(k.Sides):
		return job.Attach{}, cannot("", "%s has no side %d", k.Title, h.Side)
	case h.ToSide < 1 || h.ToSide > len(g.kinds[to.Kind].Sides):
		return job.Attach{}, cannot("", "%s has no side %d", h.To, h.ToSide)
	case h.Align != "" && h.Align != "centred" && h.Align != "flush at start" && h.Align != "flush at end":
		return job.Attach{}, cannot("", "a side lies centred, flush at start or flush at end, not %q", h.Align)
	}
	shift, ok := unit.FromMM(h.Shift, g.mark, unit.Nearest)
	if !ok || shift > positions.high || shift < -positions.high {
		return job.Attach{}, cannot("", "it is shifted too far")
	}
	if to.CopyOf != "" { // lines of the layout cannot name a copy
		g.now[h.To] = g.place(h.To)
	}
	return job.Attach{Side: h.Side, To: h.To, ToSide: h.ToSide, Align: cmp.Or(h.Align, "centred"), Shift: shift}, nil
}

func onMark(mm float64, mark unit.Length) float64 {
	l, _ := unit.FromMM(mm, mark, unit.Nearest)
	return l.MM()
}

// each does a move with every frame named, or with those of them that hold on
// to no other: the others go with them.
func (g *mover) each(m Move) (string, error) {
	if len(m.IDs) == 0 {
		return "", cannot("choose one", "no frame is chosen")
	}
	set := map[string]bool{}
	for _, id := range m.IDs {
		if g.frames[id] == nil {
			return "", cannot("", "there is no frame %s", id)
		}
		set[id] = true
	}
	ids := slices.Sorted(maps.Keys(set))
	name := ids[0]
	if len(ids) > 1 {
		name = fmt.Sprint(len(ids), " frames")
	}
	switch m.Do {
	case "copy":
		return name + " copied", g.copy(ids, set, m.By)
	case "takeaway":
		return name + " put back", g.takeAway(set)
	}
	// Holds are given up by how things hang together before the move.
	roots := slices.DeleteFunc(slices.Clone(ids), func(id string) bool {
		up := g.holdsOn(id)
		return up != "" && g.within(up, set)
	})
	g.loosen(set, m.Do == "mirror")
	for _, id := range roots {
		p := g.place(id)
		var err error
		switch m.Do {
		case "nudge":
			err = g.nudge(&p, m.Marks)
		case "turn":
			err = g.turn(&p, m.Steps)
		case "mirror":
			g.mirror(&p)
		}
		if err == nil && !finitePlace(p) {
			err = cannot("", "%s would be too far away", id)
		}
		if err != nil {
			return "", err
		}
		g.now[id] = p
	}
	return name + map[string]string{"nudge": " moved a little", "turn": " turned", "mirror": " mirrored"}[m.Do], nil
}

// loosen gives up the second holds between what moves, with all that hangs on
// it, and what stays; with all, also those among what moves.
func (g *mover) loosen(moving map[string]bool, all bool) {
	for _, q := range g.facts.Frames {
		if len(q.Attach) < 2 {
			continue
		}
		p := g.place(q.ID)
		mine := g.within(q.ID, moving)
		first := len(p.Attach)
		p.Attach = slices.DeleteFunc(p.Attach, func(a job.Attach) bool {
			if a == q.Attach[0] {
				return false
			}
			theirs := g.within(a.To, moving)
			return mine != theirs || all && mine
		})
		if len(p.Attach) < first {
			g.now[q.ID] = p
		}
	}
}

// mostMarks is how far one nudge goes at most: further than any floor is wide.
const mostMarks = 100_000

// nudge moves a frame, or slides it along the side that it lies against: by so
// many marks as its arrow goes along that side, and by one at least.
func (g *mover) nudge(p *job.Place, marks [2]int) error {
	if max(marks[0], -marks[0], marks[1], -marks[1]) > mostMarks {
		return cannot("", "that is too far")
	}
	if marks == [2]int{} {
		return nil
	}
	by := geom.Point{X: float64(marks[0]), Y: float64(marks[1])}
	if p.At == nil && p.Attach[0].Corner == 0 {
		a := &p.Attach[0]
		from, to := g.side(a.To, a.ToSide)
		along := by.Dot(to.Sub(from).Unit())
		if math.Abs(along) < slight*by.Len() {
			return cannot("slide it along the side, or take it off", "%s lies against side %d of %s", p.ID, a.ToSide, a.To)
		}
		n := math.Round(along)
		if n == 0 {
			n = math.Copysign(1, along)
		}
		a.Shift += unit.Length(n) * g.mark
		return nil
	}
	g.free(p)
	p.At.X += by.X * g.mark.MM()
	p.At.Y += by.Y * g.mark.MM()
	return nil
}

// slight is the part of an arrow along a side below which it points away from
// it: within six degrees of square.
const slight = 0.1

// side is a side of a frame where it lies.
func (g *mover) side(id string, n int) (from, to geom.Point) {
	o := g.frames[id].Outline
	a, b := o[(n-1)%len(o)], o[n%len(o)]
	return geom.Point{X: a[0], Y: a[1]}, geom.Point{X: b[0], Y: b[1]}
}

// free gives a frame a position instead of a hold: the place where it is.
func (g *mover) free(p *job.Place) {
	m := g.frames[p.ID].Move
	if p.At != nil {
		at := *p.At
		p.At = &at
		return
	}
	at := m.Shift
	p.At, p.Attach, p.Turn, p.Mirror = &at, nil, unit.Angle(m.Turn), m.Mirror
}

// turn lays the next of its sides where this one lies, or turns a frame about
// its middle so that its lowest point stays as high as it was.
func (g *mover) turn(p *job.Place, steps int) error {
	k := g.kinds[p.Kind]
	if p.At == nil && p.Attach[0].Corner == 0 {
		n := len(k.Sides)
		p.Attach[0].Side = ((p.Attach[0].Side-1+steps%n)%n+n)%n + 1
		return nil
	}
	g.free(p)
	middle, low := g.middle(k, *p)
	p.Turn = wrapped(p.Turn + unit.Angle(float64(steps%12)*turnStep))
	g.about(k, p, middle, low)
	return nil
}

// mirror turns a frame over about an upright line through its middle; one that
// lies against a side stays there.
func (g *mover) mirror(p *job.Place) {
	p.Mirror = !p.Mirror
	if p.At == nil && p.Attach[0].Corner == 0 {
		return
	}
	p.Mirror = !p.Mirror
	g.free(p)
	k := g.kinds[p.Kind]
	middle, low := g.middle(k, *p)
	p.Mirror, p.Turn = !p.Mirror, wrapped(-p.Turn)
	g.about(k, p, middle, low)
}

// middle is where the middle of a placed frame is, and its lowest point.
func (g *mover) middle(k job.FloorKind, p job.Place) (middle geom.Point, low float64) {
	o := geom.Move{Mirror: p.Mirror, Turn: float64(p.Turn), Shift: *p.At}.Polygon(polygon(k.Outline))
	return o.Centroid(), o.Box().Min.Y
}

// about places a frame that has been turned: its middle stays over the same
// point of the floor, to a mark, and its lowest point as high.
func (g *mover) about(k job.FloorKind, p *job.Place, middle geom.Point, low float64) {
	now, nowLow := g.middle(k, *p)
	p.At = &geom.Point{X: onMark(p.At.X+middle.X-now.X, g.mark), Y: p.At.Y + low - nowLow}
}

func polygon(xy []job.XY) geom.Polygon {
	out := make(geom.Polygon, len(xy))
	for i, q := range xy {
		out[i] = geom.Point{X: q[0], Y: q[1]}
	}
	return out
}

// wrapped is an angle over -180 and up to 180 degrees, free of what sums of
// floats leave.
func wrapped(a unit.Angle) unit.Angle {
	d := math.Round(math.Mod(a.Degrees(), 360)*1e6) / 1e6
	switch {
	case d > 180:
		d -= 360
	case d <= -180:
		d += 360
	}
	return unit.FromDegrees(d)
}

// beside is the room between frames and their copies, in mm: a hand's breadth.
const beside = 100

// copy adds copies of frames, which hold on to each other as those do.
func (g *mover) copy(ids []string, set map[string]bool, by *[2]float64) error {
	if len(g.taken)+len(ids) > maxFrames {
		return cannot("split the job", "a job has at most %d frames", maxFrames)
	}
	if by == nil {
		left, right := math.Inf(1), math.Inf(-1)
		for _, id := range ids {
			box := polygon(g.frames[id].Outline).Box()
			left, right = min(left, box.Min.X), max(right, box.Max.X)
		}
		by = &[2]float64{right - left + beside, 0}
	}
	names := map[string]string{}
	for _, id := range ids {
		names[id] = g.newID(stem(id))
	}
	for _, id := range ids {
		p := g.place(id)
		held := slices.DeleteFunc(slices.Clone(p.Attach), func(a job.Attach) bool { return !set[a.To] })
		if len(p.Attach) == 0 || !set[p.Attach[0].To] {
			g.free(&p)
			p.At.X, p.At.Y, held = p.At.X+onMark(by[0], g.mark), p.At.Y+onMark(by[1], g.mark), nil
		}
		for i := range held {
			held[i].To = names[held[i].To]
		}
		p.ID, p.Attach = names[id], held
		if !finitePlace(p) {
			return cannot("", "the copies would be too far away")
		}
		g.now[p.ID] = p
		g.fresh = append(g.fresh, p.ID)
	}
	return nil
}

// takeAway takes frames out of the layout. What held on to them stays where it
// is: by its next hold, or by a seam with another that stays, or at a position.
// Sizes are taken to the tape after the layout, and a hold follows them, so that
// a position is the last resort.
func (g *mover) takeAway(set map[string]bool) error {
	g.gone = set
	for _, q := range g.facts.Frames {
		if set[q.ID] || len(q.Attach) == 0 && !set[q.CopyOf] {
			continue
		}
		p := g.place(q.ID)
		first := len(p.Attach)
		p.Attach = slices.DeleteFunc(p.Attach, func(a job.Attach) bool { return set[a.To] })
		if len(p.Attach) == first && !set[q.CopyOf] {
			continue
		}
		if len(p.Attach) == 0 || g.within(p.Attach[0].To, map[string]bool{p.ID: true}) {
			p.Attach, p.At = nil, nil
			if q.CopyOf != "" || !g.rehang(&p, set) {
				g.free(&p)
			}
		}
		g.now[q.ID] = p
	}
	return nil
}

// rehang lays a frame by a seam that it has, against a frame that stays and
// does not hold on to it.
func (g *mover) rehang(p *job.Place, gone map[string]bool) bool {
	for _, s := range g.facts.Seams {
		mine := slices.Index(s.Frames[:], p.ID)
		if mine < 0 {
			continue
		}
		to := s.Frames[1-mine]
		if gone[to] || g.frames[to].CopyOf != "" || g.within(to, map[string]bool{p.ID: true}) {
			continue
		}
		if a, ok := g.lies(p.ID, s.Sides[mine], to, s.Sides[1-mine]); ok {
			p.Attach = []job.Attach{a}
			return true
		}
	}
	return false
}

// lies says how a side lies along another, in the words of a line; a side lies
// level or in the middle when it is less than half a millimetre off.
func (g *mover) lies(id string, side int, to string, toSide int) (job.Attach, bool) {
	const level = 0.5
	from, end := g.side(to, toSide)
	along, length := end.Sub(from).Unit(), end.Dist(from)
	a, b := g.side(id, side)
	low, high := a.Sub(from).Dot(along), b.Sub(from).Dot(along)
	if low > high {
		low, high = high, low
	}
	// The inner face of an opening is none that a line can name.
	if math.Abs(a.Sub(from).Cross(along)) > g.facts.Gap+2*level {
		return job.Attach{}, false
	}
	out := job.Attach{Side: side, To: to, ToSide: toSide, Align: "centred"}
	switch middle := (low + high - length) / 2; {
	case math.Abs(middle) < level:
	case math.Abs(low) < level:
		out.Align = "flush at start"
	case math.Abs(high-length) < level:
		out.Align = "flush at end"
	default:
		out.Shift, _ = unit.FromMM(middle, g.mark, unit.Nearest)
	}
	return out, true
}

// stem is an id without the number at its end.
func stem(id string) string {
	if s := strings.TrimRight(id, "0123456789"); s != "" {
		return s
	}
	return id
}

// prefix is how ids of a kind begin: as the others of the kind do, else with
// its letter.
func (g *mover) prefix(k job.FloorKind) string {
	for _, f := range g.facts.Frames {
		if f.Kind == k.Name {
			return stem(f.ID)
		}
	}
	return k.Letter
}

// newID is an id that nothing has.
func (g *mover) newID(prefix string) string {
	for n := 1; ; n++ {
		if id := prefix + strconv.Itoa(n); !g.taken[id] {
			g.taken[id] = true
			return id
		}
	}
}
