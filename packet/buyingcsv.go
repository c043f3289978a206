package packet

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"bowerwright/job"
)

// buyingHead is the first row of buying.csv. Name, pack, price, currency and tax
// are the columns of a price list.
var buyingHead = []string{"where", "section", "name", "pack", "buy", "price", "currency", "tax", "cost",
	"need", "need metric", "spare percent", "wanted", "wanted metric", "in hand", "in hand metric", "for", "note", "from", "rates"}

// BuyingCSV writes the buying list as a table: a head row, then a row for each
// pack that is bought, and for each pack that a thing is sold in besides, with
// 0 to buy; last come boards of lengths that are not bought. With prices filled in it is a price list. The form is RFC 4180, as
// of the cut list.
func BuyingCSV(w io.Writer, r job.Result) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	if err := c.Write(buyingHead); err != nil {
		return err
	}
	for _, s := range r.Buying.Sections {
		for _, l := range s.Lines {
			for _, p := range append(l.Packs[:len(l.Packs):len(l.Packs)], l.Instead...) {
				if err := c.Write(buyingRecord(r.Buying, s, l, p)); err != nil {
					return err
				}
			}
		}
	}
	for _, u := range r.Buying.Unbought {
		if err := c.Write(append([]string{"", "not bought", u.Name, "each", "0", u.Price, u.Currency}, make([]string, len(buyingHead)-7)...)); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

func buyingRecord(b job.BuyingFacts, s job.BuyingSection, l job.BuyingLine, p job.PackFacts) []string {
	currency := ""
	if p.Price != "" {
		currency = b.Currency
	}
	return []string{s.Where, s.Name, l.Name, p.Pack, itoa(p.Count), p.Price, currency, p.Tax, p.Cost,
		l.Need.US, l.Need.Metric, strconv.FormatFloat(l.Spare, 'f', -1, 64), l.Want.US, l.Want.Metric, l.Have.US, l.Have.Metric, l.For, l.Note, p.From, strings.Join(l.Rates, " ")}
}
