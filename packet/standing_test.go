package packet

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"
)

// standingGolden is what the papers of standing say of the first standing job.
const standingGolden = "standing.txt"

// standingTitles are the papers of standing.
var standingTitles = []string{"Standing", "Strength", "Wind plan", "Lifting"}

const standTop = fixTop + "frames:\n  big: {shape: hexagon, flats: 18}\n  small: {shape: hexagon, flats: 6}\nlayout:\n" +
	"  B1: big at 0, 0\n  B2: big side 1 on B1 side 4\n  B3: big side 6 on B1 side 3, and side 5 on B2 side 2\n  S1: small side 2 on B2 side 5\n  B4: big side 1 on B2 side 4\n"

// standingJobs are set pieces on every kind of base, indoors and out, held and
// over.
func standingJobs(t testing.TB) []job.Result {
	long := strings.Repeat("a very long name of a way of dressing ", 3)
	bags := "  ballast:\n    - {name: sandbag, weight: 25 lb, size: 18 in x 10 in x 5 in, owned: 20}\n    - {name: iron, weight: 10 kg, size: 12 in x 6 in x 4 in, owned: 8}\n"
	draped := "dressing:\n  bare: nothing\n  greened:\n    greenery: {weight: 0.4 lb per sq ft, closes: 60 %, flame: fresh}\n  dressed:\n    greenery: {weight: 0.4 lb per sq ft, closes: 60 %, flame: fresh}\n" +
		"    foam: {weight: 6 lb, on: B2, wet: 3}\n    drape: {weight: 5 lb, to: 20, closes: 100 %, in front: 2, flame: certificate with the bolt}\n"
	jobs := map[string]string{
		"garden": standTop + draped + "base:\n  plate: {kind: plate, width: 72, depth: 48, split: yes}\nstanding:\n  where: outdoors\n  floor: rough\n  gust: 26 mph\n  watch: Ida, 555 0142\n" + bags +
			"people:\n  - {name: Ida, does: flowers, lifts: yes}\n",
		"nothing said":  standTop,
		"ring and pegs": standTop + "base:\n  ring: {kind: ring, depth: 50, rim: 14}\n  pegs: {kind: stakes, count: 7, pull: 40 lb, sideways: 40 lb}\nstanding: {where: outdoors, gust: 30 mph}\n",
		"feet, metric":  strings.Replace(standTop, "unit: in", "unit: in\nshow: metric", 1) + "base:\n  feet: {kind: feet, count: 3, width: 12, depth: 40}\n  struts: {kind: brace, behind: 30, fixed: 30, width: 12, weight: 9 lb}\nstanding:\n  floor: polished\n  crowd: yes\n" + bags,
		"returns":       standTop + "base:\n  returns: {kind: wing, length: 30, height: 50, weight: 10 lb, closes: 35 %}\n",
		"on a corner":   fixTop + "frames:\n  s: {shape: square, side: 24, stands on: corner}\nlayout:\n  S1: s at 0, 0\n  S2: s side 1 on S1 side 3\n  S3: s side 2 on S1 side 4\n",
		"many ways": standTop + "dressing:\n" + ways6(long) + "base:\n  six: {kind: plate, shape: hexagon, across: 90}\nstanding:\n  where: outdoors\n" + bags +
			"  watch: " + strings.Repeat("somebody ", 12) + "\n",
		"held": fixTop + "frames:\n  s: {shape: square, side: 24, corner: corner block}\nlayout:\n  S1: s at 0, 0\nbase:\n  plate: {kind: plate, width: 90, depth: 90}\n" +
			"  struts: {kind: brace, count: 6, behind: 12, fixed: 18, width: 4, weight: 30 lb}\nstanding:\n  held by: brackets\n" + bags + "lifting: {in place: yes}\n",
	}
	var out []job.Result
	for _, name := range []string{"garden", "nothing said", "ring and pegs", "feet, metric", "returns", "on a corner", "many ways", "held"} {
		out = append(out, plannedFrom(t, strings.Replace(jobs[name], "NAME", name, 1)))
	}
	return out
}

// ways6 are six ways, each with more layers than the one before.
func ways6(flame string) string {
	out := ""
	for i := range 6 {
		out += fmt.Sprintf("  way-of-dressing-with-a-long-name-%d:\n", i)
		for k := range i + 1 {
			out += fmt.Sprintf("    layer-%d-with-a-long-name-too: {weight: 2 lb, closes: 20 %%, wet: 2, flame: %s}\n", k, flame)
		}
	}
	return out
}

func TestStandingIsClean(t *testing.T) {
	for _, r := range standingJobs(t) {
		mustBeClean(t, r.Job.Name, r)
		for _, p := range build(r).papers {
			for _, k := range p.blocks {
				if k.said() == nil {
					t.Errorf("%s, %s: a block has no twin: %q", r.Job.Name, p.title, k.drawnText())
				}
			}
		}
	}
}

// standingSays is all that the papers of standing say, in one line.
func standingSays(r job.Result) string {
	return spaced(strings.Join(says(Build(r, made), standingTitles...), " "))
}

