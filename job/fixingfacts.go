package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"bowerwright/fixing"
	"bowerwright/geom"
	"bowerwright/layout"
)

// A fixer turns a plan of package fixing into facts.
type fixer struct {
	p       *planner
	seams   []layout.Seam
	choices map[int]fixing.Choice
	steps   float64        // mm: what is higher is not reached from the floor
	battens map[int]string // marks by seam
	sheets  map[string]int
}

// all fills in every seam, fixed or not, by number.
func (f *fixer) all(plan fixing.Plan, problems []fixing.Problem) {
	f.sheets = map[string]int{}
	fixed := map[int]fixing.Seam{}
	for _, s := range plan.Seams {
		fixed[s.Number] = s
	}
	wrong := map[int]fixing.Problem{}
	for _, q := range problems {
		wrong[q.Seam] = q
	}
	out := &f.p.result.Fixing
	for _, s := range f.seams {
		facts := SeamFixing{Number: s.Number, Site: f.choices[s.Number].Site, Fasteners: []Driven{}, Pegs: []PegFacts{}, Pieces: []PieceFacts{},
			Bag: []ItemFacts{}, Warnings: []string{}, NoteCodes: []string{}}
		for k, side := range s.Sides {
			facts.Frames[k], facts.Sides[k] = f.p.labels[side.Frame], side.Side
		}
		if seam, ok := fixed[s.Number]; ok {
			f.seam(&facts, s, seam)
		} else {
			facts.Cannot, facts.Helps = wrong[s.Number].Text(f.p.fixingStyle())
			facts.Height = f.p.w.looked(s.Middle().Y)
		}
		out.Seams = append(out.Seams, facts)
	}
}

func (f *fixer) seam(facts *SeamFixing, s layout.Seam, plan fixing.Seam) {
	v := f.view(s, plan)
	plan.Fasteners = v.inOrder(plan.Fasteners)
	facts.Fixed, facts.Method, facts.Count, facts.Rows = true, string(plan.Method), len(plan.Fasteners), plan.Rows
	first := plan.Fasteners[0]
	facts.Thing = first.Name
	if facts.Way = first.Way; first.Axis != (geom.Point{}) {
		first.From = fixing.NoSide // said of each by itself
		facts.Way, facts.WayBack = first.WayFrom(fixing.NoSide), first.WayFrom(fixing.Back)
	}
	facts.Arrow = f.p.w.unit(first.Axis)
	facts.Head, facts.Into = v.label(0), v.label(1)
	facts.Left, facts.IntoLeft = v.ends[0].corner[0], v.ends[1].corner[0]
	f.tools(facts, plan)
	top := 0.0
	for i, x := range plan.Fasteners {
		facts.Fasteners = append(facts.Fasteners, f.driven(v, x, i+1))
		top = max(top, x.At.Y)
	}
	facts.Height = f.p.w.looked(top)
	facts.Steps = facts.Site && top > f.steps
	for _, g := range plan.Pegs {
		facts.Pegs = append(facts.Pegs, f.peg(v, g))
	}
	for _, x := range plan.Plates {
		facts.Pieces = append(facts.Pieces, f.piece(v, plan, x))
	}
	slices.SortStableFunc(facts.Pieces, func(a, b PieceFacts) int { return cmp.Compare(a.From.MM, b.From.MM) })
	for _, i := range plan.Bag {
		facts.Bag = append(facts.Bag, ItemFacts{Thing: i.Name, Count: i.Count})
	}
	facts.Seen, facts.Looks = plan.Seen, plan.Looks
	for _, n := range plan.Notes {
		facts.Warnings, facts.NoteCodes = append(facts.Warnings, n.Text()), append(facts.NoteCodes, string(n))
	}
	if slices.ContainsFunc(plan.Fasteners, func(x fixing.Fastener) bool { return x.From == fixing.Front }) {
		facts.Warnings, facts.NoteCodes = append(facts.Warnings, fromFront), append(facts.NoteCodes, "from-the-front")
	}
	facts.Sheet = f.sheet(v, facts, plan)
}

// piece is a plate, which is as long as it is sold, or a batten, which is sawn.
func (f *fixer) piece(v seamView, plan fixing.Seam, x fixing.Piece) PieceFacts {
	w, at := f.p.w, v.x(v.crossing(x.Along))
	q := PieceFacts{Thing: x.Name, From: w.cut(at), Start: w.cut(at - x.Width/2), Length: w.stock(length(x.Length)), Width: w.stock(length(x.Width))}
	if plan.Method == fixing.Battened {
		q.Mark, q.Start, q.Length = f.battens[plan.Number], w.cut(at-x.Length/2), w.cut(x.Length)
	}
	return q
}

// fromFront warns of what cannot be driven while the piece lies face down.
const fromFront = "Driven from the open front: join these two frames before they are laid face down, or after the piece is turned over."

// reachOrder is from the plainest tool to the most awkward one: a seam is
// listed by the worst that it takes.
var reachOrder = map[fixing.Reach]int{fixing.Straight: 0, fixing.FromAbove: 1, fixing.ByHand: 2, fixing.Socket: 3, fixing.Angled: 4, fixing.AtASlant: 5}

