package packet

import (
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// cover says whose job it is, shows it with people for scale, and says what is
// in the packet and what has not been checked. It is drawn last, when the
// pages of the contents are known.
func cover(p *page, r job.Result, entries []entry) {
	j := r.Job
	p.say(fitted(drawing.Label(drawing.Pt(0, 13), coverTitle, j.Name).Bold(), fieldW, drawing.Figure))
	y := 22.5
	for i, l := range []string{joined(", ", j.For, day(j.Date)), j.Venue} {
		if l == "" {
			continue
		}
		t := drawing.Label(drawing.Pt(0, y), drawing.Lead, l)
		if i == 0 {
			t = t.Medium()
		}
		p.say(fitted(t, fieldW, drawing.Small))
		y += 6.6
	}
	if j.Note != "" {
		for _, l := range wrap(j.Note, drawing.Regular, drawing.Body, fieldW)[:1] {
			p.say(drawing.Label(drawing.Pt(0, y), drawing.Body, l).Quiet())
			y += 5
		}
	}
	// From the foot up: what is below takes its room, the picture has the rest.
	entries = shortened(entries, contentsCols*contentsRows)
	list := footRule - 1.5 - contentsHigh(entries)
	note := noteBox(r)
	boxed := list - 3 - note.h
	facts := boxed - 23
	coverPicture(&p.sheet, r, box{22, y + 2, fieldW - 8, facts - 17})
	coverFacts(&p.sheet, r, facts)
	note.draw(&p.sheet, boxed)
	contents(&p.sheet, entries, list)
}

// coverTitle is the job's name on the cover, pt.
const coverTitle = 40.0

func joined(sep string, parts ...string) string {
	var have []string
	for _, s := range parts {
		if s != "" {
			have = append(have, s)
		}
	}
	return strings.Join(have, sep)
}

// People stand in front of what is at least this wide, mm, and beside what is
// narrower: they must not hide it. Each takes this much room beside it.
const (
	frontFrom  = 2000.0
	personRoom = 600.0
	personGap  = 620.0
	labelRoom  = 12.0 // page mm from one person's height to the other's
)

func coverPicture(s *sheet, r job.Result, b box) {
	w, h := max(r.Overall.Width.MM, 1), max(r.Overall.Height.MM, 1)
	aside := 0.0
	if w < frontFrom {
		aside = 2 * personRoom
	}
	tall := max(h, drawing.Adult.Height()+80)
	scale := min((b.x1-b.x0)/(w+aside), (b.y1-b.y0-5)/tall)
	v := view{scale: scale, width: w}
	// What is low stands in the middle of the white, not at its foot.
	v.origin = drawing.Pt((b.x0+b.x1)/2-(w+aside)*scale/2, b.y1-(b.y1-b.y0-5-tall*scale)*0.45)
	v.picture(s, r, v.placed(r.Frames))
	v.overall(s, r, 8, 9)
	var one, two float64
	if aside == 0 {
		one, two = stands(r, w, max(personGap, labelRoom/scale))
	} else {
		one, two = w+personRoom*0.6, w+personRoom*0.6+max(personRoom*0.8, labelRoom/scale)
		s.line(drawing.PenGround, v.right(), v.origin.Y, v.origin.X+(w+aside)*scale, v.origin.Y)
	}
	before := 2.2
	if aside > 0 {
		before = 0
	}
	s.person(drawing.Adult, drawing.Pt(v.origin.X+one*scale, v.origin.Y+before), scale)
	s.person(drawing.Child, drawing.Pt(v.origin.X+two*scale, v.origin.Y+before), scale)
}

// person is a figure with the height over it on a slip of white, so that it
// reads over the boards behind.
func (s *sheet) person(p drawing.Person, feet drawing.Point, scale float64) {
	s.add(p.Figure(feet, scale)...)
	w, top := drawing.Width(p.Says(), drawing.Regular, drawing.Small), feet.Y-p.Height()*scale
	s.add(drawing.Rect(drawing.Pen{}, drawing.White, feet.X-w/2-0.6, top-4.4, w+1.2, 3.8))
	s.say(drawing.Label(drawing.Pt(feet.X, top-1.4), drawing.Small, p.Says()).Centred())
}

// coverTwins are the cover for screens: the picture, the facts, the banner.
func coverTwins(r job.Result) []twin {
	var facts [][2]string
	for _, f := range fourFacts(r) {
		facts = append(facts, [2]string{f[0], joined(", ", f[1:]...)})
	}
	says := "Seen from the front, with two people for scale, " + drawing.Adult.Says() + " and " + drawing.Child.Says() + " tall: " +
		both(r.Job, r.Overall.Width) + " wide, " + both(r.Job, r.Overall.Height) + " high."
	return append([]twin{
		webPicture(says, fieldW, coverHigh, func(s *sheet) { coverPicture(s, r, box{22, 2, fieldW - 8, coverHigh - 14}) }),
		webFacts(facts...)}, noteBox(r).said()...)
}

// coverHigh is the height of the cover's picture on a screen, mm.
const coverHigh = 130.0

// fourFacts are those under the picture: what about, the fact, and more of it.
func fourFacts(r job.Result) [4][3]string {
	own, other := weigh(r.Job, r.Overall.Weight)
	return [4][3]string{
		{"Made of", plural(r.Overall.FrameCount, "frame"), partsAndSeams(r)},
		{"Timber", timberName(r), joined(", ", boardWords(r)...)},
		{toBuy(r.Buying), plural(r.Overall.BoardCount, "board"), proofWord(r)},
		{"Weighs", own, other + ", timber only"},
	}
}

// coverFacts draws them.
func coverFacts(s *sheet, r job.Result, y float64) {
	s.line(drawing.PenHeadRule, 0, y, fieldW, y)
	const w = fieldW / 4
	for i, f := range fourFacts(r) {
		x := float64(i) * w
		s.say(fitted(drawing.Label(drawing.Pt(x, y+6), drawing.Body, f[0]).Quiet(), w-2, drawing.Small))
		s.say(fitted(drawing.Label(drawing.Pt(x, y+12.4), drawing.Lead*1.2, f[1]).Bold(), w-3, drawing.Small))
		s.say(fitted(drawing.Label(drawing.Pt(x, y+17.8), drawing.Body, f[2]).Quiet(), w-3, drawing.Small))
	}
}

func partsAndSeams(r job.Result) string {
	if r.Overall.SeamCount == 0 {
		return plural(r.Overall.PartCount, "part")
	}
	return plural(r.Overall.SeamCount, "seam") + ", " + plural(r.Overall.PartCount, "part")
}

func timberName(r job.Result) string {
	switch len(r.Timber) {
	case 0:
		return "none"
	case 1:
		return r.Timber[0].Name
	}
	return plural(len(r.Timber), "size")
}

// boardWords is how long the boards are.
func boardWords(r job.Result) []string {
	var out []string
	seen := map[string]bool{}
	for _, t := range r.Timber {
		lengths := []job.Size{t.Length}
		if len(t.Stocks) > 1 {
			lengths = nil
			for _, s := range t.Stocks {
				if s.Buy > 0 {
					lengths = append(lengths, s.Length)
				}
			}
		}
		for _, l := range lengths {
			if l := first(r.Job, l); !seen[l] {
				seen[l] = true
				out = append(out, l)
			}
		}
	}
	if len(out) > 0 {
		out[len(out)-1] += " long"
	}
	return out
}

// proofWord says what is proved for every timber: that fewer boards are
// impossible, or, where lengths have prices of their own, that cheaper is.
func proofWord(r job.Result) string {
	word := "fewer is impossible"
	for _, t := range r.Timber {
		if !t.Levels.Boards.Proved || !t.Levels.Cost.Proved {
			return "perhaps fewer: see cutting"
		}
		if strings.Contains(t.Claim, "cheaper") {
			word = "cheaper is impossible"
		}
	}
	return word
}
