package cut

import (
	"bufio"
	"context"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"bowerwright/unit"
)

// shopOrders reads the shop instances that lie beside the project, in 1/64 in,
// a kerf already in every number, and the least cost of each.
func shopOrders(t testing.TB) (names []string, orders []Order, least []int64) {
	f, err := os.Open(filepath.Join("..", "..", "shared", "cutting", "shop72.txt"))
	if err != nil {
		if os.Getenv("BOWERWRIGHT_NEED_SHARED") == "1" {
			t.Fatalf("the shop instances are needed: %v", err)
		}
		t.Skipf("the shop instances are left out: %v", err)
	}
	defer f.Close()
	scan := func(text, format string, to ...any) {
		if _, err := fmt.Sscanf(strings.TrimSpace(text), format, to...); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
	}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		w := strings.Split(lines.Text(), "|")
		if len(w) != 4 || strings.HasPrefix(w[0], "#") {
			continue
		}
		var o Order
		for _, s := range strings.Fields(w[1]) {
			var room, price, limit int64
			scan(s, "%d:%d:%d", &room, &price, &limit)
			// Limit -1 is none, and what costs nothing is an offcut on hand.
			o.Stocks = append(o.Stocks, Stock{Length: unit.Length(room) * inch / 64, Price: price, Limit: int(max(limit, 0)), OnHand: price == 0})
		}
		for _, s := range strings.Fields(w[2]) {
			var length, n int64
			scan(s, "%d*%d", &length, &n)
			o.Parts = append(o.Parts, square(unit.Length(length)*inch/64, int(n)))
		}
		var cost int64
		scan(w[3], "%d", &cost)
		names, orders, least = append(names, strings.TrimSpace(w[0])), append(orders, o), append(least, cost)
	}
	if len(orders) != 72 {
		t.Fatalf("%d shop instances", len(orders))
	}
	return names, orders, least
}

// A tally counts levels proved, and times.
type tally struct {
	proved, followed [3]int
	took             []time.Duration
}

// solve makes a plan, checks it, and counts.
func (y *tally) solve(t testing.TB, name string, o Order) Plan {
	t.Helper()
	start := time.Now()
	p, err := Solve(context.Background(), o, Settings{})
	y.took = append(y.took, time.Since(start))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	faults, done := Check(o, p)
	if len(faults) > 0 {
		t.Errorf("%s: faults %v", name, faults)
	}
	followed := []bool{done.Cost, done.Bought, done.Offcut}
	for i, l := range []Level{p.Cost, p.Bought, p.Offcut} {
		if l.Proved() {
			y.proved[i]++
			if followed[i] {
				y.followed[i]++
			}
		}
	}
	return p
}

func (y *tally) log(t testing.TB) {
	slices.Sort(y.took)
	n := len(y.took)
	t.Logf("%d plans: cost, boards, offcut proved %v, followed %v; median %v, nine in ten %v, longest %v", n, y.proved, y.followed,
		y.took[n/2], y.took[n*9/10], y.took[n-1])
}

// The shop instances cost what two other programs found, proved and followed,
// every one.
func TestShop72(t *testing.T) {
	names, orders, least := shopOrders(t)
	var y tally
	for i, o := range orders {
		if p := y.solve(t, names[i], o); p.Cost.Value != least[i] || p.Cost.Bound != least[i] {
			t.Errorf("%s: cost %d, bound %d, least %d", names[i], p.Cost.Value, p.Cost.Bound, least[i])
		}
	}
	y.log(t)
	if y.followed[0] != 72 || y.followed[1] != 72 || y.followed[2] < 60 {
		t.Errorf("followed %v of 72", y.followed)
	}
}

// mitred gives an order like a shop's over up to four stocks and offcuts: one
// to three settings, a real kerf, trims and a hold.
func mitred(seed int64) Order {
	r := rand.New(rand.NewSource(seed))
	o := Order{Depth: 3 * inch / 4, Kerf: inch / 8, Hold: 8 * inch, Keep: 12 * inch, Turning: r.Intn(4) > 0}
	if r.Intn(3) == 0 {
		o.Depth = 7 * inch / 2
	}
	lengths := []unit.Length{96, 72, 120, 144}
	for _, k := range r.Perm(4)[:1+r.Intn(4)] {
		o.Stocks = append(o.Stocks, Stock{Length: lengths[k] * inch, TrimFirst: inch / 2, Price: int64(5*lengths[k]) - 1 + int64(r.Intn(60))})
	}
	for range r.Intn(5) {
		o.Stocks = append(o.Stocks, Stock{Length: unit.Length(20*64+r.Intn(50*64)) * inch / 64, Limit: 1 + r.Intn(2), OnHand: true})
	}
	settings := []float64{30, 22.5, 45, 0, 36, -30}
	r.Shuffle(len(settings), func(i, j int) { settings[i], settings[j] = settings[j], settings[i] })
	settings = settings[:1+r.Intn(3)]
	kinds := []int{2, 4, 6, 8, 10, 12}[seed%6]
	for k := range kinds {
		p := polygon(unit.Length(9*64+r.Intn(31*64))*inch/64, settings[r.Intn(len(settings))], 1+r.Intn(80/kinds))
		if r.Intn(4) == 0 {
			p.Right = unit.FromDegrees(settings[r.Intn(len(settings))])
		}
		p.Name = fmt.Sprint("side ", k)
		o.Parts = append(o.Parts, p)
	}
	return o
}

// Orders of our own with mitres and a kerf are proved and followed, every one.
func TestMitred72(t *testing.T) {
	var y tally
	for seed := range int64(72) {
		o := mitred(seed)
		if o.impossible(o.stretches()) != nil {
			t.Fatalf("seed %d cannot be cut: %v", seed, o.impossible(o.stretches()))
		}
		p := y.solve(t, fmt.Sprint("seed ", seed), o)
		if !p.Cost.Proved() || !p.Bought.Proved() {
			t.Errorf("seed %d: cost %d, bound %d; %d boards, bound %d", seed, p.Cost.Value, p.Cost.Bound, p.Bought.Value, p.Bought.Bound)
		}
	}
	y.log(t)
	if y.followed[0] != 72 || y.followed[1] != 72 {
		t.Errorf("followed %v of 72", y.followed)
	}
}