func (f *fixer) tools(facts *SeamFixing, plan fixing.Seam) {
	tool, room := plan.Fasteners[0].Tool, math.Inf(1)
	for _, x := range plan.Fasteners {
		if reachOrder[x.Tool] > reachOrder[tool] {
			tool = x.Tool
		}
		room = min(room, x.Room)
	}
	facts.Tool = string(tool)
	if room < fixing.Horizon {
		size := f.p.w.looked(room)
		facts.Room = &size
	}
}

func (f *fixer) driven(v seamView, x fixing.Fastener, n int) Driven {
	w := f.p.w
	at := v.crossing(x.Along)
	d := Driven{
		Number: n, Kind: string(x.Kind), Thing: x.Name, Head: f.p.labels[x.Head],
		From: w.cut(v.x(at)), Face: w.cut(v.onFace(x)), IntoFrom: w.cut(v.intoX(at)), Off: w.cut(v.off(x)),
		Depth: w.cut(x.Depth), HeadDepth: w.cut(x.HeadIn), HeadHeight: w.looked(x.At.Y), At: w.xy(x.At),
		Slant: w.angle(x.Slant), Side: string(x.From),
		Through: w.stock(length(x.First)), Penetration: w.stock(length(x.Penetration)), Diameters: math.Round(x.Diameters()*100) / 100,
		Spare: w.stock(length(x.Spare)), Clearance: w.stock(x.Holes.Clearance), Pilot: w.stock(x.Holes.Pilot), PilotSource: x.Holes.Source,
		Sink: w.stock(x.Holes.Sink), Bore: w.stock(x.Holes.Bore), Stop: w.stock(x.Holes.Stop), Thread: x.Holes.Thread, Tool: string(x.Tool),
	}
	for k := range v.seam.Sides {
		d.Along[k] = w.cut(v.along(k, at))
	}
	return d
}

func (f *fixer) peg(v seamView, g fixing.Peg) PegFacts {
	at := v.crossing(g.Along)
	return PegFacts{Thing: g.Name, Along: [2]Size{f.p.w.cut(v.along(0, at)), f.p.w.cut(v.along(1, at))}, From: f.p.w.cut(v.x(at)),
		Depth: f.p.w.cut(g.Depth), Hole: f.p.w.stock(g.Hole), Into: [2]Size{f.p.w.stock(length(g.Into[0])), f.p.w.stock(length(g.Into[1]))}}
}

// sheet finds the drill sheet of a seam, or begins one. Seams are drilled alike
// when every figure and the picture are the same to what a tape shows.
func (f *fixer) sheet(v seamView, facts *SeamFixing, plan fixing.Seam) int {
	s := v.picture(plan)
	key := fmt.Sprint(facts.Method, facts.Tool, coarse(s.Boards[0]), coarse(cropped(s.Boards[1], s.Boards[0])), coarse(s.Section[0][:]), coarse(s.Section[1][:]))
	for _, d := range facts.Fasteners {
		key += fmt.Sprint(alike(d))
	}
	for _, g := range facts.Pegs {
		key += fmt.Sprint(g.From.US, g.From.Metric, g.Depth.US, g.Thing)
	}
	for _, q := range facts.Pieces {
		key += fmt.Sprint(q.Thing, q.Mark, q.From.US, q.From.Metric)
	}
	sheets := &f.p.result.Fixing.Sheets
	n, ok := f.sheets[key]
	if !ok {
		s.Number = len(*sheets) + 1
		*sheets = append(*sheets, s)
		n = s.Number
		f.sheets[key] = n
	}
	(*sheets)[n-1].Seams = append((*sheets)[n-1].Seams, facts.Number)
	return n
}

// coarse rounds an outline to what two boards may differ by and still look and
// measure alike: half a millimetre, the finest that is sawn.
func coarse(ps []XY) []XY {
	out := make([]XY, len(ps))
	for i, q := range ps {
		out[i] = XY{math.Round(q[0]*2)/2 + 0, math.Round(q[1]*2)/2 + 0}
	}
	return out
}

// beside, in mm, is how much of the other board beyond the ends of the heads'
// board has a say in whether two seams look alike.
const beside = 100.0

// cropped cuts an outline off where it goes far beyond another's ends.
func cropped(ps, by []XY) []XY {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range by {
		lo, hi = min(lo, q[0]-beside), max(hi, q[0]+beside)
	}
	out := make([]XY, len(ps))
	for i, q := range ps {
		out[i] = XY{min(max(q[0], lo), hi), q[1]}
	}
	return out
}

// alike is what is printed of a fastener: its figures as written.
func alike(d Driven) []string {
	out := []string{d.Kind, d.Thing, d.Side, d.Slant.Text, d.Thread, d.Tool}
	for _, s := range []Size{d.From, d.Face, d.Off, d.Depth, d.HeadDepth, d.Clearance, d.Pilot, d.Sink, d.Bore, d.Stop} {
		out = append(out, s.US, s.Metric)
	}
	return out
}

// unit is a direction, to the millionth.
func (w scribe) unit(v geom.Point) XY {
	round := func(x float64) float64 { return math.Round(x*1e6)/1e6 + 0 }
	return XY{round(v.X), round(v.Y)}
}
