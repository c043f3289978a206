package packet

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"bowerwright/job"
	"bowerwright/unit"
)

// The samples are made from corners alone and planned in the plainest way: they
// need not be the best plan, only a Result of the right form whose figures
// belong together. All are own examples.

const inch = 25.4

// sampleTimber is one stock size of a sample, mm.
type sampleTimber struct {
	name, size               string
	thickness, width, length float64
}

// sampleKind names a kind; its shape is that of its first frame.
type sampleKind struct {
	name, title, shape string
	flat, open         bool
	timber             int
}

// sampleFrame is one placed frame: outside corners in mm, anticlockwise seen
// from the front.
type sampleFrame struct {
	kind    string
	corners []job.XY
}

type sampleJob struct {
	name, show string
	timbers    []sampleTimber
	kinds      []sampleKind
	frames     []sampleFrame
}

const sampleKerf, sampleHold = inch / 8, 8 * inch

func nearest(mm float64) unit.Length {
	l, _ := unit.FromMM(mm, 0, unit.Nearest)
	return l
}

// sawnSize is a length as sawn; overallSize as of a whole set piece.
func sawnSize(mm float64) job.Size {
	l := nearest(mm)
	return job.Size{MM: mm, US: unit.Format(l, unit.Style{}),
		Metric: unit.Format(l, unit.Style{System: unit.Metric, Mark: unit.Millimetre / 2})}
}

func overallSize(mm float64) job.Size {
	l := nearest(mm)
	return job.Size{MM: mm, US: unit.FormatOverall(l, unit.Style{}),
		Metric: unit.Format(l, unit.Style{System: unit.Metric})}
}

func fineSize(mm float64) job.Size {
	l := nearest(mm)
	return job.Size{MM: mm, US: unit.Format(l, unit.Style{Mark: unit.Inch / 64}),
		Metric: unit.Format(l, unit.Style{System: unit.Metric, Mark: unit.Millimetre / 10})}
}

func sampleAngle(deg float64) job.Angle {
	s := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", deg), "0"), ".")
	if s == "-0" {
		s = "0"
	}
	return job.Angle{Degrees: math.Round(deg*1e4) / 1e4, Text: s + "°"}
}

func sampleWeight(kg float64) job.Weight {
	return job.Weight{KG: kg, US: fmt.Sprintf("%.0f lb", math.Ceil(kg/0.45359237)),
		Metric: fmt.Sprintf("%.0f kg", math.Ceil(kg))}
}

func sub(a, b job.XY) job.XY        { return job.XY{a[0] - b[0], a[1] - b[1]} }
func length(a job.XY) float64       { return math.Hypot(a[0], a[1]) }
func cross(a, b job.XY) float64     { return a[0]*b[1] - a[1]*b[0] }
func at(p []job.XY, i int) job.XY   { return p[(i%len(p)+len(p))%len(p)] }
func side(p []job.XY, i int) job.XY { return sub(at(p, i+1), at(p, i)) }

// inset moves every side of an anticlockwise outline inward by d; an open
// outline keeps its feet on the floor.
func inset(p []job.XY, d float64, open bool) []job.XY {
	out := make([]job.XY, len(p))
	for i := range p {
		a, b := side(p, i-1), side(p, i)
		da, db := d, d
		if open && i == 0 {
			da = 0
		}
		if open && i == len(p)-1 {
			db = 0
		}
		na := job.XY{-a[1] / length(a) * da, a[0] / length(a) * da}
		nb := job.XY{-b[1] / length(b) * db, b[0] / length(b) * db}
		pa := job.XY{at(p, i)[0] + na[0], at(p, i)[1] + na[1]}
		pb := job.XY{at(p, i)[0] + nb[0], at(p, i)[1] + nb[1]}
		den := cross(a, b)
		if math.Abs(den) < 1e-9 {
			out[i] = pa
			continue
		}
		t := cross(sub(pb, pa), b) / den
		out[i] = job.XY{pa[0] + a[0]*t, pa[1] + a[1]*t}
	}
	return out
}

