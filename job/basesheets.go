package job

import (
	"cmp"
	"math"
	"slices"
)

// A cutOut is a rectangle sawn from a sheet: a plate's is the box round it. Wide
// lies along the piece, deep from front to back; mm.
type cutOut struct {
	of         string // the name of its piece of the base
	what       string
	wide, deep float64
}

// A sheetSize is a whole sheet; kerf is lost between what is sawn from it.
type sheetSize struct{ long, wide, kerf float64 }

// sawSlack keeps a plate of just the sheet's size on one sheet, mm: far below
// any saw, far above what float64 sums leave.
const sawSlack = 1e-6

// takes says whether a rectangle comes out of one sheet, turned or not.
func (s sheetSize) takes(a, b float64) bool {
	return max(a, b) <= s.long+sawSlack && min(a, b) <= s.wide+sawSlack
}

// split parts what is larger than a sheet into equal pieces: the fewest, and of
// those the fewest rows from front to back. Halves is for a plate that comes in
// two for the van: a joint then lies in its middle.
func (s sheetSize) split(wide, deep float64, halves bool) (across, rows int) {
	step := 1
	if halves {
		step = 2
	}
	for n := step; ; n++ {
		for rows = 1; rows <= n; rows++ {
			across = n / rows
			if across*rows == n && across%step == 0 && s.takes(wide/float64(across), deep/float64(rows)) {
				return across, rows
			}
		}
	}
}

// A spot is where a cutOut lies: its left lower corner on a sheet, long along
// the sheet.
type spot struct {
	cut        int // index
	sheet      int
	x, y       float64
	long, wide float64 // as it lies
}

// A shelf is a row along a sheet, as wide as the first that lies in it.
type shelf struct {
	sheet         int
	y, wide, next float64
}

// lay puts rectangles on sheets in rows, the widest first; each goes into the
// first row with room, turned where it fits only so, or begins a new one. That
// is simple to saw, a rip for a row and crosscuts in it, and not always the
// fewest sheets.
func (s sheetSize) lay(cuts []cutOut) (sheets int, spots []spot) {
	order := make([]int, len(cuts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		aw, al := s.asLaid(cuts[a])
		bw, bl := s.asLaid(cuts[b])
		return cmp.Or(cmp.Compare(bw, aw), cmp.Compare(bl, al))
	})
	var shelves []shelf
	var tops []float64 // where the next row of each sheet begins
	for _, i := range order {
		wide, long := s.asLaid(cuts[i])
		at := s.room(shelves, long, wide)
		if turned := s.room(shelves, wide, long); at < 0 && turned >= 0 {
			at, long, wide = turned, wide, long
		}
		if at < 0 {
			sheet := slices.IndexFunc(tops, func(y float64) bool { return y+wide <= s.wide+sawSlack })
			if sheet < 0 {
				sheet, tops = len(tops), append(tops, 0)
			}
			at, shelves = len(shelves), append(shelves, shelf{sheet: sheet, y: tops[sheet], wide: wide})
			tops[sheet] += wide + s.kerf
		}
		h := &shelves[at]
		spots = append(spots, spot{cut: i, sheet: h.sheet, x: h.next, y: h.y, long: long, wide: wide})
		h.next += long + s.kerf
	}
	return len(tops), spots
}

// room is the first row that takes so much, or -1.
func (s sheetSize) room(shelves []shelf, long, wide float64) int {
	return slices.IndexFunc(shelves, func(h shelf) bool { return h.next+long <= s.long+sawSlack && wide <= h.wide+sawSlack })
}

// asLaid is a rectangle with its long side along the sheet.
func (s sheetSize) asLaid(c cutOut) (wide, long float64) {
	return math.Min(c.wide, c.deep), math.Max(c.wide, c.deep)
}
