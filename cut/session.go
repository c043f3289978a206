package cut

import (
	"context"
	"math"
	"slices"

	"bowerwright/unit"
)

// A Session is how the boards of a plan go through the saw: stop by stop, each
// set once, and at each stop all boards with parts for it, in the plan's order.
type Session struct {
	Stops        []Stop
	StopSettings int // times the stop is set, the first included
	SawSettings  int // times the saw is set, the first included
	// LongestFirst says that the stops may also be run longest first, so that
	// a part spoilt can still become a shorter one: on no board does that take
	// more timber than there is, or leave less than Hold behind its last cut.
	LongestFirst bool
	// TrimSettings are settings of the saw for parts cut to rough lengths: all
	// ends of one setting are trimmed together. They are in SawSettings; and in
	// StopSettings are the stops at which those parts get their second ends.
	TrimSettings []unit.Angle
}

// A Stop is one position of the stop: sticks that are the same, whatever they
// are called.
type Stop struct {
	Parts    []int // of the order
	Count    int   // parts cut
	Boards   []int // of the plan
	Settings []unit.Angle
	Saw      int // times the saw is set anew at this stop
}

// Session gives the session of a plan of an order.
func (o Order) Session(p Plan) Session {
	s := Session{LongestFirst: true}
	d := &desk{o: &o}
	set := -1
	for _, k := range o.kinds() {
		stop := Stop{Parts: k.parts, Count: k.count}
		for i, b := range p.Boards {
			cuts := o.cutsOf(b, k.parts)
			if len(cuts) > 0 || slices.ContainsFunc(b.Parts, func(q Placed) bool { return slices.Contains(k.parts, q.Part) }) {
				stop.Boards = append(stop.Boards, i)
			}
			for _, lean := range cuts {
				at := d.lean(lean)
				if at != set {
					set = at
					stop.Saw++
				}
				if a := d.leans[at]; !slices.Contains(stop.Settings, a) {
					stop.Settings = append(stop.Settings, a)
				}
			}
		}
		s.SawSettings += stop.Saw
		s.Stops = append(s.Stops, stop)
	}
	s.StopSettings = len(s.Stops)
	ts := o.stretches()
	for _, b := range p.Boards {
		s.LongestFirst = s.LongestFirst && o.turnsRound(b, ts)
	}
	return s
}

// cutsOf gives the leans of the cuts made on a board at the stop of some parts:
// at each the left end, unless an earlier cut or the board's own made it, and
// the right.
func (o Order) cutsOf(b Board, parts []int) []unit.Angle {
	var out []unit.Angle
	t := o.stretchOf(b)
	for i, q := range b.Parts {
		if !slices.Contains(parts, q.Part) {
			continue
		}
		l := way{q.Rolled, q.Swapped}.lying(o.stick(o.Parts[q.Part]).ends)
		if i > 0 && !q.SharesCut || i == 0 && !q.SharesCut && (l[0] != 0 || t.trimFirst > 0 || t.begun) {
			out = append(out, l[0])
		}
		if q.Held.What != NoCut {
			out = append(out, l[1])
		}
	}
	return out
}

// stretchOf gives the stretch of a board.
func (o *Order) stretchOf(b Board) stretch {
	ts := o.stretches()
	return ts[slices.IndexFunc(ts, func(t stretch) bool { return t.stock == b.Stock && t.number == b.Stretch })]
}

// turnsRound says whether the parts of a board may be cut the other way about.
func (o *Order) turnsRound(b Board, ts []stretch) bool {
	parts := names(b)
	slices.Reverse(parts)
	t := o.stretchOf(b)
	q := o.place(parts, t)
	last := q.Parts[len(parts)-1]
	end := last.End + math.Abs(last.RightSlope)/2
	held := last.Held.What == NoCut || q.Offcut+t.trimFar >= o.Hold
	return end <= (t.length-t.trimFar).MM()+float64(slip)/1e6 && held
}

// A Choice is one way to cut an order, to be shown beside others. Rough says
// which parts are cut square to a rough length first, in Order, and then
// trimmed.
type Choice struct {
	Order   Order
	Plan    Plan
	Session Session
	Rough   []bool // by part
}

