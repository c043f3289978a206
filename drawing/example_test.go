package drawing_test

import (
	"fmt"

	"bowerwright/drawing"
)

// A trapezoid as it lies on the saw, with its size over it: what the page says
// is read back as text, and its dimension as points.
func Example() {
	l := drawing.List{W: 100, H: 60, Title: "Part L"}
	view := drawing.View(0.2, drawing.Pt(10, 40)) // 1:5, y up from 40 mm down the page
	l.Add(
		drawing.Group{Move: view, Items: []drawing.Item{
			drawing.Polygon(drawing.PenOutline, drawing.Solid(drawing.Slip),
				drawing.Pt(0, 0), drawing.Pt(400, 0), drawing.Pt(360, 70), drawing.Pt(40, 70)),
			drawing.Level(drawing.Pt(0, 0), drawing.Pt(400, 0), -50, "15 3/4 in"),
		}},
		drawing.Label(drawing.Pt(50, 10), drawing.Lead, "long point down").Bold().Centred(),
	)
	d := drawing.Dimensions(l)[0]
	fmt.Println(drawing.Texts(l))
	fmt.Printf("%q is drawn over %.0f mm of paper\n", d.S, d.From.Dist(d.To))
	fmt.Println("words off the page:", len(drawing.Outside(l)), "runes not in the fonts:", len(drawing.Check(l)))
	// Output:
	// [15 3/4 in long point down]
	// "15 3/4 in" is drawn over 80 mm of paper
	// words off the page: 0 runes not in the fonts: 0
}

// A fraction is found only where it can be nothing else.
func ExampleRich() {
	for _, s := range []string{"10 3/8 in", "5 ft 6 1/2 in", "made on 3/8/2027, 7 of 15"} {
		for _, p := range drawing.Rich(s) {
			if p.Den != "" {
				fmt.Printf("[%s over %s]", p.Num, p.Den)
			} else {
				fmt.Printf("%q", p.S)
			}
		}
		fmt.Println()
	}
	// Output:
	// "10"[3 over 8]" in"
	// "5 ft 6"[1 over 2]" in"
	// "made on 3/8/2027, 7 of 15"
}

func ExampleWrap() {
	for _, l := range drawing.Wrap("Set the stop. Saw one, measure the long point: 15 63/64 in.", drawing.Regular, drawing.Body, 48) {
		fmt.Println(l)
	}
	// Output:
	// Set the stop. Saw one,
	// measure the long point:
	// 15 63/64 in.
}
