package making

import (
	"slices"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/frame"
	"bowerwright/layout"
	"bowerwright/snag"
	"bowerwright/stock"
	"bowerwright/unit"
)

// rates changes the built-in rates.
func rates(change func(*Rates)) Rates {
	r := builtIn()
	change(&r)
	return r
}

// Every code is made by something a user could ask for, says its figures and
// what helps, and is listed for the docs.
func TestEveryProblem(t *testing.T) {
	seen := map[Code]bool{}
	one := func(f frame.Frame) Kind { return Kind{Name: "it", Frame: f, Count: 1} }
	with := func(f frame.Frame, c Corner) Kind { k := one(f); k.Corner = c; return k }
	by := func(f frame.Frame, m Method) Kind { k := one(f); k.Method = m; return k }
	onCorner := one(built(t, oneByFour)(frame.Regular(6, frame.Flats, inches(18), frame.OnCorner, oneByFour.Depth())))
	hex := one(hexagon(t, 18, oneByFour))
	apart := []layout.Place{at("A", "it", 0, 0), at("B", "it", 900, 900)}
	thin := frame.Boards{Thickness: unit.Inch / 4, Width: 2 * unit.Inch}
	slim := frame.Boards{Thickness: unit.Inch / 4, Width: 2 * unit.Inch, OnEdge: true}
	round := Kind{Name: "it", Frame: regular(t, 12, 10, flatFour), Count: 1, Ring: Ring{Outside: 36 * in, Inside: 32 * in}}
	sawn := func(c Corner) Kind { k := round; k.Corner = c; return k }
	for _, c := range []struct {
		code   Code
		kind   Kind
		shop   Shop
		places []layout.Place
		say    string // a part of what is said
	}{
		{TooCold, hex, Shop{Rates: rates(func(r *Rates) { r.Glue.Shop = 6.5 })}, nil, "6.5 °C (43.7 °F) and the glue wants 10 °C (50 °F)"},
		{OpenShort, hex, Shop{Rates: rates(func(r *Rates) { r.Glue.Open20 = 1 })}, nil, "open for 1 min and what must be closed together takes 1.7 min"},
		{BeyondLimit, by(regular(t, 6, 16.25, oneByFour), Rolled), Shop{}, nil, "the row 97 1/2 in, at most 96 in"},
		{BeyondLimit, by(regular(t, 3, 25, oneByFour), Rolled), Shop{}, nil, "the longest side 25 in, at most 24 in"},
		{BeyondLimit, by(hexagon(t, 18, thick), Rolled), Shop{}, nil, "the boards' thickness 1 1/16 in, at most 1 in"},
		{BeyondLimit, by(hexagon(t, 18, flatFour), Rolled), Shop{}, nil, "laid on tape and rolled: boards lie flat"},
		{BeyondLimit, by(hexagon(t, 18, flatFour), Strapped), Shop{}, nil, "too few or too short: 1, at most 0"},
		{BeyondLimit, by(regular(t, 5, 10, flatFour), Halves), Shop{}, nil, "two halves: odd sides"},
		{BeyondLimit, by(regular(t, 5, 10, flatFour), InLayers), Shop{}, nil, "in layers: a single layer"},
		{BeyondLimit, Kind{Name: "it", Frame: hexagon(t, 18, flatFour), Count: 1, Method: Halves, Layers: 2}, Shop{}, nil, "two halves: several layers"},
		{NoTruing, by(built(t, flatFour)(frame.Rectangle(inches(30), inches(18))), Halves), Shop{}, nil, "lie in one line"},
		{BradRoom, with(regular(t, 12, 7, oneByFour), Brads), Shop{}, nil, "no brad"},
		{BlockFlat, with(hexagon(t, 18, flatFour), Blocks), Shop{}, nil, "3/4 in from front to back and a corner block wants 2 in"},
		{BlockBevel, with(regular(t, 12, 7, oneByFour), Blocks), Shop{}, nil, "bevelled by 60° and 45° is the most"},
		{PlateRoom, with(hexagon(t, 18, oneByFour), Plates), Shop{}, nil, "the shortest is 2 in"},
		{SplineRoom, with(regular(t, 4, 8, thin), Splines), Shop{}, nil, "1/4 in from front to back and wants 3/8 in"},
		{SplineRoom, with(regular(t, 12, 1.5, slim), Splines), Shop{}, nil, "in from the tip and wants 1/4 in"},
		{CornerRound, sawn(Splines), Shop{}, nil, "takes no splines"},
		{CornerRound, sawn(Brads), Shop{}, nil, "takes no brads"},
		{CornerRound, sawn(Blocks), Shop{}, nil, "takes no corner blocks"},
		{StraightShort, hex, Shop{Rates: rates(func(r *Rates) { r.Laying.Straight = 8 * in })}, apart[:1], "10 3/8 in long and the longest straight length is 8 in"},
		{NoneStands, onCorner, Shop{}, apart[:1], "no side stands"},
		{LaysApart, hex, Shop{}, apart, "no seam joins it"},
	} {
		var l layout.Layout
		if c.places != nil {
			l = lay(t, []Kind{c.kind}, c.places...)
		}
		_, problems, err := Make([]Kind{c.kind}, l, c.shop)
		if err != nil || len(problems) != 1 || problems[0].Code != c.code {
			t.Errorf("%s: %+v, %v", c.code, problems, err)
			continue
		}
		problem, remedy := problems[0].Text(unit.Style{Mark: unit.Inch / 32})
		if !strings.Contains(problem, c.say) || remedy == "" || strings.HasSuffix(problem, ".") || strings.HasSuffix(remedy, ".") {
			t.Errorf("%s says %q; %q", c.code, problem, remedy)
		}
		if stops := !slices.Contains([]Code{StraightShort, NoneStands, LaysApart}, c.code); problems[0].Stops() != stops {
			t.Errorf("%s: stops %t", c.code, !stops)
		}
		if !slices.ContainsFunc(Snags, func(k snag.Kind) bool { return k.Code == string(c.code) }) {
			t.Errorf("%s is not listed", c.code)
		}
		seen[c.code] = true
	}
	if len(seen) != len(Snags) {
		t.Errorf("%d codes are made, %d are listed", len(seen), len(Snags))
	}
	if _, err := snag.Merge(Snags); err != nil {
		t.Error(err)
	}
}

