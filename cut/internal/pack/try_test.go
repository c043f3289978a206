package pack

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

func TestTry(t *testing.T) {
	for _, f := range strings.Split(os.Getenv("SETS"), ",") {
		p := strings.Split(f, ":")
		step := 1
		if len(p) > 2 {
			step, _ = strconv.Atoi(p[2])
		}
		try(t, p[0], p[1], step)
	}
}

func try(t *testing.T, file, prefix string, step int) {
	f, err := os.Open(filepath.Join("../../../../shared/cutting", file+".txt"))
	if err != nil {
		t.Fatal(err)
	}
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<20)
	i := 0
	var tot, mx time.Duration
	n, ok, pr := 0, 0, 0
	for sc.Scan() {
		w := strings.Fields(sc.Text())
		if !strings.HasPrefix(w[0], prefix) {
			continue
		}
		i++
		if (i-1)%step != 0 {
			continue
		}
		in := &Instance{Gap: [][]int64{{0}, {0}}, End: []int64{0}}
		fmt.Sscan(w[1], &in.Room)
		opt := 0
		fmt.Sscan(w[3], &opt)
		for _, s := range w[4:] {
			var k Kind
			fmt.Sscanf(s, "%d*%d", &k.Length, &k.Need)
			k.Ways = []Way{{0, 0}}
			in.Kinds = append(in.Kinds, k)
		}
		if os.Getenv("REV") != "" {
			for a, b := 0, len(in.Kinds)-1; a < b; a, b = a+1, b-1 {
				in.Kinds[a], in.Kinds[b] = in.Kinds[b], in.Kinds[a]
			}
		}
		t0 := time.Now()
		b := int64(3e8)
		if os.Getenv("WORK") != "" {
			b, _ = strconv.ParseInt(os.Getenv("WORK"), 10, 64)
		}
		r := Solve(context.Background(), in, b)
		d := time.Since(t0)
		tot += d
		mx = max(mx, d)
		n++
		if r.Boards == opt {
			ok++
		}
		if r.Proved() {
			pr++
		}
		if r.Proved() && r.Boards != opt {
			t.Errorf("FALSE PROOF %s", w[0])
		}
		if r.Boards != opt || !r.Proved() || d > 2*time.Second {
			fmt.Printf("%s m=%d opt %d got %d bound %d frac %.3f cover %v %v work %.1fM\n", w[0], len(in.Kinds), opt, r.Boards, r.Proof.Bound, r.Fraction, r.Proof.Cover, d.Round(time.Millisecond), float64(r.Work)/1e6)
		}
	}
	fmt.Printf("%s %s: n=%d opt=%d proved=%d mean %v max %v\n", file, prefix, n, ok, pr, (tot / time.Duration(max(n, 1))).Round(time.Microsecond), mx.Round(time.Microsecond))
}
