package job

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"bowerwright/snag"
)

// Since says in one line what came of changes between two results of a job:
// how standing, strength, the limits by calculation and the seams went from one
// to the other. Nil standing, of a bare cut list, has nothing to say.
func Since(before, after Result) string {
	was, is := before.Standing, after.Standing
	if was == nil || is == nil {
		return ""
	}
	var out []string
	add := func(says string) {
		if says != "" {
			out = append(out, says)
		}
	}
	add(waysSince(was, is))
	add(went("standing", standingUse(was), standingUse(is)))
	add(strengthSince(was, is))
	add(liftSince(was.Lift, is.Lift))
	add(leastGust(after, was, is))
	add(leastPush(after, was, is))
	if w, i := was.Ballast.Units, is.Ballast.Units; w != i {
		add(fmt.Sprintf("%d to %s of ballast", w, howMany(i, "unit")))
	}
	add(seamsSince(before, after))
	if len(out) == 0 {
		return "standing, strength and lifting are as they were: " + is.Word
	}
	head := is.Word + " as before"
	if was.Word != is.Word {
		head = fmt.Sprintf("from %s to %s", was.Word, is.Word)
	}
	return head + ": " + strings.Join(out, "; ")
}

// went is how a share went, with its word where that is another.
func went(what string, was, is *Use) string {
	switch {
	case was == nil && is == nil || was != nil && is != nil && was.Text == is.Text && was.Word == is.Word:
		return ""
	case was == nil:
		return fmt.Sprintf("%s now %s (%s)", what, is.Text, is.Word)
	case is == nil:
		return fmt.Sprintf("%s %s, now not reckoned", what, was.Text)
	case was.Word == is.Word:
		return fmt.Sprintf("%s %s to %s (%s)", what, was.Text, is.Text, is.Word)
	}
	return fmt.Sprintf("%s %s (%s) to %s (%s)", what, was.Text, was.Word, is.Text, is.Word)
}

// standingUse is the worst of tipping, sliding and leaning; nil without footing.
func standingUse(s *StandingFacts) *Use {
	var worst *Use
	take := func(u Use) {
		if worst == nil || u.Ratio > worst.Ratio {
			worst = &u
		}
	}
	for _, f := range s.Findings {
		take(f.Use)
	}
	for _, l := range s.Leans {
		take(l.Use)
	}
	return worst
}

// strengthSince says why strength has no share any more, where it has none.
func strengthSince(was, is *StandingFacts) string {
	a, b := strengthUse(was), strengthUse(is)
	if b == nil && is.Strength != nil && (was.Strength == nil || was.Strength.Says != is.Strength.Says) {
		return "strength now " + is.Strength.Says
	}
	return went("strength", a, b)
}

// strengthUse is that of the case that governs; nil where nothing could be
// reckoned.
func strengthUse(s *StandingFacts) *Use {
	f := s.Strength
	if f == nil || f.Governs < 0 || f.Governs >= len(f.Cases) {
		return nil
	}
	u := f.Cases[f.Governs].Use
	u.Word = f.Word
	return &u
}

// waysSince are the ways of dressing that came and went.
func waysSince(was, is *StandingFacts) string {
	names := func(s *StandingFacts) (out []string) {
		for _, w := range s.Ways {
			out = append(out, w.Name)
		}
		return out
	}
	lacking := func(a, b []string) []string {
		return slices.DeleteFunc(slices.Clone(a), func(n string) bool { return slices.Contains(b, n) })
	}
	var out []string
	if more := lacking(names(is), names(was)); len(more) > 0 {
		out = append(out, "with "+andList(more))
	}
	if less := lacking(names(was), names(is)); len(less) > 0 {
		out = append(out, "without "+andList(less))
	}
	return strings.Join(out, ", ")
}

// leastGust is the lowest gust limit of all ways of dressing.
func leastGust(r Result, was, is *StandingFacts) string {
	least := func(s *StandingFacts) string {
		var best *DressedFacts
		for i, w := range s.Ways {
			if w.Gust == nil {
				return "none"
			}
			if best == nil || w.Gust.MS < best.Gust.MS {
				best = &s.Ways[i]
			}
		}
		if best == nil {
			return "none"
		}
		return r.Own(best.Gust.US, best.Gust.Metric) + " (" + best.Name + ")"
	}
	return fromTo("lowest gust limit by calculation", least(was), least(is))
}

// leastPush is the smallest push limit of all ways of dressing.
func leastPush(r Result, was, is *StandingFacts) string {
	least := func(s *StandingFacts) string {
		var best *PushFacts
		for i, p := range s.Push {
			if best == nil || p.Force.N < best.Force.N {
				best = &s.Push[i]
			}
		}
		if best == nil {
			return "none"
		}
		return r.Own(best.Force.US, best.Force.Metric)
	}
	return fromTo("push limit", least(was), least(is))
}

func fromTo(what, was, is string) string {
	if was == is {
		return ""
	}
	return fmt.Sprintf("%s %s to %s", what, was, is)
}

func liftSince(was, is LiftFacts) string {
	if was.Says == is.Says {
		return ""
	}
	return "lifting now: " + is.Says
}

// mostSeamsSince is how many seams one line has room for.
const mostSeamsSince = 3

// seamsSince are the seams that are fixed otherwise than before, with what that
// does to them: known by their frames and sides, since numbers move.
func seamsSince(before, after Result) string {
	type key struct {
		frames [2]string
		sides  [2]int
	}
	was := map[key]SeamFixing{}
	for _, s := range before.Fixing.Seams {
		was[key{s.Frames, s.Sides}] = s
	}
	var out []string
	more := 0
	for _, s := range after.Fixing.Seams {
		b, ok := was[key{s.Frames, s.Sides}]
		if !ok || b.Count == s.Count && b.Method == s.Method && b.Thing == s.Thing {
			continue
		}
		if len(out) == mostSeamsSince {
			more++
			continue
		}
		out = append(out, seamSince(b, s, seamUse(before, b.Number), seamUse(after, s.Number)))
	}
	if more > 0 {
		out = append(out, fmt.Sprintf("and %s more", howMany(more, "seam")))
	}
	return strings.Join(out, "; ")
}

// seamSince is one of them: from what to what, and how much of the limit.
func seamSince(was, is SeamFixing, before, after *Use) string {
	fixed := func(s SeamFixing) string {
		if !s.Fixed {
			return "not fixed"
		}
		if s.Count == 1 {
			return "1 " + strings.TrimSuffix(s.Method, "s")
		}
		return fmt.Sprintf("%d %s", s.Count, s.Method)
	}
	from, to := fixed(was), fixed(is)
	if from == to {
		from, to = from+" "+was.Thing, is.Thing
	}
	name := fmt.Sprintf("seam %d (%s), %s to %s", is.Number, andList(is.Frames[:]), from, to)
	if says := went(name+":", before, after); says != "" {
		return says
	}
	return name + ": no change"
}

func seamUse(r Result, number int) *Use {
	if r.Standing.Strength == nil {
		return nil
	}
	for _, u := range r.Standing.Strength.Seams {
		if u.Seam == number {
			return &u.Use
		}
	}
	return nil
}

// StandAsItIs is Stand without looking for what helps: for what is only
// compared with.
func StandAsItIs(ctx context.Context, spec Spec, cat Catalogue) (Result, snag.List, error) {
	return standWith(ctx, spec, cat, noWays)
}
