package section_test

import (
	"errors"
	"slices"
	"testing"

	"bowerwright/section"
)

func TestTravel(t *testing.T) {
	p := grid(6, 3)
	p.Limits.Mass = 3
	site := section.Assembly{Way: section.BuiltUp, Ballast: 2, Rates: rates}
	trip, err := section.Travel(p, site)
	if err != nil {
		t.Fatal(err)
	}
	if got := said(trip.Plan); got != "A 0 1 2 | B 3 4 5; 6 screws; fewest, best of its ties" {
		t.Error(got)
	}
	if len(trip.Shop) != 2 || len(trip.Closed) != 0 {
		t.Errorf("%d shop orders, closed %v", len(trip.Shop), trip.Closed)
	}
	screws := trip.Site.Screws()
	for _, o := range trip.Shop {
		screws += o.Screws()
	}
	if all := 2 * len(p.Seams); screws != all || trip.Strike.Screws() != trip.Site.Screws() {
		t.Errorf("%d screws driven of %d, %d undone", screws, all, trip.Strike.Screws())
	}
}

// The seam between 1 and 4 is reached from nowhere on site: its frames travel
// as one, and the plan says so.
func TestTravelClosesWhatCannotBeReached(t *testing.T) {
	p := grid(6, 3)
	p.Limits.Mass = 3
	at := slices.IndexFunc(p.Seams, func(s section.Seam) bool { return s.A == 1 && s.B == 4 })
	site := section.Assembly{Way: section.BuiltUp, Rates: rates, Reach: make([][]section.Reach, len(p.Seams))}
	site.Reach[at] = []section.Reach{{From: "from behind", Lying: true}}
	trip, err := section.Travel(p, site)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(trip.Closed, []int{at}) || slices.Contains(trip.Plan.SiteSeams, at) {
		t.Errorf("closed %v, seam %d; %s", trip.Closed, at, said(trip.Plan))
	}
	p.Limits.Mass = 1
	_, err = section.Travel(p, site)
	var stuck *section.Stuck
	if !errors.As(err, &stuck) {
		t.Errorf("no room for it in a section: %v", err)
	}
	site.Way, site.Reach[at][0].Lying = section.Tilted, false
	p.Limits.Mass = 3
	var blocked *section.Blocked
	if _, err = section.Travel(p, site); !errors.As(err, &blocked) || blocked.Seam != at || blocked.Error() == "" {
		t.Errorf("not even in the shop: %v", err)
	}
}
