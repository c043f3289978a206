package jobfile

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// plant makes a tree that must have nothing to put right.
func plant(t *testing.T, src string) *node {
	t.Helper()
	p := planter{scanner: scanner{name: "a.yaml"}}
	root := p.parse([]byte(src))
	if len(p.list) > 0 {
		t.Fatal(p.list)
	}
	return root
}

// outline writes a tree as path line:column form text, a node a line.
func outline(n *node) string {
	var b strings.Builder
	var walk func(n *node)
	walk = func(n *node) {
		fmt.Fprintf(&b, "%s %d:%d %s %q", n.place.Path, n.place.Line, n.place.Column, n.form, n.text)
		if n.exact {
			b.WriteString(" exact")
		}
		b.WriteByte('\n')
		for _, e := range n.entries {
			walk(e.value)
		}
		for _, i := range n.items {
			walk(i)
		}
	}
	walk(n)
	return b.String()
}

func TestTree(t *testing.T) {
	src := strings.Join([]string{
		"a: 010",
		"b: \"x y\"   # comment",
		"c: 'it''s'",
		"d: |",
		"  two",
		"  lines",
		"e: [1_0, {f: g}]",
		"h:",
		"  - ⅜ in",
		"  - ~",
		"i: two",
		"  lines",
		"j k: 5' 6 1/2\"",
		"l:",
		"",
	}, "\n")
	want := strings.Join([]string{
		` 1:1 fields ""`,
		`a 1:4 a line "010" exact`,
		`b 2:5 a line "x y" exact`,
		`c 3:4 a line "it's"`,
		`d 4:4 a line "two\nlines"`,
		`e 7:4 a list ""`,
		`e[0] 7:5 a line "1_0" exact`,
		`e[1] 7:11 fields ""`,
		`e[1].f 7:14 a line "g" exact`,
		`h 9:3 a list ""`,
		`h[0] 9:5 a line "⅜ in" exact`,
		`h[1] 10:5 a line "~" exact`,
		`i 11:4 a line "two lines"`,
		`j k 13:6 a line "5' 6 1/2\"" exact`,
		`l 14:3 nothing ""`,
		``,
	}, "\n")
	if got := outline(plant(t, src)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestWithin: an offset into a text becomes a column that counts letters, not
// bytes.
func TestWithin(t *testing.T) {
	n := plant(t, "łódź: ⅜ inn").entries[0].value
	if got := n.within(len("⅜ ")).Column; got != 9 {
		t.Errorf("column %d", got)
	}
	folded := plant(t, "a: two\n  lines").entries[0].value
	if got := folded.within(5).Column; got != folded.place.Column {
		t.Errorf("a text over two lines has column %d", got)
	}
}

func TestComments(t *testing.T) {
	for src, want := range map[string]string{"a: #8 x": "#8 x", "a:   # why": "# why", "a:": "", "a:\nb: c": "", "a: ''": ""} {
		if got := plant(t, src).entries[0].value.comment; got != want {
			t.Errorf("%q has %q", src, got)
		}
	}
	items := plant(t, "a:\n  - #8\n  - b # c\n").entries[0].value.items
	if items[0].comment != "#8" || items[1].text != "b" {
		t.Errorf("%+v %+v", items[0], items[1])
	}
}

// TestDepth: the depth at the deepest token, by hand.
func TestDepth(t *testing.T) {
	for src, want := range map[string]int{
		"a: b": 1, "a:\n  b: c": 2, "a:\n  b: c\nd: e": 2, "a: [b]": 2, "a: [[b], {c: d}]": 3, "- - a": 2, "- a: b": 2,
		"a:\n- b\n- c": 1, "a:\n  - b: [c]": 4, "a: '[[['": 1, "a: b [[ c": 1, "a: 1 # [[[": 1,
	} {
		deep, most := depth{}, 0
		tokens := tokenize(src)
		for i := range tokens {
			most = max(most, deep.step(tokens, i))
		}
		if most != want {
			t.Errorf("%q is %d deep, not %d", src, most, want)
		}
	}
}

func TestNesting(t *testing.T) {
	for depth, deep := range map[int]bool{maxNesting - 1: false, maxNesting: true} {
		src := "a: " + strings.Repeat("[", depth) + strings.Repeat("]", depth)
		p := planter{scanner: scanner{name: "a.yaml"}}
		p.parse([]byte(src))
		if has(p.list, tooDeep) != deep {
			t.Errorf("%d brackets under a key: %v", depth, p.list)
		}
	}
}

func TestInvalidUTF8(t *testing.T) {
	for src, want := range map[string]int{"": -1, "abc": -1, "é\ufffd": -1, "a\xff": 1, "é\xc3": 2, "\x80": 0} {
		if got := invalidUTF8([]byte(src)); got != want {
			t.Errorf("%q: %d", src, got)
		}
	}
	if p := placeOf([]byte("ab\né\xff"), 5); p.Line != 2 || p.Column != 2 {
		t.Errorf("%+v", p)
	}
}

func TestSplit(t *testing.T) {
	for src, want := range map[string][]word{
		"": nil, "  ": nil, "a": {{"a", 0}}, " a  b ": {{"a", 1}, {"b", 4}}, "a,b , c": {{"a", 0}, {",", 1}, {"b", 2}, {",", 4}, {"c", 6}},
		"⅜\u00a0in": {{"⅜", 0}, {"in", 5}},
	} {
		if got := split(src); !slices.Equal(got, want) {
			t.Errorf("%q splits into %v", src, got)
		}
	}
}
