package packet

// A twin is what a block says where it is not seen on paper: an element of the
// packet's page for screens and readers (packet.html). Its words and figures
// are those of the block; only where they stand is left to the screen.
//
// heading, para, table, columnsOf and picture make their own. A block that is
// drawn by hand gets its twins by says, and has them in reading order:
//
//	block{h: 7, draw: draw}.says(webHead("Sawn", ""), webTicks("Sawn", labels...))
type twin interface{ write(w *webWriter) }

// says gives a block its twins in place of those it has; none are for what only
// paper needs, such as a heading said again on the next page.
func (k block) says(ts ...twin) block {
	k.twins = append([]twin{}, ts...)
	return k
}

// webHead is a heading inside a paper, with a quiet line of its own or ""; webSub
// is one that belongs to the heading before it.
func webHead(s, note string) twin { return headTwin{headLevel, s, note} }
func webSub(s, note string) twin  { return headTwin{headLevel + 1, s, note} }

// headLevel is that of headings inside a paper: the job has the first, papers
// have the second.
const headLevel = 3

// webPara is a paragraph.
func webPara(s string) twin { return paraTwin{line: cell{plainLine(s)}} }

// webLoud is a word or a figure in large letters: BACK, a count, a setting.
// More says what it is, on the same line, or is "".
func webLoud(s, more string) twin {
	return paraTwin{class: "loud", line: cell{boldLine(s), quietLine(more)}}
}

// webLead is a name with what belongs to it, such as a board with what is sawn
// from it.
func webLead(s, more string) twin {
	return paraTwin{class: "name", line: cell{boldLine(s), quietLine(more)}}
}

// webCaution is a boxed line: a caution, a panel on the way out.
func webCaution(s string) twin { return paraTwin{class: "boxed", line: cell{plainLine(s)}} }

// webSteps are numbered, in the order of the work; webList are not.
func webSteps(items ...string) twin { return listTwin{true, items} }
func webList(items ...string) twin  { return listTwin{false, items} }

// webTable is a whole table. Its caption is for readers who do not see the
// heading over it. The first column names the row.
func webTable(caption string, cols []column, rows [][]cell) twin {
	return tableTwin{caption: caption, cols: cols, rows: rows}
}

// webFacts are names with what they are, such as Kerf and its width.
func webFacts(pairs ...[2]string) twin { return factsTwin(pairs) }

// webTicks are boxes to tick, each with its label. The legend says what a tick
// means. The page forgets them when it is closed.
func webTicks(legend string, labels ...string) twin { return ticksTwin{legend, labels} }

// webPicture is a drawing of w by h mm; alt says in words what it shows.
func webPicture(alt string, w, h float64, draw func(s *sheet)) twin {
	return pictureTwin{alt, w, h, draw}
}

// twinsOf are what blocks say one after the other, for a block that draws them
// side by side.
func twinsOf(blocks ...block) []twin {
	out := []twin{}
	for _, k := range blocks {
		out = append(out, k.said()...)
	}
	return out
}

// said are a block's twins: its own, or the picture that its alt tells of.
func (k block) said() []twin {
	if k.twins == nil && k.alt != "" {
		return []twin{webPicture(k.alt, fieldW, k.h, func(s *sheet) { k.draw(s, 0) })}
	}
	return k.twins
}

type headTwin struct {
	level   int
	s, note string
}

type paraTwin struct {
	class string
	line  cell
}

type listTwin struct {
	ordered bool
	items   []string
}

type factsTwin [][2]string

type ticksTwin struct {
	legend string
	labels []string
}

type pictureTwin struct {
	alt  string
	w, h float64
	draw func(s *sheet)
}

type tableTwin struct {
	caption string
	cols    []column
	rows    [][]cell
}

// A rowTwin is one row of a table whose rows are blocks, or its head when cells
// is nil: rows of one grid that follow each other are one table.
type rowTwin struct {
	grid  *grid
	cells []cell
}

// A grid is what the rows of one table share. Its name, if any, tells it from
// others under the same heading; ticks puts a box to tick before each row.
type grid struct {
	cols  []column
	name  string
	ticks bool
}
