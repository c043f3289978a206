package unit

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	mm := Millimetre
	for _, c := range []struct {
		l    Length
		s    Style
		want string
	}{
		{in64(664), Style{}, "10 3/8 in"},
		{0, Style{}, "0 in"},
		{10 * Inch, Style{}, "10 in"},
		{in64(24), Style{}, "3/8 in"},
		{in64(-16), Style{}, "-1/4 in"},
		{-in64(664), Style{}, "-10 3/8 in"},
		{in64(1), Style{Mark: Inch / 64}, "1/64 in"},
		{in64(1), Style{}, "0 in"},      // rounded away
		{in64(2), Style{}, "1/16 in"},   // a tie goes away from zero
		{in64(-2), Style{}, "-1/16 in"}, // on either side
		{in64(63), Style{}, "1 in"},     // rounding carries
		{in64(664), Style{Mark: Inch / 2}, "10 1/2 in"},
		{Inch / 2, Style{Mark: mm}, "1/2 in"},        // a mark of the other system is none
		{Inch / 3, Style{Mark: Inch / 3}, "5/16 in"}, // no mark of a tape
		{90 * Inch, Style{}, "90 in"},
		{72 * Inch, Style{FeetFrom: 6 * Foot}, "6 ft"},
		{72*Inch - in64(4), Style{FeetFrom: 6 * Foot}, "71 15/16 in"},
		{72*Inch - in64(1), Style{FeetFrom: 6 * Foot}, "6 ft"}, // decided on the rounded size
		{-73 * Inch, Style{FeetFrom: 6 * Foot}, "-6 ft 1 in"},
		{264 * mm, Style{System: Metric}, "264 mm"},
		{263*mm + mm/2, Style{System: Metric}, "264 mm"},
		{263*mm + mm/2, Style{System: Metric, Mark: mm / 2}, "263.5 mm"},
		{263*mm + mm/10, Style{System: Metric, Mark: mm / 10}, "263.1 mm"},
		{in64(664), Style{System: Metric, Mark: Inch / 16}, "264 mm"},
		{-3 * mm, Style{System: Metric}, "-3 mm"},
		{2288 * mm, Style{System: Metric, FeetFrom: Foot}, "2288 mm"},
		{in64(664), Style{NoBreak: true}, "10\u00a03/8\u00a0in"},
		{264 * mm, Style{System: Metric, NoBreak: true}, "264\u00a0mm"},
	} {
		if got := Format(c.l, c.s); got != c.want {
			t.Errorf("%d nm in %+v is %q, want %q", c.l, c.s, got, c.want)
		}
	}
	if got := FormatOverall(90*Inch+in64(4), Style{}); got != "7 ft 6 1/16 in" {
		t.Errorf("overall size is %q", got)
	}
	if got := FormatOverall(2288*mm, Style{System: Metric}); got != "2288 mm" {
		t.Errorf("overall size is %q", got)
	}
}

// anyStyle draws one of the styles that paper and screen use.
func anyStyle(t *rapid.T) Style {
	m := marks[rapid.IntRange(0, len(marks)-1).Draw(t, "mark")]
	s := Style{System: m.System, Mark: m.Mark, NoBreak: rapid.Bool().Draw(t, "nobreak")}
	if rapid.Bool().Draw(t, "feet") {
		s.FeetFrom = OverallFeet
	}
	return s
}

func TestFormatRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyStyle(t)
		span := int64(100 * Metre / s.Mark)
		l := Length(rapid.Int64Range(-span, span).Draw(t, "marks")) * s.Mark
		text := Format(l, s)
		if got, err := ParseLength(text, NoUnit); err != nil || got != l || !s.Exact(l) {
			t.Fatalf("%d nm is written %q and read as %d, %v", l, text, got, err)
		}
	})
}

