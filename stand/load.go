package stand

import (
	"fmt"
	"math"

	"bowerwright/dressing"
	"bowerwright/unit"
)

// A LoadKind is what pushes.
type LoadKind int

// The kinds of load.
const (
	HallLoad LoadKind = iota // the level load of exhibition rules, on the gross area
	PushLoad                 // one person at shoulder height
	CrowdLoad
	GustLoad
)

// A Load is a level force at a height above the floor, in any direction.
type Load struct {
	Kind   LoadKind
	Force  unit.Force // square on to the piece
	Height float64    // mm
	Gust   Speed      // of a GustLoad
}

// String says what pushes.
func (l Load) String() string {
	switch l.Kind {
	case HallLoad:
		return "exhibition load"
	case PushLoad:
		return "push at shoulder height"
	case CrowdLoad:
		return "a crowd that leans"
	}
	return fmt.Sprintf("gust of %.0f mph", l.Gust.MPH())
}

// Loads says which loads are tried.
type Loads struct {
	Hall       bool
	HallSolid  bool // the venue lets openings be left out of the area
	Push       bool
	Crowd      bool
	Gusts      []Speed
	WindToward *unit.Angle // the direction in which the wind pushes, when it has one side; nil tries all
}

// loads lists them for one way of dressing.
func (s Setup) loads(state dressing.State) []Load {
	var out []Load
	if s.Loads.Hall {
		out = append(out, s.hall(state))
	}
	if s.Loads.Push {
		out = append(out, s.push(PushLoad, state))
	}
	if s.Loads.Crowd {
		out = append(out, s.push(CrowdLoad, state))
	}
	for _, g := range s.Loads.Gusts {
		out = append(out, s.gust(state, g))
	}
	return out
}

// hall is the level load on the elevation: one pressure up to a height above the
// floor, another above it.
func (s Setup) hall(state dressing.State) Load {
	area := state.Gross
	if s.Loads.HallSolid {
		area = state.Solid
	}
	step := s.Rules.HallStep - s.Stance.Lift
	low, high := area.Between(0, step), area.Between(step, math.MaxFloat64)
	force := float64(s.Rules.HallLow)*low.Area() + float64(s.Rules.HallHigh)*high.Area()
	moment := float64(s.Rules.HallLow)*low.Moment() + float64(s.Rules.HallHigh)*high.Moment()
	for _, f := range s.Faces {
		a := f.Gross
		if s.Loads.HallSolid {
			a = f.Solid
		}
		force += float64(s.Rules.HallLow) * a
		moment += float64(s.Rules.HallLow) * a * f.Height
	}
	l := Load{Kind: HallLoad, Force: unit.Force(force), Height: s.Stance.Lift}
	if force > 0 {
		l.Height += moment / force
	}
	return l
}

// push is at a height above what the piece stands on, or at its top.
func (s Setup) push(kind LoadKind, state dressing.State) Load {
	force, height := s.Rules.Push, s.Rules.PushHeight
	if kind == CrowdLoad {
		force, height = s.Rules.Crowd, s.Rules.CrowdHeight
	}
	return Load{Kind: kind, Force: force, Height: math.Min(height, state.Gross.Top()) + s.Stance.Lift}
}

// drag of the whole, never less than that of the bare piece.
func (s Setup) drag(state dressing.State) Drag {
	d := s.Rules.Wind.Drag(state).atLeast(s.Rules.Wind.Drag(s.Bare))
	for _, f := range s.Faces {
		d = d.and(s.Rules.Wind.face(f))
	}
	return d
}

func (s Setup) gust(state dressing.State, g Speed) Load {
	d := s.drag(state)
	return Load{Kind: GustLoad, Gust: g, Height: d.Height + s.Stance.Lift,
		Force: unit.Force(float64(s.Rules.Wind.Pressure(g)) * d.Area)}
}
