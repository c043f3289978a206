package job

// BuyingFacts are everything that is bought for the job, in whole packs, with
// what it costs. Sums are in the smallest unit of the currency, and as they are
// written, without it.
type BuyingFacts struct {
	Sections []BuyingSection `json:"sections"`
	Places   []BuyingPlace   `json:"places"`
	Ready    []ReadyFacts    `json:"have_ready"` // wanted, and not bought for the job
	Lines    int             `json:"line_count"`
	Unbought []UnboughtFacts `json:"not_bought"`

	Currency      string     `json:"currency"` // "" when nothing has a price: then there are no sums
	Subtotal      string     `json:"subtotal"`
	SubtotalMinor int64      `json:"subtotal_minor"`
	Taxes         []TaxFacts `json:"taxes"`
	TaxIncluded   bool       `json:"tax_included"` // in the prices: it adds nothing
	TaxWords      string     `json:"tax_words"`    // how it is reckoned
	Total         string     `json:"total"`
	TotalMinor    int64      `json:"total_minor"`
	Unpriced      int        `json:"unpriced"` // lines that have no price
	UnpricedNames []string   `json:"unpriced_names"`
	Without       string     `json:"without"` // "without 2 lines that have no price"; "" when there is none
}

// A BuyingPlace is where one or more sections are bought, in the order of the
// trip.
type BuyingPlace struct {
	Where         string `json:"where"` // "timber yard", "hardware shop" or "paint shop"
	Lines         int    `json:"line_count"`
	Subtotal      string `json:"subtotal"` // of the lines that have a price
	SubtotalMinor int64  `json:"subtotal_minor"`
	Unpriced      int    `json:"unpriced"` // lines that have none
}

// A BuyingSection is one class of things, bought in one place.
type BuyingSection struct {
	Name          string       `json:"name"`  // "boards", "fixings", ...
	Where         string       `json:"where"` // one of the places
	Lines         []BuyingLine `json:"lines"`
	Subtotal      string       `json:"subtotal"` // of the lines that have a price
	SubtotalMinor int64        `json:"subtotal_minor"`
}

// A BuyingLine is so much of one thing.
type BuyingLine struct {
	Number    int         `json:"number"` // through all sections
	Name      string      `json:"name"`   // as a price list names it
	Also      []string    `json:"also"`   // other names that find it
	For       string      `json:"for"`
	Need      Quantity    `json:"need"`
	Spare     float64     `json:"spare_percent"`
	Want      Quantity    `json:"want"`    // with spare and waste
	Have      Quantity    `json:"in_hand"` // of it: so much less is bought
	Packs     []PackFacts `json:"packs"`   // what is bought
	Instead   []PackFacts `json:"instead"` // what it is sold in besides
	Gets      Quantity    `json:"gets"`    // in the packs
	Priced    bool        `json:"priced"`
	Cost      string      `json:"cost"`
	CostMinor int64       `json:"cost_minor"`
	Rates     []string    `json:"rates"` // ids of the assumptions that the amount rests on
	Note      string      `json:"note,omitempty"`
}

// LacksPrice says whether something is bought and has no price.
func (l BuyingLine) LacksPrice() bool { return !l.Priced && len(l.Packs) > 0 }

// PackFacts are so many packs of one size.
type PackFacts struct {
	Count      int      `json:"count"`
	Pack       string   `json:"pack"` // as a price list names it: "16 oz"; "" is just as much as is wanted
	Holds      Quantity `json:"holds"`
	Price      string   `json:"price"` // of a pack; "" when there is none
	PriceMinor int64    `json:"price_minor"`
	Cost       string   `json:"cost"`
	CostMinor  int64    `json:"cost_minor"`
	Tax        string   `json:"tax,omitempty"` // a rate of its own
	From       string   `json:"from"`          // whose price, or whose pack
}

// A Quantity is so much of something that is counted, or measured as length,
// area or volume: pieces, mm, mm² or ml, and as it is written in both systems.
type Quantity struct {
	Measure string  `json:"measure"` // "pieces", "length", "area" or "volume"
	Value   float64 `json:"value"`
	US      string  `json:"us"`
	Metric  string  `json:"metric"`
}

// TaxFacts are the tax on all lines of one rate.
type TaxFacts struct {
	Rate     string `json:"rate"` // "8.25 %"
	On       string `json:"on"`
	OnMinor  int64  `json:"on_minor"`
	Tax      string `json:"tax"`
	TaxMinor int64  `json:"tax_minor"`
}

// UnboughtFacts are boards of a length that the job names and that the cutting
// plan does without.
type UnboughtFacts struct {
	Name       string `json:"name"`  // as a price list names it
	Price      string `json:"price"` // of a board; "" when there is none
	PriceMinor int64  `json:"price_minor"`
	Currency   string `json:"currency"`
}

// ReadyFacts are what the work wants and a shop has.
type ReadyFacts struct {
	Name string `json:"name"`
	For  string `json:"for"`
}

// emptyLists makes lists that hold nothing empty ones.
func (b *BuyingFacts) emptyLists() {
	empty(&b.Sections)
	empty(&b.Places)
	empty(&b.Ready)
	empty(&b.Unbought)
	empty(&b.Taxes)
	empty(&b.UnpricedNames)
	for i := range b.Sections {
		for j := range b.Sections[i].Lines {
			l := &b.Sections[i].Lines[j]
			empty(&l.Also)
			empty(&l.Packs)
			empty(&l.Instead)
			empty(&l.Rates)
		}
	}
}
