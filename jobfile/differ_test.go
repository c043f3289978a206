package jobfile_test

import (
	"slices"
	"strings"
	"testing"

	"bowerwright/jobfile"
)

func TestDiffer(t *testing.T) {
	for _, c := range []struct{ name, old, new, want string }{
		{"nothing", "A:", "A:", ""},
		{"a comment", "# first", "# foremost", ""},
		{"order and room", "flats: 18", "flats:   18", ""},
		{"a line", "flats: 18", "flats: 19", "frames.big.flats"},
		{"a line of the layout", "A: big at 0, 0", "A: big at 1, 0", "layout.A"},
		{"a row", "R1..R3: odd side 1", "R1..R3: odd side 2", "layout.R1 layout.R1..R3 layout.R2 layout.R3"},
		{"an item", "A, B1 as D1, D2", "A, B1 as D3, D2", "copies[0]"},
		{"more", "name: Small\n", "name: Small\nfor: Ida\n", "for"},
		{"a group", "fixing:\n  hooks:\n    B1 side 3: 1 tie\n", "", "fixing fixing.hooks fixing.hooks.B1 side 3"},
		{"what cannot be read", "name: Small", "name: [", ""},
	} {
		other := strings.Replace(moveJob, c.old, c.new, 1)
		got := jobfile.Differ([]byte(moveJob), []byte(other))
		if back := jobfile.Differ([]byte(other), []byte(moveJob)); !slices.Equal(got, back) {
			t.Errorf("%s: %q one way, %q the other", c.name, got, back)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		if c.name == "what cannot be read" && len(got) != 1 {
			t.Errorf("%s: %q", c.name, got)
		}
	}
}

func TestClash(t *testing.T) {
	for _, c := range []struct {
		mine, theirs string
		want         bool
	}{
		{"frames.big.flats", "frames.big.flats", true},
		{"frames.big.flats", "frames.big.title", false},
		{"frames.big", "frames.big.title", true},
		{"frames.big.flats", "frames.big", true},
		{"frames.big", "frames.bigger", false},
		{"copies", "copies[2]", true},
		{"layout.A", "layout.B", false},
		{"layout.A", "", true},
	} {
		if path, got := jobfile.Clash([]string{"other", c.mine}, []string{c.theirs}); got != c.want || got && c.theirs != "" && path != c.mine {
			t.Errorf("%s and %s: %q, %v", c.mine, c.theirs, path, got)
		}
	}
	if _, clash := jobfile.Clash([]string{"a"}, nil); clash {
		t.Error("a clash with nothing")
	}
}

func TestAt(t *testing.T) {
	for path, want := range map[string]string{"name": "Small", "layout.A": "big at 0, 0", "copies[0]": "A, B1 as D1, D2, moved by 100, 0", "frames.none": "", "fixing.hooks": "B1 side 3: 1 tie"} {
		if got := jobfile.At([]byte(moveJob), path); got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
}
