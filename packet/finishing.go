package packet

import (
	"fmt"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// finishPaper is the order of sanding, filling and finishing, how much there is
// of it, and what stays bare.
func finishPaper(r job.Result) paper {
	f := r.Making.Finish
	p := paper{title: "Sanding and finish", entry: "Sanding and finish", right: [2]string{coatsSay(f), "insides finished: " + f.Inside}, joins: true, balance: true}
	if f.Inside == "none" {
		p.right[1] = "insides stay bare"
	}
	p.blocks = append(p.blocks, bigFacts([]bigFact{
		{firstArea(r.Job, f.Total.Sanded), "sanded in all: inside " + firstArea(r.Job, f.Total.Inside) + ", outside " + firstArea(r.Job, f.Total.Outside) + ", front and back " + firstArea(r.Job, f.Total.FrontBack)},
		{firstArea(r.Job, f.Painted), "for each coat of finish"},
		{firstArea(r.Job, f.Seams), "faces in seams: masked, bare"},
		{gritsSay(f), "grits, along the grain"},
	}), heading("In this order", "mitre faces are never sanded", ""))
	steps := madeSteps(f.Steps)
	list := stepList(steps, 1, 0, fieldW)
	list[0].twins = []twin{saidSteps(steps)}
	p.blocks = append(p.blocks, together(list)...)
	if f.Coats > 0 {
		p.blocks = append(p.blocks, para(fmt.Sprintf("At most %s a day, %s from one to the next. The labels of filler and finish come before every time here.", plural(f.ADay, "coat"), f.Recoat.Text), fieldW, drawing.Text{}))
		p.blocks = append(p.blocks, maskBlocks(r)...)
	}
	return p
}

func coatsSay(f job.FinishFacts) string {
	if f.Coats == 0 {
		return "no finish: the wood stays bare"
	}
	return plural(f.Coats, "coat") + " of finish"
}

func gritsSay(f job.FinishFacts) string {
	var out []string
	for _, g := range f.Grits {
		out = append(out, itoa(g))
	}
	s := strings.Join(out, ", ")
	if f.Between > 0 {
		s += fmt.Sprintf("; %d", f.Between)
	}
	return s
}

func firstArea(j job.JobFacts, a job.Area) string {
	if j.Show == "metric" {
		return a.Metric
	}
	return a.US
}

// maskBlocks list the stretches of sides that lie in seams.
func maskBlocks(r job.Result) []block {
	if len(r.Making.Finish.Bare) == 0 {
		return nil
	}
	var whole, parts [][]cell
	for _, b := range byFrame(r.Making.Finish.Bare) {
		if sides := wholeSides(b); sides != "" {
			whole = append(whole, []cell{strong(b[0].Frame), small(sides)})
		}
	}
	for _, b := range r.Making.Finish.Bare {
		if !b.Whole {
			parts = append(parts, []cell{strong(fmt.Sprintf("%s/%d", b.Frame, b.Side)), small(first(r.Job, b.From) + " to " + first(r.Job, b.To))})
		}
	}
	out := []block{heading("Masked before finish", "what lies in seams", ""),
		para("Which faces those are follows from a frame's place: lay out and number first, then mask. Numbers stand on the back edge or on a masked face.", fieldW, drawing.Text{})}
	out[1].keep = true
	if whole != nil {
		out = append(out, columnsOf(4, []column{{"frame", 12, false}, {"whole sides", 26, false}}, whole))
	}
	if parts != nil {
		b := columnsOf(3, []column{{"frame/side", 17, false}, {"from its first corner", 38, false}}, parts)
		b.gap = 3
		out = append(out, b)
	}
	return out
}

// byFrame parts the stretches by frame; they come sorted.
func byFrame(bare []job.BareFacts) [][]job.BareFacts {
	var out [][]job.BareFacts
	for i, b := range bare {
		if i == 0 || b.Frame != bare[i-1].Frame {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], b)
	}
	return out
}

// wholeSides are the sides of a frame that are masked from corner to corner.
func wholeSides(bare []job.BareFacts) string {
	var out []string
	for _, b := range bare {
		if b.Whole {
			out = append(out, itoa(b.Side))
		}
	}
	return strings.Join(out, ", ")
}
