package packet

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"bowerwright/drawing"
	"bowerwright/drawing/pdf"
	"bowerwright/job"
	"bowerwright/jobfile"
)

// says is every line of text on pages whose title is one of those given, or on
// all of them.
func says(doc pdf.Doc, titles ...string) []string {
	var out []string
	for _, p := range doc.Pages {
		if len(titles) == 0 || slices.Contains(titles, p.List.Title) {
			out = append(out, drawing.Texts(p.List)...)
		}
	}
	return out
}

func mustSay(t *testing.T, lines []string, what string) {
	t.Helper()
	for _, l := range lines {
		if strings.Contains(l, what) {
			return
		}
	}
	t.Errorf("nowhere on paper: %q", what)
}

// examples are the example jobs planned, and the samples.
func examples(t testing.TB) []job.Result {
	t.Helper()
	return append(samples(), planned(t)...)
}

// planned are the example jobs as the program plans them.
func planned(t testing.TB) []job.Result {
	t.Helper()
	files, err := filepath.Glob("../examples/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	var out []job.Result
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		spec, _, snags := jobfile.Read(text, filepath.Base(f), nil, "")
		if len(snags) > 0 {
			t.Fatalf("%s: %v", f, snags)
		}
		r, snags, err := job.Plan(context.Background(), spec, job.BuiltIn())
		if err != nil || snags.Stops() {
			t.Fatalf("%s: %v %v", f, snags, err)
		}
		out = append(out, r)
	}
	return out
}

// TestDrawingsSayTheResult reads the dimensions off the drawings: they are the
// Result's, and the distance drawn is to one scale with them.
func TestDrawingsSayTheResult(t *testing.T) {
	for _, r := range examples(t) {
		for _, l := range []drawing.List{Front(r), Back(r)} {
			ds := drawing.Dimensions(l)
			if len(ds) != 2 {
				t.Fatalf("%s: %d dimensions, want width and height", l.Title, len(ds))
			}
			for i, z := range []job.Size{r.Overall.Width, r.Overall.Height} {
				if ds[i].S != first(r.Job, z) || ds[i].After != " · "+second(r.Job, z) {
					t.Errorf("%s: says %s%s, the Result %s", l.Title, ds[i].S, ds[i].After, both(r.Job, z))
				}
			}
			w, h := ds[0].To.Dist(ds[0].From), ds[1].To.Dist(ds[1].From)
			if d := w*r.Overall.Height.MM - h*r.Overall.Width.MM; abs(d) > 1e-6*w*r.Overall.Height.MM {
				t.Errorf("%s: width and height are drawn to different scales", l.Title)
			}
			for _, f := range r.Frames {
				mustSay(t, drawing.Texts(l), f.Label)
			}
		}
	}
}

// TestDimensionsAgreeWithTheFrames holds the drawn size against the frames'
// corners: a wrong figure in the Result would show.
func TestDimensionsAgreeWithTheFrames(t *testing.T) {
	for _, r := range examples(t) {
		var all [][]job.XY
		for _, f := range r.Frames {
			all = append(all, f.Outside)
		}
		lo, hi := sampleBounds(all...)
		if abs(hi[0]-lo[0]-r.Overall.Width.MM) > 0.01 || abs(hi[1]-lo[1]-r.Overall.Height.MM) > 0.01 {
			t.Errorf("%s: the frames take %.2f by %.2f mm, the Result says %s by %s", r.Job.Name, hi[0]-lo[0], hi[1]-lo[1],
				r.Overall.Width.Metric, r.Overall.Height.Metric)
		}
	}
}

// TestPapersAgree: a part's figures are the same in the cut list, on the bench
// card and in the table for other programs.
func TestPapersAgree(t *testing.T) {
	for _, r := range examples(t) {
		doc := Build(r, made)
		rows := cutRows(t, r)
		var cutting []string
		for _, p := range doc.Pages {
			if p.List.Title == "Cutting" || strings.HasPrefix(p.List.Title, "Sizes") {
				cutting = append(cutting, drawing.Texts(p.List)...)
			}
		}
		n := 0
		for _, k := range r.Kinds {
			card := says(doc, cardEntry+k.Letter+", "+k.Title)
			for _, p := range k.Parts {
				n++
				mustSay(t, cutting, p.Mark)
				mustSay(t, cutting, first(r.Job, p.LongPoint))
				mustSay(t, cutting, second(r.Job, p.ShortPoint))
				mustSay(t, card, itoa(p.Count))
				row := rows[n]
				if row[3] != p.Mark || row[4] != itoa(p.Count) || row[7] != p.Outside.US || row[13] != p.LongPoint.US {
					t.Errorf("%s: the table says %v", p.Mark, row)
				}
				if mm, err := strconv.ParseFloat(row[8], 64); err != nil || mm != p.Outside.MM {
					t.Errorf("%s: the table says %q mm", p.Mark, row[8])
				}
			}
		}
		for _, tm := range r.Timber {
			for _, w := range tm.Parts {
				if w.Kind == "" {
					n++
					mustSay(t, cutting, w.Mark)
				}
			}
			for _, s := range tm.Stops {
				figure, _ := split(first(r.Job, s.Stop))
				mustSay(t, says(doc), figure)
			}
			for _, b := range tm.Boards {
				mustSay(t, says(doc), numbersSay(b.Numbers))
			}
		}
		if len(rows) != n+1 {
			t.Errorf("%s: %d rows for %d kinds of part", r.Job.Name, len(rows)-1, n)
		}
	}
}

