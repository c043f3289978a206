//go:build unix

package store

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"bowerwright/internal/jobs"
)

// roomFor makes a saver one whose files may not grow beyond so many bytes: for
// SQLite that is a disk that takes half a write and no more.
const roomFor = "BOWERWRIGHT_TEST_ROOM"

func saveIntoLittleRoom(dir string) int {
	s, err := Open(ctx, dir, time.Now)
	if err != nil {
		fmt.Println("open:", err)
		return 1
	}
	j, err := s.New(ctx, one(textFor(1)))
	if err != nil {
		fmt.Println("new:", err)
		return 1
	}
	var room uint64
	fmt.Sscan(os.Getenv(roomFor), &room)
	signal.Ignore(syscall.SIGXFSZ) // else the system ends the program
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: room, Max: room}); err != nil {
		fmt.Println("limit:", err)
		return 1
	}
	for n := 2; n < 1000; n++ {
		next, err := s.Change(ctx, j.ID, j.Head, one(textFor(n)))
		if errors.Is(err, jobs.ErrFull) {
			// It can still be read, and a second try fails in the same way.
			r, readErr := s.Revision(ctx, j.ID, j.Head)
			_, again := s.Change(ctx, j.ID, j.Head, one(textFor(n)))
			fmt.Println(j.ID, j.Head, readErr == nil && string(r.Text) == textFor(j.Head), errors.Is(again, jobs.ErrFull))
			return 0
		}
		if err != nil {
			fmt.Println("change:", err)
			return 1
		}
		j = next
	}
	fmt.Println("the disk was never full")
	return 1
}

func TestNothingAcknowledgedIsLostToAFullDisk(t *testing.T) {
	for _, room := range []int{120_000, 123_457, 400_000, 1_000_001} {
		dir := t.TempDir()
		saver := exec.Command(os.Args[0])
		saver.Env = append(os.Environ(), saverDir+"="+dir, fmt.Sprint(roomFor, "=", room))
		out, err := saver.Output()
		if err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		var id string
		var head int
		var read, again bool
		if _, err := fmt.Sscan(strings.TrimSpace(string(out)), &id, &head, &read, &again); err != nil || !read || !again {
			t.Fatalf("room %d: %s", room, out)
		}
		s := opened(t, dir) // there is room again
		j, err := s.Job(ctx, id)
		must(t, err)
		if j.Head != head || j.Last != head {
			t.Errorf("room %d: %d acknowledged, the store is at %+v", room, head, j)
		}
		_, err = s.Change(ctx, id, head, one(textFor(head+1)))
		must(t, err)
		must(t, s.Close())
		if _, err := look(ctx, filepath.Join(dir, fileName)); err != nil {
			t.Error(err)
		}
	}
}