// setting is the saw setting at corner i, degrees.
func setting(p []job.XY, i int) float64 {
	a, b := side(p, i-1), side(p, i)
	return math.Atan2(cross(a, b), a[0]*b[0]+a[1]*b[1]) / 2 * 180 / math.Pi
}

// footSetting is the setting where side i meets the floor.
func footSetting(v job.XY) float64 {
	return math.Asin(math.Abs(v[0])/length(v)) * 180 / math.Pi
}

func sampleArea(p []job.XY) job.Area {
	a := area(p)
	return job.Area{MM2: a, US: fmt.Sprintf("%.2f sq ft", a/304.8/304.8), Metric: fmt.Sprintf("%.2f m²", a/1e6)}
}

func area(p []job.XY) float64 {
	s := 0.0
	for i := range p {
		s += cross(at(p, i), at(p, i+1))
	}
	return s / 2
}

func sampleBounds(ps ...[]job.XY) (lo, hi job.XY) {
	lo, hi = job.XY{1e18, 1e18}, job.XY{-1e18, -1e18}
	for _, p := range ps {
		for _, q := range p {
			for k := range 2 {
				lo[k], hi[k] = math.Min(lo[k], q[k]), math.Max(hi[k], q[k])
			}
		}
	}
	return
}

// shift moves every frame so that the set piece stands at x 0 on floor 0.
func (s *sampleJob) shift() {
	var all [][]job.XY
	for _, f := range s.frames {
		all = append(all, f.corners)
	}
	lo, _ := sampleBounds(all...)
	for i, f := range s.frames {
		moved := make([]job.XY, len(f.corners))
		for k, c := range f.corners {
			moved[k] = sub(c, lo)
		}
		s.frames[i].corners = moved
	}
}

// depths gives the dimensions in the plane and across it.
func (s sampleJob) depths(k sampleKind) (depth, rise float64) {
	t := s.timbers[k.timber]
	if k.flat {
		return t.width, t.thickness
	}
	return t.thickness, t.width
}

// result makes the whole Result of a sample.
func (s sampleJob) result() job.Result {
	s.shift()
	r := job.Result{Format: "bowerwright result", Version: 1, MadeBy: "bowerwright 0.1", Mark: "7F2C"}
	r.Job = job.JobFacts{Name: s.name, For: "Maren Tallis and Joss Overby", Date: "2027-06-12",
		Venue: "Walled garden, Fennimore House", Show: s.show, Paper: "letter", Finest: "1/16 in",
		Tolerance: fineSize(inch / 32), Gap: fineSize(0), Note: "Greenery from the left foot up and over the top."}
	if s.show == "metric" {
		r.Job.Paper, r.Job.Finest = "a4", "1 mm"
	}
	s.frameFacts(&r)
	for i, k := range s.kinds {
		r.Kinds = append(r.Kinds, s.kindFacts(k, string(rune('B'+i)), &r))
	}
	for i := range s.timbers {
		for _, laid := range []string{"on edge", "flat"} {
			if t, ok := s.timberFacts(i, laid, r); ok {
				r.Timber = append(r.Timber, t)
			}
		}
	}
	r.Seams = sampleSeams(r.Frames)
	s.overall(&r)
	sampleRest(&r)
	sampleMaking(&r)
	return r
}

func (s sampleJob) kind(name string) (int, sampleKind) {
	for i, k := range s.kinds {
		if k.name == name {
			return i, k
		}
	}
	panic("no kind " + name)
}

