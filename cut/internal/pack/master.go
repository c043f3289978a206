package pack

import "math"

// Tolerances of the linear program, all in boards or parts. They steer the
// search only: no bound and no plan depends on them.
const (
	enough  = 1e-9 // a column must save so much of a board to enter
	pivotal = 1e-9 // a smaller number is no pivot
	drift   = 1e-6 // by which the basis may miss the counts before it is worked out anew
	stir    = 1e-6 // by which counts are moved apart, so that ties in the ratio test are few
)

// A master is the linear program "fewest boards that hold every count", with
// the columns known so far, by the revised simplex method with the basis
// inverse in full (Dantzig, Linear Programming and Extensions, 1963). With caps
// its last rows say how many boards there are of each length, at most; a column
// then has its length's row as one more kind.
type master struct {
	rows   int
	caps   int // of the rows, the last so many
	need   []float64
	cols   []Pattern
	costs  []float64   // of the columns; nil: a board each
	basis  []int       // per row: a column, or -1-r for what row r has too many, or to spare
	inv    [][]float64 // of the basis
	x      []float64   // boards of each basis column
	price  []float64   // of each kind, in boards
	pivots int         // since the inverse was last worked out anew
	work   int64
}

// newMaster starts with a column a kind: one kind on a board, as many as the
// instance needs or a board holds.
func newMaster(in *Instance) *master {
	m := &master{rows: len(in.Kinds)}
	m.need, m.x, m.price = make([]float64, m.rows), make([]float64, m.rows), make([]float64, m.rows)
	m.inv, m.basis = make([][]float64, m.rows), make([]int, m.rows)
	for k := range in.Kinds {
		n := in.alone(k)
		m.cols = append(m.cols, Pattern{{k, n}})
		m.basis[k] = k
		m.inv[k] = make([]float64, m.rows)
		m.inv[k][k] = 1 / float64(n)
		// The golden ratio's multiples spread evenly between 0 and 1.
		_, frac := math.Modf(float64(k+1) * math.Phi)
		m.need[k] = float64(in.Kinds[k].Need) + stir*frac
		m.x[k] = m.need[k] / float64(n)
		m.price[k] = 1 / float64(n)
	}
	return m
}

// alone gives how many parts of kind k a board holds, at most those needed.
func (in *Instance) alone(k int) int {
	at, next := in.empty(), make([]int64, len(in.Gap))
	n := 0
	for ; n < in.Kinds[k].Need; n++ {
		in.add(at, next, k)
		at, next = next, at
		if in.used(at) > in.Room {
			break
		}
	}
	return max(n, 1)
}

// cost gives what a basis column costs: nothing for a surplus.
func (m *master) cost(col int) float64 {
	switch {
	case col < 0:
		return 0
	case m.costs == nil:
		return 1
	}
	return m.costs[col]
}

// sign gives the number that a surplus, or what is to spare, has in its row.
func (m *master) sign(row int) float64 {
	if row >= m.rows-m.caps {
		return 1
	}
	return -1
}

// saves gives by how much of a board a pattern is cheaper than its price.
func (m *master) saves(p Pattern) float64 { return m.gain(p, 1) }

// gain gives by how much a pattern of some cost is cheaper than its price.
func (m *master) gain(p Pattern, cost float64) float64 {
	s := -cost
	for _, it := range p {
		s += m.price[it.Kind] * float64(it.N)
	}
	return s
}

// boards gives the least number of boards, as a fraction.
func (m *master) boards() float64 {
	b := 0.0
	for k, n := range m.need {
		b += m.price[k] * n
	}
	return b
}

// solve brings the program to its optimum over the columns it has, or as near
// as the pivots given allow.
func (m *master) solve(pivots int) {
	for range pivots {
		col, ok := m.entering()
		if !ok || !m.pivot(col) {
			return
		}
	}
}

// entering gives the column that saves most.
func (m *master) entering() (col int, ok bool) {
	best := enough
	for k, y := range m.price {
		if s := m.sign(k) * y; s > best {
			best, col, ok = s, -1-k, true
		}
	}
	for c, p := range m.cols {
		if s := m.gain(p, m.cost(c)); s > best {
			best, col, ok = s, c, true
		}
	}
	m.work += int64(len(m.cols))
	return col, ok
}

