package jobfile

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bowerwright/geom"
	"bowerwright/job"
	"bowerwright/unit"
)

// write is a layout line that says p, in one of the spellings that are read;
// odd chooses among them.
func write(p job.Place, odd bool) string {
	var b strings.Builder
	b.WriteString(p.Kind)
	pick := func(plain, other string) string {
		if odd {
			return other
		}
		return plain
	}
	if p.At != nil {
		fmt.Fprintf(&b, " at %g mm, %g mm", p.At.X, p.At.Y)
	}
	for i, a := range p.Attach {
		if i > 0 {
			b.WriteString(pick(", and", " and"))
		}
		if a.Corner > 0 {
			fmt.Fprintf(&b, " corner %d on %s corner %d", a.Corner, a.To, a.ToCorner)
			continue
		}
		fmt.Fprintf(&b, " side %d on %s side %d", a.Side, a.To, a.ToSide)
		switch a.Align {
		case "centred":
			b.WriteString(pick("", ", centered"))
		default:
			b.WriteString(pick(", "+a.Align, " "+strings.Replace(a.Align, " at", "", 1)))
		}
		if a.Shift != 0 {
			fmt.Fprintf(&b, "%s %g mm", pick(", shifted", " shifted by"), a.Shift.MM())
		}
	}
	if p.Turn != 0 {
		fmt.Fprintf(&b, "%s %g%s", pick(", turned", " turned by"), exactly(p.Turn.Degrees()), pick("", " degrees"))
	}
	if p.Mirror {
		b.WriteString(pick(", mirrored", " mirrored"))
	}
	return b.String()
}

func places(t *rapid.T) job.Place {
	p := job.Place{ID: "X1", Kind: "big", Mirror: rapid.Bool().Draw(t, "mirror")}
	tenth := rapid.IntRange(-30000, 30000)
	seam := func() job.Attach {
		return job.Attach{Side: rapid.IntRange(1, 64).Draw(t, "side"), To: rapid.SampledFrom([]string{"B1", "B2"}).Draw(t, "to"),
			ToSide: rapid.IntRange(1, 64).Draw(t, "to side"), Align: rapid.SampledFrom([]string{"centred", "flush at start", "flush at end"}).Draw(t, "align"),
			Shift: unit.Length(tenth.Draw(t, "shift")) * unit.Millimetre / 10}
	}
	turn := unit.FromDegrees(float64(rapid.IntRange(-720, 720).Draw(t, "turn")) / 2)
	switch rapid.IntRange(0, 2).Draw(t, "form") {
	case 0:
		p.At = &geom.Point{X: float64(tenth.Draw(t, "x")) / 10, Y: float64(tenth.Draw(t, "y")) / 10}
		p.Turn = turn
	case 1:
		p.Attach = []job.Attach{seam()}
		for range rapid.IntRange(0, 2).Draw(t, "more") {
			p.Attach = append(p.Attach, seam())
		}
	default:
		p.Attach = []job.Attach{{Corner: rapid.IntRange(1, 64).Draw(t, "corner"), To: "B1", ToCorner: rapid.IntRange(1, 64).Draw(t, "to corner")}}
		p.Turn = turn
	}
	return p
}

// TestLayoutLines: what is written of a place is read as that place.
func TestLayoutLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := places(t)
		text := write(want, rapid.Bool().Draw(t, "odd"))
		s, _, l := Read([]byte(lay+"  X1: "+text+"\n"), "job.yaml", nil, "")
		if len(l) > 0 {
			t.Fatalf("%s: %v", text, l)
		}
		got := s.Layout[len(s.Layout)-1]
		if d := got.Turn - want.Turn; d < -1e-9 || d > 1e-9 {
			t.Fatalf("%s: turned %v", text, got.Turn)
		}
		got.Turn = want.Turn
		if len(got.Attach) == 0 && len(want.Attach) == 0 {
			got.Attach = want.Attach
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("%s\nis  %+v\nnot %+v", text, got, want)
		}
	})
}

// TestLayoutRows: a row counts as
// its frames written out, with the zeros of its numbers.
func TestLayoutRows(t *testing.T) {
	row, _ := clean(t, lay+"  R08..R11: big side 6 on previous side 3\n")
	var lines strings.Builder
	for _, id := range []string{"R08", "R09", "R10", "R11"} {
		lines.WriteString("  " + id + ": big side 6 on previous side 3\n")
	}
	each, _ := clean(t, lay+lines.String())
	if !reflect.DeepEqual(row.Layout, each.Layout) || len(row.Layout) != 6 {
		t.Errorf("%+v\nis not\n%+v", row.Layout, each.Layout)
	}
}

func TestReferencesMayStandBefore(t *testing.T) {
	src := top + "layout:\n  B2: big side 1 on B1 side 4\n  B1: big at 0, 0\nframes:\n  big: {shape: square, side: 3, timber: oak}\ntimber:\n  oak: {board: 1x4}\n"
	if s, _ := clean(t, src); len(s.Layout) != 2 {
		t.Errorf("%+v", s.Layout)
	}
}
