package packet

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/drawing/pdf"
	"bowerwright/job"
)

// fieldEar gathers the lines of text that leave the field of a page. The thumb
// tab, a page number in white, lies outside it on purpose.
type fieldEar struct {
	box  box
	left []string
}

func (e *fieldEar) Words(w drawing.Words) {
	if len(w.Runs) == 0 || w.Runs[0].Tone == drawing.OnChalk && w.At.X > e.box.x1-9 {
		return
	}
	a := w.Turn * math.Pi / 180
	end := drawing.Pt(w.At.X+w.Width*math.Cos(a), w.At.Y-w.Width*math.Sin(a))
	// A figure has air of about 0.07 of its size on both sides (measured in the
	// fonts); large ones are moved out by a part of it to stand flush by eye.
	air := 0.3 + 0.02*w.Runs[0].Size
	for _, p := range []drawing.Point{w.At, end} {
		if p.X < e.box.x0-air || p.X > e.box.x1+0.3 || p.Y < e.box.y0 || p.Y > e.box.y1 {
			e.left = append(e.left, fmt.Sprintf("%q at %.1f, %.1f", w.Plain, p.X-e.box.x0, p.Y-e.box.y0))
			return
		}
	}
}

// Shape: strokes stay in the field too, but for fold marks and the thumb tab,
// which touch the paper's edge.
func (e *fieldEar) Shape(os []drawing.Outline, _ drawing.Tone, _ drawing.Pen) {
	b := box{e.box.x0 - 1, e.box.y0, e.box.x1 + 1, e.box.y1}
	for _, o := range os {
		for _, p := range o.Flat(1) {
			edge := p.X < 4.6 || p.X > e.box.x0+e.box.x1-9.1
			if !edge && (p.X < b.x0 || p.X > b.x1 || p.Y < b.y0 || p.Y > b.y1) {
				e.left = append(e.left, fmt.Sprintf("a stroke at %.1f, %.1f", p.X-e.box.x0, p.Y-e.box.y0))
				return
			}
		}
	}
}
func (*fieldEar) Picture(drawing.Image)  {}
func (*fieldEar) Clip([]drawing.Outline) {}
func (*fieldEar) Unclip()                {}
func (*fieldEar) Link(drawing.Link)      {}

// faults are what no page may have.
func faults(p pdf.Page) []string {
	l := p.List
	var out []string
	x := (l.W - fieldW) / 2
	ear := &fieldEar{box: box{x, fieldTop, x + fieldW, fieldTop + fieldH}}
	drawing.Play(l, ear)
	for _, s := range ear.left {
		out = append(out, "leaves the field: "+s)
	}
	for _, s := range drawing.Crowded(l) {
		out = append(out, "words over words: "+s)
	}
	for _, r := range drawing.Check(l) {
		out = append(out, fmt.Sprintf("not in the font: %q", r))
	}
	if pens := drawing.Thin(l); len(pens) > 0 {
		out = append(out, fmt.Sprintf("too thin: %v", pens))
	}
	return out
}

func mustBeClean(t *testing.T, name string, r job.Result) {
	t.Helper()
	doc := Build(r, made)
	for i, p := range doc.Pages {
		if fs := faults(p); len(fs) > 0 {
			t.Errorf("%s, page %d (%s): %d faults\n%s", name, i+1, p.List.Title, len(fs), strings.Join(fs[:min(len(fs), 8)], "\n"))
		}
		if got := filled(p.List); got < leastFilled {
			t.Errorf("%s, page %d (%s) is filled to %.0f %%", name, i+1, p.List.Title, got*100)
		}
	}
}

func mustStandAlone(t *testing.T, r job.Result) {
	t.Helper()
	for _, l := range []drawing.List{Front(r), Back(r)} {
		if c := append(drawing.Crowded(l), drawing.Outside(l)...); len(c) > 0 {
			t.Errorf("%s: %v", l.Title, c)
		}
	}
}

func TestPagesAreClean(t *testing.T) {
	for _, r := range samples() {
		mustBeClean(t, r.Job.Name, r)
		mustStandAlone(t, r)
	}
}

// TestFaultsAreFound makes sure that the test above can fail.
func TestFaultsAreFound(t *testing.T) {
	page := pdf.Page{List: drawing.List{W: 215.9, H: 279.4}}
	page.List.Add(drawing.Label(drawing.Pt(100, 100), drawing.Lead, "one"), drawing.Label(drawing.Pt(101, 100), drawing.Lead, "other"),
		drawing.Label(drawing.Pt(5, 50), drawing.Lead, "out"), drawing.Label(drawing.Pt(50, 50), drawing.Lead, "☐"),
		drawing.Stroke(drawing.Pen{Weight: 0.2, Tone: drawing.Ink}, drawing.Pt(0, 0), drawing.Pt(9, 9)))
	got := strings.Join(faults(page), "\n")
	for _, want := range []string{"leaves the field: \"out\"", "words over words: one | other", "not in the font: '☐'", "too thin"} {
		if !strings.Contains(got, want) {
			t.Errorf("not found: %s, in\n%s", want, got)
		}
	}
}

