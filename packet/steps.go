package packet

import (
	"fmt"

	"bowerwright/drawing"
)

// A bigFact is a figure that is acted on, with what it is below it.
type bigFact struct{ figure, is string }

// bigFacts are a few figures side by side, large.
func bigFacts(facts []bigFact) block {
	w := fieldW / float64(len(facts))
	high := 0.0
	under := make([][]string, len(facts))
	pairs := make([][2]string, len(facts))
	for i, f := range facts {
		under[i] = wrap(f.is, drawing.Regular, drawing.Small, w-4)
		high = max(high, float64(len(under[i])))
		pairs[i] = [2]string{sentenceStart(f.is), f.figure}
	}
	h := 9.5 + leading(drawing.Small)*high
	return block{h: h, gap: 2, draw: func(s *sheet, y float64) {
		for i, f := range facts {
			x := w * float64(i)
			if i > 0 {
				s.line(drawing.PenHair, x, y, x, y+h)
				x += 3
			}
			s.say(fitted(drawing.Label(drawing.Pt(x, y+6.2), drawing.Figure, f.figure).Bold(), w-4, drawing.Body))
			for j, l := range under[i] {
				s.say(drawing.Label(drawing.Pt(x, y+10.8+leading(drawing.Small)*float64(j)), drawing.Small, l))
			}
		}
	}}.says(webFacts(pairs...))
}

// What is not parted between pages, and how many blocks of what is stay together
// at either end of it.
const (
	partLeast = 0.2 * (bodyFoot - bodyTop)
	endLeast  = 2
)

// together keeps a short list on one page, and of a long one its first and its
// last rows: a line or two by themselves are overlooked.
func together(bs []block) []block {
	short := height(bs) <= partLeast
	for i := range max(0, len(bs)-1) {
		bs[i].keep = bs[i].keep || short || i < endLeast-1 || i >= len(bs)-endLeast
	}
	return bs
}

// stepList are numbered steps in a column, each with how long to wait after it.
func stepList(steps []step, from int, x, w float64) []block {
	const indent = 7.0
	out := make([]block, len(steps))
	for i, st := range steps {
		words := st.do
		if st.wait != "" {
			words += " Wait " + st.wait + "."
		}
		lines := wrap(words, drawing.Regular, drawing.Body, w-indent)
		n := fmt.Sprint(from + i)
		out[i] = block{h: leading(drawing.Body)*float64(len(lines)) + 1, draw: func(s *sheet, y float64) {
			s.say(drawing.Label(drawing.Pt(x, y+3.9), drawing.Body, n).Bold())
			for j, l := range lines {
				s.say(drawing.Label(drawing.Pt(x+indent, y+3.9+leading(drawing.Body)*float64(j)), drawing.Body, l))
			}
		}}.says()
	}
	return out
}

// said are the steps in words, for screens.
func saidSteps(steps []step) twin {
	items := make([]string, len(steps))
	for i, s := range steps {
		items[i] = s.do
		if s.wait != "" {
			items[i] += " Wait " + s.wait + "."
		}
	}
	return webSteps(items...)
}

// Beside a picture, mm: the picture's width, and from it to the steps.
const (
	picWide = 74.0
	picGap  = 6.0
)

// pictureAndSteps are a picture of picWide with the steps at its right; what
// does not fit beside it stands below, over the whole width.
func pictureAndSteps(pic block, steps []step) []block {
	beside, h := 0, 0.0
	col := stepList(steps, 1, picWide+picGap, fieldW-picWide-picGap)
	for beside < len(col) && (h+col[beside].h <= pic.h || beside == 0) {
		h += col[beside].h
		beside++
	}
	right := col[:beside]
	both := block{h: max(h, pic.h), keep: true, draw: func(s *sheet, y float64) {
		pic.draw(s, y)
		stack(s, y, right)
	}}.says(webPicture(pic.alt, picWide, pic.h, func(s *sheet) { pic.draw(s, 0) }), saidSteps(steps))
	return append([]block{both}, stepList(steps[beside:], beside+1, 0, fieldW)...)
}
