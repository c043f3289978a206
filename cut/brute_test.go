package cut

import (
	"context"
	"math"
	"math/bits"
	"math/rand"
	"slices"
	"testing"

	"bowerwright/unit"
)

// The truth to test against, for up to eight parts: every set of parts in bench
// order, every way of lying, laid corner by corner in float64 millimetres, and
// every way to share the parts out over boards.

// fuzz is the millimetres that two ways of adding up may differ by.
const fuzz = 1e-7

// faces is a part in the strip: x at the left and right, bottom and top, and
// the kerfs of its ends.
type faces struct{ bl, br, tl, tr, kl, kr float64 }

func (f faces) short() float64 { return math.Min(f.br-f.bl, f.tr-f.tl) }
func (f faces) moved(x float64) faces {
	return faces{f.bl + x, f.br + x, f.tl + x, f.tr + x, f.kl, f.kr}
}

// facesOf draws a part lying some way, its bottom left corner at 0.
func facesOf(o Order, p Part, rolled, swapped bool) faces {
	d, a, b := o.Depth.MM(), float64(p.Left), float64(p.Right)
	k := func(a float64) float64 { return o.Kerf.MM() / math.Cos(a) }
	f := faces{0, p.Outside.MM(), d * math.Tan(a), p.Outside.MM() - d*math.Tan(b), k(a), k(b)}
	if rolled {
		f = faces{f.tl, f.tr, f.bl, f.br, f.kl, f.kr}
	}
	if swapped {
		f = faces{-f.tr, -f.tl, -f.br, -f.bl, f.kr, f.kl}
	}
	return f.moved(-f.bl)
}

// lay lays parts on a board as told and says whether the board is right. The
// rule of the hold is read as it stands: at every cut one of the two pieces
// measures enough.
func lay(o Order, parts []int, lie []way) (Board, bool) {
	var b Board
	var last faces
	right := true
	for i, part := range parts {
		f := facesOf(o, o.Parts[part], lie[i].rolled, lie[i].swapped)
		if f.short() < fuzz || !o.Turning && (lie[i].rolled || lie[i].swapped) {
			right = false
		}
		p := Placed{Part: part, Rolled: lie[i].rolled, Swapped: lie[i].swapped}
		if i == 0 {
			f = f.moved(o.TrimFirst.MM() - math.Min(f.bl, f.tl))
		} else {
			k := math.Max(last.kr, f.kl)
			f = f.moved(math.Max(last.br+k-f.bl, last.tr+k-f.tl))
			p.SharesCut = math.Abs((f.bl-last.br)-(f.tl-last.tr)) < fuzz
			p.Turn = map[way]Turn{{}: None, {true, false}: Roll, {false, true}: SwapEnds, {true, true}: RollAndSwap}[way{
				lie[i].rolled != lie[i-1].rolled, lie[i].swapped != lie[i-1].swapped}]
		}
		p.Start, p.End, p.LeftSlope, p.RightSlope = (f.bl+f.tl)/2, (f.br+f.tr)/2, f.tl-f.bl, f.tr-f.br
		rest := o.Board.MM() - math.Max(f.br, f.tr) - f.kr
		final := i == len(parts)-1
		switch {
		case final && math.Abs(f.br-f.tr) < fuzz && o.TrimFar == 0 && math.Abs(o.Board.MM()-f.br) < fuzz:
			p.Held.What = NoCut
		case final && f.short() > rest:
			p.Held = Held{ThePart, f.short()}
		default:
			p.Held = Held{TheBoard, rest}
		}
		if p.Held.What != NoCut && math.Max(rest, f.short()) < o.Hold.MM()-fuzz {
			right = false
		}
		b.Parts, last = append(b.Parts, p), f
	}
	far := math.Max(last.br, last.tr)
	b.Offcut = unit.Length(math.Max(0, o.Board.MM()-o.TrimFar.MM()-far-last.kr) * 1e6)
	return b, right && far <= o.Board.MM()-o.TrimFar.MM()+fuzz
}

// singles gives every part by itself, in bench order.
func singles(o Order) []int {
	var all []int
	for i, p := range o.Parts {
		for range p.Count {
			all = append(all, i)
		}
	}
	key := func(i int) [4]float64 {
		f := facesOf(o, o.Parts[i], false, false)
		l, r := 0.0, 0.0
		if o.BySetting {
			l, r = math.Round(math.Abs(float64(o.Parts[i].Left))*1e6), math.Round(math.Abs(float64(o.Parts[i].Right))*1e6)
		}
		return [4]float64{math.Max(l, r), math.Min(l, r), math.Round(f.short() * 1e5), math.Round(math.Max(f.br-f.bl, f.tr-f.tl) * 1e5)}
	}
	slices.SortStableFunc(all, func(a, b int) int {
		x, y := key(a), key(b)
		return slices.Compare(x[:], y[:])
	})
	return all
}

