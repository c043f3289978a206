// Package store keeps jobs in a folder, in one SQLite file.
//
// It is a jobs.Store: what a call has acknowledged is on the disk, whatever
// happens to the program or the machine next. SQLite writes each change to its
// log and syncs it before the call returns (WAL, synchronous FULL).
//
// A folder has one user at a time. Who opens it holds a lock, by a transaction on a file
// of its own that SQLite keeps open, which ends with the process however
// that ends; a second Open is refused with ErrInUse. Backup needs no lock.
//
// A store of an older version is moved forward when it is opened, and a copy
// of what it was is kept beside it; one of a newer version is refused and left
// alone.
//
// The package does not encrypt anything: files are readable by their owner
// alone (mode 0600), and that is all.
package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"time"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"bowerwright/internal/jobs"
)

// Names of the files in the folder.
const (
	fileName = "jobs.db"
	lockName = "in-use.db"
)

// patience is how long a statement waits for another that writes, in
// milliseconds. A change takes a few; a backup takes none of the others' time.
const patience = 5000

// readers is how many statements may run at once: a handful of windows of one
// shop.
const readers = 4

// Errors of Open that a user can do something about.
var (
	ErrInUse   = errors.New("the folder is in use by another bowerwright")
	ErrNewer   = errors.New("the store was written by a newer bowerwright")
	ErrForeign = errors.New("it is no store of bowerwright")
)

// A Store is an open folder.
type Store struct {
	db   *sql.DB
	lock *sql.DB
	now  func() time.Time
}

// Open opens the store in dir, making both if need be. now gives the time of
// changes.
func Open(ctx context.Context, dir string, now func() time.Time) (*Store, error) {
	return open(ctx, dir, now, steps(), system)
}

func open(ctx context.Context, dir string, now func() time.Time, s ladder, d disk) (_ *Store, err error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	lock, err := hold(ctx, dir)
	if err != nil {
		return nil, err
	}
	defer func() {
		if err != nil {
			lock.Close()
		}
	}()
	name := filepath.Join(dir, fileName)
	if err := unbroken(name); err != nil {
		return nil, err
	}
	if err := private(name); err != nil {
		return nil, err
	}
	db, err := connect(name, readers)
	if err != nil {
		return nil, err
	}
	if err := s.forward(ctx, db, name, d); err != nil {
		db.Close()
		return nil, err
	}
	return &Store{db: db, lock: lock, now: now}, nil
}

// unbroken refuses a log without its file: what a restore leaves that was
// stopped half way. A new file beside it would be taken for the log's own.
func unbroken(name string) error {
	if _, err := os.Stat(name); !errors.Is(err, os.ErrNotExist) {
		return err
	}
	if _, err := os.Stat(name + "-wal"); err == nil {
		return fmt.Errorf("%s is missing and its log is there: restore the store once more", name)
	}
	return nil
}

// private makes a file that only its owner reads; SQLite gives its log the
// same mode.
func private(name string) error {
	f, err := os.OpenFile(name, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return err
	}
	return errors.Join(f.Chmod(0o600), f.Close())
}

// hold takes the folder. The lock is SQLite's own on a file that holds
// nothing, so that it is the same on every system and goes with the process.
func hold(ctx context.Context, dir string) (*sql.DB, error) {
	name := filepath.Join(dir, lockName)
	if err := private(name); err != nil {
		return nil, err
	}
	db, err := sql.Open("sqlite", address(name, nil))
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(1)
	if _, err := db.ExecContext(ctx, "BEGIN EXCLUSIVE"); err != nil {
		db.Close()
		if code(err) == sqlite3.SQLITE_BUSY {
			return nil, fmt.Errorf("%s: %w", dir, ErrInUse)
		}
		return nil, err
	}
	return db, nil
}

// connect opens a file as every connection of the program has it.
func connect(name string, most int) (*sql.DB, error) {
	db, err := sql.Open("sqlite", address(name, []string{
		fmt.Sprintf("busy_timeout(%d)", patience), "journal_mode(WAL)", "synchronous(FULL)", "foreign_keys(1)", "trusted_schema(0)",
	}))
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(most)
	return db, nil
}

// address is a file's name as SQLite takes it, whatever letters are in it.
func address(name string, pragmas []string) string {
	if abs, err := filepath.Abs(name); err == nil {
		name = abs
	}
	path := filepath.ToSlash(name)
	if path[0] != '/' { // a drive of Windows
		path = "/" + path
	}
	q := url.Values{"_pragma": pragmas, "_txlock": {"immediate"}}
	return (&url.URL{Scheme: "file", Path: path, RawQuery: q.Encode()}).String()
}

// code is SQLite's code of an error without its finer part, 0 for none.
func code(err error) int {
	var e *sqlite.Error
	if errors.As(err, &e) {
		return e.Code() & 0xff
	}
	return 0
}

// plain makes what SQLite says what a jobs.Store says.
func plain(err error) error {
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return jobs.ErrNone
	case code(err) == sqlite3.SQLITE_FULL || code(err) == sqlite3.SQLITE_IOERR:
		return fmt.Errorf("%w: %w", jobs.ErrFull, err)
	}
	return err
}

// Close ends the use of the folder. Nothing is lost without it.
func (s *Store) Close() error { return errors.Join(s.db.Close(), s.lock.Close()) }

// write does something in a transaction that has the file to itself.
func (s *Store) write(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return plain(err)
	}
	if err := do(tx); err != nil {
		return errors.Join(plain(err), tx.Rollback())
	}
	return plain(tx.Commit())
}
