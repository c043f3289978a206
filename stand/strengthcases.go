package stand

import (
	"fmt"
	"math"
	"slices"

	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/statics"
	"bowerwright/unit"
)

// A StrengthCase is one of the at most MostCases loads that are reckoned.
type StrengthCase struct {
	Name  string
	Way   string     // of dressing; "" where it is bare
	Force unit.Force // what pushes; 0: weight alone
	At    float64    // mm above the foot of the piece
	Lift  bool       // on the way: held by hands, not by its base
	Time  float64    // load duration: times as much is allowed
}

// MostCases is how many cases there may be.
const MostCases = 12

// A wanted case is one that is to be put on a model.
type wanted struct {
	StrengthCase
	gravity statics.Vec
	state   *dressing.State
	wet     bool
	toward  statics.Vec // of a push or a level load
	points  []mark      // of a push
	hands   []hand      // of a lift
}

type hand struct {
	mark mark
	at   geom.Point
	firm bool // the floor, not a hand
}

// own is the weight in the heaviest way of dressing, soaked if it takes water.
func (m *strengthModel) own() wanted {
	s := m.heaviest()
	return wanted{StrengthCase: StrengthCase{Name: "own weight", Way: s.Way, Time: m.rules.TimeWeight}, gravity: statics.Vec{0, 0, -1}, state: s, wet: true}
}

func (m *strengthModel) heaviest() *dressing.State {
	best := &m.in.Bare
	for i := range m.in.States {
		if s := &m.in.States[i]; s.Wet.Mass > best.Wet.Mass {
			best = s
		}
	}
	return best
}

// standingCases lists them: the hardest push and the hardest level load of those
// that are asked for, by their moments about the foot.
func (m *strengthModel) standingCases() []wanted {
	out := []wanted{m.own()}
	var push, area *WayLoad
	for i := range m.in.Loads {
		l := &m.in.Loads[i]
		worst := &area
		if l.Load.Kind == PushLoad || l.Load.Kind == CrowdLoad {
			worst = &push
		}
		if *worst == nil || m.moment(*l) > m.moment(**worst)*(1+sameRatio) {
			*worst = l
		}
	}
	if push != nil {
		out = append(out, m.pushes(push.Load)...)
	}
	if area != nil {
		out = append(out, m.level(*area)...)
	}
	if m.in.Lean > 0 {
		s, sin, cos := m.heaviest(), math.Sin(float64(m.in.Lean)), math.Cos(float64(m.in.Lean))
		out = append(out, wanted{StrengthCase: StrengthCase{Name: "leaning forwards", Way: s.Way, Time: m.rules.Time},
			gravity: statics.Vec{0, -sin, -cos}, state: s, wet: true})
	}
	return out
}

func (m *strengthModel) moment(l WayLoad) float64 { return float64(l.Load.Force) * l.Load.Height }

// pushes are backwards and forwards in the middle, backwards at the end that is
// farther from where the piece is held, and along it. Bare, when least weight
// presses its seams together.
func (m *strengthModel) pushes(l Load) []wanted {
	h := l.Height - m.in.Lifted
	middle, end := m.pushed(h)
	var out []wanted
	for _, c := range []struct {
		name   string
		points []mark
		toward statics.Vec
	}{{"pushed backwards", middle, statics.Vec{0, 1, 0}}, {"pushed forwards", middle, statics.Vec{0, -1, 0}},
		{"pushed backwards at one end", end, statics.Vec{0, 1, 0}}, {"pushed along", middle, statics.Vec{1, 0, 0}}} {
		if c.points == nil {
			continue
		}
		out = append(out, wanted{StrengthCase: StrengthCase{Name: c.name + name(l), Way: m.in.Bare.Way, Force: l.Force, At: h, Time: m.rules.Time},
			gravity: statics.Vec{0, 0, -1}, toward: c.toward, points: c.points})
	}
	return out
}

func name(l Load) string {
	if l.Kind == CrowdLoad {
		return " by a crowd"
	}
	return ""
}

// A spotOn is where somebody pushes: on a side, near a height.
type spotOn struct {
	side *side
	at   geom.Point
	off  float64 // from the height
}

