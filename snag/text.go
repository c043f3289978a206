package snag

import (
	"fmt"
	"strings"
)

// A Source gives the text of a file that a snag lies in; false when it is not
// at hand.
type Source func(file string) (string, bool)

// Width is the usual room for a source line, in cells of a terminal.
const Width = 96

// tabStop is how far tabs reach in a shown line. They are shown as spaces, so
// that the caret stands right whatever the terminal's own tab stops.
const tabStop = 4

// Text writes the list for a terminal: for each snag the place and what is
// wrong, the source line with a caret under the place, and what to write.
// Lines wider than width cells are shown in part; a width below 20 is Width.
// The list is written as it is: call Sort first. A nil source shows no lines.
func Text(l List, source Source, width int) string {
	if width < 20 {
		width = Width
	}
	var b strings.Builder
	files := lines{source, map[string][]string{}}
	for i, s := range l {
		if i > 0 {
			b.WriteByte('\n')
		}
		s.write(&b, files, width)
	}
	return b.String()
}

func (s Snag) write(b *strings.Builder, files lines, width int) {
	if p := s.Place.String(); p != "" {
		b.WriteString(clean(p) + ": ")
	}
	if s.Severity == Note {
		b.WriteString("note: ")
	}
	fmt.Fprintf(b, "%s [%s]\n", clean(s.Problem), s.Code)
	if line, ok := files.at(s.Place); ok {
		shown, caret := window(line, s.Place.Column, width)
		fmt.Fprintf(b, "    %s\n", shown)
		if caret >= 0 {
			fmt.Fprintf(b, "    %s^\n", strings.Repeat(" ", caret))
		}
	}
	if s.Remedy != "" {
		fmt.Fprintf(b, "  %s\n", clean(s.Remedy))
	}
}

// String gives file:line:column as far as they are known, else the path.
func (p Place) String() string {
	switch {
	case p.Line <= 0 && p.File == "":
		return p.Path
	case p.Line <= 0 && p.Path == "":
		return p.File
	case p.Line <= 0:
		return p.File + ": " + p.Path
	case p.Column <= 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// lines holds the sources split into lines, each file once, so that a list of
// many snags is written in linear time.
type lines struct {
	source Source
	of     map[string][]string
}

// at finds the line of a place.
func (f lines) at(p Place) (string, bool) {
	if f.source == nil || p.Line <= 0 {
		return "", false
	}
	all, known := f.of[p.File]
	if !known {
		if text, ok := f.source(p.File); ok {
			all = strings.Split(text, "\n")
		}
		f.of[p.File] = all
	}
	if p.Line > len(all) {
		return "", false
	}
	return strings.TrimSuffix(all[p.Line-1], "\r"), true
}

// A cell is what one code point takes on a terminal.
type cell struct {
	text  string
	width int
}

// cells lays a line out, tabs as spaces and unprintable code points as a mark.
func cells(line string) []cell {
	var out []cell
	at := 0
	for _, r := range line {
		c := cell{string(printable(r)), runeWidth(r)}
		if r == '\t' {
			c.width = tabStop - at%tabStop
			c.text = strings.Repeat(" ", c.width)
		}
		out = append(out, c)
		at += c.width
	}
	return out
}

// window shows a line in at most width cells, and gives the cell under which
// the caret goes, -1 for none. The column counts code points from 1 and may be
// one behind the end of the line.
func window(line string, column, width int) (shown string, caret int) {
	all := cells(line)
	target := min(column-1, len(all))
	from, to := span(all, target, width)
	var b strings.Builder
	if from > 0 {
		b.WriteString("…")
	}
	caret = -1
	at := min(from, 1) // the ellipsis takes a cell
	for i := from; i < to; i++ {
		if i == target {
			caret = at
		}
		b.WriteString(all[i].text)
		at += all[i].width
	}
	if target == to {
		caret = at
	}
	if to < len(all) {
		b.WriteString("…")
	}
	return strings.TrimRight(b.String(), " "), caret
}

// span chooses the cells to show around target: the whole line if it fits,
// otherwise as much to the left as to the right, less where the line ends.
func span(all []cell, target, width int) (from, to int) {
	total := 0
	for _, c := range all {
		total += c.width
	}
	if total <= width {
		return 0, len(all)
	}
	room := width - 2 // an ellipsis on either side
	from = max(0, min(target, len(all)))
	to = from
	for grew := true; grew; {
		grew = false
		if to < len(all) && all[to].width <= room {
			room -= all[to].width
			to++
			grew = true
		}
		if from > 0 && all[from-1].width <= room {
			from--
			room -= all[from].width
			grew = true
		}
	}
	for from > 0 && from < len(all) && all[from].width == 0 {
		from++ // no mark without its letter
	}
	return from, to
}

// clean makes a phrase that quotes the user's text fit to be printed: one line,
// nothing that steers a terminal.
func clean(s string) string {
	return strings.Map(printable, s)
}

// printable replaces what a terminal would obey instead of show: control codes
// and the marks that turn the direction of writing.
func printable(r rune) rune {
	switch {
	case r == '\t', r == '\n', r == '\r':
		return ' '
	case r < 0x20, r >= 0x7f && r < 0xa0,
		r == 0x061c, r == 0x200e, r == 0x200f,
		r >= 0x2028 && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
		return '\ufffd'
	}
	return r
}
