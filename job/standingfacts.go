package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/stand"
	"bowerwright/unit"
)

// Falls is the word for a piece that touches the floor on no more than a line.
const Falls = "falls"

const (
	overIs   = "OVER"
	estimate = "A working estimate, not an engineer's certificate."
)

// banner says what is over, or how much of the worst limit is used, and what no
// sum can check.
func banner(s *StandingFacts) string {
	out := "Standing, strength and lifting: " + s.Says + ". "
	if s.Over {
		out = overIs + ". " + upper(strings.TrimPrefix(s.Says, stand.Over+": ")) + ". "
	}
	if open := noEvidence(s.Flame); len(open) > 0 {
		out += "No flame evidence is named for " + andList(open) + ". "
	}
	return out + estimate
}

// noEvidence are the materials for which the job names none.
func noEvidence(fs []FlameFacts) []string {
	var out []string
	for _, f := range fs {
		if f.Evidence == "" {
			out = append(out, f.Material)
		}
	}
	return out
}

// andList joins names for a sentence.
func andList(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// facts fills in what is printed.
func (s *stander) facts(t trial) *StandingFacts {
	at := t.asked.at
	f := &StandingFacts{Where: cmp.Or(at.Where, "indoors"), Watch: at.Watch, Governs: -1, Assumed: s.assumed(t.asked)}
	floor := s.floor(at)
	f.Floor, f.Friction = floorWords(floor.Name, floor.Soft, s.p.w.angle(floor.Slope)), floor.Friction
	f.Hard, f.Engineer = notChecked(), engineer(at)
	f.Flame = flame(t.ways)
	f.Lift = s.lift(t)
	s.plan(f, t)
	if !t.footing {
		f.Word, f.Over, f.Stays = Falls, true, stand.Over
		f.Cannot, f.Helps = "it touches the floor on no more than a line, so that nothing keeps it from going over", "give it a base, feet, braces behind it or wings"
		f.Says = f.Cannot
		s.weights(f, t)
		f.WaysOut = s.waysOut(t)
		f.emptyLists()
		return f
	}
	s.weights(f, t)
	s.findings(f, t)
	s.ballast(f, t)
	s.wind(f, t)
	f.Strength = s.strengthFacts(t)
	_, f.Stays = s.verdict(f, t)
	f.Word, f.Says = s.total(f, t)
	f.Over = f.Word == stand.Over
	f.WaysOut = s.waysOut(t)
	f.PullTest = s.pullTest(t)
	f.emptyLists()
	return f
}

func notChecked() []string {
	return append(stand.NotChecked(), "People who walk round it, cables, candles and heaters near it, and what the venue's own rules ask for.")
}

// engineer says when a licensed engineer is needed. Common practice, no source:
// local codes say it for a place.
func engineer(at StandingAsked) []string {
	out := []string{
		"Anything that is over its limit here and is to go up all the same.",
		"Anything over people's heads that more than one seam must hold, or that people climb, sit or lean on.",
		"Whatever the venue, its insurer or the local code asks one for: often above a height of 4 m, and outdoors above 3 m.",
	}
	if at.Where == outdoors {
		out = append(out, "Public places outdoors, and gusts over the stop.")
	}
	return out
}

func floorWords(name string, soft bool, slope Angle) string {
	words := map[string]string{"hall": "hall floor", "polished": "polished floor", "rough": "carpet or rough concrete", "grass": "grass"}[name]
	if soft && name != "grass" {
		words += ", soft or uneven"
	}
	if slope.Degrees > 0 {
		words += ", falling by " + slope.Text
	}
	return words
}

// assumed says what was taken since the job does not say.
func (s *stander) assumed(a outfit) []string {
	var out []string
	if len(a.ways) == 0 {
		out = append(out, "No dressing is described: reckoned bare. Whatever hangs on it or closes it to the wind makes it worse.")
	}
	if len(a.base) == 0 {
		out = append(out, "No base is described: it stands on its own boards alone.")
	} else if a.at.Held == "" {
		out = append(out, "How the frames are held to the base is not said: screws up through it are reckoned with.")
	}
	if at := a.at; at.Where == "" && at.Floor == "" && at.Gust == 0 && at.Mean == 0 {
		out = append(out, "Nothing is said of where it stands: taken to be indoors on a hall floor.")
	}
	if a.at.Where == outdoors && a.at.Gust == 0 && a.at.Mean == 0 {
		out = append(out, "No gust is named: "+s.speedText(s.loads(a.at).Gusts[0])+" is tried.")
	}
	return out
}

func (s *stander) speedText(v stand.Speed) string {
	g := s.p.w.gust(v)
	return s.p.w.say(g.US, g.Metric)
}

func (s *stander) findings(f *StandingFacts, t trial) {
	for _, x := range t.findings {
		f.Findings = append(f.Findings, s.finding(x, t))
	}
	worst := -1.0
	for i, x := range t.findings {
		if x.Worst.Ratio > worst {
			worst, f.Governs = x.Worst.Ratio, i
		}
	}
	for _, l := range t.leans {
		f.Leans = append(f.Leans, LeanFacts{Way: l.Way, Use: useOf(l.By.Ratio, l.Word), Angle: s.p.w.angle(max(0, floorTo(l.Angle))), Wanted: s.p.w.angle(s.rules.Lean), Word: l.Word, Toward: stand.Towards(l.By.Toward)})
		if l.By.Ratio > worst {
			worst, f.Governs = l.By.Ratio, -1
		}
	}
}

// floorTo rounds an angle down to tenths of a degree.
func floorTo(a unit.Angle) unit.Angle {
	return unit.FromDegrees(rounded(a.Degrees(), 0.1, false))
}

func (s *stander) finding(x stand.Finding, t trial) FindingFacts {
	w, g := s.p.w, x.Worst
	f := FindingFacts{Way: x.Way, Load: s.loadWords(x.Load), Force: w.push(x.Load.Force), Height: w.looked(x.Load.Height),
		Use: useOf(g.Ratio, g.Word), Mode: g.Mode.String(), Toward: stand.Towards(g.Toward), Angle: w.angle(g.Toward), Wet: g.Wet}
	if g.Mode == stand.Tipping {
		f.Edge = &[2]XY{w.xy(g.Edge.A), w.xy(g.Edge.B)}
		f.EdgeIs = edgeWords(g.Edge)
	}
	f.Limit = s.limitOf(x, t)
	for _, d := range x.Directions {
		f.Rose = append(f.Rose, RoseFact{Degrees: math.Round(d.Toward.Degrees()), Tip: s.wanted(d.Tip), Slide: s.wanted(d.Slide)})
	}
	return f
}

// edgeWords names an edge of a hull that runs counter-clockwise.
func edgeWords(e geom.Segment) string {
	v := e.Vec()
	switch side := stand.Towards(unit.Angle(math.Atan2(-v.X, v.Y))); side {
	case "forwards":
		return "its front edge"
	case "backwards":
		return "its back edge"
	case "to the left":
		return "its left edge"
	case "to the right":
		return "its right edge"
	default:
		return "its edge " + side
	}
}

// wanted is the ratio of what is wanted to what holds.
func (s *stander) wanted(held float64) float64 {
	if held <= 0 {
		return mostRatio
	}
	return capped(s.rules.Factor / held)
}

func (s *stander) loadWords(l stand.Load) string {
	if l.Kind == stand.GustLoad {
		return "gust of " + s.speedText(l.Gust)
	}
	return l.String()
}

// limitOf is the largest load of a finding's kind, by calculation and rounded
// down.
func (s *stander) limitOf(x stand.Finding, t trial) string {
	state := t.states[slices.IndexFunc(t.states, func(d dressing.State) bool { return d.Way == x.Way })]
	switch x.Load.Kind {
	case stand.PushLoad:
		return s.pushText(t.loaded.PushLimit(state, s.rules.PushHeight))
	case stand.CrowdLoad:
		return s.pushText(t.loaded.PushLimit(state, s.rules.CrowdHeight))
	case stand.GustLoad:
		return s.gustText(t.loaded.GustLimit(state))
	}
	switch more := rounded(1/x.Worst.Ratio, 0.1, false); {
	case x.Worst.Ratio > 1:
		return fmt.Sprintf("%.0f %% of it", rounded(100/x.Worst.Ratio, 1, false))
	case more > 10:
		return "over 10 times as much"
	default:
		return fmt.Sprintf("%.1f times as much", more)
	}
}

func (s *stander) pushText(l stand.Limit) string {
	w, f := s.p.w, s.p.w.holds(l.Force)
	switch {
	case l.Force <= 0:
		return "no push at all"
	case stand.Mass(l.Force).Pounds() < 1:
		return "a push of less than " + w.say("1 lb", "5 N")
	}
	return "a push of " + w.say(f.US, f.Metric)
}

func (s *stander) gustText(l stand.Limit) string {
	g := s.p.w.limitOf(l.Gust)
	switch {
	case l.Gust <= 0:
		return "no gust at all"
	case l.Stop:
		return "the stop, " + s.p.w.say(g.US, g.Metric)
	}
	return "a gust of " + s.p.w.say(g.US, g.Metric)
}

// verdict is the word of all, and one line that says what governs.
func (s *stander) verdict(f *StandingFacts, t trial) (word, says string) {
	if f.Governs < 0 {
		for _, l := range t.leans {
			if word == "" || stand.Over == l.Word {
				lf := f.Leans[slices.IndexFunc(f.Leans, func(x LeanFacts) bool { return x.Way == l.Way })]
				word = l.Word
				says = fmt.Sprintf("%s: %s, it goes over %s by itself at a lean of %s; %s is wanted", word, l.Way, lf.Toward, lf.Angle.Text, lf.Wanted.Text)
			}
		}
		return word, says
	}
	x := f.Findings[f.Governs]
	return x.Use.Word, x.Use.Word + ": " + governs(x)
}

// total is the word of standing, strength and lifting together, and the line of
// the one that governs: frames that are loose first, then what tips or slides,
// since a piece that goes over bears nothing; else what is over before what is not, then by share.
func (s *stander) total(f *StandingFacts, t trial) (word, says string) {
	ratio, word := t.worst()
	says = f.Stays
	if r, w := t.weakest(); w != "" && (t.loose() || word != stand.Over && (w == stand.Over || r > ratio)) {
		word, says = w, s.strengthSays(t)
	}
	if word != stand.Over && s.liftOver(t) {
		word, says = stand.Over, stand.Over+": lifting, "+f.Lift.Says
	}
	return word, says
}

// governs is a finding in one line.
func governs(x FindingFacts) string {
	way := x.Way
	if x.Wet {
		way += ", soaked"
	}
	over := ""
	if x.EdgeIs != "" {
		over = " over " + x.EdgeIs
	}
	return fmt.Sprintf("%s, %s: %s %s%s; limit by calculation: %s", way, x.Load, x.Mode, x.Toward, over, x.Limit)
}
