package price

import (
	"strings"
	"testing"

	"bowerwright/assume"
)

func TestKey(t *testing.T) {
	for _, group := range [][]string{
		{"No. 8 x 1 1/4 in", "no 8 X 1-1/4 in", "#8 × 1 1/4\"", "No. 8 x 1 1/4 inches", "  No. 8  x 1 1/4 in "},
		{"pine 8 ft", "Pine, 8 ft"},
		{"120 grit abrasive", "120-grit abrasive"},
	} {
		for _, name := range group {
			if Key(name) != Key(group[0]) {
				t.Errorf("%q is %q, %q is %q", name, Key(name), group[0], Key(group[0]))
			}
		}
	}
	for _, two := range [][2]string{{"No. 8 x 1 in", "No. 8 x 1 1/4 in"}, {"pine 8 ft", "pine 6 ft"}, {"glue", "blue"}} {
		if Key(two[0]) == Key(two[1]) {
			t.Errorf("%q and %q are one", two[0], two[1])
		}
	}
}

func TestProblems(t *testing.T) {
	lines := shelf(t)
	eur := offer(t, "glue", "500 ml", 500)
	eur.Price.Currency = "EUR"
	for _, c := range []struct {
		name string
		list []Offer
		want Problem
	}{
		{"a slip", []Offer{offer(t, "masking tap", "60 yd", 500)}, Problem{Code: Unused, Near: "masking tape"}},
		{"another size", []Offer{offer(t, "No. 8 x 1 1/2 in", "100", 500)}, Problem{Code: Unused}},
		{"which pack", []Offer{offer(t, "glue", "", 500)}, Problem{Code: PackUnclear}},
		{"by the piece", []Offer{offer(t, "glue", "100", 500)}, Problem{Code: PackOther}},
		{"currencies", []Offer{offer(t, "pine 8 ft", "", 449), eur}, Problem{Code: Mixed, Other: "USD"}},
		{"two prices", []Offer{offer(t, "glue", "16 oz", 899), offer(t, "glue", "1 pt", 799)}, Problem{Code: Unlike}},
	} {
		bill, problems, err := Reckon(lines, c.list, Settings{})
		if err != nil || len(problems) != 1 {
			t.Errorf("%s: %+v %v", c.name, problems, err)
			continue
		}
		p := problems[0]
		if p.Code != c.want.Code || p.Near != c.want.Near || p.Other != c.want.Other || p.Offer.Name != c.list[len(c.list)-1].Name {
			t.Errorf("%s: %+v", c.name, p)
		}
		if (p.Code == Unused) != (len(bill.Lines) > 0) {
			t.Errorf("%s: %d lines", c.name, len(bill.Lines))
		}
		if (p.Code == Unused) == (p.Line.Name != "") {
			t.Errorf("%s is about line %q", c.name, p.Line.Name)
		}
	}
}

// All is told at once, in the order of the offers.
func TestAllProblemsAtOnce(t *testing.T) {
	_, problems, _ := Reckon(shelf(t), []Offer{offer(t, "glue", "", 1), offer(t, "rope", "", 1), offer(t, "masking tape", "5", 1)}, Settings{})
	var codes []string
	for _, p := range problems {
		codes = append(codes, string(p.Code))
	}
	if got := strings.Join(codes, " "); got != "pack-none unused pack-other" {
		t.Error(got)
	}
}

// What is said later goes over what was said before, pack by pack; what is not
// said again stays.
func TestLaterOffersGo(t *testing.T) {
	shop := offer(t, "glue", "16 oz", 999)
	shop.From = "shop file"
	small := offer(t, "Glue", "8 oz", 450)
	small.From = "shop file"
	b := reckon(t, shelf(t), []Offer{shop, small, offer(t, "glue", "16 oz", 899), offer(t, "glue", "16 oz", 899)}, Settings{})
	p := b.Lines[2].Packs
	if len(p) != 2 || p[0].Price != usd(450) && p[1].Price != usd(450) {
		t.Fatalf("%+v", p)
	}
	for _, q := range p {
		if q.Pack.Text == "16 oz" && q.Price != usd(899) {
			t.Errorf("%+v", q)
		}
	}
}

// A price without a pack is that of the usual one.
func TestUsualPackIsMeant(t *testing.T) {
	b := reckon(t, shelf(t), []Offer{offer(t, "masking tape", "", 700)}, Settings{})
	if p := b.Lines[3].Packs[0]; p.Pack.Text != "60 yd" || b.Lines[3].Cost != usd(1400) {
		t.Errorf("%+v", p)
	}
}

func TestUsualPacks(t *testing.T) {
	systems := map[string]int{}
	last := UsualPack{}
	for _, u := range UsualPacks() {
		if u.Status == assume.Seen || u.Pack.From == "" {
			t.Errorf("%+v: nobody has seen it", u)
		}
		if u.Thing == last.Thing && u.Metric == last.Metric && u.Pack.Holds.N <= last.Pack.Holds.N {
			t.Errorf("%s: %s stands after %s", u.Thing, u.Pack.Text, last.Pack.Text)
		}
		if u.Thing == last.Thing && u.Pack.Holds.Measure != last.Pack.Holds.Measure {
			t.Errorf("%s is sold by %s and by %s", u.Thing, u.Pack.Holds.Measure, last.Pack.Holds.Measure)
		}
		bit := 1
		if u.Metric {
			bit = 2
		}
		systems[u.Thing] |= bit
		last = u
	}
	for thing, s := range systems {
		if s != 3 {
			t.Errorf("%s is sold in one system only", thing)
		}
	}
	if Usual("rope", true) != nil || len(Usual("glue", true)) != 3 {
		t.Error("usual packs of glue and rope")
	}
}

func TestPacksRefusals(t *testing.T) {
	for _, text := range []string{"", "thing,pack\n", packsHeader + "\nglue,us,8\n", packsHeader + "\nglue,us,a lot,memory,x\n", packsHeader + "\nglue,imperial,8 oz,memory,x\n",
		packsHeader + "\n,us,8 oz,memory,x\n", packsHeader + "\nglue,us,8 oz,rumour,x\n", packsHeader + "\nglue,us,8 oz,memory,\n"} {
		if p, err := parsePacks(text); err == nil {
			t.Errorf("%q: %+v", text, p)
		}
	}
}
