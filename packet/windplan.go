package packet

import (
	"bowerwright/drawing"
	"bowerwright/job"
)

// windPaper is one page for the venue: at what gust it is watched, comes down,
// and in which order. Indoors there is none.
func windPaper(r job.Result) paper {
	s := r.Standing
	if len(s.Wind) == 0 {
		return paper{}
	}
	p := paper{title: "Wind plan", entry: "Wind plan", balance: true,
		right: [2]string{"for " + orNot(r.Job.Venue, "the venue"), joined(", ", r.Job.Name, day(r.Job.Date))}}
	p.blocks = append(p.blocks, para("Gusts are 3-second gusts, measured or forecast at the place. A forecast's mean wind is weaker than its gusts. All limits are by calculation and rounded down. "+estimate, fieldW, drawing.Text{}))
	if s.Over {
		p.blocks = append(p.blocks, boxed("OVER. "+sentence(withoutWord(s.Says)), "It is not to go up like this."))
	}
	p.blocks = append(p.blocks, windTable(r)...)
	p.blocks = append(p.blocks, windSteps(r)...)
	p.blocks = append(p.blocks, signatures(r)...)
	return p
}

func orNot(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

// windTable is each way of dressing with what is done at which gust.
func windTable(r job.Result) []block {
	var rows [][]cell
	for _, w := range r.Standing.Wind {
		limit := cell{boldLine(bothSpeeds(r, w.Limit)), quietLine(w.By)}
		if w.Stop {
			limit = cell{boldLine(bothSpeeds(r, w.Limit)), quietLine("the stop: nothing stays up beyond it")}
		}
		rows = append(rows, []cell{bold(w.Way), text(bothSpeeds(r, w.Watch)), bold(bothSpeeds(r, w.Act)), limit, downCell(r, w)})
	}
	cols := []column{{"dressed", 30, false}, {"from here: watched", 34, false}, {"from here: taken down", 36, false}, {"limit", 38, false}, {"comes down, limit then", 39, false}}
	return append([]block{heading("At which gust what is done", "", "")}, table(0, cols, rows)...)
}

func downCell(r job.Result, w job.WindPlanFacts) cell {
	if len(w.Down) == 0 {
		return quiet("nothing hangs on it: the piece itself")
	}
	var c cell
	for i, d := range w.Down {
		c = append(c, small(itoa(i+1) + ". " + d.Layer + ": " + ownSpeed(r, d.Then))[0])
	}
	return c
}

// windSteps are what is done, in the order it is done.
func windSteps(r job.Result) []block {
	watch := orNot(r.Standing.Watch, "the person who watches")
	steps := []string{
		"Before it goes up: ask the forecast for gusts, for the hours from building up to taking down. Above the gust at which it is taken down it does not go up.",
		"From the first gust in the table: " + watch + " stays by it with the forecast and a wind meter, and keeps people a height of the piece away from it.",
		"From the second: dressing comes down in the order of the table; when the piece itself is to come down, guests are led away first, two people hold it, and it is laid flat. Ballast comes off last.",
		"Thunder, a squall line, or anything that moves or creaks: down at once, whatever the meter says.",
	}
	out := []block{heading("What is done", "who watches decides alone; nobody overrules them", "")}
	for i, s := range steps {
		out = append(out, para(itoa(i+1)+".  "+s, fieldW, drawing.Text{}))
	}
	return out
}

// signatures are lines to sign on.
func signatures(r job.Result) []block {
	const h = 13.0
	names := [3]string{"Watches: " + r.Standing.Watch, "Maker: " + r.Job.Maker, "Venue:"}
	out := []block{heading("Seen and agreed", "", "")}
	for _, n := range names {
		out = append(out, block{h: h, draw: func(s *sheet, y float64) {
			s.say(fitted(drawing.Label(drawing.Pt(0, y+h-2), drawing.Body, n), 84, drawing.Small))
			s.line(drawing.PenDimension, 88, y+h-1, 140, y+h-1)
			s.say(drawing.Label(drawing.Pt(143, y+h-2), drawing.Small, "day, time").Quiet())
			s.line(drawing.PenDimension, 160, y+h-1, fieldW, y+h-1)
		}}.says(webPara(n+" (signature, day and time)")))
	}
	return out
}
