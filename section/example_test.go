package section_test

import (
	"fmt"

	"bowerwright/geom"
	"bowerwright/section"
)

// Four frames in a row; no section may weigh more than 12 kg.
func ExampleSolve() {
	frame := func(x, kg float64) section.Frame {
		return section.Frame{Mass: kg, Centre: geom.Point{X: x, Y: 600}, Foot: true}
	}
	plan, err := section.Solve(section.Problem{
		Frames: []section.Frame{frame(0, 6), frame(900, 4), frame(1800, 4), frame(2700, 6)},
		Seams:  []section.Seam{{A: 0, B: 1, Screws: 2}, {A: 1, B: 2, Screws: 3}, {A: 2, B: 3, Screws: 2}},
		Limits: section.Limits{Mass: 12},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range plan.Sections {
		fmt.Println(s.Letter, s.Frames, s.Mass, "kg")
	}
	fmt.Println(plan.Screws, "site screws; fewest sections:", plan.Fewest())
	// Output:
	// A [0 1] 10 kg
	// B [2 3] 10 kg
	// 3 site screws; fewest sections: true
}

// Two feet and a bridge, put up from the base.
func ExampleAssembly_Arrange() {
	order, err := section.Assembly{
		Frames: []section.Frame{{Foot: true}, {Foot: true, Centre: geom.Point{X: 1200}}, {Centre: geom.Point{X: 600, Y: 2000}}},
		Seams:  []section.Seam{{A: 0, B: 2, Screws: 2}, {A: 1, B: 2, Screws: 2}},
		Units:  [][]int{{0}, {1}, {2}}, Way: section.BuiltUp, Ballast: 4,
	}.Arrange()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range order.Steps {
		fmt.Println(s.Do, s.Frames)
	}
	// Output:
	// put up and hold [0]
	// ballast on [0]
	// let go [0]
	// put up and hold [2]
	// drive [2]
	// let go [0 2]
	// put up and hold [1]
	// drive [1]
	// let go [0 1 2]
}
