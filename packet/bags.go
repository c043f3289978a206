package packet

import (
	"fmt"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// bagsPaper is a bag for each seam, with what is in all of them by the box.
func bagsPaper(r job.Result) paper {
	bags := len(r.Fixing.Seams) - len(r.Fixing.Undone)
	if len(strongbacks(r)) > 0 {
		bags++
	}
	if bags == 0 {
		return paper{}
	}
	p := paper{title: "Hardware bags", entry: "Hardware bags", joins: true, balance: true,
		right: [2]string{plural(bags, "bag"), "count out, tick, tie to a frame of the seam"}}
	p.blocks = append(p.blocks, totalsTable(r)...)
	p.blocks = append(p.blocks, bagList(r)...)
	if height(p.blocks) <= bagsWhole {
		for i := range len(p.blocks) - 1 {
			p.blocks[i].keep = true
		}
	}
	return p
}

// bagsWhole is how high the bags of a job are, at the most, to stay on one page.
const bagsWhole = (bodyFoot - bodyTop) / 2

// totalsTable is what the bags and the hooks take, without spare.
func totalsTable(r job.Result) []block {
	var rows [][]cell
	for _, t := range r.Fixing.Totals {
		rows = append(rows, []cell{bold(itoa(t.Count)), text(t.Thing), quiet(usedIn(r, t))})
	}
	if backs := strongbacks(r); len(backs) > 0 {
		rows = append(rows, []cell{bold(itoa(backScrews(backs))), text(backs[0].Thing), quiet("strongbacks")})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"count", 14, true}, {"thing", 80, false}, {"where", 79, false}}
	head := heading("In all", "without spare; the buying list has spare and boxes", "")
	head.gap = 0
	return append([]block{head}, together(table(0, cols, rows))...)
}

// usedIn says where a thing goes.
func usedIn(r job.Result, t job.HardwareTotal) string {
	n := 0
	for _, s := range r.Fixing.Seams {
		for _, i := range s.Bag {
			if i.Thing == t.Thing {
				n++
			}
		}
	}
	if n == 0 {
		return "on the frames: see Hooks"
	}
	return plural(n, "bag")
}

// bagList is every seam's bag with a box to tick. Bags of one content stand
// under it.
func bagList(r job.Result) []block {
	var order []string
	seams := map[string][]job.SeamFixing{}
	for _, s := range r.Fixing.Seams {
		if !s.Fixed {
			continue
		}
		key := bagSays(s)
		if seams[key] == nil {
			order = append(order, key)
		}
		seams[key] = append(seams[key], s)
	}
	out := []block{heading("Bag by bag", "the number of the seam on the bag; a site seam's bag goes to the venue", "")}
	for _, key := range order {
		var labels []string
		for _, m := range seams[key] {
			labels = append(labels, bagLabel(m))
		}
		out = append(out, bagHead(key, len(labels)), bagTicks(key, labels, bagNames(seams[key])))
	}
	if backs := strongbacks(r); len(backs) > 0 {
		key := itoa(backScrews(backs)) + " × " + backs[0].Thing + ", " + itoa(len(backs)) + " × strongback " + backs[0].Mark
		out = append(out, bagHead(key, 1), bagTicks(key, []string{"strongbacks"}, []string{"strongbacks"}))
	}
	return out
}

// strongbacks are battens across the back on the way, none for most jobs.
func strongbacks(r job.Result) []job.BackFacts {
	if r.Standing == nil {
		return nil
	}
	return r.Standing.Lift.Backs
}

func backScrews(backs []job.BackFacts) (n int) {
	for _, b := range backs {
		n += b.Screws
	}
	return n
}

// bagLabel is what is written beside a bag's box.
func bagLabel(m job.SeamFixing) string {
	if m.Site {
		return itoa(m.Number) + " site"
	}
	return itoa(m.Number)
}

// bagSays is what is in a bag: "2 × No. 8 x 1 1/4 in".
func bagSays(s job.SeamFixing) string {
	var parts []string
	for _, i := range s.Bag {
		parts = append(parts, itoa(i.Count)+" × "+i.Thing)
	}
	for _, q := range s.Pieces {
		if q.Mark != "" {
			parts = append(parts, "1 × batten "+q.Mark)
		}
	}
	return strings.Join(parts, ", ")
}

