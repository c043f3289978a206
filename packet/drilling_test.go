package packet

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"
	"bowerwright/jobfile"
)

// plannedFrom plans a job file given as text.
func plannedFrom(t testing.TB, src string) job.Result {
	t.Helper()
	spec, file, snags := jobfile.Read([]byte(src), "job.yaml", nil, "")
	if len(snags) > 0 {
		t.Fatal(snags)
	}
	r, snags, err := job.Plan(context.Background(), spec, job.BuiltIn())
	if err != nil || len(snags) > 0 {
		t.Fatal(err, snags, file.Name)
	}
	return r
}

const fixTop = "bowerwright: 1\nname: NAME\nunit: in\ntimber:\n  pine: {board: 1x4, length: 8 ft}\n"

// mixedFrames are frames on edge and flat, mirrored and shifted, in two groups.
const mixedFrames = `frames:
  big: {shape: hexagon, flats: 18}
  small: {shape: hexagon, flats: 6}
  flat: {shape: square, side: 24, boards: flat}
  tri: {shape: triangle, side: 18}
layout:
  B1: big at 0, 0
  B2: big side 1 on B1 side 4
  B3: big side 2 on B1 side 5, mirrored
  B4: big side 3 on B1 side 6
  S1: small side 2 on B2 side 5
  F1: flat at 60, 0
  F2: flat side 1 on F1 side 3
  F3: flat side 4 on F1 side 2, shifted -6
  T1: tri side 1 on B2 side 4
`

// fixingJobs are jobs of every way of fixing.
func fixingJobs(t testing.TB) []job.Result {
	decided := `fixing:
  dressed below: 12
  seams:
    B1 and B2: site seam
    B1 and B3: bolts
    B2 and S1: one screw
    F1 and F2: site seam
    B1 and B4: site seam, screws
  hooks:
    B2 side 3: 3 hooks and 1 tie
    B4 side 6: 3 ties
`
	forty := fixTop + "frames:\n  big: {shape: hexagon, flats: 15}\nlayout:\n  A1: big at 0, 0\n  A2..A5: big side 1 on previous side 4\n"
	for c := 1; c < 8; c++ {
		forty += fmt.Sprintf("  %c1: big side %d on %c1 side %d\n  %c2..%c5: big side 1 on previous side 4\n", 'A'+c, 5+c%2, 'A'+c-1, 2+c%2, 'A'+c, 'A'+c)
	}
	var out []job.Result
	for name, src := range map[string]string{
		"mixed":    fixTop + mixedFrames + decided + "driver: {length: 6, right angle: yes}\n",
		"often":    fixTop + mixedFrames + strings.Replace(decided, "fixing:\n", "fixing:\n  often: yes\n  inserts: yes\n  seen from: both sides\n", 1),
		"battens":  strings.Replace(fixTop, "unit: in", "unit: in\nshow: metric\npaper: letter", 1) + mixedFrames + "fixing: {flat: battens}\n",
		"bored":    fixTop + mixedFrames + "fixing: {flat: counterbored bolts}\n",
		"alone":    fixTop + "frames:\n  big: {shape: hexagon, flats: 18}\nlayout:\n  B1: big at 0, 0\n",
		"hooks":    fixTop + "frames:\n  big: {shape: hexagon, flats: 18}\nlayout:\n  B1: big at 0, 0\nfixing: {hooks: {B1 side 3: 2 hooks}}\n",
		"too wide": fixTop + mixedFrames + "driver: {length: 24, width: 40}\n",
		"forty":    forty,
	} {
		r := plannedFrom(t, strings.Replace(src, "NAME", name, 1))
		out = append(out, r)
	}
	slices.SortFunc(out, func(a, b job.Result) int { return strings.Compare(a.Job.Name, b.Job.Name) })
	return out
}

// The pages of every way of fixing are clean, and none is near empty.
func TestDrillingIsClean(t *testing.T) {
	for _, r := range fixingJobs(t) {
		for i, p := range Build(r, made).Pages {
			if fs := faults(p); len(fs) > 0 {
				t.Errorf("%s, page %d (%s): %s", r.Job.Name, i+1, p.List.Title, strings.Join(fs[:min(len(fs), 8)], "\n"))
			}
			if own := slices.Contains([]string{"Drilling", "Hardware bags", "Hooks and ties"}, p.List.Title); own && filled(p.List) < leastFilled {
				t.Errorf("%s, page %d (%s) is filled to %.0f %%", r.Job.Name, i+1, p.List.Title, filled(p.List)*100)
			}
		}
	}
}