// What a problem of open time proposes helps: with so many people it is gone,
// and with one fewer it is not.
func TestHandsHelp(t *testing.T) {
	for _, open := range []float64{0.3, 0.6, 1, 1.5} {
		r := rates(func(r *Rates) { r.Glue.Open20 = open })
		k := Kind{Name: "it", Frame: hexagon(t, 18, oneByFour), Count: 2, Method: Rolled}
		_, problems, err := Make([]Kind{k}, layout.Layout{}, Shop{Rates: r})
		if err != nil || len(problems) != 1 {
			t.Fatalf("%+v %v", problems, err)
		}
		hands := problems[0].Hands
		if p := problems[0]; p.Need != 5 || p.Room != open { // 6 joints of 50 s
			t.Errorf("%g min: %+v", open, p)
		}
		if hands > 2 {
			_, two, _ := Make([]Kind{k}, layout.Layout{}, Shop{Rates: r, People: 2})
			if two[0].Need != 2.5 {
				t.Errorf("two people take %g min", two[0].Need)
			}
		}
		if got := codes(t, Shop{Rates: r, People: hands}, layout.Layout{}, k); got != "" {
			t.Errorf("%g min: %d people: %s", open, hands, got)
		}
		if got := codes(t, Shop{Rates: r, People: hands - 1}, layout.Layout{}, k); got != string(OpenShort) {
			t.Errorf("%g min: %d people: %q", open, hands-1, got)
		}
	}
}

// All problems come at once, the shop's first, one for all alike corners.
func TestProblemsComeTogether(t *testing.T) {
	r := rates(func(r *Rates) { r.Glue.Shop, r.Laying.Straight = 2, in })
	kinds := []Kind{{Name: "a", Frame: hexagon(t, 18, flatFour), Count: 1, Corner: Blocks, Method: Rolled}, {Name: "b", Frame: regular(t, 12, 7, oneByFour), Count: 1, Corner: Brads}}
	l := lay(t, kinds, at("A", "a", 0, 0), at("B", "b", 2000, 0))
	want := "making-glue-cold making-method-limit making-block-flat making-brad-room making-straight-short"
	if got := codes(t, Shop{Rates: r}, l, kinds...); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// The zero Shop has the built-in rates, in mm, mm², minutes, °C and ml.
func TestRates(t *testing.T) {
	r := Shop{}.withDefaults().Rates
	if r != builtIn() {
		t.Errorf("%+v", r)
	}
	for what, x := range map[string][2]float64{
		"open": {r.Glue.Open20, 10}, "face": {r.Glue.Face, 1.0 / 3}, "full": {r.Glue.Full, 1440}, "row": {r.Glue.Row, 96 * in},
		"coverage": {r.Glue.Coverage, 6100}, "spread": {r.Glue.Spread, 1e5}, "waste": {r.Glue.Waste, 0.25}, "finish": {r.Finish.Coverage, 10000},
		"tolerance": {r.Tolerance, in / 32}, "bevel": {r.Corner.Bevel.Degrees(), 45}, "blanket": {r.Laying.Blanket, 3.7e6}, "grit": {float64(r.Sanding.Between), 320},
	} {
		wantNear(t, what, x[0], x[1], 1e-9*max(1, x[1]))
	}
}

// Every assumption about making is read, so that none is shown that changes
// nothing.
func TestEveryRateIsRead(t *testing.T) {
	b := assume.BuiltInBook()
	reader := b.Reader()
	RatesFrom(reader)
	read := map[assume.ID]bool{}
	for _, v := range reader.Used() {
		read[v.ID] = true
	}
	for _, id := range b.IDs() {
		topic, _, _ := strings.Cut(string(id), ".")
		if slices.Contains([]string{"glue", "roll", "corner", "filler", "sand", "finish", "lay", "shop"}, topic) && !read[id] {
			t.Errorf("%s is never read", id)
		}
	}
}

func TestOddUnitPanics(t *testing.T) {
	for _, row := range []string{"corner.tolerance,x,1,deg,0,2,memory,a book,", "glue.open,x,1,furlong,0,2,memory,a book,"} {
		b, err := assume.Parse("id,name,value,unit,low,high,status,source,note\n" + row + "\n")
		if err != nil {
			t.Fatal(err)
		}
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s is read", row)
				}
			}()
			k := book{b.Reader()}
			if b.IDs()[0] == assume.JointTolerance {
				k.mm(assume.JointTolerance)
			} else {
				k.in(assume.GlueOpen)
			}
		}()
	}
}

