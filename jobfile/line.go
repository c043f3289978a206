package jobfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowerwright/snag"
	"bowerwright/unit"
)

// A word of a line, and the byte it starts at. A comma is a word of its own.
type word struct {
	text string
	at   int
}

// split takes a line apart at spaces and commas.
func split(text string) []word {
	var out []word
	start := -1
	end := func(i int) {
		if start >= 0 {
			out = append(out, word{text[start:i], start})
			start = -1
		}
	}
	for i, c := range text {
		switch {
		case c == ',':
			end(i)
			out = append(out, word{",", i})
		case c == ' ' || c == '\t' || c == '\n' || c == '\u00a0' || c == '\u202f':
			end(i)
		case start < 0:
			start = i
		}
	}
	end(len(text))
	return out
}

// A liner reads one line of the layout or the copies, word by word. Its first
// snag ends the line: what follows it cannot be told.
type liner struct {
	r      *reader
	n      *node
	kind   snag.Kind // of the snags about the line
	usual  string    // a whole line, for remedies
	words  []word
	at     int
	failed bool
}

func newLiner(r *reader, n *node, k snag.Kind, usual string) *liner {
	return &liner{r: r, n: n, kind: k, usual: usual, words: split(n.text)}
}

// peek gives the next word, "" at the end.
func (l *liner) peek() string {
	if l.at < len(l.words) && !l.failed {
		return l.words[l.at].text
	}
	return ""
}

// offset is where the next word begins, or the line ends.
func (l *liner) offset() int {
	if l.at < len(l.words) {
		return l.words[l.at].at
	}
	return len(l.n.text)
}

// accept steps over the next word if it is one of these, and says which.
func (l *liner) accept(words ...string) string {
	w := l.peek()
	if w == "" || !slices.Contains(words, strings.ToLower(w)) {
		return ""
	}
	l.at++
	return strings.ToLower(w)
}

// expect demands one of these words; what says after what it is expected.
func (l *liner) expect(example string, words ...string) string {
	if w := l.accept(words...); w != "" || l.failed {
		return w
	}
	l.unexpected(example, words...)
	return ""
}

// unexpected says that the next word is none of these.
func (l *liner) unexpected(example string, words ...string) {
	quoted := either(words)
	if l.peek() == "" {
		l.fail(fmt.Sprintf("the line ends where %s is expected", quoted), "write "+example)
		return
	}
	remedy := fmt.Sprintf("write %s here, as in: %s", quoted, example)
	if near := snag.DidYouMean(l.peek(), words); near != "" {
		remedy = fmt.Sprintf("did you mean %s?", near)
	}
	l.fail(fmt.Sprintf("%q is not expected here", l.peek()), remedy)
}

// fail makes a snag at the next word.
func (l *liner) fail(problem, remedy string) {
	if !l.failed {
		l.r.badAt(l.kind, l.n.within(l.offset()), l.n.text, problem, remedy)
		l.failed = true
	}
}

// name reads a name and refers it.
func (l *liner) name(to target, what, example string) string {
	w := l.peek()
	if l.failed {
		return ""
	}
	if !isName(w) || slices.Contains(reserved, w) && !(w == "previous" && to == toFrame) {
		l.fail(fmt.Sprintf("the name of a %s is expected here", what), "write "+example)
		return ""
	}
	if w != "previous" {
		l.r.refer(to, l.n, w, l.offset())
	}
	l.at++
	return w
}

// number reads a side or corner number.
func (l *liner) number(what, example string) int {
	v, err := strconv.Atoi(l.peek())
	if l.failed {
		return 0
	}
	if err != nil || v < 1 || v > maxSides || strconv.Itoa(v) != l.peek() {
		l.fail(fmt.Sprintf("the number of a %s is expected here, 1 to %d", what, maxSides), "write "+example)
		return 0
	}
	l.at++
	return v
}

// maxSides is the most sides that a frame may have.
const maxSides = 64

// options are the words that may follow a measure.
var options = []string{"turned", "mirrored", "shifted", "centred", "flush"}

// measure gives the text of a quantity, which ends at a comma or at a word
// that lines use, and where it begins.
func (l *liner) measure(what, example string) (string, int) {
	from := l.at
	for w := l.peek(); w != "" && w != "," && !slices.Contains(reserved, strings.ToLower(w)); w = l.peek() {
		if _, isUnit := unit.UnitNamed(w); !isUnit && len(w) > 3 && snag.DidYouMean(w, options) != "" {
			l.unexpected(example, options...)
			return "", 0
		}
		l.at++
	}
	if from == l.at {
		l.fail(what+" is expected here", "write "+example)
		return "", 0
	}
	begin, last := l.words[from].at, l.words[l.at-1]
	return l.n.text[begin : last.at+len(last.text)], begin
}

// end demands that nothing follows.
func (l *liner) end() {
	if l.peek() != "" {
		l.fail("the line should end here", "write a line such as "+l.usual)
	}
}
