package check

import (
	"strings"
	"testing"
)

// row is four frames in a row, joined with two screws each, a kilogram each,
// at most two to a section.
func row() Problem {
	return Problem{
		Frames: 4, Mass: []float64{1, 1, 1, 1}, Grain: 1e-6,
		Seams: []Seam{{A: 0, B: 1, Screws: 2}, {A: 1, B: 2, Screws: 2}, {A: 2, B: 3, Screws: 2}},
		Pass:  func(fs []int) bool { return fs[len(fs)-1]-fs[0] < 2 },
	}
}

func wants(t *testing.T, name, want string, err error) {
	t.Helper()
	switch {
	case want == "" && err != nil:
		t.Errorf("%s: %v", name, err)
	case want != "" && (err == nil || !strings.Contains(err.Error(), want)):
		t.Errorf("%s: %v, want %q", name, err, want)
	}
}

func TestSections(t *testing.T) {
	halves := [][]int{{0, 1}, {2, 3}}
	for _, c := range []struct {
		name, want string
		change     func(*Problem)
		sections   [][]int
		site       []int
		screws     int
	}{
		{"two halves", "", nil, halves, []int{1}, 2},
		{"a frame twice", "frame 1 is in two", nil, [][]int{{0, 1}, {1, 2}, {3}}, []int{1}, 2},
		{"no such frame", "frame 4", nil, [][]int{{0, 1}, {2, 3}, {4}}, []int{1}, 2},
		{"a frame nowhere", "frame 3 is in no section", nil, [][]int{{0, 1}, {2}}, []int{1, 2}, 4},
		{"an empty one", "empty", nil, [][]int{{0, 1}, {2, 3}, {}}, []int{1}, 2},
		{"out of order", "out of order", nil, [][]int{{1, 0}, {2, 3}}, []int{1}, 2},
		{"does not pass", "over a limit", nil, [][]int{{0, 1, 2}, {3}}, []int{2}, 2},
		{"too heavy", "over a limit", func(p *Problem) { p.MassLimit = 1.5 }, halves, []int{1}, 2},
		{"in two pieces", "not in one piece", func(p *Problem) { p.Pass = nil }, [][]int{{0, 3}, {1, 2}}, []int{0, 2}, 4},
		{"does not bear", "does not bear", func(p *Problem) { p.Bear = func(fs []int) bool { return fs[0] > 0 } }, halves, []int{1}, 2},
		{"parted against a wish", "kept together", func(p *Problem) { p.Together = [][2]int{{1, 2}} }, halves, []int{1}, 2},
		{"joined against a wish", "over a limit", func(p *Problem) { p.Apart = [][2]int{{3, 2}} }, halves, []int{1}, 2},
		{"a seam of the shop", "closed in the shop", func(p *Problem) { p.Seams[1].Shop = true }, halves, []int{1}, 2},
		{"a seam not counted", "wrongly counted", nil, halves, nil, 0},
		{"a seam too many", "wrongly counted", nil, halves, []int{0, 1}, 4},
		{"a screw too many", "miscounted", nil, halves, []int{1}, 3},
	} {
		p := row()
		if c.change != nil {
			c.change(&p)
		}
		wants(t, c.name, c.want, p.Sections(c.sections, c.site, c.screws))
	}
}

func TestRefutation(t *testing.T) {
	single := [][]int{{0}, {1}, {2}, {3}}
	for _, c := range []struct {
		name, want string
		change     func(*Problem)
		most       int
		units      [][]int
		tree       []int
	}{
		// 0 alone is begun; 2 with it does not pass.
		{"one is too few", "", nil, 1, single, []int{0, 2, -1}},
		{"two is not", "nothing stands against", nil, 2, single, []int{0, 2, -1, -1}},
		{"by mass at once", "", func(p *Problem) { p.MassLimit = 1.5 }, 2, single, []int{-1}},
		{"by mass, to the grain", "nothing stands against", func(p *Problem) { p.MassLimit = 2 }, 2, single, []int{-1}},
		{"cut off", "", func(p *Problem) { p.Pass = func(fs []int) bool { return len(fs) < 3 } }, 1, single, []int{0, 3, -1}},
		{"not cut off", "nothing stands against", func(p *Problem) { p.Pass = nil }, 1, single, []int{0, 3, -1}},
		{"apart", "", func(p *Problem) { p.Pass, p.Apart = nil, [][2]int{{3, 0}} }, 1, single, []int{0, 3, -1}},
		{"grown out and not bearing", "", func(p *Problem) {
			p.Bear = func(fs []int) bool { return len(fs) != 2 }
		}, 2, single, []int{0, 1, -1, 2, -1, -1}},
		{"bearing", "nothing stands against", func(p *Problem) { p.Bear = func(fs []int) bool { return true } }, 2, single, []int{0, 1, -1, -1}},
		{"can still grow", "nothing stands against", func(p *Problem) { p.Bear = func(fs []int) bool { return false } }, 2, single, []int{0, -1}},
		{"breaks off", "breaks off", nil, 1, single, []int{0, 2}},
		{"goes on", "goes on", nil, 1, single, []int{0, 2, -1, -1}},
		{"a unit twice", "unit 0 cannot be placed", nil, 2, single, []int{0, 0, -1, -1}},
		{"no such unit", "unit 7 cannot be placed", nil, 2, single, []int{7, -1}},
		{"units that could be parted", "could be parted", nil, 1, [][]int{{0, 1}, {2}, {3}}, []int{0, 1, -1}},
		{"units of the shop", "", func(p *Problem) { p.Seams[0].Shop = true }, 1, [][]int{{0, 1}, {2}, {3}}, []int{0, 1, -1}},
		{"units by wish", "", func(p *Problem) { p.Together = [][2]int{{0, 1}} }, 1, [][]int{{0, 1}, {2}, {3}}, []int{0, 1, -1}},
		{"a frame in no unit", "frame 3 is in 0 units", nil, 1, [][]int{{0}, {1}, {2}}, []int{0, 2, -1}},
		{"an empty unit", "could be parted", nil, 1, [][]int{{0}, {1}, {2}, {3}, {}}, []int{0, 2, -1}},
		{"a frame in two units", "frame 3 is in 2 units", nil, 1, [][]int{{0}, {1}, {2}, {3}, {3}}, []int{0, 2, -1}},
	} {
		p := row()
		if c.change != nil {
			c.change(&p)
		}
		wants(t, c.name, c.want, p.Refutation(c.most, c.units, c.tree))
	}
}
