package job

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/money"
	"bowerwright/price"
	"bowerwright/unit"
)

var (
	snagPriceCurrency = define("price-currency", "Prices of one job are in two currencies.")
	snagPricePack     = define("price-pack", "A price does not say which pack it is for, or is by the piece where the thing is measured, or the other way round.")
	snagPriceTwice    = define("price-twice", "One file gives two prices for one pack.")
	snagInHand        = define("in-hand", "What is in hand is not counted as the job counts it, or is boards, which are given under their timber.")
	snagPriceLarge    = define("price-too-large", "The prices add up to more than can be reckoned.")
)

// A need is a line of the buying list before it is priced.
type need struct {
	price.Line
	of    string // what it is for
	rates []assume.ID
	note  string
}

// buy fills Result.Buying from all that the steps before have counted.
func (p *planner) buy() {
	needs := p.needs()
	p.takeInHand(needs)
	lines := make([]price.Line, len(needs))
	for i, n := range needs {
		lines[i] = n.Line
	}
	bill, problems, err := price.Reckon(lines, p.offers, p.buyingSettings(needs))
	if errors.Is(err, money.ErrTooLarge) {
		p.snag(snagPriceLarge, "prices", "", "the sum of the prices is beyond what can be reckoned", "write prices as they are in the shop")
		return
	}
	p.priceSnags(problems)
	if p.snags.Stops() || err != nil {
		return
	}
	p.buyingFacts(bill, needs)
	p.readyFacts()
	p.baseReady()
	p.unbought(needs)
	p.result.Buying.emptyLists()
}

// spares are the assumption behind each class's spare. Boards have spare parts
// and a share of rejects of their own.
var spares = map[price.Class]assume.ID{
	price.Fixings: assume.BuySpareFixings, price.GlueAndTape: assume.BuySpareGlue, price.FillingAndFinish: assume.BuySpareFinish,
}

// buyingSettings reads the shares that have a say.
func (p *planner) buyingSettings(needs []need) price.Settings {
	tax := p.spec.Buying.Tax
	s := price.Settings{Spare: map[price.Class]float64{}, Tax: tax.Rate, Included: tax.Included}
	for _, n := range needs {
		if id, ok := spares[n.Class]; ok {
			s.Spare[n.Class] = p.book.Get(id).Value / 100
		}
		if n.Class == price.Sheets && n.Need.Measure == price.Area {
			s.Yield = p.book.Get(assume.BuySheetYield).Value / 100
		}
	}
	return s
}

// gatherOffers puts together what files say things cost, the strongest last,
// and gives boards without a price of their own the one on the list, since the
// cheapest way to cut them is found by it.
func (p *planner) gatherOffers() {
	p.spec.Timber = slices.Clone(p.spec.Timber)
	for i := range p.spec.Timber {
		t := &p.spec.Timber[i]
		if t.Currency != "" {
			p.offers = append(p.offers, p.boardOffer(*t, t.Length, t.PriceMinor, t.Currency))
		}
		for _, l := range t.Lengths {
			if l.Currency != "" {
				p.offers = append(p.offers, p.boardOffer(*t, l.Length, l.PriceMinor, l.Currency))
			}
		}
	}
	p.offers = append(p.offers, p.spec.Buying.Prices...)
	slices.SortStableFunc(p.offers, func(a, b price.Offer) int { return strength[a.From] - strength[b.From] })
	for i := range p.spec.Timber {
		p.priceBoards(&p.spec.Timber[i])
	}
}

// strength orders who says a price.
var strength = map[string]int{"shop file": 1, "job file": 2, PriceList: 3}

// PriceList is what an offer of a price list file says it is from: it is given
// for one run, and goes over the files.
const PriceList = "price list"

func (p *planner) boardOffer(t Timber, length unit.Length, minor int64, currency string) price.Offer {
	from := t.From
	if from == "" {
		from = "job file"
	}
	return price.Offer{Name: p.boardNames(t.Name, length)[0], Pack: onePiece, From: from, Place: "timber." + t.Name + ".price",
		Price: money.Amount{Minor: minor, Currency: money.Currency(currency)}}
}

// priceBoards takes the price of every length from the offers.
func (p *planner) priceBoards(t *Timber) {
	if o, ok := price.Single(p.offers, p.boardNames(t.Name, t.Length)...); ok && t.Length > 0 {
		t.PriceMinor, t.Currency = o.Price.Minor, string(o.Price.Currency)
	}
	t.Lengths = slices.Clone(t.Lengths)
	for i := range t.Lengths {
		l := &t.Lengths[i]
		if o, ok := price.Single(p.offers, p.boardNames(t.Name, l.Length)...); ok {
			l.PriceMinor, l.Currency = o.Price.Minor, string(o.Price.Currency)
		}
	}
}

// onePiece is a pack of one.
var onePiece = price.Pack{Text: "each", Holds: price.Quantity{Measure: price.Pieces, N: 1}}

// boardNames are what a price list may call a board: its timber and its length,
// the job's own system first.
func (p *planner) boardNames(timber string, l unit.Length) []string {
	us := timber + " " + unit.FormatOverall(l, unit.Style{System: unit.US, Mark: unit.Inch / 64})
	inches := timber + " " + unit.Format(l, unit.Style{System: unit.US, Mark: unit.Inch / 64})
	mm := timber + " " + unit.Format(l, unit.Style{System: unit.Metric, Mark: unit.Millimetre / 10})
	metres := timber + " " + strconv.FormatFloat(l.MM()/1000, 'f', -1, 64) + " m"
	if p.w.show == unit.Metric {
		return []string{mm, metres, us, inches}
	}
	return []string{us, inches, mm, metres}
}

