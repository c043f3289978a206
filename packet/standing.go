package packet

import (
	"fmt"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// standing are the papers of a set piece on its feet: the stand sheet, what it
// bears, the wind plan for the venue, the lift sheet. A bare cut list has none.
func standing(b *book, r job.Result) {
	if r.Standing == nil {
		return
	}
	b.flow(standPaper(r))
	b.flow(strengthPaper(r))
	b.flow(windPaper(r))
	b.flow(liftPaper(r))
}

// estimate stands on every paper of standing.
const estimate = "A working estimate, not an engineer's certificate."

// standPaper says what pushes it, how much of the limit that uses, what governs,
// where ballast stands and what helps.
func standPaper(r job.Result) paper {
	s := r.Standing
	p := paper{title: "Standing", entry: "Standing", balance: true,
		right: [2]string{s.Word + ", by calculation", s.Where + ", " + s.Floor}}
	p.blocks = append(p.blocks, verdict(r))
	for _, a := range s.Assumed {
		p.blocks = append(p.blocks, para("Assumed: "+a, fieldW, drawing.Text{}))
	}
	if len(s.Findings) > 0 {
		p.blocks = append(p.blocks, rosePicture(r))
		p.blocks = append(p.blocks, findingTable(r)...)
	}
	p.blocks = append(p.blocks, ballastBlocks(r)...)
	p.blocks = append(p.blocks, helpsTable(r)...)
	p.blocks = append(p.blocks, dressedTable(r)...)
	p.blocks = append(p.blocks, flameTable(r)...)
	p.blocks = append(p.blocks, notChecked(r)...)
	return p
}

// verdict is the one thing that governs, boxed when it is over.
func verdict(r job.Result) block {
	s := r.Standing
	if !s.Over {
		return para(sentence(s.Says)+" "+estimate, fieldW, drawing.Text{Font: drawing.Bold})
	}
	more := "It is not to go up like this. What helps is below, each change reckoned; the papers of the bench hold all the same. " + estimate
	if s.Cannot != "" {
		return boxed("OVER. "+sentence(s.Cannot), "What helps: "+sentence(s.Helps)+" "+more)
	}
	return boxed("OVER. "+sentence(withoutWord(s.Says)), more)
}

// withoutWord drops the word before a finding's line, where it is said in large.
func withoutWord(says string) string {
	const word = "over: "
	if len(says) > len(word) && says[:len(word)] == word {
		return says[len(word):]
	}
	return says
}

// own is a text in the job's own system.
func ownForce(r job.Result, f job.Force) string { return r.Own(f.US, f.Metric) }
func ownSpeed(r job.Result, v job.Speed) string { return r.Own(v.US, v.Metric) }

// Both are both systems, the job's own first.
func bothSpeeds(r job.Result, v job.Speed) string {
	return r.Own(v.US+" ("+v.Metric+")", v.Metric+" ("+v.US+")")
}

func ownWeight(r job.Result, w job.Weight) string {
	own, _ := weigh(r.Job, w)
	return own
}

func bothWeights(r job.Result, w job.Weight) string {
	own, other := weigh(r.Job, w)
	return own + " (" + other + ")"
}

// A vialRow is a row of a table with a vial in one of its columns.
func vialRows(cols []column, at int, rows [][]cell, shares []float64) []block {
	g := &grid{cols: cols}
	head := tableHead(0, cols).says(rowTwin{g, nil})
	x := 0.0
	for _, c := range cols[:at] {
		x += c.w + colGap
	}
	out := []block{head}
	for i, cells := range rows {
		row := tableRow(0, cols, cells, &head)
		drawn, share := row.draw, shares[i]
		row.draw = func(s *sheet, y float64) {
			drawn(s, y)
			s.add(drawing.Vial(drawing.Pt(x, y+closePad+vialDown), cols[at].w, share)...)
		}
		out = append(out, row.says(rowTwin{g, cells}))
	}
	return out
}

// vialDown is how far below the top of a row's text a vial's middle lies, mm.
const vialDown = 2.7

// findingTable is every way of dressing under every load.
func findingTable(r job.Result) []block {
	s := r.Standing
	cols := []column{{"dressed", 24, false}, {"pushed by", 45, false}, {"of the limit", 24, false}, {"", 31, false}, {"goes", 22.5, false}, {"limit by calculation", 28, false}}
	var rows [][]cell
	var shares []float64
	for _, f := range s.Findings {
		way := f.Way
		if f.Wet {
			way += ", soaked"
		}
		rows = append(rows, []cell{strong(way), small(f.Load + ", " + ownForce(r, f.Force) + " at " + first(r.Job, f.Height)), {{}},
			useCell(f.Use), small(f.Mode + " " + f.Toward), small(f.Limit)})
		shares = append(shares, f.Use.Ratio)
	}
	if l, ok := worstLean(s.Leans); ok {
		rows = append(rows, []cell{strong(l.Way), small("its own weight, on a lean"), {{}}, useCell(l.Use), small("tipping " + l.Toward), small("goes over at " + l.Angle.Text + "; " + l.Wanted.Text + " wanted")})
		shares = append(shares, l.Use.Ratio)
	}
	right := "dashed: half the limit; heavy: all of it"
	return append([]block{heading("Each way of dressing under each load", right, "")}, vialRows(cols, 2, rows, shares)...)
}

// worstLean is of the way that goes over first by itself.
func worstLean(ls []job.LeanFacts) (worst job.LeanFacts, ok bool) {
	for _, l := range ls {
		if !ok || l.Use.Ratio > worst.Use.Ratio {
			worst, ok = l, true
		}
	}
	return worst, ok
}

func useCell(u job.Use) cell {
	return cell{append(strong(u.Word)[0], quietLine(" \u00a0"+u.Text)...)}
}

// ballastBlocks are the plan with its units, and where each one stands.
func ballastBlocks(r job.Result) []block {
	s := r.Standing
	out := []block{heading("What it stands on, and ballast", "seen from above; the guests are below", "")}
	if len(s.Plan.Hull) > 0 {
		out = append(out, planPicture(r))
	}
	if s.Ballast.Says != "" {
		out = append(out, para(sentence(s.Ballast.Says)+" "+sentence(s.Width.Says), fieldW, drawing.Text{}))
	}
	if len(s.Ballast.Stacks) == 0 {
		return out
	}
	var rows [][]cell
	for i, k := range s.Ballast.Stacks {
		rows = append(rows, []cell{strong(itoa(i + 1)), text(fmt.Sprintf("%d × %s", k.Count, k.Unit)), small(ownWeight(r, k.Each) + " each"), small(first(r.Job, k.Right)), small(first(r.Job, k.Behind))})
	}
	cols := []column{{"place", 8, true}, {"units", 26, false}, {"weight", 19, false}, {"from left", 14, false}, {"behind", 13, false}}
	out = append(out, columnsOf(2, cols, rows),
		para("Left as seen from the front; behind the front edges of the frames; each to the middle of the unit. On before the hands let go, tied or cleated to the base, off last of all. Weighed on a scale, not by the label.", fieldW, drawing.Text{Size: drawing.Small, Tone: drawing.Pencil}))
	return out
}

// helpsTable are the changes that were reckoned, with what came of each.
func helpsTable(r job.Result) []block {
	s := r.Standing
	if len(s.WaysOut) == 0 {
		return nil
	}
	cols := []column{{"", 6, true}, {"change", 62, false}, {"then", 24, false}, {"", 28, false}, {"what governs then", 54.5, false}}
	var rows [][]cell
	var shares []float64
	for _, w := range s.WaysOut {
		word := useCell(w.Use)
		if !w.Helps {
			word = append(word, quietLine("no better"))
		}
		rows = append(rows, []cell{strong(itoa(w.Number)), small(w.Says), {{}}, word, quiet(withoutUse(w))})
		shares = append(shares, w.Use.Ratio)
	}
	return append([]block{heading("What helps", "each change reckoned by itself; bowerwright stand tries several together too", "")}, vialRows(cols, 2, rows, shares)...)
}

// withoutUse drops the word that the column before says.
func withoutUse(w job.WayOutFacts) string {
	if n := len(w.Use.Word) + len(": "); len(w.After) > n && w.After[:n] == w.Use.Word+": " {
		return w.After[n:]
	}
	return w.After
}

// dressedTable are weights, areas and balance of every way of dressing.
func dressedTable(r job.Result) []block {
	s := r.Standing
	cols := []column{{"dressed", 30, false}, {"weighs with all", 26, false}, {"its middle: from left, up, behind", 54, false}, {"stops the wind", 34, false}, {"gust limit", 30.5, false}}
	var rows [][]cell
	for _, w := range s.Ways {
		weight := text(ownWeight(r, w.Whole.Weight))
		if w.Whole.Wet != w.Whole.Weight {
			weight = append(weight, quietLine("soaked "+ownWeight(r, w.Whole.Wet)))
		}
		middle := first(r.Job, w.Whole.Right) + ", " + first(r.Job, w.Whole.Up) + ", " + first(r.Job, w.Whole.Back)
		gust := cell{plainLine("none")}
		if w.Gust != nil {
			gust = cell{boldLine(ownSpeed(r, *w.Gust)), quietLine(w.GustBy)}
			if w.Stop {
				gust = cell{boldLine(ownSpeed(r, *w.Gust)), quietLine("the stop: nothing stays up beyond it")}
			}
		}
		rows = append(rows, []cell{bold(w.Name), weight, small(middle), small(w.Solidity + " of " + firstArea(r.Job, w.Gross)), gust})
		for _, l := range w.Layers {
			layer := cell{quietLine(ownWeight(r, l.Weight))}
			if l.Wet != l.Weight {
				layer = append(layer, quietLine("soaked "+ownWeight(r, l.Wet)))
			}
			rows = append(rows, []cell{quiet("  " + l.What), layer, quiet(first(r.Job, l.Right) + ", " + first(r.Job, l.Up) + ", " + first(r.Job, l.Back)), quiet(""), quiet("")})
		}
	}
	for _, alike := range baseRows(s.Weights) {
		w, last := alike[0], alike[len(alike)-1]
		what, each, right := w.What, ownWeight(r, w.Weight), first(r.Job, w.Right)
		if len(alike) > 1 {
			what, each, right = w.What+", "+itoa(len(alike)), each+" each", right+" to "+first(r.Job, last.Right)
		}
		rows = append(rows, []cell{quiet(what), quiet(each), quiet(right + ", " + first(r.Job, w.Up) + ", " + first(r.Job, w.Back)), quiet("base"), quiet("")})
	}
	return append([]block{heading("Weight, balance and wind", "behind: the front edges of the frames; weights are rounded up, limits down", "")}, table(0, cols, rows)...)
}

// baseRows are the pieces of the base, those together that differ only in how
// far they stand from the left.
func baseRows(ws []job.WeightFacts) (out [][]job.WeightFacts) {
	for _, w := range ws {
		if w.Kind != "base" {
			continue
		}
		if n := len(out); n > 0 {
			if l := out[n-1][0]; l.What == w.What && l.Weight == w.Weight && l.Up == w.Up && l.Back == w.Back {
				out[n-1] = append(out[n-1], w)
				continue
			}
		}
		out = append(out, []job.WeightFacts{w})
	}
	return out
}

// flameTable lists what shows of every material that it is hard to set alight.
func flameTable(r job.Result) []block {
	s := r.Standing
	if len(s.Flame) == 0 {
		return nil
	}
	var rows [][]cell
	for _, f := range s.Flame {
		proof := small(f.Evidence)
		if f.Evidence == "" {
			proof = strong("nothing is said: ask before it comes into the venue")
		}
		rows = append(rows, []cell{bold(f.Material), small(joined(", ", f.Ways...)), proof})
	}
	cols := []column{{"material", 40, false}, {"hangs in", 50, false}, {"what shows that it is hard to set alight", 92, false}}
	return append([]block{heading("Flame list", "papers go with the piece; whether they are good is for the fire officer", "")}, table(0, cols, rows)...)
}

// notChecked are what no sum here looks at, and when an engineer is needed.
func notChecked(r job.Result) []block {
	s := r.Standing
	out := []block{heading("What is not checked, and when a licensed engineer is needed", "", "")}
	if s.Strength == nil {
		out = append(out, para("Strength is not reckoned while the piece has no footing: whether seams, corners, boards and the joint to the base hold what is put on them.", fieldW, drawing.Text{Font: drawing.Bold}))
	}
	out = append(out, para(joined(" ", s.Hard...), fieldW, drawing.Text{}), para("A licensed engineer is needed for: "+lower(s.Engineer), fieldW, drawing.Text{}))
	test := "No pull test: one is proposed only where the sums pass at its force."
	if t := s.PullTest; t != nil {
		test = "Pull test before guests come: " + ownForce(r, t.Force) + " at " + first(r.Job, t.Height) + " with a luggage scale, ballast on, two people ready to catch, the area clear."
	}
	return append(out, para(test, fieldW, drawing.Text{}))
}

// lower runs sentences together into one list.
func lower(sentences []string) string {
	var out []string
	for _, s := range sentences {
		s = strings.TrimSuffix(s, ".")
		out = append(out, strings.ToLower(s[:1])+s[1:])
	}
	return joined("; ", out...) + "."
}