// column multiplies a column by the basis inverse.
func (m *master) column(col int) []float64 {
	u := make([]float64, m.rows)
	var items Pattern
	if col >= 0 {
		items = m.cols[col]
	} else {
		items = Pattern{{-1 - col, int(m.sign(-1 - col))}}
	}
	for r, row := range m.inv {
		for _, it := range items {
			u[r] += row[it.Kind] * float64(it.N)
		}
	}
	return u
}

// pivot takes a column into the basis; false says that none can leave for it.
func (m *master) pivot(col int) bool {
	u := m.column(col)
	r := m.leaving(u)
	if r < 0 {
		return false
	}
	if col >= 0 {
		m.replace(r, u, -m.gain(m.cols[col], m.cost(col)))
	} else {
		m.replace(r, u, -m.sign(-1-col)*m.price[-1-col])
	}
	m.basis[r] = col
	m.pivots++
	m.work += int64(m.rows)
	if m.pivots >= 100 && (m.pivots >= 400 || m.missed() > drift) {
		m.refactor()
	}
	return true
}

// leaving gives the row of the ratio test: among nearly equal ratios the one
// with the largest pivot, which keeps the inverse sound.
func (m *master) leaving(u []float64) int {
	least := math.Inf(1)
	for r, v := range u {
		if v > pivotal {
			least = min(least, (math.Max(m.x[r], 0)+enough)/v)
		}
	}
	row := -1
	for r, v := range u {
		if v > pivotal && m.x[r]/v <= least && (row < 0 || v > u[row]) {
			row = r
		}
	}
	return row
}

// replace changes inverse, counts and prices for a column with coordinates u
// that takes the place of row r and whose cost beyond its price is gain.
func (m *master) replace(r int, u []float64, gain float64) {
	row := m.inv[r]
	f := 1 / u[r]
	for j := range row {
		row[j] *= f
	}
	m.x[r] *= f
	for i, v := range u {
		if i == r || v == 0 {
			continue
		}
		m.x[i] -= v * m.x[r]
		other := m.inv[i]
		for j, w := range row {
			other[j] -= v * w
		}
	}
	for j, w := range row {
		m.price[j] += gain * w
	}
}

// missed gives by how much the basis misses the counts.
func (m *master) missed() float64 {
	got := make([]float64, m.rows)
	for r, col := range m.basis {
		if col < 0 {
			got[-1-col] += m.sign(-1-col) * m.x[r]
			continue
		}
		for _, it := range m.cols[col] {
			got[it.Kind] += m.x[r] * float64(it.N)
		}
	}
	most := 0.0
	for k, n := range m.need {
		most = math.Max(most, math.Abs(got[k]-n))
	}
	return most
}

// refactor works inverse, counts and prices out anew from the basis, by
// Gauss-Jordan elimination with row exchanges.
func (m *master) refactor() {
	m.pivots = 0
	a := make([][]float64, m.rows) // the basis beside the unit matrix
	for i := range a {
		a[i] = make([]float64, 2*m.rows)
		a[i][m.rows+i] = 1
	}
	for c, col := range m.basis {
		if col < 0 {
			a[-1-col][c] = m.sign(-1 - col)
			continue
		}
		for _, it := range m.cols[col] {
			a[it.Kind][c] = float64(it.N)
		}
	}
	if !eliminate(a) {
		return // singular in floating point: go on with the inverse we have
	}
	for r := range m.inv {
		copy(m.inv[r], a[r][m.rows:])
	}
	m.reprice()
}

// eliminate turns the left half of a into the unit matrix.
func eliminate(a [][]float64) bool {
	for c := range a {
		p := c
		for r := c; r < len(a); r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		if math.Abs(a[p][c]) < pivotal {
			return false
		}
		a[c], a[p] = a[p], a[c]
		f := 1 / a[c][c]
		for j := range a[c] {
			a[c][j] *= f
		}
		for r := range a {
			if v := a[r][c]; r != c && v != 0 {
				for j, w := range a[c] {
					a[r][j] -= v * w
				}
			}
		}
	}
	return true
}

// reprice works counts and prices out from the inverse.
func (m *master) reprice() {
	clear(m.price)
	for r, row := range m.inv {
		x, c := 0.0, m.cost(m.basis[r])
		for j, w := range row {
			x += w * m.need[j]
			m.price[j] += c * w
		}
		m.x[r] = x
	}
}