// priceSnags tells what is wrong with prices. That nothing is called so is a
// note, and only of what the job says: a shop's list holds more than one job
// buys.
func (p *planner) priceSnags(problems []price.Problem) {
	var unused []string
	for _, q := range problems {
		o := q.Offer
		sum := o.Price.String()
		switch q.Code {
		case price.Unused:
			if o.From != "shop file" && !p.isBoard(o.Name) {
				unused = append(unused, unusedName(q))
			}
		case price.Mixed:
			p.snag(snagPriceCurrency, o.Place, sum, fmt.Sprintf("%s is priced in %s, other things in %s", o.Name, o.Price.Currency, q.Other), "write all prices in one currency")
		case price.PackUnclear:
			p.snag(snagPricePack, o.Place, sum, fmt.Sprintf("the price of %s does not say for how much: it is sold in %s", o.Name, packTexts(q.Line.Packs)),
				fmt.Sprintf("write %s per %s", o.Price, q.Line.Packs[0].Text))
		case price.PackOther:
			p.snag(snagPricePack, o.Place, sum, fmt.Sprintf("%s is priced for %s, but the job counts it by %s", o.Name, o.Pack.Text, q.Line.Need.Measure),
				fmt.Sprintf("write the price for a pack such as %s", q.Line.Packs[0].Text))
		case price.Unlike:
			p.snag(snagPriceTwice, o.Place, sum, fmt.Sprintf("there is another price for %s of %s", o.Pack.Text, o.Name), "keep one of them")
		}
	}
	if len(unused) > 0 {
		p.note("price-unused", "prices", fmt.Sprintf("%s no line of this job: %s", useWords(len(unused)), listed(unused, mostNamed)), "Name things as buying.csv does, or leave it so.")
	}
}

// takeInHand notes what is there already with what is needed.
func (p *planner) takeInHand(needs []need) {
	at := map[string]int{}
	for i, n := range needs {
		for _, name := range append([]string{n.Name}, n.Also...) {
			at[price.Key(name)] = i
		}
	}
	var unused []string
	for _, h := range p.spec.Buying.InHand {
		i, known := at[price.Key(h.Name)]
		switch {
		case !known:
			if h.From != "shop file" {
				unused = append(unused, h.Name)
			}
		case needs[i].Class == price.Boards && needs[i].Need.Measure == price.Pieces:
			p.snag(snagInHand, h.Place, h.Name, "boards in hand are cut first, so that the cutting plan must know them", "write on hand: under their timber")
		case h.Holds.N > 0 && h.Holds.Measure != needs[i].Need.Measure:
			p.snag(snagInHand, h.Place, h.Name, fmt.Sprintf("the job counts %s by %s", h.Name, needs[i].Need.Measure), "write how much is there as a pack such as "+needs[i].Packs[0].Text)
		default:
			needs[i].Have = h.Holds
		}
	}
	if len(unused) > 0 {
		p.note("in-hand-unused", "in hand", "in hand and not wanted by this job: "+listed(unused, mostNamed), "Name things as buying.csv does, or leave it so.")
	}
}

// isBoard tells whether a name is that of a board of the job, bought or not.
func (p *planner) isBoard(name string) bool {
	for _, t := range p.spec.Timber {
		for _, l := range append([]StockLength{{Length: t.Length}}, t.Lengths...) {
			for _, n := range p.boardNames(t.Name, l.Length) {
				if price.Key(n) == price.Key(name) {
					return true
				}
			}
		}
	}
	return false
}

// unbought lists the boards that the cutting plan does without: with a price of
// theirs on the list it may turn out otherwise.
func (p *planner) unbought(needs []need) {
	listed := map[string]bool{}
	for _, n := range needs {
		listed[n.Name] = true
	}
	for _, f := range p.result.Timber {
		for _, s := range f.Stocks {
			names := p.boardNames(f.Name, length(s.Length.MM))
			if s.OnHand || listed[names[0]] {
				continue
			}
			listed[names[0]] = true
			u := UnboughtFacts{Name: names[0]}
			if o, ok := price.Single(p.offers, names...); ok {
				u.Price, u.PriceMinor, u.Currency = o.Price.Figures(), o.Price.Minor, string(o.Price.Currency)
			}
			p.result.Buying.Unbought = append(p.result.Buying.Unbought, u)
		}
	}
}

// mostNamed is how many names a note holds.
const mostNamed = 6

func useWords(n int) string {
	if n == 1 {
		return "1 price is for"
	}
	return fmt.Sprintf("%d prices are for", n)
}

func unusedName(q price.Problem) string {
	if q.Near == "" {
		return q.Offer.Name
	}
	return fmt.Sprintf("%s (is %s meant?)", q.Offer.Name, q.Near)
}

// listed joins names, and says how many more there are.
func listed(names []string, most int) string {
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	return strings.Join(names, ", ")
}

func packTexts(packs []price.Pack) string {
	var out []string
	for _, q := range packs {
		out = append(out, q.Text)
	}
	return strings.Join(out, ", ")
}
