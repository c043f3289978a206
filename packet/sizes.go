package packet

import (
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// A section is a heading and what belongs to it, kept on one page where it
// fits.
type section []block

// sizeSections are what belongs to the drawings, in the order of use.
func sizeSections(r job.Result) []section {
	var out []section
	for _, s := range []section{builtSizes(r), openings(r), meetings(r), shiftedSeams(r), families(r), moved(r), notes(r)} {
		if len(s) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// sizesPaper is what the drawings have no room for.
func sizesPaper(r job.Result, rest []section) paper {
	p := paper{title: "Sizes and seams", right: [2]string{"asked, and as built of parts on the tape", "tape read to " + r.Job.Finest},
		entry: "Sizes and seams", joins: true}
	for _, s := range rest {
		p.blocks = append(p.blocks, s...)
	}
	if len(p.blocks) > 0 {
		p.blocks[0].gap = 0
	}
	return p
}

// shiftedSeams are the seams that begin or end inside a side: where they start
// on each.
func shiftedSeams(r job.Result) section {
	var rows [][]cell
	for _, m := range r.Seams {
		if m.FlushBoth {
			continue
		}
		rows = append(rows, []cell{strong(itoa(m.Number)), quiet(m.Frames[0] + " side " + itoa(m.Sides[0])), smallPair(r, m.Along[0]),
			quiet(m.Frames[1] + " side " + itoa(m.Sides[1])), smallPair(r, m.Along[1]), strong(first(r.Job, m.Length)), quiet(first(r.Job, m.Height))})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"seam", 9, false}, {"on", 22, false}, {"it starts at", 33, true}, {"and on", 22, false},
		{"it starts at", 33, true}, {"touch for", 20, true}, {"middle over floor", 33, true}}
	return append(section{heading("Seams not flush at both ends", "measured from the side's first corner", "")}, table(0, cols, rows)...)
}

// smallPair is a size in both systems on one line of small type.
func smallPair(r job.Result, z job.Size) cell {
	return cell{{span(first(r.Job, z), drawing.Bold, drawing.Small, drawing.Ink),
		span(" \u00a0"+strings.ReplaceAll(second(r.Job, z), " ", "\u00a0"), drawing.Regular, drawing.Small, drawing.Pencil)}}
}

func builtSizes(r job.Result) section {
	var rows [][]cell
	row := func(whose, name string, asked, built job.Size, given bool) {
		if given {
			name += ", as given"
		}
		rows = append(rows, []cell{strong(whose), small(name), smallPair(r, asked), smallPair(r, built)})
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
	cols := []column{{"", 48, false}, {"", 53, false}, {"asked", 39, true}, {"as built", 39, true}}
	return append(section{heading("Sizes, asked and as built", "parts are rounded to the tape, so the whole moves a little", "")}, table(0, cols, rows)...)
}

func families(r job.Result) section {
	var out section
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

func moved(r job.Result) section {
	var rows [][]cell
	for _, m := range r.Moved {
		rows = append(rows, []cell{strong(m.Frame), quiet(first(r.Job, m.By)), quiet(first(r.Job, m.Right)), quiet(first(r.Job, m.Up))})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"frame", 15, false}, {"moved by", 20, true}, {"to the right", 22, true}, {"up", 22, true}}
	return append(section{heading("What moved", "from where the asked sizes put it; a minus sign is left or down", "")}, columnsOf(2, cols, rows))
}

func openings(r job.Result) section {
	var rows [][]cell
	for _, o := range r.Openings {
		between := "boards on both sides"
		if !o.Bounded {
			between = "open at one side or more"
		}
		rows = append(rows, []cell{smallPair(r, o.Height), smallPair(r, o.Clear), small(between)})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"over the floor", 40, true}, {"clear width", 40, true}, {"", 95, false}}
	return append(section{heading("Widest clear opening", "between bare boards: dressing takes from it", "")}, table(0, cols, rows)...)
}

// meetings are contacts that are no seams.
func meetings(r job.Result) section {
	var rows [][]cell
	for _, n := range r.Near {
		rows = append(rows, []cell{bold(n.Frames[0] + " and " + n.Frames[1]), text("nearly meet"), pair(first(r.Job, n.Distance), second(r.Job, n.Distance))})
	}
	for _, t := range r.Touches {
		rows = append(rows, []cell{bold(t.Frames[0] + " and " + t.Frames[1]), text("touch at a corner only: nothing can be fixed there"), nil})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"frames", 45, false}, {"", 95, false}, {"apart", 35, true}}
	return append(section{heading("Near misses and corners that touch", "", "")}, table(0, cols, rows)...)
}

func notes(r job.Result) section {
	var rows [][]cell
	for _, n := range r.Notes {
		c := text(sentence(n.Text))
		if n.Do != "" {
			c = append(c, quietLine(sentence(n.Do)))
		}
		rows = append(rows, []cell{bold(n.Where), c})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"where", 40, false}, {"", 144, false}}
	return append(section{heading("To look at", "nothing here stops the job", "")}, table(0, cols, rows)...)
}