// pushed gives the places of a push at a height: on a side that reaches it, or
// on the highest there are; nearest to the middle, and at the end. The two hands
// and the body spread a push over as much as a person spans.
func (m *strengthModel) pushed(h float64) (middle, end []mark) {
	var spots []spotOn
	for _, sides := range m.sides {
		for _, s := range sides {
			spots = append(spots, near(s, h))
		}
	}
	least := math.Inf(1)
	for _, s := range spots {
		least = math.Min(least, s.off)
	}
	spots = slices.DeleteFunc(spots, func(s spotOn) bool { return s.off > least+sameSpot })
	centre := m.in.Layout.Width / 2
	pick := func(score func(spotOn) float64) spotOn {
		best := spots[0]
		for _, s := range spots[1:] {
			if score(s) < score(best)-sameSpot {
				best = s
			}
		}
		return best
	}
	mid := pick(func(s spotOn) float64 { return math.Abs(s.at.X - centre) })
	from := m.heldAt(centre)
	far := pick(func(s spotOn) float64 { return -math.Abs(s.at.X - from) })
	middle = m.hands(mid)
	if math.Abs(far.at.X-from) > math.Abs(mid.at.X-from)+sameSpot {
		end = m.hands(far)
	}
	return middle, end
}

// near is the place of a side that is nearest to a height: where it passes it,
// its upper end below, its middle when it is level.
func near(s *side, h float64) spotOn {
	a, b := s.line.A, s.line.B
	switch {
	case math.Abs(a.Y-b.Y) < sameSpot:
		at := a.Lerp(b, 1.0/2)
		return spotOn{s, at, math.Abs(at.Y - h)}
	case (a.Y-h)*(b.Y-h) <= 0:
		return spotOn{s, a.Lerp(b, (h-a.Y)/(b.Y-a.Y)), 0}
	case math.Abs(a.Y-h) < math.Abs(b.Y-h):
		return spotOn{s, a, math.Abs(a.Y - h)}
	}
	return spotOn{s, b, math.Abs(b.Y - h)}
}

// heldAt is the middle of the frames that are held, or where there are none, of
// the piece.
func (m *strengthModel) heldAt(centre float64) float64 {
	held := m.in.held()
	if len(held) == 0 {
		return centre
	}
	sum := 0.0
	for _, f := range held {
		sum += m.in.Layout.Frames[f].Centre.X
	}
	return sum / float64(len(held))
}

func (m *strengthModel) hands(s spotOn) []mark {
	dir := s.side.line.Vec().Unit()
	var out []mark
	for _, k := range []float64{-1, 0, 1} {
		out = append(out, m.mark(s.side.frame, s.side.number, s.at.Add(dir.Mul(k*m.rules.Hands/2))))
	}
	return out
}

// level is wind, or the load of exhibition rules, backwards and forwards.
func (m *strengthModel) level(l WayLoad) []wanted {
	state := &m.in.Bare
	if l.State >= 0 && l.State < len(m.in.States) {
		state = &m.in.States[l.State]
	}
	c := StrengthCase{Way: state.Way, Force: l.Load.Force, At: l.Load.Height - m.in.Lifted, Time: m.rules.Time}
	back, forth := c, c
	back.Name, forth.Name = l.Load.String()+", backwards", l.Load.String()+", forwards"
	g := statics.Vec{0, 0, -1}
	return []wanted{{StrengthCase: back, gravity: g, state: state, toward: statics.Vec{0, 1, 0}}, {StrengthCase: forth, gravity: g, state: state, toward: statics.Vec{0, -1, 0}}}
}

// load puts a wanted case on the model, once its frames are made.
func (m *strengthModel) load(w wanted) statics.Case {
	c := statics.Case{Gravity: w.gravity}
	if w.state != nil {
		m.dress(&c, *w.state, w.wet)
	}
	switch {
	case w.points != nil:
		part := w.toward.Mul(float64(w.Force) / float64(len(w.points)))
		for _, p := range w.points {
			c.Nodal = append(c.Nodal, statics.Nodal{Node: p.node(), Load: statics.Load{Force: part}})
		}
	case w.Force > 0:
		m.spread(&c, w)
	}
	for _, h := range w.hands {
		s := statics.Spring{A: h.mark.node(), B: statics.Ground, At: place(h.at, h.mark.side.back), Axis: statics.Vec{0, 1, 0},
			Along: m.rules.Hand, Across: m.rules.Hand, Switched: true}
		if h.firm {
			s.Along = m.rules.Draw
		}
		c.On = append(c.On, m.tie(tie{}, s))
	}
	return c
}

