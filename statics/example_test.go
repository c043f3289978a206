package statics_test

import (
	"context"
	"fmt"

	"bowerwright/statics"
)

// Two sticks, 900 mm each, stand one on the other by two screws in a row; the
// lower one is held at its foot. Weight presses them together, a push of 4 N at
// the top opens one edge.
func Example() {
	wood := statics.Rectangle(19, 89, 7600, 475)
	wood.Weight = 0.0066 // N/mm

	var m statics.Model
	foot := m.Node(statics.Vec{0, 0, 0}, "lower")
	under := m.Node(statics.Vec{0, 0, 900}, "lower")
	over := m.Node(statics.Vec{0, 0, 900}, "upper")
	top := m.Node(statics.Vec{0, 0, 1800}, "upper")
	deep := statics.Vec{0, 1, 0}
	m.Member(statics.Member{A: foot, B: under, Depth: deep, Section: wood})
	m.Member(statics.Member{A: over, B: top, Depth: deep, Section: wood})
	m.Hold(foot, statics.HoldAll)

	up := statics.Vec{0, 0, 1}
	for _, x := range []float64{-5, 5} {
		m.Spring(statics.Spring{
			A: under, B: over, At: statics.Vec{x, 0, 900}, Axis: up,
			Along: 1750, Across: 700, Seam: "middle",
		})
	}
	for _, x := range []float64{-8, 8} {
		for _, y := range []float64{-43, 43} {
			m.Contact(statics.Contact{A: under, B: over, At: statics.Vec{x, y, 900}, Axis: up, Stiff: 140_000})
		}
	}

	p, err := statics.Prepare(context.Background(), &m, statics.Limits{})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := p.Solve(context.Background(), statics.Case{
		Gravity: statics.Vec{0, 0, -1},
		Nodal:   []statics.Nodal{{Node: top, Load: statics.Load{Force: statics.Vec{0, 4, 0}}}},
	})
	if err != nil || r.Outcome != statics.Settled {
		fmt.Println(r, err)
		return
	}
	for i, s := range r.Springs {
		fmt.Printf("screw %d pulls with %.0f N and slides with %.0f N\n", i+1, s.Along, s.Across.Len())
	}
	push := 0.0
	for _, c := range r.Contacts {
		push += c.Push
	}
	fmt.Printf("the faces press with %.0f N\n", push)
	fmt.Printf("the foot bears %.1f N and %.0f N mm\n", r.Reactions[foot].Force[2], r.Reactions[foot].Moment[0])
	// Output:
	// screw 1 pulls with 39 N and slides with 2 N
	// screw 2 pulls with 39 N and slides with 2 N
	// the faces press with 84 N
	// the foot bears 11.9 N and 7200 N mm
}

// The same two sticks on a single screw turn about it: there are no figures, but
// a picture.
func ExampleMechanism() {
	wood := statics.Rectangle(19, 89, 7600, 475)
	var m statics.Model
	foot := m.Node(statics.Vec{}, "lower")
	under := m.Node(statics.Vec{0, 0, 900}, "lower")
	over := m.Node(statics.Vec{0, 0, 900}, "upper")
	top := m.Node(statics.Vec{0, 0, 1800}, "upper")
	m.Member(statics.Member{A: foot, B: under, Depth: statics.Vec{0, 1, 0}, Section: wood})
	m.Member(statics.Member{A: over, B: top, Depth: statics.Vec{0, 1, 0}, Section: wood})
	m.Hold(foot, statics.HoldAll)
	m.Spring(statics.Spring{
		A: under, B: over, At: m.At(over), Axis: statics.Vec{0, 0, 1},
		Along: 1750, Across: 700, Rock: 1e5, Seam: "middle",
	})
	p, err := statics.Prepare(context.Background(), &m, statics.Limits{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("one screw alone:", p.Pivots())
	way := p.Mechanism()
	fmt.Println("moves:", way.Groups, "at", way.Seams)
	fmt.Printf("turns about z by %.0f, at its top too: %.0f\n", way.Picture[over].Turn[2], way.Picture[top].Turn[2])
	// Output:
	// one screw alone: [middle]
	// moves: [upper] at [middle]
	// turns about z by 1, at its top too: 1
}
