package store

import (
	"context"
	"crypto/rand"
	"database/sql"
	"strings"
	"time"

	"bowerwright/internal/jobs"
)

var _ jobs.Store = (*Store)(nil)

// jobRow is a job with what undoing and redoing lead to.
const jobRow = `
SELECT j.id, j.head, (SELECT max(number) FROM revisions WHERE job = j.id), j.state, j.away,
       coalesce(h.parent, 0), iif(h.parent IS NULL, '', h.say), coalesce(n.number, 0), coalesce(n.say, ''), j.made, h.at
FROM jobs j
JOIN revisions h ON h.job = j.id AND h.number = j.head
LEFT JOIN revisions n ON n.job = j.id AND n.number = (SELECT max(number) FROM revisions WHERE job = j.id AND parent = j.head)
`

func scan(row interface{ Scan(...any) error }) (j jobs.Job, err error) {
	var made, changed int64
	err = row.Scan(&j.ID, &j.Head, &j.Last, &j.State, &j.Away, &j.BackTo, &j.Back, &j.ForwardTo, &j.Forward, &made, &changed)
	j.Made, j.Changed = moment(made), moment(changed)
	return j, plain(err)
}

func moment(ms int64) time.Time { return time.UnixMilli(ms).UTC() }

// All implements jobs.Store.
func (s *Store) All(ctx context.Context) ([]jobs.Job, error) {
	rows, err := s.db.QueryContext(ctx, jobRow+"ORDER BY h.at DESC, j.id")
	if err != nil {
		return nil, plain(err)
	}
	defer rows.Close()
	out := []jobs.Job{}
	for rows.Next() {
		j, err := scan(rows)
		if err != nil {
			return nil, err
		}
		out = append(out, j)
	}
	return out, plain(rows.Err())
}

// Job implements jobs.Store.
func (s *Store) Job(ctx context.Context, id string) (jobs.Job, error) {
	return scan(s.db.QueryRowContext(ctx, jobRow+"WHERE j.id = $1", id))
}

// Revision implements jobs.Store.
func (s *Store) Revision(ctx context.Context, id string, number int) (jobs.Revision, error) {
	r := jobs.Revision{Number: number}
	var at int64
	err := s.db.QueryRowContext(ctx, `SELECT coalesce(parent, 0), text, say, window, at FROM revisions WHERE job = $1 AND number = $2`, id, number).
		Scan(&r.Parent, &r.Text, &r.Say, &r.Window, &at)
	r.At = moment(at)
	return r, plain(err)
}

// New implements jobs.Store.
func (s *Store) New(ctx context.Context, c jobs.Change) (j jobs.Job, err error) {
	if len(c.Text) > jobs.MaxText {
		return j, jobs.ErrTooLong
	}
	id, now := newID(), s.now().UnixMilli()
	err = s.write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `INSERT INTO jobs (id, head, state, made) VALUES ($1, 1, $2, $3)`, id, jobs.States()[0], now); err != nil {
			return err
		}
		if err := insert(ctx, tx, id, 1, nil, c, now); err != nil {
			return err
		}
		j, err = scan(tx.QueryRowContext(ctx, jobRow+"WHERE j.id = $1", id))
		return err
	})
	return j, err
}

// newID is a name that nobody guesses and that is easy to read out: 80 bits in
// lower-case letters and figures.
func newID() string { return strings.ToLower(rand.Text()[:16]) }

func insert(ctx context.Context, tx *sql.Tx, id string, number int, parent any, c jobs.Change, at int64) error {
	text := c.Text
	if text == nil {
		text = []byte{} // nil would be NULL
	}
	_, err := tx.ExecContext(ctx, `INSERT INTO revisions (job, number, parent, text, say, window, at) VALUES ($1, $2, $3, $4, $5, $6, $7)`,
		id, number, parent, text, c.Say, c.Window, at)
	return err
}

// Change implements jobs.Store.
func (s *Store) Change(ctx context.Context, id string, base int, c jobs.Change) (jobs.Job, error) {
	if len(c.Text) > jobs.MaxText {
		return jobs.Job{}, jobs.ErrTooLong
	}
	return s.move(ctx, id, base, func(tx *sql.Tx, j jobs.Job) (int, error) {
		next := j.Last + 1
		return next, insert(ctx, tx, id, next, base, c, s.now().UnixMilli())
	})
}

// Back implements jobs.Store.
func (s *Store) Back(ctx context.Context, id string, base int) (jobs.Job, error) {
	return s.move(ctx, id, base, func(_ *sql.Tx, j jobs.Job) (int, error) { return j.BackTo, nil })
}

// Forward implements jobs.Store.
func (s *Store) Forward(ctx context.Context, id string, base int) (jobs.Job, error) {
	return s.move(ctx, id, base, func(_ *sql.Tx, j jobs.Job) (int, error) { return j.ForwardTo, nil })
}

// move sets the head, which must be at base, to where to says.
func (s *Store) move(ctx context.Context, id string, base int, to func(*sql.Tx, jobs.Job) (int, error)) (j jobs.Job, err error) {
	err = s.write(ctx, func(tx *sql.Tx) error {
		was, err := scan(tx.QueryRowContext(ctx, jobRow+"WHERE j.id = $1", id))
		if err != nil {
			return err
		}
		if was.Head != base {
			return jobs.ErrMoved
		}
		head, err := to(tx, was)
		if err != nil {
			return err
		}
		if head == 0 {
			return jobs.ErrNowhere
		}
		if _, err := tx.ExecContext(ctx, `UPDATE jobs SET head = $2 WHERE id = $1`, id, head); err != nil {
			return err
		}
		j, err = scan(tx.QueryRowContext(ctx, jobRow+"WHERE j.id = $1", id))
		return err
	})
	if err != nil {
		return jobs.Job{}, err
	}
	return j, nil
}

// SetState implements jobs.Store.
func (s *Store) SetState(ctx context.Context, id, state string) error {
	if !jobs.KnownState(state) {
		return jobs.ErrState
	}
	return s.set(ctx, `UPDATE jobs SET state = $2 WHERE id = $1`, id, state)
}

// PutAway implements jobs.Store.
func (s *Store) PutAway(ctx context.Context, id string, away bool) error {
	return s.set(ctx, `UPDATE jobs SET away = $2 WHERE id = $1`, id, away)
}

func (s *Store) set(ctx context.Context, update, id string, value any) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		r, err := tx.ExecContext(ctx, update, id, value)
		if err != nil {
			return err
		}
		if n, err := r.RowsAffected(); err != nil || n > 0 {
			return err
		}
		return jobs.ErrNone
	})
}
