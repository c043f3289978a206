package web

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"html"
	"strings"

	"bowerwright/internal/jobs"
	"bowerwright/job"
	"bowerwright/snag"
)

// A View is a job as the floor shows it.
type View struct {
	Rev     int     `json:"rev"`
	Back    *string `json:"back"`    // what undoing takes back, null for nothing
	Forward *string `json:"forward"` // what redoing brings again
	State   string  `json:"state"`

	Name  string   `json:"name"`
	For   string   `json:"for"`
	Date  string   `json:"date"`
	Venue string   `json:"venue"`
	Units string   `json:"units"`
	Mark  job.Mark `json:"mark"`
	Gap   float64  `json:"gap"`

	Kinds    []job.FloorKind `json:"kinds"`
	Frames   []seenFrame     `json:"frames"`
	Seams    []seenSeam      `json:"seams"`
	Near     []job.FloorPair `json:"near"`
	Overlaps []job.FloorPair `json:"overlaps"`
	Width    job.Size        `json:"width"`
	Height   job.Size        `json:"height"`
	Weight   job.Weight      `json:"weight"`
	Origin   job.XY          `json:"origin"`   // where the job file's 0, 0 lies
	AsAsked  bool            `json:"as_asked"` // sizes are not yet those on the tape

	Opening *opening   `json:"opening"`
	People  []person   `json:"people"`
	Snags   []seenSnag `json:"snags"`
	Notes   []job.Note `json:"notes"`
}

type seenFrame struct {
	ID      string     `json:"id"`
	Label   string     `json:"label"`
	Kind    string     `json:"kind"`
	Outline []job.XY   `json:"outline"`
	Inside  []job.XY   `json:"inside"`
	Turn    float64    `json:"turn"`
	Mirror  bool       `json:"mirror"`
	Holds   []seenHold `json:"holds"`
	Floor   bool       `json:"floor"` // placed by itself, against no other
	CopyOf  string     `json:"copy_of"`
}

type seenHold struct {
	Side   int     `json:"side"`
	To     string  `json:"to"`
	ToSide int     `json:"toSide"`
	Align  string  `json:"align"`
	Shift  float64 `json:"shift"`
}

type seenSeam struct {
	Number int      `json:"n"`
	A      sideOf   `json:"a"`
	B      sideOf   `json:"b"`
	From   job.XY   `json:"from"`
	To     job.XY   `json:"to"`
	Length job.Size `json:"length"`
}

type sideOf struct {
	Frame string `json:"frame"`
	Side  int    `json:"side"`
}

type opening struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
	W float64 `json:"w"`
	H float64 `json:"h"`
}

// A person for scale: its height in mm.
type person struct {
	Name   string  `json:"name"`
	Height float64 `json:"height"`
}

// standing are the people beside a drawing: 5 ft 6 in and a child of 3 ft 6 in.
var standing = []person{{"", 1676.4}, {"child", 1066.8}}

type seenSnag struct {
	Code     string `json:"code"`
	Severity string `json:"severity"`
	Place    string `json:"place"`
	Line     int    `json:"line"`
	Column   int    `json:"column"`
	Value    string `json:"value"`
	Problem  string `json:"problem"`
	Remedy   string `json:"remedy"`
}

func seenSnags(list snag.List) []seenSnag {
	out := []seenSnag{}
	for _, s := range list {
		out = append(out, seenSnag{s.Code, s.Severity.String(), s.Place.Path, s.Place.Line, s.Place.Column, s.Value, s.Problem, s.Remedy})
	}
	return out
}

// floored is what is seen of a text, with its snags.
type floored struct {
	facts job.FloorFacts
	snags snag.List
}

// floor works out what is seen of a text, once: a move needs it before and
// after.
func (s *Server) floor(text []byte) (floored, error) {
	sum := sha256.Sum256(text)
	k := key{job: string(sum[:])}
	if f, ok := s.floors.get(k); ok {
		return f, nil
	}
	spec, file, snags := s.Desk.Read(text)
	facts, more, err := job.Floor(spec, job.BuiltIn())
	if err != nil {
		return floored{}, err
	}
	told := map[string]bool{}
	for _, q := range snags {
		told[q.Place.Path] = true
	}
	for _, q := range more { // what follows from a snag of the text is not told twice
		if q.Place = file.Locate(q.Place.Path); !told[q.Place.Path] {
			snags.Add(q)
		}
	}
	snags.Sort()
	f := floored{facts, snags}
	s.floors.put(k, f)
	return f, nil
}

