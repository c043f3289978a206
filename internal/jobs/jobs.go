// Package jobs says what a store of jobs keeps and promises: every job as the
// text of its job file, a revision for each change, and a head that says which
// of them holds.
//
// A revision is never changed. A change adds one and moves the head to it;
// undoing moves the head to the revision that the change was made on, redoing
// to the one that was made on it last. So nothing is ever lost, and undoing works
// from one day to the next.
//
// A call that comes back without an error has kept what it was given: not even
// the loss of power takes it back. The package knows nothing of what a text
// says; jobstest holds every store to all this, and Memory is a store that
// forgets, for tests of others.
package jobs

import (
	"context"
	"errors"
	"slices"
	"time"
)

// MaxText is how long a text may be, in bytes: what a job file may hold.
const MaxText = 1 << 20

// Errors that callers tell apart. A Store may wrap them.
var (
	ErrNone    = errors.New("there is no such job")
	ErrMoved   = errors.New("the job has changed meanwhile")
	ErrNowhere = errors.New("there is nothing to go back or forward to")
	ErrState   = errors.New("a job has no such state")
	ErrTooLong = errors.New("the text is longer than a job file may be")
	ErrFull    = errors.New("there is no room left to keep it")
)

// States are those of a job, in the order in which it passes through them.
func States() []string { return []string{"asked", "agreed", "made", "up", "back in store"} }

// KnownState tells whether a job may have this state.
func KnownState(s string) bool { return slices.Contains(States(), s) }

// A Job is one job as it stands.
type Job struct {
	ID    string
	Head  int // the revision that holds, from 1
	Last  int // the newest revision there is
	State string
	Away  bool // put away: not listed, and can be taken back

	// What undoing and redoing would take back and bring again, in a few words,
	// and the revisions they lead to, 0 for none.
	BackTo, ForwardTo int
	Back, Forward     string

	Made, Changed time.Time // UTC; Changed is when the revision that holds was made
}

// A Change is what a revision is made from.
type Change struct {
	Text   []byte // of the job file, whole
	Say    string // in a few words, for undoing
	Window string // which of the windows made it
}

// A Revision is a change as it is kept.
type Revision struct {
	Change
	Number, Parent int // Parent is 0 for the first
	At             time.Time
}

// A Store keeps jobs. It can be used by several at once.
type Store interface {
	// All gives every job, the one changed last first; jobs of one moment by id.
	All(ctx context.Context) ([]Job, error)
	Job(ctx context.Context, id string) (Job, error)
	Revision(ctx context.Context, id string, number int) (Revision, error)
	// New keeps a first revision and gives the job an id of its own.
	New(ctx context.Context, c Change) (Job, error)
	// Change adds a revision after base, which must be the head: else it is
	// ErrMoved, and nothing is kept. Back and Forward likewise.
	Change(ctx context.Context, id string, base int, c Change) (Job, error)
	Back(ctx context.Context, id string, base int) (Job, error)
	Forward(ctx context.Context, id string, base int) (Job, error)
	SetState(ctx context.Context, id, state string) error
	// PutAway takes a job out of sight, or brings it back.
	PutAway(ctx context.Context, id string, away bool) error
}
