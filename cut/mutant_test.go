package cut

import (
	"math"
	"math/rand"
	"reflect"
	"slices"
	"testing"

	"bowerwright/unit"
)

// clone copies a plan through and through.
func clone(p Plan) Plan {
	p.Boards = slices.Clone(p.Boards)
	for i := range p.Boards {
		p.Boards[i].Parts = slices.Clone(p.Boards[i].Parts)
	}
	for _, l := range []*Level{&p.Cost, &p.Bought, &p.Offcut} {
		l.Proof.Rulings = slices.Clone(l.Proof.Rulings)
		for i, r := range l.Proof.Rulings {
			l.Proof.Rulings[i].V, l.Proof.Rulings[i].Z = slices.Clone(r.V), slices.Clone(r.Z)
		}
	}
	return p
}

// mutate changes one or two things in a plan.
func mutate(r *rand.Rand, p *Plan) {
	b := &p.Boards[r.Intn(len(p.Boards))]
	q := &b.Parts[r.Intn(len(b.Parts))]
	other := &p.Boards[r.Intn(len(p.Boards))]
	shift := []float64{1e-5, -1e-5, 0.5, -0.5, 3, -40}[r.Intn(6)]
	switch r.Intn(26) {
	case 0:
		q.Part = r.Intn(len(p.Bought.Proof.Rulings[0].V))
	case 1:
		q.Rolled = !q.Rolled
	case 2:
		q.Swapped = !q.Swapped
	case 3:
		q.Start += shift
	case 4:
		q.End += shift
	case 5:
		q.Start, q.End = q.Start+shift, q.End+shift
	case 6:
		q.LeftSlope = -q.LeftSlope
	case 7:
		q.RightSlope += shift
	case 8:
		q.SharesCut = !q.SharesCut
	case 9:
		q.Turn = Turn(r.Intn(4))
	case 10:
		q.Held.What = Hold(r.Intn(3))
	case 11:
		q.Held.Short += shift
	case 12:
		b.Offcut += unit.Length(r.Intn(5)-2) * mm
	case 13:
		b.Alike += r.Intn(3) - 1
	case 14:
		p.Bought.Bound += int64(r.Intn(3) - 1)
	case 15:
		p.Bought.Value += int64(r.Intn(3) - 1)
	case 16:
		z := p.Bought.Proof.Rulings[0].Z
		z[0] += r.Int63n(1+z[0]/2) - z[0]/4
	case 17:
		u := p.Bought.Proof.Rulings[0]
		u.V[r.Intn(len(u.V))] += r.Int63n(1+u.Z[0]/2) - u.Z[0]/4
	case 18:
		p.Bought.Proof.Rulings = nil
	case 19:
		p.AreaBound += r.Intn(3) - 1
	case 20:
		p.Boards = append(p.Boards, *b)
	case 21:
		b.Parts = b.Parts[1:]
	case 22: // a part goes to another board
		other.Parts = append(other.Parts, b.Parts[len(b.Parts)-1])
		b.Parts = b.Parts[:len(b.Parts)-1]
	case 23:
		*b, *other = *other, *b
	case 24:
		b.Parts[0], *q = *q, b.Parts[0]
	case 25:
		p.Bought.Bound, p.Bought.Value = p.Bought.Bound+1, p.Bought.Value+1
	}
}

// A judge knows the truth about one order by brute force.
type judge struct {
	o      Order
	all    []int // singles in bench order
	sets   []bool
	fewest int
	area   int
}

func newJudge(o Order) judge {
	all := singles(o)
	j := judge{o: o, all: all, sets: sets(o, all)}
	j.fewest = fewest(j.sets)
	j.area = int(math.Ceil(area(o, all)/(o.Board-o.TrimFirst-o.TrimFar).MM() - 1e-9))
	return j
}

// true says whether all that a plan says is so.
func (j judge) true(p Plan) bool {
	return j.counts(p) && j.boards(p) && j.bound(p)
}