func (s sampleJob) frameFacts(r *job.Result) {
	count := map[string]int{}
	for i, f := range s.frames {
		ki, k := s.kind(f.kind)
		depth, _ := s.depths(k)
		count[f.kind]++
		lo, hi := sampleBounds(f.corners)
		r.Frames = append(r.Frames, job.FrameFacts{ID: fmt.Sprintf("%s%d", f.kind, count[f.kind]), Kind: f.kind,
			Number: i + 1, Label: fmt.Sprintf("%c%d", 'B'+ki, count[f.kind]), Outside: f.corners,
			Inside: inset(f.corners, depth, k.open), Open: k.open, Stands: lo[1] < 0.1, Lowest: overallSize(lo[1]),
			Turn: sampleAngle(0), Centre: job.XY{(lo[0] + hi[0]) / 2, (lo[1] + hi[1]) / 2}})
	}
}

func (s sampleJob) kindFacts(k sampleKind, letter string, r *job.Result) job.KindFacts {
	depth, rise := s.depths(k)
	f := job.KindFacts{Name: k.name, Letter: letter, Title: k.title, Shape: k.shape, Open: k.open,
		Timber: s.timbers[k.timber].name, Laid: "on edge", Depth: sawnSize(depth), Rise: sawnSize(rise), Given: "side"}
	if k.flat {
		f.Laid = "flat"
	}
	for _, fr := range r.Frames {
		if fr.Kind != k.name {
			continue
		}
		if f.Make == 0 {
			f.Outside, f.Inside = fr.Outside, fr.Inside
		}
		f.Make++
		f.Placed++
	}
	f.Sides = len(f.Outside)
	if k.open {
		f.Sides--
	}
	for i := range f.Outside {
		a := setting(f.Outside, i)
		f.Corners = append(f.Corners, job.Corner{Number: i + 1, Inside: sampleAngle(180 - 2*a), Setting: sampleAngle(a)})
	}
	f.OutsideArea, f.InsideArea = sampleArea(f.Outside), sampleArea(f.Inside)
	f.Weight = sampleWeight((f.OutsideArea.MM2 - f.InsideArea.MM2) * rise * 450e-9)
	f.Parts = sampleParts(f, depth)
	lo, hi := sampleBounds(f.Outside)
	f.Sizes = []job.NamedSize{
		{Name: "side, outside", Asked: sawnSize(length(side(f.Outside, 0))), Built: sawnSize(length(side(f.Outside, 0))), Given: true},
		{Name: "width as it stands", Asked: sawnSize(hi[0] - lo[0] + 0.3), Built: sawnSize(hi[0] - lo[0])},
		{Name: "height as it stands", Asked: sawnSize(hi[1] - lo[1] - 0.2), Built: sawnSize(hi[1] - lo[1])},
	}
	f.Closing, f.Closes = fineSize(0), "closes exactly: all sides are alike"
	f.SawError = job.SawErrorFacts{Error: sampleAngle(0.25), LastGap: fineSize(1.15), EachGap: fineSize(0.19),
		TrueTo: sampleAngle(0.17), TooSteep: "inside", TooShallow: "outside"}
	return f
}

func sampleParts(f job.KindFacts, depth float64) []job.PartFacts {
	type key struct{ l, a, b int }
	index := map[key]int{}
	var parts []job.PartFacts
	for i := range f.Sides {
		v := side(f.Outside, i)
		a, b := setting(f.Outside, i), setting(f.Outside, i+1)
		if f.Open && i == 0 {
			a = footSetting(v)
		}
		if f.Open && i == f.Sides-1 {
			b = footSetting(v)
		}
		k := key{int(math.Round(length(v) * 10)), int(math.Round(a * 100)), int(math.Round(b * 100))}
		if j, ok := index[k]; ok {
			parts[j].Sides = append(parts[j].Sides, i+1)
			continue
		}
		index[k] = len(parts)
		parts = append(parts, samplePart(length(v), a, b, depth, i+1))
	}
	for i := range parts {
		p := &parts[i]
		p.PerFrame, p.Count, p.Mark = len(p.Sides), len(p.Sides)*f.Make, f.Letter
		if len(parts) > 1 {
			p.Mark = fmt.Sprintf("%s%d", f.Letter, i+1)
		}
		for j := range i {
			q := &parts[j]
			if math.Abs(p.Outside.MM-q.Outside.MM) < 0.1 && p.First.Setting == q.Second.Setting && p.Second.Setting == q.First.Setting {
				p.Hand, q.Hand, p.MirrorOf, q.MirrorOf = "right", "left", q.Mark, p.Mark
			}
		}
	}
	return parts
}

