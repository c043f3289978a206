package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync/atomic"
	"syscall"
	"testing"

	"bowerwright/internal/jobs"
)

// names lists what a folder holds.
func names(t *testing.T, dir string) []string {
	t.Helper()
	list, err := os.ReadDir(dir)
	must(t, err)
	var out []string
	for _, e := range list {
		out = append(out, e.Name())
	}
	return out
}

// A backup is taken between any two changes of a store in use, and holds every
// change that was acknowledged before it began.
func TestBackupWhileInUse(t *testing.T) {
	dir := t.TempDir()
	s, j := sample(t, dir)
	var saved atomic.Int64
	done := make(chan error)
	stop := make(chan bool)
	go func() {
		head := j.Head
		for {
			select {
			case <-stop:
				done <- nil
				return
			default:
			}
			now, err := s.Change(ctx, j.ID, head, one(fmt.Sprint("text ", head+1)))
			if err != nil {
				done <- err
				return
			}
			head = now.Head
			saved.Store(int64(head))
		}
	}()
	for i := range 5 {
		before := saved.Load()
		to := filepath.Join(t.TempDir(), fmt.Sprint(i, ".db"))
		a, err := Backup(ctx, dir, to)
		must(t, err)
		if int64(a.Revisions) < before+1 || a.Jobs != 2 || a.Version != steps().top() { // one of the other job
			t.Errorf("%d revisions were acknowledged, the backup holds %+v", before, a)
		}
		into := t.TempDir()
		if _, kept, err := Restore(ctx, to, into, clock()); err != nil || kept != "" {
			t.Fatalf("%q, %v", kept, err)
		}
		restored := opened(t, into)
		now, err := restored.Job(ctx, j.ID)
		must(t, err)
		if r, err := restored.Revision(ctx, j.ID, now.Head); err != nil || now.Head > 2 && string(r.Text) != fmt.Sprint("text ", now.Head) {
			t.Errorf("head %d is %q, %v", now.Head, r.Text, err)
		}
	}
	close(stop)
	must(t, <-done)
}

func TestBackupRefusesAFileThatIsThere(t *testing.T) {
	dir := t.TempDir()
	sample(t, dir)
	to := filepath.Join(t.TempDir(), "letter.txt")
	must(t, os.WriteFile(to, []byte("dear"), 0o600))
	if _, err := Backup(ctx, dir, to); !errors.Is(err, fs.ErrExist) {
		t.Errorf("%v", err)
	}
	if b, _ := os.ReadFile(to); string(b) != "dear" {
		t.Error("the file was overwritten")
	}
	if _, err := Backup(ctx, t.TempDir(), filepath.Join(t.TempDir(), "b")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("of an empty folder: %v", err)
	}
}

func TestRestoreKeepsWhatWasThere(t *testing.T) {
	from := t.TempDir()
	sample(t, from)
	to := filepath.Join(t.TempDir(), "b.db")
	_, err := Backup(ctx, from, to)
	must(t, err)
	dir := t.TempDir()
	s := opened(t, dir)
	j, err := s.New(ctx, one("mine"))
	must(t, err)
	if _, _, err := Restore(ctx, to, dir, clock()); !errors.Is(err, ErrInUse) {
		t.Fatalf("while in use: %v", err)
	}
	must(t, s.Close())
	a, kept, err := Restore(ctx, to, dir, clock())
	if err != nil || a.Jobs != 2 {
		t.Fatalf("%+v, %v", a, err)
	}
	if was, err := look(ctx, kept); err != nil || was.Jobs != 1 {
		t.Errorf("kept: %+v, %v", was, err)
	}
	if _, err := opened(t, dir).Job(ctx, j.ID); !errors.Is(err, jobs.ErrNone) {
		t.Errorf("the old job is in the restored store: %v", err)
	}
}

// A store that is damaged is what a backup is for: it is set aside all the
// same.
func TestRestoreOverADamagedStore(t *testing.T) {
	from := t.TempDir()
	sample(t, from)
	to := filepath.Join(t.TempDir(), "b.db")
	_, err := Backup(ctx, from, to)
	must(t, err)
	dir := t.TempDir()
	must(t, os.WriteFile(filepath.Join(dir, fileName), []byte("rubbish"), 0o600))
	must(t, os.WriteFile(filepath.Join(dir, fileName+"-wal"), []byte("more of it"), 0o600))
	_, kept, err := Restore(ctx, to, dir, clock())
	must(t, err)
	if b, _ := os.ReadFile(kept); string(b) != "rubbish" {
		t.Errorf("kept is %q", b)
	}
	opened(t, dir)
}

