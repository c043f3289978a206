package job

import (
	"context"
	"regexp"
	"slices"
	"strings"
	"testing"

	"bowerwright/geom"
	"bowerwright/snag"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

func hexagons() Spec { return spec("B = hexagon: flats 18", "B1 at 0 0", "B2 side 1 on B1 side 4") }

// A trouble is a job with one thing to put right, and the job again after its
// remedy was followed. The remedy must contain the words that are followed.
type trouble struct {
	code, path string
	job        Spec
	remedy     string
	follow     func(s *Spec)
}

func with(s Spec, change func(s *Spec)) Spec {
	change(&s)
	return s
}

var troubles = append(standingTroubles, []trouble{
	{"timber-missing", "frames", with(hexagons(), func(s *Spec) { s.Timber = nil }), "board: 1x4, length: 8 ft",
		func(s *Spec) { s.Timber = []Timber{{Name: "pine", Nominal: "1x4", Length: 8 * unit.Foot}} }},
	{"timber-size", "timber.pine", with(hexagons(), func(s *Spec) {
		s.Timber[0].Nominal, s.Timber[0].Thickness, s.Timber[0].Width = "", inches("3.5"), inches("0.75")
	}), "the smaller measure is the thickness",
		func(s *Spec) { s.Timber[0].Thickness, s.Timber[0].Width = inches("0.75"), inches("3.5") }},
	{"timber-length", "timber.pine", with(hexagons(), func(s *Spec) { s.Timber[0].Length = 0 }), "length: 8 ft",
		func(s *Spec) { s.Timber[0].Length = 8 * unit.Foot }},
	{"timber-trim", "timber.pine.trim", with(hexagons(), func(s *Spec) { s.Timber[0].TrimFirst, s.Timber[0].TrimFar = ptr(inches("48")), ptr(inches("48")) }),
		"shorter trim", func(s *Spec) { s.Timber[0].TrimFar = ptr(inches("1")) }},
	{"timber-currency", "timber.pine", with(hexagons(), func(s *Spec) {
		s.Timber[0].Lengths = []StockLength{{Length: 8 * unit.Foot, PriceMinor: 449, Currency: "USD"}, {Length: 10 * unit.Foot, PriceMinor: 500, Currency: "EUR"}}
	}), "in one currency", func(s *Spec) { s.Timber[0].Lengths[1].Currency = "USD" }},
	{"timber-price", "timber.pine", with(hexagons(), func(s *Spec) {
		s.Timber[0].Lengths = []StockLength{{Length: 8 * unit.Foot, PriceMinor: 449, Currency: "USD"}, {Length: 10 * unit.Foot}}
	}), "or none at all", func(s *Spec) { s.Timber[0].Lengths[0] = StockLength{Length: 8 * unit.Foot} }},
	{"timber-price", "timber.pine", with(hexagons(), func(s *Spec) {
		s.Timber[0].OnHand = []HandBoard{{Count: 1, Length: 60 * unit.Inch, PriceMinor: 100, Currency: "USD"}}
	}), "behind every length", func(s *Spec) { s.Timber[0].PriceMinor, s.Timber[0].Currency = 449, "USD" }},
	{"boards-short", "timber.pine", with(hexagons(), func(s *Spec) {
		s.Timber[0].Lengths = []StockLength{{Length: 8 * unit.Foot, Most: 1}}
	}), "raise how many", func(s *Spec) { s.Timber[0].Lengths[0].Most = 2 }},
	{"boards-short", "timber.pine", with(hexagons(), func(s *Spec) {
		s.Timber[0].Length, s.Timber[0].OnHand = 0, []HandBoard{{Count: 1, Length: 60 * unit.Inch}}
	}), "name a length to buy", func(s *Spec) { s.Timber[0].Length = 8 * unit.Foot }},
	{"frames-missing", "frames", spec("B = hexagon: flats 18"), "B1: big at 0, 0", func(s *Spec) { s.read("B1 at 0 0") }},
	{"shape-refused", "frames.H", spec("H = house: width 48, eaves 60, ridge 50", "H1 at 0 0"), "measures",
		func(s *Spec) { s.Kinds[0].Lengths["ridge"] = inches("84") }},
	{"shape-refused", "frames.C", spec("C = corners: corners 0 0 / 20 20 / 20 0 / 0 20", "C1 at 0 0"), "measures",
		func(s *Spec) { s.Kinds[0] = kindOf("C", "corners: corners 0 0 / 20 0 / 20 20 / 0 20") }},
	{"shape-refused", "frames.S", spec("S = sides: sides 24 60 / 24 60 / 20", "S1 at 0 0"), "measures",
		func(s *Spec) { s.Kinds[0].Run[2].Length = inches("24") }},
	{"board-too-deep", "frames.B", spec("B = hexagon: flats 6, flat", "B1 at 0 0"), "lay them on edge", func(s *Spec) { s.Kinds[0].Flat = false }},
	{"ring-board-narrow", "frames.R", spec("R = ring: segments 8, outside 22, inside 14, flat", "R1 at 0 0"), "at least 4 9/16 in wide",
		func(s *Spec) {
			s.Timber[0].Nominal, s.Timber[0].Thickness, s.Timber[0].Width = "", inches("0.75"), inches("4 9/16")
		}},
	{"ring-board-narrow", "frames.R", spec("R = ring: segments 5, outside 24, inside 19.5, flat", "R1 at 0 0"), "more segments",
		func(s *Spec) { s.Kinds[0].Counts["segments"] = 12 }},
	{"family-ratio", "families[0]", spec("A = square: side 20", "B = square: side 19.45", "family A B", "A1 at 0 0", "B1 side 1 on A1 side 3"), "24 : 23",
		func(s *Spec) { s.Kinds[1].Lengths["side"] = s.Kinds[0].Lengths["side"] / 24 * 23 }},
	{"family-ratio", "families[0]", spec("A = square: side 20", "B = square: side 19.45", "C = square: side 10", "family A B C", "A1 at 0 0", "B1 side 1 on A1 side 3"),
		"leave the frame out", func(s *Spec) { s.Families[0] = []string{"A", "C"} }},
	{"family-twice", "families[1]", spec("A = square: side 20", "B = square: side 10", "C = square: side 5", "family A B", "family B C", "A1 at 0 0"), "into one family",
		func(s *Spec) { s.Families = [][]string{{"A", "B", "C"}} }},
	{"layout-side", "layout.B2", spec("B = hexagon: flats 18", "B1 at 0 0", "B2 side 7 on B1 side 4"), "write 1 to 6",
		func(s *Spec) { s.Layout[1].Attach[0].Side = 6 }},
	{"layout-side", "layout.B2", spec("B = hexagon: flats 18", "B1 at 0 0", "B2 corner 6 on B1 corner 9"), "write 1 to 6",
		func(s *Spec) { s.Layout[1].Attach[0].ToCorner = 3 }},
	{"layout-side", "layout.B1", spec("B = square: side 18", "H = half hexagon: side 18, open yes", "H1 at 0 0", "B1 side 1 on H1 side 4"), "another side",
		func(s *Spec) { s.Layout[1].Attach[0].ToSide = 2 }},
	{"layout-cycle", "layout.B1", spec("B = hexagon: flats 18", "B1 side 1 on B2 side 4", "B2 side 4 on B1 side 1"), "give one of them a position",
		func(s *Spec) { s.Layout[0] = placeOf("B1", "at 0 0") }},
	{"layout-loop-open", "layout.B3", spec("B = hexagon: flats 18", "B1 at 0 0", "B2 side 1 on B1 side 4", "B3 side 2 on B1 side 5, shifted 2, and side 3 on B2 side 6"), "a shift in the loop",
		func(s *Spec) { s.Layout[2].Attach[0].Shift = 0 }},
	{"layout-loop-open", "layout.B3", spec("B = hexagon: flats 18", "B1 at 0 0", "B2 side 1 on B1 side 4", "B3 side 5 on B1 side 2, and side 3 on B2 side 6"),
		"leave out one of the two attachments", func(s *Spec) { s.Layout[2].Attach = s.Layout[2].Attach[:1] }},
	{"layout-overlap", "layout.B1", spec("B = hexagon: flats 18", "B1 at 0 0", "B2 at 5 0"), "move one of them",
		func(s *Spec) { s.Layout[1].At.X = 30 * inch }},
	{"part-uncuttable", "frames.B", spec("B = square: side 97", "B1 at 0 0"), "buy longer boards", func(s *Spec) { s.Timber[0].Length = 12 * unit.Foot }},
	{"part-uncuttable", "frames.B", spec("B = square: side 97", "B1 at 0 0"), "make the frame smaller", func(s *Spec) { s.Kinds[0].Lengths["side"] = inches("60") }},
	{"part-uncuttable", "frames.B", with(spec("B = square: side 6", "B1 at 0 0"), func(s *Spec) { s.Timber[0].Length = inches("11") }), "clamp: yes",
		func(s *Spec) { s.Saw.Clamp = true }},
	{"round-side", "layout.R1", with(spec("B = square: side 18", "R = ring: segments 8, outside 22, inside 14", "B1 at 0 0", "R1 side 1 on B1 side 3"),
		func(s *Spec) {
			s.Kinds[1].Flat = true
			s.Timber[0].Thickness, s.Timber[0].Width = inches("3/4"), inches("5")
		}), "by its position",
		func(s *Spec) { s.Layout[1] = placeOf("R1", "at 40 0"); s.Layout[1].Kind = "R" }},
	{"wrong-face", "layout.K2", with(spec("K = kite: width 40, top 30, bottom 50", "K1 at 0 0", "K2 at 60 0"), func(s *Spec) {
		no := false
		s.Kinds[0].Lengths["width"], s.Kinds[0].Flat, s.Timber[0].Turning = inches("50"), true, &no
		s.Layout[1].Mirror = true
		s.Kinds[0].Shape, s.Kinds[0].Corners = "corners", []geom.Point{{}, {X: 600}, {X: 600, Y: 300}, {X: 0, Y: 600}}
		s.Kinds[0].Lengths = map[string]unit.Length{}
		s.Layout[1].At.X = 60 * inch
	}), "turning: yes", func(s *Spec) { s.Timber[0].Turning = nil }},
	{"fixing-seam-unknown", "fixing.seams.B1 and B3", with(spec("B = square: side 18", "B1 at 0 0", "B2 side 1 on B1 side 3", "B3 side 1 on B2 side 3"), func(s *Spec) {
		s.Fixing.Seams = []SeamAsked{{Key: "B1 and B3", Frames: [2]string{"B1", "B3"}, One: true}}
	}), "B1 has seams with B2", func(s *Spec) { s.Fixing.Seams[0].Frames[1] = "B2" }},
	{"fixing-screw-missing", "fixing.lengths", with(hexagons(), func(s *Spec) { s.Fixing.Lengths = []unit.Length{inches("1 5/16")} }), "leave lengths out",
		func(s *Spec) { s.Fixing.Lengths = nil }},
	{"fixing-hook-side", "fixing.hooks.B1 side 9", with(hexagons(), func(s *Spec) {
		s.Fixing.Hooks = []HooksAsked{{Key: "B1 side 9", Frame: "B1", Side: 9, Count: 1}}
	}), "one of its sides", func(s *Spec) { s.Fixing.Hooks[0].Side = 2 }},
	{"fixing-hook-room", "fixing.hooks.B1 side 2", with(hexagons(), func(s *Spec) {
		s.Fixing.Hooks = []HooksAsked{{Key: "B1 side 2", Frame: "B1", Side: 2, Count: 50}}
	}), "fewer", func(s *Spec) { s.Fixing.Hooks[0].Count = 3 }},
	{"fixing-hook-room", "fixing.hooks.B1 side 2", with(spec("B = square: side 24, flat", "B1 at 0 0"), func(s *Spec) {
		s.Fixing.Hooks = []HooksAsked{{Key: "B1 side 2", Frame: "B1", Side: 2, Count: 1}}
	}), "boards on edge", func(s *Spec) { s.Kinds[0].Flat = false }},
	{"tape-mark", "mark", with(hexagons(), func(s *Spec) { s.Mark = unit.Inch / 10 }), "1/16", func(s *Spec) { s.Mark = unit.Inch / 16 }},
	{"tape-mark", "assume.tape.mark", with(hexagons(), func(s *Spec) { s.Assume = []Override{{ID: "tape.mark", Value: 0.1}} }), "1/64 in",
		func(s *Spec) { s.Assume[0].Value = 1. / 64 }},
	{"test-corner-reading", "test corner.across", with(hexagons(), func(s *Spec) { s.Test = &TestReading{"B", inches("14 3/8"), inches("30")} }), "across the tips",
		func(s *Spec) { s.Test.Across = inches("24 7/8") }},
	{"test-corner-reading", "test corner.across", with(hexagons(), func(s *Spec) { s.Test = &TestReading{"B", inches("14 3/8"), inches("20")} }), "measure both arms",
		func(s *Spec) { s.Test.Across = inches("25") }},
}...)

// Following the remedy of a snag leaves nothing to put right.
func TestRemediesWork(t *testing.T) {
	for _, c := range troubles {
		snags := refusals(t, c.job)
		if len(snags) != 1 || snags[0].Code != c.code || snags[0].Place.Path != c.path || !strings.Contains(snags[0].Remedy, c.remedy) {
			t.Errorf("want %s at %s with %q, got %+v", c.code, c.path, c.remedy, snags)
			continue
		}
		c.follow(&c.job)
		if _, snags, err := Plan(context.Background(), c.job, BuiltIn()); err != nil || len(snags) > 0 {
			t.Errorf("%s, after following %q: %v %+v", c.code, c.remedy, err, snags)
		}
	}
}

// A shape that cannot be made does not hide what else is wrong.
func TestShapesAndLayoutAtOnce(t *testing.T) {
	s := spec("B = hexagon: flats 18", "T = triangle: side 1", "H = house: width 48, eaves 84, ridge 60",
		"T1 at 0 0", "T2 side 1 on T1 side 2", "B1 at 40 0", "B2 at 45 0", "B3 side 9 on B1 side 1")
	var got []string
	for _, q := range refusals(t, s) {
		got = append(got, q.Code+" "+q.Place.Path)
	}
	want := []string{"board-too-deep frames.T", "layout-overlap layout.B1", "layout-side layout.B3", "shape-refused frames.H"}
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Every code that the package lists can be reached.
func TestEveryCodeIsReached(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range troubles {
		seen[c.code] = true
	}
	for _, k := range Snags {
		// Bare lists, and what is told of the bench, have tests of their own.
		if strings.HasPrefix(k.Code, "list-") || strings.HasPrefix(k.Code, "progress-") {
			continue
		}
		if !seen[k.Code] {
			t.Errorf("no job gives %s", k.Code)
		}
	}
}

var deepRemedy = regexp.MustCompile(`at most (.+) deep, .* or make it ([0-9.]+) times as large`)

// The figures in the remedy for boards that fill a shape are rounded to the
// side that works.
func TestTooDeepFiguresWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 9).Draw(t, "sides")
		side := rapid.IntRange(60, 160).Draw(t, "side in 64ths")
		s := spec("B = regular: side 1, flat", "B1 at 0 0")
		s.Kinds[0].Counts["sides"] = n
		s.Kinds[0].Lengths["side"] = unit.Length(side) * unit.Inch / 64
		s.Timber[0].Nominal, s.Timber[0].Thickness, s.Timber[0].Width = "", unit.Inch/4, 6*unit.Inch
		p := start(s, BuiltIn())
		p.prepare()
		if len(p.snags) != 1 || p.snags[0].Code != "board-too-deep" {
			t.Fatalf("%+v", p.snags)
		}
		m := deepRemedy.FindStringSubmatch(p.snags[0].Remedy)
		if m == nil {
			t.Fatal(p.snags[0].Remedy)
		}
		narrow, wide := s, s
		narrow.Timber = slices.Clone(s.Timber)
		narrow.Timber[0].Width = inches(m[1])
		narrow.Timber[0].Thickness = narrow.Timber[0].Width / 2
		wide.Kinds = slices.Clone(s.Kinds)
		wide.Kinds[0].Lengths = map[string]unit.Length{"side": unit.Length(float64(s.Kinds[0].Lengths["side"]) * num(m[2]))}
		for what, q := range map[string]Spec{"narrower boards": narrow, "a larger frame": wide} {
			p := start(q, BuiltIn())
			p.prepare()
			if p.err != nil || len(p.snags) > 0 {
				t.Fatalf("%s, as %q says: %v %+v", what, m[0], p.err, p.snags)
			}
		}
	})
}