// inkEar finds how far down a page's field is filled, the foot left out.
type inkEar struct {
	fieldEar
	low float64
}

func (e *inkEar) at(p drawing.Point) {
	if y := p.Y - fieldTop; y < footRule-0.5 && p.X > e.box.x0-1 && p.X < e.box.x1+0.5 {
		e.low = max(e.low, y)
	}
}

func (e *inkEar) Words(w drawing.Words) { e.at(w.At) }
func (e *inkEar) Shape(os []drawing.Outline, _ drawing.Tone, _ drawing.Pen) {
	for _, o := range os {
		for _, p := range o.Flat(1) {
			e.at(p)
		}
	}
}

// filled is the share of a page's body that is used, from the top.
func filled(l drawing.List) float64 {
	x := (l.W - fieldW) / 2
	e := &inkEar{fieldEar: fieldEar{box: box{x, fieldTop, x + fieldW, fieldTop + fieldH}}}
	drawing.Play(l, e)
	return (e.low - bodyTop) / (bodyFoot - bodyTop)
}

// leastFilled is the share under which a page looks like a mistake.
const leastFilled = 0.25

// TestNoPageIsNearEmpty: no page of any paper ends above a quarter of its body.
func TestNoPageIsNearEmpty(t *testing.T) {
	for _, r := range examples(t) {
		for i, p := range Build(r, made).Pages {
			if got := filled(p.List); got < leastFilled {
				t.Errorf("%s, page %d (%s) is filled to %.0f %%", r.Job.Name, i+1, p.List.Title, got*100)
			}
		}
	}
}

// TestNearEmptyIsFound makes sure that the test above can fail, and that it is
// the balance of a paper that lets it pass.
func TestNearEmptyIsFound(t *testing.T) {
	for _, balance := range []bool{false, true} {
		var blocks []block
		for range 11 {
			blocks = append(blocks, block{h: 22, draw: func(s *sheet, y float64) { s.line(drawing.PenEdge, 0, y+21, fieldW, y+21) }})
		}
		b := &book{}
		b.flow(paper{title: "tail", blocks: blocks, balance: balance})
		doc := b.doc(job.Result{}, made)
		if len(doc.Pages) != 2 {
			t.Fatalf("%d pages", len(doc.Pages))
		}
		if got := filled(doc.Pages[1].List); (got >= leastFilled) != balance {
			t.Errorf("balance %v: the last page is filled to %.0f %%", balance, got*100)
		}
	}
}

// TestCardsFitOnePage: a kind of up to five parts and two dozen frames needs no
// second page at the saw.
func TestCardsFitOnePage(t *testing.T) {
	for _, r := range examples(t) {
		for _, k := range r.Kinds {
			if len(k.Parts) > 5 || k.Make > 24 {
				continue
			}
			n := 0
			for _, p := range Build(r, made).Pages {
				if p.List.Title == cardEntry+k.Letter+", "+k.Title {
					n++
				}
			}
			if n != 1 {
				t.Errorf("%s: the card of %s, %d parts, takes %d pages", r.Job.Name, k.Title, len(k.Parts), n)
			}
		}
	}
}

// TestAnyPagesAreClean lays out results that no person would make: odd shapes
// anywhere, one frame or many, names of any length and alphabet. BOWERWRIGHT_LONG=1
// lays out 2,000 of them, which takes minutes under the race detector.
func TestAnyPagesAreClean(t *testing.T) {
	const workers = 4
	n := 400
	switch {
	case os.Getenv("BOWERWRIGHT_LONG") == "1":
		n = 2000
	case testing.Short():
		n = 60
	}
	for w := range workers {
		t.Run(fmt.Sprint("worker ", w), func(t *testing.T) {
			t.Parallel()
			for seed := w; seed < n && !t.Failed(); seed += workers {
				r := anyResult(rand.New(rand.NewSource(int64(seed))))
				mustBeClean(t, fmt.Sprintf("seed %d", seed), r)
				if seed%8 == 0 {
					mustStandAlone(t, r)
				}
			}
		})
	}
}

var anyWords = []string{"rose", "Fennimore House and Gardens", "Æther", "колокол", "🌸", "supercalifragilistic-expialidocious-arch-of-everlasting-blossom",
	"a", "3/8 in", "", "\n", "of the", "Üppig", "“big”", strings.Repeat("m", 60)}

