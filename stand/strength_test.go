package stand

import (
	"encoding/json"
	"os"
	"testing"
)

// worked are the figures of the worked seams, from a solver that shares no code
// with this one.
type worked struct {
	Plain struct {
		Hand  float64 `json:"T_hand"`
		V     float64
		Ratio float64
	} `json:"twoHex_af20_push5_noWeight"`
	Wall struct{ HeldAt1, HeldAt3 wall } `json:"wall7_af20_2screws"`
}

type wall struct {
	TopDeflection, T, V, Ratio, MitreSigma, MitreTau float64
}

func readWorked(t *testing.T) worked {
	t.Helper()
	text, err := os.ReadFile("../statics/testdata/seam-examples.json")
	if err != nil {
		t.Fatal(err)
	}
	var w worked
	if err := json.Unmarshal(text, &w); err != nil {
		t.Fatal(err)
	}
	return w
}

// share compares to within a share.
func share(t testing.TB, what string, got, wanted, tol float64) {
	t.Helper()
	want(t, what, got, wanted, tol*wanted)
}

// Two frames on each other, 5 lb at the top: by hand the screws are near their
// limit.
func TestTwoFrames(t *testing.T) {
	w := readWorked(t)
	l := comb(t, 20, [2]float64{0, 0}, [2]float64{0, 20})
	in := piece(l, fixedBy(l, pair...), 0).pushAt(5, 40)
	for i := range in.Frames {
		in.Frames[i].Mass = 0
	}
	d := reckon(t, in, strengthRules()).caseOf(t, "pushed backwards").of(t, SeamPart)
	share(t, "pull", pounds(d.Pull), w.Plain.Hand, 1e-3)
	share(t, "slide", pounds(d.Slide), w.Plain.V, 1e-4)
	share(t, "ratio", d.Plain, w.Plain.Ratio, 2e-3)
	share(t, "ratio for minutes", d.Ratio, w.Plain.Ratio/1.6, 2e-3)
	if d.Word != NearLimit || d.Seam != 1 {
		t.Errorf("%+v", d)
	}
}

// The flower of seven with 20 lb at its top, held at one frame or three; one
// screw, two or four.
func TestFlowerOfSeven(t *testing.T) {
	w := readWorked(t)
	l := comb(t, 20, flower(20)...)
	for _, c := range []struct {
		name           string
		screws         [][2]float64
		held           []int
		ratio, tol     float64
		corner, moving float64
	}{
		{"one held, two screws", pair, []int{1}, w.Wall.HeldAt1.Ratio, 0.005, 6.73, w.Wall.HeldAt1.TopDeflection},
		{"three held, two screws", pair, []int{1, 2, 6}, w.Wall.HeldAt3.Ratio, 0.005, 2.94, w.Wall.HeldAt3.TopDeflection},
		{"one held, four screws", four, []int{1}, 1.88, 0.01, 0, 5.7},
		{"one held, one screw", one, []int{1}, 8.02, 0.01, 0, 9.6},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := reckon(t, piece(l, fixedBy(l, c.screws...), c.held...).pushAt(20, 60), strengthRules())
			got := p.caseOf(t, "pushed backwards")
			d := got.of(t, SeamPart)
			share(t, "ratio", d.Plain, c.ratio, c.tol)
			if c.corner > 0 {
				share(t, "corner", got.of(t, CornerPart).Ratio, c.corner, 0.01)
			}
			share(t, "movement", got.Move/inch, c.moving, 0.02)
			if !(p.MoveMost > p.Move) || p.MoveMost > 2*p.Move {
				t.Errorf("moves %v, at the most %v", p.Move/inch, p.MoveMost/inch)
			}
			if p.Word != Over || len(p.Cases) > MostCases {
				t.Errorf("%s: %d cases", p.Says(), len(p.Cases))
			}
		})
	}
}
