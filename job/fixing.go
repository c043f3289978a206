package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/fixing"
	"bowerwright/layout"
	"bowerwright/stock"
	"bowerwright/unit"
)

// What the job file may ask for under fixing that cannot be.
var (
	snagNoSeam   = define("fixing-seam-unknown", "The job decides how a seam is fixed between two frames that have none.")
	snagNoScrew  = define("fixing-screw-missing", "No screw of the thicknesses and lengths at hand is sold.")
	snagHookSide = define("fixing-hook-side", "Hooks are asked for at a side that the frame has not.")
	snagHookRoom = define("fixing-hook-room", "Hooks are asked for at a side that has no room for them.")
)

// fix fills Result.Fixing from the layout as built.
//
// A seam that cannot be fixed as drawn is a note and not a snag: boards can be
// bought and frames glued while it is settled, and its drill sheet says what is
// wrong. What the job file asks for under fixing and cannot be is a snag.
func (p *planner) fix() {
	choices := p.choices()
	hooks := p.hooksAsked()
	if len(p.built.Seams)+len(hooks) == 0 {
		return
	}
	set := p.fixingSettings(choices, hooks)
	plan, problems := fixing.Fix(p.built, p.fixingBoards(), set)
	if p.noScrew(problems) {
		return
	}
	p.fixed = plan
	p.useRules(plan)
	p.hookSnags(problems)
	f := fixer{p: p, seams: p.built.Seams, choices: choices, steps: set.Rules.Reach, battens: p.seamBattens(plan)}
	f.all(plan, problems)
	p.undoneNotes()
	p.overheadNotes()
	p.stepNotes()
	p.result.Fixing.Eyes = p.eyeFacts(set.Eyes)
	p.result.Fixing.Driver = p.driverWords(set)
	p.hookFacts(plan.Hooks)
	for _, t := range plan.Totals {
		p.result.Fixing.Totals = append(p.result.Fixing.Totals, HardwareTotal{Thing: t.Name, Kind: string(t.Kind), Count: t.Count, Pack: t.Pack, Boxes: t.Boxes})
	}
}

// fixingBoards is what each frame of the layout is made of.
func (p *planner) fixingBoards() []fixing.Board {
	out := make([]fixing.Board, len(p.built.Frames))
	for i, f := range p.built.Frames {
		k := p.kinds[p.kindAt[f.Kind]]
		out[i] = fixing.Board{Boards: k.boards, Gravity: k.board.speciesFrom.Gravity}
	}
	return out
}

var flatWays = map[string]fixing.FlatWay{"": fixing.Plates, "plates": fixing.Plates, "battens": fixing.Battens, "counterbored bolts": fixing.CounterboredBolts}

func (p *planner) fixingSettings(choices map[int]fixing.Choice, hooks []fixing.Hook) fixing.Settings {
	a, d := p.spec.Fixing, p.spec.Driver
	set := fixing.Settings{
		Rules: fixing.RulesFrom(p.book.Aside()), Catalogue: &p.cat.Stock, Screws: a.Screws, Lengths: a.Lengths,
		Driver:        fixing.Tool{Length: d.Length.MM(), Bit: d.Bit.MM(), Half: d.Width.MM() / 2},
		RightAngle:    fixing.Tool{Length: d.HeadLength.MM()},
		HasRightAngle: d.RightAngle, BothSides: a.BothSides, DressedBelow: a.DressedBelow, DressedAbove: a.DressedAbove,
		Metric: p.w.show == unit.Metric, Often: a.Often, Inserts: a.Inserts, Rows: a.Rows, Seams: choices, Hooks: hooks,
	}
	way, ok := flatWays[a.Flat]
	if !ok {
		p.fault("flat frames are not joined by %q", a.Flat)
	}
	set.Flat = way
	set.Eyes = fixing.DefaultEyes(p.built.Width, set.Rules, a.BothSides)
	if len(a.Eyes) > 0 {
		set.Eyes = p.eyesAsked(set.Rules)
	}
	return set
}

// eyesAsked places the eyes that the job names: where no place is given, before
// both ends and the middle.
func (p *planner) eyesAsked(r fixing.Rules) []fixing.Eye {
	var out []fixing.Eye
	for _, a := range p.spec.Fixing.Eyes {
		e := fixing.Eye{Name: a.Name, Height: a.Height.MM(), Distance: r.Distance, Behind: a.Behind}
		if a.Distance != nil {
			e.Distance = a.Distance.MM()
		}
		places := []float64{0, p.built.Width / 2, p.built.Width}
		if a.Left != nil {
			places = []float64{a.Left.MM()}
		}
		for _, e.X = range places {
			out = append(out, e)
		}
	}
	return out
}

