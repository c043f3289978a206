package jobfile

import (
	"errors"
	"fmt"
	"strings"

	"bowerwright/job"
	"bowerwright/money"
	"bowerwright/price"
	"bowerwright/snag"
)

// What can be wrong with prices.
var (
	badPack       = snag.Kind{Code: "bad-pack", Meaning: "What a pack holds cannot be read: 100, 60 yd, 500 ml, 16 oz, 75 sq ft or 48 in x 96 in."}
	badTax        = snag.Kind{Code: "bad-tax", Meaning: "Tax is no rate from 0 to 100 %, nor included, nor none."}
	priceColumns  = snag.Kind{Code: "price-columns", Meaning: "The first row of a price list does not name its columns: it has at least name and price."}
	priceRow      = snag.Kind{Code: "price-row", Meaning: "A row of a price list cannot be read."}
	tooManyPrices = snag.Kind{Code: "too-many-prices", Meaning: "A price list has more than 10,000 prices."}
)

var buyingSnags = []snag.Kind{badPack, badTax, priceColumns, priceRow, tooManyPrices}

// mostPrices is far over what a shop buys, and keeps a wrong file from being
// read to its end.
const mostPrices = 10_000

// mostPrice is the highest price that is read, in minor units.
const mostPrice = 1_000_000_000

// pricesField reads prices under names. A price is a line, or a list of lines
// for a thing sold in several packs.
func pricesField(i info) field[draft] {
	text := object{"type": []string{"string", "number"}, "description": "$6.49 per 100, 8.99 USD per 500 ml, $4.49 each, $7.20"}
	k := kind{words: "prices under names", form: fields,
		schema: object{"type": "object", "additionalProperties": object{"anyOf": []any{text, listOf(text)}}}}
	return anyField(i, k, func(r *reader, n *node, d *draft) {
		for _, e := range r.entries(n) {
			switch e.value.form {
			case list:
				for _, item := range e.value.items {
					r.offer(e.key.text, item, d)
				}
			default:
				r.offer(e.key.text, e.value, d)
			}
		}
	})
}

// offer reads one price: a sum, what it is for, and a tax of its own.
func (r *reader) offer(name string, n *node, d *draft) {
	r.within(&info{Key: "the price of " + shorten(name), Example: "$6.49 per 100"}, func() {
		if !r.is(n, line) {
			return
		}
		o := price.Offer{Name: name, From: r.origin.String(), Place: n.place.Path}
		text, tax, _ := strings.Cut(n.text, ",")
		okTax := tax == "" || r.ownTax(n, strings.TrimSpace(tax), len(text)+1, &o)
		sum, pack := cutPer(text)
		okPack := pack == "" || r.packOf(n, pack, strings.LastIndex(text, pack), &o)
		if a, ok := r.amount(n, sum, strings.Index(text, sum)); ok && okTax && okPack {
			o.Price = a
			d.spec.Buying.Prices = append(d.spec.Buying.Prices, o)
		}
	})
}

// cutPer splits "$6.49 per 100" and "$4.49 each"; without either the pack is
// the usual one.
func cutPer(text string) (sum, pack string) {
	text = strings.TrimSpace(text)
	if a, b, ok := strings.Cut(text, " per "); ok {
		return strings.TrimSpace(a), strings.TrimSpace(b)
	}
	if a, ok := strings.CutSuffix(text, " each"); ok {
		return strings.TrimSpace(a), "each"
	}
	return text, ""
}

// packOf reads what a price is for; "per gal" is per 1 gal.
func (r *reader) packOf(n *node, text string, offset int, o *price.Offer) bool {
	p, err := price.ParsePack(text)
	if err != nil {
		if one, errOne := price.ParsePack("1 " + text); errOne == nil {
			p, err = one, nil
		}
	}
	var e *price.PackError
	if errors.As(err, &e) {
		r.badAt(badPack, n.within(offset), e.Text, e.Problem, "write "+e.Write)
		return false
	}
	o.Pack = p
	return true
}

