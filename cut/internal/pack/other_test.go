package pack

import (
	"bytes"
	"fmt"
	"math"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"testing"
)

// tool finds a program, or leaves the test out.
func tool(t testing.TB, command, pkg string) string {
	t.Helper()
	path, err := exec.LookPath(command)
	switch {
	case err == nil:
	case os.Getenv("BOWERWRIGHT_NEED_TOOLS") == "1":
		t.Fatalf("no %s (Debian: %s)", command, pkg)
	default:
		t.Skipf("left out: no %s (Debian: %s)", command, pkg)
	}
	return path
}

// sizes gives a random instance of plain lengths.
func sizes(r *rand.Rand, kinds int) *Instance {
	room := int64(300 + r.Intn(200))
	var ks []Kind
	for _, l := range r.Perm(int(room) * 2 / 5)[:kinds] {
		ks = append(ks, Kind{Length: room/8 + int64(l), Need: 1 + r.Intn(30)})
	}
	slices.SortFunc(ks, func(a, b Kind) int { return int(a.Length - b.Length) })
	return plainInstance(room, ks...)
}

// On instances of one board and up to 12 sizes GLPK's bound and ours never pass
// the other's plan.
func TestAgainstGLPK(t *testing.T) {
	glpsol := tool(t, "glpsol", "glpk-utils")
	same := 0
	const rounds = 200
	for round := range rounds {
		in := sizes(rand.New(rand.NewSource(int64(round))), 1+round%12)
		r := Solve(bg, in, budget)
		if !r.Proved() {
			t.Errorf("round %d: %d boards, bound %d", round, r.Boards, r.Proof.Bound)
		}
		n, ok := glpk(t, glpsol, in)
		if ok && n != r.Boards {
			t.Errorf("round %d: %d boards, GLPK %d", round, r.Boards, n)
		}
		if ok {
			same++
		}
	}
	t.Logf("%d of %d solved by both", same, rounds)
	if same < rounds*9/10 {
		t.Errorf("GLPK solved %d of %d", same, rounds)
	}
}

// yardOf gives a random yard of plain lengths: boards of up to four lengths to
// be bought, up to three on hand.
func yardOf(r *rand.Rand, scale int) []Supply {
	var ks []Kind
	all := 0
	for range 2 + r.Intn(5) {
		k := Kind{Length: int64(8*scale + r.Intn(30*scale)), Need: 1 + r.Intn(25), Ways: []Way{{0, 0}}}
		if !slices.ContainsFunc(ks, func(o Kind) bool { return o.Length == k.Length }) {
			ks, all = append(ks, k), all+k.Need
		}
	}
	slices.SortFunc(ks, func(a, b Kind) int { return int(a.Length - b.Length) })
	var out []Supply
	add := func(room int, weight int64, limit int) {
		in := plainInstance(int64(room))
		in.Kinds = ks
		out = append(out, Supply{Plan: in, Bound: in, Weight: weight, Limit: limit})
	}
	for range 1 + r.Intn(4) {
		room := 40*scale + r.Intn(60*scale)
		limit := all
		if r.Intn(3) == 0 {
			limit = 1 + r.Intn(6)
		}
		add(room, int64(room/scale*4+r.Intn(60)), limit)
	}
	for range r.Intn(4) {
		add(10*scale+r.Intn(60*scale), 0, 1+r.Intn(2))
	}
	return out
}

