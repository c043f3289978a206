package web

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"

	"bowerwright/internal/jobs"
	"bowerwright/job"
	"bowerwright/jobfile"
)

// A change made of a text: the new text, the paths that it is about, and what
// is said of it.
type change struct {
	text  []byte
	paths []string
	say   string
}

// changed is what a change is answered with.
type changed struct {
	Rev    int  `json:"rev"`
	View   View `json:"view"`
	Merged bool `json:"merged"`
}

// A conflict is told when two windows have changed the same place.
type conflict struct {
	Head   int    `json:"head"`
	Say    string `json:"say"`
	Path   string `json:"path"`
	Mine   string `json:"mine"`
	Theirs string `json:"theirs"`
}

// mostEdits is how many fields one change may write: a form's.
const mostEdits = 200

func (s *Server) postEdits(w http.ResponseWriter, r *http.Request) error {
	var asked struct {
		Base  int `json:"base"`
		Edits []struct {
			Path string `json:"path"`
			Text string `json:"text"`
		} `json:"edits"`
		Say string `json:"say"`
	}
	if err := take(r, &asked); err != nil {
		return err
	}
	if len(asked.Edits) == 0 || len(asked.Edits) > mostEdits {
		return bad(fmt.Sprintf("A change writes 1 to %d places.", mostEdits))
	}
	var edits []job.EditTo
	var paths []string
	for _, e := range asked.Edits {
		if len(e.Text)+len(e.Path) > jobs.MaxText {
			return jobs.ErrTooLong
		}
		edits = append(edits, job.EditTo{Path: e.Path, Text: e.Text})
		paths = append(paths, e.Path)
	}
	say := oneLine(asked.Say, mostSay)
	if say == "" {
		say = oneLine(paths[0], mostSay)
	}
	return s.change(w, r, asked.Base, func(text []byte) (change, error) {
		next, err := jobfile.Put(text, edits)
		return change{next, paths, say}, err
	})
}

func (s *Server) postMove(w http.ResponseWriter, r *http.Request) error {
	var asked struct {
		Base int          `json:"base"`
		Move jobfile.Move `json:"move"`
	}
	if err := take(r, &asked); err != nil {
		return err
	}
	return s.change(w, r, asked.Base, func(text []byte) (change, error) {
		f, err := s.floor(text)
		if err != nil {
			return change{}, err
		}
		m, err := jobfile.MoveFrames(text, f.facts, asked.Move)
		c := change{text: m.Text, say: m.Say}
		for _, id := range m.IDs {
			c.paths = append(c.paths, "layout."+id)
		}
		return c, err
	})
}

// tries is how often a change is made anew when others come in between: two
// people do not click that fast.
const tries = 20

// change makes a change on the revision that a window saw last, or merges it
// with what came after.
func (s *Server) change(w http.ResponseWriter, r *http.Request, base int, make func([]byte) (change, error)) error {
	for range tries {
		j, err := s.Store.Job(r.Context(), r.PathValue("id"))
		if err != nil {
			return err
		}
		if base < 1 || base > j.Last {
			return bad("The revision that this change is made on is not there.")
		}
		c, clash, err := s.merge(r.Context(), j, base, make)
		if err != nil {
			return err
		}
		if clash != nil {
			tell(w, http.StatusConflict, clash)
			return nil
		}
		if c.text == nil { // nothing would change
			return s.tellChanged(w, r, j, base != j.Head)
		}
		next, err := s.Store.Change(r.Context(), j.ID, j.Head, jobs.Change{Text: c.text, Say: c.say, Window: window(r)})
		if errors.Is(err, jobs.ErrMoved) {
			continue
		}
		if err != nil {
			return err
		}
		s.hub.tell(j.ID, news{next.Head, window(r), c.say})
		return s.tellChanged(w, r, next, base != j.Head)
	}
	return &refusal{http.StatusConflict, "Others change this job all the time.", "Try again.", ""}
}

// merge makes a change for the head of a job. Where the head is not what the
// window saw, the change and what came between must be about places apart, and
// the whole must read as well as its halves do.
func (s *Server) merge(ctx context.Context, j jobs.Job, base int, make func([]byte) (change, error)) (change, *conflict, error) {
	seen, err := s.Store.Revision(ctx, j.ID, base)
	if err != nil {
		return change{}, nil, err
	}
	mine, err := make(seen.Text)
	if err != nil || base == j.Head {
		if bytes.Equal(mine.text, seen.Text) {
			mine.text = nil
		}
		return mine, nil, err
	}
	head, err := s.Store.Revision(ctx, j.ID, j.Head)
	if err != nil {
		return change{}, nil, err
	}
	clash := func(path string) *conflict {
		return &conflict{Head: j.Head, Say: head.Say, Path: path, Mine: jobfile.At(mine.text, path), Theirs: jobfile.At(head.Text, path)}
	}
	theirs := jobfile.Differ(seen.Text, head.Text)
	if path, two := jobfile.Clash(mine.paths, theirs); two && jobfile.At(mine.text, path) != jobfile.At(head.Text, path) {
		return change{}, clash(path), nil
	}
	both, err := make(head.Text)
	if err != nil {
		return change{}, clash(mine.paths[0]), nil
	}
	if path, two := jobfile.Clash(both.paths, theirs); two && jobfile.At(both.text, path) != jobfile.At(head.Text, path) {
		return change{}, clash(path), nil
	}
	if s.worse(both.text, mine.text, head.Text) {
		return change{}, clash(mine.paths[0]), nil
	}
	if bytes.Equal(both.text, head.Text) {
		both.text = nil
	}
	return both, nil, nil
}

// worse tells whether a text has a snag that neither of two others has.
func (s *Server) worse(text []byte, others ...[]byte) bool {
	var known []string
	for _, o := range others {
		_, _, snags := s.Desk.Read(o)
		for _, q := range snags {
			known = append(known, q.Problem)
		}
	}
	_, _, snags := s.Desk.Read(text)
	for _, q := range snags {
		if !slices.Contains(known, q.Problem) {
			return true
		}
	}
	return false
}

func (s *Server) tellChanged(w http.ResponseWriter, r *http.Request, j jobs.Job, merged bool) error {
	rev, err := s.Store.Revision(r.Context(), j.ID, j.Head)
	if err != nil {
		return err
	}
	v, err := s.view(j, rev)
	if err != nil {
		return err
	}
	tell(w, http.StatusOK, changed{j.Head, v, merged})
	return nil
}

// postHead undoes or redoes.
func (s *Server) postHead(step func(jobs.Store, context.Context, string, int) (jobs.Job, error)) func(http.ResponseWriter, *http.Request) error {
	return func(w http.ResponseWriter, r *http.Request) error {
		var asked struct {
			Base int `json:"base"`
		}
		if err := take(r, &asked); err != nil {
			return err
		}
		id := r.PathValue("id")
		j, err := step(s.Store, r.Context(), id, asked.Base)
		if errors.Is(err, jobs.ErrMoved) {
			return s.movedOn(w, r, id)
		}
		if err != nil {
			return err
		}
		s.hub.tell(j.ID, news{j.Head, window(r), "undone or redone"})
		return s.tellChanged(w, r, j, false)
	}
}

// movedOn says that another window was quicker.
func (s *Server) movedOn(w http.ResponseWriter, r *http.Request, id string) error {
	j, err := s.Store.Job(r.Context(), id)
	if err != nil {
		return err
	}
	tell(w, http.StatusConflict, conflict{Head: j.Head, Say: j.Back})
	return nil
}