func samplePart(l, a, b, depth float64, side int) job.PartFacts {
	ta, tb := math.Tan(a*math.Pi/180)*depth, math.Tan(b*math.Pi/180)*depth
	in := l - ta - tb
	p := job.PartFacts{Sides: []int{side}, Outside: sawnSize(l), InsideLength: sawnSize(in), Asked: sawnSize(l + 0.1),
		LongPoint: sawnSize(math.Max(l, in)), ShortPoint: sawnSize(math.Min(l, in)),
		Tip:   sawnSize(math.Max(l, l-math.Min(0, ta)-math.Min(0, tb))),
		First: sampleEnd(a), Second: sampleEnd(b)}
	if !p.First.Reach || !p.Second.Reach {
		rough := sawnSize(p.Tip.MM + 2*inch/2)
		p.Rough, p.Block = &rough, []job.Angle{sampleAngle(90 - a), sampleAngle(90 - b)}
		p.WayOut = "saw square to the rough length, then trim each end clamped to a square block set to the block angle; only between 12 in and 36 in long"
	}
	return p
}

func sampleEnd(a float64) job.EndFacts {
	e := job.EndFacts{Setting: sampleAngle(a), Along: sampleAngle(90 - math.Abs(a)), Way: "standing, head swung",
		Reach: math.Abs(a) <= 50, Detent: math.Abs(math.Abs(a)-30) < 1e-6}
	if !e.Reach {
		e.Way = "rough, then against a block"
	}
	return e
}

// timberFacts saws the parts of one timber laid one way, longest first into the first board
// that has room, and each board shortest first.
func (s sampleJob) timberFacts(ti int, laid string, r job.Result) (job.TimberFacts, bool) {
	t := s.timbers[ti]
	f := job.TimberFacts{Name: t.name, Size: t.size, Thickness: sawnSize(t.thickness), Width: sawnSize(t.width),
		Length: sawnSize(t.length), Species: "pine", Moisture: 12, Density: 450, Laid: laid, Turning: true,
		Kerf: fineSize(sampleKerf), TrimFirst: sawnSize(0), TrimFar: sawnSize(0), Hold: sawnSize(sampleHold),
		Currency: "USD", Used: 0.93}
	var parts []job.PartFacts
	depth := t.thickness
	for _, k := range r.Kinds {
		if k.Timber != t.name || k.Laid != laid {
			continue
		}
		depth = k.Depth.MM
		parts = append(parts, k.Parts...)
	}
	if len(parts) == 0 {
		return f, false
	}
	sort.SliceStable(parts, func(i, j int) bool { return parts[i].ShortPoint.MM < parts[j].ShortPoint.MM })
	for _, p := range parts {
		stop := job.StopFacts{Parts: []job.StopPart{{Mark: p.Mark, Count: p.Count}}, Stop: p.LongPoint, Point: "long point", Face: "outside face", First: p.First.Setting,
			Second: p.Second.Setting, Count: p.Count, Held: "the rest of the board, at least " + sawnSize(sampleHold).US}
		if p.Rough != nil {
			stop.Stop, stop.Point, stop.Face = *p.Rough, "square end", "either face"
			stop.First, stop.Second = sampleAngle(0), sampleAngle(0)
		}
		f.Stops = append(f.Stops, stop)
	}
	f.Boards = fillBoards(parts, t.length, depth)
	for i := range f.Stops {
		f.Stops[i].Number, f.Stops[i].SawSet, f.Stops[i].Settings = i+1, 1, []job.Angle{f.Stops[i].First}
		f.Stops[i].Boards = sampleComes(f.Boards, f.Stops[i])
	}
	for _, b := range f.Boards {
		f.Buy += len(b.Numbers)
	}
	f.ByLength = f.Buy - 1
	f.Levels.Boards = job.LevelFacts{Value: int64(f.Buy), Bound: int64(f.Buy), Proof: "multipliers", Proved: true, Rechecked: true}
	f.Levels.Boards.Text, f.Levels.Boards.BoundText = itoa(f.Buy)+" boards", itoa(f.Buy)+" boards"
	f.Levels.Cost.Proved = true
	f.Stocks = []job.StockFacts{{Name: sawnSize(t.length).US, Length: sawnSize(t.length), Used: f.Buy, Buy: f.Buy, Price: "$4.49"}}
	f.Claim = fmt.Sprintf("%d boards; fewer is impossible", f.Buy)
	f.Cost = fmt.Sprintf("$%.2f", 4.49*float64(f.Buy))
	return f, true
}

