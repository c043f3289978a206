package section

import (
	"slices"

	"bowerwright/geom"
)

// middle is the centre of gravity of frames, or their middle without masses.
func middle(all []Frame, frames set) geom.Point {
	var sum geom.Point
	var mass float64
	for _, f := range frames.list() {
		sum = sum.Add(all[f].Centre.Mul(all[f].Mass))
		mass += all[f].Mass
	}
	if mass > 0 {
		return sum.Mul(1 / mass)
	}
	for _, f := range frames.list() {
		sum = sum.Add(all[f].Centre.Mul(1 / float64(frames.size())))
	}
	return sum
}

// A writer writes steps down with their screws, people and minutes.
type writer struct {
	a     *arranger
	steps []Step
}

func (w *writer) do(d Doing, frames set, minutes float64) {
	w.add(Step{Do: d, Frames: frames.list(), Minutes: minutes})
}

func (w *writer) add(s Step) {
	if w.a.j.Crew != nil {
		s.People = w.a.j.Crew(s.Do, s.Frames)
	}
	w.steps = append(w.steps, s)
}

// screws drives or undoes the seams between a unit and the rest of what is
// there.
func (w *writer) screws(d Doing, unit, there set, each float64) {
	s := Step{Do: d, Frames: unit.list()}
	for _, i := range w.a.seams(there&^unit, unit) {
		from, _, _ := w.a.reach(i, there)
		s.Seams = append(s.Seams, i)
		s.From = append(s.From, from)
		s.Screws += w.a.j.Seams[i].Screws
	}
	if len(s.Seams) == 0 {
		return
	}
	s.Minutes = each * float64(s.Screws)
	w.add(s)
}

// steps writes the order that was found. Ballast goes on while the first hands
// hold, before anything is let go.
func (a *arranger) steps() Order {
	w := &writer{a: a}
	r := a.j.Rates
	var there set
	for i, u := range a.order {
		unit := a.units[u]
		there |= unit
		if a.j.Way != BuiltUp {
			w.do(Lay, unit, r.Lay)
			w.screws(Drive, unit, there, r.Screw)
			continue
		}
		w.do(Put, unit, r.Put)
		w.screws(Drive, unit, there, r.Screw)
		if i == 0 {
			w.ballast(BallastOn, there)
		}
		w.do(LetGo, there, 0)
	}
	if a.j.Way == Tilted {
		w.do(Tilt, there, r.Tilt)
		w.ballast(BallastOn, there)
		w.do(LetGo, there, 0)
	}
	return Order{a.j.Way, w.steps}
}

func (w *writer) ballast(d Doing, there set) {
	if n := w.a.j.Ballast; n > 0 {
		w.do(d, there, w.a.j.Rates.Ballast*float64(n))
	}
}

// Strike is the order in which a set piece that stands is taken down: undress,
// then from the top, each unit held before its screws come out, the ballast
// last, and the floor swept. Where nothing can be taken off standing, it is
// held, cleared of ballast and lowered whole, and taken apart lying. The error
// is a *[Blocked] when neither can be done.
func (j Assembly) Strike() (Order, error) {
	j.Way = BuiltUp
	o, err := j.strike()
	if err == nil {
		return o, nil
	}
	lying := j
	lying.Way = Tilted
	if o, e := lying.strike(); e == nil {
		return o, nil
	}
	return Order{}, err
}

// strike is building backward: what could be added can be taken off, since the
// same frames are in the way and the same stay up.
func (j Assembly) strike() (Order, error) {
	a, err := j.arranger()
	if err != nil {
		return Order{}, err
	}
	if !a.from(0) {
		return Order{}, a.blocked()
	}
	w := &writer{a: a}
	there := a.frames(a.all)
	w.do(Undress, there, j.Rates.Undress)
	if j.Way == Tilted {
		w.do(Hold, there, 0)
		w.ballast(BallastOff, there)
		w.do(Lower, there, j.Rates.Tilt)
	}
	slices.Reverse(a.order)
	for _, u := range a.order {
		unit := a.units[u]
		if j.Way == BuiltUp {
			w.do(Hold, unit, 0)
		}
		w.screws(Undo, unit, there, j.Rates.Unscrew)
		w.do(Take, unit, j.Rates.Take)
		there &^= unit
	}
	if j.Way == BuiltUp {
		w.ballast(BallastOff, 0)
	}
	w.do(Sweep, 0, j.Rates.Sweep)
	o := Order{j.Way, w.steps}
	if err := j.Check(o); err != nil {
		return Order{}, err
	}
	return o, nil
}
