package pack

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// A shop instance is plain lengths over several priced boards, with its least
// cost: made by the seed in its name and proved by two programs that share
// nothing with this one.
type shopInstance struct {
	name     string
	supplies []Supply
	least    int64
}

// parseShop reads a line "name | room:cost:limit ... | length*count ... | cost".
func parseShop(t testing.TB, line string) shopInstance {
	f := strings.Split(line, "|")
	if len(f) != 4 {
		t.Fatalf("line %q", line)
	}
	c := shopInstance{name: strings.TrimSpace(f[0])}
	scan := func(text, format string, to ...any) {
		if _, err := fmt.Sscanf(text, format, to...); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
	}
	var kinds []Kind
	all := 0
	for _, w := range strings.Fields(f[2]) {
		k := Kind{Ways: []Way{{0, 0}}}
		scan(w, "%d*%d", &k.Length, &k.Need)
		all += k.Need
		kinds = append(kinds, k)
	}
	slices.SortFunc(kinds, func(a, b Kind) int { return int(a.Length - b.Length) })
	for _, w := range strings.Fields(f[1]) {
		var room, cost int64
		limit := 0
		scan(w, "%d:%d:%d", &room, &cost, &limit)
		if limit < 0 {
			limit = all
		}
		in := plainInstance(room)
		in.Kinds = kinds
		c.supplies = append(c.supplies, Supply{Plan: in, Bound: in, Weight: cost, Limit: limit})
	}
	scan(strings.TrimSpace(f[3]), "%d", &c.least)
	return c
}

// The shop instances are proved, every one, at the cost two other programs
// found.
func TestShop72(t *testing.T) {
	for _, line := range lines(t, "shop72", "", 1) {
		c := parseShop(t, line)
		r := Share(bg, c.supplies, budget)
		if r.None || r.Weight != c.least || r.Bound != c.least {
			t.Errorf("%s: %d, bound %d; least %d", c.name, r.Weight, r.Bound, c.least)
		}
	}
}