// All that a step finds is said at once, sorted by place.
func TestSnagsComeTogether(t *testing.T) {
	s := spec("H = house: width 48, eaves 60, ridge 50", "B = hexagon: flats 6, flat", "H1 at 0 0")
	s.Timber[0].TrimFirst = ptr(10 * unit.Foot)
	var codes []string
	for _, q := range refusals(t, s) {
		codes = append(codes, q.Code)
	}
	slices.Sort(codes)
	if want := []string{"board-too-deep", "shape-refused", "timber-trim"}; !slices.Equal(codes, want) {
		t.Errorf("%v, want %v", codes, want)
	}
	if list := refusals(t, s); !slices.IsSortedFunc(list, func(a, b snag.Snag) int { return strings.Compare(a.Place.Path, b.Place.Path) }) {
		t.Errorf("not by place: %+v", list)
	}
}

// A Spec that no job file gives is our error: no snag, no panic, no result.
func TestSpecsNoFileGives(t *testing.T) {
	for what, change := range map[string]func(s *Spec){
		"unknown shape":       func(s *Spec) { s.Kinds[0].Shape = "blob" },
		"unknown kind":        func(s *Spec) { s.Layout[1].Kind = "Z" },
		"unknown species":     func(s *Spec) { s.Timber[0].Species = "balloon wood" },
		"unknown timber":      func(s *Spec) { s.Kinds[0].Timber = "oak" },
		"boards without size": func(s *Spec) { s.Timber[0].Nominal = "" },
		"unknown board":       func(s *Spec) { s.Timber[0].Nominal = "9x9" },
		"unknown frame":       func(s *Spec) { s.Layout[1].Attach[0].To = "B9" },
		"frame twice":         func(s *Spec) { s.Layout[1].ID = "B1" },
		"frame nowhere":       func(s *Spec) { s.Layout[0].At = nil },
		"unknown family":      func(s *Spec) { s.Families = [][]string{{"B", "Z"}} },
		"unknown test kind":   func(s *Spec) { s.Test = &TestReading{"Z", inches("14"), inches("24")} },
		"unknown assumption":  func(s *Spec) { s.Assume = []Override{{ID: "no.such", Value: 1}} },
		"assumption range":    func(s *Spec) { s.Assume = []Override{{ID: "saw.hold", Value: -1}} },
		"size it has not":     func(s *Spec) { s.Kinds[0] = kindOf("B", "triangle: flats 18") },
		"copy of nothing":     func(s *Spec) { s.read("copy B9 as C1, moved by 60 0") },
		"copy without id":     func(s *Spec) { s.read("copy B1 B2 as C1, moved by 60 0") },
	} {
		s := hexagons()
		change(&s)
		r, snags, err := Plan(context.Background(), s, BuiltIn())
		if err == nil || len(snags) > 0 || r.Kinds != nil {
			t.Errorf("%s: error %v, snags %v, %d kinds", what, err, snags, len(r.Kinds))
		}
	}
}

// A cancelled plan gives the context's error and nothing to show.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r, snags, err := Plan(ctx, hexagons(), BuiltIn())
	if err != context.Canceled || len(snags) > 0 || r.Kinds != nil || r.Timber != nil {
		t.Errorf("error %v, snags %v, %d kinds", err, snags, len(r.Kinds))
	}
}
