package job

import (
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/unit"

	"pgregory.net/rapid"
)

// tape is the length in inches of side n of a kind as sawn.
func tape(t testing.TB, r Result, kind string, n int) float64 {
	t.Helper()
	for _, k := range r.Kinds {
		for _, p := range k.Parts {
			if k.Name == kind && slices.Contains(p.Sides, n) {
				return p.Outside.MM / inch
			}
		}
	}
	t.Fatalf("no side %d of %s", n, kind)
	return 0
}

// family finds the one family that is said to be so for the reason given.
func family(t testing.TB, r Result, why string) FamilyFacts {
	t.Helper()
	var found []FamilyFacts
	for _, f := range r.Families {
		if strings.Contains(f.Why, why) {
			found = append(found, f)
		}
	}
	if len(found) != 1 {
		t.Fatalf("families that %q: %+v", why, r.Families)
	}
	return found[0]
}

func sixths(times ...string) Spec {
	return spec(append([]string{"B = hexagon: flats 18", "M = hexagon: flats 12", "S = hexagon: flats 6", "B1 at 0 0", "M1 side 1 on B1 side 4", "S1 side 1 on M1 side 4"}, times...)...)
}

// Flats of 18, 12 and 6 in: sides 6√3, 4√3 and 2√3, so 3 : 2 : 1 of 3.464 in.
// The mark that changes the sides least is 3 7/16 (off 0.027 in) rather than
// 3 1/2 (0.036).
func TestFamilyOfThree(t *testing.T) {
	r := worked(t, sixths("family B M S"))
	f := family(t, r, "named")
	if !slices.Equal(f.Times, []int{3, 2, 1}) || !slices.Equal(f.Kinds, []string{"B", "M", "S"}) {
		t.Errorf("%+v", f)
	}
	near(t, "common length", f.Unit.MM/inch, 3.4375, 1e-4)
	for i, kind := range []string{"B", "M", "S"} {
		near(t, kind, tape(t, r, kind, 1), float64(3-i)*3.4375, 1e-4)
	}
	if want := "3 times 3 7/16 in"; r.Kinds[0].FamilyOf != want {
		t.Errorf("big is %q, want %q", r.Kinds[0].FamilyOf, want)
	}
}

// Without the family every kind goes to its own nearest mark, and the ratio is
// lost: 10 3/8, 6 15/16 and 3 7/16.
func TestNoFamilyNoRatio(t *testing.T) {
	r := worked(t, sixths())
	for kind, want := range map[string]float64{"B": 10.375, "M": 6.9375, "S": 3.4375} {
		near(t, kind, tape(t, r, kind, 1), want, 1e-4)
	}
	if len(r.Families) != 0 || r.Kinds[0].FamilyOf != "" {
		t.Errorf("%+v", r.Families)
	}
}

// A half hexagon has a side of two and three of one; with a hexagon of half
// its side in the family all are whole multiples of one length.
func TestFamilyWithHalfHexagon(t *testing.T) {
	r := worked(t, spec("H = half hexagon: side 20.1", "B = hexagon: side 10.05", "family H B", "H1 at 0 0", "B1 side 1 on H1 side 3"))
	u := family(t, r, "named").Unit.MM / inch
	for kind, sides := range map[string][]float64{"H": {4, 2, 2, 2}, "B": {1, 1, 1, 1, 1, 1}} {
		for i, times := range sides {
			near(t, kind, tape(t, r, kind, i+1), times*u, 1e-4)
		}
	}
	near(t, "common length", u, 10.0625, 1e-4)
	if r.Kinds[0].Closing.MM > closedGap {
		t.Errorf("it leaves %g mm open", r.Kinds[0].Closing.MM)
	}
	if want := "4 and 2 times 10 1/16 in"; r.Kinds[0].FamilyOf != want {
		t.Errorf("the half hexagon is %q, want %q", r.Kinds[0].FamilyOf, want)
	}
}

// A hexagon side of 10.392 in and a square side of 10.44 in are meant to be
// one; alone they would go to 10 3/8 and 10 7/16.
func TestFlushSidesShareALength(t *testing.T) {
	flush := []string{"B = hexagon: flats 18", "Q = square: side 10.44", "B1 at 0 0", "Q1 side 1 on B1 side 4"}
	r := worked(t, spec(flush...))
	near(t, "hexagon", tape(t, r, "B", 4), 10.4375, 1e-4)
	near(t, "square", tape(t, r, "Q", 1), 10.4375, 1e-4)
	if f := family(t, r, "flush at both ends"); !slices.Equal(f.Kinds, []string{"B", "Q"}) || !slices.Equal(f.Times, []int{1, 1}) {
		t.Errorf("%+v", f)
	}
	if !r.Seams[0].FlushBoth {
		t.Error("sawn, the seam is flush no more")
	}
	apart := worked(t, spec(flush[0], flush[1], flush[2], "Q1 at 40 0"))
	near(t, "hexagon alone", tape(t, apart, "B", 4), 10.375, 1e-4)
	near(t, "square alone", tape(t, apart, "Q", 1), 10.4375, 1e-4)
}