// flow writes "least weight" as CPLEX LP text, by flow: along each board lengths
// are points, parts and waste are arcs between them (Valerio de Carvalho,
// Annals of Operations Research 86, 1999). It shares nothing with patterns.
func flow(supplies []Supply) []byte {
	kinds := supplies[0].Plan.Kinds
	longest := int64(0)
	for _, u := range supplies {
		longest = max(longest, u.Plan.Room)
	}
	point := make([]bool, longest+1) // reached by parts, or a board's end
	point[0] = true
	for i := range point {
		for _, k := range kinds {
			if j := int64(i) + k.Length; point[i] && j <= longest {
				point[j] = true
			}
		}
	}
	ends := map[int64][]int{}
	for k, u := range supplies {
		ends[u.Plan.Room] = append(ends[u.Plan.Room], k)
		point[u.Plan.Room] = true
	}
	var b, whole bytes.Buffer
	b.WriteString("Minimize\n w:")
	for k, u := range supplies {
		fmt.Fprintf(&b, " + %d y%d", u.Weight, k)
		fmt.Fprintf(&whole, " y%d\n", k)
	}
	b.WriteString("\nSubject To\n")
	demand := make([]string, len(kinds))
	in, out := map[int64]string{}, map[int64]string{}
	last := int64(0)
	for i := int64(0); i <= longest; i++ {
		if !point[i] {
			continue
		}
		if i > 0 {
			out[last] += fmt.Sprintf(" - v%d", i)
			in[i] += fmt.Sprintf(" + v%d", i)
			fmt.Fprintf(&whole, " v%d\n", i)
		}
		last = i
		for k, kind := range kinds {
			if j := i + kind.Length; j <= longest && point[j] {
				name := fmt.Sprintf("x%d_%d", i, k)
				demand[k] += " + " + name
				out[i] += " - " + name
				in[j] += " + " + name
				fmt.Fprintf(&whole, " %s\n", name)
			}
		}
	}
	for k, d := range demand {
		fmt.Fprintf(&b, " d%d:%s >= %d\n", k, d, kinds[k].Need)
	}
	for i := int64(0); i <= longest; i++ {
		if !point[i] {
			continue
		}
		line := in[i] + out[i]
		for _, k := range ends[i] {
			line += fmt.Sprintf(" - y%d", k)
		}
		if i == 0 {
			for k := range supplies {
				line += fmt.Sprintf(" + y%d", k)
			}
		}
		fmt.Fprintf(&b, " n%d:%s = 0\n", i, line)
	}
	b.WriteString("Bounds\n")
	for k, u := range supplies {
		fmt.Fprintf(&b, " y%d <= %d\n", k, u.Limit)
	}
	b.WriteString("Generals\n")
	b.Write(whole.Bytes())
	b.WriteString("End\n")
	return b.Bytes()
}

// cbc gives the weight CBC found and its bound, in 20 s. Without ok it found no
// plan; none says that there is none.
func cbc(t *testing.T, command string, supplies []Supply) (weight, bound float64, ok, none bool) {
	name := filepath.Join(t.TempDir(), "flow.lp")
	if err := os.WriteFile(name, flow(supplies), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(command, name, "sec", "20", "ratio", "0", "solve").CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	number := func(pattern string) float64 {
		m := regexp.MustCompile(pattern).FindSubmatch(out)
		if m == nil {
			return math.NaN()
		}
		x, err := strconv.ParseFloat(string(m[1]), 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	weight = number(`Objective value: +(-?[0-9.e+]+)`)
	bound = number(`Lower bound: +(-?[0-9.e+]+)`)
	if math.IsNaN(bound) {
		bound = weight
	}
	return weight, bound, !math.IsNaN(weight), regexp.MustCompile(`Problem (is|proven) infeasible`).Match(out)
}

// Over several lengths CBC's bound and ours never pass the other's plan, by a
// formulation that knows no patterns.
func TestAgainstCBC(t *testing.T) {
	command := tool(t, "cbc", "coinor-cbc")
	rounds, scale := 60, 1
	if long {
		rounds, scale = 150, 3
	}
	same, short := 0, 0
	for round := range rounds {
		supplies := yardOf(rand.New(rand.NewSource(int64(round))), scale)
		r := Share(bg, supplies, budget)
		weight, bound, ok, none := cbc(t, command, supplies)
		if none || r.Short {
			short++
			if !none || !r.Short {
				t.Errorf("round %d: too few boards %v, CBC %v", round, r.Short, none)
			}
			continue
		}
		if r.None || r.Bound != r.Weight {
			t.Errorf("round %d: %d, bound %d", round, r.Weight, r.Bound)
		}
		if ok && weight < float64(r.Bound)-1e-6 || bound > float64(r.Weight)+1e-6 {
			t.Errorf("round %d: %d, bound %d; CBC %g, bound %g", round, r.Weight, r.Bound, weight, bound)
		}
		if ok && weight == bound {
			same++
		}
	}
	t.Logf("%d rounds: %d solved by both, %d without a plan", rounds, same, short)
	if same+short < rounds*9/10 {
		t.Errorf("CBC solved %d of %d", same, rounds)
	}
}
