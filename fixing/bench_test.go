package fixing

import (
	"fmt"
	"math"
	"testing"
)

// comb is a honeycomb of about n hexagons of 12 in.
func comb(n int) *made {
	m := &made{}
	m.regular("hex", 6, 12, oneByFour)
	columns := int(math.Sqrt(float64(n)) * 1.4)
	side := 12 / math.Sqrt(3)
	for i := range n {
		c, r := i%columns, i/columns
		m.at(fmt.Sprint("f", i), "hex", 1.5*side*float64(c), 6+12*(float64(r)+float64(c%2)/2))
	}
	return m
}

func BenchmarkFix(b *testing.B) {
	for _, n := range []int{20, 200, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			l, boards := comb(n).build(b)
			b.ReportAllocs()
			for b.Loop() {
				if p, problems := Fix(l, boards, Settings{BothSides: true}); len(problems) > 0 || len(p.Seams) < 2*n {
					b.Fatal(len(p.Seams), problems)
				}
			}
		})
	}
}

// The worst case: no driver reaches any head, so that every way is tried.
func BenchmarkNothingFits(b *testing.B) {
	l, boards := comb(2000).build(b)
	for b.Loop() {
		if _, problems := Fix(l, boards, Settings{Driver: Tool{Half: 300}}); len(problems) != len(l.Seams) {
			b.Fatal(len(problems))
		}
	}
}
