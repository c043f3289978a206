package packet

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// cornerBlocks are what strengthens the corners beside glue, a picture for each
// way and a row for each sort of piece.
func cornerBlocks(r job.Result) []block {
	var ways []string // kinds whose corners are held alike are explained once
	for _, k := range r.Making.Kinds {
		if !slices.Contains(ways, k.CornerHow) {
			ways = append(ways, k.CornerHow)
		}
	}
	var out []block
	for _, how := range ways {
		var kinds []job.MadeFacts
		for _, k := range r.Making.Kinds {
			if k.CornerHow == how {
				kinds = append(kinds, k)
			}
		}
		out = append(out, cornerWay(r, kinds[0].Corner, kinds)...)
	}
	return out
}

func cornerWay(r job.Result, way string, kinds []job.MadeFacts) []block {
	out := []block{heading("Corners: "+cornerTitles[way], joinTitles(kinds), "")}
	if way == "glue" {
		return append(out, para(kinds[0].CornerHow, fieldW, drawing.Text{}))
	}
	var steps []step
	for _, s := range strings.SplitAfter(kinds[0].CornerHow, ". ") {
		steps = append(steps, step{do: strings.TrimSpace(s)})
	}
	out = append(out, pictureAndSteps(cornerPicture(way), steps)...)
	var rows [][]cell
	for _, k := range kinds {
		for _, p := range k.Pieces {
			rows = append(rows, []cell{over(fmt.Sprintf("%d × %s", p.Count, p.What), pieceWhere(r, k, p)), text(pieceSize(r, p)), text(pieceAt(r, way, p))})
		}
	}
	return append(out, together(table(0, []column{{"pieces", 66, false}, {"size", 58, false}, {"where", 58, false}}, rows))...)
}

var cornerTitles = map[string]string{"glue": "glue alone", "brads": "brads", "corner block": "corner blocks", "plate": "plates", "spline": "splines"}

func pieceWhere(r job.Result, k job.MadeFacts, p job.CornerPieceFacts) string {
	s := fmt.Sprintf("%s: %d to a corner", k.Title, p.Each)
	if len(p.Corners) < k.Joints {
		var ns []string
		for _, c := range p.Corners {
			ns = append(ns, itoa(c))
		}
		s += ", corners " + strings.Join(ns, ", ")
	}
	if p.Rip != "" {
		s += "; rip " + p.Rip
	}
	if p.Screws > 0 {
		s += fmt.Sprintf("; %d × %s to each", p.Screws, p.Screw)
	}
	if p.Pilot != nil {
		s += fmt.Sprintf(", pilot %s, drill stop %s from the plate's face, through it", first(r.Job, *p.Pilot), first(r.Job, *p.Stop))
	}
	return s
}

func pieceSize(r job.Result, p job.CornerPieceFacts) string {
	f := func(s job.Size) string { return first(r.Job, s) }
	switch {
	case !p.Cut && p.Width.MM == 0:
		return f(p.Length) + " long"
	case !p.Cut:
		return f(p.Length) + " × " + f(p.Width)
	}
	s := f(p.Length) + " × " + f(p.Width) + " × " + f(p.Thick)
	if p.Bevel.Degrees != 0 {
		s += ", one edge ripped at " + p.Bevel.Text
	}
	return s
}

func pieceAt(r job.Result, way string, p job.CornerPieceFacts) string {
	at := first(r.Job, p.At)
	switch {
	case way == "brads" && p.FromBack:
		return at + " from the tip, driven from the inside face; " + bradPlaces(r, p)
	case way == "brads":
		return at + " from the tip, driven from the outside face; " + bradPlaces(r, p)
	case way == "corner block":
		return at + " behind the front edge; " + p.Lies
	case way == "spline" && p.Slot != nil:
		return "slot " + first(r.Job, *p.Slot) + " deep from the tip, " + first(r.Job, p.Thick) + " wide, its middle " + behind(r, p.Behind) + "; the cradle's boards rise " + p.Lean.Text + " from the table"
	}
	return "on the back, square across the middle of the mitre"
}

// behind are places behind the front edge: one, or the first and those that
// follow.
func behind(r job.Result, at []job.Size) string {
	var out []string
	for _, s := range at {
		out = append(out, first(r.Job, s))
	}
	return strings.Join(out, " and ") + " behind the front edge"
}

// bradPlaces are where the brads of a corner go in behind the front edge, those
// of the one part and those of the other.
func bradPlaces(r job.Result, p job.CornerPieceFacts) string {
	if len(p.Behind) < 2 {
		return behind(r, p.Behind)
	}
	var of [2][]job.Size
	for i, s := range p.Behind {
		of[i%2] = append(of[i%2], s)
	}
	return behind(r, of[0]) + " in one part, " + strings.TrimSuffix(behind(r, of[1]), " behind the front edge") + " in the other"
}
