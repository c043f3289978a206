package jobfile

import (
	"fmt"
	"slices"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/snag"
)

// A target is what a reference is to.
type target int

const (
	toTimber target = iota
	toKind
	toFrame  // in the layout
	toPlaced // in the layout or copied before
)

// A reference is looked up when all is read, since what it names may stand
// further down.
type reference struct {
	to    target
	name  string
	place snag.Place
	value string
}

// refer notes a name at a byte of the node's text.
func (r *reader) refer(to target, n *node, name string, offset int) {
	r.refs = append(r.refs, reference{to, name, n.within(offset), n.text})
}

// claim takes an id for a frame; each may be taken once.
func (r *reader) claim(id string, n *node, offset int) bool {
	if first, twice := r.d.ids[id]; twice {
		r.badAt(duplicateID, n.within(offset), n.text, fmt.Sprintf("there is a frame %s already, in line %d", id, first.Line), "choose another id")
		return false
	}
	if len(r.d.ids) >= maxFrames {
		r.badAt(outOfRange, n.within(offset), n.text, fmt.Sprintf("there are more than %d frames", maxFrames), "split the job")
		return false
	}
	at := n.within(offset)
	at.Path = "layout." + id
	r.d.ids[id] = at
	return true
}

// settle looks all references up.
func (r *reader) settle() {
	names := map[target][]string{}
	for _, t := range r.d.spec.Timber {
		names[toTimber] = append(names[toTimber], t.Name)
	}
	for _, k := range r.d.spec.Kinds {
		names[toKind] = append(names[toKind], k.Name)
	}
	placed := map[string]bool{}
	for _, p := range r.d.spec.Layout {
		names[toFrame] = append(names[toFrame], p.ID)
		placed[p.ID] = true
	}
	known := map[target]map[string]bool{}
	for to, list := range names {
		known[to] = map[string]bool{}
		for _, n := range list {
			known[to][n] = true
		}
	}
	for _, ref := range r.refs {
		switch ref.to {
		case toFrame, toPlaced:
			r.frameExists(ref, placed, names[toFrame])
		default:
			if !known[ref.to][ref.name] {
				r.dangling(ref, names[ref.to])
			}
		}
	}
}

// frameExists accepts ids of lines that have a snag of their own, too: the
// user would be told twice.
func (r *reader) frameExists(ref reference, placed map[string]bool, names []string) {
	_, claimed := r.d.ids[ref.name]
	if ref.to == toFrame && claimed && !placed[ref.name] && r.isCopy(ref.name) {
		r.badAt(unknownFrame, ref.place, ref.value, fmt.Sprintf("%s is a copy, and copies are made after the layout", ref.name),
			"place this frame against one of the layout, or by its position")
		return
	}
	if !claimed {
		r.dangling(ref, names)
	}
}

func (r *reader) isCopy(id string) bool {
	for _, c := range r.d.spec.Copies {
		if slices.Contains(c.As, id) {
			return true
		}
	}
	return false
}

var targets = map[target]struct {
	kind snag.Kind
	what string
}{
	toTimber: {unknownTimber, "timber"},
	toKind:   {unknownKind, "kind of frame"},
	toFrame:  {unknownFrame, "frame"},
	toPlaced: {unknownFrame, "frame"},
}

func (r *reader) dangling(ref reference, names []string) {
	t := targets[ref.to]
	if r.full() { // guessing takes long and nobody would see it
		r.more++
		return
	}
	remedy := "write one of: " + either(names)
	if len(names) > 12 {
		remedy = "write one of: " + either(names[:12]) + ", or another that is there"
	}
	if near := snag.DidYouMean(ref.name, names); near != "" {
		remedy = fmt.Sprintf("did you mean %s?", near)
	} else if len(names) == 0 {
		remedy = fmt.Sprintf("there is no %s yet: add it", t.what)
	}
	r.badAt(t.kind, ref.place, ref.value, fmt.Sprintf("there is no %s %q", t.what, ref.name), remedy)
}

// jobFirst puts the timber that the job itself names first: the first is what
// frames use that name none.
func jobFirst(timber []job.Timber) []job.Timber {
	var own, rest []job.Timber
	for _, t := range timber {
		if t.From == assume.Job.String() {
			own = append(own, t)
		} else {
			rest = append(rest, t)
		}
	}
	return append(own, rest...)
}
