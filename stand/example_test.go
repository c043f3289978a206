package stand_test

import (
	"fmt"

	"bowerwright/assume"
	"bowerwright/base"
	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/stand"
)

// A frame of 2 m on a plate, with a drape: how it stands, what gust it takes by
// calculation, and what ballast is missing.
func Example() {
	box := base.Rectangle(0, 0, 1500, 2000)
	l, _ := layout.Build([]layout.Kind{{Name: "big", Outside: box, Inside: base.Rectangle(60, 60, 1380, 1880)}},
		[]layout.Place{{ID: "A", Kind: "big", At: &geom.Point{}}}, layout.Settings{})
	piece := dressing.Piece{Layout: l, Frames: []dressing.Frame{{Mass: 9, Depth: 90}}}
	states, _ := piece.Build([]dressing.Way{
		{Name: "bare"},
		{Name: "draped", Layers: []dressing.Layer{{Name: "drape", PerArea: 0.25, Closes: 1, Front: 20}}}})

	plate := base.PlateOf(base.Rectangle(0, -400, 1500, 890), base.Board{Thickness: 18, Density: 550})
	stance, _ := base.Base{Pieces: []base.Piece{plate}}.Stand(base.Lines(l, []base.Frame{{Depth: 90}}))

	book := assume.BuiltInBook().Reader()
	s := stand.Setup{Rules: stand.RulesFrom(book), Floor: base.Floors(book)[0], Stance: stance, Bare: states[0], States: states,
		Loads: stand.Loads{Gusts: []stand.Speed{stand.FromMPH(12)}}}
	for _, f := range s.Check() {
		fmt.Printf("%s, %v: %s by %v, ratio %.2g\n", f.Way, f.Load, f.Worst.Word, f.Worst.Mode, f.Worst.Ratio)
	}
	for _, g := range s.GustLimits() {
		fmt.Printf("%s: gust limit by calculation %.0f mph\n", g.Way, g.Gust.DownTo(stand.FromMPH(1)).MPH())
	}
	bags := base.Unit{Name: "bag", Mass: 10, Length: 400, Width: 250, Height: 120, Owned: 12}
	spots := stance.Spots(bags, base.RoomFrom(book))
	plan := s.Missing().Fewest([]stand.Store{{Unit: bags, Spots: spots}}, stance.Lift, 100000)
	fmt.Printf("%d bags, enough: %v\n", plan.Units, plan.Enough)
	// Output:
	// bare, gust of 12 mph: well inside by sliding, ratio 0.39
	// draped, gust of 12 mph: over by sliding, ratio 2.3
	// bare: gust limit by calculation 19 mph
	// draped: gust limit by calculation 7 mph
	// 3 bags, enough: true
}