// Kinds that meet flush in a chain all get one length: a triangle on a square
// on a hexagon.
func TestFlushChain(t *testing.T) {
	r := worked(t, spec("B = hexagon: side 10.39", "Q = square: side 10.40", "T = triangle: side 10.41", "B1 at 0 0", "Q1 side 1 on B1 side 4", "T1 side 1 on Q1 side 3"))
	for _, kind := range []string{"B", "Q", "T"} {
		near(t, kind, tape(t, r, kind, 1), 10.375, 1e-4) // 10.40, to the nearest sixteenth
	}
	if n := len(r.Families); n != 1 {
		t.Errorf("%d families", n)
	}
}

// Somebody outside a family who lies flush against a member takes the
// member's length, whichever comes first in the file.
func TestOutsiderFollowsTheFamily(t *testing.T) {
	for _, kinds := range [][]string{
		{"B = hexagon: flats 18", "M = hexagon: flats 12", "Q = square: side 10.4"},
		{"Q = square: side 10.4", "B = hexagon: flats 18", "M = hexagon: flats 12"},
	} {
		r := worked(t, spec(append(kinds, "family B M", "B1 at 0 0", "M1 side 1 on B1 side 4", "Q1 side 1 on B1 side 3")...))
		u := family(t, r, "named").Unit.MM / inch
		near(t, "member", tape(t, r, "B", 1), 3*u, 1e-4)
		near(t, "outsider", tape(t, r, "Q", 1), 3*u, 1e-4)
		near(t, "the outsider's length is shared", family(t, r, "flush").Unit.MM/inch, 3*u, 1e-4)
	}
}

// A right triangle of 10, 10 and 14.142 in is near 12 : 12 : 17, but on the
// tape those lengths leave more open than a joint of 1/64 in may. It keeps
// lengths of its own, is told so, and no longer counts as of the family.
func TestSidesThatCannotBeKept(t *testing.T) {
	s := spec("T = corners: corners 0 0 / 10 0 / 0 10", "Q = square: side 10", "family T Q", "T1 at 0 0", "Q1 at 30 0")
	s.JointTolerance = ptr(unit.Inch / 64)
	r := worked(t, s)
	notes := noted(r, "shared-length-dropped")
	if len(notes) != 1 || notes[0].Where != "frames.T" {
		t.Fatalf("%+v", r.Notes)
	}
	k := r.Kinds[0]
	if k.FamilyOf != "" || len(r.Families) != 0 {
		t.Errorf("still said to be %q of %+v", k.FamilyOf, r.Families)
	}
	if fitted := slices.ContainsFunc(k.Parts, func(p PartFacts) bool { return p.Fitted }); !fitted && k.Closing.MM > inch/64+1e-3 {
		t.Errorf("it leaves %g mm open and nothing is fitted", k.Closing.MM)
	}
	s.JointTolerance = ptr(unit.Inch / 16)
	if r := worked(t, s); len(noted(r, "shared-length-dropped")) != 0 || r.Kinds[0].FamilyOf == "" {
		t.Errorf("a wider joint would do: %+v, %q", r.Notes, r.Kinds[0].FamilyOf)
	}
}

// Whatever squares are a family, each side is a whole number of marks, the
// ratio is exact, and no side moves further than its multiple of half a mark.
func TestFamiliesOfSquares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.Float64Range(1.5, 3).Draw(t, "unit in")
		times := rapid.SliceOfNDistinct(rapid.IntRange(3, 9), 2, 4, rapid.ID[int]).Draw(t, "times")
		var names []string
		s := spec()
		for i, m := range times {
			name := string(rune('A' + i))
			k := kindOf(name, "square: side 1")
			k.Lengths["side"] = unit.Length(math.Round(float64(m) * u * float64(unit.Inch)))
			s.Kinds = append(s.Kinds, k)
			names = append(names, name)
			s.Layout = append(s.Layout, placeOf(name+"1", "at "+num64(float64(i)*60)+" 0"))
		}
		s.Families = [][]string{names}
		p := start(s, BuiltIn())
		p.prepare()
		p.layAsked()
		p.layBuilt()
		if p.err != nil || len(p.snags) > 0 {
			t.Fatal(p.err, p.snags)
		}
		first := p.kinds[0].built.Parts[0].Outside
		for i, k := range p.kinds {
			l := k.built.Parts[0].Outside
			if l%(unit.Inch/16) != 0 {
				t.Fatalf("%d nm is off the tape", l)
			}
			if int64(l)*int64(times[0]) != int64(first)*int64(times[i]) {
				t.Fatalf("%d : %d is not %d : %d", l, first, times[i], times[0])
			}
			if off := math.Abs(float64(l)/float64(unit.Inch) - float64(times[i])*u); off > float64(times[i])/32+1e-6 {
				t.Fatalf("side %d moved by %g in", i, off)
			}
		}
	})
}
