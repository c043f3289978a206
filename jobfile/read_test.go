package jobfile

import (
	"bytes"
	"context"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

// clean reads a job that must have nothing to put right.
func clean(t *testing.T, src string) (job.Spec, *File) {
	t.Helper()
	s, f, l := Read([]byte(src), "job.yaml", nil, "")
	if len(l) > 0 {
		t.Fatal(snag.Text(l, f.Source, snag.Width))
	}
	return s, f
}

func sample(t *testing.T) string {
	t.Helper()
	src, err := os.ReadFile("testdata/sample.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(src)
}

func TestSample(t *testing.T) {
	s, _ := clean(t, sample(t))
	if s.Name != "Orchard wall" || s.Date != "2027-05-22" || s.Note != "Paint is the client's.\nTwo tins are in the shed." {
		t.Errorf("facts: %q %q %q", s.Name, s.Date, s.Note)
	}
	in := unit.Inch
	lengths := []struct {
		what      string
		got, want unit.Length
	}{
		{"mark", s.Mark, in / 16}, {"tolerance", *s.JointTolerance, in / 32}, {"gap", *s.Gap, 0}, {"near", *s.NearMiss, in / 2},
		{"kerf", *s.Saw.Kerf, in / 8}, {"hold", *s.Saw.Hold, 8 * in}, {"clamp hold", *s.Saw.ClampHold, 3 * in},
		{"lying 30", s.Saw.Takes[1].Widest, 10 * in}, {"lying tilted 45", s.Saw.Takes[5].Thickest, 5 * in / 2},
		{"pine", s.Timber[0].Width, 7 * in / 2}, {"trim", *s.Timber[0].TrimFirst, in / 4}, {"trim far", *s.Timber[0].TrimFar, 0},
		{"ply", s.Timber[1].Length, 2400 * unit.Millimetre}, {"flats", s.Kinds[0].Lengths["flats"], 18 * in},
		{"gate", s.Kinds[5].Lengths["width"], 60 * in}, {"shift", s.Layout[3].Attach[0].Shift, -5 * in / 2},
		{"mirror", *s.Copies[0].MirrorAt, 60 * in}, {"driver", s.Driver.Length, 7 * in}, {"across", s.Test.Across, 24*in + 15*in/16},
	}
	for _, l := range lengths {
		if l.got != l.want {
			t.Errorf("%s is %d nm, not %d", l.what, l.got, l.want)
		}
	}
	if s.Timber[0].PriceMinor != 449 || s.Timber[1].PriceMinor != 1200 || s.Timber[1].Currency != "USD" {
		t.Errorf("prices %+v", s.Timber)
	}
	if !*s.Timber[0].Turning || *s.Timber[1].Turning || !s.Saw.Clamp || !s.Driver.RightAngle {
		t.Error("a switch is wrong")
	}
	if got := s.Saw.Detents[4].Degrees(); got < 31.5999999 || got > 31.6000001 {
		t.Errorf("detent %v", got)
	}
	if !reflect.DeepEqual(s.Families, [][]string{{"big", "middle", "small"}}) {
		t.Errorf("families %v", s.Families)
	}
	wantAssume := []job.Override{{ID: "saw.error", Value: 0.3, Text: "0.3", From: "job file"},
		{ID: "board.moisture", Value: 10, Text: "10 %", From: "job file"}, {ID: "saw.hold", Value: 200 / 25.4, Text: "200 mm", From: "job file"}}
	if got := s.Assume[len(s.Assume)-len(wantAssume):]; !reflect.DeepEqual(got, wantAssume) { // those under making come before
		t.Errorf("assume %+v", s.Assume)
	}
}

func TestLayoutOfSample(t *testing.T) {
	s, _ := clean(t, sample(t))
	var ids, to []string
	for _, p := range s.Layout {
		ids = append(ids, p.ID)
		if len(p.Attach) > 0 {
			to = append(to, p.Attach[0].To)
		}
	}
	if got := strings.Join(ids, " "); got != "B1 B2 S1 S2 B7 R1 R2 R3 R4 T1 A1" {
		t.Errorf("ids %s", got)
	}
	if got := strings.Join(to, " "); got != "B1 B1 B2 B2 B7 R1 R2 R3 B1" {
		t.Errorf("against %s", got)
	}
	if a := s.Layout[4].Attach; len(a) != 2 || a[1] != (job.Attach{Side: 4, To: "B1", ToSide: 1, Align: "flush at end"}) {
		t.Errorf("loop %+v", a)
	}
	if a := s.Layout[9]; a.Attach[0] != (job.Attach{Corner: 2, To: "B1", ToCorner: 3}) || a.Turn != unit.FromDegrees(30) {
		t.Errorf("corner %+v", a)
	}
	if p := s.Layout[10]; !p.Mirror || p.At.X != -3048 || p.At.Y != 152.4 || p.Turn != unit.FromDegrees(22.5) {
		t.Errorf("position %+v", p)
	}
	if c := s.Copies[1]; !reflect.DeepEqual(c.As, []string{"D1", "D2"}) || c.By.X != 1016 || c.By.Y != 0 {
		t.Errorf("copy %+v", c)
	}
}

// TestUnits: what stands first on paper, and on which, follows from the unit
// that the file is written in.
func TestUnits(t *testing.T) {
	for _, c := range []struct{ add, show, paper string }{
		{"", "us", "letter"}, {"unit: in\n", "us", "letter"}, {"unit: ft\n", "us", "letter"}, {"unit: mm\n", "metric", "a4"},
		{"unit: cm\n", "metric", "a4"}, {"unit: m\n", "metric", "a4"}, {"unit: m\nshow: us\n", "us", "letter"},
		{"show: metric\n", "metric", "a4"}, {"unit: mm\npaper: letter\n", "metric", "letter"},
	} {
		s, _ := clean(t, "bowerwright: 1\nname: A\n"+c.add+timber+"frames: {a: {shape: square, side: 10 in}}\nlayout: {A1: \"a at 0, 0\"}\n")
		if s.Show != c.show || s.Paper != c.paper {
			t.Errorf("%q shows %s on %s", c.add, s.Show, s.Paper)
		}
	}
}

// TestLengths: a length may be written in many ways; unit's own tests have the
// rest. What matters here is that YAML leaves the text alone.
func TestLengths(t *testing.T) {
	for text, want := range map[string]float64{
		`10 3/8 in`: 263.525, `10-3/8"`: 263.525, `10⅜"`: 263.525, `'10-3/8"'`: 263.525, `5' 6 1/2"`: 1689.1, `264 mm`: 264, `26.4 cm`: 264,
		`2.4 m`: 2400, `⅜ in`: 9.525, `10.375 in`: 263.525, `3/8in`: 9.525, `12`: 304.8, `12.5`: 317.5, `"12"`: 304.8, `1' `: 304.8,
		"10\u00a03/8\u00a0in": 263.525, "12 in # a comment": 304.8, "|\n      12 in": 304.8,
	} {
		s, _ := clean(t, kindOf("shape: square\nside: "+text))
		if got := s.Kinds[0].Lengths["side"].MM(); got != want {
			t.Errorf("%s is %v mm, not %v", text, got, want)
		}
	}
}

func TestSwitches(t *testing.T) {
	for text, want := range map[string]bool{"yes": true, "no": false, "true": true, "false": false, "on": true, "off": false,
		"Yes": true, "NO": false, `"yes"`: true, "True": true} {
		s, _ := clean(t, sawOf("clamp: "+text))
		if s.Saw.Clamp != want {
			t.Errorf("%s is %v", text, s.Saw.Clamp)
		}
	}
}

// TestLineEnds: a byte order mark and Windows line ends change nothing.
func TestLineEnds(t *testing.T) {
	want, _ := clean(t, sample(t))
	for _, src := range []string{"\ufeff" + sample(t), strings.ReplaceAll(sample(t), "\n", "\r\n"), "---\n" + sample(t)} {
		if got, _ := clean(t, src); !reflect.DeepEqual(got, want) {
			t.Errorf("%.20q reads otherwise", src)
		}
	}
}

func TestBytesAreKept(t *testing.T) {
	for _, src := range []string{sample(t), "\ufeff" + lay + "\r\n# end", "[[[", ""} {
		_, f, _ := Read([]byte(src), "job.yaml", nil, "")
		if !bytes.Equal(f.Bytes(), []byte(src)) {
			t.Errorf("%.20q came back changed", src)
		}
	}
}

// Paths as job.Plan writes them, and where they lie in the sample.
func TestLocate(t *testing.T) {
	_, f := clean(t, sample(t))
	lines := strings.Split(sample(t), "\n")
	for path, want := range map[string]string{
		"frames.big.flats": "18 in", "frames.big": "big:", "layout.B2": "big side 1", "layout.R3": "R1..R4:", "families[0]": "big, middle",
		"timber.pine.board": "1x4", "copies[1]": "B1, S1 as", "layout.C2": "B1..B2 as", "layout.D2": "D2, moved", "assume.saw.error": "0.3",
		"test corner.across": "24 15/16", "frames.small.points": "small:", "saw.clamp hold": "3 in", "frames.arrow.corners[1]": "12 in, 6 in",
		"layout": "layout:", "people[0].name": "Ida", "joint tolerance": "1/32",
	} {
		at := f.Locate(path)
		rest := ""
		if at.Line > 0 {
			rest = string([]rune(lines[at.Line-1])[at.Column-1:])
		}
		// a copy's id lies in its line, not at a column of its own text
		if at.Path != path || at.File != "job.yaml" || !strings.HasPrefix(rest, want) && !(strings.HasPrefix(path, "layout.C") && strings.Contains(lines[at.Line-1], want)) {
			t.Errorf("%s lies at %+v: %q", path, at, rest)
		}
	}
	if at := f.Locate("no.such"); at.Line != 0 || at.File != "job.yaml" {
		t.Errorf("an unknown path lies at %+v", at)
	}
}

func TestManySnags(t *testing.T) {
	_, _, l := Read([]byte(lay+strings.Repeat("  X1: nothing\n", 300)), "job.yaml", nil, "")
	if len(l) != maxSnags+1 || !has(l, tooManySnags) {
		t.Errorf("%d snags", len(l))
	}
}

func has(l snag.List, k snag.Kind) bool {
	for _, s := range l {
		if s.Code == k.Code {
			return true
		}
	}
	return false
}

// shop is a shop file that the job below lies over.
const shop = `bowerwright-shop: 1
unit: mm
currency: EUR
maker: Wren and Alder
mark: 0.5 mm
saw: {kerf: 3, hold: 200, swing: 50}
timber:
  pine: {board: 1x4, length: 2400, price: 6, species: eastern white pine}
  oak: {thickness: 20, width: 90, length: 2000}
people: [{name: Ida}]
assume: {saw.error: 0.5}
`

func TestShopFile(t *testing.T) {
	src := lay + "saw: {hold: 9}\ntimber2: x\n"
	src = strings.Replace(src, "timber2: x\n", "", 1)
	src = strings.Replace(src, "{board: 1x4, length: 8 ft}", "{length: 8 ft}\n  elm: {board: 1x6}\n  oak: {board: 2x4}", 1) + "assume: {saw.error: 0.3}\n"
	s, f, l := Read([]byte(src), "job.yaml", []byte(shop), "shop.yaml")
	if len(l) > 0 {
		t.Fatal(snag.Text(l, f.Source, snag.Width))
	}
	if *s.Saw.Kerf != 3*unit.Millimetre || *s.Saw.Hold != 9*unit.Inch || s.Saw.SwingLeft != unit.FromDegrees(50) || s.Saw.From != "job file" {
		t.Errorf("saw %+v", s.Saw)
	}
	if s.Maker != "Wren and Alder" || s.Mark != unit.Millimetre/2 || s.Show != "us" || len(s.People) != 1 {
		t.Errorf("maker %q mark %v show %s", s.Maker, s.Mark, s.Show)
	}
	pine, oak, elm := s.Timber[0], s.Timber[1], s.Timber[2]
	if pine.Name != "pine" || pine.Nominal != "1x4" || pine.Length != 8*unit.Foot || pine.PriceMinor != 600 || pine.Currency != "EUR" {
		t.Errorf("pine %+v", pine)
	}
	if oak.Nominal != "2x4" || oak.Thickness != 0 || oak.Length != 2*unit.Metre || elm.Nominal != "1x6" {
		t.Errorf("oak %+v, elm %+v: a board named anew has its own size", oak, elm)
	}
	if len(s.Assume) != 2 || s.Assume[0].From != "shop file" || s.Assume[1].From != "job file" {
		t.Errorf("assume %+v", s.Assume)
	}
	if at := f.Locate("timber.pine.species"); at.File != "shop.yaml" || at.Line != 8 {
		t.Errorf("the species lies at %+v", at)
	}
	if at := f.Locate("timber.pine.length"); at.File != "job.yaml" {
		t.Errorf("the length lies at %+v", at)
	}
}

// TestShopTimberComesLast: a frame that names no timber is made of the job's
// first, not the shop's.
func TestShopTimberComesLast(t *testing.T) {
	src := strings.Replace(lay, "pine: {", "elm: {", 1)
	s, _, _ := Read([]byte(src), "job.yaml", []byte(shop), "shop.yaml")
	if s.Timber[0].Name != "elm" || len(s.Timber) != 3 {
		t.Errorf("timber %+v", s.Timber)
	}
	if s.Saw.From != "shop file" {
		t.Errorf("the saw is from %s", s.Saw.From)
	}
	if s, _, _ := Read([]byte(lay), "job.yaml", nil, ""); s.Saw.From != "built in" {
		t.Errorf("the saw is from %s", s.Saw.From)
	}
}

func TestSHA256(t *testing.T) {
	_, f, _ := Read([]byte("abc"), "job.yaml", nil, "")
	// FIPS 180-4, appendix B.1 (the example of "abc")
	if got := f.SHA256(); got != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" {
		t.Error(got)
	}
	_, g, _ := Read([]byte("ab"), "job.yaml", []byte("c"), "shop.yaml")
	if g.SHA256() != f.SHA256() {
		t.Error("the shop file's bytes are not behind the job file's")
	}
}

// TestEveryCode: every kind of snag that is listed is found in some file.
func TestEveryCode(t *testing.T) {
	found := map[string]bool{"too-many-snags": true} // TestManySnags
	note := func(l snag.List) {
		for _, s := range l {
			found[s.Code] = true
			if s.Problem == "" || s.Remedy == "" || s.Place.File == "" {
				t.Errorf("%+v does not say all", s)
			}
		}
	}
	for _, c := range badFiles {
		_, _, l := Read([]byte(c.src), c.name, nil, "")
		note(l)
	}
	for _, c := range badShops {
		_, _, l := Read([]byte(lay), "job.yaml", []byte(c.src), "shop.yaml")
		note(l)
	}
	for _, c := range badLists {
		_, _, l := listed(lay, c.src)
		note(l)
	}
	for _, c := range badCutFiles {
		_, l := c.read(c.src)
		note(l)
	}
	known := map[string]bool{}
	for _, k := range Snags {
		known[k.Code] = true
		if !found[k.Code] {
			t.Errorf("no bad file brings out %s", k.Code)
		}
	}
	for code := range found {
		if !known[code] {
			t.Errorf("%s is not listed in Snags", code)
		}
	}
	if _, err := snag.Merge(Snags, job.Snags); err != nil {
		t.Error(err)
	}
}

var badShops = []struct{ name, src string }{
	{"shop-has-a-job", shop + "name: A\nlayout: {B1: \"big at 0, 0\"}\n"},
	{"shop-is-a-job", lay},
	{"shop-without-version", "saw: {kerf: 1/8 in}\n"},
	{"shop-unknown", shop + "prise: 3\n"},
	{"shop-newer", "bowerwright-shop: 2\n"},
	{"shop-broken", "bowerwright-shop: [\n"},
}

func TestBadShops(t *testing.T) {
	for _, c := range badShops {
		t.Run(c.name, func(t *testing.T) {
			_, f, l := Read([]byte(lay), "job.yaml", []byte(c.src), "shop.yaml")
			if !l.Stops() {
				t.Fatal("nothing to put right was found")
			}
			golden(t, c.name, snag.Text(l, f.Source, snag.Width))
		})
	}
}

// planned reads and plans a job that must have nothing to put right.
func planned(t *testing.T, src string) job.Result {
	t.Helper()
	s, f := clean(t, src)
	r, l, err := job.Plan(context.Background(), s, job.BuiltIn())
	if err != nil {
		t.Fatal(err)
	}
	for i := range l {
		l[i].Place = f.Locate(l[i].Place.Path)
	}
	if len(l) > 0 {
		t.Fatal(snag.Text(l, f.Source, snag.Width))
	}
	return r
}

func TestStarterPlans(t *testing.T) {
	for _, name := range []string{"Orchard wall", `The "long" barn: 2`, "yes", "", "#4", "a\nb\x00c", "Łódź", "'", "- a", "12", strings.Repeat("long ", 40)} {
		src := string(Starter(name))
		r := planned(t, src)
		want := strings.TrimSpace(strings.NewReplacer("\n", " ", "\x00", " ").Replace(name))
		if want == "" {
			want = "New job"
		}
		if len(want) > maxLine {
			want = strings.TrimSpace(want[:maxLine])
		}
		if r.Job.Name != want || r.Overall.FrameCount != 4 {
			t.Errorf("%q became %q with %d frames", name, r.Job.Name, r.Overall.FrameCount)
		}
	}
}

// TestStarterComments: what the starter has in comments is right once the
// comment signs are gone.
func TestStarterComments(t *testing.T) {
	src := strings.ReplaceAll(string(Starter("A")), "# turning", "turning")
	src = strings.ReplaceAll(src, "# price", "price")
	for _, s := range []string{"# for:", "# date:", "# venue:", "# maker:", "# copies:", "#   - "} {
		if !strings.Contains(src, s) {
			t.Fatalf("the starter has no %q", s)
		}
		src = strings.ReplaceAll(src, s, s[2:])
	}
	if s, _ := clean(t, src); len(s.Copies) != 1 || s.Venue == "" || s.Timber[0].PriceMinor != 449 || *s.Timber[0].Turning {
		t.Errorf("%+v", s)
	}
}

func TestExamplesAreClean(t *testing.T) {
	names, err := filepath.Glob("../examples/*.yaml")
	if err != nil || len(names) < 2 {
		t.Fatalf("examples: %v %v", names, err)
	}
	for _, name := range names {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		clean(t, string(src))
	}
}

// TestShapeExamples: the example that the reference gives for each shape is a
// frame that can be made.
func TestShapeExamples(t *testing.T) {
	for _, d := range job.Shapes {
		t.Run(d.Name, func(t *testing.T) {
			fields := "shape: " + d.Name + "\n" + d.Example
			if r := planned(t, kindOf(fields)); r.Kinds[0].Shape == "" {
				t.Error("no shape came out")
			}
			for _, also := range d.Also {
				clean(t, kindOf("shape: "+also+"\n"+d.Example))
			}
		})
	}
}

// TestFieldExamples: the example that the table gives for a field is read
// where it stands.
func TestFieldExamples(t *testing.T) {
	for _, f := range jobTable {
		if f.kind.form == line && f.Key != "unit" && f.Key != "name" {
			clean(t, lay+f.Key+": "+f.Example+"\n")
		}
	}
	under := func(group string, rows *section) {
		for _, i := range rows.fields {
			switch i.kind.form {
			case line:
				clean(t, lay+group+"{"+i.Key+": \""+strings.ReplaceAll(i.Example, `"`, `\"`)+"\"}\n")
			case list:
				clean(t, lay+group+"{"+i.Key+": [\""+i.Example+"\"]}\n")
			case fields:
				clean(t, lay+group+"{"+i.Key+": {"+i.Example+"}}\n")
			}
		}
	}
	under("saw: ", describe("saw", sawTable))
	under("driver: ", describe("driver", driverTable))
	for _, d := range job.Shapes {
		for _, m := range measureFields(d) {
			var k job.Kind
			k.Lengths, k.Angles, k.Counts, k.Words = map[string]unit.Length{}, map[string]unit.Angle{}, map[string]int{}, map[string]string{}
			r := &reader{d: &draft{}, at: &m.info, book: assume.BuiltInBook()}
			n := &node{form: m.kind.form, text: m.Example}
			if n.form == list {
				n.items = []*node{{form: line, text: m.Example}}
			}
			if m.read(r, n, &k); len(r.list) > 0 {
				t.Errorf("%s: %s is not read: %v", d.Name, m.Key, r.list)
			}
		}
	}
}

// Without unit: and show:, a job is shown the way most of its lengths are
// written; the shop file's do not count.
func TestShowFollowsTheLengths(t *testing.T) {
	job := func(side string) string {
		return "bowerwright: 1\nname: x\ntimber:\n  t: {board: 1x4, length: 8 ft}\nframes:\n  a: {shape: hexagon, side: " + side +
			"}\nlayout:\n  A: a at " + side + ", " + side + "\n"
	}
	for side, want := range map[string]string{"10⅜\"": "us", "5' 6 1/2\"": "us", "264 mm": "metric", "26.4 cm": "metric", "1.2 m": "metric", "3/8in": "us"} {
		shop := []byte("bowerwright-shop: 1\nsaw: {kerf: 1/8 in, hold: 8 in, clamp hold: 3 in}\njoint tolerance: 1/32 in\n")
		s, _, snags := Read([]byte(strings.ReplaceAll(job(side), "side: 10⅜\"", "side: '10⅜\"'")), "j", shop, "s")
		if snags.Stops() || s.Show != want {
			t.Errorf("%s: shown %s, want %s; %v", side, s.Show, want, snags)
		}
	}
}

// Assumptions are read in the unit they are listed with, named or not.
func TestAssumptionUnits(t *testing.T) {
	for text, want := range map[string]float64{
		"saw.hold: 200 mm": 200 / 25.4, "saw.hold: 9": 9, "saw.error: 0.5 deg": 0.5, "board.moisture: 14 %": 14,
		"glue.open: 8 min": 8, "glue.open: 8": 8,
	} {
		s, _, snags := Read([]byte(lay+"assume: {"+text+"}\n"), "j", nil, "")
		if snags.Stops() || len(s.Assume) != 1 || math.Abs(s.Assume[0].Value-want) > 1e-9 {
			t.Errorf("%s: %+v %v", text, s.Assume, snags)
		}
	}
	if _, _, snags := Read([]byte(lay+"assume: {glue.open: 8 hours}\n"), "j", nil, ""); len(snags) != 1 || snags[0].Code != "bad-number" {
		t.Errorf("%+v", snags)
	}
}
