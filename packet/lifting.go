package packet

import (
	"fmt"
	"math"

	"bowerwright/drawing"
	"bowerwright/job"
)

// liftPaper is how the piece is carried, turned over, tilted up or built up in
// place: where people hold, how many they are and what each of them carries.
func liftPaper(r job.Result) paper {
	l := r.Standing.Lift
	p := paper{title: "Lifting", entry: "Lifting", balance: true,
		right: [2]string{bothWeights(r, l.Weight) + ", undressed, without its base", "by calculation, rounded up"}}
	if !l.InPlace {
		p.blocks = append(p.blocks, holdsPicture(r))
	}
	if l.Over {
		p.blocks = append(p.blocks, boxed("OVER. "+sentence(l.Says), "Take it apart into pieces that can be lifted, build it up in place, or bring more people or a lifting aid."))
	}
	if l.InPlace {
		p.blocks = append(p.blocks, para("It is built up frame by frame where it stands, as the job asks, and never lifted in one: how the whole could be carried is left out, and its strength on the way is not reckoned.", fieldW, drawing.Text{Font: drawing.Bold}))
	} else {
		p.blocks = append(p.blocks, weakLift(r)...)
		p.blocks = append(p.blocks, holdTable(r)...)
		p.blocks = append(p.blocks, liftTable(r)...)
	}
	p.blocks = append(p.blocks, builtTable(r)...)
	p.blocks = append(p.blocks, liftRules(r)...)
	return p
}

// weakLift warns where seams, corners or boards are over on the way, however few
// could carry it.
func weakLift(r job.Result) []block {
	s := r.Standing.Strength
	if s == nil {
		return nil
	}
	var what []string
	for _, c := range s.Cases {
		if c.Lift && c.Use.Ratio > 1 {
			what = append(what, fmt.Sprintf("%s: %s of what %s is allowed", c.Load, c.Use.Text, c.Where))
		}
	}
	if what == nil {
		return nil
	}
	return []block{boxed("OVER on the way. "+sentence(joined("; ", what...)), "It is not to be lifted like this: build it up in place, carry it in smaller pieces, or make it stronger; the stand sheet says what helps.")}
}

// holdName is the letter of a person's place in the picture.
func holdName(i int) string { return string(rune('A' + i)) }

// holdsPicture is the front with the best places to carry it flat.
func holdsPicture(r job.Result) block {
	high := picHeight(r)
	holds := r.Standing.Lift.Carry.Holds
	alt := "The set piece from the front, with the places where people hold it when it is carried flat, as in the table below: " + plural(len(holds), "place")
	if len(holds) == 0 {
		alt = "The set piece from the front. No choice of places holds its weight when it is carried flat."
	}
	return picture(high+12, alt, func(s *sheet, y float64) {
		b := box{drillLeft, y + 2, drillRight, y + 2 + high - 4}
		v := viewIn(r, b, false)
		ps := v.placed(r.Frames)
		for _, p := range ps {
			p.boards(s)
		}
		pl := newPlacer(b.grown(5))
		for _, p := range ps {
			p.block(pl)
		}
		for i, h := range holds {
			v.hold(s, h, holdName(i), pl)
		}
		v.labels(s, ps, pl)
		s.say(drawing.Label(drawing.Pt(0, y+high+10), drawing.Lead, "FRONT").Bold())
		s.say(fitted(drawing.Label(drawing.Pt(20, y+high+10), drawing.Body, "Two black dots are one person's hands; the letter is that person's in the table."), fieldW-20, drawing.Small))
	})
}

// hold marks one person's two hands and writes the letter beside them.
func (v view) hold(s *sheet, h job.HoldFact, name string, pl *placer) {
	a, b := v.at(h.Hands[0]), v.at(h.Hands[1])
	s.add(drawing.Stroke(drawing.PenSeam, a, b), drawing.Circle(drawing.Pen{}, drawing.Black, a, 1.2), drawing.Circle(drawing.Pen{}, drawing.Black, b, 1.2))
	pl.take(around(a, 2.6, 2.6))
	pl.take(around(b, 2.6, 2.6))
	mid := a.Lerp(b, 0.5)
	t := drawing.Label(drawing.Point{}, drawing.Lead, name).Bold().Centred()
	for _, far := range []float64{4.2, 5.6, 7.2, 9.5, 13} {
		for turn := range holdTurns {
			at := polar(mid, 2*math.Pi*float64(turn)/holdTurns+holdStart, far)
			if room := around(at, t.Width()+0.8, 4.6); pl.free(room) {
				t.At = drawing.Pt(at.X, at.Y+1.6)
				s.say(t)
				pl.take(room)
				return
			}
		}
	}
}

// Round a hand-hold its letter is looked for in so many directions, from a
// slant on: boards run level, upright and at thirds of a turn.
const (
	holdTurns = 16
	holdStart = math.Pi / 16
)