// sets says of every set of singles whether it goes on one board.
func sets(o Order, all []int) []bool {
	ok := make([]bool, 1<<len(all))
	ways := []way{{}, {true, false}, {false, true}, {true, true}}
	for m := range ok {
		var parts []int
		for i, p := range all {
			if m>>i&1 == 1 {
				parts = append(parts, p)
			}
		}
		if area(o, parts) > o.Board.MM()+fuzz {
			continue
		}
		lie := make([]way, len(parts))
		for c := 0; c < 1<<(2*len(parts)) && !ok[m]; c++ {
			for i := range lie {
				lie[i] = ways[c>>(2*i)&3]
			}
			if len(parts) > 0 {
				_, ok[m] = lay(o, parts, lie)
			}
		}
	}
	return ok
}

// area gives the area of parts over the depth: no board holds more than its
// length.
func area(o Order, parts []int) float64 {
	sum := 0.0
	for _, p := range parts {
		f := facesOf(o, o.Parts[p], false, false)
		sum += (f.br - f.bl + f.tr - f.tl) / 2
	}
	return sum
}

// fewest gives the fewest sets that hold all singles, 0 if none do.
func fewest(ok []bool) int {
	best := make([]int, len(ok))
	for m := 1; m < len(ok); m++ {
		for s := m; s > 0; s = (s - 1) & m {
			if ok[s] && (s == m || best[m&^s] > 0) && (best[m] == 0 || best[m&^s]+1 < best[m]) {
				best[m] = best[m&^s] + 1
			}
		}
	}
	return best[len(best)-1]
}

// random gives an order of up to n parts: mixed settings, negative and unlike
// ends, trims, hold, turning or not. Odd rounds are all square, where lengths
// often fit exactly.
func random(r *rand.Rand, n int) Order {
	o := Order{Board: unit.Length(300+r.Intn(300)) * mm, Kerf: unit.Length(r.Intn(4)) * mm,
		Depth: unit.Length(r.Intn(50)) * mm, Turning: r.Intn(2) == 0}
	if r.Intn(2) == 0 {
		o.Hold = unit.Length(r.Intn(200)) * mm
	}
	if r.Intn(3) == 0 {
		o.TrimFirst, o.TrimFar = unit.Length(r.Intn(20))*mm, unit.Length(r.Intn(20))*mm
	}
	settings := []float64{0, 30, 45, 22.5, -20, 10}
	settings = settings[:1+r.Intn(len(settings))]
	for n > 0 {
		c := 1 + r.Intn(min(n, 4))
		n -= c
		p := Part{Outside: unit.Length(60+10*r.Intn(25)) * mm, Count: c}
		p.Left = unit.FromDegrees(settings[r.Intn(len(settings))])
		p.Right = p.Left
		if r.Intn(3) == 0 {
			p.Right = unit.FromDegrees(settings[r.Intn(len(settings))])
		}
		o.Parts = append(o.Parts, p)
	}
	return o
}

// Solve finds the fewest boards, and calls impossible what no board takes, in
// random orders of up to eight parts.
func TestBruteForce(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	impossible, unproved, cover := 0, 0, 0
	rounds := 600
	if testing.Short() {
		rounds = 60
	}
	for round := range rounds {
		o := random(r, 2+r.Intn(6+round%2))
		ok := sets(o, singles(o))
		n := fewest(ok)
		p, err := Solve(context.Background(), o, Settings{})
		if (err != nil) != (n == 0) {
			t.Fatalf("%+v\nfewest %d, error %v", o, n, err)
		}
		if err != nil {
			impossible++
			continue
		}
		faults, rechecked := Check(o, p)
		if len(faults) > 0 || p.Bought.Proved() && !rechecked.Bought {
			t.Fatalf("%+v\nfaults %v, rechecked %v", o, faults, rechecked)
		}
		if p.Bought.Bound > int64(n) || len(p.Boards) != n {
			t.Fatalf("%+v\n%d boards, bound %d; fewest %d", o, len(p.Boards), p.Bought.Bound, n)
		}
		if !p.Bought.Proved() {
			unproved++
		}
		if p.Bought.Proof.Kind == Cover {
			cover++
		}
	}
	t.Logf("%d rounds: %d impossible, %d unproved, %d by cover", rounds, impossible, unproved, cover)
	if unproved > 0 || impossible > rounds/2 {
		t.Errorf("%d of %d unproved, %d impossible", unproved, rounds, impossible)
	}
}

// Taking a part off a board never makes the board wrong: the solver relies on
// it.
func TestFewerPartsFit(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 100 {
		o := random(r, 6)
		ok := sets(o, singles(o))
		for m, fits := range ok {
			for rest := m; fits && rest > 0; rest &= rest - 1 {
				less := m &^ (1 << bits.TrailingZeros(uint(rest)))
				if less != 0 && !ok[less] {
					t.Fatalf("%+v\n%b fits, %b does not", o, m, less)
				}
			}
		}
	}
}
