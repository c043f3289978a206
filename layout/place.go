package layout

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// placing is the state of one run of place.
type placing struct {
	kinds    map[string]*Kind
	places   []Place
	byID     map[string]int // first place of an ID
	usable   []bool         // by place: kind and attachments name things that exist
	moves    []*geom.Move   // by place: nil until placed
	gap      float64
	problems []Problem

	tolerance float64
	keep      *keeper
}

// place finds every frame's move, in three rounds: names are checked, then each
// frame is placed from its position or first attachment, then the attachments
// that placed nothing are tried.
func place(kinds []Kind, places []Place, s Settings, k *keeper) ([]Frame, []Problem) {
	p := &placing{places: places, gap: s.Gap, tolerance: s.JointTolerance, keep: k}
	p.readKinds(kinds)
	p.readPlaces()
	p.resolve()
	p.closeLoops(s.loopReach())
	var frames []Frame
	for i, m := range p.moves {
		if m != nil {
			frames = append(frames, newFrame(i, places[i], p.kinds[places[i].Kind], *m))
		}
	}
	return frames, p.problems
}

func (p *placing) readKinds(kinds []Kind) {
	p.kinds = map[string]*Kind{}
	for i := range kinds {
		k := &kinds[i]
		switch {
		case p.kinds[k.Name] != nil:
			p.problems = append(p.problems, Problem{Code: DuplicateKind, Name: k.Name, Place: -1, Attach: -1})
			continue
		case !k.sound():
			p.problems = append(p.problems, Problem{Code: BadKind, Name: k.Name, Place: -1, Attach: -1})
		}
		p.kinds[k.Name] = k
	}
}

func (k *Kind) sound() bool {
	if len(k.Outside) < 3 || len(k.Inside) != len(k.Outside) {
		return false
	}
	for i := range k.Outside {
		if !finite(k.Outside[i]) || !finite(k.Inside[i]) {
			return false
		}
	}
	return k.Outside.Area() > 0
}

func (k *Kind) sides() int {
	if k.Open {
		return len(k.Outside) - 1
	}
	return len(k.Outside)
}

