package packet

import (
	"fmt"
	"math"

	"bowerwright/job"
	"bowerwright/making"
)

// sampleMaking fills in how the frames of a sample are made: in the plainest
// way, with figures that belong together, one kind to each way of gluing.
func sampleMaking(r *job.Result) {
	m := &r.Making
	m.Hands = 1
	m.Glue = job.GlueFacts{Shop: "68 °F (20 °C)", Least: "50 °F (10 °C)", OpenTime: sampleTime(10), Wait: sampleTime(5), Hold: sampleTime(60), Flat: sampleTime(720), Full: sampleTime(1440)}
	methods := []making.Method{making.Rolled, making.Halves, making.JointByJoint, making.Strapped, making.InLayers}
	corners := []string{"glue", "brads", "corner block", "plate", "spline"}
	for i, k := range r.Kinds {
		m.Kinds = append(m.Kinds, sampleMade(k, methods[i%len(methods)], corners[i%len(corners)]))
		if methods[i%len(methods)] == making.Strapped && m.Straps == nil {
			m.Straps = []job.Size{overallSize(3600)}
		}
	}
	at := 0
	for _, k := range m.Kinds {
		for f := 1; f <= k.Count; f++ {
			m.Goes = append(m.Goes, job.GoFacts{Number: len(m.Goes) + 1, Kind: k.Kind, Letter: k.Letter, Stage: 1, Stages: 1, From: f, To: f, What: fmt.Sprintf("frame %d", f),
				Joints: k.Joints, Start: sampleClock(at), Coat: sampleClock(at + 7), By: sampleClock(at + 17), Free: sampleClock(at + 77)})
			at += 19
		}
	}
	a := job.AreasFacts{Inside: sampleArea(squareOf(900)), Outside: sampleArea(squareOf(1000)), FrontBack: sampleArea(squareOf(400)), Sanded: sampleArea(squareOf(1400))}
	m.Finish = job.FinishFacts{Inside: "after gluing", Grits: []int{120, 180}, Between: 320, Coats: 3, ADay: 2, Recoat: sampleTime(120), Total: a, Seams: sampleArea(squareOf(300)),
		Painted: sampleArea(squareOf(1200)), Steps: []job.StepFacts{{Do: "Measure a sample that was sanded as all will be sanded, with the same abrasive and as many strokes, and write down what it measures."}, {Do: "Sand the insides."}, {Do: "Glue up."}, {Do: "Fill gaps.", Wait: ptr(sampleTime(20))},
			{Do: "Sand the outside, front and back, along the grain, and leave the edges of every face that lies in a seam as sharp as they are."}, {Do: "Mask the seams."}, {Do: "Finish it."}}}
	for _, s := range r.Seams {
		for i, f := range s.Frames {
			m.Finish.Bare = append(m.Finish.Bare, job.BareFacts{Frame: f, Side: s.Sides[i], Seam: s.Number, From: s.Along[i], To: sawnSize(s.Along[i].MM + s.Length.MM), Whole: s.FlushBoth})
		}
	}
	m.Lay = sampleLay(r)
}

func ptr[T any](v T) *T { return &v }

func squareOf(side float64) []job.XY { return scaled(side, 0, 0, 1, 0, 1, 1, 0, 1) }

func sampleTime(minutes float64) job.Time {
	return job.Time{Minutes: minutes, Text: fmt.Sprintf("%.0f min", minutes)}
}

func sampleClock(minutes int) job.Time {
	return job.Time{Minutes: float64(minutes), Text: fmt.Sprintf("%d:%02d", minutes/60, minutes%60)}
}

