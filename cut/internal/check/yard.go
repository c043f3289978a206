package check

import "sort"

// A Timber is boards of one length, as ordered: Limit 0 is none. Spans are
// lengths of it that cannot be used, from and to.
type Timber struct {
	Length, TrimFirst, TrimFar, Margin float64
	Price                              int64
	OnHand                             bool
	Limit                              int
	Spans                              [][2]float64
	Begun                              bool // the first end is the cut that ended a part
	Lean                               float64
}

// A Yard is all boards, with the rules of the order in Rules, whose Board and
// trims are not read, and the least offcut worth keeping.
type Yard struct {
	Rules     Stock
	Keep      float64
	stretches []stretch
}

// A stretch is a clear length of a stock.
type stretch struct {
	Stock
	stock, number int
	from          float64
	price         int64
	bought        int64 // 1 when a board of it is bought
	limit         int
}

// NewYard works out the stretches of the boards, in order. Between the spans of
// a board both ends are new, square and need no trim.
func NewYard(rules Stock, keep float64, timber []Timber) Yard {
	y := Yard{Rules: rules, Keep: keep}
	for i, t := range timber {
		// Where timber cannot be used, the margins included, as steps up and
		// down along the board.
		type step struct {
			at float64
			by int
		}
		steps := []step{{0, 0}, {t.Length, 0}}
		for _, s := range t.Spans {
			steps = append(steps, step{s[0] - t.Margin, 1}, step{s[1] + t.Margin, -1})
		}
		sort.SliceStable(steps, func(a, b int) bool {
			return steps[a].at < steps[b].at || steps[a].at == steps[b].at && steps[a].by > steps[b].by
		})
		bad, number := 0, 0
		for j, s := range steps {
			bad += s.by
			if bad > 0 || j+1 == len(steps) {
				continue
			}
			from, to := max(s.at, 0), min(steps[j+1].at, t.Length)
			if to <= from {
				continue
			}
			u := stretch{Stock: rules, stock: i, number: number, from: from, price: t.Price, limit: t.Limit}
			u.Board, u.TrimFirst, u.TrimFar = to-from, 0, 0
			if from == 0 {
				u.TrimFirst, u.Begun, u.Lean = t.TrimFirst, t.Begun, t.Lean
			}
			if to == t.Length {
				u.TrimFar = t.TrimFar
			}
			if !t.OnHand {
				u.bought = 1
			}
			y.stretches = append(y.stretches, u)
			number++
		}
	}
	return y
}

// find gives the number of a board's stretch, -1 when there is none.
func (y Yard) find(b Board) int {
	for i, t := range y.stretches {
		if t.stock == b.Stock && t.number == b.Stretch {
			return i
		}
	}
	return -1
}
