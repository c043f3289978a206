package jobfile

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/job"
	"bowerwright/snag"
)

// copiesField reads the list of copies.
func copiesField(i info) field[draft] {
	k := kind{words: "a list of lines", form: list, schema: listOf(ref("text"))}
	return anyField(i, k, func(r *reader, n *node, d *draft) {
		for _, item := range n.items {
			if !r.is(item, line) {
				continue
			}
			l := newLiner(r, item, badCopy, exampleMove)
			if c := l.copy(); !l.failed {
				d.spec.Copies = append(d.spec.Copies, c)
			}
		}
	})
}

// copy reads "IDS as IDS, mirrored at X" or "IDS as IDS, moved by X, Y".
func (l *liner) copy() job.Copy {
	var c job.Copy
	c.From = l.list(exampleMirror, true, "as")
	l.expect(exampleMirror, "as")
	c.As = l.list(exampleMirror, false, "mirrored", "moved")
	if !l.failed && len(c.From) != len(c.As) {
		l.at = 0
		l.fail(fmt.Sprintf("%d frames are copied and %d new ids given", len(c.From), len(c.As)), "give every copy an id of its own")
	}
	switch l.expect(exampleMirror, "mirrored", "moved") {
	case "mirrored":
		l.expect(exampleMirror, "at")
		at := l.length()
		c.MirrorAt = &at
	case "moved":
		l.accept("by")
		c.By = *l.position()
	}
	l.end()
	return c
}

// list reads ids and rows with commas between, up to one of the words. Old
// ids are referred, new ones claimed.
func (l *liner) list(example string, old bool, until ...string) []string {
	var out []string
	for !l.failed {
		w, at := l.peek(), l.offset()
		switch {
		case w == "" || w == "," || slices.Contains(until, strings.ToLower(w)):
			l.fail("the id of a frame is expected here", "write "+example)
			return nil
		case slices.Contains(reserved, w) || l.misspelt(until):
			l.unexpected(example, until...)
			return nil
		}
		ids, ok := l.r.ids(l.n, w, at)
		l.failed = !ok
		for _, id := range ids {
			if old {
				l.r.refer(toPlaced, l.n, id, at)
			} else if !l.r.claim(id, l.n, at) {
				l.failed = true
			}
		}
		out = append(out, ids...)
		l.at++
		l.accept(",")
		if slices.Contains(until, strings.ToLower(l.peek())) {
			break
		}
		if l.peek() == "" {
			l.fail("the line ends too early", "write "+example)
		}
	}
	return out
}

// misspelt tells whether the next word, which stands where an id may, is
// rather one of these: it is near one and no comma or row makes it an id.
func (l *liner) misspelt(words []string) bool {
	last := l.at+1 >= len(l.words) || l.words[l.at+1].text != ","
	return last && len(l.peek()) > 3 && snag.DidYouMean(l.peek(), words) != ""
}
