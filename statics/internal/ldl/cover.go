package ldl

import "slices"

// matching finds the fewest blocks that touch every joint between two halves:
// by König's theorem as many as the greatest matching has pairs.
type matching struct {
	low, high []int32   // blocks with joints across
	to        [][]int32 // joints of low blocks, as places in high
	mateLow   []int32
	mateHigh  []int32
	seen      []bool // high places reached in the current search
}

const single = -1

func newMatching() *matching { return &matching{} }

// join adds a joint. Blocks come low by low; place is scratch for where a high
// block stands, valid only when the list agrees.
func (m *matching) join(low, high int32, place []int32) {
	if n := len(m.low); n == 0 || m.low[n-1] != low {
		m.low = append(m.low, low)
		m.to = append(m.to, nil)
		m.mateLow = append(m.mateLow, single)
	}
	at := place[high]
	if int(at) >= len(m.high) || m.high[at] != high {
		at = int32(len(m.high))
		place[high] = at
		m.high = append(m.high, high)
		m.mateHigh = append(m.mateHigh, single)
	}
	last := len(m.to) - 1
	m.to[last] = append(m.to[last], at)
}

// augment finds a partner for a low block, moving others' if need be.
func (m *matching) augment(low int32) bool {
	for _, h := range m.to[low] {
		if m.seen[h] {
			continue
		}
		m.seen[h] = true
		if m.mateHigh[h] == single || m.augment(m.mateHigh[h]) {
			m.mateHigh[h], m.mateLow[low] = low, h
			return true
		}
	}
	return false
}

// cover gives the covering blocks, ascending.
func (m *matching) cover() []int32 {
	m.seen = make([]bool, len(m.high))
	for l := range m.low {
		clear(m.seen)
		m.augment(int32(l))
	}
	clear(m.seen)
	reached := make([]bool, len(m.low))
	for l := range m.low {
		if m.mateLow[l] == single {
			m.reach(int32(l), reached)
		}
	}
	var out []int32
	for l, v := range m.low {
		if !reached[l] {
			out = append(out, v)
		}
	}
	for h, v := range m.high {
		if m.seen[h] {
			out = append(out, v)
		}
	}
	slices.Sort(out)
	return out
}

// reach marks what alternating paths from a single low block lead to.
func (m *matching) reach(low int32, reached []bool) {
	if reached[low] {
		return
	}
	reached[low] = true
	for _, h := range m.to[low] {
		if !m.seen[h] {
			m.seen[h] = true
			m.reach(m.mateHigh[h], reached)
		}
	}
}