// sampleComes are the boards that come to a stop.
func sampleComes(boards []job.BoardFacts, s job.StopFacts) (out []job.StopBoard) {
	for _, b := range boards {
		n := 0
		for _, p := range b.Parts {
			if s.Has(p.Mark) {
				n++
			}
		}
		for _, number := range b.Numbers {
			if n > 0 {
				out = append(out, job.StopBoard{Board: number, Count: n})
			}
		}
	}
	return out
}

func fillBoards(parts []job.PartFacts, l, depth float64) []job.BoardFacts {
	type board struct {
		marks []int
		left  float64
	}
	var boards []board
	lean := 0.0
	for _, p := range parts {
		lean = math.Max(lean, p.LongPoint.MM-p.ShortPoint.MM)
	}
	for i := len(parts) - 1; i >= 0; i-- {
		need := parts[i].LongPoint.MM + sampleKerf
		if parts[i].Rough != nil {
			need = parts[i].Rough.MM + sampleKerf
		}
		for range parts[i].Count {
			k := 0
			for k < len(boards) && boards[k].left < need {
				k++
			}
			if k == len(boards) {
				boards = append(boards, board{left: l - 20 - lean})
			}
			boards[k].marks = append(boards[k].marks, i)
			boards[k].left -= need
		}
	}
	var out []job.BoardFacts
	last := ""
	for n, b := range boards {
		sort.Ints(b.marks)
		if key := fmt.Sprint(b.marks); key == last {
			out[len(out)-1].Numbers = append(out[len(out)-1].Numbers, n+1)
			continue
		} else {
			last = key
		}
		out = append(out, layBoard(n+1, b.marks, parts, l, depth))
	}
	return out
}

func layBoard(n int, marks []int, parts []job.PartFacts, l, depth float64) job.BoardFacts {
	b := job.BoardFacts{Numbers: []int{n}}
	x, rolled := 2.0, false
	slope := func(a job.Angle) float64 { return depth * math.Tan(a.Degrees*math.Pi/180) }
	count := map[string]int{}
	for i, m := range marks {
		p := parts[m]
		sl, sr := slope(p.First.Setting), -slope(p.Second.Setting)
		if p.Rough != nil {
			sl, sr = 0, 0
		}
		if rolled {
			sl, sr = -sl, -sr
		}
		x += sampleKerf
		if i == 0 {
			x = 2 + math.Abs(sl)/2
		}
		mid := (p.Outside.MM + p.InsideLength.MM) / 2
		if p.Rough != nil {
			mid = p.Rough.MM
		}
		w := job.SawnFacts{Mark: p.Mark, Rolled: rolled, Start: x, End: x + mid, LeftSlope: sl, RightSlope: sr,
			Shares: i > 0, Turn: "roll", Held: "board", HeldLength: sawnSize(l - x)}
		if i == len(marks)-1 {
			w.Held, w.HeldLength, w.Turn = "part", p.ShortPoint, ""
		}
		b.Parts = append(b.Parts, w)
		x, rolled = w.End, !rolled
		count[p.Mark]++
	}
	b.Offcut, b.Waste = sawnSize(math.Max(0, l-x-20)), sawnSize(40)
	b.Keep = b.Offcut.MM > 300
	var words []string
	for i, m := range marks {
		if i == 0 || marks[i-1] != m {
			words = append(words, fmt.Sprintf("%d x %s at %s", count[parts[m].Mark], parts[m].Mark, parts[m].LongPoint.US))
		}
	}
	b.Summary = strings.Join(words, ", ")
	return b
}