// view is a job at a revision. What follows from the text alone is kept.
func (s *Server) view(j jobs.Job, rev jobs.Revision) (View, error) {
	k := key{j.ID, rev.Number}
	v, ok := s.views.get(k)
	if !ok {
		f, err := s.floor(rev.Text)
		if err != nil {
			return v, err
		}
		v = viewOf(f.facts, f.snags)
		s.views.put(k, v)
	}
	v.Rev, v.State = rev.Number, j.State
	if rev.Number == j.Head {
		v.Back, v.Forward = saidOr(j.BackTo, j.Back), saidOr(j.ForwardTo, j.Forward)
	}
	return v, nil
}

func saidOr(to int, say string) *string {
	if to == 0 {
		return nil
	}
	return &say
}

func viewOf(f job.FloorFacts, snags snag.List) View {
	v := View{Name: f.Job.Name, For: f.Job.For, Date: f.Job.Date, Venue: f.Job.Venue, Units: f.Job.Show, Mark: f.Mark, Gap: f.Gap,
		Kinds: f.Kinds, Frames: []seenFrame{}, Seams: []seenSeam{}, Near: f.Near, Overlaps: f.Over, Width: f.Width, Height: f.Height, Weight: f.Weight,
		Origin: f.Origin, AsAsked: f.AsAsked, People: standing, Snags: seenSnags(snags), Notes: f.Notes}
	for _, q := range f.Frames {
		seen := seenFrame{ID: q.ID, Label: q.Label, Kind: q.Kind, Outline: q.Outline, Inside: q.Inside, Turn: degrees(q.Move.Turn), Mirror: q.Move.Mirror,
			Holds: []seenHold{}, Floor: len(q.Attach) == 0, CopyOf: q.CopyOf}
		for _, a := range q.Attach {
			if a.Corner == 0 {
				seen.Holds = append(seen.Holds, seenHold{a.Side, a.To, a.ToSide, a.Align, a.Shift.MM()})
			}
		}
		v.Frames = append(v.Frames, seen)
	}
	for _, q := range f.Seams {
		v.Seams = append(v.Seams, seenSeam{q.Number, sideOf{q.Frames[0], q.Sides[0]}, sideOf{q.Frames[1], q.Sides[1]}, q.From, q.To, q.Length})
	}
	return v
}

// A card is a job in the list.
type card struct {
	Name   string `json:"name"`
	For    string `json:"for"`
	Date   string `json:"date"`
	Venue  string `json:"venue"`
	Frames int    `json:"frames"`
	SVG    string `json:"svg"`
}

func cardOf(v View) card {
	return card{v.Name, v.For, v.Date, v.Venue, len(v.Frames), small(v)}
}

// small draws the front view for the list: outlines in the colour of the text
// round it.
func small(v View) string {
	var b bytes.Buffer
	w, h := v.Width.MM, v.Height.MM
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-20 -20 %.0f %.0f" role="img" aria-label="%s" fill="none" stroke="currentColor" stroke-width="12" stroke-linejoin="round">`,
		w+40, h+40, html.EscapeString(fmt.Sprintf("front view, %d frames", len(v.Frames))))
	for _, f := range v.Frames {
		b.WriteString(`<path d="`)
		for i, p := range f.Outline {
			fmt.Fprintf(&b, "%s%.0f %.0f", [...]string{"M", "L"}[min(i, 1)], p[0], h-p[1])
		}
		if !openKind(v, f.Kind) {
			b.WriteString("Z")
		}
		b.WriteString(`"/>`)
	}
	b.WriteString("</svg>")
	return b.String()
}

func openKind(v View, name string) bool {
	for _, k := range v.Kinds {
		if k.Name == name {
			return k.Open
		}
	}
	return false
}

// oneLine is a text on one line, for what is said of a change.
func oneLine(text string, most int) string {
	text = strings.Join(strings.Fields(strings.ToValidUTF8(text, "")), " ")
	if r := []rune(text); len(r) > most {
		text = string(r[:most])
	}
	return text
}