func TestDamagedBackupIsRefused(t *testing.T) {
	from := t.TempDir()
	sample(t, from)
	good := filepath.Join(t.TempDir(), "b.db")
	_, err := Backup(ctx, from, good)
	must(t, err)
	data, err := os.ReadFile(good)
	must(t, err)
	for name, spoil := range map[string]func([]byte) []byte{
		"cut short": func(b []byte) []byte { return b[:len(b)/2] },
		"a page of ones": func(b []byte) []byte {
			return append(slices.Concat(b[:4096], slices.Repeat([]byte{1}, 4096)), b[8192:]...)
		},
		"empty": func([]byte) []byte { return nil },
	} {
		bad := filepath.Join(t.TempDir(), "bad.db")
		must(t, os.WriteFile(bad, spoil(slices.Clone(data)), 0o600))
		dir := t.TempDir()
		if _, _, err := Restore(ctx, bad, dir, clock()); err == nil {
			t.Errorf("%s: restored", name)
		}
		if left := names(t, dir); len(left) > 0 {
			t.Errorf("%s: left %v", name, left)
		}
	}
	db, err := connect(good, 1)
	must(t, err)
	for _, q := range []string{`PRAGMA foreign_keys = 0`, `PRAGMA journal_mode = DELETE`, `UPDATE jobs SET head = 99`} {
		_, err := db.Exec(q)
		must(t, err)
	}
	must(t, db.Close())
	if _, _, err := Restore(ctx, good, t.TempDir(), clock()); !errors.Is(err, ErrDamaged) {
		t.Errorf("a head that is not there: %v", err)
	}
}

// A fullDisk takes so many bytes and no more.
type fullDisk struct {
	file
	room int
}

func (f *fullDisk) Write(p []byte) (int, error) {
	if len(p) > f.room {
		n, _ := f.file.Write(p[:f.room])
		f.room = 0
		return n, syscall.ENOSPC
	}
	f.room -= len(p)
	return f.file.Write(p)
}

// faults are disks that fail in every way and at every step that a restore has.
func faults() map[string]disk {
	out := map[string]disk{}
	for _, room := range []int{0, 1, 4096, 10_000} {
		d := system
		d.create = func(name string) (file, error) {
			f, err := system.create(name)
			return &fullDisk{f, room}, err
		}
		out[fmt.Sprint("full after ", room)] = d
	}
	for step := range 2 {
		d, n := system, 0
		d.rename = func(from, to string) error {
			if n++; n == step+1 {
				return syscall.EIO
			}
			return os.Rename(from, to)
		}
		out[fmt.Sprint("rename ", step+1, " fails")] = d
	}
	return out
}

func TestRestoreThatFailsChangesNothing(t *testing.T) {
	from := t.TempDir()
	sample(t, from)
	backup := filepath.Join(t.TempDir(), "b.db")
	_, err := Backup(ctx, from, backup)
	must(t, err)
	for name, d := range faults() {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			s := opened(t, dir)
			j, err := s.New(ctx, one("mine"))
			must(t, err)
			must(t, s.Close())
			before := names(t, dir)
			if _, _, err := restore(ctx, backup, dir, clock(), d); err == nil {
				t.Fatal("no error")
			}
			if after := names(t, dir); !slices.Equal(after, before) {
				t.Errorf("left behind: %v, was %v", after, before)
			}
			if _, err := opened(t, dir).Job(ctx, j.ID); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestBackupThatFailsLeavesNothing(t *testing.T) {
	dir, into := t.TempDir(), t.TempDir()
	sample(t, dir)
	d := system
	d.rename = func(string, string) error { return syscall.EIO }
	if _, err := backup(ctx, dir, filepath.Join(into, "b.db"), d); !errors.Is(err, syscall.EIO) {
		t.Errorf("%v", err)
	}
	if left := names(t, into); len(left) > 0 {
		t.Errorf("left: %v", left)
	}
}

// A restore that the power took in the middle leaves a log without its file,
// which no new store may be put beside.
func TestLogWithoutItsFileIsRefused(t *testing.T) {
	dir := t.TempDir()
	must(t, os.WriteFile(filepath.Join(dir, fileName+"-wal"), []byte("x"), 0o600))
	if _, err := Open(ctx, dir, clock()); err == nil {
		t.Error("opened")
	}
}
