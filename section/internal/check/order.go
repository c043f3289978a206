package check

import (
	"errors"
	"fmt"
	"slices"
)

// A Reach is a place a driver gets at a joint from.
type Reach struct {
	Blocks          []int
	Lying, Standing bool
}

// A Joint joins two frames.
type Joint struct {
	A, B, Screws int
	Always       bool // reached whatever is there
	Reach        []Reach
}

// A Step is named in words as the papers have it.
type Step struct {
	Do                  string
	Frames, Seams, From []int
	Screws              int
}

// An Assembly is an order to be replayed: to build when it begins with a unit laid or
// put, to strike when it begins with undressing.
type Assembly struct {
	Frames  int
	Foot    []bool
	Joints  []Joint
	Units   [][]int
	Ballast bool // there is some
	Tilts   bool // put up, or let down, as one
	Stays   bool // left lying
	Stands  func([]int) bool
	Steps   []Step
}

// A scene is how things are between two steps.
type scene struct {
	Assembly
	strike         bool
	there, closed  []bool // frames, joints
	held           []bool // frames with hands on them
	standing, load bool   // upright; ballast on
	bare, swept    bool
}

// Replay does every step and stops at the first that cannot be done.
func (j Assembly) Replay() error {
	if len(j.Steps) == 0 {
		return errors.New("no steps")
	}
	s := &scene{Assembly: j, strike: j.Steps[0].Do == "undress"}
	s.there, s.held, s.closed = make([]bool, j.Frames), make([]bool, j.Frames), make([]bool, len(j.Joints))
	s.standing = !j.Tilts && !j.Stays
	if s.strike {
		s.begin()
	}
	for i, step := range j.Steps {
		if err := s.do(step); err != nil {
			return fmt.Errorf("step %d, %s: %w", i+1, step.Do, err)
		}
	}
	return s.end()
}

// begin is a set piece as it stood.
func (s *scene) begin() {
	s.standing, s.load = true, s.Ballast
	for _, u := range s.Units {
		for _, f := range u {
			s.there[f] = true
		}
	}
	for i := range s.Joints {
		s.closed[i] = s.between(i)
	}
}

// between says whether a joint joins two units of the assembly.
func (s *scene) between(i int) bool {
	a, b := s.home(s.Joints[i].A), s.home(s.Joints[i].B)
	return a >= 0 && b >= 0 && a != b
}

func (s *scene) home(f int) int {
	return slices.IndexFunc(s.Units, func(u []int) bool { return slices.Contains(u, f) })
}

func (s *scene) do(step Step) error {
	switch step.Do {
	case "lay down", "put up and hold":
		return s.add(step)
	case "drive", "undo":
		return s.turn(step)
	case "tilt up and hold", "lower":
		return s.tilt(step)
	case "ballast on":
		return s.loaded(step, true)
	case "ballast off":
		return s.loaded(step, false)
	case "let go":
		clear(s.held)
		return s.stays()
	case "undress":
		s.bare = true
	case "hold":
		for _, f := range step.Frames {
			s.held[f] = true
		}
	case "take off":
		return s.take(step)
	case "sweep":
		s.swept = true
	default:
		return errors.New("no such doing")
	}
	return nil
}

func (s *scene) unit(frames []int) bool {
	return slices.ContainsFunc(s.Units, func(u []int) bool {
		a, b := slices.Clone(u), slices.Clone(frames)
		slices.Sort(a)
		slices.Sort(b)
		return slices.Equal(a, b)
	})
}

func (s *scene) add(step Step) error {
	up := step.Do == "put up and hold"
	if s.strike || up != s.standing || !s.unit(step.Frames) {
		return errors.New("not a unit, or not so")
	}
	for _, f := range step.Frames {
		if s.there[f] {
			return fmt.Errorf("frame %d is there already", f)
		}
		s.there[f], s.held[f] = true, up
	}
	return nil
}

// turn drives or undoes screws: both frames there, the driver not in anybody's
// way, the count right, and standing, hands on one of the two.
func (s *scene) turn(step Step) error {
	drive, screws := step.Do == "drive", 0
	if drive == s.strike || !drive && !s.bare || len(step.From) != len(step.Seams) {
		return errors.New("not now")
	}
	for i, j := range step.Seams {
		x := s.Joints[j]
		switch {
		case !s.there[x.A] || !s.there[x.B] || s.closed[j] == drive || !s.between(j):
			return fmt.Errorf("seam %d is not open to it", j)
		case s.standing && !s.held[x.A] && !s.held[x.B]:
			return fmt.Errorf("nobody holds at seam %d", j)
		case !s.reached(x, step.From[i]):
			return fmt.Errorf("seam %d is not reached", j)
		}
		s.closed[j] = drive
		screws += x.Screws
	}
	if screws != step.Screws {
		return fmt.Errorf("%d screws, not %d", screws, step.Screws)
	}
	return nil
}

