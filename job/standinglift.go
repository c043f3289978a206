package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"bowerwright/stand"
	"bowerwright/unit"
)

// lift is the whole piece without its base, undressed.
func (s *stander) lift(t trial) LiftFacts {
	w := s.p.w
	masses := s.section(t).Frames
	x := s.lifts(t)
	f := LiftFacts{Weight: w.weight(t.bare.Dry.Mass), Swing: w.next(x.Swing), Rules: stand.NotCovered(), InPlace: t.asked.lift.InPlace, Helpers: s.p.lifters()}
	s.carry(&f, x)
	if turn, ok := x.Easiest(); ok {
		f.Turn = &TurnFacts{About: turn.About, People: turn.People, Force: w.push(max(turn.Up.Peak.Force, turn.Down.Peak.Force))}
	}
	f.Tilt = TiltFacts{People: x.Tilt.People, Force: w.push(x.Tilt.Peak.Force), At: w.angle(floorTo(x.Tilt.Peak.Angle)), Balance: w.angle(floorTo(x.Tilt.Balance)), Grip: math.Ceil(x.Tilt.Grip*100-grain) / 100}
	f.Built = s.built(x.Built, masses)
	f.Over = t.footing && s.liftOver(t)
	f.Short = f.Over && f.Helpers > 0
	f.Backs = s.backs(t)
	f.Says = liftSays(f)
	return f
}

func liftSays(f LiftFacts) string {
	say := func(n int, what string) string {
		if n == 0 {
			return "no team that works as one is enough to " + what
		}
		if n == 1 {
			return "1 person to " + what
		}
		return fmt.Sprintf("%d people to %s", n, what)
	}
	out := say(f.Carry.People, "carry it flat") + "; " + say(f.Tilt.People, "tilt it up")
	if f.InPlace {
		most := 0
		for _, b := range f.Built {
			if b.People == 0 {
				most = 0
				break
			}
			most = max(most, b.People)
		}
		out = "built up frame by frame where it stands: " + say(most, "a frame")
	}
	if f.Short {
		out += "; so many are there to lift: " + fmt.Sprint(f.Helpers)
	}
	return out
}

// carry is the best and the worst choice of places for the fewest people, or for
// the largest team when none is enough.
func (s *stander) carry(f *LiftFacts, x stand.Lifts) {
	w, rules := s.p.w, s.rules.Lift
	n := cmp.Or(x.People, len(x.Carry))
	f.Carry.People = x.People
	if asked := min(s.p.spec.Lifting.People, len(x.Carry)); asked > x.People && x.People > 0 {
		n, f.Carry.People = asked, asked
	}
	g := x.Carry[n-1]
	if !g.Found {
		return
	}
	allowed := rules.Alone(rules.Carry) * unit.Mass(rules.TeamShare(n))
	f.Carry.Allowed = w.held(allowed)
	f.Carry.Use = useOf(g.Best.Ratio, s.rules.Word(g.Best.Ratio))
	f.Carry.Holds, f.Carry.Most = s.places(g.Best)
	f.Carry.Worst, f.Carry.Worse = s.places(g.Worst)
}

func (s *stander) places(g stand.Grip) (out []HoldFact, most Weight) {
	w := s.p.w
	for i, h := range g.Holders {
		out = append(out, HoldFact{Frame: s.p.labels[h.Frame], Side: h.Side, Hands: [2]XY{w.xy(h.Hands[0]), w.xy(h.Hands[1])}, Carries: w.weight(g.People[i])})
	}
	return out, w.weight(slices.Max(g.People))
}

// built gathers frames that are lifted alike: same people, same need of steps.
func (s *stander) built(raised []stand.Raised, masses []unit.Mass) []BuiltLift {
	w := s.p.w
	type key struct {
		kind   string
		people int
		steps  bool
	}
	at := map[key]int{}
	tops := map[key]float64{}
	var out []BuiltLift
	for _, r := range raised {
		frame := s.p.built.Frames[r.Frame]
		k := key{frame.Kind, r.Crew.People, r.Crew.Steps}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, BuiltLift{Weight: w.weight(masses[r.Frame]), People: r.Crew.People, Single: w.held(r.Crew.Single), Steps: r.Crew.Steps})
		}
		b := &out[i]
		b.Frames = append(b.Frames, s.p.labels[r.Frame])
		if high := frame.Centre.Y; high >= tops[k] {
			tops[k], b.To = high, w.looked(high)
		}
		if single := w.held(r.Crew.Single); single.KG < b.Single.KG {
			b.Single = single
		}
	}
	slices.SortStableFunc(out, func(a, b BuiltLift) int { return cmp.Compare(b.Weight.KG, a.Weight.KG) })
	return out
}

// backs are the strongbacks as they are sawn and screwed on: none where the piece
// is never lifted in one.
func (s *stander) backs(t trial) []BackFacts {
	if t.asked.lift.InPlace {
		return nil
	}
	w, way := s.p.w, t.asked.lift.Strongbacks
	backs := s.strongbacks(way)
	screw, _ := s.p.backScrew()
	var out []BackFacts
	for i, l := range s.backLists(backs) {
		b := backs[i]
		out = append(out, BackFacts{From: w.xy(b.From), To: w.xy(b.To), Length: w.cut(s.p.backLength(way).MM()), Mark: strongbackMark, Screws: l.Screws, Thing: screw.Name,
			FromRight: w.looked(b.From.X), FromUp: w.looked(b.From.Y), ToRight: w.looked(b.To.X), ToUp: w.looked(b.To.Y)})
	}
	return out
}
