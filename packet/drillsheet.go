package packet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// drillSheets are the seams with all their holes; those drilled alike share a
// sheet.
func drillSheets(r job.Result) []block {
	if len(r.Fixing.Sheets) == 0 {
		return nil
	}
	out := []block{heading("Drill sheets", "seams drilled alike share one; as the piece lies face down", "Drill sheets")}
	for i, d := range r.Fixing.Sheets {
		b := drillSheet(r, d)
		if i == 0 {
			b.gap = 1.5
		}
		out = append(out, b)
	}
	return out
}

// Where things stand in a drill sheet, mm.
const (
	sheetBack    = 80.0 // width of the view from behind
	sheetCut     = 84.0 // left edge of the view cut across
	sheetCutWide = 27.0
	sheetWords   = 116.0
	sheetLabel   = 19.0
	boardLeast   = 5.0  // thickness of a board, at the least
	boardMost    = 11.0 // and at the most
	dimRow       = 5.4  // from one dimension line to the next
	dimsMost     = 4    // so many places are dimensioned; more are in the list alone
)

// A sheetView is a drill sheet being drawn.
type sheetView struct {
	r      job.Result
	d      job.DrillSheet
	seam   job.SeamFixing // the first of its seams
	sx, sy float64        // page mm to a real mm along the seam and across it
	left   float64        // real mm at the view's left edge
	low    float64        // real mm at its foot
	high   float64        // its height, page mm
	wide   float64
}

func newSheetView(r job.Result, d job.DrillSheet) sheetView {
	v := sheetView{r: r, d: d}
	v.seam, _ = fixingOf(r, d.Seams[0])
	lo, hi := reachOf(d)
	v.left, v.low = lo[0], lo[1]
	thin := math.Inf(1)
	for _, b := range d.Section {
		thin = min(thin, abs(b[1][0]-b[0][0]))
	}
	v.sx = min(sheetBack/(hi[0]-lo[0]), boardMost/thin)
	v.sy = max(v.sx, boardLeast/thin)
	v.wide, v.high = (hi[0]-lo[0])*v.sx, (hi[1]-lo[1])*v.sy
	return v
}

// reachOf bounds the view from behind, real mm. Of a board that goes on far
// beyond the heads' board, or far beyond the points, only a part is shown.
func reachOf(d job.DrillSheet) (lo, hi job.XY) {
	lo, hi = bounds(d.Boards[0])
	from, to, deep := lo[0], hi[0], 0.0
	for _, a := range append(append([]job.AxisView{}, d.Axes...), d.Pegs...) {
		from, to, deep = min(from, a.Back[0][0]), max(to, a.Back[0][0]), max(deep, a.Back[1][1])
	}
	for _, p := range d.Pieces {
		_, top := bounds(p)
		deep = max(deep, top[1])
	}
	far, farTop := bounds(d.Boards[1])
	return job.XY{max(min(lo[0], far[0]), from-reachBeyond), min(lo[1], far[1])},
		job.XY{min(max(hi[0], farTop[0]), to+reachBeyond), max(hi[1], min(farTop[1], deep+reachOver))}
}

// How much of the other board is shown beyond the heads' board and over the
// points, real mm.
const (
	reachBeyond = 60.0
	reachOver   = 15.0
)

func bounds(ps []job.XY) (lo, hi job.XY) {
	lo, hi = job.XY{math.Inf(1), math.Inf(1)}, job.XY{math.Inf(-1), math.Inf(-1)}
	for _, q := range ps {
		lo, hi = job.XY{min(lo[0], q[0]), min(lo[1], q[1])}, job.XY{max(hi[0], q[0]), max(hi[1], q[1])}
	}
	return lo, hi
}

// at is a place of the view from behind on the page; top is where it begins.
func (v sheetView) at(q job.XY, top float64) drawing.Point {
	x := min(max(q[0], v.left), v.left+v.wide/v.sx)
	z := min(q[1], v.low+v.high/v.sy)
	return drawing.Pt((x-v.left)*v.sx, top+v.high-(z-v.low)*v.sy)
}