// spaced has one blank between words.
func spaced(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, "\u00a0", " ")), " ")
}

// TestStandingSaysTheResult: each finding, limit, place of ballast, change and
// lift of the Result is on paper, word by word.
func TestStandingSaysTheResult(t *testing.T) {
	for _, r := range standingJobs(t) {
		s := r.Standing
		rows := rowsOf(r)
		want := func(what string, cells ...string) {
			for _, row := range rows {
				if holdsAll(row, cells) {
					return
				}
			}
			t.Errorf("%s: no row of %s says %q", r.Job.Name, what, cells)
		}
		for _, f := range s.Findings {
			want("findings", f.Way, f.Load, ownForce(r, f.Force), first(r.Job, f.Height), f.Use.Word, f.Use.Text, f.Mode, f.Toward, f.Limit)
		}
		for _, w := range s.WaysOut {
			want("what helps", itoa(w.Number), w.Says, w.Use.Word, w.Use.Text, withoutUse(w))
		}
		for i, k := range s.Ballast.Stacks {
			want("ballast", itoa(i+1), fmt.Sprintf("%d × %s", k.Count, k.Unit), ownWeight(r, k.Each), first(r.Job, k.Right), first(r.Job, k.Behind))
		}
		for _, w := range s.Wind {
			want("the wind plan", w.Way, bothSpeeds(r, w.Watch), bothSpeeds(r, w.Act), bothSpeeds(r, w.Limit))
			for i, d := range w.Down {
				want("what comes down", w.Way, itoa(i+1)+". "+d.Layer+": "+ownSpeed(r, d.Then))
			}
		}
		for _, w := range s.Ways {
			want("weights", w.Name, ownWeight(r, w.Whole.Weight), first(r.Job, w.Whole.Up), w.Solidity)
		}
		for i, h := range s.Lift.Carry.Holds {
			if s.Lift.InPlace {
				break // nobody carries it in one
			}
			want("hand-holds", holdName(i), fmt.Sprintf("%s, side %d", h.Frame, h.Side), ownWeight(r, h.Carries))
		}
		for _, f := range s.Flame {
			want("flame", f.Material, f.Evidence)
		}
		all := standingSays(r)
		for _, what := range append(append([]string{"not an engineer's certificate"}, s.Assumed...), s.Lift.Rules...) {
			if !strings.Contains(all, spaced(what)) {
				t.Errorf("%s: nowhere %q", r.Job.Name, what)
			}
		}
	}
}

// rowsOf are the rows of all tables of standing, each cell's text run together.
func rowsOf(r job.Result) (out []string) {
	take := func(cells []cell) {
		row := ""
		for _, c := range cells {
			for _, l := range c {
				for _, sp := range l {
					row += sp.S
				}
				row += " "
			}
			row += "| "
		}
		out = append(out, spaced(row))
	}
	for _, p := range build(r).papers {
		if !strings.Contains(strings.Join(standingTitles, "|"), p.title) {
			continue
		}
		for _, k := range p.blocks {
			for _, tw := range k.said() {
				switch tw := tw.(type) {
				case rowTwin:
					take(tw.cells)
				case tableTwin:
					for _, row := range tw.rows {
						take(row)
					}
				}
			}
		}
	}
	return out
}

func holdsAll(row string, cells []string) bool {
	for _, c := range cells {
		if !strings.Contains(row, spaced(c)) {
			return false
		}
	}
	return true
}

// TestOverIsSaid: on the cover and on the stand sheet, and only where it is so;
// no paper says safe or ticks anything off.
func TestOverIsSaid(t *testing.T) {
	over, weak := 0, 0
	for _, r := range standingJobs(t) {
		doc := Build(r, made)
		onTheWay := false
		if st := r.Standing.Strength; st != nil {
			onTheWay = slices.ContainsFunc(st.Cases, func(c job.StrengthCase) bool { return c.Lift && c.Use.Ratio > 1 })
		}
		if onTheWay {
			weak++
		}
		if strings.Contains(strings.Join(says(doc, "Lifting"), " "), "OVER on the way") != onTheWay {
			t.Errorf("%s: the lift sheet does not say whether it breaks on the way", r.Job.Name)
		}
		cover := strings.Join(drawing.Texts(doc.Pages[0].List), " ")
		sheet := strings.Join(says(doc, "Standing"), " ")
		if r.Standing.Over {
			over++
		}
		if strings.Contains(cover, "OVER.") != r.Standing.Over || strings.Contains(cover, "Over its limit") != r.Standing.Over || strings.Contains(sheet, "OVER.") != r.Standing.Over {
			t.Errorf("%s is over: %v; cover %q, sheet %q", r.Job.Name, r.Standing.Over, cover, sheet)
		}
		all := strings.ToLower(strings.Join(says(doc), " "))
		if strings.Contains(all, "safe") || strings.Contains(all, "✓") {
			t.Errorf("%s: a paper says safe or ticks", r.Job.Name)
		}
		if strings.Contains(sheet, "No pull test") != (r.Standing.PullTest == nil) || strings.Contains(sheet, "Strength is not reckoned") != (r.Standing.Strength == nil) {
			t.Errorf("%s: what is not checked is not said", r.Job.Name)
		}
	}
	if weak == 0 {
		t.Error("none of the jobs breaks on the way")
	}
	if over == 0 || over == 8 {
		t.Errorf("%d of the jobs are over", over)
	}
}

