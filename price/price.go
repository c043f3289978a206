// Package price turns what is needed into what is bought: whole packs, what
// they cost, tax, and a total that says what it leaves out.
//
// Lines of need come counted: so many pieces, mm of tape, mm² of sheet, ml of
// paint. A List holds what things are sold in and for how much; for what it
// does not hold, the packs that are usual in shops stand in (UsualPacks, each
// row with source and status). Of several priced packs the cheapest combination
// that covers the need is taken, exactly.
//
// Promise: money is whole minor units and is never rounded but for tax, which
// is rounded once for each rate, half up, on the sum of the lines at that rate.
// The total is the sum of the lines and the tax added, to the last cent; a line
// without a price adds nothing and is counted. The same input gives the same
// bill.
//
// What it does not know: exchange rates (a bill is in one currency), delivery,
// discounts, what a shop has in stock, and what things weigh.
package price

import (
	"cmp"
	"fmt"
	"slices"

	"bowerwright/money"
)

// A Class says what spare is bought of a line and where it stands on the list.
type Class int

// The classes, in the order of the list.
const (
	Boards Class = iota
	Sheets
	Fixings
	GlueAndTape
	FillingAndFinish
	Consumables
	Standing // for the base and the ballast
)

// String is the heading of a class.
func (c Class) String() string {
	names := [...]string{"boards", "sheets", "fixings", "glue and tape", "filling and finish", "consumables", "base and ballast"}
	if c < 0 || int(c) >= len(names) {
		return fmt.Sprintf("class %d", int(c))
	}
	return names[c]
}

// A Line is so much of one thing that is needed.
type Line struct {
	Name  string   // as a price list names it; no two lines have the same
	Also  []string // other names that find it
	Class Class
	Need  Quantity
	Have  Quantity // in hand: so much less is bought
	Packs []Pack   // what it is sold in where the list does not say; none: just as much as is wanted
}

// A Rate is a rate of tax in parts per million: 8.25 % is 82,500.
type Rate int64

// whole is a rate of 100 %.
const whole = 1_000_000

// Settings say what is bought beyond the need and how tax is reckoned.
type Settings struct {
	Spare    map[Class]float64 // a share of the need, 0 or more
	Yield    float64           // share of a sheet bought by its area that ends in pieces, over 0 to 1; 0 is 1
	Tax      Rate              // of lines whose price says no other
	Included bool              // prices include the tax
}

// A Bill is everything bought, in the order of the lines.
type Bill struct {
	Currency money.Currency // "" when nothing has a price
	Lines    []Bought
	Subtotal money.Amount // of the lines that have a price
	Taxes    []Tax        // by rate, lowest first; rates of 0 are left out
	Total    money.Amount // Subtotal, and the taxes unless they are included
	Unpriced int          // lines that lack a price
}

// Bought is one line as bought.
type Bought struct {
	Line   Line
	Spare  float64  // the share
	Want   Quantity // the need with spare and waste, what is in hand included
	Packs  []Packed // what it is sold in, bought or not; those of the list if it has any
	Gets   Quantity // in the packs bought
	Cost   money.Amount
	Priced bool
}

// LacksPrice says whether something is bought and has no price.
func (b Bought) LacksPrice() bool { return !b.Priced && b.Gets.N > 0 }

// Packed is so many packs of one size; Count may be 0.
type Packed struct {
	Offer
	Count int64
	Cost  money.Amount
}

// Tax is the tax on all lines of one rate.
type Tax struct {
	Rate Rate
	On   money.Amount // sum of the lines
	Tax  money.Amount
}

// Reckon works out what is bought and what it costs. Every problem is returned,
// in the order of the offers; with one that stops, the Bill must not be shown.
// The error is money.ErrTooLarge: a sum beyond 64 bits.
func Reckon(lines []Line, list []Offer, s Settings) (Bill, []Problem, error) {
	m, problems := match(lines, list)
	if stops(problems) {
		return Bill{}, problems, nil
	}
	bill := Bill{Currency: m.currency}
	for i, l := range lines {
		b, err := s.buy(l, m.offers[i])
		if err != nil {
			return Bill{}, nil, err
		}
		bill.Lines = append(bill.Lines, b)
	}
	return bill, problems, bill.total(s)
}

