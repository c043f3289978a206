package stand

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"testing"
)

// wallOf is a honeycomb of so many frames, nearest to the middle first, held by
// all that stand lowest, with a push, a level load and lifts: all cases there
// are.
func wallOf(t testing.TB, frames int) StrengthInput {
	var all [][2]float64
	n := int(math.Sqrt(float64(frames))) + 3
	for i := -n; i <= n; i++ {
		for j := -n; j <= n; j++ {
			x, y := float64(i), float64(j)
			all = append(all, [2]float64{20 * x * math.Sqrt(3) / 2, 20 * (y + x/2)})
		}
	}
	far := func(p [2]float64) float64 { return math.Round(math.Hypot(p[0], p[1]) * 1e6) }
	slices.SortFunc(all, func(a, b [2]float64) int {
		return cmp.Or(cmp.Compare(far(a), far(b)), cmp.Compare(math.Round(a[1]), math.Round(b[1])), cmp.Compare(a[0], b[0]))
	})
	l := comb(t, 20, all[:frames]...)
	in := piece(l, fixedBy(l, pair...))
	in.Base = BaseJoint{Method: Bracketed, Frames: []int{}}
	for i, f := range l.Frames {
		if f.Box.Min.Y < 12*inch {
			in.Base.Frames = append(in.Base.Frames, i)
		}
	}
	in = in.pushAt(20, 60)
	in.Loads = append(in.Loads, WayLoad{-1, Load{Kind: HallLoad, Force: 200, Height: l.Height / 2}})
	in.Lean = 0.17
	s := Section{Layout: l, Middle: l.Frames[0].Centre, Back: 44, Depth: 89}
	for _, f := range in.Frames {
		s.Frames, s.Mass = append(s.Frames, f.Mass), s.Mass+f.Mass
	}
	lr := rules().Lift
	in.Lift = &LiftInput{Rules: lr, Lifts: lr.Lifts(s, 500), People: 4}
	return in
}

// BenchmarkStrength times a whole reckoning: models, factors, all cases, the soft
// one, the judging.
func BenchmarkStrength(b *testing.B) {
	for _, n := range []int{7, 20, 60, 200} {
		in := wallOf(b, n)
		b.Run(fmt.Sprintf("frames=%d", n), func(b *testing.B) {
			cases := 0
			for b.Loop() {
				p, problems, err := Strength(context.Background(), in, strengthRules())
				if err != nil || slices.ContainsFunc(problems, func(q Problem) bool { return q.Code != OneFixing }) {
					b.Fatal(err, problems)
				}
				cases = len(p.Cases)
			}
			b.ReportMetric(float64(cases), "cases")
			b.ReportMetric(float64(len(in.Layout.Seams)), "seams")
		})
	}
}