// ownTax reads "tax 5 %" behind a price.
func (r *reader) ownTax(n *node, text string, offset int, o *price.Offer) bool {
	figures, ok := strings.CutPrefix(text, "tax ")
	rate, okRate := price.ParseRate(figures)
	if !ok || !okRate {
		r.badAt(badTax, n.within(offset), n.text, "behind the comma stands a tax of its own", "write the price so: $6.49 per 100, tax 5 %")
		return false
	}
	o.Tax = &rate
	return true
}

// amount reads a sum of money in a part of the node's text that begins at
// offset.
func (r *reader) amount(n *node, text string, offset int) (money.Amount, bool) {
	if !r.plain(n, text, max(0, offset)) {
		return money.Amount{}, false
	}
	a, s := readSum(text, r.d.currency)
	if s.Code != "" {
		s.Place = n.within(max(0, offset) + s.Place.Column)
		r.add(s)
		return money.Amount{}, false
	}
	return a, true
}

// readSum reads a price; of the snag, the column is a byte of the text.
func readSum(text string, bare money.Currency) (money.Amount, snag.Snag) {
	a, err := money.Parse(text, bare)
	var e *money.ParseError
	switch {
	case errors.As(err, &e):
		return a, badPrice.At(snag.Place{Column: e.Offset}, e.Text, e.Problem, "write "+e.Write)
	case a.Minor < 0:
		return a, outOfRange.At(snag.Place{}, text, "a price is below nothing", "write a price of 0 or more")
	case a.Minor > mostPrice:
		return a, outOfRange.At(snag.Place{}, text, "a price is too large", fmt.Sprintf("write a price up to %s", money.Amount{Minor: mostPrice, Currency: a.Currency}))
	}
	return a, snag.Snag{}
}

// inHandField reads what is there already: names with how much.
func inHandField(i info) field[draft] {
	k := kind{words: "amounts under names", form: fields, schema: object{"type": "object", "additionalProperties": object{"type": []string{"string", "number"}}}}
	return anyField(i, k, func(r *reader, n *node, d *draft) {
		for _, e := range r.entries(n) {
			r.within(&info{Key: shorten(e.key.text) + " in hand", Example: "8 oz"}, func() { r.inHand(e, d) })
		}
	})
}

// inHand reads "glue: 8 oz"; none is nothing.
func (r *reader) inHand(e entry, d *draft) {
	text, ok := r.number(e.value)
	if !ok {
		return
	}
	h := job.InHand{Name: e.key.text, From: r.origin.String(), Place: e.value.place.Path}
	if text != "none" && text != "0" {
		p, err := price.ParsePack(text)
		if err != nil {
			r.bad(badPack, e.value, "this is no amount that can be read", "write "+price.ExamplePacks+", or none")
			return
		}
		h.Holds = p.Holds
	}
	d.spec.Buying.InHand = append(d.spec.Buying.InHand, h)
}

// taxField reads 8.25 % (added to prices), 19 % included, included, none.
func taxField(i info) field[draft] {
	k := kind{words: "a rate that is added; or a rate and included; or included; or none", form: line, schema: object{"type": []string{"string", "number"}}}
	return anyField(i, k, func(r *reader, n *node, d *draft) {
		t := job.TaxAsked{Given: true}
		rate, included := strings.CutSuffix(strings.TrimSpace(n.text), "included")
		t.Included = included
		rate = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(rate), "added"))
		ok := included && rate == "" || rate == "none" && !included
		if !ok {
			t.Rate, ok = price.ParseRate(rate)
		}
		if !ok {
			r.bad(badTax, n, fmt.Sprintf("tax cannot be %q", n.text), "write tax: 8.25 %, or tax: 19 % included, or tax: included, or tax: none")
			return
		}
		d.spec.Buying.Tax = t
	})
}
