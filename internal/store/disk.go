package store

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
)

// A disk is what the package does with files beside what SQLite does itself.
// Tests put one in its place that is full or fails.
type disk struct {
	create func(name string) (file, error) // that is not there yet, mode 0600
	rename func(from, to string) error
}

type file interface {
	io.WriteCloser
	Sync() error
}

var system = disk{
	create: func(name string) (file, error) { return os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600) },
	rename: os.Rename,
}

// beside is a name in the folder of another that nobody has.
func beside(name string) (string, error) {
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return "", err
	}
	return f.Name(), errors.Join(f.Close(), os.Remove(f.Name()))
}

// copyFile copies a file whole or not at all.
func (d disk) copyFile(ctx context.Context, from, to string) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := d.create(to)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(to))
		}
	}()
	_, err = io.Copy(out, io.LimitReader(contextReader{ctx, in}, maxStore))
	return errors.Join(err, out.Sync(), out.Close())
}

// maxStore is the largest file that is taken for a store: a million revisions of
// a usual job.
const maxStore = 16 << 30

type contextReader struct {
	ctx context.Context
	r   io.Reader
}

func (c contextReader) Read(p []byte) (int, error) {
	if err := c.ctx.Err(); err != nil {
		return 0, err
	}
	return c.r.Read(p)
}

// settle makes sure that names of a folder stay what they are after a loss of
// power. Systems that cannot sync a folder keep their names by themselves.
func settle(dir string) {
	if f, err := os.Open(dir); err == nil {
		f.Sync()
		f.Close()
	}
}