// drillSheet is one sheet as a block that stays together: pictures and warnings
// at the left, figures at the right.
func drillSheet(r job.Result, d job.DrillSheet) block {
	v := newSheetView(r, d)
	head, words, warn := v.head(), v.words(), v.warnings()
	pictures := v.picturesHigh()
	h := head.h + max(pictures+height(warn), height(words)+1)
	return block{h: h, gap: 4, draw: func(s *sheet, y float64) {
		head.draw(s, y)
		y += head.h
		v.back(s, y)
		v.cut(s, y)
		stack(s, y, words)
		stack(s, y+pictures, warn)
	}}.says(v.twins()...)
}

// head is the sheet's number, its seams and what joins them.
func (v sheetView) head() block {
	seams := upperFirst(seamsSay(v.d.Seams))
	if len(v.d.Seams) > 1 {
		seams += ", drilled alike"
	}
	what := fmt.Sprintf("%s × %s", itoa(v.seam.Count), v.seam.Thing)
	if v.seam.Rows == 2 {
		what += ", in two rows"
	}
	if t := v.plates(); t != "" {
		what += ", " + t
	}
	lines := wrap(seams, drawing.Bold, drawing.Body, fieldW-27)
	lead := leading(drawing.Body)
	return block{h: 6.5 + lead*float64(len(lines)) + 2, draw: func(s *sheet, y float64) {
		s.rule(drawing.PenRule, y)
		s.say(drawing.Label(drawing.Pt(0, y+6), drawing.Lead, "Sheet "+itoa(v.d.Number)).Bold())
		s.say(fitted(drawing.Label(drawing.Pt(27, y+6), drawing.Lead, v.seam.Method+": "+what).Medium(), fieldW-27, drawing.Small))
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(27, y+11+lead*float64(i)), drawing.Body, l).Bold())
		}
	}}
}

// plates says what lies across the seam: "2 × 3 in mending plate".
func (v sheetView) plates() string {
	if len(v.seam.Pieces) == 0 {
		return ""
	}
	if m := v.seam.Pieces[0].Mark; m != "" {
		return "batten " + m
	}
	return itoa(len(v.seam.Pieces)) + " × " + crossed(v.seam.Pieces[0].Thing)
}

// back draws the two boards from behind, the heads' board below, and the places
// from its left end.
func (v sheetView) back(s *sheet, y float64) {
	for i := range v.d.Boards {
		b := v.d.Boards[1-i]
		var pts []drawing.Point
		for _, q := range b {
			pts = append(pts, v.at(q, y))
		}
		s.add(drawing.Polygon(drawing.PenEdge, drawing.White, pts...))
	}
	for _, p := range v.d.Pieces {
		var pts []drawing.Point
		for _, q := range p {
			pts = append(pts, v.at(q, y))
		}
		s.add(drawing.Polygon(drawing.PenEdge, drawing.Fill{}, pts...))
	}
	for _, g := range v.d.Pegs {
		v.peg(s, v.at(g.Back[0], y), v.at(g.Back[1], y))
	}
	for _, a := range v.d.Axes {
		s.screw(v.at(a.Back[0], y), v.at(a.Back[1], y))
	}
	foot := y + v.high
	from := v.at(v.d.Boards[0][0], y)
	for i, n := range v.dims() {
		q := v.at(v.d.Axes[n].Back[0], y)
		cross := drawing.Pt(q.X, v.at(job.XY{0, 0}, y).Y)
		d := drawing.Level(from, cross, foot+float64(i+1)*dimRow, first(v.r.Job, v.seam.Fasteners[n].From))
		d.Font = drawing.Bold
		s.add(d)
	}
}

// dims are the fasteners whose places are dimensioned in the picture: the first
// of each place along the seam. None when they are too many.
func (v sheetView) dims() []int {
	var out []int
	for i, a := range v.d.Axes {
		if i == 0 || abs(a.Back[0][0]-v.d.Axes[i-1].Back[0][0]) > 0.5 {
			out = append(out, i)
		}
	}
	if len(out) > dimsMost {
		return nil
	}
	return out
}