func (s *scene) reached(x Joint, from int) bool {
	if x.Always {
		return from == -1
	}
	if from < 0 || from >= len(x.Reach) {
		return false
	}
	r := x.Reach[from]
	if s.standing && !r.Standing || !s.standing && !r.Lying {
		return false
	}
	return !slices.ContainsFunc(r.Blocks, func(f int) bool { return f != x.A && f != x.B && s.there[f] })
}

// tilt moves the whole: joined up, and in hands when it leaves its stand.
func (s *scene) tilt(step Step) error {
	up := step.Do == "tilt up and hold"
	if up == s.strike || up == s.standing || s.load || !slices.Equal(step.Frames, s.all()) {
		return errors.New("not now, not with ballast on, or not all of it")
	}
	if err := s.whole(); err != nil {
		return err
	}
	for _, f := range step.Frames {
		if !up && !s.held[f] {
			return fmt.Errorf("nobody holds frame %d", f)
		}
		s.held[f] = up
	}
	s.standing = up
	return nil
}

// loaded puts ballast on or off: off only when nothing stands or hands hold all
// that does.
func (s *scene) loaded(step Step, on bool) error {
	if !s.Ballast || s.load == on || !s.standing {
		return errors.New("there is none to move")
	}
	for _, f := range s.all() {
		if !on && !s.held[f] {
			return fmt.Errorf("frame %d stands without hands", f)
		}
	}
	s.load = on
	return nil
}

// take removes a unit whose screws are out.
func (s *scene) take(step Step) error {
	if !s.strike || !s.unit(step.Frames) {
		return errors.New("not a unit")
	}
	for _, f := range step.Frames {
		if !s.there[f] || s.standing && !s.held[f] {
			return fmt.Errorf("frame %d is not held", f)
		}
		s.there[f], s.held[f] = false, false
	}
	for i, x := range s.Joints {
		if s.closed[i] && (!s.there[x.A] || !s.there[x.B]) {
			return fmt.Errorf("seam %d is still closed", i)
		}
	}
	return s.stays()
}

func (s *scene) all() []int {
	var out []int
	for f, t := range s.there {
		if t {
			out = append(out, f)
		}
	}
	return out
}

// joined says which frames hang together with one.
func (s *scene) joined(from int) []bool {
	seen := make([]bool, s.Frames)
	seen[from] = true
	for again := true; again; {
		again = false
		join := func(a, b int) {
			if s.there[a] && s.there[b] && seen[a] != seen[b] {
				seen[a], seen[b], again = true, true, true
			}
		}
		for i, x := range s.Joints {
			if s.closed[i] {
				join(x.A, x.B)
			}
		}
		for _, u := range s.Units {
			for _, f := range u {
				join(u[0], f)
			}
		}
	}
	return seen
}

func (s *scene) whole() error {
	all := s.all()
	if len(all) == 0 {
		return errors.New("nothing is there")
	}
	seen := s.joined(all[0])
	for _, f := range all {
		if !seen[f] {
			return fmt.Errorf("frame %d is not joined to the rest", f)
		}
	}
	return nil
}

// stays says whether what stands without hands has feet, its ballast, and does
// not go over.
func (s *scene) stays() error {
	all := s.all()
	if !s.standing || len(all) == 0 {
		return nil
	}
	if s.Ballast && !s.load {
		return errors.New("the ballast is not on")
	}
	for _, f := range all {
		seen := s.joined(f)
		if !s.held[f] && !slices.ContainsFunc(all, func(g int) bool { return seen[g] && s.Foot[g] }) {
			return fmt.Errorf("frame %d stands on nothing", f)
		}
	}
	if s.Stands != nil && !slices.Contains(s.held, true) && !s.Stands(all) {
		return errors.New("it does not stay up")
	}
	return nil
}

func (s *scene) end() error {
	if s.strike {
		if len(s.all()) > 0 || s.load || !s.bare || !s.swept || s.Steps[len(s.Steps)-1].Do != "sweep" {
			return errors.New("the strike is not finished")
		}
		return nil
	}
	for _, u := range s.Units {
		for _, f := range u {
			if !s.there[f] || s.held[f] {
				return fmt.Errorf("frame %d is not in place, or still held", f)
			}
		}
	}
	for i := range s.Joints {
		if s.between(i) && !s.closed[i] {
			return fmt.Errorf("seam %d is open", i)
		}
	}
	if s.standing == s.Stays || s.standing && s.Ballast && !s.load {
		return errors.New("it does not stand, or without its ballast")
	}
	return nil
}
