package packet

import (
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// sizesPaper is what the drawings have no room for: the lists left over, sizes
// asked and built, openings, and what to look at.
func sizesPaper(r job.Result, frames, seams []block) paper {
	p := paper{title: "Sizes and seams", right: [2]string{"asked, and as built of parts on the tape", "tape read to " + r.Job.Finest},
		entry: "Sizes and seams", joins: true}
	for _, bs := range [][]block{frames, seams, shiftedSeams(r), builtSizes(r), families(r), moved(r), openings(r), meetings(r), notes(r)} {
		p.blocks = append(p.blocks, bs...)
	}
	if len(p.blocks) > 0 {
		p.blocks[0].gap = 0
	}
	return p
}

// shiftedSeams are the seams that begin or end inside a side: where they start
// on each.
func shiftedSeams(r job.Result) []block {
	var rows [][]cell
	for _, m := range r.Seams {
		if m.FlushBoth {
			continue
		}
		rows = append(rows, []cell{bold(itoa(m.Number)),
			text(m.Frames[0] + " side " + itoa(m.Sides[0])), over(first(r.Job, m.Along[0]), second(r.Job, m.Along[0])),
			text(m.Frames[1] + " side " + itoa(m.Sides[1])), over(first(r.Job, m.Along[1]), second(r.Job, m.Along[1])),
			over(first(r.Job, m.Length), second(r.Job, m.Length)), over(first(r.Job, m.Height), second(r.Job, m.Height))})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"seam", 9, false}, {"on", 27, false}, {"it starts at", 25, true}, {"and on", 27, false},
		{"it starts at", 25, true}, {"touch for", 25, true}, {"middle over the floor", 34, true}}
	return append([]block{heading("Seams not flush at both ends", "measured from the side's first corner", "")}, table(0, cols, rows)...)
}

func builtSizes(r job.Result) []block {
	var rows [][]cell
	row := func(whose, name string, asked, built job.Size, given bool) {
		if given {
			name += ", as given"
		}
		rows = append(rows, []cell{bold(whose), text(name), over(first(r.Job, asked), second(r.Job, asked)), over(first(r.Job, built), second(r.Job, built))})
	}
	row("All", "overall width", r.Overall.AskedWidth, r.Overall.Width, false)
	row("", "overall height", r.Overall.AskedHeight, r.Overall.Height, false)
	for _, k := range r.Kinds {
		for i, n := range k.Sizes {
			who := ""
			if i == 0 {
				who = k.Letter + ", " + k.Title
			}
			row(who, n.Name, n.Asked, n.Built, n.Given)
		}
	}
	cols := []column{{"", 52, false}, {"", 66, false}, {"asked", 31, true}, {"as built", 30, true}}
	return append([]block{heading("Sizes, asked and as built", "parts are rounded to the tape, so the whole moves a little", "")}, table(0, cols, rows)...)
}

func families(r job.Result) []block {
	var out []block
	for _, f := range r.Families {
		var parts []string
		for i, k := range f.Kinds {
			n := ""
			if i < len(f.Times) {
				n = itoa(f.Times[i]) + " times: "
			}
			parts = append(parts, n+k)
		}
		if out == nil {
			out = append(out, heading("Families", "sides are whole multiples of one length", ""))
		}
		out = append(out, para(both(r.Job, f.Unit)+" is the length that divides them. "+strings.Join(parts, ", ")+". Why: "+f.Why+".", fieldW, drawing.Text{}))
	}
	return out
}

func moved(r job.Result) []block {
	var rows [][]cell
	for _, m := range r.Moved {
		rows = append(rows, []cell{bold(m.Frame), over(first(r.Job, m.By), second(r.Job, m.By)),
			over(first(r.Job, m.Right), second(r.Job, m.Right)), over(first(r.Job, m.Up), second(r.Job, m.Up))})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"frame", 40, false}, {"moved by", 40, true}, {"to the right", 40, true}, {"up", 40, true}}
	return append([]block{heading("What moved", "from where the asked sizes put it; a minus sign is left or down", "")}, table(0, cols, rows)...)
}

func openings(r job.Result) []block {
	var rows [][]cell
	for _, o := range r.Openings {
		between := "boards on both sides"
		if !o.Bounded {
			between = "open at one side or more"
		}
		rows = append(rows, []cell{over(first(r.Job, o.Height), second(r.Job, o.Height)), over(first(r.Job, o.Clear), second(r.Job, o.Clear)), text(between)})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"over the floor", 40, true}, {"clear width", 40, true}, {"", 95, false}}
	return append([]block{heading("Widest clear opening", "between bare boards: dressing takes from it", "")}, table(0, cols, rows)...)
}

// meetings are contacts that are no seams.
func meetings(r job.Result) []block {
	var rows [][]cell
	for _, n := range r.Near {
		rows = append(rows, []cell{bold(n.Frames[0] + " and " + n.Frames[1]), text("nearly meet"), over(first(r.Job, n.Distance), second(r.Job, n.Distance))})
	}
	for _, t := range r.Touches {
		rows = append(rows, []cell{bold(t.Frames[0] + " and " + t.Frames[1]), text("touch at a corner only: nothing can be fixed there"), nil})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"frames", 45, false}, {"", 95, false}, {"apart", 35, true}}
	return append([]block{heading("Near misses and corners that touch", "", "")}, table(0, cols, rows)...)
}

func notes(r job.Result) []block {
	var rows [][]cell
	for _, n := range r.Notes {
		c := cell{{s: sentence(n.Text)}}
		if n.Do != "" {
			c = append(c, cellLine{s: sentence(n.Do), quiet: true})
		}
		rows = append(rows, []cell{bold(n.Where), c})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"where", 40, false}, {"", 144, false}}
	return append([]block{heading("To look at", "nothing here stops the job", "")}, table(0, cols, rows)...)
}