// screw is a screw or bolt from its head to its point; driven from the viewer it
// is a ring.
func (s *sheet) screw(head, point drawing.Point) {
	d := point.Sub(head)
	if d.Len() < 0.1 {
		s.add(drawing.Circle(drawing.PenEdge, drawing.White, head, 1), drawing.Circle(drawing.Pen{}, drawing.Black, head, 0.35))
		return
	}
	n := d.Unit().Perp().Mul(1.3)
	s.add(drawing.Stroke(drawing.PenOutline, head, point))
	s.add(drawing.Stroke(drawing.PenRule, head.Add(n), head.Sub(n)))
}

// peg is a thick dashed line.
func (v sheetView) peg(s *sheet, a, b drawing.Point) {
	s.add(drawing.Stroke(drawing.PenHidden.At(1.5), a, b))
}

func (v sheetView) picturesHigh() float64 {
	return max(v.high+float64(len(v.dims()))*dimRow+3, v.cutHigh()+3)
}

// cutScale is how the seam is drawn cut across: as high as the view from behind
// with its dimensions, within limits.
func (v sheetView) cutScale() float64 {
	lo, hi := v.cutReach()
	return min((sheetCutWide-9)/(hi[0]-lo[0]), 24/(hi[1]-lo[1]))
}

func (v sheetView) cutReach() (lo, hi job.XY) {
	lo, hi = job.XY{math.Inf(1), 0}, job.XY{math.Inf(-1), 0}
	for _, b := range v.d.Section {
		for _, q := range b {
			lo[0], hi[0], hi[1] = min(lo[0], q[0]), max(hi[0], q[0]), max(hi[1], q[1])
		}
	}
	return lo, hi
}

func (v sheetView) cutHigh() float64 {
	_, hi := v.cutReach()
	return cutTop + hi[1]*v.cutScale() + 5
}

// cutTop is what stands over the boards cut across, mm: the word back, and the
// heads of what lies on them. cutLeast is the height below which depths do not
// fit beside them.
const (
	cutTop   = 5.5
	cutLeast = 10.0
)

// flatCut says that the boards cut across are too low for dimensions.
func (v sheetView) flatCut() bool {
	_, hi := v.cutReach()
	return hi[1]*v.cutScale() < cutLeast
}

// cut draws the seam cut across, the front edges down on the sheet.
func (v sheetView) cut(s *sheet, y float64) {
	lo, hi := v.cutReach()
	k := v.cutScale()
	at := func(q job.XY) drawing.Point {
		return drawing.Pt(sheetCut+8+(q[0]-lo[0])*k, y+cutTop+(hi[1]-q[1])*k)
	}
	for _, b := range v.d.Section {
		s.add(drawing.Polygon(drawing.PenEdge, drawing.White, at(b[0]), at(b[1]), at(b[2]), at(b[3])))
	}
	for _, g := range v.d.Pegs {
		v.peg(s, at(g.Section[0]), at(g.Section[1]))
	}
	var depths []float64
	for i, a := range v.d.Axes {
		s.screw(at(a.Section[0]), at(a.Section[1]))
		if fromBack(v.seam) || v.flatCut() || slices.ContainsFunc(depths, func(z float64) bool { return abs(z-a.Section[0][1]) < 0.5 }) || len(depths) > 1 {
			continue
		}
		depths = append(depths, a.Section[0][1])
		x := sheetCut + 5 - float64(len(depths)-1)*4.6
		low, high := at(job.XY{lo[0], 0}), at(a.Section[0])
		d := drawing.Upright(low, drawing.Pt(high.X, high.Y), x, "")
		d.S, d.Font, d.Size = first(v.r.Job, v.seam.Fasteners[i].HeadDepth), drawing.Bold, drawing.Small
		s.add(d)
	}
	mid := at(job.XY{(lo[0] + hi[0]) / 2, 0})
	s.line(drawing.PenGround, at(lo).X-2, mid.Y, at(job.XY{hi[0], 0}).X+2, mid.Y)
	s.say(drawing.Label(drawing.Pt(mid.X, mid.Y+3.6), drawing.Small, "front, on the sheet").Quiet().Centred())
	s.say(drawing.Label(drawing.Pt(mid.X, y+2.6), drawing.Small, "back").Quiet().Centred())
}

