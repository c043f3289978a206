package unit

import (
	"fmt"
	"math/big"
	"strings"
)

// length reads one measure, or feet followed by inches, to the end of the
// text.
func (r *reader) length(bare Unit) (*big.Rat, error) {
	from := r.at
	first, u, err := r.measure()
	if err != nil {
		return nil, err
	}
	r.space()
	switch {
	case u == NoUnit && first.Sign() == 0:
		return first, nil // nothing is nothing in every unit
	case u == NoUnit && bare.Length() == 0:
		figures := strings.TrimSpace(r.plain[:r.at])
		return nil, r.failAt(r.at, "there is no unit after "+figures, figures+" in or "+figures+" mm")
	case u == NoUnit:
		return inNanometres(first, bare), nil
	case r.done():
		return inNanometres(first, u), nil
	case u != Feet:
		return nil, r.trailing(from)
	}
	return r.inchesAfter(first)
}

// measure reads a number and its unit, which is NoUnit at the end of the text.
func (r *reader) measure() (*big.Rat, Unit, error) {
	from := r.at
	v, err := r.number()
	if err != nil {
		return nil, NoUnit, err
	}
	figures := r.plain[from:r.at]
	r.space()
	at := r.at
	if r.done() {
		return v, NoUnit, nil
	}
	name := r.word()
	if name == "" {
		return nil, NoUnit, r.failAt(at, "this does not belong to a length", r.example)
	}
	u, ok := UnitNamed(name)
	if !ok {
		return nil, NoUnit, r.failAt(at, fmt.Sprintf("%q is no unit of length", name),
			figures+" in or "+figures+" mm")
	}
	return v, u, nil
}

// inchesAfter reads the inches that follow a number of feet, perhaps behind a
// hyphen as draughtsmen write it: 5'-6".
func (r *reader) inchesAfter(feet *big.Rat) (*big.Rat, error) {
	before := strings.TrimSpace(r.plain[:r.at])
	if r.peek() == '-' {
		r.at++
		r.space()
	}
	at := r.at
	inches, u, err := r.measure()
	if err != nil {
		return nil, err
	}
	figures := strings.TrimSpace(r.plain[at:r.at])
	r.space()
	switch {
	case u == NoUnit:
		return nil, r.failAt(r.at, "there is no unit after "+figures, before+" "+figures+" in")
	case u != Inches:
		return nil, r.failAt(at, "only inches may follow feet", "5 ft 6 1/2 in")
	case !feet.IsInt():
		return nil, r.failAt(0, "broken feet and inches stand together", "5 ft 6 1/2 in")
	case inches.Cmp(big.NewRat(12, 1)) >= 0:
		return nil, r.failAt(at, "12 in or more after feet", "5 ft 6 in, or the whole in inches")
	case !r.done():
		return nil, r.trailing(0)
	}
	return new(big.Rat).Add(inNanometres(feet, Feet), inNanometres(inches, Inches)), nil
}

// trailing refuses what stands behind a complete measure that began at from.
func (r *reader) trailing(from int) error {
	whole := strings.TrimSpace(r.plain[from:r.at])
	return r.failAt(r.at, "more stands behind the measure", whole+" alone; a length is one measure")
}

func inNanometres(v *big.Rat, u Unit) *big.Rat {
	return new(big.Rat).Mul(v, new(big.Rat).SetInt64(int64(u.Length())))
}

// toLength rounds to the nearest nanometre, ties away from zero.
func (r *reader) toLength(nm *big.Rat) (Length, error) {
	limit := new(big.Rat).SetInt64(int64(MaxLength))
	if new(big.Rat).Abs(nm).Cmp(limit) > 0 {
		return 0, r.fail(0, "this is longer than a kilometre", "a length of up to 1000 m, such as 2.4 m")
	}
	half := big.NewRat(int64(nm.Sign()), 2)
	sum := new(big.Rat).Add(nm, half)
	return Length(new(big.Int).Quo(sum.Num(), sum.Denom()).Int64()), nil
}
