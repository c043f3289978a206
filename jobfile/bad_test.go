package jobfile

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowerwright/snag"
)

var update = flag.Bool("update", false, "write the goldens of bad files")

// top is the shortest beginning of a job in which only what a case adds can
// be wrong.
const top = "bowerwright: 1\nname: Test wall\nunit: in\n"

const timber = "timber:\n  pine: {board: 1x4, length: 8 ft}\n"

const frames = "frames:\n  big: {shape: hexagon, flats: 18}\n  small: {shape: hexagon, flats: 9}\n"

// layout places two frames; lines are added under it.
const lay = top + timber + frames + "layout:\n  B1: big at 0, 0\n  B2: big side 1 on B1 side 4\n"

// kindOf makes a job whose frame "mine" has these fields.
func kindOf(fields string) string {
	return top + timber + "frames:\n  mine:\n    " + strings.ReplaceAll(fields, "\n", "\n    ") + "\nlayout:\n  M1: mine at 0, 0\n"
}

// sawOf makes a job with this saw.
func sawOf(fields string) string {
	return lay + "saw:\n  " + strings.ReplaceAll(fields, "\n", "\n  ") + "\n"
}

// badFiles are files with something to put right; what is said about each is
// in testdata/bad.
var badFiles = []struct{ name, src string }{
	{"nothing", ""},
	{"comma-in-braces", lay + "saw: {swing: 50 left, 60 right, kerf: 1/8 in}\n"},
	{"whole-assumptions", lay + "assume: {finish.coats: 2.5, buying.masks: 1.5}\n"},
	{"layout-in-braces", top + timber + frames + "layout: {B1: big at 0 in, 0 in}\n"},
	{"inserts-at-a-seam", lay + "fixing: {seams: {B1 and B2: inserts}}\n"},
	{"only-comments", "# nothing yet\n"},
	{"not-utf8", top + "venue: caf\xe9\n"},
	{"utf16", "\xff\xfeb\x00o\x00"},
	{"nul", top + "venue: a\x00b\n"},
	{"escape", top + "venue: \x1b[31mred\n"},
	{"tabs", top + "saw:\n\tkerf: 1/8 in\n\thold: 8 in\n"},
	{"brackets", top + "note: " + strings.Repeat("[", 60) + "\n"},
	{"brackets-mixed", strings.Repeat("{a: [", 40)},
	{"dashes", top + "people:\n" + strings.Repeat("- ", 70) + "a\n"},
	{"indents", staircase(60)},
	{"too-big", top + "note: " + strings.Repeat("x", MaxBytes)},
	{"too-many-fields", top + strings.Repeat("a: b\n", maxKeys+1)},
	{"second-document", lay + "---\nname: Other\n"},
	{"end-of-document", lay + "...\n"},
	{"yaml-features", top + "maker: &m Wren\nvenue: *m\nfor: !!str Ida\n<<: {note: a}\n? note\n: b\n"},
	{"directive", "%YAML 1.2\n---\n" + top},
	{"stars-are-quoted", top + "note: *great* stuff\n"},
	{"list-key", top + "[a, b]: c\n"},
	{"root-is-a-list", "- bowerwright: 1\n"},
	{"root-is-a-line", "a wall of hexagons\n"},
	{"open-quote", top + "venue: \"The barn\nmaker: Wren\n"},
	{"open-quote-single", top + "venue: 'The barn\nmaker: Wren\n"},
	{"inch-mark-first", sawOf("kerf: \"1/8\" in")},
	{"open-bracket", top + "people: [{name: Ida}\n"},
	{"stray-bracket", top + "people: ]\n"},
	{"two-colons", top + "venue: Barn: the long one\n"},
	{"no-colon", top + "venue The barn\nmaker: Wren\n"},
	{"no-space-after-colon", top + "venue:The barn\nmaker: Wren\n"},
	{"bad-indent", top + "saw:\n  kerf: 1/8 in\n    hold: 8 in\n"},
	{"outdent", "  bowerwright: 1\nname: Test wall\n"},
	{"at-sign", top + "maker: @wren\n"},
	{"percent-sign", top + "maker: %wren\n"},
	{"dash-in-line", top + "maker: - Wren\n"},

	{"no-version", "name: Test wall\n" + timber + frames + "layout:\n  B1: big at 0 in, 0 in\n"},
	{"version-not-first", "name: Test wall\nbowerwright: 1\n"},
	{"version-newer", "bowerwright: 7\nsurprises: many\n"},
	{"version-word", "bowerwright: one\nname: Test wall\n"},
	{"version-0", "bowerwright: 0\nname: Test wall\n"},
	{"shop-file-as-job", "bowerwright-shop: 1\nsaw: {kerf: 1/8 in}\n"},

	{"unknown-fields", lay + "vennue: The barn\nshinglez: 3\n"},
	{"unknown-in-groups", sawOf("kurf: 1/8 in\ntakes: {liing: {0: 1 in x 2 in}}") + "people: [{nam: Ida, name: Ida}]\n"},
	{"duplicates", lay + "venue: A\nvenue: B\nsaw: {kerf: 1/8 in, kerf: 1/4 in}\nassume: {saw.error: 0.2, saw.error: 0.3}\n"},
	{"duplicate-frames", lay + "  B1: small at 9, 9\n"},
	{"missing", "bowerwright: 1\n"},
	{"missing-in-groups", lay + "test corner: {arms: 14 in}\npeople: [{does: saws}]\n"},
	{"empty-values", lay + "venue:\nsaw:\n  kerf:\n  detents: [1, ]\npeople:\n  -\n"},
	{"hash-values", lay + "venue: #4 Mill Lane\npeople:\n  - # nobody\n"},
	{"wrong-types", lay + "venue: [a, b]\nmaker: {a: b}\nsaw: the old one\npeople: Ida\ndriver: [1]\nassume: 5\ncopies: {a: b}\nfamilies: big, small\n"},
	{"wrong-types-inside", top + "timber: {pine: 1x4}\nframes: {big: hexagon}\nlayout: {B1: {kind: big}}\n"},
	{"layout-is-a-list", top + timber + frames + "layout:\n  - big at 0, 0\n"},
	{"strange-numbers", sawOf("detents: [010, 0x10, 1_000, 1e1, .inf, .nan, 0o17, -.inf]\nkerf: 0.1e1")},
	{"strange-lengths", kindOf("shape: rectangle\nwidth: 1_000 mm\nheight: 010 in") + "  M2: mine at 0x10, 0\n"},
	{"lengths", kindOf("shape: elongated hexagon\nwidth: 10 3/8 ins\nheight: 2,4 m\nuprights: ten inches")},
	{"length-without-unit", "bowerwright: 1\nname: Test wall\n" + timber + frames + "layout:\n  B1: big at 0, 0\n"},
	{"length-range", kindOf("shape: square\nside: 200 m") + "saw: {kerf: 2 in}\njoint tolerance: -1/32\n"},
	{"length-null", kindOf("shape: square\nside: ~")},
	{"angles", sawOf("swing: 50 left, 60\ntilt: forty\ndetents: [120, -5, 45 rad]")},
	{"counts", kindOf("shape: regular\nsides: 25\nflats: 18\nspare: 1.5")},
	{"words", strings.Replace(lay, "unit: in", "unit: inch", 1) + "show: metrics\npaper: A5\nsaw: {scale: long, stop: middle, clamp: maybe}\n"},
	{"marks", lay + "mark: 1/10 in\n"},
	{"dates", lay + "date: 22.5.2027\n"},
	{"date-not-there", lay + "date: 2027-02-30\n"},
	{"texts", lay + "venue: " + strings.Repeat("far ", 40) + "\nmaker: |\n  Wren\n  Alder\nfor: \"\"\n"},
	{"names", top + "timber:\n  my pine: {board: 1x4}\n  side: {board: 1x4}\nframes:\n  7up: {shape: square, side: 3}\n  '': {shape: square, side: 3}\n"},
	{"pairs", sawOf("takes: {lying: {0: 12 in, 30: 12 in by 3 in, 95: 1 in x 1 in, 45: 12 x, 90: 2 m x 1 in}}")},
	{"trims", top + frames + "timber:\n  oak: {board: 1x4, trim: 1 in left}\n  ash: {board: 1x4, trim: \"1 in first, 2 in near\"}\n  elm: {board: 1x4, trim: \"1 in first, 20 in far\"}\n"},
	{"timber", top + frames + "timber:\n  a: {board: 1x44}\n  b: {length: 8 ft}\n  c: {board: 1x4, species: estern white pine, moisture: 12, price: 4.49, turning: sometimes, length: 1 in}\n  d: {thickness: 3/4}\n  e: {board: plank, moisture: 80 %, price: -1 USD}\n"},
	{"stock-lines", top + frames + "timber:\n  a: {board: 1x4, lengths: [8 ft at, at $3, at most 6, unusable 3 in to 4 in, \"8 ft at $4.49, at most none\", 8 ft at 4.49 at most 0, 1 in, 8 feat, \"8 ft, 10 ft\", 8 ft at -1 USD, [8 ft], 010 ft]}\n" +
		"  b: {board: 1x4, on hand: [0 of 41 in, three of 41 in, 3 of, 41, 60 in at one dollar, \"41 in, at most 3\", 2 of 99999999 in]}\n" +
		"  c: {board: 1x4, on hand: [\"96 in, unusable\", \"96 in, unusable 31 in\", \"96 in unusable 33 in to 31 in\", \"96 in, unusable 90 in to 97 in\", \"96 in, unusable 1 in to 2 in and\", \"3 of 96 in, unusable 1 in to 2 in\", \"96 in at $1, unusable 1 in to 2 in\", \"96 in, unusable 1 in to 2 in, 3 in to x\"]}\n"},
	{"stock-fields", top + frames + "timber:\n  a: {board: 1x4, length: 8 ft, price: $4, lengths: [8 ft]}\n  b: {board: 1x4, lengths: 8 ft, on hand: 41 in, spare parts: -1, reject: 60 %}\n  c: {board: 1x4, spare parts: some, reject: few}\ncutting: fewest\n"},
	{"stock-many", top + frames + "timber:\n  a: {board: 1x4, lengths: [" + strings.Repeat("8 ft, ", 45) + "8 ft], on hand: [\"96 in, unusable " + strings.Repeat("1 in to 2 in and ", 25) + "3 in to 4 in\"]}\n"},
	{"currency", lay + "currency: XXQ\n"},
	{"assumptions", lay + "assume: {saw.eror: 0.25, saw.error: 20, saw.hold: 8 deg, board.moisture: wet, cut.kerf: 1/8 in}\n"},

	{"shape-missing", kindOf("flats: 18\nboards: flt")},
	{"shape-unknown", kindOf("shape: hexagone\nflats: 18\nbords: flat")},
	{"diameter-even", kindOf("shape: hexagon\ndiameter: 18")},
	{"diameter-odd", kindOf("shape: triangle\ndiameter: 18")},
	{"diameter-ring", kindOf("shape: ring\nsegments: 12\ndiameter: 18")},
	{"diameter-arch", kindOf("shape: arch\nsegments: 8\ndiameter: 18")},
	{"diameter-house", kindOf("shape: house\nwidth: 40\neaves: 50\nridge: 60\ndiameter: 18")},
	{"flats-of-odd", kindOf("shape: pentagon\nflats: 18")},
	{"points-of-odd-regular", kindOf("shape: regular\nsides: 9\npoints: 18")},
	{"measure-of-another", kindOf("shape: hexagon\nflats: 18\nuprights: 3")},
	{"no-size", kindOf("shape: hexagon")},
	{"two-sizes", kindOf("shape: hexagon\nflats: 18\nside: 10")},
	{"diamond-mixed", kindOf("shape: diamond\nside: 10\nheight: 12")},
	{"ring-sizes", kindOf("shape: ring\nsegments: 12\noutside: 30\nside: 4")},
	{"needs", kindOf("shape: house\nwidth: 40")},
	{"corners", kindOf("shape: corners\ncorners: [0, \"1 in\", \"1, 2, 3\", \"a, 2\"]\nfeet: round")},
	{"sides", kindOf("shape: sides\nsides:\n  - 10, 60\n  - 10\n  - 10, 400\n  - x")},
	{"dangling-timber", kindOf("shape: square\nside: 3\ntimber: pin")},
	{"dangling", lay + "  S1: smal side 1 on B1 side 2\n  S2: small side 1 on B9 side 2\n  S3: small side 1 on C1 side 2\nfamilies:\n  - big, midle\ncopies:\n  - B1 as C1, mirrored at 60\n  - C1, X1 as D1, D2, moved by 1, 1\ntest corner: {frame: bigg, arms: 1, across: 1}\n"},
	{"fixing-fields", fix("screws: [No. 99, 4.2 mm]\nlengths: [1 1/4, 2 m]\nflat: glue\nseen from: above\neyes:\n  - {height: 40}\n  - {name: bird, height: 90 ft, left: 1}\n  - bird\nsceams: {B1 and B2: bolts}")},
	{"fixing-screw-hash", fix("screws:\n  - #8\n  - 1/4")},
	{"fixing-seams", fix("seams:\n  B1 and B2: two screws\n  B1 and B9: bolts\n  B1: bolts\n  B2 and B2: bolts\n  B1 and B3: screws and bolts\n  B3 and B1: site\n  B3 and B2: one nail\n  B2 and B3: site seam,\n  B2 and B1: bolts\n  B3 and C1: [bolts]")},
	{"fixing-seams-twice", fix("seams:\n  B1 and B2: bolts\n  B2 and B1: screws")},
	{"fixing-rows", fix("rows: 3\nseams:\n  B1 and B2: two screws\n  B2 and B3: one bolt, two rows\n  B1 and B3: three rows")},
	{"fixing-hooks", fix("hooks:\n  B1: 3 hooks\n  B1 side 99: hook\n  B9 side 1: hook\n  B2 side 1: 51 hooks\n  B2 side 2: three hooks\n  B2 side 3: 3 nails\n  B2 side 4: 03 hooks\n  B2 side 5: 2 hooks 1 tie\n  B3 side 1:")},
	{"driver", lay + "driver: {length: 9 m, width: 0, head length: long, right angle: maybe}\n"},
	{"families", lay + "families:\n  - big\n  - big, big\n  - big,, small\n"},

	{"layout-words", lay + "  A1: big\n  A2: big sid 1 on B1 side 4\n  A3: big side 1 at B1 side 4\n  A4: big side 1 on B1 side\n  A5: big side 0 on B1 side 1\n  A6: big side 1 on B1 corner 2\n  A7: at 0, 0\n  A8: big at 0\n  A9: big at 0, 0 turnd 30\n  A10: big at 0 inn, 0\n"},
	{"layout-options", lay + "  A1: big side 1 on B1 side 4, flush\n  A2: big side 1 on B1 side 4, flush at strat\n  A3: big side 1 on B1 side 4, shifted 2 foo\n  A4: big side 1 on B1 side 4, turned 30\n  A5: big side 1 on B1 side 4, centred, centred\n  A6: big at 0, 0, mirrored, mirrored\n  A7: big side 1 on B1 side 4,\n  A8: big side 1 on B1 side 4 and B2 side 1\n  A9: big corner 1 on B1 side 4\n  A10: big side 1 on B1 side 4 shifted\n  A11: big side 1 on A11 side 2\n"},
	{"layout-previous", top + timber + frames + "layout:\n  R1..R3: big side 6 on previous side 3\n"},
	{"rows", lay + "  R4..R1: big side 6 on previous side 3\n  R..S: big side 6 on previous side 3\n  R1..S4: big side 6 on previous side 3\n  Q1..Q3: big at 0, 0\n  P1..P99999: big side 6 on previous side 3\n  B 7: big at 0, 0\n  on: big at 1, 1\n"},
	{"copies", lay + "copies:\n  - B1 mirrored at 60\n  - B1 as C1\n  - B1, B2 as C1, mirrored at 60\n  - B1 as B2, moved by 1, 1\n  - B1 as C2, mirrord at 60\n  - B1 as C3, mirrored at sixty\n  - B1 as C4, moved by 1\n  - B1 as C5, moved by 1, 1, turned 3\n  - as C6, mirrored at 3\n  - B1..B2 as C7.., mirrored at 3\n"},
	{"wide-and-combining", lay + "venue: e\u0301 宴会 \"x\" \nvennue: 宴会\n"},
	{"prices", lay + "prices:\n  glue: 8.99\n  filler: $8.99 per tub\n  finish: $8.99 per 1 gal, 5 %\n  rope:\n  tape: {a: 1}\n  brush: [-$1, $1.999, [$1], 010 USD per 5, $1 per 5 kg]\n  pencil: \"#1\"\n  pencil: $1\ntax: VAT\n"},
	{"tax", lay + "tax: 101 %\n"},
	{"in-hand", lay + "in hand: {glue: lots, filler: 010 ml, brush: [1], pencil: -3, rope: }\n"},
	{"making", lay + "making:\n  hands: none\n  straps: 12 ft, 4 in, 20 ft\n  bench: 2\n  brads: 1 in, long\n  inside finish: first\n  shop temperature: 68\n  least temperature: 200 F\n  open time: 10\n" +
		"  clamp time: 2 weeks\n  full strength: soon\n  filler coat: 0 min\n  grits: 180, 120\n  coats: 2.5\n  known-straight length: 50 ft\n  glue: yellow\n"},
	{"making-more", lay + "making:\n  grits: 10, fine\n  coats: 40\n  shop temperature: warm\n  recoat: 1_0 min\n  straps: " + strings.Repeat("12 ft, ", 60) + "12 ft\n  plates:\n"},
	{"making-of-a-kind", kindOf("shape: hexagon\nflats: 18\ncorner: dowel\nglue up: roll\nlayers: 9")},
	{"dressing", lay + "dressing:\n  bare: none\n  greened:\n    green: {weight: 8, on: \"B1, B9, B 2\", from: up, to: 200 m, closes: 140 %, in front: 9 ft, wet: 0.5, flame: [a]}\n    foam: {closes: most, wet: soaked}\n    moss: {weight: 4 lb per sq inch}\n    lead: {weight: 20000 lb}\n    air: {weight: -1 kg per m2}\n" +
		"  my way: {cloth: {weight: 1 lb}}\n  draped: {cloth: 5 lb}\n"},
	{"tight-spots", lay + "tight spots:\n  a: {width: 20, height: 80}\n  b: {kind: gate, width: 20, height: 80}\n  c: {kind: door, width: 34}\n  d: {kind: door, width: 34, height: 80, length: 20}\n" +
		"  e: {kind: corridor, width: 48, height: 90, turn: 5}\n  f: {kind: vehicle, length: 2, width: 50, height: 50}\n  g: {kind: ceiling, tilting height: 90}\n  2nd: {kind: ceiling, height: 90}\n  h: wide\n  i: {kind: lift, depth: 54, width: 54, height: 84, payload: heavy}\n"},
	{"sections", lay + "sections:\n  together:\n    - B1\n    - B1, B9\n    - B1, B1\n    - B1..A2\n  apart: B1, B2\n  put up by: anybody\n  window: 90\n  strike window: 9 days\n  wrap: 2 ft\n  finger: 1\n"},
	{"base", lay + "base:\n  a: {width: 20, depth: 20}\n  b: {kind: slab}\n  c: {kind: plate, shape: hexagon, width: 20, depth: 20}\n  d: {kind: plate, width: 40}\n  e: {kind: feet, width: 4, depth: 30, rim: 3, count: 0}\n  f: {kind: feet, width: 4, depth: 30, rim: 3}\n" +
		"  g: {kind: ring, depth: 30, rim: 90 ft}\n  h: {kind: stakes, pull: 50, sideways: 5 tons, count: 99}\n  i: {kind: wing, length: 30, height: 72, weight: light, angle: 5, side: front}\n  j: {kind: brace, behind: 30}\n  k: {kind: stakes, pull: 99999 kg, sideways: -3 N}\n  l: plate\n"},
	{"standing", lay + "standing:\n  where: garden\n  floor: carpet\n  soft: very\n  slope: 40\n  gust: 20\n  mean: 0 mph\n  wind from: north\n  push: hard\n  crowd: big\n  openings: open\n  ballast hidden: 0\n  watch: [Ida]\n  people: 4\n" +
		"  ballast:\n    - {name: bag, weight: 25 lb, size: 18 x 10, owned: 4}\n    - {name: bag, weight: 25 lb, size: 18 x ten x 5, owned: some}\n    - {name: can, weight: 25, size: 18 x 10 x 500, owned: 900}\n    - {weight: 25 lb}\n    - {name: air, weight: 0 lb, size: 18 x 10 x 5, owned: 1}\n    - bag\n"},
	{"held", lay + "base:\n  plate: {kind: plate, width: 40, depth: 40}\nstanding:\n  held by: glue\n  held at: 99\n  held frames: B1, B9\n  retaining lines: Z1\nlifting:\n  in place: maybe\n  people: 0\n  strongbacks: diagonal\n  crane: yes\n"},
	{"standing-more", lay + "standing:\n  gust: 200 mph\n  mean: 1e1 mph\n  ballast: [{name: a}, {name: b}, {name: c}, {name: d}, {name: e}, {name: f}, {name: g}]\n"},
	{"crlf", strings.ReplaceAll(lay+"vennue: The barn\n", "\n", "\r\n")},
	{"byte-order-mark", "\ufeff" + lay + "vennue: The barn\n"},
	{"long-line", lay + "copies:\n  - " + strings.Repeat("B1, ", 60) + "B7 as C1, mirrored at 60\n"},
}

// staircase indents every line deeper than the one before.
func staircase(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

func TestBadFiles(t *testing.T) {
	used := map[string]bool{}
	for _, c := range badFiles {
		used[c.name+".txt"] = true
		t.Run(c.name, func(t *testing.T) {
			_, f, l := Read([]byte(c.src), c.name+".yaml", nil, "")
			if !l.Stops() {
				t.Fatal("nothing to put right was found")
			}
			golden(t, c.name, snag.Text(l, f.Source, snag.Width))
		})
	}
	files, err := os.ReadDir("testdata/bad")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !used[f.Name()] && !strings.HasPrefix(f.Name(), "shop-") && !strings.HasPrefix(f.Name(), "prices-") {
			t.Errorf("testdata/bad/%s belongs to no case", f.Name())
		}
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", "bad", name+".txt")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