// What is not on the mark is written as the nearest mark, and Exact says so.
func TestFormatRoundsToNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyStyle(t)
		l := Length(rapid.Int64Range(-int64(100*Metre), int64(100*Metre)).Draw(t, "l"))
		got, err := ParseLength(Format(l, s), NoUnit)
		off := got - l
		if err != nil || off > s.Mark/2 || off < -s.Mark/2 {
			t.Fatalf("%d nm is written %q, off by %d nm, %v", l, Format(l, s), off, err)
		}
		if s.Exact(l) != (off == 0) {
			t.Fatalf("%d nm is written %q: exact is %v", l, Format(l, s), s.Exact(l))
		}
		if s.System == US && strings.Contains(Format(l, s), ".") {
			t.Fatalf("decimals of an inch: %q", Format(l, s))
		}
	})
}

func TestMarks(t *testing.T) {
	for _, m := range marks {
		l, err := ParseLength(m.Name, NoUnit)
		if name, system, ok := MarkName(m.Mark); !ok || name != m.Name || system != m.System || err != nil || l != m.Mark {
			t.Errorf("mark %s is %d nm, named %q, %v", m.Name, m.Mark, name, err)
		}
	}
	if _, _, ok := MarkName(Inch / 3); ok {
		t.Error("a third of an inch is a mark")
	}
	if Round(7, 0) != 7 || Round(7, 5) != 5 || Round(-8, 5) != -10 || !OnMark(7, 0) || OnMark(7, 5) {
		t.Error("rounding to a mark is off")
	}
}

func TestFromMM(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		mark Length
		to   Rounding
		want Length
		ok   bool
	}{
		{264.4, Millimetre, Nearest, 264 * Millimetre, true},
		{264.5, Millimetre, Nearest, 265 * Millimetre, true},
		{-264.5, Millimetre, Nearest, -265 * Millimetre, true},
		{264.9, Millimetre, Down, 264 * Millimetre, true},
		{-264.1, Millimetre, Down, -265 * Millimetre, true},
		{264.1, Millimetre, Up, 265 * Millimetre, true},
		{0.0000014, 0, Nearest, 1, true},
		{25.4, Inch / 16, Down, Inch, true},
		{math.NaN(), Millimetre, Nearest, 0, false},
		{math.Inf(1), Millimetre, Up, 0, false},
		{1e19, Millimetre, Nearest, 0, false},
	} {
		if got, ok := FromMM(c.mm, c.mark, c.to); got != c.want || ok != c.ok {
			t.Errorf("%v mm to %d nm is %d, %v; want %d, %v", c.mm, c.mark, got, ok, c.want, c.ok)
		}
	}
}

func TestAngleText(t *testing.T) {
	for deg, want := range map[float64]string{
		30: "30°", 22.5: "22.5°", 180.0 / 7: "25.71°", 0: "0°", -0.001: "0°", -15: "-15°", 11.25: "11.25°", 45.999: "46°",
	} {
		if got := FromDegrees(deg).String(); got != want {
			t.Errorf("%v degrees is %q, want %q", deg, got, want)
		}
	}
}

func TestFormatMass(t *testing.T) {
	for _, c := range []struct {
		m    Mass
		s    System
		want string
	}{
		{62 * Pound, US, "62 lb (29 kg)"}, // 28.12 kg goes up
		{61.2 * Pound, US, "62 lb (28 kg)"},
		{28, Metric, "28 kg (62 lb)"}, // 61.73 lb
		{0, US, "0 lb (0 kg)"},
		{0.1, Metric, "1 kg (1 lb)"},
		{Mass(0.1+0.2) * 10, Metric, "3 kg (7 lb)"}, // 3.0000000000000004 kg
	} {
		if got := FormatMass(c.m, c.s); got != c.want {
			t.Errorf("%v kg is %q, want %q", float64(c.m), got, c.want)
		}
	}
}

// Overall sizes go over to feet exactly where they are 6 ft or more as written.
func TestFormatOverallGoesOverAtSixFeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Range(0, int64(20*Foot)).Draw(t, "l"))
		text := FormatOverall(l, Style{})
		if feet := strings.Contains(text, "ft"); feet != (Round(l, MarkUS) >= OverallFeet) {
			t.Fatalf("%v in is written %q", l.Inches(), text)
		}
		if got, err := ParseLength(text, NoUnit); err != nil || got != Round(l, MarkUS) {
			t.Fatalf("%v in is written %q and read as %v in, %v", l.Inches(), text, got.Inches(), err)
		}
	})
}