// drillingSays is the text of the papers of fixing.
func drillingSays(r job.Result) []string {
	b := &book{tab: 1}
	b.begin("Cover", [2]string{})
	drilling(b, r)
	var out []string
	for _, p := range b.pages[1:] {
		p.head()
		out = append(out, drawing.Texts(drawing.List{Items: p.items})...)
	}
	return out
}

// consecutive says whether lines stand one after the other.
func consecutive(lines []string, want ...string) bool {
	for i := range lines {
		if i+len(want) <= len(lines) && slices.Equal(lines[i:i+len(want)], want) {
			return true
		}
	}
	return false
}

var bagLine = regexp.MustCompile(`^(\d+) × (.+)$`)

// bagsOnPaper adds up what the bags hold, as the paper says it: a line of
// contents, then how many bags hold it.
func bagsOnPaper(t *testing.T, lines []string) map[string]int {
	out := map[string]int{}
	at := slices.Index(lines, "Bag by bag")
	if at < 0 {
		return out
	}
	contents := ""
	for _, l := range lines[at:] {
		bags, isCount := strings.CutSuffix(strings.TrimSuffix(l, "s"), " bag")
		n, err := strconv.Atoi(bags)
		switch {
		case isCount && err == nil && contents != "": // without contents it is the head of a page
			for _, part := range strings.Split(contents, ", ") {
				m := bagLine.FindStringSubmatch(part)
				if m == nil {
					t.Fatalf("%q is no content of a bag", part)
				}
				each, _ := strconv.Atoi(m[1])
				out[m[2]] += each * n
			}
			contents = ""
		case bagLine.MatchString(l) || contents != "" && strings.Contains(l, "×"):
			contents = strings.TrimSpace(contents + " " + l)
		}
	}
	return out
}

// What the paper says in figures is what the Result holds: screws and seams in
// the head, every total, and the bags together with the hooks.
func TestDrillingCounts(t *testing.T) {
	for _, r := range append(fixingJobs(t), planned(t)...) {
		lines := drillingSays(r)
		screws, bolts := 0, 0
		for _, s := range r.Fixing.Seams {
			for _, d := range s.Fasteners {
				if d.Kind == "screw" {
					screws++
				} else {
					bolts++
				}
			}
		}
		if len(r.Fixing.Seams) > 0 {
			if screws > 0 {
				mustSay(t, lines, plural(screws, "screw"))
			}
			if bolts > 0 {
				mustSay(t, lines, plural(bolts, "bolt")+" at")
			}
			mustSay(t, lines, "at "+plural(len(r.Fixing.Seams)-len(r.Fixing.Undone), "seam"))
		}
		onPaper := bagsOnPaper(t, lines)
		for _, h := range r.Fixing.Hooks {
			onPaper[h.Thing]++
		}
		for _, x := range r.Fixing.Totals {
			if len(r.Fixing.Seams) > 0 && !consecutive(lines, itoa(x.Count), x.Thing) {
				t.Errorf("%s: nowhere on paper: %+v", r.Job.Name, x)
			}
			if onPaper[x.Thing] != x.Count {
				t.Errorf("%s: %d %s in the bags on paper, %d in all", r.Job.Name, onPaper[x.Thing], x.Thing, x.Count)
			}
		}
	}
}

// Every seam is found by its number: a row with its sheet, the way it is
// driven, and a bag; every sheet with its places and holes.
func TestEverySeamIsFound(t *testing.T) {
	for _, r := range append(fixingJobs(t), planned(t)...) {
		lines := drillingSays(r)
		for _, s := range r.Fixing.Seams {
			way := s.WayBack
			if fromBack(s) {
				way = s.Way
			}
			if s.Site {
				way += ", " + siteSays(s)
			}
			want := []string{itoa(s.Number), itoa(s.Sheet), s.Head + "/" + itoa(headSide(s)), way}
			switch {
			case !s.Fixed:
				want = []string{itoa(s.Number), "×", s.Frames[0] + ", " + s.Frames[1], "not as drawn, see above"}
			case fromBack(s):
				want[2] = s.Head + ", " + s.Into
			}
			if !consecutive(lines, want...) {
				t.Errorf("%s: nowhere on paper: %q", r.Job.Name, want)
			}
		}
		for _, d := range r.Fixing.Sheets {
			mustSay(t, lines, "Sheet "+itoa(d.Number))
			s, _ := fixingOf(r, d.Seams[0])
			for _, f := range s.Fasteners {
				mustSay(t, lines, first(r.Job, f.From))
				mustSay(t, lines, first(r.Job, f.Clearance))
			}
			mustSay(t, lines, s.Tool)
		}
	}
}

