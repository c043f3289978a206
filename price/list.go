package price

import (
	"strings"

	"bowerwright/money"
	"bowerwright/snag"
)

// An Offer is one row of a price list: a thing, what it is sold in, and for how
// much. Of two offers of one thing in one pack the later goes.
type Offer struct {
	Name  string
	Pack  Pack // without a text: the usual pack, if there is but one
	Price money.Amount
	Tax   *Rate  // nil: the job's
	From  string // "shop file", "job file", "price list"
	Place string // where it stands, for whoever shows problems: a path of the job file
}

// A Code says what is wrong with an offer.
type Code string

// The codes. Unused is a note; the others stop.
const (
	Unused      Code = "unused"      // no line of the bill is called so; Near may be meant
	Mixed       Code = "mixed"       // in another currency than the first
	PackUnclear Code = "pack-none"   // it says no pack, and there are several usual ones, or none
	PackOther   Code = "pack-other"  // it is sold by a measure that the line is not counted in
	Unlike      Code = "price-twice" // one place gives two prices for one pack
)

// A Problem is what is wrong with an offer.
type Problem struct {
	Code  Code
	Offer Offer
	Line  Line           // the line it is about; zero for Unused
	Near  string         // Unused: a name that may be meant, or ""
	Other money.Currency // Mixed: that of the others
}

func stops(problems []Problem) bool {
	for _, p := range problems {
		if p.Code != Unused {
			return true
		}
	}
	return false
}

// Key is what two names have in common when they mean the same: case, blanks,
// and how inches, thread numbers and times signs are written do not count.
func Key(name string) string {
	s := strings.ToLower(name)
	s = strings.NewReplacer("×", "x", "″", " in", `"`, " in", "#", "no. ", "-", " ", ",", " ").Replace(s)
	words := strings.Fields(s)
	for i, w := range words {
		switch w {
		case "no":
			words[i] = "no."
		case "inch", "inches":
			words[i] = "in"
		}
	}
	return strings.Join(words, " ")
}

// matched are the offers of each line.
type matched struct {
	offers   [][]Offer
	currency money.Currency
}

// match gives every offer to its line.
func match(lines []Line, list []Offer) (matched, []Problem) {
	at, names := map[string]int{}, []string{}
	for i, l := range lines {
		names = append(names, l.Name)
		for _, n := range append([]string{l.Name}, l.Also...) {
			if _, taken := at[Key(n)]; !taken {
				at[Key(n)] = i
			}
		}
	}
	m := matched{offers: make([][]Offer, len(lines))}
	var problems []Problem
	for _, o := range list {
		i, known := at[Key(o.Name)]
		if !known {
			problems = append(problems, Problem{Code: Unused, Offer: o, Near: near(o.Name, names)})
			continue
		}
		if bad := m.take(i, lines[i], o); bad.Code != "" {
			problems = append(problems, bad)
		}
	}
	return m, problems
}

// take gives an offer to line i, or says why not.
func (m *matched) take(i int, l Line, o Offer) Problem {
	if o.Pack.Text == "" {
		if len(l.Packs) != 1 {
			return Problem{Code: PackUnclear, Offer: o, Line: l}
		}
		o.Pack = l.Packs[0]
	}
	switch {
	case o.Pack.Holds.Measure != l.Need.Measure:
		return Problem{Code: PackOther, Offer: o, Line: l}
	case m.currency != "" && o.Price.Currency != m.currency:
		return Problem{Code: Mixed, Offer: o, Line: l, Other: m.currency}
	}
	m.currency = o.Price.Currency
	for j, before := range m.offers[i] {
		if before.Pack.Holds.held() != o.Pack.Holds.held() {
			continue
		}
		if before.From == o.From && (before.Price != o.Price) {
			return Problem{Code: Unlike, Offer: o, Line: l}
		}
		m.offers[i][j] = o
		return Problem{}
	}
	m.offers[i] = append(m.offers[i], o)
	return Problem{}
}

// near is a name that may have been meant. One with other figures is another
// size, and not a slip of the finger.
func near(name string, names []string) string {
	var alike []string
	for _, n := range names {
		if figures(n) == figures(name) {
			alike = append(alike, n)
		}
	}
	return snag.DidYouMean(name, alike)
}

func figures(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r == '/' {
			return r
		}
		return -1
	}, s)
}

// Single finds the price of one piece of a thing by any of its names: the last
// that goes. Prices of larger packs are passed over.
func Single(list []Offer, names ...string) (Offer, bool) {
	keys := map[string]bool{}
	for _, n := range names {
		keys[Key(n)] = true
	}
	for i := len(list) - 1; i >= 0; i-- {
		o := list[i]
		if keys[Key(o.Name)] && (o.Pack.Text == "" || o.Pack.Holds == Quantity{Pieces, 1}) {
			return o, true
		}
	}
	return Offer{}, false
}
