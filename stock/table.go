package stock

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"bowerwright/assume"
)

// A table holds rows in order, found by any of their keys. It is copied before
// it is changed.
type table[T any] struct {
	rows []T
	at   map[string]int
}

func (t table[T]) find(key string) (T, bool) {
	i, ok := t.at[key]
	if !ok {
		var none T
		return none, false
	}
	return t.rows[i], true
}

// keys lists the keys in the order of the rows, those of one row by alphabet.
func (t table[T]) keys() []string {
	return slices.SortedFunc(maps.Keys(t.at), func(a, b string) int {
		return cmp.Or(cmp.Compare(t.at[a], t.at[b]), cmp.Compare(a, b))
	})
}

// put gives a table with the row in place of the one that has its first key,
// or at the end. Further keys lead to it only where they are free. A row of a
// later origin is not replaced.
func (t table[T]) put(row T, origin func(T) assume.Origin, keys ...string) table[T] {
	next := table[T]{slices.Clone(t.rows), maps.Clone(t.at)}
	if next.at == nil {
		next.at = map[string]int{}
	}
	i, known := next.at[keys[0]]
	switch {
	case known && origin(next.rows[i]) > origin(row):
		return t
	case known:
		next.rows[i] = row
	default:
		i = len(next.rows)
		next.rows = append(next.rows, row)
	}
	next.at[keys[0]] = i
	for _, k := range keys[1:] {
		if _, taken := next.at[k]; !taken {
			next.at[k] = i
		}
	}
	return next
}

// sizeKey brings the ways to write a nominal name to one: 1x4.
func sizeKey(name string) string {
	name = strings.ToLower(name)
	name = strings.NewReplacer("×", "x", " by ", "x", "\u00a0", "", "\u202f", "").Replace(name)
	return strings.Join(strings.Fields(name), "")
}

// sheetKey brings the ways to write a sheet's name to one: 3/4 plywood.
func sheetKey(name string) string {
	name = strings.NewReplacer(`"`, " ", "″", " ", "”", " ", "-", " ", "\u00a0", " ").Replace(strings.ToLower(name))
	var words []string
	for _, w := range strings.Fields(name) {
		switch w {
		case "in", "in.", "inch":
		case "ply":
			words = append(words, "plywood")
		default:
			words = append(words, w)
		}
	}
	return strings.Join(words, " ")
}

// speciesKey brings the ways to write a species to one: spruce pine fir.
func speciesKey(name string) string {
	name = strings.NewReplacer("-", " ", "\u00a0", " ").Replace(strings.ToLower(name))
	return strings.Join(strings.Fields(name), " ")
}

// An Item is a row that With can take: a Size, Sheet, Species, Sold, Screw or
// Fastener.
type Item interface {
	check() error
	put(c *Catalogue, origin assume.Origin)
}

// With gives a catalogue in which the items stand over rows of the same name,
// each marked with the origin that brought it. A row of a later origin stays,
// so that the shop's and the job's rows may come in any order. An item that is
// no sensible size is an error, and nothing is changed.
func (c Catalogue) With(origin assume.Origin, items ...Item) (Catalogue, error) {
	next := c
	for _, item := range items {
		if err := item.check(); err != nil {
			return c, err
		}
		item.put(&next, origin)
	}
	return next, nil
}

// from marks a row as brought by origin; built-in rows keep their own.
func (p *Provenance) from(origin assume.Origin) {
	p.Origin = origin
	if p.Source == "" {
		p.Source = origin.String()
	}
}

func (s Size) put(c *Catalogue, origin assume.Origin) {
	s.from(origin)
	c.sizes = c.sizes.put(s, func(s Size) assume.Origin { return s.Origin }, sizeKey(s.Name))
}

func (s Sheet) put(c *Catalogue, origin assume.Origin) {
	s.from(origin)
	s.Area.from(origin)
	c.sheets = c.sheets.put(s, func(s Sheet) assume.Origin { return s.Origin }, sheetKey(s.Name))
}

func (s Species) put(c *Catalogue, origin assume.Origin) {
	s.from(origin)
	keys := []string{speciesKey(s.Name)}
	for _, name := range s.Also {
		keys = append(keys, speciesKey(name))
	}
	c.species = c.species.put(s, func(s Species) assume.Origin { return s.Origin }, keys...)
}

func (s Sold) put(c *Catalogue, origin assume.Origin) {
	s.from(origin)
	sold := slices.Clone(c.sold)
	sold = slices.DeleteFunc(sold, func(o Sold) bool {
		return o.Region == s.Region && o.Length == s.Length && o.Origin <= origin
	})
	if !slices.ContainsFunc(sold, func(o Sold) bool { return o.Region == s.Region && o.Length == s.Length }) {
		sold = append(sold, s)
	}
	slices.SortStableFunc(sold, func(a, b Sold) int {
		return cmp.Or(cmp.Compare(a.Region, b.Region), cmp.Compare(a.Length, b.Length))
	})
	c.sold = sold
}
