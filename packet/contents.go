package packet

import (
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// The contents on the cover, in columns, mm.
const (
	contentsCols = 3
	contentsRows = 9 // at most
	contentsGap  = 6.0
	contentsWide = (fieldW - (contentsCols-1)*contentsGap) / contentsCols
	contentsStep = 5.2
	contentsHead = 5.2
)

// contentsHigh is the height of the contents.
func contentsHigh(entries []entry) float64 {
	return contentsHead + float64(contentsDeep(entries))*contentsStep
}

// contentsDeep is how many rows there are.
func contentsDeep(entries []entry) int { return (len(entries) + contentsCols - 1) / contentsCols }

// contents lists what begins on which page.
func contents(s *sheet, entries []entry, y float64) {
	s.say(drawing.Label(drawing.Pt(0, y+3.4), drawing.Lead, "In this packet").Bold())
	rows := contentsDeep(entries)
	for i, e := range entries {
		x := float64(i/rows) * (contentsWide + contentsGap)
		under := y + contentsHead + float64(i%rows+1)*contentsStep
		n := drawing.Label(drawing.Pt(x+contentsWide, under-1.5), drawing.Body, itoa(e.page)).RightAligned()
		s.say(n)
		s.say(fitted(drawing.Label(drawing.Pt(x, under-1.5), drawing.Body, e.text).Medium(), contentsWide-n.Width()-3, drawing.Small))
		s.line(drawing.PenHair, x, under, x+contentsWide, under)
		s.add(drawing.Link{At: drawing.Pt(x, under-contentsStep), W: contentsWide, H: contentsStep, Page: e.page})
	}
}

// shortened keeps the contents to what the cover has room for: the bench cards
// after the first are left out, as they follow each other.
func shortened(entries []entry, most int) []entry {
	if len(entries) <= most {
		return entries
	}
	var out []entry
	cards := 0
	for _, e := range entries {
		if strings.HasPrefix(e.text, cardEntry) {
			if cards++; cards > 1 {
				continue
			}
			e.text = "Bench cards, from"
		}
		out = append(out, e)
	}
	return out[:min(len(out), most)]
}

// The box that says what nobody has checked yet, mm.
const (
	noteTitle = 46.0 // room for its title, at the left
	noteMost  = 5    // lines
)

// noteWord is its title: what is over, what the sums come to, or, on a bare cut
// list, what nobody has checked.
func noteWord(r job.Result) string {
	if r.Standing != nil && r.Standing.Over {
		return "Over its limit"
	}
	if r.Standing != nil {
		return "By calculation"
	}
	return "Not yet checked"
}

// noteBox is that box. What the print fonts lack is said in it too.
func noteBox(r job.Result) block {
	const w = fieldW - noteTitle - 4
	lines := wrap(r.Banner, drawing.Regular, drawing.Body, w)
	lines = lines[:min(len(lines), noteMost)]
	var letters []string
	if says := lettersSay(r); says != "" {
		letters = wrap(says, drawing.Regular, drawing.Small, w)
		letters = letters[:min(len(letters), noteMost-2)]
	}
	h := 4 + leading(drawing.Body)*float64(len(lines)) + leading(drawing.Small)*float64(len(letters))
	return block{h: h, twins: []twin{webCaution(noteWord(r) + ". " + r.Banner)}, draw: func(s *sheet, y float64) {
		s.add(drawing.Rect(drawing.PenHeadRule, drawing.White, 0, y, fieldW, h))
		s.say(drawing.Label(drawing.Pt(4, y+6), drawing.Lead, noteWord(r)).Bold())
		at := y + 1.1
		for _, l := range lines {
			at += leading(drawing.Body)
			s.say(drawing.Label(drawing.Pt(noteTitle, at), drawing.Body, l))
		}
		for _, l := range letters {
			at += leading(drawing.Small)
			s.say(drawing.Label(drawing.Pt(noteTitle, at), drawing.Small, l))
		}
	}}
}
