package cli

import (
	"fmt"
	"regexp"
	"strings"

	"bowerwright/job"
)

// standText is what stand prints: what was taken, each way of dressing under
// each load, ballast, what helps, lifting, and what is not checked.
func standText(r job.Result) string {
	s := r.Standing
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("%s: %s, %s, friction %g", r.Job.Name, s.Where, s.Floor, s.Friction)
	for _, a := range s.Assumed {
		line("  assumed: %s", a)
	}
	line("%s", s.Says)
	if len(s.Findings) > 0 {
		line("")
		line("Way, load, share of the limit")
	}
	say := r.Own
	for _, f := range s.Findings {
		line("  %s, %s of %s at %s: %s, %s; %s %s; limit %s", wetWay(f), f.Load, say(f.Force.US, f.Force.Metric), say(f.Height.US, f.Height.Metric),
			f.Use.Text, f.Use.Word, f.Mode, f.Toward, f.Limit)
	}
	for _, l := range s.Leans {
		line("  %s, by itself: goes over %s at a lean of %s, %s is wanted: %s", l.Way, l.Toward, l.Angle.Text, l.Wanted.Text, l.Word)
	}
	for _, w := range s.Ways {
		gust := "none"
		if w.Gust != nil {
			gust = say(w.Gust.US, w.Gust.Metric)
			if w.Stop {
				gust += ", the stop"
			}
		}
		line("  %s: weighs %s with all, %s solid, gust limit by calculation %s", w.Name, say(w.Whole.Weight.US, w.Whole.Weight.Metric), w.Solidity, gust)
	}
	if s.Ballast.Says != "" {
		line("")
		line("Ballast: %s.", s.Ballast.Says)
		for _, k := range s.Ballast.Stacks {
			line("  %d %s at %s from the left end, %s behind the front edges", k.Count, k.Unit, say(k.Right.US, k.Right.Metric), say(k.Behind.US, k.Behind.Metric))
		}
		line("Base: %s.", s.Width.Says)
	}
	strengthText(line, r)
	waysText(&b, s)
	line("")
	line("Lifting, bare, %s: %s.", say(s.Lift.Weight.US, s.Lift.Weight.Metric), s.Lift.Says)
	line("")
	for _, h := range s.Hard {
		line("%s", h)
	}
	if names := paperNames(r, b.String()); names != "" {
		line("")
		line("Frames have the names of the papers; in the job file %s.", names)
	}
	return b.String()
}

func wetWay(f job.FindingFacts) string {
	if f.Wet {
		return f.Way + ", soaked"
	}
	return f.Way
}

// waysText lists changes with their verdicts.
func waysText(b *strings.Builder, s *job.StandingFacts) {
	if len(s.WaysOut) == 0 {
		return
	}
	fmt.Fprintf(b, "\nWhat helps, each change reckoned (--apply N writes it into the job file):\n")
	for _, w := range s.WaysOut {
		then := "then"
		if !w.Helps {
			then = "no better"
		}
		steps := w.Steps
		if len(steps) == 0 {
			steps = []string{w.Says}
		}
		for i, step := range steps {
			number := fmt.Sprintf("%3d ", w.Number)
			if i > 0 {
				number = "    and "
			}
			fmt.Fprintf(b, "%s %s\n", number, step)
		}
		fmt.Fprintf(b, "     %s %s (%s of the limit)\n", then, w.After, w.Use.Text)
	}
}

// strengthText is what seams, corners, boards and the joint to the base bear.
func strengthText(line func(string, ...any), r job.Result) {
	s, say := r.Standing.Strength, r.Own
	if s == nil {
		return
	}
	line("")
	line("Strength: %s", s.Says)
	line("  %s", s.Held)
	if s.MoveMost.MM > 0 {
		line("  how far it moves: %s to %s, %s", say(s.Move.US, s.Move.Metric), say(s.MoveMost.US, s.MoveMost.Metric), s.MoveCase)
	}
	for _, c := range s.Cases {
		force := ""
		if c.Force.N > 0 {
			force = ", " + say(c.Force.US, c.Force.Metric)
		}
		band := ""
		if c.Band[0] != "" {
			band = fmt.Sprintf(" (%s to %s)", c.Band[0], c.Band[1])
		}
		line("  %s, %s%s: %s, %s%s; %s", c.Load, c.Way, force, c.Use.Text, c.Use.Word, band, c.Where)
	}
	for _, q := range s.Problems {
		line("  to put right: %s; %s", q.Says, q.Help)
	}
	if n := len(s.Outside); n > 0 {
		line("  screws of %s are shorter than the timber standard covers: its sums are cut", counted(n, "seam"))
	}
}

// labelOf is a frame's name on paper.
var labelOf = regexp.MustCompile(`\b[A-Z]+[0-9]+\b`)

// paperNames says what those frames are called in the job file that a text names
// and that are called otherwise there.
func paperNames(r job.Result, text string) string {
	named := map[string]bool{}
	for _, l := range labelOf.FindAllString(text, -1) {
		named[l] = true
	}
	var out []string
	for _, f := range r.Frames {
		if named[f.Label] && f.Label != f.ID {
			out = append(out, f.Label+" is "+f.ID)
		}
	}
	return strings.Join(out, ", ")
}
