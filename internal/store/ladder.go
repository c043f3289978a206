package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/pressly/goose/v3"
	sqlite3 "modernc.org/sqlite/lib"
)

// applicationID stands in the header of every store: "Bwrt". It is set by the
// first step.
const applicationID = 0x42777274

//go:embed steps/*.sql
var stepFiles embed.FS

// A ladder is the steps from an empty file to what this program writes.
type ladder struct{ files fs.FS }

func steps() ladder {
	sub, err := fs.Sub(stepFiles, "steps")
	if err != nil {
		panic(err) // the folder is embedded
	}
	return ladder{sub}
}

// top is the version that this program writes: the number of steps.
func (l ladder) top() int64 {
	names, _ := fs.Glob(l.files, "*.sql")
	return int64(len(names))
}

// version is that of a file: 0 for an empty one. A file that is no store is
// ErrForeign, one with steps that this program does not know ErrNewer.
func (l ladder) version(ctx context.Context, db *sql.DB) (v int64, err error) {
	var tables, id int64
	err = db.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_schema`).Scan(&tables)
	if code(err) == sqlite3.SQLITE_NOTADB {
		return 0, ErrForeign
	}
	if err != nil || tables == 0 {
		return 0, err
	}
	if err := db.QueryRowContext(ctx, `PRAGMA application_id`).Scan(&id); err != nil {
		return 0, err
	}
	var began bool // a first start that ended between the two
	if err := db.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM sqlite_schema WHERE name = 'goose_db_version')`).Scan(&began); err != nil {
		return 0, err
	}
	if id != applicationID && !(id == 0 && began) || !began {
		return 0, ErrForeign
	}
	err = db.QueryRowContext(ctx, `SELECT coalesce(max(version_id), 0) FROM goose_db_version WHERE is_applied`).Scan(&v)
	if err == nil && v > l.top() {
		return v, fmt.Errorf("%w: it is of version %d, this program reads up to %d", ErrNewer, v, l.top())
	}
	return v, err
}

// forward takes the steps that are missing. Before that it keeps a copy of what
// was there.
func (l ladder) forward(ctx context.Context, db *sql.DB, name string, d disk) error {
	v, err := l.version(ctx, db)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if v == l.top() {
		return nil
	}
	if v > 0 {
		kept := strings.TrimSuffix(name, filepath.Ext(name)) + fmt.Sprintf("-version-%d.db", v)
		if err := l.copyOut(ctx, db, kept, d); err != nil {
			return fmt.Errorf("a copy could not be kept, and the store was left as it is: %w", err)
		}
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, db, l.files, goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return err
	}
	if _, err := p.Up(ctx); err != nil {
		return fmt.Errorf("%s could not be moved forward from version %d: %w", name, v, errors.Join(plain(err)))
	}
	return nil
}
