package ldl

// panel is the number of columns eliminated one by one before the rest of the
// front is brought up to date with all of them at once.
const panel = 2 * Size

// eliminate turns an assembled front into L and D, and brings what is left for
// the parent up to date. ld holds L D once a column is done.
func (n *numbers) eliminate(f *Factor, fr *front, ld []float64) {
	p, q := fr.own(), fr.rest()
	for at := 0; at < p; at += panel {
		to := min(at+panel, p)
		subtract(ld, p, at, p+q, at, to, ld, n.l, p, 0, at)
		for k := at; k < to; k++ {
			n.column(f, fr, ld, at, k)
		}
	}
	// Rows and columns of what is left, counted from the front's own.
	subtractSquare(n.left, q, ld[p*p:], n.l[p*p:], p)
}

// column finishes column k of a panel that began at column at.
func (n *numbers) column(f *Factor, fr *front, ld []float64, at, k int) {
	p, m := fr.own(), fr.own()+fr.rest()
	lk := n.l[k*p:][:k]
	for i := k; i < m; i++ {
		row := ld[i*p:][:k+1]
		sum := row[k]
		for j := at; j < k; j++ {
			sum -= row[j] * lk[j]
		}
		row[k] = sum
	}
	d := ld[k*p+k]
	unknown := int(f.plan.seq[fr.first+k/Size])*Size + k%Size
	if d <= lostPivot*f.diag[unknown] {
		n.pinned = append(n.pinned, k)
		n.d[k] = 0
		for i := k; i < m; i++ {
			ld[i*p+k], n.l[i*p+k] = 0, 0
		}
		n.l[k*p+k] = 1
		return
	}
	n.d[k] = d
	n.l[k*p+k] = 1
	over := 1 / d
	for i := k + 1; i < m; i++ {
		n.l[i*p+k] = ld[i*p+k] * over
	}
}

// subtract takes from rows [r0, r1) and columns [c0, c1) of c, of width w, the
// products of rows of a and b over columns [k0, k1): c_ij -= Σ a_ik b_jk.
// Numbers of rows and columns divide by six, as blocks have six.
func subtract(c []float64, w, r0, r1, c0, c1 int, a, b []float64, wk, k0, k1 int) {
	if k0 == k1 {
		return
	}
	for i := r0; i < r1; i += tileRows {
		a0, a1, a2 := a[i*wk+k0:i*wk+k1], a[(i+1)*wk+k0:(i+1)*wk+k1], a[(i+2)*wk+k0:(i+2)*wk+k1]
		for j := c0; j < c1; j += tileCols {
			tile(c[i*w+j:], w, a0, a1, a2, b[j*wk+k0:j*wk+k1], b[(j+1)*wk+k0:(j+1)*wk+k1])
		}
	}
}

// subtractSquare does the same over the lower triangle of a square of side q,
// in bands of columns that stay close at hand.
func subtractSquare(c []float64, q int, a, b []float64, p int) {
	const band = 8 * Size
	for j := 0; j < q; j += band {
		to := min(j+band, q)
		for i := j; i < q; i += Size {
			subtract(c, q, i, i+Size, j, min(to, i+Size), a, b, p, 0, p)
		}
	}
}

// A tile is as large as its sums and factors find room in sixteen registers; a
// larger one runs at half the speed.
const tileRows, tileCols = 3, 2

// tile takes a tile of sums of products from c, whose rows are w apart.
func tile(c []float64, w int, a0, a1, a2, b0, b1 []float64) {
	n := len(a0)
	a1, a2, b0, b1 = a1[:n], a2[:n], b0[:n], b1[:n]
	var s00, s01, s10, s11, s20, s21 float64
	for k, x0 := range a0 {
		y0, y1 := b0[k], b1[k]
		s00 += x0 * y0
		s01 += x0 * y1
		x1 := a1[k]
		s10 += x1 * y0
		s11 += x1 * y1
		x2 := a2[k]
		s20 += x2 * y0
		s21 += x2 * y1
	}
	c[0] -= s00
	c[1] -= s01
	c[w] -= s10
	c[w+1] -= s11
	c[2*w] -= s20
	c[2*w+1] -= s21
}