// buy finds the packs of one line.
func (s Settings) buy(l Line, offers []Offer) (Bought, error) {
	b := Bought{Line: l, Spare: s.Spare[l.Class], Want: s.want(l), Priced: len(offers) > 0}
	if !b.Priced {
		offers = usual(l.Packs, b.Want.less(l.Have))
	}
	counts := cover(b.Want.less(l.Have).wanted(), sizesOf(offers), costsOf(offers, b.Priced))
	b.Gets = Quantity{Measure: b.Want.Measure}
	for i, o := range offers {
		p := Packed{Offer: o, Count: counts[i]}
		b.Gets.N += float64(counts[i]) * o.Pack.Holds.N
		var err error
		if p.Cost, err = o.Price.Scale(p.Count, 1); err != nil {
			return b, err
		}
		if b.Cost, err = b.Cost.Add(p.Cost); err != nil {
			return b, err
		}
		b.Packs = append(b.Packs, p)
	}
	slices.SortStableFunc(b.Packs, func(a, b Packed) int { return cmp.Compare(min(b.Count, 1), min(a.Count, 1)) })
	return b, nil
}

func sizesOf(offers []Offer) []int64 {
	var out []int64
	for _, o := range offers {
		out = append(out, o.Pack.Holds.held())
	}
	return out
}

// costsOf are the prices. Without prices the least amount is bought that covers
// the need, where a pack more counts as much as a tenth of the smallest pack:
// one bottle of 16 oz and not two of 8.
func costsOf(offers []Offer, priced bool) []int64 {
	var out []int64
	least := slices.Min(sizesOf(offers))
	for _, o := range offers {
		if priced {
			out = append(out, o.Price.Minor)
		} else {
			out = append(out, 10*o.Pack.Holds.held()+least)
		}
	}
	return out
}

// want is the need with its spare and, for sheets, what is lost between the
// pieces; pieces are whole.
func (s Settings) want(l Line) Quantity {
	q := l.Need
	q.N *= 1 + s.Spare[l.Class]
	if l.Class == Sheets && q.Measure == Area && s.Yield > 0 {
		q.N /= s.Yield
	}
	return q.up()
}

// usual makes offers without a price out of packs, or of the amount itself.
func usual(packs []Pack, want Quantity) []Offer {
	if len(packs) == 0 {
		n := float64(want.wanted()) * grains[want.Measure]
		return []Offer{{Pack: Pack{Holds: Quantity{want.Measure, n}}}}
	}
	var out []Offer
	for _, p := range packs {
		out = append(out, Offer{Pack: p})
	}
	return out
}

// total adds the lines up and puts the tax to them.
func (b *Bill) total(s Settings) error {
	byRate := map[Rate]money.Amount{}
	var err error
	for _, l := range b.Lines {
		if l.LacksPrice() {
			b.Unpriced++
		}
		for _, p := range l.Packs {
			rate := s.Tax
			if p.Tax != nil {
				rate = *p.Tax
			}
			if byRate[rate], err = byRate[rate].Add(p.Cost); err != nil {
				return err
			}
		}
		if b.Subtotal, err = b.Subtotal.Add(l.Cost); err != nil {
			return err
		}
	}
	b.Total = b.Subtotal
	return b.tax(byRate, s.Included)
}

// tax is reckoned once for each rate, half up (money.Scale rounds ties away
// from zero, and no sum is negative). Included tax is the part
// rate / (1 + rate) of what is paid.
func (b *Bill) tax(byRate map[Rate]money.Amount, included bool) error {
	for rate, on := range byRate {
		if rate <= 0 || on.Minor == 0 {
			continue
		}
		of := int64(whole)
		if included {
			of += int64(rate)
		}
		t, err := on.Scale(int64(rate), of)
		if err != nil {
			return err
		}
		b.Taxes = append(b.Taxes, Tax{rate, on, t})
	}
	slices.SortFunc(b.Taxes, func(a, b Tax) int { return cmp.Compare(a.Rate, b.Rate) })
	for _, t := range b.Taxes {
		if included {
			break
		}
		var err error
		if b.Total, err = b.Total.Add(t.Tax); err != nil {
			return err
		}
	}
	return nil
}
