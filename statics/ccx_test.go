package statics

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// runCcx runs CalculiX on a deck of testdata and gives the displacements it
// prints, by node from 0.
func runCcx(t testing.TB, deck string) map[int]Vec {
	t.Helper()
	path, err := exec.LookPath("ccx")
	switch {
	case err == nil:
	case os.Getenv("BOWERWRIGHT_NEED_TOOLS") == "1":
		t.Fatal("no ccx (Debian: calculix-ccx)")
	default:
		t.Skip("left out: no ccx (Debian: calculix-ccx)")
	}
	dir := t.TempDir()
	text, err := os.ReadFile(filepath.Join("testdata", "decks", deck+".inp"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, deck+".inp"), text, 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, deck)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("ccx: %v\n%s", err, out)
	}
	out, err := os.ReadFile(filepath.Join(dir, deck+".dat"))
	if err != nil {
		t.Fatal(err)
	}
	moves := map[int]Vec{}
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		if len(f) != 4 {
			continue
		}
		n, err := strconv.Atoi(f[0])
		var v Vec
		for i := range v {
			if err == nil {
				v[i], err = strconv.ParseFloat(f[i+1], 64)
			}
		}
		if err == nil {
			moves[n-1] = v
		}
	}
	return moves
}

// TestLiveCalculix runs two decks again, so that the stored figures are known to
// be those of the decks, and holds the solver to what comes out: the elbow, with
// B32R's torsion constant, at its tip, and the large wall of seven at every node
// that is watched.
func TestLiveCalculix(t *testing.T) {
	for _, c := range []struct {
		name  string
		brick bool
		share float64
	}{{"elbow", true, 0.015}, {"sevenbig-grav", false, 0.006}} {
		t.Run(c.name, func(t *testing.T) {
			moves := runCcx(t, c.name+"-b32r")
			if len(moves) == 0 {
				t.Fatal("nothing printed")
			}
			var ref reference
			readJSON(t, c.name, &ref)
			var stored map[string]map[string]map[string][]float64
			readJSON(t, "ccx-results", &stored)
			twist := 0.0
			if c.brick {
				twist = 4 * ref.Iin * ref.Iout / (ref.Iin + ref.Iout)
			}
			m, load := ref.build(t, twist)
			r := solve(t, m, load)
			for n, v := range moves {
				old := stored[c.name]["B32R"][strconv.Itoa(n)]
				most := v.Len()
				for i, w := range v {
					if math.Abs(w-old[i]) > 1e-4*most {
						t.Errorf("node %d: %v now, %v in the stored results", n, w, old[i])
					}
					if d := math.Abs(w - r.Moves[n].Shift[i]); d > c.share*most {
						t.Errorf("node %d: %v, CalculiX has %v", n, r.Moves[n].Shift, v)
					}
				}
			}
		})
	}
}