func (j judge) counts(p Plan) bool {
	got := map[int]int{}
	for _, b := range p.Boards {
		for _, q := range b.Parts {
			got[q.Part]++
		}
	}
	for i, q := range j.o.Parts {
		if got[i] != q.Count {
			return false
		}
		delete(got, i)
	}
	return len(got) == 0
}

// boards lays every board anew and compares.
func (j judge) boards(p Plan) bool {
	alike := func(b Board) int {
		n := 0
		for _, c := range p.Boards {
			if slices.Equal(names(b), names(c)) {
				n++
			}
		}
		return n
	}
	place := func(part int) int { return slices.Index(j.all, part) }
	for _, b := range p.Boards {
		if len(b.Parts) == 0 || b.Alike != alike(b) {
			return false
		}
		parts := names(b)
		if !slices.IsSortedFunc(parts, func(a, b int) int { return place(a) - place(b) }) {
			return false
		}
		var lie []way
		for _, q := range b.Parts {
			lie = append(lie, way{q.Rolled, q.Swapped})
		}
		anew, ok := lay(j.o, parts, lie)
		if !ok || math.Abs(float64(anew.Offcut-b.Offcut)) > 10 {
			return false
		}
		for i, q := range b.Parts {
			if !alikePlaced(anew.Parts[i], q) {
				return false
			}
		}
	}
	return true
}

// alikePlaced compares two places to a millionth of a millimetre.
func alikePlaced(a, b Placed) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) < 1e-6 }
	if !near(a.Start, b.Start) || !near(a.End, b.End) || !near(a.LeftSlope, b.LeftSlope) ||
		!near(a.RightSlope, b.RightSlope) || !near(a.Held.Short, b.Held.Short) {
		return false
	}
	b.Start, b.End, b.LeftSlope, b.RightSlope, b.Held.Short = a.Start, a.End, a.LeftSlope, a.RightSlope, a.Held.Short
	return a == b
}

// bound looks at what the plan says of fewer boards, set by set.
func (j judge) bound(p Plan) bool {
	if p.Bought.Value != int64(len(p.Boards)) || p.Bought.Bound > int64(j.fewest) || p.AreaBound != j.area {
		return false
	}
	for _, r := range p.Bought.Proof.Rulings {
		if !j.ruling(r) {
			return false
		}
		if int64(p.Bought.Bound-1)*r.Z[0] < j.worth(r, len(j.sets)-1) || r.Counts != nil {
			return true
		}
	}
	return p.Bought.Bound == 0
}

// worth gives what a set is worth by a ruling.
func (j judge) worth(r Ruling, m int) (sum int64) {
	for i, part := range j.all {
		if m>>i&1 == 1 {
			sum += r.V[part]
		}
	}
	return sum
}

// ruling says whether no board holds more than a ruling says.
func (j judge) ruling(r Ruling) bool {
	for m, ok := range j.sets {
		if ok && j.worth(r, m) > r.Z[0] {
			return false
		}
	}
	return slices.Min(r.V) >= 0
}

// The checker finds fault with what is no longer true, and only with that, as
// far as an argument that shares nothing with it can tell.
func TestMutants(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	mutants, truths := 0, 0
	for mutants < 10_000 {
		o := random(r, 3+r.Intn(5))
		if o.impossible(o.stretches()) != nil {
			continue
		}
		p := plan(t, o)
		j := newJudge(o)
		if !j.true(p) {
			t.Fatalf("%+v\n%+v\nis not true, says brute force", o, p)
		}
		for range 100 {
			m := clone(p)
			mutate(r, &m)
			if reflect.DeepEqual(m, p) {
				continue
			}
			mutants++
			faults, rechecked := Check(o, m)
			holds := j.true(m)
			if holds {
				truths++
			}
			if holds != (len(faults) == 0 && rechecked.Bought) {
				t.Fatalf("%+v\n%+v\nmutant %+v\ntrue: %v, faults %v, rechecked %v", o, p, m, holds, faults, rechecked)
			}
		}
	}
	t.Logf("%d mutants, %d of them true", mutants, truths)
	if truths*5 > mutants {
		t.Errorf("%d of %d mutants are true: they test little", truths, mutants)
	}
}
