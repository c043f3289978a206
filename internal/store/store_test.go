package store

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"testing/fstest"
	"time"

	"bowerwright/internal/jobs"
	"bowerwright/internal/jobs/jobstest"
)

var ctx = context.Background()

// clock gives moments a second apart, so that orders by time are those of the
// calls.
func clock() func() time.Time {
	at := time.Date(2027, 5, 22, 9, 0, 0, 0, time.UTC)
	return func() time.Time { at = at.Add(time.Second); return at }
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func opened(t *testing.T, dir string) *Store {
	t.Helper()
	s, err := Open(ctx, dir, func() time.Time { return time.Unix(1_800_000_000, 0) })
	must(t, err)
	t.Cleanup(func() { s.Close() })
	return s
}

func one(text string) jobs.Change {
	return jobs.Change{Text: []byte(text), Say: "a change", Window: "w"}
}

// sample opens a store with two jobs and three revisions.
func sample(t *testing.T, dir string) (*Store, jobs.Job) {
	t.Helper()
	s := opened(t, dir)
	_, err := s.New(ctx, one("other"))
	must(t, err)
	j, err := s.New(ctx, one("first"))
	must(t, err)
	j, err = s.Change(ctx, j.ID, 1, one("second"))
	must(t, err)
	return s, j
}

func TestStoreIsWhatJobsPromise(t *testing.T) {
	jobstest.Run(t, func(t *testing.T) jobs.Store { return opened(t, t.TempDir()) })
}

func TestAllListsTheLastChangedFirst(t *testing.T) {
	s, err := Open(ctx, t.TempDir(), clock())
	must(t, err)
	defer s.Close()
	a, err := s.New(ctx, one("a"))
	must(t, err)
	b, err := s.New(ctx, one("b"))
	must(t, err)
	all, err := s.All(ctx)
	must(t, err)
	if len(all) != 2 || all[0].ID != b.ID {
		t.Errorf("after two new ones: %+v", all)
	}
	_, err = s.Change(ctx, a.ID, 1, one("a2"))
	must(t, err)
	if all, _ = s.All(ctx); all[0].ID != a.ID || !all[0].Changed.After(all[1].Changed) {
		t.Errorf("after a change of the first: %+v", all)
	}
}

// Undoing works from one day to the next, in a folder of any name.
func TestEverythingIsThereAfterOpeningAgain(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "Ida's jobs 100 % #1")
	s, j := sample(t, dir)
	must(t, s.SetState(ctx, j.ID, "made"))
	_, err := s.Back(ctx, j.ID, 2)
	must(t, err)
	must(t, s.Close())
	s = opened(t, dir)
	j, err = s.Forward(ctx, j.ID, 1)
	must(t, err)
	r, err := s.Revision(ctx, j.ID, j.Head)
	must(t, err)
	if string(r.Text) != "second" || j.State != "made" {
		t.Errorf("%+v with %q", j, r.Text)
	}
}

func TestFolderHasOneUser(t *testing.T) {
	dir := t.TempDir()
	s := opened(t, dir)
	if _, err := Open(ctx, dir, clock()); !errors.Is(err, ErrInUse) {
		t.Fatalf("a second one: %v", err)
	}
	must(t, s.Close())
	opened(t, dir)
}

func TestFilesAreTheOwnersAlone(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no such modes")
	}
	dir := filepath.Join(t.TempDir(), "jobs")
	must(t, os.MkdirAll(dir, 0o755))
	must(t, os.WriteFile(filepath.Join(dir, fileName), nil, 0o644)) // somebody made it beforehand
	sample(t, dir)
	names, err := os.ReadDir(dir)
	must(t, err)
	for _, n := range names {
		if i, _ := n.Info(); i.Mode().Perm() != 0o600 {
			t.Errorf("%s has mode %v", n.Name(), i.Mode())
		}
	}
	if len(names) < 3 {
		t.Errorf("only %v: the log is not looked at", names)
	}
}

func TestWhatIsNoStoreIsLeftAlone(t *testing.T) {
	for name, make := range map[string]func(t *testing.T, name string){
		"a text": func(t *testing.T, name string) {
			must(t, os.WriteFile(name, []byte("this is a letter, and longer than a header of a hundred bytes, so that it is looked at as a whole file is."), 0o600))
		},
		"another's database": func(t *testing.T, name string) {
			db, err := connect(name, 1)
			must(t, err)
			_, err = db.Exec(`CREATE TABLE letters (text TEXT)`)
			must(t, errors.Join(err, db.Close()))
		},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			file := filepath.Join(dir, fileName)
			make(t, file)
			before, err := os.ReadFile(file)
			must(t, err)
			if _, err := Open(ctx, dir, clock()); !errors.Is(err, ErrForeign) {
				t.Errorf("opened: %v", err)
			}
			if after, _ := os.ReadFile(file); string(after) != string(before) {
				t.Error("it was changed")
			}
			if _, _, err := Restore(ctx, file, t.TempDir(), clock()); !errors.Is(err, ErrForeign) {
				t.Errorf("restored: %v", err)
			}
		})
	}
}