func bagHead(words string, n int) block {
	lines := wrap(words, drawing.Bold, drawing.Body, fieldW-30)
	lead := leading(drawing.Body)
	return block{h: lead*float64(len(lines)) + 1.5, gap: 2.5, keep: true, draw: func(s *sheet, y float64) {
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(0, y+lead*(float64(i)+0.75)), drawing.Body, l).Bold())
		}
		s.say(drawing.Label(drawing.Pt(fieldW, y+lead*0.75), drawing.Small, plural(n, "bag")).Quiet().RightAligned())
	}}.says(webHead(words, plural(n, "bag")))
}

// Boxes to tick, mm: one for a bag, its seam's number beside it.
const (
	bagsAcross = 8
	bagWide    = fieldW / bagsAcross
	bagHigh    = 7.6
)

// bagTicks are the boxes of bags that hold the same. They may run over pages.
func bagTicks(key string, labels, names []string) block {
	rows := (len(labels) + bagsAcross - 1) / bagsAcross
	return block{
		h: float64(rows) * bagHigh,
		split: func(room float64) (now, later block, ok bool) {
			fit := int(room/bagHigh) * bagsAcross
			if fit <= 0 || fit >= len(labels) {
				return block{}, block{}, false
			}
			return bagTicks(key, labels[:fit], names[:fit]), bagTicks(key, labels[fit:], names[fit:]), true
		},
		draw: func(s *sheet, y float64) {
			for i, words := range labels {
				x, at := float64(i%bagsAcross)*bagWide, y+float64(i/bagsAcross)*bagHigh
				s.add(drawing.TickBox(drawing.Pt(x, at)))
				s.say(drawing.Label(drawing.Pt(x+drawing.BoxMM+1.8, at+4), drawing.Body, words).Medium())
			}
		},
	}.says(webTicks(key, names...))
}

func bagNames(seams []job.SeamFixing) []string {
	var out []string
	for _, m := range seams {
		name := "seam " + itoa(m.Number)
		if m.Site {
			name += ", site seam"
		}
		out = append(out, name)
	}
	return out
}

// hooksPaper is where hooks and ties for dressing go.
func hooksPaper(r job.Result) paper {
	if len(r.Fixing.Hooks) == 0 {
		return paper{}
	}
	p := paper{title: "Hooks and ties", entry: "Hooks and ties", right: [2]string{itoa(len(r.Fixing.Hooks)) + " to fit, into the back edges", "in the shop, before finish"}}
	high := picHeight(r)
	p.blocks = append(p.blocks, picture(high+14, "The set piece from the BACK with a black dot for every hook and tie; the table says where each is.", func(s *sheet, y float64) {
		backOf(s, r, box{drillLeft, y + 2, drillRight, y - 2 + high}, false, true)
		s.say(drawing.Label(drawing.Pt(0, y+high+11), drawing.Bench, "BACK").Bold())
		x := drawing.Width("BACK", drawing.Bold, drawing.Bench) + 8
		s.prose(x, y+high+3.5, fieldW-x, drawing.Label(drawing.Point{}, drawing.Body,
			"A black dot is a hook or tie in the back edge, midway through the board. Drill first: "+hookHoles(r)+". Measure along the outside from the corner that has the side's number."))
	}))
	var rows [][]cell
	for i, h := range r.Fixing.Hooks {
		rows = append(rows, []cell{strong(itoa(i + 1)), small(h.Frame + "/" + itoa(h.Side)), small(h.Thing), strong(first(r.Job, h.Along)), quiet(first(r.Job, h.Height))})
	}
	cols := []column{{"no.", 6, false}, {"frame/side", 15, false}, {"thing", 27, false}, {"from corner", 17, true}, {"high", 15, true}}
	p.blocks = append(p.blocks, heading("Where each goes", "high: over the floor, the piece standing", ""), columnsOf(2, cols, rows))
	return p
}

// hookHoles are what is drilled for each sort of hook and tie.
func hookHoles(r job.Result) string {
	var out []string
	for _, h := range r.Fixing.Hooks {
		out = append(out, fmt.Sprintf("for %s %s wide and %s deep", h.Thing, first(r.Job, h.Hole), first(r.Job, h.Thread)))
	}
	return strings.Join(unique(out), ", ")
}

// hooks marks hooks and ties on the back view.
func (v view) hooks(s *sheet, r job.Result, pl *placer) {
	for _, h := range r.Fixing.Hooks {
		at := v.at(h.At)
		s.add(drawing.Circle(drawing.Pen{}, drawing.Black, at, 1))
		pl.take(around(at, 2.4, 2.4))
	}
}
