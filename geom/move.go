package geom

// Then is the move that does m first and n after it.
func (m Move) Then(n Move) Move {
	turn := m.Turn
	if n.Mirror { // a mirror turns a turn round
		turn = -turn
	}
	return Move{
		Mirror: m.Mirror != n.Mirror,
		Turn:   turn + n.Turn,
		Shift:  n.Apply(m.Shift),
	}
}

// Compose is m after n, as one writes m∘n: n.Then(m).
func (m Move) Compose(n Move) Move { return n.Then(m) }

// Inverse is the move that undoes m.
func (m Move) Inverse() Move {
	inv := Move{Mirror: m.Mirror, Turn: -m.Turn}
	if m.Mirror {
		inv.Turn = m.Turn
	}
	inv.Shift = inv.Apply(m.Shift).Mul(-1)
	return inv
}

// Polygon moves an outline corner by corner: a mirrored one comes out
// clockwise, its corners still in their own order.
func (m Move) Polygon(p Polygon) Polygon {
	r := make(Polygon, len(p))
	for i, q := range p {
		r[i] = m.Apply(q)
	}
	return r
}

// Segment moves both ends.
func (m Move) Segment(s Segment) Segment { return Segment{m.Apply(s.A), m.Apply(s.B)} }
