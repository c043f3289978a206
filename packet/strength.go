package packet

import (
	"fmt"

	"bowerwright/drawing"
	"bowerwright/job"
)

// strengthPaper says whether what stands also holds together: the cases that
// were reckoned, where each bears hardest, every seam, and what is loose.
func strengthPaper(r job.Result) paper {
	f := r.Standing.Strength
	if f == nil {
		return paper{}
	}
	p := paper{title: "Strength", entry: "Strength", balance: true,
		right: [2]string{f.Word + ", by calculation", "two digits, the band beside them"}}
	if f.Over {
		p.blocks = append(p.blocks, boxed("OVER. "+sentence(withoutWord(f.Says)), "What helps stands on the stand sheet, each change reckoned. "+estimate))
	} else {
		p.blocks = append(p.blocks, para(sentence(f.Says)+" "+estimate, fieldW, drawing.Text{Font: drawing.Bold}))
	}
	p.blocks = append(p.blocks, para("Base: "+f.Held+".", fieldW, drawing.Text{}))
	for _, q := range f.Problems {
		p.blocks = append(p.blocks, boxed(sentence(q.Says), sentence(q.Help)))
	}
	p.blocks = append(p.blocks, casesPicture(r))
	p.blocks = append(p.blocks, caseTable(r)...)
	for _, l := range f.Loose {
		p.blocks = append(p.blocks, heading("Loose", sentence(l.Says), ""), loosePicture(r, l))
	}
	p.blocks = append(p.blocks, seamUses(r)...)
	p.blocks = append(p.blocks, strengthNotes(r)...)
	return p
}

// caseTable is at most twelve loads, each with what it asks of the hardest
// pressed part.
func caseTable(r job.Result) []block {
	cols := []column{{"", 6, true}, {"load", 57, false}, {"of the limit", 24, false}, {"", 31, false}, {"band", 24, false}, {"where", 32.5, false}}
	var rows [][]cell
	var shares []float64
	for i, c := range r.Standing.Strength.Cases {
		load := c.Load + ", " + c.Way
		if c.Force.N > 0 {
			load += ", " + ownForce(r, c.Force)
			if !c.Lift {
				load += " at " + first(r.Job, c.Height)
			}
		}
		band := ""
		if c.Band[0] != "" {
			band = c.Band[0] + " to " + c.Band[1]
		}
		rows = append(rows, []cell{strong(itoa(i + 1)), small(load), {{}}, useCell(c.Use), small(band), small(c.Where)})
		shares = append(shares, c.Use.Ratio)
	}
	return append([]block{heading("Each load that was reckoned", "band: with better and with poorer wood, screws and glue", "")}, vialRows(cols, 2, rows, shares)...)
}

// casesPicture is the front with the number of every case where it bears
// hardest.
func casesPicture(r job.Result) block {
	high := picHeight(r)
	cases := r.Standing.Strength.Cases
	alt := fmt.Sprintf("The set piece from the front, with a dot where each of the %s in the table below bears hardest, and its number; the one that governs is ringed.", plural(len(cases), "load"))
	return picture(high+12, alt, func(s *sheet, y float64) {
		b := box{drillLeft, y + 2, drillRight, y + 2 + high - 4}
		v := viewIn(r, b, false)
		ps := v.placed(r.Frames)
		pl := newPlacer(b.grown(6))
		for _, p := range ps {
			p.boards(s)
			p.block(pl)
		}
		for _, g := range sharedPlaces(cases) {
			v.borne(s, g, pl, contains(g.cases, r.Standing.Strength.Governs))
		}
		v.labels(s, ps, pl)
		s.say(drawing.Label(drawing.Pt(0, y+high+10), drawing.Lead, "FRONT").Bold())
		s.say(fitted(drawing.Label(drawing.Pt(20, y+high+10), drawing.Body, "A dot is where a load bears hardest, numbered as in the table; the ringed one governs."), fieldW-20, drawing.Small))
	})
}

// A sharedPlace is where one case or several bear hardest.
type sharedPlace struct {
	at    job.XY
	cases []int
}

func sharedPlaces(cases []job.StrengthCase) []sharedPlace {
	var out []sharedPlace
	at := map[job.XY]int{}
	for i, c := range cases {
		k, ok := at[c.At]
		if !ok {
			k = len(out)
			at[c.At] = k
			out = append(out, sharedPlace{at: c.At})
		}
		out[k].cases = append(out[k].cases, i)
	}
	return out
}

func contains(list []int, n int) bool {
	for _, x := range list {
		if x == n {
			return true
		}
	}
	return false
}

