package packet

import (
	"fmt"
	"math"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// A labelSize is how labels to cut out are set: so many across, so high in mm.
type labelSize struct {
	across int
	high   float64
}

func (z labelSize) wide() float64 { return fieldW / float64(z.across) }

// labelSizes are from the largest; few labels are made large, many small.
var labelSizes = []labelSize{{2, 74}, {3, 56}, {4, 36.8}}

// sizeFor is the largest size of which so many labels fill no more than a page.
func sizeFor(n int) labelSize {
	for _, z := range labelSizes {
		if rows := (n + z.across - 1) / z.across; float64(rows)*z.high <= bodyFoot-bodyTop {
			return z
		}
	}
	return labelSizes[len(labelSizes)-1]
}

const labelPad = 2.2

// A frameLabel is what one label says; a spare frame has no place and no seams.
type frameLabel struct {
	label, title string
	frame        *job.FrameFacts
}

// labelPaper is a label for every frame to cut out and pin to its back.
func labelPaper(r job.Result) paper {
	p := paper{title: "Labels", entry: "Labels", right: [2]string{"cut out; pin to the back, arrow up", "figures beside the outline are seams, as seen from the back"}}
	ls := frameLabelsOf(r)
	size := sizeFor(len(ls))
	for from := 0; from < len(ls); from += size.across {
		row := ls[from:min(from+size.across, len(ls))]
		b := labelRow(r, row, size)
		if from == 0 {
			b.twins = []twin{labelTable(r, ls)}
		}
		p.blocks = append(p.blocks, b)
	}
	return p
}

func frameLabelsOf(r job.Result) []frameLabel {
	var out []frameLabel
	for i, f := range r.Frames {
		out = append(out, frameLabel{f.Label, titleOf(r, f.Kind), &r.Frames[i]})
	}
	for _, k := range r.Kinds {
		for range k.Make - k.Placed {
			out = append(out, frameLabel{label: k.Letter, title: "spare " + k.Title})
		}
	}
	return out
}

func titleOf(r job.Result, kind string) string {
	if k, ok := kindOf(r, kind); ok {
		return k.Title
	}
	return kind
}

// seamsOf are the numbers of the seams of a frame, by side.
func seamsOf(r job.Result, label string) (seams []job.SeamFacts) {
	for _, m := range r.Seams {
		if m.Frames[0] == label || m.Frames[1] == label {
			seams = append(seams, m)
		}
	}
	return seams
}

func labelRow(r job.Result, row []frameLabel, size labelSize) block {
	return block{h: size.high, draw: func(s *sheet, y float64) {
		for i, l := range row {
			l.draw(s, r, size, size.wide()*float64(i), y)
		}
	}}.says()
}

// cutLine is where labels are cut apart.
var cutLine = drawing.PenHidden.At(0.6)

func (l frameLabel) draw(s *sheet, r job.Result, size labelSize, x, y float64) {
	wide, high := size.wide(), size.high
	// All lines run the same way, so that the dashes of neighbours fall together.
	for _, e := range [][4]float64{{x, y, x + wide, y}, {x, y + high, x + wide, y + high}, {x, y, x, y + high}, {x + wide, y, x + wide, y + high}} {
		s.line(cutLine, e[0], e[1], e[2], e[3])
	}
	x, w := x+labelPad, wide-2*labelPad
	s.add(drawing.UpMark(drawing.Pt(x+3, y+11), 6)...)
	s.say(fitted(drawing.Label(drawing.Pt(x+8, y+11), drawing.Title+4, l.label).Bold(), w-8, drawing.Body))
	s.say(fitted(drawing.Label(drawing.Pt(x, y+16), drawing.Small, l.title), w, drawing.Small))
	s.say(drawing.Label(drawing.Pt(x, y+high-2.2), drawing.Body, "BACK").Bold())
	if l.frame == nil {
		return
	}
	left := l.outline(s, r, box{x + 12, y + 17.6, x + w - 2, y + high - 2.4})
	if len(left) > 0 {
		s.say(fitted(drawing.Label(drawing.Pt(x, y+21), drawing.Small, "also"), 12, drawing.Small))
		for i, t := range wrap(strings.Join(left, ", "), drawing.Regular, drawing.Small, 11) {
			if leading(drawing.Small)*float64(i+1) < high-28 {
				s.say(drawing.Label(drawing.Pt(x, y+21+leading(drawing.Small)*float64(i+1)), drawing.Small, t))
			}
		}
	}
}

// outline draws the frame as it lies, with the number of a seam at each place
// where one is; it gives the numbers that found no room.
func (l frameLabel) outline(s *sheet, r job.Result, b box) (left []string) {
	f := *l.frame
	back := make([]drawing.Point, len(f.Outside))
	for i, p := range f.Outside {
		back[i] = drawing.Pt(-p[0], -p[1])
	}
	e := extent(back)
	k := min((b.x1-b.x0-7)/max(e.x1-e.x0, 1), (b.y1-b.y0-5)/max(e.y1-e.y0, 1))
	at := func(p drawing.Point) drawing.Point {
		return drawing.Pt((b.x0+b.x1)/2+(p.X-(e.x0+e.x1)/2)*k, (b.y0+b.y1)/2+(p.Y-(e.y0+e.y1)/2)*k)
	}
	for i := range back {
		back[i] = at(back[i])
	}
	if f.Open {
		s.add(drawing.Stroke(drawing.PenOutline, back...))
	} else {
		s.add(drawing.Polygon(drawing.PenOutline, drawing.Fill{}, back...))
	}
	pl := newPlacer(box{b.x0 - 3, b.y0 - 2, b.x1 + 3.5, b.y1 + 2.5})
	pl.ring(back)
	mid := at(drawing.Pt((e.x0+e.x1)/2, (e.y0+e.y1)/2))
	for _, m := range seamsOf(r, f.Label) {
		c := at(drawing.Pt(-(m.From[0]+m.To[0])/2, -(m.From[1]+m.To[1])/2))
		if !l.seam(s, pl, c, c.Sub(mid), itoa(m.Number)) {
			left = append(left, itoa(m.Number))
		}
	}
	return left
}

// seam writes a seam's number beside its place, outward first and then inward.
func (l frameLabel) seam(s *sheet, pl *placer, c, out drawing.Point, number string) bool {
	w, h := drawing.Width(number, drawing.Regular, drawing.Small), capHeight(drawing.Small)
	u := out.Unit()
	for _, d := range []float64{0.7, -0.7, 1.6, -1.6, 2.6, -2.6} {
		reach := (w*math.Abs(u.X) + h*math.Abs(u.Y)) / 2
		away := math.Abs(d) + reach
		if d < 0 {
			away = -away
		}
		if b := around(c.Add(u.Mul(away)), w, h); pl.free(b.grown(0.3)) {
			pl.take(b.grown(0.3))
			s.say(drawing.Label(drawing.Pt((b.x0+b.x1)/2, b.y1), drawing.Small, number).Centred())
			return true
		}
	}
	return false
}

// labelTable is the same for screens.
func labelTable(r job.Result, ls []frameLabel) twin {
	var rows [][]cell
	for _, l := range ls {
		var seams []string
		if l.frame != nil {
			for _, m := range seamsOf(r, l.label) {
				side := m.Sides[0]
				if m.Frames[1] == l.label {
					side = m.Sides[1]
				}
				seams = append(seams, fmt.Sprintf("seam %d at side %d", m.Number, side))
			}
		}
		rows = append(rows, []cell{bold(l.label), text(l.title), text(strings.Join(seams, ", "))})
	}
	return webTable("Labels", []column{{title: "frame"}, {title: "kind"}, {title: "seams"}}, rows)
}