// stickMid and stickLen are of a stick of the model by its nodes.
func (m *strengthModel) stickMid(i int) (geom.Point, float64, [2]statics.Node) {
	s := m.sticks[i].side
	k := i - s.first
	a, b := s.spots[k], s.spots[k+1]
	return s.line.A.Add(s.line.Vec().Unit().Mul((a.along + b.along) / 2)), b.along - a.along, [2]statics.Node{a.node, b.node}
}

// dress hangs a way of dressing on the sticks of what each layer covers, by their
// lengths; what is fitted hangs from the node nearest to it.
func (m *strengthModel) dress(c *statics.Case, s dressing.State, wet bool) {
	frames, layers := len(m.in.Frames), len(s.Layers)
	for i, w := range s.Weights {
		mass := w.Mass
		if wet {
			mass = w.Wet
		}
		if i < frames || mass <= 0 {
			continue
		}
		force := c.Gravity.Mul(float64(Weigh(mass)))
		if k := i - (len(s.Weights) - layers); k >= 0 {
			m.hang(c, s.Layers[k].Layer.On, w, force)
		} else {
			m.hangOne(c, w, force)
		}
	}
}

func (m *strengthModel) hangOne(c *statics.Case, w dressing.Weight, force statics.Vec) {
	best, near := -1, math.Inf(1)
	for i, s := range m.sticks {
		if s.side == nil {
			continue
		}
		if mid, _, _ := m.stickMid(i); mid.Dist(w.At) < near {
			best, near = i, mid.Dist(w.At)
		}
	}
	m.hangStick(c, best, w, force)
}

// hangStick puts a force on the two ends of a stick, at the depth of what hangs.
func (m *strengthModel) hangStick(c *statics.Case, i int, w dressing.Weight, force statics.Vec) {
	_, _, ends := m.stickMid(i)
	arm := statics.Vec{0, w.Back - m.sticks[i].side.back, 0}
	for _, n := range ends {
		c.Nodal = append(c.Nodal, statics.Nodal{Node: n, Arm: arm, Load: statics.Load{Force: force.Mul(1.0 / 2)}})
	}
}

func (m *strengthModel) hang(c *statics.Case, on dressing.Region, w dressing.Weight, force statics.Vec) {
	var sticks []int
	total := 0.0
	for i, s := range m.sticks {
		if s.side == nil {
			continue
		}
		if mid, long, _ := m.stickMid(i); covers(on, s.side.frame, mid) {
			sticks, total = append(sticks, i), total+long
		}
	}
	if total == 0 {
		m.hangOne(c, w, force)
		return
	}
	for _, i := range sticks {
		_, long, _ := m.stickMid(i)
		m.hangStick(c, i, w, force.Mul(long/total))
	}
}

func covers(r dressing.Region, frame int, at geom.Point) bool {
	if r.Frames != nil && !slices.Contains(r.Frames, frame) || at.Y < r.From || r.To > 0 && at.Y > r.To {
		return false
	}
	return r.Shapes == nil || slices.ContainsFunc(r.Shapes, func(p geom.Polygon) bool { return p.Contains(at) })
}

