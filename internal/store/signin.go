package store

import (
	"context"
	"database/sql"
	"errors"
	"time"
)

// Secret is the hash of the passphrase, "" when there is none.
func (s *Store) Secret(ctx context.Context) (hash string, err error) {
	err = s.db.QueryRowContext(ctx, `SELECT hash FROM secret`).Scan(&hash)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return hash, plain(err)
}

// SetSecret keeps the hash of a new passphrase. Whoever has signed in by the old one
// is out then.
func (s *Store) SetSecret(ctx context.Context, hash string) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO secret (id, hash) VALUES (1, $1) ON CONFLICT (id) DO UPDATE SET hash = excluded.hash`, hash)
		if err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, `DELETE FROM sessions`)
		return err
	})
}

// AddSession keeps that somebody has signed in, by the SHA-256 of their token.
// Sessions that have ended go.
func (s *Store) AddSession(ctx context.Context, token [32]byte, until time.Time) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `DELETE FROM sessions WHERE until <= $1`, s.now().UnixMilli()); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO sessions (token, until) VALUES ($1, $2)`, token[:], until.UnixMilli())
		return err
	})
}

// Session tells whether a session is there and has not ended.
func (s *Store) Session(ctx context.Context, token [32]byte) (there bool, err error) {
	err = s.db.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM sessions WHERE token = $1 AND until > $2)`, token[:], s.now().UnixMilli()).Scan(&there)
	return there, plain(err)
}

// EndSession signs somebody out.
func (s *Store) EndSession(ctx context.Context, token [32]byte) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `DELETE FROM sessions WHERE token = $1`, token[:])
		return err
	})
}
