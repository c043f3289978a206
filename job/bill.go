package job

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/money"
	"bowerwright/price"
)

// boughtAt says where each class is bought.
var boughtAt = map[price.Class]string{
	price.Boards: "timber yard", price.Sheets: "timber yard", price.Fixings: "hardware shop", price.GlueAndTape: "hardware shop",
	price.FillingAndFinish: "paint shop", price.Consumables: "hardware shop", price.Standing: "hardware shop",
}

// buyingFacts writes down the bill.
func (p *planner) buyingFacts(bill price.Bill, needs []need) {
	f := &p.result.Buying
	*f = BuyingFacts{Currency: string(bill.Currency), Lines: len(bill.Lines), Unpriced: bill.Unpriced}
	for i, b := range bill.Lines {
		if n := len(f.Sections); n == 0 || f.Sections[n-1].Name != b.Line.Class.String() {
			f.Sections = append(f.Sections, BuyingSection{Name: b.Line.Class.String(), Where: boughtAt[b.Line.Class]})
		}
		s := &f.Sections[len(f.Sections)-1]
		l := p.line(b, needs[i])
		l.Number = i + 1
		s.Lines = append(s.Lines, l)
		s.SubtotalMinor += l.CostMinor
		if l.LacksPrice() {
			f.UnpricedNames = append(f.UnpricedNames, l.Name)
		}
	}
	f.places()
	p.sums(bill)
}

// places adds the sections up by where they are bought.
func (f *BuyingFacts) places() {
	for _, s := range f.Sections {
		at := slices.IndexFunc(f.Places, func(p BuyingPlace) bool { return p.Where == s.Where })
		if at < 0 {
			at = len(f.Places)
			f.Places = append(f.Places, BuyingPlace{Where: s.Where})
		}
		p := &f.Places[at]
		p.Lines += len(s.Lines)
		p.SubtotalMinor += s.SubtotalMinor
		for _, l := range s.Lines {
			if l.LacksPrice() {
				p.Unpriced++
			}
		}
	}
}

// sums are those at the foot of the bill.
func (p *planner) sums(bill price.Bill) {
	f := &p.result.Buying
	if bill.Currency == "" {
		return
	}
	write := func(minor int64) string { return money.Amount{Minor: minor, Currency: bill.Currency}.Figures() }
	for i := range f.Sections {
		f.Sections[i].Subtotal = write(f.Sections[i].SubtotalMinor)
	}
	for i := range f.Places {
		f.Places[i].Subtotal = write(f.Places[i].SubtotalMinor)
	}
	f.SubtotalMinor, f.Subtotal = bill.Subtotal.Minor, write(bill.Subtotal.Minor)
	f.TotalMinor, f.Total = bill.Total.Minor, write(bill.Total.Minor)
	for _, t := range bill.Taxes {
		f.Taxes = append(f.Taxes, TaxFacts{Rate: t.Rate.String(), On: write(t.On.Minor), OnMinor: t.On.Minor, Tax: write(t.Tax.Minor), TaxMinor: t.Tax.Minor})
	}
	p.smallTax(bill)
	f.TaxIncluded = p.spec.Buying.Tax.Included
	f.TaxWords = p.taxWords(len(bill.Taxes))
	if bill.Unpriced > 0 {
		f.Without = fmt.Sprintf("without %s", counted(bill.Unpriced, "line")+" that "+hasWord(bill.Unpriced)+" no price")
	}
}

// smallTaxBelow is the rate under which a tax was perhaps meant as a share of
// one: 0.0825 for 8.25 %. No sales or value added tax that is charged is so low
// (common practice, no source).
const smallTaxBelow price.Rate = 5000

// smallTax points out such a rate, which is reckoned with as it stands.
func (p *planner) smallTax(bill price.Bill) {
	for _, t := range bill.Taxes {
		if t.Rate > 0 && t.Rate < smallTaxBelow {
			p.note("tax-small", "tax", "a tax of "+t.Rate.String()+" is reckoned with, which is very little", "A rate is in per cent: write 8.25 % where 0.0825 of the price is meant.")
		}
	}
}