// A seam that cannot be fixed as drawn stands in a box, with what helps.
func TestUndoneIsBoxed(t *testing.T) {
	found := false
	for _, r := range fixingJobs(t) {
		lines := strings.Join(drillingSays(r), " ")
		if got := strings.Contains(lines, "cannot be fixed as drawn"); got != (len(r.Fixing.Undone) > 0) {
			t.Errorf("%s: boxed: %v, undone %v", r.Job.Name, got, r.Fixing.Undone)
		}
		for _, n := range r.Fixing.Undone {
			found = true
			s, _ := fixingOf(r, n)
			if !strings.Contains(lines, sentence(s.Helps)) {
				t.Errorf("%s: nowhere: %s", r.Job.Name, s.Helps)
			}
		}
	}
	if !found {
		t.Error("no job has such a seam")
	}
}

// A hook is listed with its side and place.
func TestHooksOnPaper(t *testing.T) {
	n := 0
	for _, r := range fixingJobs(t) {
		lines := drillingSays(r)
		for i, h := range r.Fixing.Hooks {
			n++
			if !consecutive(lines, itoa(i+1), h.Frame+"/"+itoa(h.Side), h.Thing, first(r.Job, h.Along)) {
				t.Errorf("%s: nowhere: %+v", r.Job.Name, h)
			}
		}
	}
	if n == 0 {
		t.Error("no hooks")
	}
}

// The table has a row for every screw and bolt, and one for every seam that
// cannot be fixed, with the Result's figures.
func TestDrillListCSV(t *testing.T) {
	for _, r := range fixingJobs(t) {
		var b bytes.Buffer
		if err := DrillListCSV(&b, r); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		col := map[string]int{}
		for i, h := range rows[0] {
			col[h] = i
		}
		at := 1
		for _, s := range r.Fixing.Seams {
			if !s.Fixed {
				if rows[at][0] != itoa(s.Number) || rows[at][col["method"]] != "cannot be fixed as drawn" || !strings.Contains(rows[at][col["warnings"]], s.Cannot) {
					t.Errorf("%s: seam %d: %q", r.Job.Name, s.Number, rows[at])
				}
				at++
			}
			for _, d := range s.Fasteners {
				row := rows[at]
				at++
				mm, err := strconv.ParseFloat(row[col["from left corner mm"]], 64)
				if err != nil || mm != d.From.MM || row[0] != itoa(s.Number) || row[col["thing"]] != d.Thing || row[col["pilot hole"]] != d.Pilot.US || row[col["heads in"]] != d.Head {
					t.Errorf("%s: seam %d, %d: %q", r.Job.Name, s.Number, d.Number, row)
				}
			}
			for _, g := range s.Pegs {
				row := rows[at]
				at++
				if row[col["method"]] != "peg" || row[col["thing"]] != g.Thing || row[col["from left corner"]] != g.From.US || row[col["drill stop"]] != g.Into[0].US {
					t.Errorf("%s: seam %d: %q", r.Job.Name, s.Number, row)
				}
			}
		}
		if at != len(rows) {
			t.Errorf("%s: %d rows, want %d", r.Job.Name, len(rows), at)
		}
	}
}

// Runs of three and more are drawn together.
func TestListed(t *testing.T) {
	for want, ns := range map[string][]int{
		"3": {3}, "3 and 4": {3, 4}, "3 to 5": {3, 4, 5}, "1, 3 to 6 and 9": {1, 3, 4, 5, 6, 9}, "1, 2 and 9": {1, 2, 9},
	} {
		if got := listed(ns); got != want {
			t.Errorf("%v is %q, want %q", ns, got, want)
		}
	}
	if got := seamsSay([]int{7}) + ", " + upperFirst(seamsSay([]int{7, 8})); got != "seam 7, Seams 7 and 8" {
		t.Error(got)
	}
}
