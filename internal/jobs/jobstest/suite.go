// Package jobstest holds a store of jobs to what package jobs promises.
package jobstest

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"sync"
	"testing"

	"bowerwright/internal/jobs"
)

// Run runs every test on stores that open makes empty.
func Run(t *testing.T, open func(t *testing.T) jobs.Store) {
	for _, c := range []struct {
		name string
		test func(*testing.T, jobs.Store)
	}{
		{"text comes back byte for byte", bytesBack},
		{"back and forward", backAndForward},
		{"a change after going back", changeAfterBack},
		{"a stale base keeps nothing", staleBase},
		{"what is not there", notThere},
		{"states", states},
		{"put away and taken back", putAway},
		{"too long", tooLong},
		{"many at once", manyAtOnce},
		{"any history", anyHistory},
	} {
		t.Run(c.name, func(t *testing.T) { c.test(t, open(t)) })
	}
}

var ctx = context.Background()

func must[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func change(text, say string) jobs.Change {
	return jobs.Change{Text: []byte(text), Say: say, Window: "w1"}
}

func bytesBack(t *testing.T, s jobs.Store) {
	for _, text := range []string{"", "a: 1\n", "\ufeffa: 1\r\nb: \x00\xff\r\n", strings.Repeat("é", 100_000)} {
		j := must(s.New(ctx, change(text, "new")))(t)
		r := must(s.Revision(ctx, j.ID, j.Head))(t)
		if string(r.Text) != text || r.Say != "new" || r.Window != "w1" || r.Parent != 0 {
			t.Errorf("%.20q came back as %.20q, %q, %q, parent %d", text, r.Text, r.Say, r.Window, r.Parent)
		}
		if j.State != "asked" || j.Head != 1 || j.Last != 1 || j.BackTo != 0 || j.ForwardTo != 0 {
			t.Errorf("a new job is %+v", j)
		}
	}
	all := must(s.All(ctx))(t)
	if len(all) != 4 {
		t.Errorf("%d jobs are listed", len(all))
	}
}

// textOf is the text that holds.
func textOf(t *testing.T, s jobs.Store, j jobs.Job) string {
	t.Helper()
	return string(must(s.Revision(ctx, j.ID, j.Head))(t).Text)
}

func backAndForward(t *testing.T, s jobs.Store) {
	j := must(s.New(ctx, change("one", "new")))(t)
	j = must(s.Change(ctx, j.ID, 1, change("two", "wider")))(t)
	j = must(s.Change(ctx, j.ID, 2, change("three", "higher")))(t)
	if j.Back != "higher" || j.BackTo != 2 || j.ForwardTo != 0 {
		t.Fatalf("after two changes: %+v", j)
	}
	j = must(s.Back(ctx, j.ID, 3))(t)
	if textOf(t, s, j) != "two" || j.Back != "wider" || j.Forward != "higher" || j.ForwardTo != 3 || j.Last != 3 {
		t.Fatalf("one back: %+v", j)
	}
	j = must(s.Back(ctx, j.ID, 2))(t)
	if _, err := s.Back(ctx, j.ID, 1); !errors.Is(err, jobs.ErrNowhere) || j.BackTo != 0 {
		t.Fatalf("back beyond the first: %v, %+v", err, j)
	}
	j = must(s.Forward(ctx, j.ID, 1))(t)
	j = must(s.Forward(ctx, j.ID, 2))(t)
	if textOf(t, s, j) != "three" {
		t.Fatalf("forward again: %+v", j)
	}
	if _, err := s.Forward(ctx, j.ID, 3); !errors.Is(err, jobs.ErrNowhere) {
		t.Fatalf("forward beyond the last: %v", err)
	}
}

func changeAfterBack(t *testing.T, s jobs.Store) {
	j := must(s.New(ctx, change("one", "new")))(t)
	must(s.Change(ctx, j.ID, 1, change("two", "wider")))(t)
	must(s.Back(ctx, j.ID, 2))(t)
	j = must(s.Change(ctx, j.ID, 1, change("other", "lower")))(t)
	if j.Head != 3 || j.BackTo != 1 || j.ForwardTo != 0 {
		t.Fatalf("%+v", j)
	}
	j = must(s.Back(ctx, j.ID, 3))(t)
	if j.Forward != "lower" {
		t.Errorf("redoing would bring %q", j.Forward)
	}
	if r := must(s.Revision(ctx, j.ID, 2))(t); string(r.Text) != "two" || r.Parent != 1 {
		t.Errorf("the branch that was left is %q after %d", r.Text, r.Parent)
	}
}

func staleBase(t *testing.T, s jobs.Store) {
	j := must(s.New(ctx, change("one", "new")))(t)
	j = must(s.Change(ctx, j.ID, 1, change("two", "wider")))(t)
	for name, err := range map[string]error{
		"change":  second(s.Change(ctx, j.ID, 1, change("lost", "lost"))),
		"back":    second(s.Back(ctx, j.ID, 1)),
		"forward": second(s.Forward(ctx, j.ID, 1)),
	} {
		if !errors.Is(err, jobs.ErrMoved) {
			t.Errorf("%s on an old base: %v", name, err)
		}
	}
	if now := must(s.Job(ctx, j.ID))(t); now != j {
		t.Errorf("the job is %+v, was %+v", now, j)
	}
}

func second[T any](_ T, err error) error { return err }

func notThere(t *testing.T, s jobs.Store) {
	j := must(s.New(ctx, change("one", "new")))(t)
	for name, err := range map[string]error{
		"job":         second(s.Job(ctx, "none")),
		"odd id":      second(s.Job(ctx, "../x' or 1=1 --")),
		"revision":    second(s.Revision(ctx, j.ID, 2)),
		"revision 0":  second(s.Revision(ctx, j.ID, 0)),
		"of no job":   second(s.Revision(ctx, "none", 1)),
		"change":      second(s.Change(ctx, "none", 1, change("x", "x"))),
		"back":        second(s.Back(ctx, "none", 1)),
		"state":       s.SetState(ctx, "none", "made"),
		"put away":    s.PutAway(ctx, "none", true),
		"taken back":  s.PutAway(ctx, "none", false),
		"going again": second(s.Forward(ctx, "none", 1)),
	} {
		if !errors.Is(err, jobs.ErrNone) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func states(t *testing.T, s jobs.Store) {
	j := must(s.New(ctx, change("one", "new")))(t)
	for _, state := range jobs.States() {
		if err := s.SetState(ctx, j.ID, state); err != nil {
			t.Fatal(err)
		}
		if now := must(s.Job(ctx, j.ID))(t); now.State != state || now.Head != 1 {
			t.Errorf("set to %q it is %+v", state, now)
		}
	}
	if err := s.SetState(ctx, j.ID, "lost"); !errors.Is(err, jobs.ErrState) {
		t.Errorf("a state that there is not: %v", err)
	}
}

func putAway(t *testing.T, s jobs.Store) {
	j := must(s.New(ctx, change("one", "new")))(t)
	for _, away := range []bool{true, true, false} {
		if err := s.PutAway(ctx, j.ID, away); err != nil {
			t.Fatal(err)
		}
		if now := must(s.Job(ctx, j.ID))(t); now.Away != away || textOf(t, s, now) != "one" {
			t.Errorf("away %v: %+v", away, now)
		}
	}
}

func tooLong(t *testing.T, s jobs.Store) {
	j := must(s.New(ctx, change(strings.Repeat("x", jobs.MaxText), "new")))(t)
	long := change(strings.Repeat("x", jobs.MaxText+1), "more")
	if _, err := s.New(ctx, long); !errors.Is(err, jobs.ErrTooLong) {
		t.Errorf("new: %v", err)
	}
	if _, err := s.Change(ctx, j.ID, 1, long); !errors.Is(err, jobs.ErrTooLong) {
		t.Errorf("change: %v", err)
	}
}

// manyAtOnce lets several try until each has its changes in: none of those that
// were acknowledged may be missing.
func manyAtOnce(t *testing.T, s jobs.Store) {
	j := must(s.New(ctx, change("", "new")))(t)
	const each, writers = 10, 6
	var wg sync.WaitGroup
	for w := range writers {
		wg.Go(func() {
			for n := 0; n < each; {
				now, err := s.Job(ctx, j.ID)
				if err != nil {
					t.Error(err)
					return
				}
				r, err := s.Revision(ctx, j.ID, now.Head)
				if err != nil {
					t.Error(err)
					return
				}
				line := fmt.Sprintf("%d-%d\n", w, n)
				_, err = s.Change(ctx, j.ID, now.Head, jobs.Change{Text: append(r.Text, line...), Say: "a line"})
				if err == nil {
					n++
				} else if !errors.Is(err, jobs.ErrMoved) {
					t.Error(err)
					return
				}
			}
		})
	}
	wg.Wait()
	text := textOf(t, s, must(s.Job(ctx, j.ID))(t))
	for w := range writers {
		for n := range each {
			if line := fmt.Sprintf("%d-%d\n", w, n); strings.Count(text, line) != 1 {
				t.Errorf("line %q is there %d times", line, strings.Count(text, line))
			}
		}
	}
}

// anyHistory walks both a store and a plain reckoning of it through the same
// steps.
func anyHistory(t *testing.T, s jobs.Store) {
	rng := rand.New(rand.NewPCG(5, 25))
	type rev struct {
		text   string
		parent int
	}
	j := must(s.New(ctx, change("0", "new")))(t)
	id, revs, head := j.ID, []rev{{}, {"0", 0}}, 1
	for i := range 200 {
		var err error
		was := head
		switch rng.IntN(4) {
		case 0, 1:
			text := fmt.Sprint(i)
			j, err = s.Change(ctx, id, head, change(text, "n"+text))
			revs = append(revs, rev{text, head})
			head = len(revs) - 1
		case 2:
			j, err = s.Back(ctx, id, head)
			head = revs[head].parent
		case 3:
			j, err = s.Forward(ctx, id, head)
			head = 0
			for n, r := range revs {
				if r.parent == was && n > 1 {
					head = n
				}
			}
		}
		if head == 0 { // there is nowhere to go
			if !errors.Is(err, jobs.ErrNowhere) {
				t.Fatalf("step %d: %v", i, err)
			}
			head = was
			j = must(s.Job(ctx, id))(t)
		} else if err != nil {
			t.Fatalf("step %d: %v", i, err)
		}
		r := must(s.Revision(ctx, id, j.Head))(t)
		if j.Head != head || !bytes.Equal(r.Text, []byte(revs[head].text)) || j.BackTo != revs[head].parent || j.Last != len(revs)-1 {
			t.Fatalf("step %d: the job is %+v with %q; the head should be %d", i, j, r.Text, head)
		}
	}
}
