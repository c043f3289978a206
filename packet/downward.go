package packet

import (
	"slices"

	"bowerwright/drawing"
)

// A downward is rows of any heights in two columns side by side, read down the
// left and then down the right. It may be split between pages; a row that keeps
// is never the last of a column.
type downward []block

// downGap is the white between the columns, downWide how wide they are, mm.
const (
	downGap  = 7.0
	downWide = (fieldW - downGap) / 2
)

func (d downward) block() block {
	left := d.half()
	h := max(height(d[:left]), height(d[left:]))
	return block{h: h, split: d.split, draw: func(s *sheet, y float64) {
		stack(s, y, d[:left])
		var in sheet
		stack(&in, y, d[left:])
		s.add(drawing.Group{Move: drawing.Shift(downWide+downGap, 0), Items: in.items})
	}}
}

// half is how many rows stand in the left column so that the longer of both is
// shortest.
func (d downward) half() int {
	best, at := height(d), len(d)
	for i := range d {
		if i > 0 && d[i-1].keep {
			continue
		}
		if h := max(height(d[:i]), height(d[i:])); h < best {
			best, at = h, i
		}
	}
	return at
}

// fit is how many rows from the first fill a column of a height.
func (d downward) fit(room float64) int {
	n := len(d)
	for n > 0 && (height(d[:n]) > room || n < len(d) && d[n-1].keep) {
		n--
	}
	return n
}

// split fills both columns down to the room and leaves the rest for later.
func (d downward) split(room float64) (now, later block, ok bool) {
	n := d.fit(room)
	n += d[n:].fit(room)
	if n == 0 || n == len(d) {
		return block{}, block{}, false
	}
	return slices.Clone(d[:n]).block(), slices.Clone(d[n:]).block(), true
}