// cutRows reads the cut list back by an independent reader, and checks its
// form.
func cutRows(t *testing.T, r job.Result) [][]string {
	t.Helper()
	var b bytes.Buffer
	if err := CutListCSV(&b, r); err != nil {
		t.Fatal(err)
	}
	if bytes.HasPrefix(b.Bytes(), []byte{0xEF, 0xBB, 0xBF}) {
		t.Error("the cut list begins with a byte-order mark")
	}
	if n, all := bytes.Count(b.Bytes(), []byte("\r\n")), bytes.Count(b.Bytes(), []byte("\n")); n != all {
		t.Errorf("%d of %d lines end in CR LF", n, all)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if strings.Join(rows[0], ",") != strings.Join(cutListHead, ",") {
		t.Errorf("head row: %v", rows[0])
	}
	return rows
}

func TestCutListQuotes(t *testing.T) {
	r := single().result()
	r.Kinds[0].Title = `say "when", then` + "\nstop"
	if row := cutRows(t, r)[1]; row[2] != r.Kinds[0].Title {
		t.Errorf("came back as %q", row[2])
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, os.ErrClosed }

func TestCutListSaysWhenItCannotWrite(t *testing.T) {
	if err := CutListCSV(failing{}, combWall().result()); err == nil {
		t.Error("no error")
	}
}

// TestExamplePages looks at every page of every example.
func TestExamplePages(t *testing.T) {
	for _, r := range examples(t) {
		mustBeClean(t, r.Job.Name, r)
		mustStandAlone(t, r)
	}
}

// TestContents: every line of the contents names a page that begins there, in
// order, and the pages say how many there are.
func TestContents(t *testing.T) {
	for _, r := range examples(t) {
		doc := Build(r, made)
		last := 0
		for i, p := range doc.Pages {
			mustSay(t, drawing.Texts(p.List), ", page "+itoa(i+1)+" of "+itoa(len(doc.Pages)))
			if r.Mark != "" {
				mustSay(t, drawing.Texts(p.List), "mark "+r.Mark)
			}
			if p.Bookmark != "" {
				last = i
			}
		}
		if doc.Pages[0].Bookmark != "Cover" || doc.Pages[1].Bookmark != "Front drawing" || doc.Pages[2].Bookmark != "Back drawing" || last < 3 {
			t.Errorf("%s: bookmarks are wrong", r.Job.Name)
		}
		mustSay(t, says(doc, "Front drawing"), "FRONT")
		mustSay(t, says(doc, "Back drawing"), "BACK")
	}
}

// TestNoTime: without a time the papers carry none.
func TestNoTime(t *testing.T) {
	for _, l := range says(Build(single().result(), time.Time{})) {
		if strings.Contains(l, "made ") || strings.Contains(l, "0001") {
			t.Errorf("says %q", l)
		}
	}
	mustSay(t, says(Build(single().result(), made)), "made 3 May 2027, 10:42, mark 7F2C")
}

// TestBannerAndCautions stand on paper whatever else does.
func TestBannerAndCautions(t *testing.T) {
	for _, r := range examples(t) {
		doc := Build(r, made)
		all := strings.Join(says(doc), " ")
		for _, w := range strings.Fields(r.Banner) {
			if !strings.Contains(all, w) {
				t.Errorf("%s: the banner's %q is missing", r.Job.Name, w)
			}
		}
		for _, c := range r.Cautions {
			mustSay(t, says(doc), strings.Join(strings.Fields(c.Text)[:3], " "))
		}
		for _, k := range r.Kinds {
			mustSay(t, says(doc, cardEntry+k.Letter+", "+k.Title), "At the saw")
		}
		for _, a := range r.Assumed {
			mustSay(t, says(doc), a.ID)
		}
		if strings.Contains(strings.ToLower(all), "safe") {
			t.Errorf("%s: a paper says safe", r.Job.Name)
		}
	}
}

// TestPDF: the packet is a document, and the same each time.
func TestPDF(t *testing.T) {
	r := gateway().result()
	var a, b bytes.Buffer
	if err := pdf.Write(&a, Build(r, made)); err != nil {
		t.Fatal(err)
	}
	if err := pdf.Write(&b, Build(r, made)); err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(a.Bytes(), []byte("%PDF-")) || !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("no document, or two that differ")
	}
}

func BenchmarkPacket(b *testing.B) {
	r := combWall().result()
	for b.Loop() {
		var out bytes.Buffer
		if err := pdf.Write(&out, Build(r, made)); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSwarm lays out forty frames without writing them.
func BenchmarkSwarm(b *testing.B) {
	r := swarm().result()
	for b.Loop() {
		Build(r, made)
	}
}
