package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	sqlite3 "modernc.org/sqlite/lib"
)

// An Account says what a store holds.
type Account struct {
	Version         int64
	Jobs, Revisions int
}

// Backup writes the store in dir to a file of its own, whole or not at all; it
// may be in use meanwhile. The copy is looked over before it gets its name. A
// file that is there already is refused.
func Backup(ctx context.Context, dir, to string) (Account, error) {
	return backup(ctx, dir, to, system)
}

func backup(ctx context.Context, dir, to string, d disk) (a Account, err error) {
	from := filepath.Join(dir, fileName)
	if _, err := os.Stat(from); err != nil {
		return a, err
	}
	if _, err := os.Lstat(to); !errors.Is(err, fs.ErrNotExist) {
		return a, errors.Join(fmt.Errorf("%s: %w", to, fs.ErrExist), err)
	}
	db, err := connect(from, 1)
	if err != nil {
		return a, err
	}
	defer db.Close()
	if _, err := steps().version(ctx, db); err != nil {
		return a, fmt.Errorf("%s: %w", from, err)
	}
	if err := steps().copyOut(ctx, db, to, d); err != nil {
		return a, err
	}
	return look(ctx, to)
}

// copyOut writes what a store holds now to a file. One that is there gives way.
func (l ladder) copyOut(ctx context.Context, db *sql.DB, to string, d disk) error {
	temp, err := beside(to)
	if err != nil {
		return err
	}
	defer os.Remove(temp) // not there any more when all went well
	if err := private(temp); err != nil {
		return err
	}
	if _, err := db.ExecContext(ctx, `VACUUM INTO $1`, temp); err != nil {
		return plain(err)
	}
	if _, err := look(ctx, temp); err != nil {
		return fmt.Errorf("the copy is damaged: %w", err)
	}
	if err := d.rename(temp, to); err != nil {
		return err
	}
	settle(filepath.Dir(to))
	return nil
}

// look opens a file that nobody else uses, without changing it, and goes over
// all of it: SQLite's own check of the file, every reference, and every head.
func look(ctx context.Context, name string) (a Account, err error) {
	if err := sqliteFile(name); err != nil {
		return a, err
	}
	db, err := sql.Open("sqlite", address(name, []string{"query_only(1)", "trusted_schema(0)"})+"&mode=ro&immutable=1")
	if err != nil {
		return a, err
	}
	defer db.Close()
	if a.Version, err = steps().version(ctx, db); err != nil {
		return a, fmt.Errorf("%s: %w", name, err)
	}
	if a.Version == 0 {
		return a, fmt.Errorf("%s: %w", name, ErrForeign)
	}
	if err := whole(ctx, db); err != nil {
		return a, fmt.Errorf("%s: %w", name, err)
	}
	err = db.QueryRowContext(ctx, `SELECT (SELECT count(*) FROM jobs), (SELECT count(*) FROM revisions)`).Scan(&a.Jobs, &a.Revisions)
	return a, err
}

// header is how every SQLite 3 file begins (sqlite.org/fileformat2.html, 1.3.1).
const header = "SQLite format 3\x00"

func sqliteFile(name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	b := make([]byte, len(header))
	if n, _ := f.Read(b); n < len(b) || string(b) != header {
		return fmt.Errorf("%s: %w", name, ErrForeign)
	}
	return nil
}

// ErrDamaged says that a file is a store and not whole.
var ErrDamaged = errors.New("the store is damaged")

func whole(ctx context.Context, db *sql.DB) error {
	for _, check := range []string{`SELECT * FROM pragma_integrity_check WHERE integrity_check <> 'ok' LIMIT 1`,
		`SELECT "table" || ', row ' || coalesce(rowid, '') || ', has nothing to go with' FROM pragma_foreign_key_check LIMIT 1`} {
		var says string
		switch err := db.QueryRowContext(ctx, check).Scan(&says); {
		case errors.Is(err, sql.ErrNoRows):
		case err == nil:
			return fmt.Errorf("%w: %s", ErrDamaged, says)
		case code(err) == sqlite3.SQLITE_CORRUPT || code(err) == sqlite3.SQLITE_NOTADB:
			return fmt.Errorf("%w: %w", ErrDamaged, err)
		default:
			return err
		}
	}
	return nil
}

// Restore puts a backup into dir, after it has been looked over; the folder must
// not be in use. A store that is there is kept under the name that comes back,
// "" for none. When anything fails the folder is as it was.
func Restore(ctx context.Context, from, dir string, now func() time.Time) (a Account, kept string, err error) {
	return restore(ctx, from, dir, now, system)
}

func restore(ctx context.Context, from, dir string, now func() time.Time, d disk) (a Account, kept string, err error) {
	if a, err = look(ctx, from); err != nil {
		return a, "", err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return a, "", err
	}
	lock, err := hold(ctx, dir)
	if err != nil {
		return a, "", err
	}
	defer lock.Close()
	name := filepath.Join(dir, fileName)
	temp, err := beside(name)
	if err != nil {
		return a, "", err
	}
	if err := d.copyFile(ctx, from, temp); err != nil {
		return a, "", err
	}
	defer os.Remove(temp)
	if a, err = look(ctx, temp); err != nil { // what was copied, not what was there
		return a, "", err
	}
	if kept, err = d.setAside(ctx, name, now()); err != nil {
		return a, "", err
	}
	if err := d.rename(temp, name); err != nil {
		if kept != "" {
			err = errors.Join(err, moveAll(d, kept, name))
		}
		return a, "", err
	}
	settle(dir)
	return a, kept, nil
}

// setAside gives a store another name, together with its log. The log is folded
// into the file first where that can be done: one name is then all there is
// to change.
func (d disk) setAside(ctx context.Context, name string, now time.Time) (string, error) {
	if _, err := os.Stat(name); errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if db, err := connect(name, 1); err == nil {
		db.ExecContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`) // one that is damaged stays in two files
		db.Close()
	}
	kept := filepath.Join(filepath.Dir(name), "jobs-before-"+now.UTC().Format("20060102-150405")+".db")
	if _, err := os.Lstat(kept); !errors.Is(err, fs.ErrNotExist) {
		return "", errors.Join(fmt.Errorf("%s: %w", kept, fs.ErrExist), err)
	}
	return kept, moveAll(d, name, kept)
}

// moveAll renames a file and its log; when one fails, what was renamed goes
// back.
func moveAll(d disk, from, to string) error {
	var done []string
	for _, end := range []string{"", "-wal", "-shm"} {
		if _, err := os.Lstat(from + end); errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err := d.rename(from+end, to+end); err != nil {
			for _, e := range done {
				err = errors.Join(err, os.Rename(to+e, from+e))
			}
			return err
		}
		done = append(done, end)
	}
	return nil
}