func finite(p geom.Point) bool {
	sum := p.X + p.Y
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

func (p *placing) readPlaces() {
	p.byID = map[string]int{}
	p.usable = make([]bool, len(p.places))
	p.moves = make([]*geom.Move, len(p.places))
	for i, pl := range p.places {
		if _, twice := p.byID[pl.ID]; twice {
			p.add(i, -1, Problem{Code: DuplicateID})
			continue
		}
		p.byID[pl.ID] = i
	}
	for i := range p.places {
		p.usable[i] = p.byID[p.places[i].ID] == i && p.checkPlace(i)
	}
}

func (p *placing) add(place, attach int, problem Problem) {
	problem.Frame, problem.Place, problem.Attach = p.places[place].ID, place, attach
	p.problems = append(p.problems, problem)
}

// checkPlace reports whether place i can be used at all. All its attachments
// are looked at, so that one run finds all their faults.
func (p *placing) checkPlace(i int) bool {
	pl := p.places[i]
	kind := p.kinds[pl.Kind]
	ok := true
	fail := func(attach int, problem Problem) {
		p.add(i, attach, problem)
		ok = false
	}
	if kind == nil {
		fail(-1, Problem{Code: UnknownKind, Name: pl.Kind})
	}
	if !finite(geom.Point{X: float64(pl.Turn)}) || pl.At != nil && !finite(*pl.At) {
		fail(-1, Problem{Code: BadNumber})
	}
	if pl.At == nil && len(pl.Attach) == 0 {
		fail(-1, Problem{Code: Unplaced})
	}
	for a, at := range pl.Attach {
		p.checkAttach(pl, kind, at, func(problem Problem) { fail(a, problem) })
	}
	return ok && kind.sound()
}

func (p *placing) checkAttach(pl Place, kind *Kind, at Attach, fail func(Problem)) {
	if !finite(geom.Point{X: at.Shift}) {
		fail(Problem{Code: BadNumber})
	}
	checkEnd(pl.ID, kind, at.Side, at.Corner, at.Corner != 0, fail)
	j, known := p.byID[at.To]
	if !known {
		fail(Problem{Code: UnknownFrame, Name: at.To})
		return
	}
	checkEnd(at.To, p.kinds[p.places[j].Kind], at.ToSide, at.ToCorner, at.Corner != 0, fail)
}

// checkEnd looks at one frame of an attachment. A kind that is missing or
// unsound was reported already.
func checkEnd(id string, kind *Kind, side, corner int, byCorner bool, fail func(Problem)) {
	if kind == nil || !kind.sound() {
		return
	}
	n := len(kind.Outside)
	switch {
	case byCorner && (corner < 1 || corner > n):
		fail(Problem{Code: UnknownCorner, Name: id, Number: corner, Most: n})
	case byCorner:
	case kind.Open && side == n:
		fail(Problem{Code: OpenSide, Name: id, Number: side, Most: n - 1})
	case side < 1 || side > kind.sides():
		fail(Problem{Code: UnknownSide, Name: id, Number: side, Most: kind.sides()})
	}
}

// resolve places what can be placed. Without At a frame waits for the one its
// first attachment names; following those names from any frame ends at a placed
// one, at an unusable one, or comes back to itself: a ring.
func (p *placing) resolve() {
	const (
		untried = iota
		inChain
		done
	)
	state := make([]int, len(p.places))
	for start := range p.places {
		var chain []int
		i := start
		for state[i] == untried && p.usable[i] && p.places[i].At == nil {
			state[i] = inChain
			chain = append(chain, i)
			i = p.byID[p.places[i].Attach[0].To]
		}
		if state[i] == inChain {
			p.reportRing(chain, i)
		} else if p.usable[i] && p.places[i].At != nil && p.moves[i] == nil {
			pl := p.places[i]
			m := p.down(i, geom.Move{Mirror: pl.Mirror, Turn: float64(pl.Turn), Shift: *pl.At})
			p.moves[i] = &m
		}
		for k := len(chain) - 1; k >= 0; k-- {
			state[chain[k]] = done
			p.placeByFirst(chain[k])
		}
	}
}

// reportRing reports the part of a chain of attachments that comes back to
// place i, once, under its first frame.
func (p *placing) reportRing(chain []int, i int) {
	for chain[0] != i {
		chain = chain[1:]
	}
	ids := make([]string, len(chain))
	for k, c := range chain {
		ids[k] = p.places[c].ID
	}
	p.add(i, 0, Problem{Code: Cycle, Frames: ids})
}

func (p *placing) placeByFirst(i int) {
	at := p.places[i].Attach[0]
	if to := p.moves[p.byID[at.To]]; to != nil {
		m := p.kept(i, at, p.attach(i, at, *to))
		p.moves[i] = &m
	}
}

// attach gives the move of place i that makes attachment at exact, when the
// frame it names is moved by to.
func (p *placing) attach(i int, at Attach, to geom.Move) geom.Move {
	pl := p.places[i]
	kind, other := p.kinds[pl.Kind], p.kinds[p.places[p.byID[at.To]].Kind]
	if at.Corner == 0 {
		return lieOn(kind.Outside, pl.Mirror, at, sideOf(other.Outside, at.ToSide, to), p.gap)
	}
	m := geom.Move{Mirror: pl.Mirror, Turn: float64(pl.Turn)}
	m.Shift = to.Apply(other.Outside[at.ToCorner-1]).Sub(m.Apply(kind.Outside[at.Corner-1]))
	return m
}

// lieOn gives the move that lays a side of an outline on another frame's side,
// gap mm before it, as at says.
func lieOn(outline geom.Polygon, mirror bool, at Attach, theirs face, gap float64) geom.Move {
	m := geom.Move{Mirror: mirror}
	flat := sideOf(outline, at.Side, m)
	m.Turn = wrap(angle(theirs.out) + math.Pi - angle(flat.out))
	ours := sideOf(outline, at.Side, m)
	start, end := theirs.along(ours.from), theirs.along(ours.to)
	if start > end {
		start, end = end, start
	}
	along := at.Shift
	switch length := theirs.length(); at.Align {
	case FlushStart:
		along -= start
	case FlushEnd:
		along += length - end
	default:
		along += (length - start - end) / 2
	}
	off := gap - ours.from.Sub(theirs.from).Dot(theirs.out)
	m.Shift = theirs.dir.Mul(along).Add(theirs.out.Mul(off))
	return m
}

// closeLoops tries the attachments that placed nothing.
func (p *placing) closeLoops(tolerance float64) {
	for i, pl := range p.places {
		if p.moves[i] == nil {
			continue
		}
		for a, at := range pl.Attach {
			to := p.moves[p.byID[at.To]]
			if to == nil || a == 0 && pl.At == nil {
				continue
			}
			want := p.attach(i, at, *to)
			if off, turn, open := p.openBy(i, at, want, tolerance); open {
				p.add(i, a, Problem{Code: LoopOpen, Name: at.To, Off: off, OffTurn: turn})
			}
		}
	}
}

// openBy compares where place i is with where at wants it. Off is taken at the
// middle of the attached side, or at the corner; the loop is open when either
// end of that side is further off than the tolerance.
func (p *placing) openBy(i int, at Attach, want geom.Move, tolerance float64) (geom.Point, unit.Angle, bool) {
	is, outside := *p.moves[i], p.kinds[p.places[i].Kind].Outside
	a, b := at.Corner-1, at.Corner-1
	if at.Corner == 0 {
		a, b = at.Side-1, at.Side%len(outside)
	}
	offA := is.Apply(outside[a]).Sub(want.Apply(outside[a]))
	offB := is.Apply(outside[b]).Sub(want.Apply(outside[b]))
	open := max(offA.Len(), offB.Len()) > tolerance
	return offA.Lerp(offB, 0.5), unit.Angle(wrap(is.Turn - want.Turn)), open
}

// wood is the box round all boards: the ends of an open frame may reach beyond
// its outside, as feet that are sawn square stand on their inner edges.
func (f Frame) wood() geom.Box {
	box := f.Outside.Box()
	if f.Open && len(f.Inside) > 0 {
		box = box.Union(f.Inside.Box())
	}
	return box
}

func newFrame(i int, pl Place, kind *Kind, m geom.Move) Frame {
	f := Frame{ID: pl.ID, Kind: pl.Kind, Place: i, Open: kind.Open, Move: m}
	f.Outside, f.Inside = m.Polygon(kind.Outside), m.Polygon(kind.Inside)
	f.Box, f.Centre = f.wood(), f.Outside.Centroid()
	f.Up = geom.Point{Y: 1}.Rot(-m.Turn)
	if m.Mirror {
		f.Up.X = -f.Up.X
	}
	f.TopSide = topSide(f)
	return f
}

// topSide is the side whose middle is highest, the first of equals.
func topSide(f Frame) int {
	const equal = 0.01 // mm: far below any mark, far above the error of a turn
	best, high := 1, math.Inf(-1)
	for k := 1; k <= f.Sides(); k++ {
		if y := f.Outside.Side(k - 1).Mid().Y; y > high+equal {
			best, high = k, y
		}
	}
	return best
}