// TestWindPlanIsOnePage for the venue, outdoors only, with lines to sign on.
func TestWindPlanIsOnePage(t *testing.T) {
	for _, r := range standingJobs(t) {
		pages := pagesOf(r, "Wind plan")
		want := 0
		if r.Standing.Where == "outdoors" {
			want = 1
		}
		n := 0
		for _, p := range Build(r, made).Pages {
			if p.List.Title == "Wind plan" {
				n++
			}
		}
		if r.Job.Name == "many ways" { // six ways with long names run on
			want = n
		}
		if n != want {
			t.Errorf("%s: %d pages of wind plan", r.Job.Name, n)
		}
		if n > 0 && (countOf(pages, "day, time") != 3 || countOf(pages, "Venue:") != 1) {
			t.Errorf("%s: no lines to sign on", r.Job.Name)
		}
	}
}

// TestVialsSayTheWord: a vial for every finding, and its picture goes by the same
// shares as the words.
func TestVialsSayTheWord(t *testing.T) {
	for _, r := range standingJobs(t) {
		for _, f := range r.Standing.Findings {
			if got := drawing.UseOf(f.Use.Ratio).String(); got != f.Use.Word {
				t.Errorf("%s: %g is drawn %q and said %q", r.Job.Name, f.Use.Ratio, got, f.Use.Word)
			}
		}
		if got, want := len(vialBlocks(standPaper(r))), len(r.Standing.Findings)+min(1, len(r.Standing.Leans))+len(r.Standing.WaysOut); got != want {
			t.Errorf("%s: %d vials, want %d", r.Job.Name, got, want)
		}
	}
}

// vialBlocks are blocks that draw a vial's dashed line: half of the limit.
func vialBlocks(p paper) (out []block) {
	half := drawing.Vial(drawing.Point{}, 24, 1)[1].(drawing.Shape).Pen
	for _, k := range p.blocks {
		var s sheet
		k.draw(&s, 50)
		for _, it := range s.items {
			if sh, ok := it.(drawing.Shape); ok && sh.Pen == half {
				out = append(out, k)
			}
		}
	}
	return out
}

// TestRoseIsTheResult: the line of the rose goes through what the Result has for
// each direction, and one that is over everywhere stays inside the ring.
func TestRoseIsTheResult(t *testing.T) {
	for _, r := range standingJobs(t) {
		for _, l := range roseLines(r) {
			for d, h := range l.holds {
				worst := 0.0
				for _, f := range r.Standing.Findings {
					if f.Way == l.way {
						worst = max(worst, f.Rose[d].Tip, f.Rose[d].Slide)
					}
				}
				if abs(h*worst-1) > 1e-9 {
					t.Errorf("%s, %s, direction %d: %g, want %g", r.Job.Name, l.way, d, h, 1/worst)
				}
			}
		}
	}
}

// TestPlanIsToScale: units of ballast lie inside the base on paper as they do on
// the floor.
func TestPlanIsToScale(t *testing.T) {
	r := standingJobs(t)[0]
	if len(r.Standing.Ballast.Stacks) == 0 {
		t.Fatal("no ballast to draw")
	}
	v := planView(r.Standing.Plan, box{30, 20, fieldW - 20, 80})
	hull := v.all(r.Standing.Plan.Hull)
	for _, k := range r.Standing.Ballast.Stacks {
		o := v.all(k.Outline)
		b := extent(o)
		if got, want := (b.x1-b.x0)/(b.y1-b.y0), (k.Outline[1][0]-k.Outline[0][0])/(k.Outline[2][1]-k.Outline[1][1]); abs(got-want) > 1e-6 {
			t.Errorf("a unit is %g times as wide as deep on paper, %g on the floor", got, want)
		}
		if !inside(hull, v.at(k.At)) {
			t.Errorf("%v lies off the base", k.At)
		}
		if k.At[1] > 50 && v.at(k.At).Y > v.at(job.XY{k.At[0], 0}).Y {
			t.Error("what is behind is drawn in front")
		}
	}
}

func TestStandingGolden(t *testing.T) {
	r := standingJobs(t)[0]
	var b strings.Builder
	for _, p := range Build(r, made).Pages {
		if !strings.Contains(strings.Join(standingTitles, "|"), p.List.Title) {
			continue
		}
		fmt.Fprintf(&b, "== %s\n", p.List.Title)
		for _, l := range drawing.Texts(p.List) {
			fmt.Fprintln(&b, strings.TrimRight(l, " "))
		}
	}
	file := filepath.Join("testdata", standingGolden)
	if *update {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if b.String() != string(want) {
		t.Errorf("%s (go test ./packet -run StandingGolden -update writes it anew)", firstChange(string(want), b.String()))
	}
}
