package pack

import (
	"bytes"
	"fmt"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"
)

// BenchmarkAgainstGLPK times Solve and GLPK's integer solver on the same
// instances, the latter on the program over all patterns to which nothing can
// be added, and wants one optimum. GLPK's time leaves the listing out.
func BenchmarkAgainstGLPK(b *testing.B) {
	glpsol, err := exec.LookPath("glpsol")
	if err != nil {
		b.Skip("left out: no glpsol (Debian: glpk-utils)")
	}
	for _, c := range []struct{ kinds, need int }{{6, 12}, {8, 12}, {10, 20}} {
		b.Run(fmt.Sprintf("%dkinds", c.kinds), func(b *testing.B) {
			var ours, theirs time.Duration
			for b.Loop() {
				in := random(rand.New(rand.NewSource(int64(c.kinds))), c.kinds, c.need)
				start := time.Now()
				r := Solve(bg, in, budget)
				ours += time.Since(start)
				if !r.Proved() {
					b.Fatalf("%d boards, bound %d", r.Boards, r.Proof.Bound)
				}
				start = time.Now()
				if n, ok := glpk(b, glpsol, in); ok && n != r.Boards {
					b.Fatalf("%d boards, GLPK %d", r.Boards, n)
				}
				theirs += time.Since(start)
			}
			b.ReportMetric(float64(ours.Microseconds())/float64(b.N), "us-ours")
			b.ReportMetric(float64(theirs.Microseconds())/float64(b.N), "us-glpk")
		})
	}
}

// glpk gives the optimum by GLPK, if it found it in 5 s.
func glpk(b testing.TB, glpsol string, in *Instance) (boards int, ok bool) {
	l := lister{ctx: bg, in: in, need: in.needs(), value: make([]int64, len(in.Kinds)), limit: 1 << 40}
	if !l.list() {
		b.Fatal("too many patterns")
	}
	name := filepath.Join(b.TempDir(), "patterns.lp")
	if err := os.WriteFile(name, written(in, l.found), 0o600); err != nil {
		b.Fatal(err)
	}
	out, err := exec.Command(glpsol, "--lp", name, "--tmlim", "5", "-o", "/dev/stdout").CombinedOutput()
	if err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	m := regexp.MustCompile(`INTEGER OPTIMAL[\s\S]*= *([0-9.]+) \(MINimum\)`).FindSubmatch(out)
	if m == nil {
		return 0, false
	}
	boards, err = strconv.Atoi(string(m[1]))
	return boards, err == nil
}

// written gives "fewest patterns that hold every count" as CPLEX LP text.
func written(in *Instance, pats []*listed) []byte {
	var w bytes.Buffer
	w.WriteString("Minimize\n boards:")
	for i := range pats {
		fmt.Fprintf(&w, " + x%d\n", i)
	}
	w.WriteString("Subject To\n")
	for k, kind := range in.Kinds {
		fmt.Fprintf(&w, " k%d:", k)
		for i, p := range pats {
			for _, it := range p.pattern {
				if it.Kind == k {
					fmt.Fprintf(&w, " + %d x%d\n", it.N, i)
				}
			}
		}
		fmt.Fprintf(&w, " >= %d\n", kind.Need)
	}
	w.WriteString("General\n")
	for i := range pats {
		fmt.Fprintf(&w, " x%d\n", i)
	}
	w.WriteString("End\n")
	return w.Bytes()
}