// words are the holes, the tool and the places, at the right of the pictures.
func (v sheetView) words() []block {
	cols := []column{{"", sheetLabel, false}, {"", fieldW - sheetWords - sheetLabel - colGap, false}}
	var out []block
	for _, row := range v.rows() {
		out = append(out, tableRow(sheetWords, cols, row, nil))
	}
	return out
}

// rows are the words, each a label and what it says.
func (v sheetView) rows() [][]cell {
	rows := append(v.holes(), v.places()...)
	return append(rows, []cell{quiet("tool"), strong(v.tool())})
}

// size is a row with a size in bold, the other system in pencil, and more words.
func (v sheetView) size(label string, s job.Size, more string) []cell {
	line := []drawing.Span{span(first(v.r.Job, s), drawing.Bold, drawing.Small, drawing.Ink),
		span(" ("+second(v.r.Job, s)+")", drawing.Regular, drawing.Small, drawing.Pencil)}
	if more != "" {
		line = append(line, span(" "+more, drawing.Regular, drawing.Small, drawing.Ink))
	}
	return []cell{quiet(label), {line}}
}

// holes say what is drilled, in order, for the first fastener; all of a seam
// are alike but for their slant.
func (v sheetView) holes() [][]cell {
	d := v.seam.Fasteners[0]
	switch d.Kind {
	case "bolt":
		var out [][]cell
		if d.Bore.MM > 0 {
			out = append(out, v.size("counterbore", d.Sink, "wide, both faces, first"), v.size("its depth", d.Bore, ""))
		}
		return append(out, v.size("hole", d.Clearance, "right through both"), []cell{quiet("washers"), small("under head and nut")})
	case "insert":
		return [][]cell{v.size("hole", d.Clearance, "first board"), v.size("for the insert", d.Pilot, "second board, or as its maker says"),
			v.size("its depth", d.Stop, ""), {quiet("washer"), small("under the head")}}
	}
	through := "first board"
	if fromBack(v.seam) {
		if v.seam.Method == "plates" {
			return [][]cell{v.size("plate", d.Clearance, "its own holes, at least so wide"), v.size("pilot", d.Pilot, "in both boards"), v.size("drill stop", d.Stop, "from the plate's face, through it")}
		}
		return [][]cell{v.size("clearance", d.Clearance, "through the batten"), v.size("pilot", d.Pilot, "in both boards"),
			v.size("drill stop", d.Stop, "from the batten's face"), v.size("sink to", d.Sink, d.Thread+" thread")}
	}
	return [][]cell{v.size("clearance", d.Clearance, through), v.size("pilot", d.Pilot, "second board"),
		v.size("drill stop", d.Stop, "from the face"), v.size("sink to", d.Sink, d.Thread+" thread")}
}

// tool says what drives it, and at what slant.
func (v sheetView) tool() string {
	words := []string{v.seam.Tool}
	var slants []string
	for _, d := range v.seam.Fasteners {
		w := "square"
		if d.Slant.Degrees != 0 {
			w = fmt.Sprintf("%s from square, from the open %s", d.Slant.Text, d.Side)
		}
		slants = append(slants, w)
	}
	switch all := unique(slants); {
	case len(all) == 1 && all[0] != "square":
		words = append(words, "each at "+all[0])
	case len(all) > 1:
		for i, w := range slants {
			words = append(words, strings.Replace(fmt.Sprintf("screw %d at %s", i+1, w), "at square", "square", 1))
		}
	}
	return joined("; ", words...)
}

// places are the measures that the picture does not show: from inside the
// frame, and all of them where the picture has none.
func (v sheetView) places() [][]cell {
	var from, face, depth []string
	for _, d := range v.seam.Fasteners {
		from, face = append(from, first(v.r.Job, d.From)), append(face, first(v.r.Job, d.Face))
		depth = append(depth, first(v.r.Job, d.HeadDepth))
	}
	var out [][]cell
	if v.dims() == nil {
		out = append(out, []cell{quiet("from the left"), strong(strings.Join(unique(from), ", "))})
	}
	if fromBack(v.seam) {
		out = append(out, []cell{quiet("off the seam"), strong(strings.Join(v.offs(), ", ") + ", into both boards")})
		return append(out, v.across()...)
	}
	out = append(out, []cell{quiet("inside"), small(strings.Join(unique(face), ", "))})
	switch all := unique(depth); {
	case len(all) > 1:
		out = append(out, []cell{quiet("off the sheet"), strong(strings.Join(depth, ", "))})
	case v.flatCut():
		out = append(out, []cell{quiet("off the sheet"), strong(all[0])})
	}
	return append(out, v.pegs()...)
}