// sampleSeams finds sides that lie on each other.
func sampleSeams(frames []job.FrameFacts) []job.SeamFacts {
	var seams []job.SeamFacts
	for i, f := range frames {
		for _, g := range frames[i+1:] {
			for a := range f.Outside {
				for b := range g.Outside {
					if s, ok := overlap(f, g, a, b); ok {
						s.Number = len(seams) + 1
						seams = append(seams, s)
					}
				}
			}
		}
	}
	return seams
}

func overlap(f, g job.FrameFacts, a, b int) (job.SeamFacts, bool) {
	va, vb := side(f.Outside, a), side(g.Outside, b)
	la := length(va)
	u := job.XY{va[0] / la, va[1] / la}
	p, q := sub(at(g.Outside, b), at(f.Outside, a)), sub(at(g.Outside, b+1), at(f.Outside, a))
	if math.Abs(cross(u, p)) > 1 || math.Abs(cross(u, q)) > 1 || u[0]*vb[0]+u[1]*vb[1] > 0 {
		return job.SeamFacts{}, false
	}
	from, to := math.Max(0, u[0]*q[0]+u[1]*q[1]), math.Min(la, u[0]*p[0]+u[1]*p[1])
	if to-from < 10 {
		return job.SeamFacts{}, false
	}
	o := at(f.Outside, a)
	s := job.SeamFacts{Frames: [2]string{f.Label, g.Label}, Sides: [2]int{a + 1, b + 1}, Length: sawnSize(to - from),
		From: job.XY{o[0] + u[0]*from, o[1] + u[1]*from}, To: job.XY{o[0] + u[0]*to, o[1] + u[1]*to},
		FlushBoth: math.Abs(la-length(vb)) < 1 && to-from > la-1, Along: [2]job.Size{sawnSize(from), sawnSize(0)}}
	s.Height = overallSize((s.From[1] + s.To[1]) / 2)
	return s, true
}

func (s sampleJob) overall(r *job.Result) {
	var all [][]job.XY
	for _, f := range s.frames {
		all = append(all, f.corners)
	}
	lo, hi := sampleBounds(all...)
	o := job.Overall{Width: overallSize(hi[0] - lo[0]), Height: overallSize(hi[1] - lo[1]),
		FrameCount: len(r.Frames), SeamCount: len(r.Seams), StandingLength: sawnSize(600), DoubledLength: overallSize(9000)}
	o.AskedWidth, o.AskedHeight = o.Width, o.Height
	kg := 0.0
	for _, k := range r.Kinds {
		kg += k.Weight.KG * float64(k.Make)
		for _, p := range k.Parts {
			o.PartCount += p.Count
		}
	}
	for _, f := range r.Frames {
		if f.Stands {
			o.Standing = append(o.Standing, f.ID)
		} else {
			o.Hanging = append(o.Hanging, f.ID)
		}
	}
	for _, t := range r.Timber {
		o.BoardCount += t.Buy
	}
	o.Weight = sampleWeight(kg)
	r.Overall = o
}

