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
	var ways []string
	for _, k := range r.Making.Kinds {
		if !slices.Contains(ways, k.Corner) {
			ways = append(ways, k.Corner)
		}
	}
	var out []block
	for _, way := range ways {
		var kinds []job.MadeFacts
		for _, k := range r.Making.Kinds {
			if k.Corner == way {
				kinds = append(kinds, k)
			}
		}
		out = append(out, cornerWay(r, way, kinds)...)
	}
	return out
}

func cornerWay(r job.Result, way string, kinds []job.MadeFacts) []block {
	out := []block{heading("Corners: "+cornerTitles[way], joinTitles(kinds), "")}
	if way == "glue" {
		return append(out, para(kinds[0].CornerHow, fieldW, drawing.Text{}))
	}
	out = append(out, pictureAndSteps(cornerPicture(way), []step{{do: kinds[0].CornerHow}})...)
	var rows [][]cell
	for _, k := range kinds {
		for _, p := range k.Pieces {
			rows = append(rows, []cell{over(fmt.Sprintf("%d × %s", p.Count, p.What), pieceWhere(k, p)), text(pieceSize(r, p)), text(pieceAt(r, way, p))})
		}
	}
	return append(out, table(0, []column{{"pieces", 66, false}, {"size", 58, false}, {"where", 58, false}}, rows)...)
}

var cornerTitles = map[string]string{"glue": "glue alone", "brads": "brads", "corner block": "corner blocks", "plate": "plates", "spline": "splines"}

func pieceWhere(k job.MadeFacts, p job.CornerPieceFacts) string {
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
		return at + " from the tip, driven from the inside face"
	case way == "brads":
		return at + " from the tip, driven from the outside face"
	case way == "corner block":
		return at + " behind the front edge"
	case way == "spline" && p.Slot != nil:
		return "slot " + first(r.Job, *p.Slot) + " deep in each mitre face, its middle " + at + " from the inside end of the mitre"
	}
	return "on the back, square across the middle of the mitre"
}
