package check

import (
	"strconv"
	"strings"
	"testing"
)

// pair is two frames with feet and one joint of two screws; it is reached from
// behind lying or standing, unless a third frame is there.
func pair() Assembly {
	return Assembly{
		Frames: 3, Foot: []bool{true, true, false}, Units: [][]int{{0}, {1}}, Ballast: true,
		Joints: []Joint{{A: 0, B: 1, Screws: 2, Reach: []Reach{{Standing: true, Lying: true, Blocks: []int{2}}}}},
	}
}

// script reads steps: "put 0; drive; on 0; go". A drive or undo is of joint 0
// with its two screws.
func script(text string) []Step {
	words := map[string]string{"put": "put up and hold", "lay": "lay down", "tilt": "tilt up and hold", "on": "ballast on", "off": "ballast off",
		"go": "let go", "take": "take off"}
	var steps []Step
	for _, line := range strings.Split(text, "; ") {
		parts := strings.Fields(line)
		s := Step{Do: parts[0]}
		if w, ok := words[s.Do]; ok {
			s.Do = w
		}
		for _, p := range parts[1:] {
			f, _ := strconv.Atoi(p)
			s.Frames = append(s.Frames, f)
		}
		if s.Do == "drive" || s.Do == "undo" {
			s.Seams, s.From, s.Screws = []int{0}, []int{0}, 2
		}
		steps = append(steps, s)
	}
	return steps
}

const (
	built  = "put 0; on 0; go; put 1; drive; go"
	tilted = "lay 0; lay 1; drive; tilt 0 1; on; go"
	struck = "undress; hold 1; undo; take 1; hold 0; take 0; off; sweep"
	down   = "undress; hold 0 1; off; lower 0 1; undo; take 1; take 0; sweep"
)

func TestReplay(t *testing.T) {
	tilts := func(j *Assembly) { j.Tilts = true }
	for _, c := range []struct {
		name, steps, want string
		change            func(*Assembly)
	}{
		{"built up", built, "", nil},
		{"tilted up", tilted, "", tilts},
		{"struck", struck, "", nil},
		{"let down", down, "", tilts},
		{"left lying", "lay 0; lay 1; drive", "", func(j *Assembly) { j.Stays, j.Ballast = true, false }},

		{"let go without ballast", "put 0; go; on 0; put 1; drive; go", "the ballast is not on", nil},
		{"no ballast at all", "put 0; put 1; drive; go", "the ballast is not on", nil},
		{"ballast twice", "put 0; on; on; go; put 1; drive; go", "none to move", nil},
		{"ballast nobody has", built, "none to move", func(j *Assembly) { j.Ballast = false }},
		{"not let go", "put 0; on; go; put 1; drive", "still held", nil},
		{"a unit left out", "put 0; on; go", "not in place", nil},
		{"a seam left open", "put 0; on; go; put 1; go", "seam 0 is open", nil},
		{"a seam driven before its frame", "put 0; drive", "not open to it", nil},
		{"driven twice", "put 0; on; put 1; drive; drive", "not open to it", nil},
		{"nobody holds", "put 0; put 1; on; go; drive", "nobody holds", nil},
		{"no foot", built, "stands on nothing", func(j *Assembly) { j.Foot[0] = false }},
		{"a foot through the other", built, "", func(j *Assembly) { j.Foot[1] = false }},
		{"not reached standing", built, "not reached", func(j *Assembly) { j.Joints[0].Reach[0].Standing = false }},
		{"not reached lying", tilted, "not reached", func(j *Assembly) { j.Tilts = true; j.Joints[0].Reach[0].Lying = false }},
		{"in the way", "put 2; put 0; put 1; drive", "not reached", func(j *Assembly) { j.Units = append(j.Units, []int{2}) }},
		{"its own frame is not in the way", built, "", func(j *Assembly) { j.Joints[0].Reach[0].Blocks = []int{0, 1} }},
		{"no such reach", built, "not reached", func(j *Assembly) { j.Joints[0].Reach = nil }},
		{"inside a unit", built, "not a unit", func(j *Assembly) { j.Units = [][]int{{0, 1}} }},
		{"put twice", "put 0; put 0", "there already", nil},
		{"laid where it stands", "lay 0", "not so", nil},
		{"goes over", built, "does not stay up", func(j *Assembly) { j.Stands = func(fs []int) bool { return len(fs) < 2 } }},

		{"tilted before it is joined", "lay 0; lay 1; tilt 0 1", "not joined", tilts},
		{"tilted in part", "lay 0; lay 1; drive; tilt 0", "not all of it", tilts},
		{"never tilted", "lay 0; lay 1; drive", "does not stand", tilts},

		{"screws out before undressing", "undress; hold 1", "not finished", nil},
		{"not held", "undress; undo", "nobody holds", nil},
		{"taken with its screws in", "undress; hold 1; take 1", "still closed", nil},
		{"taken without hands", "undress; hold 1; undo; take 0", "not held", nil},
		{"ballast first", "undress; hold 1; off", "stands without hands", nil},
		{"ballast stays", "undress; hold 1; undo; take 1; hold 0; take 0; sweep", "not finished", nil},
		{"not swept", "undress; hold 1; undo; take 1; hold 0; take 0; off", "not finished", nil},
		{"swept too early", "undress; hold 1; undo; take 1; hold 0; take 0; sweep; off", "not finished", nil},
		{"let down with ballast on", "undress; hold 0 1; lower 0 1", "not with ballast on", tilts},
		{"let down unheld", "undress; hold 0 1; off; go", "the ballast is not on", tilts},
		{"what is left has no foot", struck, "stands on nothing", func(j *Assembly) { j.Foot[0] = false }},
		{"driven in a strike", "undress; hold 1; drive", "not now", nil},
		{"put up in a strike", "undress; put 1", "not so", nil},
		{"no such doing", "put 0; paint 0", "no such doing", nil},
	} {
		j := pair()
		if c.change != nil {
			c.change(&j)
		}
		j.Steps = script(c.steps)
		wants(t, c.name, c.want, j.Replay())
	}
	if pair().Replay() == nil {
		t.Error("no steps passed")
	}
	j := pair()
	j.Steps = script(built)
	j.Steps[4].Screws = 3
	wants(t, "a screw too many", "2 screws, not 3", j.Replay())
}