// borne marks one place and writes the numbers of its cases beside it.
func (v view) borne(s *sheet, g sharedPlace, pl *placer, governs bool) {
	c := v.at(g.at)
	s.add(drawing.Circle(drawing.Pen{}, drawing.Black, c, 1.1))
	if governs {
		s.add(drawing.Circle(drawing.PenSeam, drawing.Fill{}, c, 2.3))
	}
	pl.take(around(c, 4.8, 4.8))
	names := make([]string, len(g.cases))
	for i, n := range g.cases {
		names[i] = itoa(n + 1)
	}
	t := drawing.Label(drawing.Point{}, drawing.Body, joined(", ", names...)).Bold().Centred()
	for _, far := range []float64{4.4, 6, 8, 11, 15} {
		for turn := range holdTurns {
			at := polar(c, holdStart+float64(turn)*2*holdStart*2, far)
			if room := around(at, t.Width()+0.8, 3.9); pl.free(room) {
				s.add(drawing.Stroke(drawing.PenHair, c, at))
				s.white(room)
				t.At = drawing.Pt(at.X, at.Y+1.3)
				s.say(t)
				pl.take(room)
				return
			}
		}
	}
}

// looseScale is how far the farthest corner is drawn from its place, page mm.
const looseScale = 9.0

// loosePicture is how frames move that nothing keeps: each corner with a line to
// where it goes in the plane, and with a ring where it goes out of it.
func loosePicture(r job.Result, l job.LooseFacts) block {
	high := picHeight(r)
	alt := "The set piece from the front, with " + joined(", ", l.Frames...) + " drawn also as they move: lines from corners show which way in the plane, rings how far out of it."
	return picture(high+12, alt, func(s *sheet, y float64) {
		b := box{drillLeft, y + 2, drillRight, y + 2 + high - 4}
		v := viewIn(r, b, false)
		ps := v.placed(r.Frames)
		pl := newPlacer(b.grown(6))
		for _, p := range ps {
			p.boards(s)
			p.block(pl)
		}
		for _, m := range l.Moves {
			c := v.at(m.At)
			to := drawing.Pt(c.X+m.Right*looseScale, c.Y-m.Up*looseScale)
			s.add(drawing.Stroke(drawing.PenSeam, c, to))
			if far := max(m.Back, -m.Back); far > finestMove {
				s.add(drawing.Circle(drawing.PenSeam, drawing.Fill{}, c, 0.8+2*far))
			}
		}
		v.labels(s, ps, pl)
		s.say(drawing.Label(drawing.Pt(0, y+high+10), drawing.Lead, "FRONT").Bold())
		s.say(fitted(drawing.Label(drawing.Pt(20, y+high+10), drawing.Body, "Lines: how corners go in the plane. Rings: how far out of it. Large beyond measure: it moves freely."), fieldW-20, drawing.Small))
	})
}

// finestMove is the smallest share of the largest move that is drawn.
const finestMove = 0.02

// seamUses are the worst of every seam, in columns.
func seamUses(r job.Result) []block {
	f := r.Standing.Strength
	if len(f.Seams) == 0 {
		return nil
	}
	var rows [][]cell
	for _, u := range f.Seams {
		rows = append(rows, []cell{strong(itoa(u.Seam)), useCell(u.Use), quiet(ownForce(r, u.Pull) + ", " + ownForce(r, u.Slide))})
	}
	cols := []column{{"seam", 10, true}, {"of the limit", 38, false}, {"pull, slide", 36, false}}
	out := []block{heading("Every seam, in the case that presses it hardest", "pull along and slide across the screw that bears most", ""), columnsOf(2, cols, rows)}
	if len(f.Outside) > 0 {
		out = append(out, para("Short screws: those of "+namedSeams(f.Outside, len(f.Seams))+" reach less deep than the timber standard covers. Its formulas are used outside their range, and what they give is cut.", fieldW, drawing.Text{Font: drawing.Bold}))
	}
	if len(f.Pivots) > 0 {
		out = append(out, para("A single screw is a pivot: the two frames of "+namedSeams(f.Pivots, len(f.Seams))+" turn about it unless another seam keeps them.", fieldW, drawing.Text{}))
	}
	return out
}

// namedSeams names seams, or says that they are all of them.
func namedSeams(seams []int, all int) string {
	if len(seams) == all {
		return "all seams"
	}
	names := make([]string, len(seams))
	for i, n := range seams {
		names[i] = itoa(n)
	}
	if len(names) == 1 {
		return "seam " + names[0]
	}
	return "seams " + joined(", ", names...)
}

// strengthNotes are how far it moves and what no sum here looks at.
func strengthNotes(r job.Result) []block {
	f := r.Standing.Strength
	out := []block{heading("How far it moves, and what these figures are", "", "")}
	if f.MoveCase != "" {
		out = append(out, para(fmt.Sprintf("The farthest that any place moves: %s where mitres do not give, %s where they do (%s).", first(r.Job, f.Move), first(r.Job, f.MoveMost), f.MoveCase), fieldW, drawing.Text{}))
	}
	for _, n := range f.Notes {
		out = append(out, para(n, fieldW, drawing.Text{}))
	}
	return out
}