// eyeFacts lists who looks, each once however many places they look from.
func (p *planner) eyeFacts(eyes []fixing.Eye) []EyeFacts {
	var out []EyeFacts
	for _, e := range eyes {
		f := EyeFacts{Name: e.Name, Height: p.w.looked(e.Height), Distance: p.w.whole(e.Distance), Behind: e.Behind}
		if !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	return out
}

// driverWords say what tools the heads are reached with.
func (p *planner) driverWords(set fixing.Settings) []string {
	tool := func(name string, own, usual fixing.Tool) string {
		pick := func(a, b float64) string {
			if a > 0 {
				b = a
			}
			return p.w.text(p.w.looked(b))
		}
		return fmt.Sprintf("%s: %s long and %s wide, its bit %s out of the holder", name,
			pick(own.Length, usual.Length), pick(2*own.Half, 2*usual.Half), pick(own.Bit, usual.Bit))
	}
	name := p.spec.Driver.Name
	if name == "" {
		name = "driver"
	}
	out := []string{tool(name, set.Driver, set.Rules.Driver)}
	if set.HasRightAngle {
		out = append(out, tool("right-angle head", set.RightAngle, set.Rules.RightAngle))
	}
	return out
}

// choices finds what the job decided for single seams.
func (p *planner) choices() map[int]fixing.Choice {
	out := map[int]fixing.Choice{}
	for _, a := range p.spec.Fixing.Seams {
		found := false
		for _, s := range p.built.Seams {
			if p.joins(s, a.Frames) {
				found = true
				out[s.Number] = fixing.Choice{One: a.One, Rows: a.Rows, Site: a.Site, Often: a.Bolts, Screws: a.Screws}
			}
		}
		if !found {
			p.snag(snagNoSeam, "fixing.seams."+a.Key, a.Key, fmt.Sprintf("there is no seam between %s and %s", a.Frames[0], a.Frames[1]), p.seamsOf(a.Frames))
		}
	}
	return out
}

func (p *planner) joins(s layout.Seam, ids [2]string) bool {
	a, b := p.built.Frames[s.Sides[0].Frame].ID, p.built.Frames[s.Sides[1].Frame].ID
	return ids == [2]string{a, b} || ids == [2]string{b, a}
}

// seamsOf says which frames the two have seams with.
func (p *planner) seamsOf(ids [2]string) string {
	var lists []string
	for _, id := range ids {
		var others []string
		for _, s := range p.built.Seams {
			for k := range 2 {
				if other := p.built.Frames[s.Sides[1-k].Frame].ID; p.built.Frames[s.Sides[k].Frame].ID == id && !slices.Contains(others, other) {
					others = append(others, other)
				}
			}
		}
		if len(others) > 0 {
			lists = append(lists, fmt.Sprintf("%s has seams with %s", id, strings.Join(others, ", ")))
		}
	}
	if len(lists) == 0 {
		return "lay a side of one against a side of the other, or take the line out"
	}
	return "name two frames that lie side to side: " + strings.Join(lists, "; ")
}

func (p *planner) hooksAsked() []fixing.Hook {
	var out []fixing.Hook
	for _, h := range p.spec.Fixing.Hooks {
		kind := stock.Hook
		if h.Ties {
			kind = stock.Tie
		}
		out = append(out, fixing.Hook{Frame: h.Frame, Side: h.Side, Count: h.Count, Kind: kind})
	}
	return out
}

// hookSnags are what is wrong with hooks: the job asked for them.
func (p *planner) hookSnags(problems []fixing.Problem) {
	for _, q := range problems {
		if q.Seam > 0 {
			continue
		}
		key := p.hookKey(q)
		problem, remedy := q.Text(p.fixingStyle())
		switch q.Code {
		case fixing.NoFrame:
			p.snag(snagHookSide, "fixing.hooks."+key, key, problem, remedy)
		default:
			p.snag(snagHookRoom, "fixing.hooks."+key, key, problem, remedy)
		}
	}
}

// hookKey is how the job file writes the side.
func (p *planner) hookKey(q fixing.Problem) string {
	for _, h := range p.spec.Fixing.Hooks {
		if h.Frame == q.Frames[0] && h.Side == q.Side {
			return h.Key
		}
	}
	return ""
}

// fixingStyle is that of rooms and needs in sentences: fine, since the two may
// differ by little.
func (p *planner) fixingStyle() unit.Style {
	if p.w.show == unit.Metric {
		return unit.Style{System: unit.Metric, Mark: unit.Millimetre / 10}
	}
	return unit.Style{System: unit.US, Mark: unit.Inch / 64}
}

// noScrew says that what is at hand is not sold: it is not one seam's matter.
func (p *planner) noScrew(problems []fixing.Problem) bool {
	for _, q := range problems {
		if q.Code == fixing.NoScrew {
			path := "fixing.screws"
			if len(p.spec.Fixing.Lengths) > 0 {
				path = "fixing.lengths"
			}
			problem, _ := q.Text(p.fixingStyle())
			p.snag(snagNoScrew, path, strings.Join(p.spec.Fixing.Screws, ", "), problem, "name other lengths, or leave lengths out and all that are sold are taken")
			return true
		}
	}
	return false
}

func (p *planner) hookFacts(hooks []fixing.Fixed) {
	for _, h := range hooks {
		p.result.Fixing.Hooks = append(p.result.Fixing.Hooks, HookFacts{Thing: h.Name, Frame: p.labels[h.Frame], Side: h.Side,
			Along: p.w.cut(h.Along), At: p.w.xy(h.At), Height: p.w.looked(h.At.Y), Thread: p.w.stock(length(h.Thread)), Hole: p.w.stock(h.Hole)})
	}
}

// The rules that every fixing rests on, and those of one way of fixing.
var (
	rulesOfAll    = []assume.ID{assume.FixApart, assume.FixEvery, assume.EyeDistance, assume.FixReach}
	rulesOfEyes   = []assume.ID{assume.EyeStanding, assume.EyeSeated, assume.EyeCamera}
	rulesOfScrews = []assume.ID{assume.FixEdge, assume.FixEnd, assume.FixEndLeast, assume.FixPitch, assume.FixPitchAcross, assume.FixKeep,
		assume.FixSink, assume.FixHold, assume.FixFull, assume.FixStandard, assume.DriverLength, assume.DriverBit, assume.DriverHalf, assume.SlantMost}
	rulesOfBolts = []assume.ID{assume.FixBoltEdge, assume.FixBoltEnd, assume.FixBoltEndLeast, assume.FixBoltPitch, assume.NutRoom}
	rulesOfHead  = []assume.ID{assume.RightAngleLength, assume.RightAngleBit, assume.RightAngleHalf}
)

// useRules lists the assumptions that had a say.
func (p *planner) useRules(plan fixing.Plan) {
	use := slices.Clone(rulesOfAll)
	if len(p.spec.Fixing.Eyes) == 0 {
		use = append(use, rulesOfEyes...)
	}
	if p.spec.Driver.RightAngle {
		use = append(use, rulesOfHead...)
	}
	for _, s := range plan.Seams {
		switch s.Method {
		case fixing.BoredBolts:
			use = append(append(use, assume.FixBore), rulesOfBolts...)
		case fixing.Bolted, fixing.Inserted:
			use = append(append(use, assume.FixKeep), rulesOfBolts...)
		default:
			use = append(use, rulesOfScrews...)
		}
	}
	for _, id := range use {
		p.book.Get(id)
	}
}

// undoneNotes says which seams cannot be fixed as drawn, those of one reason in
// one note.
func (p *planner) undoneNotes() {
	var order []string
	numbers := map[string][]int{}
	for _, s := range p.result.Fixing.Seams {
		if s.Fixed {
			continue
		}
		p.result.Fixing.Undone = append(p.result.Fixing.Undone, s.Number)
		key := s.Cannot + "|" + s.Helps
		if numbers[key] == nil {
			order = append(order, key)
		}
		numbers[key] = append(numbers[key], s.Number)
	}
	for _, key := range order {
		cannot, helps, _ := strings.Cut(key, "|")
		p.note("seam-cannot-be-fixed", "fixing", fmt.Sprintf("%s cannot be fixed as drawn: %s", seamNumbers(numbers[key]), cannot), upper(helps)+".")
	}
}

// stepNotes says which site seams are too high to be closed from the floor.
func (p *planner) stepNotes() {
	var high []int
	top := Size{}
	for _, s := range p.result.Fixing.Seams {
		if s.Steps {
			high = append(high, s.Number)
			if s.Height.MM > top.MM {
				top = s.Height
			}
		}
	}
	if len(high) > 0 {
		p.note("steps-needed", "fixing", fmt.Sprintf("%s closed at the venue with heads up to %s over the floor", seamNumbers(high), p.w.text(top)),
			"Bring steps that stand by themselves; nothing is leaned against the set piece.")
	}
}

// seamNumbers names seams: "seam 3", "seams 3, 5 and 9".
func seamNumbers(ns []int) string {
	if len(ns) == 1 {
		return fmt.Sprintf("seam %d", ns[0])
	}
	var list []string
	for _, n := range ns[:len(ns)-1] {
		list = append(list, strconv.Itoa(n))
	}
	return fmt.Sprintf("seams %s and %d", strings.Join(list, ", "), ns[len(ns)-1])
}

// upper begins a sentence.
func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
