package store

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"bowerwright/internal/jobs"
)

// saverDir and saverJob, when set, make the test's own program one that saves
// until it is killed.
const (
	saverDir = "BOWERWRIGHT_TEST_SAVER_DIR"
	saverJob = "BOWERWRIGHT_TEST_SAVER_JOB"
)

func TestMain(m *testing.M) {
	switch {
	case os.Getenv(saverDir) == "":
		os.Exit(m.Run())
	case os.Getenv(roomFor) != "":
		os.Exit(saveIntoLittleRoom(os.Getenv(saverDir)))
	}
	if err := saveForEver(os.Getenv(saverDir), os.Getenv(saverJob)); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// textFor is what a saver saves as a revision: long enough for many pages of
// the file, and told from its number.
func textFor(number int) string { return strings.Repeat(fmt.Sprintf("revision %d\n", number), 1500) }

// saveForEver saves, undoes and redoes, and says on standard output what has
// been acknowledged: the head, then what the newest revision is.
func saveForEver(dir, id string) error {
	s, err := Open(ctx, dir, time.Now)
	if err != nil {
		return err
	}
	j, err := s.Job(ctx, id)
	for i := 0; err == nil; i++ {
		switch {
		case i%5 == 3 && j.BackTo > 0:
			j, err = s.Back(ctx, id, j.Head)
		case i%5 == 4 && j.ForwardTo > 0:
			j, err = s.Forward(ctx, id, j.Head)
		default:
			j, err = s.Change(ctx, id, j.Head, one(textFor(j.Last+1)))
		}
		if err == nil {
			fmt.Printf("%d %d\n", j.Head, j.Last)
		}
	}
	return err
}

// killed starts a saver, kills it after so many acknowledgements and a moment
// more, and gives the last that it made.
func killed(t testing.TB, dir, id string, acks int, wait time.Duration) (head, last int) {
	t.Helper()
	saver := exec.Command(os.Args[0])
	saver.Env = append(os.Environ(), saverDir+"="+dir, saverJob+"="+id)
	var says strings.Builder
	saver.Stderr = &says
	out, err := saver.StdoutPipe()
	if err == nil {
		err = saver.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(out)
	read := func() bool {
		_, err := fmt.Fscanf(lines, "%d %d\n", &head, &last)
		return err == nil
	}
	for n := 0; n < acks && read(); n++ {
	}
	time.Sleep(wait)
	saver.Process.Kill()
	for read() { // what it said before it was gone counts
	}
	io.Copy(io.Discard, out)
	saver.Wait()
	if says.Len() > 0 {
		t.Fatal(says.String())
	}
	return head, last
}

// killOften kills savers on one store and holds the store to what they
// acknowledged.
func killOften(t testing.TB, times int) {
	dir := t.TempDir()
	s, err := Open(ctx, dir, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	j, err := s.New(ctx, one(textFor(1)))
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(9, 200))
	for range times {
		head, last := killed(t, dir, j.ID, rng.IntN(4), time.Duration(rng.IntN(4000))*time.Microsecond)
		s, err := Open(ctx, dir, time.Now)
		if err != nil {
			t.Fatal(err)
		}
		j = acknowledged(t, s, j, head, last)
		s.Close()
	}
	if a, err := Backup(ctx, dir, t.TempDir()+"/b.db"); err != nil || a.Revisions != j.Last {
		t.Fatalf("the store in the end: %+v, %v; %d were there", a, err, j.Last)
	}
	t.Logf("%d revisions after %d kills", j.Last, times)
}

// acknowledged checks a store against the last that was acknowledged before a
// kill: at most one step more can have been kept, which nobody heard of.
func acknowledged(t testing.TB, s *Store, was jobs.Job, head, last int) jobs.Job {
	t.Helper()
	now, err := s.Job(ctx, was.ID)
	if err != nil {
		t.Fatal(err)
	}
	if last == 0 {
		head, last = was.Head, was.Last
	}
	heard := now.Last == last && now.Head == head
	stepped := now.Last == last && (now.ForwardTo == head || now.BackTo == head) // undone or redone
	changed := now.Last == last+1 && now.Head == now.Last && now.BackTo == head
	if !heard && !stepped && !changed {
		t.Fatalf("head %d of %d was acknowledged; the store is at %d of %d", head, last, now.Head, now.Last)
	}
	for n := max(1, was.Last); n <= now.Last; n++ {
		if r, err := s.Revision(ctx, was.ID, n); err != nil || string(r.Text) != textFor(n) {
			t.Fatalf("revision %d: %v", n, err)
		}
	}
	return now
}

func TestNothingAcknowledgedIsLostToAKill(t *testing.T) {
	times := 40
	switch {
	case os.Getenv("CI") == "true":
		times = 200
	case testing.Short():
		times = 10
	}
	killOften(t, times)
}

// One round is 1,000 kills.
func BenchmarkKilledWhileSaving(b *testing.B) {
	for b.Loop() {
		killOften(b, 1000)
	}
}

func BenchmarkChange(b *testing.B) {
	s, err := Open(ctx, b.TempDir(), time.Now)
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	j, err := s.New(ctx, one(textFor(1)))
	for b.Loop() {
		if err == nil {
			j, err = s.Change(ctx, j.ID, j.Head, one(textFor(2)))
		}
	}
	if err != nil {
		b.Fatal(err)
	}
}
