package jobfile

import (
	"reflect"
	"strings"
	"testing"

	"bowerwright/job"
	"bowerwright/unit"
)

// fix is a job of three frames with these lines under fixing.
func fix(lines string) string {
	return lay + "  B3: big side 2 on B1 side 5\ncopies:\n  - B1 as C1, moved by 60, 0\nfixing:\n  " + strings.ReplaceAll(lines, "\n", "\n  ") + "\n"
}

func fixingOf(t *testing.T, lines string) job.FixingAsked {
	t.Helper()
	s, _ := clean(t, fix(lines))
	return s.Fixing
}

// Every field under fixing, written as the page says.
func TestFixingFields(t *testing.T) {
	got := fixingOf(t, `screws: [No. 8, "#6", 4 mm, no. 8]
lengths: [1 1/4 in, 30 mm]
often: yes
inserts: on
flat: counterbored bolts
seen from: both sides
dressed below: 20
dressed above: 7 ft
eyes:
  - {name: child in the aisle, height: 40, distance: 6 ft}
  - {name: camera on the stairs, height: 9 ft, left: -10, behind: yes}`)
	in := unit.Inch
	far, left := 72*in, -10*in
	want := job.FixingAsked{
		Screws: []string{"No. 8", "No. 6", "4 mm"}, Lengths: []unit.Length{5 * in / 4, 30 * unit.Millimetre}, Often: true, Inserts: true,
		Flat: "counterbored bolts", BothSides: true, DressedBelow: 20 * in, DressedAbove: 84 * in,
		Eyes: []job.EyeAsked{{Name: "child in the aisle", Height: 40 * in, Distance: &far}, {Name: "camera on the stairs", Height: 108 * in, Left: &left, Behind: true}},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
	if got := fixingOf(t, "seen from: front\noften: no"); !reflect.DeepEqual(got, job.FixingAsked{}) {
		t.Errorf("the usual is %+v", got)
	}
}

// Lines about seams, in each form that the page shows.
func TestSeamLines(t *testing.T) {
	for _, c := range []struct {
		line string
		want job.SeamAsked
	}{
		{"B1 and B2: one screw", job.SeamAsked{One: true}},
		{"B1 and B2: one bolt", job.SeamAsked{One: true, Bolts: true}},
		{"B1, B2: bolts", job.SeamAsked{Bolts: true}},
		{"B1 and B2: two rows", job.SeamAsked{Rows: 2}},
		{"B1 and B2: one row", job.SeamAsked{Rows: 1}},
		{"B1 and B2: one screw, one row", job.SeamAsked{One: true, Rows: 1}},
		{"B1 and B2: site seam, bolts and two rows", job.SeamAsked{Site: true, Bolts: true, Rows: 2}},
		{"B1 and B2: site seam", job.SeamAsked{Site: true}},
		{"B1 B2: Site seam, screws", job.SeamAsked{Site: true, Screws: true}},
		{"B1 and B2: site seam and one bolt", job.SeamAsked{Site: true, One: true, Bolts: true}},
		{"B1 and B2: site seam, and one screw", job.SeamAsked{Site: true, One: true}},
	} {
		key, _, _ := strings.Cut(c.line, ": ")
		c.want.Key, c.want.Frames = key, [2]string{"B1", "B2"}
		if got := fixingOf(t, "seams:\n  "+c.line).Seams; !reflect.DeepEqual(got, []job.SeamAsked{c.want}) {
			t.Errorf("%s is read as %+v", c.line, got)
		}
	}
	if got := fixingOf(t, "seams:\n  C1 and B3: bolts").Seams[0].Frames; got != [2]string{"C1", "B3"} {
		t.Errorf("a copy is %v", got)
	}
}

// Lines about hooks, in each form that the page shows.
func TestHookLines(t *testing.T) {
	hook := func(count int, ties bool) job.HooksAsked {
		return job.HooksAsked{Key: "B3 side 2", Frame: "B3", Side: 2, Count: count, Ties: ties}
	}
	for value, want := range map[string][]job.HooksAsked{
		"hook": {hook(1, false)}, "1 hook": {hook(1, false)}, "3 hooks": {hook(3, false)}, "2 ties": {hook(2, true)}, "tie": {hook(1, true)},
		"2 hooks and 1 tie": {hook(2, false), hook(1, true)}, "2 hooks, tie": {hook(2, false), hook(1, true)}, "50 hooks": {hook(50, false)},
	} {
		if got := fixingOf(t, "hooks:\n  B3 side 2: "+value).Hooks; !reflect.DeepEqual(got, want) {
			t.Errorf("%s is read as %+v", value, got)
		}
	}
}

// A shop file says what is at hand; what is of one job it refuses.
func TestFixingInShopFile(t *testing.T) {
	shop := "bowerwright-shop: 1\nfixing: {screws: [No. 10], often: yes}\ndriver: {length: 6 in, width: 2 in, right angle: yes, head length: 2 1/2 in}\n"
	s, _, l := Read([]byte(fix("often: no")), "job.yaml", []byte(shop), "shop.yaml")
	if len(l) > 0 {
		t.Fatal(l)
	}
	if f := s.Fixing; f.Often || !reflect.DeepEqual(f.Screws, []string{"No. 10"}) {
		t.Errorf("%+v", f)
	}
	if d := s.Driver; d.Width != 2*unit.Inch || d.HeadLength != 5*unit.Inch/2 || !d.RightAngle {
		t.Errorf("%+v", d)
	}
	for _, line := range []string{"seams: {B1 and B2: bolts}", "hooks: {B1 side 1: hook}", "dressed below: 20 in"} {
		_, _, l := Read([]byte(lay), "job.yaml", []byte("bowerwright-shop: 1\nfixing:\n  "+line+"\n"), "shop.yaml")
		if !has(l, otherFile) {
			t.Errorf("%s in a shop file: %v", line, l)
		}
	}
}