// more is a ladder with a step that this program does not know.
func more(t *testing.T) ladder {
	files := fstest.MapFS{"00003_next.sql": {Data: []byte("-- +goose Up\nCREATE TABLE next (a INTEGER) STRICT;\n")}}
	for _, name := range []string{"00001_jobs.sql", "00002_sign_in.sql"} {
		data, err := fs.ReadFile(steps().files, name)
		must(t, err)
		files[name] = &fstest.MapFile{Data: data}
	}
	if steps().top() != 2 {
		t.Fatal("there are more steps now: list them here")
	}
	return ladder{files}
}

func TestNewerStoreIsRefusedAndLeftAlone(t *testing.T) {
	dir := t.TempDir()
	s, err := open(ctx, dir, clock(), more(t), system)
	must(t, err)
	must(t, s.Close())
	before, err := os.ReadFile(filepath.Join(dir, fileName))
	must(t, err)
	if _, err := Open(ctx, dir, clock()); !errors.Is(err, ErrNewer) {
		t.Errorf("opened: %v", err)
	}
	if _, err := Backup(ctx, dir, filepath.Join(t.TempDir(), "b.db")); !errors.Is(err, ErrNewer) {
		t.Errorf("backed up: %v", err)
	}
	if _, _, err := Restore(ctx, filepath.Join(dir, fileName), t.TempDir(), clock()); !errors.Is(err, ErrNewer) {
		t.Errorf("restored: %v", err)
	}
	if after, _ := os.ReadFile(filepath.Join(dir, fileName)); string(after) != string(before) {
		t.Error("it was changed")
	}
}

func TestOlderStoreMovesForwardAndACopyIsKept(t *testing.T) {
	dir := t.TempDir()
	s, j := sample(t, dir)
	must(t, s.Close())
	s, err := open(ctx, dir, clock(), more(t), system)
	must(t, err)
	r, err := s.Revision(ctx, j.ID, 2)
	must(t, err)
	if string(r.Text) != "second" {
		t.Errorf("after the step it is %q", r.Text)
	}
	must(t, s.Close())
	a, err := look(ctx, filepath.Join(dir, "jobs-version-2.db"))
	if err != nil || a != (Account{2, 2, 3}) {
		t.Errorf("the copy holds %+v, %v", a, err)
	}
}

func TestAStepThatFailsLeavesTheOldStore(t *testing.T) {
	l := more(t)
	l.files.(fstest.MapFS)["00003_next.sql"].Data = []byte("-- +goose Up\nDELETE FROM revisions;\nDELETE FROM jobs;\nCREATE TABLE jobs (a INTEGER);\n")
	full := system
	full.rename = func(string, string) error { return errors.New("no such luck") }
	for name, d := range map[string]disk{"the step fails": system, "the copy fails": full} {
		dir := t.TempDir()
		s, j := sample(t, dir)
		must(t, s.Close())
		if _, err := open(ctx, dir, clock(), l, d); err == nil {
			t.Fatalf("%s: no error", name)
		}
		s = opened(t, dir)
		if r, err := s.Revision(ctx, j.ID, 2); err != nil || string(r.Text) != "second" {
			t.Errorf("%s: %q, %v", name, r.Text, err)
		}
	}
}

func TestSignIn(t *testing.T) {
	now := time.Unix(1_800_000_000, 0)
	s, err := Open(ctx, t.TempDir(), func() time.Time { return now })
	must(t, err)
	defer s.Close()
	there := func(n byte) bool {
		ok, err := s.Session(ctx, [32]byte{n})
		must(t, err)
		return ok
	}
	if hash, err := s.Secret(ctx); err != nil || hash != "" {
		t.Fatalf("%q, %v", hash, err)
	}
	must(t, s.SetSecret(ctx, "one"))
	must(t, s.AddSession(ctx, [32]byte{1}, now.Add(time.Hour)))
	must(t, s.AddSession(ctx, [32]byte{2}, now.Add(2*time.Hour)))
	if !there(1) || !there(2) || there(3) {
		t.Error("who is there is not who signed in")
	}
	must(t, s.EndSession(ctx, [32]byte{2}))
	if there(2) {
		t.Error("signed out and still there")
	}
	now = now.Add(time.Hour)
	if there(1) {
		t.Error("a session outlives its end")
	}
	must(t, s.AddSession(ctx, [32]byte{4}, now.Add(time.Hour)))
	must(t, s.SetSecret(ctx, "two"))
	if hash, _ := s.Secret(ctx); hash != "two" || there(4) {
		t.Errorf("after a new passphrase: %q, old session there: %v", hash, there(4))
	}
}
