package dressing

import (
	"fmt"
	"math"
	"testing"

	"bowerwright/layout"
)

// comb is a honeycomb of n hexagons in columns of four.
func comb(t testing.TB, n int) Piece {
	var places []layout.Place
	flats := 300 * math.Sqrt(3)
	for i := range n {
		c, r := i/4, i%4
		places = append(places, place(fmt.Sprint("f", i), "hex", 450*float64(c), flats*(float64(r)+float64(c%2)/2)))
	}
	return piece(t, []layout.Kind{ring("hex", 6, 300, 19)}, places...)
}

func BenchmarkFourWays(b *testing.B) {
	for _, n := range []int{20, 200} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := comb(b, n)
			ivy := Layer{Name: "ivy", Mass: 5, Closes: 0.6, Front: 60, On: Region{From: 600}}
			drape := Layer{Name: "drape", PerArea: 0.3, Closes: 1, On: Region{Frames: []int{0, 1, 5}}}
			ways := []Way{{"bare", nil}, {"part", []Layer{ivy}}, {"dressed", []Layer{ivy, drape}}, {"draped", []Layer{drape}}}
			b.ReportAllocs()
			for b.Loop() {
				p.Build(ways)
			}
		})
	}
}
