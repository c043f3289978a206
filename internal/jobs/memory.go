package jobs

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"slices"
	"sync"
	"time"
)

// Memory is a Store that keeps nothing beyond the program's end.
type Memory struct {
	Now func() time.Time // nil: the same moment always

	mu   sync.Mutex
	jobs map[string]*kept
}

type kept struct {
	Job
	revisions []Revision // by number, from 1
}

// All implements Store.
func (m *Memory) All(context.Context) ([]Job, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	out := []Job{}
	for _, k := range m.jobs {
		out = append(out, k.now())
	}
	slices.SortFunc(out, func(a, b Job) int { return cmp.Or(b.Changed.Compare(a.Changed), cmp.Compare(a.ID, b.ID)) })
	return out, nil
}

// Job implements Store.
func (m *Memory) Job(_ context.Context, id string) (j Job, err error) {
	err = m.with(id, func(k *kept) error { return nil }, &j)
	return j, err
}

// Revision implements Store.
func (m *Memory) Revision(_ context.Context, id string, number int) (r Revision, err error) {
	err = m.with(id, func(k *kept) error {
		if number < 1 || number > len(k.revisions) {
			return ErrNone
		}
		r = k.revisions[number-1]
		r.Text = bytes.Clone(r.Text)
		return nil
	}, new(Job))
	return r, err
}

// New implements Store.
func (m *Memory) New(_ context.Context, c Change) (Job, error) {
	if len(c.Text) > MaxText {
		return Job{}, ErrTooLong
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.jobs == nil {
		m.jobs = map[string]*kept{}
	}
	k := &kept{Job: Job{ID: fmt.Sprintf("job%d", len(m.jobs)+1), State: States()[0], Made: m.now()}}
	m.jobs[k.ID] = k
	k.add(c, m.now())
	return k.now(), nil
}

// Change implements Store.
func (m *Memory) Change(_ context.Context, id string, base int, c Change) (j Job, err error) {
	if len(c.Text) > MaxText {
		return j, ErrTooLong
	}
	err = m.at(id, base, func(k *kept) error { k.add(c, m.now()); return nil }, &j)
	return j, err
}

// Back implements Store.
func (m *Memory) Back(_ context.Context, id string, base int) (j Job, err error) {
	err = m.at(id, base, func(k *kept) error { return k.head(k.now().BackTo) }, &j)
	return j, err
}

// Forward implements Store.
func (m *Memory) Forward(_ context.Context, id string, base int) (j Job, err error) {
	err = m.at(id, base, func(k *kept) error { return k.head(k.now().ForwardTo) }, &j)
	return j, err
}

// SetState implements Store.
func (m *Memory) SetState(_ context.Context, id, state string) error {
	if !KnownState(state) {
		return ErrState
	}
	return m.with(id, func(k *kept) error { k.State = state; return nil }, new(Job))
}

// PutAway implements Store.
func (m *Memory) PutAway(_ context.Context, id string, away bool) error {
	return m.with(id, func(k *kept) error { k.Away = away; return nil }, new(Job))
}

func (m *Memory) now() time.Time {
	if m.Now == nil {
		return time.Time{}
	}
	return m.Now()
}

// with does something with a job and gives it as it is then.
func (m *Memory) with(id string, do func(*kept) error, j *Job) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	k, ok := m.jobs[id]
	if !ok {
		return ErrNone
	}
	if err := do(k); err != nil {
		return err
	}
	*j = k.now()
	return nil
}

// at is with for a job whose head is at a revision.
func (m *Memory) at(id string, base int, do func(*kept) error, j *Job) error {
	return m.with(id, func(k *kept) error {
		if k.Head != base {
			return ErrMoved
		}
		return do(k)
	}, j)
}

func (k *kept) add(c Change, at time.Time) {
	c.Text = bytes.Clone(c.Text)
	k.revisions = append(k.revisions, Revision{Change: c, Number: len(k.revisions) + 1, Parent: k.Head, At: at})
	k.Head = len(k.revisions)
}

func (k *kept) head(to int) error {
	if to == 0 {
		return ErrNowhere
	}
	k.Head = to
	return nil
}

// now fills in what follows from head and revisions.
func (k *kept) now() Job {
	j := k.Job
	j.Last = len(k.revisions)
	head := k.revisions[k.Head-1]
	j.Changed = head.At
	if head.Parent > 0 {
		j.BackTo, j.Back = head.Parent, head.Say
	}
	for _, r := range k.revisions {
		if r.Parent == k.Head {
			j.ForwardTo, j.Forward = r.Number, r.Say
		}
	}
	return j
}