// Settings gives how often stop and saw are set, together.
func (s Session) Settings() int { return s.StopSettings + s.SawSettings }

// A Choices is an order cut for the fewest boards at least cost, as it is; with
// the parts of a board in the order of their saw settings; and for the fewest
// changes, which is one of those two or a third way, whichever sets stop and
// saw least often. In the third all parts with two unlike ends are cut square to
// rough lengths, which share no mitres, and all ends of one setting are then
// trimmed together. An Err tells why a way is not open.
type Choices struct {
	AsIs, BySetting, FewestChanges Choice
	BySettingErr, ChangesErr       error
}

// Choose solves an order in the three ways; the second and third have a quarter
// of the budget each. The error is that of the first.
func Choose(ctx context.Context, o Order, s Settings) (c Choices, err error) {
	if c.AsIs, err = choice(ctx, o, s, make([]bool, len(o.Parts))); err != nil {
		return c, err
	}
	by := o
	by.BySetting = true
	c.BySetting, c.BySettingErr = choice(ctx, by, s.beside(), make([]bool, len(o.Parts)))
	rough, which := by.rough()
	c.FewestChanges, c.ChangesErr = choice(ctx, rough, s.beside(), which)
	if c.ChangesErr == nil {
		c.FewestChanges.Session = rough.RoughSession(c.FewestChanges.Plan, o, which)
	}
	if c.BySettingErr == nil && (c.ChangesErr != nil || !c.FewestChanges.changesLess(c.BySetting)) {
		c.FewestChanges = c.BySetting
	}
	if c.FewestChanges.Plan.Boards == nil || !c.FewestChanges.changesLess(c.AsIs) {
		c.FewestChanges = c.AsIs
	}
	return c, nil
}

// changesLess says whether stop and saw are set less often than in another
// choice.
func (c Choice) changesLess(d Choice) bool { return c.Session.Settings() < d.Session.Settings() }

func choice(ctx context.Context, o Order, s Settings, rough []bool) (Choice, error) {
	p, err := Solve(ctx, o, s)
	if err != nil {
		return Choice{}, err
	}
	return Choice{o, p, o.Session(p), rough}, nil
}

// rough gives the order with parts of unlike ends as rough lengths: what the
// part reaches along the board, and a kerf to trim off each end.
func (o Order) rough() (Order, []bool) {
	which := make([]bool, len(o.Parts))
	o.Parts = slices.Clone(o.Parts)
	d := &desk{o: &o}
	for i, p := range o.Parts {
		s := o.stick(p)
		if p.Count == 0 || d.lean(s.ends[0]) == d.lean(s.ends[1]) || d.lean(-s.ends[0]) == d.lean(s.ends[1]) {
			continue
		}
		reach := s.centre + (math.Abs(o.end(s.ends[0]).slope)+math.Abs(o.end(s.ends[1]).slope))/2
		kerfs := o.end(s.ends[0]).kerf + o.end(s.ends[1]).kerf
		which[i] = true
		o.Parts[i] = Part{Name: p.Name, Outside: unit.Length(up(reach + kerfs)), Count: p.Count}
	}
	return o, which
}

// trim adds the trimming of rough parts to a session: each setting once, and a
// stop for every length.
func (s *Session) trim(o Order, rough []bool) {
	d := &desk{o: &o}
	for i, p := range o.Parts {
		if rough[i] {
			ends := o.stick(p).ends
			d.lean(ends[0])
			d.lean(ends[1])
		}
	}
	for _, k := range o.kinds() {
		if slices.ContainsFunc(k.parts, func(p int) bool { return rough[p] }) {
			s.StopSettings++
		}
	}
	s.TrimSettings = d.leans
	s.SawSettings += len(d.leans)
}

// RoughSession gives the session of a plan of an order in which some parts are
// cut square to rough lengths first, as in a Choice; own is the order of the
// parts as they are in the end.
func (o Order) RoughSession(p Plan, own Order, rough []bool) Session {
	s := o.Session(p)
	s.trim(own, rough)
	return s
}