func hasWord(n int) string {
	if n == 1 {
		return "has"
	}
	return "have"
}

// taxWords say how tax is reckoned.
func (p *planner) taxWords(rates int) string {
	const once = "reckoned once on the sum of its lines, half a unit up"
	switch tax := p.spec.Buying.Tax; {
	case tax.Included && rates == 0:
		return "Prices are taken to include tax."
	case tax.Included:
		return "Prices include tax; what is in them is " + once + "."
	case rates > 0:
		return "Tax is added for each rate, " + once + "."
	case tax.Given:
		return "No tax."
	}
	return "No tax is added: the job names none."
}

// line writes one line of the bill.
func (p *planner) line(b price.Bought, n need) BuyingLine {
	l := BuyingLine{
		Name: b.Line.Name, Also: b.Line.Also, For: n.of, Need: p.w.quantity(b.Line.Need, math.Ceil), Spare: math.Round(b.Spare*1e4) / 100,
		Want: p.w.quantity(b.Want, math.Ceil), Have: p.w.quantity(price.Quantity{Measure: b.Want.Measure, N: b.Line.Have.N}, math.Round), Gets: p.w.quantity(b.Gets, math.Round), Priced: b.Priced, CostMinor: b.Cost.Minor, Note: n.note,
	}
	if b.Priced {
		l.Cost = b.Cost.Figures()
	}
	for _, q := range b.Packs {
		f := p.pack(q)
		if q.Count > 0 {
			l.Packs = append(l.Packs, f)
		} else {
			l.Instead = append(l.Instead, f)
		}
	}
	ids := n.rates
	if id, ok := spares[b.Line.Class]; ok {
		ids = append(append([]assume.ID{}, ids...), id)
	}
	for _, id := range ids {
		l.Rates = append(l.Rates, string(id))
	}
	return l
}

func (p *planner) pack(q price.Packed) PackFacts {
	f := PackFacts{Count: int(q.Count), Pack: q.Pack.Text, Holds: p.w.quantity(q.Pack.Holds, math.Round), CostMinor: q.Cost.Minor, PriceMinor: q.Price.Minor, From: q.From}
	if q.Price.Currency != "" {
		f.Price, f.Cost = q.Price.Figures(), q.Cost.Figures()
	}
	if q.Tax != nil {
		f.Tax = q.Tax.String()
	}
	if f.From == "" {
		f.From = q.Pack.From
	}
	return f
}

// quantity writes an amount, rounded to what a shop speaks of: feet and tenths
// of metres, square feet to a tenth, ounces to a tenth and gallons from half a
// gallon up. A need is taken up, a pack to the nearest.
func (w scribe) quantity(q price.Quantity, round func(float64) float64) Quantity {
	to := func(value, per, step float64, name string) string {
		v := round(value/per/step-1e-9) * step // + 0 below: nothing is no -0
		return strings.TrimSpace(strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64) + " " + name)
	}
	// A fluid ounce is a 128th of 231 cubic inches (NIST SP 811, from memory).
	const foot, ounce = 304.8, 231 * 25.4 * 25.4 * 25.4 / 1000 / 128
	out := Quantity{Measure: q.Measure.String(), Value: micro(q.N)}
	switch q.Measure {
	case price.Length:
		out.US, out.Metric = to(q.N, foot, 1, "ft"), to(q.N, 1000, 0.1, "m")
	case price.Area:
		out.US, out.Metric = to(q.N, foot*foot, 0.1, "sq ft"), to(q.N, 1e6, 0.01, "m²")
	case price.Volume:
		out.US, out.Metric = to(q.N, ounce, 0.1, "oz"), to(q.N, 1, 1, "ml")
		if q.N >= 64*ounce-1e-6 {
			out.US = to(q.N, 128*ounce, 0.01, "gal")
		}
		if q.N >= 1000 {
			out.Metric = to(q.N, 1000, 0.01, "L")
		}
	default:
		out.US = to(q.N, 1, 1, "")
		out.Metric = out.US
	}
	return out
}