func anyText(rng *rand.Rand, most int) string {
	var ws []string
	for range rng.Intn(most + 1) {
		ws = append(ws, anyWords[rng.Intn(len(anyWords))])
	}
	return strings.Join(ws, " ")
}

func anyShape(rng *rand.Rand, x, y float64) []job.XY {
	size := 120 + 700*rng.Float64()*rng.Float64()
	switch rng.Intn(4) {
	case 0:
		return scaled(size, x/size, y/size, x/size+1, y/size, x/size+1, y/size+0.4+2*rng.Float64(), x/size, y/size+0.4+2*rng.Float64())
	case 1: // star
		p := regular(2*(3+rng.Intn(6)), size/2, x, y)
		for i := range p {
			if i%2 == 0 {
				p[i] = job.XY{x + (p[i][0]-x)*0.6, y + (p[i][1]-y)*0.6}
			}
		}
		return p
	}
	return regular(3+rng.Intn(22), size/3, x, y)
}

// hasInside says whether boards of a depth leave every side an inside length.
func hasInside(p []job.XY, depth float64) bool {
	in := inset(p, depth, false)
	for i := range p {
		u, v := side(p, i), side(in, i)
		if u[0]*v[0]+u[1]*v[1] <= 5*length(u) {
			return false
		}
	}
	return true
}

func anyResult(rng *rand.Rand) job.Result {
	s := sampleJob{name: anyText(rng, 6), show: []string{"us", "metric"}[rng.Intn(2)], timbers: []sampleTimber{pine4,
		{anyText(rng, 3), "measured", 12 + 40*rng.Float64(), 40 + 100*rng.Float64(), 3000 + 3000*rng.Float64()}}}
	for i := range 1 + rng.Intn(4) {
		s.kinds = append(s.kinds, sampleKind{name: fmt.Sprintf("kind%d", i), title: anyText(rng, 5), shape: "corners",
			flat: rng.Intn(3) == 0, timber: rng.Intn(2)})
	}
	frames := 1 + rng.Intn(8)
	if rng.Intn(100) == 0 {
		frames = 120
	}
	for i := range max(frames, len(s.kinds)) {
		k := rng.Intn(len(s.kinds))
		if i < len(s.kinds) {
			k = i
		}
		depth, _ := s.depths(s.kinds[k])
		shape := anyShape(rng, 4000*rng.Float64(), 2500*rng.Float64())
		for !hasInside(shape, depth) {
			shape = anyShape(rng, 4000*rng.Float64(), 2500*rng.Float64())
		}
		s.frames = append(s.frames, sampleFrame{s.kinds[k].name, shape})
	}
	r := s.result()
	r.Job.For, r.Job.Venue, r.Job.Note, r.Job.Date = anyText(rng, 9), anyText(rng, 9), anyText(rng, 40), anyText(rng, 2)
	r.Job.Paper = []string{"letter", "a4"}[rng.Intn(2)]
	r.Saw.Stop = []string{"left", "right", ""}[rng.Intn(3)]
	r.Saw.Name = anyText(rng, 9)
	r.Banner = anyText(rng, 40)
	for i := range r.Timber {
		r.Timber[i].Claim, r.Timber[i].Species, r.Timber[i].Cost = anyText(rng, 20), anyText(rng, 4), anyText(rng, 2)
		turn := []string{"", "roll", "swap ends", "roll and swap ends"}[rng.Intn(4)]
		for _, b := range r.Timber[i].Boards {
			for j := range b.Parts {
				b.Parts[j].Turn = turn
			}
		}
		for j := range r.Timber[i].Stops {
			r.Timber[i].Stops[j].Held = anyText(rng, 12)
			r.Timber[i].Stops[j].Face = []string{"outside face", "inside face", ""}[rng.Intn(3)]
		}
	}
	ways := []string{"standing, head swung", "lying, head tilted", "not checked against a saw"}
	for i := range r.Kinds {
		r.Kinds[i].Closes = anyText(rng, 12)
		for j := range r.Kinds[i].Parts {
			p := &r.Kinds[i].Parts[j]
			p.First.Way, p.Second.Way = ways[rng.Intn(3)], ways[rng.Intn(3)]
		}
	}
	for range rng.Intn(1 + rng.Intn(20)) {
		r.Notes = append(r.Notes, job.Note{Where: anyText(rng, 3), Text: anyText(rng, 30), Do: anyText(rng, 30)})
	}
	return r
}

// TestBuildTwice: the same Result gives the same pages.
func TestBuildTwice(t *testing.T) {
	r := combWall().result()
	if a, b := fmt.Sprintf("%#v", Build(r, made)), fmt.Sprintf("%#v", Build(r, made)); a != b {
		t.Error("two packets of one result differ")
	}
}
