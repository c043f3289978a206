package layout

import (
	"fmt"
	"math"
	"testing"
)

// comb is a flat-topped honeycomb of about n hexagons of 300 mm side.
func comb(n int) ([]Kind, []Place) {
	columns := int(math.Sqrt(float64(n)) * 1.4)
	var places []Place
	flats := 300 * math.Sqrt(3)
	for i := range n {
		c, r := i%columns, i/columns
		y := flats * (float64(r) + float64(c%2)/2)
		places = append(places, at(fmt.Sprint("f", i), "hex", 450*float64(c), y))
	}
	return []Kind{regular("hex", 6, 300)}, places
}

func BenchmarkBuild(b *testing.B) {
	for _, n := range []int{20, 200, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			kinds, places := comb(n)
			b.ReportAllocs()
			for b.Loop() {
				if l, problems := Build(kinds, places, Settings{}); len(problems) > 0 || len(l.Seams) < 2*n {
					b.Fatal(len(l.Seams), problems)
				}
			}
		})
	}
}
