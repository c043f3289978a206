package making

import (
	"reflect"
	"slices"
	"testing"

	"bowerwright/assume"
	"bowerwright/layout"
)

// Whatever the kinds and corners: an assumption that is not listed as used may
// have any value in its range, and the plan stays as it is.
func TestUsedIsAllThatCounts(t *testing.T) {
	kinds, l := comb(t)
	flat := []Kind{{Name: "flat", Frame: hexagon(t, 18, flatFour), Count: 2}}
	large := []Kind{{Name: "large", Frame: hexagon(t, 42, oneByFour), Count: 1}}
	with := func(ks []Kind, c Corner) []Kind {
		out := slices.Clone(ks)
		out[0].Corner = c
		return out
	}
	for name, c := range map[string]struct {
		kinds []Kind
		l     layout.Layout
		coats float64
		warm  float64
	}{
		"rolled, laid out": {kinds, l, 3, 20}, "warm, bare": {kinds, l, 0, 31}, "one coat": {kinds, l, 1, 20},
		"brads": {with(kinds, Brads), l, 3, 20}, "blocks": {with(kinds, Blocks), l, 3, 20}, "splines": {with(kinds, Splines), l, 3, 20},
		"plates": {with(flat, Plates), layout.Layout{}, 3, 20}, "halves": {large, layout.Layout{}, 3, 20}, "flat": {flat, layout.Layout{}, 3, 12},
	} {
		book := assuming(t, assuming(t, assume.BuiltInBook(), assume.FinishCoats, c.coats), assume.ShopTemperature, c.warm)
		base := planOf(t, book, c.kinds, c.l)
		used := base.Used(Shop{Rates: RatesFrom(book.Reader())})
		for _, v := range book.Values() {
			if slices.Contains(used, v.ID) || !known(v.ID) {
				continue
			}
			for _, x := range []float64{v.Low, (v.Low + v.High) / 2, v.High} {
				if !reflect.DeepEqual(planOf(t, assuming(t, book, v.ID, x), c.kinds, c.l), base) {
					t.Errorf("%s: %s is not listed as used, and %g changes the plan", name, v.ID, x)
				}
			}
		}
		if i := slices.IndexFunc(used, func(id assume.ID) bool { return !known(id) }); i >= 0 {
			t.Errorf("%s: %s is listed and never read", name, used[i])
		}
		if all := rated(); len(used) > all-5 { // no job uses the assumptions of every corner
			t.Errorf("%s: %d assumptions of %d are listed", name, len(used), all)
		}
	}
}

// rated is how many assumptions RatesFrom reads.
func rated() int {
	r := assume.BuiltInBook().Reader()
	RatesFrom(r)
	return len(r.Used())
}

// known tells whether RatesFrom reads an assumption.
func known(id assume.ID) bool {
	r := assume.BuiltInBook().Reader()
	RatesFrom(r)
	return slices.ContainsFunc(r.Used(), func(v assume.Value) bool { return v.ID == id })
}

func assuming(t *testing.T, b assume.Book, id assume.ID, x float64) assume.Book {
	t.Helper()
	next, err := b.With(assume.Job, id, x)
	if err != nil {
		t.Fatal(err)
	}
	return next
}

func planOf(t *testing.T, b assume.Book, kinds []Kind, l layout.Layout) Plan {
	t.Helper()
	p, _, err := Make(kinds, l, Shop{Rates: RatesFrom(b.Reader())})
	if err != nil {
		t.Fatal(err)
	}
	return p
}
