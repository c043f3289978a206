package packet

import (
	"regexp"
	"slices"
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
	for _, s := range []section{builtSizes(r), eachKind(r), openings(r), meetings(r), shiftedSeams(r), families(r), moved(r), notes(r)} {
		if len(s) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// sizesPaper is what the drawings have no room for.
func sizesPaper(r job.Result, rest []section) paper {
	p := paper{title: "Sizes and seams", right: [2]string{"asked, and as built of parts on the tape", "tape read to " + r.Job.Finest},
		entry: "Sizes and seams", joins: true, balance: true}
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
	row := func(whose, name string, asked, built job.Size) {
		rows = append(rows, []cell{strong(whose), small(name), smallPair(r, asked), smallPair(r, built)})
	}
	row("All", "overall width", r.Overall.AskedWidth, r.Overall.Width)
	row("", "overall height", r.Overall.AskedHeight, r.Overall.Height)
	for _, k := range r.Kinds {
		for i, m := range measures(k.Sizes, true) {
			who := ""
			if i == 0 {
				who = k.Letter + ", " + k.Title
			}
			row(who, strings.Join(m.names, "; "), m.asked, m.built)
		}
	}
	cols := []column{{"", 37, false}, {"", 72, false}, {"asked", 34, true}, {"as built", 34, true}}
	return append(section{heading("Sizes, asked and as built", "parts are rounded to the tape, so the whole moves a little", "")}, table(0, cols, rows)...)
}

// eachKind is what one frame of each kind covers and weighs, and how the whole
// stands.
func eachKind(r job.Result) section {
	if len(r.Kinds) == 0 {
		return nil
	}
	var rows [][]cell
	pair := func(us, metric string) cell {
		a, b := us, metric
		if r.Job.Show == "metric" {
			a, b = b, a
		}
		return cell{{span(a, drawing.Bold, drawing.Small, drawing.Ink), span(" \u00a0"+b, drawing.Regular, drawing.Small, drawing.Pencil)}}
	}
	for _, k := range r.Kinds {
		rows = append(rows, []cell{strong(k.Letter + ", " + k.Title), quiet(itoa(k.Make)), pair(k.OutsideArea.US, k.OutsideArea.Metric),
			pair(k.InsideArea.US, k.InsideArea.Metric), pair(k.Weight.US, k.Weight.Metric)})
	}
	cols := []column{{"", 44, false}, {"make", 15, true}, {"area outside", 42, true}, {"area inside", 42, true}, {"weight of one", 34, true}}
	out := append(section{heading("Areas and weights", "timber only", "")}, table(0, cols, rows)...)
	out = append(out, para(standsSays(r), fieldW, drawing.Text{}))
	for _, k := range r.Kinds {
		if k.SawnRound != "" {
			out = append(out, para(k.Letter+", "+k.Title+": "+sentence(k.SawnRound), fieldW, drawing.Text{}))
		}
	}
	return out
}

// standsSays is what the whole stands on and how its seams add up.
func standsSays(r job.Result) string {
	o := r.Overall
	s := "No side lies on the floor."
	if len(o.Standing) > 0 {
		s = "It stands on " + strings.Join(o.Standing, ", ")
		if o.StandingLength.MM > 0 {
			s += ", with " + both(r.Job, o.StandingLength) + " of boards on the floor"
		}
		s += "."
	}
	if o.SeamCount > 0 {
		s += " Along its seams boards lie double for " + both(r.Job, o.DoubledLength) + " in all"
		if o.GapsInWidth.MM > 0 {
			s += "; " + both(r.Job, o.GapsInWidth) + " of the width are gaps at seams"
		}
		s += "."
	}
	return s
}

// A measure is a size of a frame under all its names.
type measure struct {
	names        []string
	asked, built job.Size
}

// measures puts sizes that read alike together, in the order of the first of
// each: alike as built, and as asked too where that is said beside it.
func measures(sizes []job.NamedSize, asked bool) []measure {
	var out []measure
	seen := map[string]int{}
	for _, z := range sizes {
		name, key := z.Name, z.Built.US+"|"+z.Built.Metric
		if asked {
			key += "|" + z.Asked.US + "|" + z.Asked.Metric
		}
		if z.Given && asked {
			name += ", as given"
		}
		i, ok := seen[key]
		if !ok {
			i = len(out)
			seen[key] = i
			out = append(out, measure{asked: z.Asked, built: z.Built})
		}
		out[i].names = append(out[i].names, name)
	}
	return out
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
	if len(r.Moved) == 0 {
		return nil
	}
	type figures [3]string
	var order []figures
	frames := map[figures][]string{}
	for _, m := range r.Moved {
		f := figures{first(r.Job, m.By), first(r.Job, m.Right), first(r.Job, m.Up)}
		if frames[f] == nil {
			order = append(order, f)
		}
		frames[f] = append(frames[f], m.Frame)
	}
	var rows [][]cell
	for _, f := range order {
		rows = append(rows, []cell{strong(strings.Join(frames[f], ", ")), quiet(f[0]), quiet(f[1]), quiet(f[2])})
	}
	out := section{heading("What moved", "from where the asked sizes put it; a minus sign is left or down", "")}
	if len(order) == len(r.Moved) {
		return append(out, columnsOf(2, []column{{"frame", 15, false}, {"moved by", 20, true}, {"to the right", 22, true}, {"up", 22, true}}, rows))
	}
	cols := []column{{"frames", 110, false}, {"moved by", 20, true}, {"to the right", 22, true}, {"up", 22, true}}
	return append(out, table(0, cols, rows)...)
}

func openings(r job.Result) section {
	var rows [][]cell
	for _, o := range r.Openings {
		if !o.Bounded {
			rows = append(rows, []cell{smallPair(r, o.Height), quiet("–"), small("no opening between boards at this height")})
			continue
		}
		rows = append(rows, []cell{smallPair(r, o.Height), smallPair(r, o.Clear), small(o.Where)})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"over the floor", 40, true}, {"clear width", 40, true}, {"", 95, false}}
	return append(section{heading("Clear width of the opening", "between bare boards: dressing takes from it", "")}, table(0, cols, rows)...)
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

// notes are what to look at; what is said alike of several parts or frames is
// said once.
func notes(r job.Result) section {
	var rows [][]cell
	for _, n := range alike(r.Notes) {
		c := small(sentence(n.Text))
		if n.Do != "" {
			c = append(c, quietLine(sentence(n.Do)))
		}
		rows = append(rows, []cell{strong(n.Where), c})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"where", 40, false}, {"", 144, false}}
	return append(section{heading("To look at", "nothing here stops the job", "")}, table(0, cols, rows)...)
}

// partNames finds the parts that a note is about.
var partNames = regexp.MustCompile(`\bparts? ([A-Z]+[a-z]*[0-9]*(?:, [A-Z]+[a-z]*[0-9]*)*)\b`)

// alike merges notes that differ in nothing but the parts they name and where.
func alike(notes []job.Note) []job.Note {
	type key struct{ code, text, do string }
	var out []job.Note
	var parts, where [][]string
	seen := map[key]int{}
	for _, n := range notes {
		names := partNames.FindStringSubmatch(n.Text)
		if len(partNames.FindAllString(n.Text, 2)) > 1 { // it tells parts apart
			names = nil
		}
		k := key{n.Code, partNames.ReplaceAllLiteralString(n.Text, "part"), n.Do}
		i, ok := seen[k]
		if !ok || names == nil {
			i = len(out)
			seen[k] = i
			out, parts, where = append(out, n), append(parts, nil), append(where, nil)
		}
		if names != nil {
			parts[i] = append(parts[i], names[1])
		}
		where[i] = addNew(where[i], n.Where)
	}
	for i := range out {
		if len(parts[i]) > 1 {
			out[i].Text = partNames.ReplaceAllLiteralString(out[i].Text, "parts "+strings.Join(parts[i], ", "))
		}
		out[i].Where = strings.Join(where[i], ", ")
	}
	return out
}

// addNew appends a word that is not there yet.
func addNew(words []string, w string) []string {
	if slices.Contains(words, w) {
		return words
	}
	return append(words, w)
}