func holdTable(r job.Result) []block {
	c := r.Standing.Lift.Carry
	if len(c.Holds) == 0 {
		return []block{heading("Carried flat", "", ""), para("No choice of places for a team that works as one holds its weight.", fieldW, drawing.Text{})}
	}
	var rows [][]cell
	for i, h := range c.Holds {
		rows = append(rows, []cell{bold(holdName(i)), text(fmt.Sprintf("%s, side %d", h.Frame, h.Side)), text(ownWeight(r, h.Carries))})
	}
	worst := ""
	for i, h := range c.Worst {
		if i > 0 {
			worst += ", "
		}
		worst += fmt.Sprintf("%s side %d", h.Frame, h.Side)
	}
	out := []block{heading("Carried flat", "the places where each carries most alike", ""), columnsOf(2, []column{{"who", 10, false}, {"holds", 48, false}, {"carries", 26, false}}, rows)}
	return append(out, para(fmt.Sprintf("Each of them may carry %s in such a team. The least even places that still hold it: %s; there one person carries %s.",
		bothWeights(r, c.Allowed), worst, ownWeight(r, c.Worse)), fieldW, drawing.Text{}))
}

// liftTable are the lifts of the whole piece.
func liftTable(r job.Result) []block {
	l := r.Standing.Lift
	cols := []column{{"lift", 46, false}, {"people", 20, false}, {"of the limit", 28, false}, {"", 30, false}, {"load", 52.5, false}}
	rows := [][]cell{{bold("carried flat"), people(l.Carry.People), {{}}, useCell(l.Carry.Use), small("the hardest pressed carries " + ownWeight(r, l.Carry.Most))}}
	out := []block{heading("The whole piece", helpers(l), "")}
	if len(l.Carry.Holds) > 0 {
		out = append(out, vialRows(cols, 2, rows, []float64{l.Carry.Use.Ratio})...)
	}
	rest := [][]cell{}
	if t := l.Turn; t != nil {
		rest = append(rest, []cell{bold("turned over about its " + t.About + " edge"), people(t.People), small("at the most " + ownForce(r, t.Force) + " of all hands together; its own lift, with a blanket under the edge")})
	} else {
		rest = append(rest, []cell{bold("turned over"), people(0), small("build it up in place, or in smaller pieces")})
	}
	rest = append(rest, []cell{bold("tilted up from lying on its back"), people(l.Tilt.People), small(fmt.Sprintf("at the most %s of all hands together, at %s above the floor; from %s it goes on by itself: two people wait on the other side", ownForce(r, l.Tilt.Force), l.Tilt.At.Text, l.Tilt.Balance.Text))})
	rest = append(rest, []cell{bold("room over the floor"), text(first(r.Job, l.Swing)), small(fmt.Sprintf("that the piece swings through; its heel needs friction of %.2f, or somebody's foot: hold it", l.Tilt.Grip))})
	return append(out, table(0, []column{{"lift", 58, false}, {"people", 26, false}, {"load", 98, false}}, rest)...)
}

func people(n int) cell {
	switch n {
	case 0:
		return strong("no team is enough")
	case 1:
		return bold("1 person")
	}
	return bold(itoa(n) + " people")
}

func helpers(l job.LiftFacts) string {
	if l.Helpers == 0 {
		return "the job names nobody who lifts"
	}
	return "the job names " + itoa(l.Helpers) + " who lift"
}

// builtTable are single frames lifted into place.
func builtTable(r job.Result) []block {
	var rows [][]cell
	for _, b := range r.Standing.Lift.Built {
		steps := ""
		if b.Steps {
			steps = "steps that stand by themselves"
		}
		rows = append(rows, []cell{small(joined(", ", b.Frames...)), text(ownWeight(r, b.Weight)), text(first(r.Job, b.To)), people(b.People), small(ownWeight(r, b.Single)), small(steps)})
	}
	cols := []column{{"frames", 62, false}, {"each weighs", 22, false}, {"middle up to", 24, false}, {"people", 22, false}, {"NIOSH, one", 22, false}, {"", 22, false}}
	return append([]block{heading("Built up in place, frame by frame", "the heaviest first", "")}, table(0, cols, rows)...)
}

func liftRules(r job.Result) []block {
	out := []block{heading("What these figures are", "", "")}
	for _, l := range r.Standing.Lift.Rules {
		out = append(out, para(l, fieldW, drawing.Text{}))
	}
	for _, n := range r.Notes {
		if n.Code == "one-fixing-overhead" || n.Code == "steps-needed" {
			out = append(out, boxed(sentence(n.Text), n.Do))
		}
	}
	if len(r.Standing.Lift.Backs) > 0 {
		out = append(out, backTable(r)...)
	} else if !r.Standing.Lift.InPlace {
		out = append(out, para("Battens screwed across the back keep the piece from racking while it is carried; they come off last.", fieldW, drawing.Text{}))
	}
	return append(out, para("Gloves on, fingers clear of seams, one person gives the word.", fieldW, drawing.Text{}))
}

// backTable are the strongbacks: battens screwed across the back on the way.
func backTable(r job.Result) []block {
	var rows [][]cell
	for i, b := range r.Standing.Lift.Backs {
		ends := fmt.Sprintf("%s, %s up to %s, %s up", first(r.Job, b.FromRight), first(r.Job, b.FromUp), first(r.Job, b.ToRight), first(r.Job, b.ToUp))
		rows = append(rows, []cell{strong(itoa(i + 1)), text(first(r.Job, b.Length)), small(ends), text(plural(b.Screws, "screw"))})
	}
	cols := []column{{"", 8, true}, {"length", 34, false}, {"from where to where, from the left end", 100, false}, {"into the frames", 34, false}}
	return append([]block{heading("Strongbacks", "screwed across the back before it is lifted, off when it stands", "")}, table(0, cols, rows)...)
}
