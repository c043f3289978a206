// Package money holds sums of money in whole minor units (cents), each with its
// currency.
//
// Nothing is ever rounded unasked: sums add exactly or say why not, and Split
// shares a sum so that the shares add up to it again. The one function that
// rounds is Scale, for a price that is per foot or per hour.
//
// The package knows no exchange rates and no taxes, and has no default
// currency.
package money

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// A Currency is an ISO 4217 code in capitals, such as USD. The empty Currency
// is none.
type Currency string

// An Amount is a sum in whole minor units of its currency: 449 USD is $4.49.
// The zero Amount is no money in no currency; Add takes it as nothing, so that
// a sum may start from it.
type Amount struct {
	Minor    int64    `json:"minor"`
	Currency Currency `json:"currency"`
}

// exponents gives the number of decimal places of the minor unit of the
// currencies that are read. Source: ISO 4217 list one, from memory.
var exponents = map[Currency]int{
	"AED": 2, "AUD": 2, "BHD": 3, "BRL": 2, "CAD": 2, "CHF": 2, "CLP": 0, "CNY": 2,
	"COP": 2, "CZK": 2, "DKK": 2, "EGP": 2, "EUR": 2, "GBP": 2, "HKD": 2, "HUF": 2,
	"IDR": 2, "ILS": 2, "INR": 2, "ISK": 0, "JOD": 3, "JPY": 0, "KES": 2, "KRW": 0,
	"KWD": 3, "MAD": 2, "MXN": 2, "MYR": 2, "NGN": 2, "NOK": 2, "NZD": 2, "OMR": 3,
	"PHP": 2, "PLN": 2, "RON": 2, "SAR": 2, "SEK": 2, "SGD": 2, "THB": 2, "TND": 3,
	"TRY": 2, "TWD": 2, "UAH": 2, "UGX": 0, "USD": 2, "VND": 0, "ZAR": 2,
}

// Known tells whether the currency is one that is read.
func (c Currency) Known() bool { _, ok := exponents[c]; return ok }

// Places gives the decimal places of the minor unit: 2 for USD, 0 for JPY; 0
// for a currency that is not known.
func (c Currency) Places() int { return exponents[c] }

// ErrTooLarge says that a result does not fit into 64 bits of minor units.
var ErrTooLarge = errors.New("money: the sum is too large")

// A MismatchError says that two currencies met in one sum.
type MismatchError struct{ A, B Currency }

// Error names both currencies.
func (e *MismatchError) Error() string {
	return fmt.Sprintf("money: %s and %s cannot be added", e.A, e.B)
}

// Add gives a + b. The error is a *MismatchError or ErrTooLarge.
func (a Amount) Add(b Amount) (Amount, error) {
	if a == (Amount{}) {
		return b, nil
	}
	if b == (Amount{}) {
		return a, nil
	}
	if a.Currency != b.Currency {
		return Amount{}, &MismatchError{a.Currency, b.Currency}
	}
	sum := a.Minor + b.Minor
	if (sum < a.Minor) != (b.Minor < 0) { // it wrapped around
		return Amount{}, ErrTooLarge
	}
	return Amount{sum, a.Currency}, nil
}

// Sum adds amounts of one currency; of none at all it is the zero Amount.
func Sum(amounts ...Amount) (Amount, error) {
	var total Amount
	var err error
	for _, a := range amounts {
		if total, err = total.Add(a); err != nil {
			return Amount{}, err
		}
	}
	return total, nil
}

// Scale gives a × num / den to the nearest minor unit, ties away from zero: the
// price of num nanometres at a price per den nanometres. A den of 0 is
// ErrTooLarge.
func (a Amount) Scale(num, den int64) (Amount, error) {
	if den == 0 {
		return Amount{}, ErrTooLarge
	}
	n := new(big.Int).Mul(big.NewInt(a.Minor), big.NewInt(num))
	d := big.NewInt(den)
	if d.Sign() < 0 {
		n.Neg(n)
		d.Neg(d)
	}
	n.Mul(n, big.NewInt(2)).Add(n, new(big.Int).Mul(d, big.NewInt(int64(n.Sign()))))
	n.Quo(n, d.Mul(d, big.NewInt(2)))
	if !n.IsInt64() {
		return Amount{}, ErrTooLarge
	}
	return Amount{n.Int64(), a.Currency}, nil
}

// Split shares the sum in proportion to the weights so that the shares add up
// to it exactly. What is left after rounding towards zero goes one minor unit
// at a time to the largest remainders, the earlier first on a tie. Weights are
// 0 or more and not all 0.
func (a Amount) Split(weights ...int64) ([]Amount, error) {
	total := new(big.Int)
	for i, w := range weights {
		if w < 0 {
			return nil, fmt.Errorf("money: weight %d is negative", i+1)
		}
		total.Add(total, big.NewInt(w))
	}
	if total.Sign() == 0 {
		return nil, errors.New("money: nothing to share by: all weights are 0")
	}
	shares := make([]Amount, len(weights))
	remainders := make([]*big.Int, len(weights))
	left := a.Minor
	for i, w := range weights {
		share := new(big.Int).Mul(big.NewInt(a.Minor), big.NewInt(w))
		rest := new(big.Int)
		share.QuoRem(share, total, rest)
		shares[i] = Amount{share.Int64(), a.Currency}
		remainders[i] = rest.Abs(rest)
		left -= share.Int64()
	}
	for ; left != 0; left -= sign(left) {
		i := largest(remainders)
		shares[i].Minor += sign(left)
		remainders[i].SetInt64(-1)
	}
	return shares, nil
}

func sign(n int64) int64 {
	if n < 0 {
		return -1
	}
	return 1
}

// largest gives the first index of the largest value.
func largest(v []*big.Int) int {
	best := 0
	for i := range v {
		if v[i].Cmp(v[best]) > 0 {
			best = i
		}
	}
	return best
}

// Figures writes the number alone, with all its decimal places: 4.49.
func (a Amount) Figures() string {
	digits := strconv.FormatUint(magnitude(a.Minor), 10)
	minus := ""
	if a.Minor < 0 {
		minus = "-"
	}
	places := a.Currency.Places()
	if places == 0 {
		return minus + digits
	}
	if pad := places + 1 - len(digits); pad > 0 {
		digits = strings.Repeat("0", pad) + digits
	}
	cut := len(digits) - places
	return minus + digits[:cut] + "." + digits[cut:]
}

func magnitude(n int64) uint64 {
	if n == math.MinInt64 {
		return 1 << 63
	}
	if n < 0 {
		n = -n
	}
	return uint64(n)
}

// String writes figures and code, as Parse reads them: 4.49 USD.
func (a Amount) String() string { return strings.TrimSpace(a.Figures() + " " + string(a.Currency)) }
