package cut

import (
	"context"
	"fmt"
	"math/rand"
	"testing"

	"bowerwright/unit"
)

// shop gives an order of so many kinds and parts like a shop's: inch boards,
// mitres of a few settings.
func shop(seed int64, kinds, parts int) Order {
	r := rand.New(rand.NewSource(seed))
	o := Order{Board: 96 * unit.Inch, TrimFirst: unit.Inch / 2, Depth: 3 * unit.Inch / 4, Kerf: unit.Inch / 8,
		Hold: 8 * unit.Inch, Turning: true}
	settings := []float64{30, 30, 30, 22.5, 45, 0}
	for k := range kinds {
		length := unit.Length(4*16+r.Intn(32*16)) * unit.Inch / 16
		n := parts / kinds
		if k < parts%kinds {
			n++
		}
		p := polygon(length, settings[r.Intn(len(settings))], n)
		p.Name = fmt.Sprint("side ", k)
		o.Parts = append(o.Parts, p)
	}
	return o
}

func benchmarkShop(b *testing.B, kinds, parts int) {
	proved, n := 0, 0
	for b.Loop() {
		n++
		p, err := Solve(context.Background(), shop(int64(n%8), kinds, parts), Settings{})
		if err != nil {
			b.Fatal(err)
		}
		if p.Bought.Proved() {
			proved++
		}
	}
	b.ReportMetric(float64(proved)/float64(n), "proved/op")
}

// Targets: 20 ms, 300 ms, about a second.
func BenchmarkShop12x400(b *testing.B)   { benchmarkShop(b, 12, 400) }
func BenchmarkShop40x500(b *testing.B)   { benchmarkShop(b, 40, 500) }
func BenchmarkShop60x12000(b *testing.B) { benchmarkShop(b, 60, 12000) }