func sampleMade(k job.KindFacts, method making.Method, corner string) job.MadeFacts {
	row := 0.0
	for i := range k.Outside {
		row += length(side(k.Outside, i))
	}
	f := job.MadeFacts{Kind: k.Name, Letter: k.Letter, Title: k.Title, Count: k.Make, Method: string(method), Why: "It is the sample's way.",
		Tried:  []job.TriedFacts{{Method: "in layers", Why: "a single layer"}, {Method: "by itself", Why: "no frame does"}, {Method: string(method), OK: true}},
		Joints: k.Sides, Row: overallSize(row), PerGo: 12, Layers: 1, Clear: sawnSize(300), Corner: corner, CornerHow: "As the sample does it with " + corner + ".",
		Within: fineSize(inch / 32), Ways: 2, Turns: "turned by 180° at a time", Steps: []job.StepFacts{{Do: "Close it dry."}, {Do: "Coat it.", Wait: ptr(sampleTime(5))},
			{Do: "Close it, " + k.Title + "."}, {Do: "Press it flat.", After: true}}}
	for i := 1; i <= max(1, len(k.Outside)/2); i++ {
		a, b := at(k.Outside, i-1), at(k.Outside, i-1+len(k.Outside)/2)
		f.Checks = append(f.Checks, job.CheckFacts{From: i, To: i + len(k.Outside)/2, Size: sawnSize(length(sub(a, b)))})
	}
	switch method {
	case making.Rolled:
		f.Tape = &job.TapeFacts{Strips: 2, Width: sawnSize(51), Length: overallSize(row + 200)}
	case making.Strapped:
		f.Straps, f.Strapped = []int{1}, 1
	case making.Halves:
		f.Truing = &job.TruingFacts{Corners: [2]int{1, 1 + len(k.Outside)/2}, Off: fineSize(0.8), Lost: fineSize(1.6)}
	case making.InLayers:
		f.Layers = 2
	}
	if corner != "glue" {
		p := job.CornerPieceFacts{What: corner, Corners: []int{1, 2}, Each: 1, Count: 2 * k.Make, Length: sawnSize(76), Width: sawnSize(38), Thick: sawnSize(19), At: fineSize(13)}
		p.Cut = corner == "corner block" || corner == "spline"
		if corner == "corner block" {
			p.Mark, p.Rip, p.Bevel = k.Letter+"+", "2 pieces of board 36 in long, marked "+k.Letter+"+: 1 strip to a piece, 9 blocks to a strip", sampleAngle(30)
		}
		if corner == "plate" {
			p.Screw, p.Screws = "No. 6 x 3/4 in", 4
		}
		if corner == "spline" {
			p.Slot, p.Behind, p.Lean = ptr(sawnSize(9)), []job.Size{sawnSize(30), sawnSize(59)}, sampleAngle(30)
		}
		if corner == "brads" {
			p.Behind = []job.Size{sawnSize(30), sawnSize(59)}
		}
		if corner == "corner block" {
			p.Lies = "its narrower face, 1 1/2 in wide, on one side, its bevelled edge on the other"
		}
		f.Pieces = []job.CornerPieceFacts{p}
	}
	return f
}

// sampleLay lays frames out by number, each marked by its lowest corner and the
// one farthest from it.
func sampleLay(r *job.Result) job.LayFacts {
	middle := r.Overall.Width.MM / 2
	spot := func(f job.FrameFacts, i int) job.SpotFacts {
		p := f.Outside[i]
		across := job.SideFrom{Side: "left", Size: sawnSize(math.Abs(p[0] - middle))}
		if p[0] < middle {
			across.Side = "right"
		}
		return job.SpotFacts{Frame: f.Label, Corner: i + 1, Across: across, Up: sawnSize(p[1]), At: p}
	}
	l := job.LayFacts{Width: r.Overall.Width, Height: r.Overall.Height, Floor: [2]job.Size{overallSize(r.Overall.Width.MM + 600), overallSize(r.Overall.Height.MM + 600)},
		Straight: &job.StraightFacts{Length: overallSize(middle), From: job.SideFrom{Side: "left", Size: sawnSize(middle / 2)}, To: job.SideFrom{Side: "right", Size: sawnSize(middle / 2)}, Most: overallSize(2400)},
		Steps:    []job.StepFacts{{Do: "Chalk the lines."}, {Do: "Lay the frames."}}}
	for i, f := range r.Frames {
		c := job.ChalkFacts{Frame: f.Label, Step: i + 1, UpSide: 1}
		low, far := 0, 0
		for j, p := range f.Outside {
			c.Corners = append(c.Corners, spot(f, j))
			if p[1] < f.Outside[low][1] {
				low = j
			}
		}
		for j, p := range f.Outside {
			if length(sub(p, f.Outside[low])) > length(sub(f.Outside[far], f.Outside[low])) {
				far = j
			}
		}
		c.Marks = [2]int{low, far}
		l.Chalk = append(l.Chalk, c)
		l.Order = append(l.Order, job.LaidFacts{Frame: f.Label, How: "by its chalk marks"})
	}
	first, last := r.Frames[0], r.Frames[len(r.Frames)-1]
	for range 2 {
		l.Diagonals = append(l.Diagonals, job.DiagonalFacts{From: spot(first, 0), To: spot(last, 1), Size: overallSize(1234)})
	}
	for _, k := range r.Kinds {
		a := job.AlikeFacts{Kind: k.Name, Title: k.Title, Ways: 2, Turns: "turned by 180° at a time"}
		for _, f := range r.Frames {
			if f.Kind == k.Name {
				a.Frames = append(a.Frames, f.Label)
			}
		}
		l.Alike = append(l.Alike, a)
	}
	for _, s := range r.Seams {
		l.Gaps = append(l.Gaps, job.GapFacts{Seam: s.Number, Frames: s.Frames, Planned: fineSize(0.8)})
	}
	l.Shims = job.ShimFacts{Planned: fineSize(0.8), Over: fineSize(0.8), Each: fineSize(0.4)}
	for n := 3; n < 9; n++ {
		l.Shims.Counts = append(l.Shims.Counts, job.ShimRow{Beyond: fineSize(0.4 * float64(n)), Count: n})
	}
	return l
}
