package jobfile

import (
	"fmt"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

// progressHeader is the first field of a file that tells what is sawn.
const progressHeader = "bowerwright-progress"

// Most boards, and rounds, that a file of progress tells of.
const (
	mostBoards = 100_000
	mostRounds = 200
)

// progressTable are the fields of a file of progress.
func progressTable(into *job.Progress) []field[draft] {
	return []field[draft]{
		unitField(info{Key: "unit", Doc: "What a bare number means in this file.", Example: "in", Usual: "every length needs its unit"}),
		roundsField(info{Key: "rounds", Doc: "What happened at the bench, a round for each packet that was sawn from, the first packet first.",
			Example: "{packet: 3F2A, boards: {1..3: cut}}", Need: true}, into),
	}
}

var roundTable = []field[job.Round]{
	packetField(info{Key: "packet", Doc: "The mark in the foot of the papers that were sawn from, four letters and figures.", Example: "3F2A", Need: true}),
	boardsField(info{Key: "boards", Doc: "Board numbers of those papers, or runs of them, each with what became of it.", Example: "1..3: cut"}),
	spoiltField(info{Key: "spoilt", Doc: "Parts that were sawn and cannot be used, by their mark.", Example: "B: 2"}),
}

// ReadProgress reads what is sawn. When snags stop it the progress is not whole.
func ReadProgress(source []byte, name string) (job.Progress, *File, snag.List) {
	f := &File{Name: name, source: source, places: map[string]snag.Place{}}
	var out job.Progress
	p := planter{scanner: scanner{name: name}}
	root := p.parse(source)
	if root == nil {
		all := p.all(name)
		all.Sort()
		return out, f, all
	}
	f.index(root)
	r := &reader{origin: assume.Job, book: assume.BuiltInBook(), d: &draft{ids: map[string]snag.Place{}}, at: &info{}}
	if r.headed(root, progressHeader, "what is sawn") {
		r.fieldsOf(root, "the progress", progressTable(&out))
	}
	all := r.all(name)
	all.Sort()
	return out, f, all
}

func roundsField(i info, into *job.Progress) field[draft] {
	i.kind = kind{words: "a list of fields", form: list, sub: describe("rounds", roundTable)}
	return field[draft]{i, func(r *reader, n *node, d *draft) {
		if !r.is(n, list) {
			return
		}
		if len(n.items) > mostRounds {
			r.bad(outOfRange, n, fmt.Sprintf("there are more than %d rounds", mostRounds), "leave out those in which nothing happened")
			return
		}
		for _, item := range n.items {
			round := job.Round{Path: item.place.Path}
			if r.is(item, fields) {
				readFields(r, item, "a round", roundTable, &round)
				into.Rounds = append(into.Rounds, round)
			}
		}
	}}
}

func packetField(i info) field[job.Round] {
	return anyField(i, kind{words: "a mark", form: line, schema: ref("text")}, func(r *reader, n *node, round *job.Round) {
		mark := strings.ToUpper(n.text)
		if len(mark) != 4 || strings.Trim(mark, "0123456789ABCDEF") != "" {
			r.bad(badMark, n, fmt.Sprintf("%q is no mark of a packet", n.text), "write the four letters and figures in the foot of each page, such as 3F2A")
			return
		}
		round.Packet = mark
	})
}

func spoiltField(i info) field[job.Round] {
	k := kind{words: "counts under marks of parts", form: fields, schema: object{"type": "object", "additionalProperties": whole(1, mostOfPart)}}
	return anyField(i, k, func(r *reader, n *node, round *job.Round) {
		for _, e := range r.entries(n) {
			v, err := strconv.Atoi(e.value.text)
			if e.value.form != line || err != nil || v < 1 || v > mostOfPart || strconv.Itoa(v) != e.value.text {
				r.bad(badNumber, e.value, fmt.Sprintf("how many of %s were spoilt is a whole number from 1 to %d", e.key.text, mostOfPart), "write "+e.key.text+": 1")
				continue
			}
			round.Spoilt = append(round.Spoilt, job.Spoilt{Mark: strings.TrimSpace(e.key.text), Count: v, Path: e.value.place.Path})
		}
	})
}

func boardsField(i info) field[job.Round] {
	k := kind{words: "lines under board numbers", form: fields, schema: object{"type": "object", "additionalProperties": object{"type": "string"}}}
	return anyField(i, k, func(r *reader, n *node, round *job.Round) {
		for _, e := range r.entries(n) {
			if b, ok := r.boardKey(e.key); ok && r.isItem(e, line, "cut") {
				b.Path = e.value.place.Path
				if r.happened(e.value, &b) {
					round.Boards = append(round.Boards, b)
				}
			}
		}
	})
}

// boardKey reads 4, 1..3, pine 4, pine flat 4..6 or pine on edge 4.
func (r *reader) boardKey(n *node) (b job.Sawn, ok bool) {
	words := strings.Fields(n.text)
	if len(words) == 0 {
		words = []string{""}
	}
	from, to, run := strings.Cut(words[len(words)-1], "..")
	if !run {
		to = from
	}
	var okA, okB bool
	b.From, okA = boardNumber(from)
	b.To, okB = boardNumber(to)
	switch rest := words[:len(words)-1]; {
	case !okA || !okB || b.To < b.From:
		r.bad(badBoards, n, fmt.Sprintf("%q names no board", n.text), "write a number or a run, such as 4 or 1..3, with the timber before it where there are several: pine 4")
		return b, false
	case len(rest) > 0:
		b.Timber = rest[0]
		b.Laid = strings.Join(rest[1:], " ")
		if b.Laid != "" && b.Laid != "flat" && b.Laid != "on edge" {
			r.bad(badBoards, n, fmt.Sprintf("%q names no board", n.text), "write the timber, how it is laid if it is laid both ways, and the number: pine flat 4, pine on edge 4")
			return b, false
		}
	}
	return b, true
}

func boardNumber(s string) (int, bool) {
	v, err := strconv.Atoi(s)
	return v, err == nil && v >= 1 && v <= mostBoards && strconv.Itoa(v) == s
}

const happenedExample = "5 parts cut, knot 31 in to 33 in"

// happened reads what became of a board: one or more of cut, 5 parts cut,
// knot 31 in to 33 in and 60 in to 61 in, short 90 in, rejected, with commas
// between.
func (r *reader) happened(n *node, b *job.Sawn) bool {
	l := newLiner(r, n, badHappened, happenedExample)
	said := map[string]bool{}
	for {
		what := r.oneThing(l, n, b)
		if said[what] && !l.failed {
			l.fail("this is told twice of the board", "write it once")
		}
		said[what] = true
		if l.failed || l.peek() != "," {
			break
		}
		l.at++
	}
	l.end()
	switch {
	case l.failed:
	case b.Cut && len(said) > 1:
		l.at = 0
		l.fail("a board that is cut whole has nothing else to tell", "write cut alone, or how many parts are cut")
	case b.Rejected && (len(b.Spans) > 0 || b.Short > 0):
		l.at = 0
		l.fail("a board that is rejected is used no more", "write rejected without its knots and its length")
	case b.From != b.To && !b.Cut && !b.Rejected:
		l.at = 0
		l.fail("this can be told of one board only", "write a line for each board")
	}
	return !l.failed
}

// oneThing reads one thing that happened to a board, and says which.
func (r *reader) oneThing(l *liner, n *node, b *job.Sawn) string {
	switch l.accept("cut", "rejected", "knot", "knots", "split", "short") {
	case "cut":
		b.Cut = true
		return "cut"
	case "rejected":
		b.Rejected = true
		return "rejected"
	case "knot", "knots", "split":
		r.knots(l, n, b)
		return "knot"
	case "short":
		text, at := l.until(",")
		if l.failed {
			return "short"
		}
		var ok bool
		if b.Short, ok = r.lengthIn(n, text, at); ok {
			r.longEnough(n, at, text, b.Short, boardShort)
		}
		return "short"
	}
	v, err := strconv.Atoi(l.peek())
	if err != nil || v < 1 || v > mostOfPart || strconv.Itoa(v) != l.peek() {
		l.unexpected(happenedExample, "cut", "rejected", "knot", "short", "a number of parts")
		return ""
	}
	b.Parts = v
	l.at++
	l.expect("5 parts cut", "parts", "part")
	l.accept("cut")
	return "parts"
}

// boardShort is what a board may be found to measure.
var boardShort = span{unit.Millimetre, 20 * unit.Metre, "1 mm to 20 m"}

// knots reads from where to where a board cannot be used, with and between.
func (r *reader) knots(l *liner, n *node, b *job.Sawn) {
	for {
		from, at := l.until(",", "to")
		l.expect("knot 31 in to 33 in", "to")
		to, end := l.until(",", "and")
		if l.failed {
			return
		}
		x, okA := r.lengthIn(n, from, at)
		y, okB := r.lengthIn(n, to, end)
		switch {
		case !okA || !okB:
		case x < 0 || y <= x || y > boardShort.high:
			r.badAt(badHappened, n.within(at), n.text, "a knot lies on the board, its nearer end first", "write knot 31 in to 33 in, measured from the end that is sawn first")
		default:
			b.Spans = append(b.Spans, [2]unit.Length{x, y})
		}
		if l.accept("and") == "" {
			return
		}
	}
}

var (
	badMark     = snag.Kind{Code: "bad-packet-mark", Meaning: "The mark of a packet in a file of progress is not four letters and figures."}
	badBoards   = snag.Kind{Code: "bad-board-number", Meaning: "A line of a file of progress names no board, or no run of boards."}
	badHappened = snag.Kind{Code: "bad-progress", Meaning: "What became of a board cannot be read."}
)
