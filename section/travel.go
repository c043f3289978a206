package section

import (
	"errors"
	"slices"
)

// A Trip is a plan with the orders of work that go with it.
type Trip struct {
	Plan   Plan
	Shop   []Order // of each section
	Site   Order
	Strike Order
	// Closed lists seams that were closed in the shop because no order on site
	// could reach them. Fewest then holds among plans that close them.
	Closed []int
}

// Travel cuts a set piece into sections and arranges all the work. The site is
// the assembly of putting the sections up: its frames, seams and reaches, how it is
// put up, ballast, rates; its units are filled in. Where a seam blocks the site
// and closing it in the shop helps, that is done and all is worked out again.
// The error is a *[Stuck] or a *[Blocked] when there is no way.
func Travel(p Problem, site Assembly) (Trip, error) {
	site.Frames, site.Seams = p.Frames, p.Seams
	p.Seams = slices.Clone(p.Seams)
	var t Trip
	for {
		plan, err := Solve(p)
		if err != nil {
			return t, err
		}
		t.Plan = plan
		site.Units = nil
		for _, s := range plan.Sections {
			site.Units = append(site.Units, s.Frames)
		}
		t.Site, err = site.Arrange()
		var b *Blocked
		if errors.As(err, &b) && b.Seam >= 0 && slices.Contains(b.Helps, KeepTogether) {
			p.Seams[b.Seam].Shop = true
			t.Closed = append(t.Closed, b.Seam)
			continue
		}
		if err != nil {
			return t, err
		}
		return t, t.rest(site)
	}
}

// rest arranges the strike, and each section in the shop.
func (t *Trip) rest(site Assembly) (err error) {
	if t.Strike, err = site.Strike(); err != nil {
		return err
	}
	for _, s := range t.Plan.Sections {
		o, err := site.Within(s.Frames).Arrange()
		if err != nil {
			return err
		}
		t.Shop = append(t.Shop, o)
	}
	return nil
}