// sampleRest fills what a sample has of the remaining papers.
func sampleRest(r *job.Result) {
	r.Banner = "Not checked yet: whether it stands, how it is lifted, and fire. Do not put it up before a person who may judge that has looked at it."
	r.Saw = job.SawFacts{Name: "10 in sliding mitre saw", Given: true, From: "shop file", Scale: "across", Stop: "left", Kerf: fineSize(sampleKerf)}
	r.Openings = []job.OpeningFacts{
		{Height: overallSize(0), Clear: overallSize(812), From: 100, To: 912, Bounded: true, Where: "boards on both sides"},
		{Height: overallSize(914.4), Clear: overallSize(1200), From: 100, To: 1300, Bounded: true, Where: "boards on both sides"},
	}
	r.Moved = []job.MovedFacts{{Frame: r.Frames[0].Label, By: fineSize(1.2), Right: fineSize(-0.7), Up: fineSize(0.9)}}
	r.Tests = []job.TestCorner{{Kind: r.Kinds[0].Name, Setting: sampleAngle(30), Arms: sawnSize(365.125),
		Across: sawnSize(632.4), Shows: fineSize(inch / 16), Error: sampleAngle(0.25)}}
	r.Assumed = []job.AssumedFacts{
		{ID: "saw.hold", Name: "least length held at every cut", Value: "8 in", Range: "6 to 12 in",
			Source: "common practice, no source", Status: "common practice", From: "built in"},
		{ID: "joint.tolerance", Name: "a gap up to this is a closed joint", Value: "1/32 in", Range: "1/64 in to 1/16 in",
			Source: "common practice, no source", Status: "common practice", From: "job file"},
		{ID: "timber.moisture", Name: "moisture content", Value: "12 %", Range: "6 to 25 %",
			Source: "Wood Handbook, Forest Products Laboratory, dried indoors", Status: "second-hand", From: "shop file"},
	}
	r.Cautions = []job.Caution{
		{ID: "local", Text: "Local rules and licensed people come first: what stands among guests may need a permit, an engineer or the fire officer."},
		{ID: "blade", Text: "Hands stay 6 in from the blade. The blade has stopped before it is raised; nothing is cleared by hand while it turns."},
		{ID: "sleeves", Text: "No gloves, loose sleeves or cords at the saw or the drill. Dust mask, eyes, ears."},
	}
	r.Notes = []job.Note{{Code: "one-good-face", Where: r.Frames[0].Label, Text: "the board is rolled between cuts, so either face may show",
		Do: "set turning: no for boards with one good face"}}
}

// regular is a regular polygon standing on a side, by side length in mm.
func regular(n int, s, cx, cy float64) []job.XY {
	rad := s / 2 / math.Sin(math.Pi/float64(n))
	p := make([]job.XY, n)
	for i := range p {
		a := -math.Pi/2 - math.Pi/float64(n) + 2*math.Pi*float64(i)/float64(n)
		p[i] = job.XY{cx + rad*math.Cos(a), cy + rad*math.Sin(a)}
	}
	return p
}

func scaled(k float64, c ...float64) []job.XY {
	var p []job.XY
	for i := 0; i < len(c); i += 2 {
		p = append(p, job.XY{c[i] * k, c[i+1] * k})
	}
	return p
}

var pine4 = sampleTimber{"pine 1 x 4", "1 x 4", 0.75 * inch, 3.5 * inch, 96 * inch}