// spread shares a level load out along the boards, so that its middle has the
// height that it should: each takes exp(tilt x height) for its length, which is
// never below nothing and, with the tilt found by halving, meets any height
// between the lowest and the highest board.
func (m *strengthModel) spread(c *statics.Case, w wanted) {
	low, high := math.Inf(1), math.Inf(-1)
	for i, s := range m.sticks {
		if s.side != nil {
			mid, _, _ := m.stickMid(i)
			low, high = math.Min(low, mid.Y), math.Max(high, mid.Y)
		}
	}
	room := math.Max(high-low, sameSpot)
	share := func(tilt float64) (sum, height float64, of []float64) {
		of = make([]float64, len(m.sticks))
		for i, s := range m.sticks {
			if s.side == nil {
				continue
			}
			mid, long, _ := m.stickMid(i)
			of[i] = math.Exp(tilt * ((mid.Y-low)/room - 1.0/2))
			sum, height = sum+of[i]*long, height+of[i]*long*mid.Y
		}
		return sum, height / sum, of
	}
	from, to := -steepest, steepest
	for range halvings {
		mid := (from + to) / 2
		if _, h, _ := share(mid); h < w.At {
			from = mid
		} else {
			to = mid
		}
	}
	sum, _, of := share((from + to) / 2)
	for i, s := range m.sticks {
		if s.side != nil {
			c.Spread = append(c.Spread, statics.Spread{Member: i, Force: w.toward.Mul(float64(w.Force) * of[i] / sum)})
		}
	}
}

// steepest tilt puts all of a load on the outermost boards; so many halvings of
// it come to a float's grain.
const (
	steepest = 50.0
	halvings = 60
)

// liftCases are those on the way: carried flat by the best and the worst
// choice of places, tilted up, turned over. The piece lies on its back, bare.
func (m *strengthModel) liftCases() []wanted {
	l := m.in.Lift
	var out []wanted
	add := func(name string, hands []hand) {
		if hands != nil {
			out = append(out, wanted{StrengthCase: StrengthCase{Name: name, Way: m.in.Bare.Way, Lift: true, Time: m.rules.Time},
				gravity: statics.Vec{0, m.rules.Handling, 0}, hands: hands})
		}
	}
	if people := m.carriers(); people > 0 {
		g := l.Lifts.Carry[people-1]
		best, worst := g.Best.Holders, g.Worst.Holders
		if l.Best != nil {
			best = l.Best
		}
		if l.Worst != nil {
			worst = l.Worst
		}
		add(fmt.Sprintf("carried flat by %d where each carries most alike", people), m.holders(best))
		add(fmt.Sprintf("carried flat by %d where one carries most", people), m.holders(worst))
	}
	add("tilted up from the floor", m.rise("bottom", l.Lifts.Tilt.People))
	if t, ok := l.Lifts.Easiest(); ok {
		add("turned over about its "+t.About+" edge", m.rise(t.About, t.People))
	}
	return out
}

// carriers is how many carry it flat: as asked, else as few as may; 0 when no
// choice of places holds it.
func (m *strengthModel) carriers() int {
	l := m.in.Lift
	people := l.People
	if people == 0 {
		people = l.Lifts.People
	}
	if people == 0 {
		people = len(l.Lifts.Carry)
	}
	if people < 1 || people > len(l.Lifts.Carry) || !l.Lifts.Carry[people-1].Found {
		return 0
	}
	return people
}

func (m *strengthModel) holders(hs []Holder) []hand {
	var out []hand
	for _, h := range hs {
		for _, at := range h.Hands {
			out = append(out, hand{mark: m.mark(h.Frame, h.Side, at), at: at})
		}
	}
	return out
}

// rise is the piece lying, one edge on the floor, so many people at the places
// farthest from it.
func (m *strengthModel) rise(about string, people int) []hand {
	from := map[string]geom.Point{"bottom": {Y: 1}, "top": {Y: -1}, "left": {X: 1}, "right": {X: -1}}[about]
	var heel []hand
	low := math.Inf(1)
	for i, f := range m.in.Layout.Frames {
		for k, p := range f.Outside {
			d := p.Dot(from)
			if d < low-sameSpot {
				heel, low = nil, d
			}
			if d < low+sameSpot {
				heel = append(heel, hand{mark: m.cornerMark(i, k+1), at: p, firm: true})
			}
		}
	}
	holders := m.in.Lift.Rules.Holders(m.in.Layout)
	slices.SortStableFunc(holders, func(a, b Holder) int {
		switch d := b.middle().Dot(from) - a.middle().Dot(from); {
		case d > sameSpot:
			return 1
		case d < -sameSpot:
			return -1
		}
		return 0
	})
	people = min(max(people, 1), len(holders))
	return append(heel, m.holders(holders[:people])...)
}