// offs are how far from the seam screws stand that go into the backs.
func (v sheetView) offs() []string {
	var out []string
	for _, d := range v.seam.Fasteners {
		out = append(out, first(v.r.Job, d.Off))
	}
	return unique(out)
}

// across says where plates and battens lie.
func (v sheetView) across() [][]cell {
	var at []string
	for _, q := range v.seam.Pieces {
		at = append(at, first(v.r.Job, q.From))
	}
	if v.seam.Method == "plates" {
		return [][]cell{{quiet("middle of it"), small(strings.Join(at, ", ") + " from the left")}}
	}
	q := v.seam.Pieces[0]
	return [][]cell{v.size("batten "+q.Mark, q.Length, "long, "+first(v.r.Job, q.Width)+" wide, sawn square, from the cut list"),
		{quiet("it begins"), strong(first(v.r.Job, q.Start) + " from the left")}, {quiet("and lies"), small("half on either board")}}
}

// pegs say where the two pegs of a site seam go.
func (v sheetView) pegs() [][]cell {
	if len(v.seam.Pegs) == 0 {
		return nil
	}
	var at []string
	for _, g := range v.seam.Pegs {
		at = append(at, first(v.r.Job, g.From)+", "+first(v.r.Job, g.Depth)+" off the sheet")
	}
	g := v.seam.Pegs[0]
	return [][]cell{{quiet("pegs"), small(fmt.Sprintf("%s, hole %s, %s deep in each, at %s", crossed(g.Thing), first(v.r.Job, g.Hole), first(v.r.Job, g.Into[0]), strings.Join(at, "; ")))}}
}

func unique(list []string) []string {
	var out []string
	for _, s := range list {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// warnings are what to look out for, of all the sheet's seams.
func (v sheetView) warnings() []block {
	words := v.warningWords()
	if words == "" {
		return nil
	}
	return []block{para(words, sheetWords-6, drawing.Text{Size: drawing.Small})}
}

// warningWords are the warnings of the sheet's seams, each once; which of them
// are seen stands in a sentence of its own.
func (v sheetView) warningWords() string {
	var order []string
	which := map[string][]int{}
	for _, n := range v.d.Seams {
		s, _ := fixingOf(v.r, n)
		for i, w := range s.Warnings {
			if s.NoteCodes[i] == outsideStandard {
				continue
			}
			if which[w] == nil {
				order = append(order, w)
			}
			which[w] = append(which[w], n)
		}
	}
	var out []string
	for _, w := range order {
		if len(which[w]) < len(v.d.Seams) {
			w = upperFirst(seamsSay(which[w])) + ": " + w
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

// twins are the sheet on the page for screens.
func (v sheetView) twins() []twin {
	out := []twin{
		webSub(fmt.Sprintf("Sheet %d, %s: %s × %s", v.d.Number, seamsSay(v.d.Seams), itoa(v.seam.Count), v.seam.Thing), ""),
		webPicture(v.alt(), sheetWords, v.picturesHigh(), func(s *sheet) { v.back(s, 0); v.cut(s, 0) }),
		webTable(fmt.Sprintf("Sheet %d: holes, places and tool", v.d.Number), []column{{"", sheetLabel, false}, {"", sheetBack, false}}, v.rows()),
	}
	if w := v.warningWords(); w != "" {
		out = append(out, webCaution(w))
	}
	return out
}

// alt says in words what the two pictures show.
func (v sheetView) alt() string {
	var at []string
	for _, d := range v.seam.Fasteners {
		at = append(at, fmt.Sprintf("%d at %s, %s behind the front edge", d.Number, both(v.r.Job, d.From), both(v.r.Job, d.HeadDepth)))
	}
	return "The seam from the BACK, the board that holds the heads below, and cut across with the front down: " + strings.Join(at, "; ") + "."
}