// Six hexagons by hand: glue, tape, filler, abrasive and finish; splines and
// plates by the piece; a wall's masking tape and blankets.
func TestAmounts(t *testing.T) {
	f := hexagon(t, 18, oneByFour)
	a := areasOf(Kind{Frame: f, Layers: 1})
	kinds := []Kind{{Name: "hex", Frame: f, Count: 6, Corner: Splines}}
	l := lay(t, kinds, at("A", "hex", 0, 0), on("B", "hex", 5, "A", 2), on("C", "hex", 6, "A", 3))
	small := rates(func(r *Rates) { r.Laying.Blanket = 0.03e6 }) // so that a wrong area shows in their number
	p, problems, err := Make(kinds, l, Shop{Rates: small})
	if err != nil || len(problems) > 0 {
		t.Fatal(problems, err)
	}
	got := map[string]Amount{}
	for _, x := range p.Amounts {
		got[strings.TrimSpace(x.Item+" "+x.Name)] = x
	}
	sanded := 6 * float64(a.Sanded())
	painted := sanded - float64(p.Finish.Seams)
	ceil := func(x float64) float64 { return float64(int(x) + 1) }
	for what, want := range map[string]float64{
		"glue": 6 * p.Kinds[0].Corners.Glue, "gluing tape": 6 * 2 * (62.25 + 8) * in / 1000, "splines": 2 * 36, "filler": 6 * 6 * 3,
		"abrasive 120 grit": ceil(sanded / 1e6), "abrasive 180 grit": ceil(sanded / 1e6), "abrasive 320 grit": ceil(2 * painted / 1e6),
		"finish": painted * 3 / 1e6 / 10 * 1.1, "masking tape": 2 * 6 * 10.375 * in / 1000,
		"blankets": ceil((l.Width + 24*in) * (l.Height + 24*in) / 0.03e6), "known-straight length": 1,
	} {
		wantNear(t, what, got[what].Quantity, want, 1e-3)
		delete(got, what)
	}
	// All six frames are pressed at one time: two go in every 19 minutes and hold for 60.
	box := f.Built.Corners.Box()
	wantNear(t, "waxed sheet", got["waxed sheet"].Quantity, 6*(box.Width()+8*in)*(box.Height()+8*in)/1e6, 1e-6)
	delete(got, "waxed sheet")
	if len(got) > 0 {
		t.Errorf("also %+v", got)
	}
}

// Plates bring their screws, blocks are counted by how they are cut.
func TestCornerAmounts(t *testing.T) {
	p := plan(t, Shop{}, Kind{Name: "flat", Frame: hexagon(t, 18, flatFour), Count: 2, Corner: Plates},
		Kind{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 3, Corner: Blocks}, Kind{Name: "four", Frame: regular(t, 4, 10, oneByFour), Count: 1, Corner: Blocks},
		Kind{Name: "pin", Frame: regular(t, 4, 10, oneByFour), Count: 5, Corner: Brads})
	var lines []string
	for _, x := range p.Amounts {
		if x.Unit == "pieces" {
			lines = append(lines, strings.Join([]string{x.Item, x.Name, assume.Number(x.Quantity), x.Bevel.String()}, " "))
		}
	}
	want := "plates 4 in mending plate 12 0°; screws No. 6 x 3/4 in 48 0°; corner blocks  18 30°; corner blocks  4 0°; brads 18 gauge brad x 1 1/4 in 40 0°"
	if got := strings.Join(lines, "; "); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// A catalogue without brads has none that fit.
func TestEmptyCatalogue(t *testing.T) {
	for _, c := range []Corner{Brads, Plates} {
		k := Kind{Name: "it", Frame: regular(t, 4, 10, flatFour), Count: 1, Corner: c}
		if got := codes(t, Shop{Catalogue: &stock.Catalogue{}}, layout.Layout{}, k); got == "" {
			t.Errorf("%s are found in nothing", c)
		}
	}
}