// combWall is 21 frames on a lattice of 4 in that truly meet; own example.
func combWall() sampleJob {
	s := sampleJob{name: "Comb wall", show: "us", timbers: []sampleTimber{pine4}, kinds: []sampleKind{
		{name: "large", title: "large hexagon", shape: "hexagon"}, {name: "medium", title: "medium hexagon", shape: "hexagon"},
		{name: "small", title: "small hexagon", shape: "hexagon"}, {name: "half", title: "half hexagon", shape: "half hexagon"},
		{name: "diamond", title: "diamond", shape: "diamond"}, {name: "triangle", title: "triangle", shape: "triangle"}}}
	h := math.Sqrt(3) / 2
	add := func(kind string, sideIn, cx, cy float64) {
		s.frames = append(s.frames, sampleFrame{kind, regular(6, sideIn*inch, cx*inch, cy*inch*h)})
	}
	add("large", 16, 0, 16)
	add("large", 16, 0, 48)
	add("large", 16, 0, 80)
	add("small", 8, -16, 32)
	add("small", 8, -16, 64)
	half := func(x float64) {
		s.frames = append(s.frames, sampleFrame{"half", scaled(inch, x, 0, x+32, 0, x+24, 16*h, x+8, 16*h)})
	}
	half(8)
	add("large", 16, 24, 32)
	add("large", 16, 24, 64)
	add("medium", 12, 22, 92)
	add("large", 16, 48, 16)
	add("large", 16, 48, 48)
	add("medium", 12, 46, 76)
	slant := func(x, y float64) {
		y *= h
		s.frames = append(s.frames, sampleFrame{"diamond", scaled(inch, x, y, x+8, y, x+12, y+8*h, x+4, y+8*h)})
		s.frames = append(s.frames, sampleFrame{"triangle", scaled(inch, x+4, y+8*h, x+12, y+8*h, x+8, y+16*h)})
	}
	slant(28, 80)
	half(56)
	add("large", 16, 72, 32)
	add("medium", 12, 70, 60)
	slant(52, 64)
	add("small", 8, 88, 16)
	add("small", 8, 92, 40)
	return s
}

// gateway is metric: an arch of ten segments, a house, a ring and a chevron.
func gateway() sampleJob {
	s := sampleJob{name: "Gateway at the mill", show: "metric", timbers: []sampleTimber{
		{"spruce 18 x 90", "measured", 18, 90, 2400}, {"spruce 45 x 45", "measured", 45, 45, 3000}},
		kinds: []sampleKind{
			{name: "arch", title: "arch on legs", shape: "arch on legs", open: true, timber: 1},
			{name: "house", title: "house", shape: "house"}, {name: "ring", title: "ring of sixteen", shape: "ring", flat: true, timber: 0},
			{name: "chevron", title: "chevron", shape: "corners"}}}
	arch := []job.XY{{2000, 0}, {2000, 1300}}
	for i := 1; i < 8; i++ {
		a := math.Pi * float64(i) / 8
		arch = append(arch, job.XY{1000 + 1000*math.Cos(a), 1300 + 1000*math.Sin(a)})
	}
	arch = append(arch, job.XY{0, 1300}, job.XY{0, 0})
	s.frames = []sampleFrame{
		{"arch", arch},
		{"house", scaled(1, -650, 0, 0, 0, 0, 900, -325, 1200, -650, 900)},
		{"house", scaled(1, 2000, 0, 2650, 0, 2650, 900, 2325, 1200, 2000, 900)},
		{"ring", regular(16, 160, 3100, 402.2)},
		{"chevron", scaled(1, -1100, 0, -875, 200, -650, 0, -650, 400, -875, 600, -1100, 400)},
	}
	return s
}

// single is one frame and nothing else.
func single() sampleJob {
	return sampleJob{name: "One octagon", show: "us", timbers: []sampleTimber{pine4},
		kinds:  []sampleKind{{name: "eight", title: "octagon", shape: "octagon"}},
		frames: []sampleFrame{{"eight", regular(8, 18*inch, 0, 0)}}}
}

// swarm is forty hexagons in a comb of eight by five.
func swarm() sampleJob {
	s := sampleJob{name: "Forty cells for the orangery", show: "us", timbers: []sampleTimber{pine4},
		kinds: []sampleKind{{name: "cell", title: "cell", shape: "hexagon"}}}
	d := 10 * inch
	for c := range 8 {
		for r := range 5 {
			s.frames = append(s.frames, sampleFrame{"cell", regular(6, d, float64(c)*1.5*d, (float64(r)+float64(c%2)/2)*math.Sqrt(3)*d)})
		}
	}
	return s
}

func samples() []job.Result {
	return []job.Result{combWall().result(), gateway().result(), single().result(), swarm().result()}
}
