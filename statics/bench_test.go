//go:build unix

package statics

import (
	"context"
	"fmt"
	"syscall"
	"testing"
	"time"

	"gonum.org/v1/gonum/mat"
)

// wall is a honeycomb of so many frames, held by every frame of its lowest row,
// and the cases on it: a push of 20 lb at its outermost frame, which opens seams
// step by step, and winds from ways all round.
func wall(frames int) (*cluster, []Case) {
	const across = 20.0
	c := newCluster(across, pine(1.1e6, 1.1e6/16), honeycomb(across, frames), same(twoScrews))
	low := 0.0
	for _, h := range c.cells {
		low = min(low, h.mid[1])
	}
	for _, h := range c.cells {
		if h.mid[1] < low+0.6*across {
			c.holdBottom(h)
		}
	}
	cases := []Case{{Gravity: Vec{0, -1}, Nodal: c.cells[frames-1].topLoad(Vec{0, 0, 20})}}
	for k := range 11 {
		w := Vec{0.004 * float64(k-6), 0, 0.02 - 0.004*float64(k%5)}
		one := Case{Gravity: Vec{0, -1}}
		for m := range c.members {
			one.Spread = append(one.Spread, Spread{m, w})
		}
		cases = append(cases, one)
	}
	return c, cases
}

// cpu is the processor time used so far, in ms: on a busy machine it says more
// than the clock.
func cpu() float64 {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) * 1e-6
}

// cpuOfChildren is that of the programs that were called and have ended, in ms.
func cpuOfChildren() float64 {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_CHILDREN, &u) != nil {
		return 0
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) * 1e-6
}

// timed runs f as often as the benchmark wants and reports its processor time.
func timed(b *testing.B, f func()) {
	before := cpu()
	for b.Loop() {
		f()
	}
	b.ReportMetric((cpu()-before)/float64(b.N), "cpu-ms/op")
}

// BenchmarkWall times a whole run, from a model to its results: preparing it,
// and one case or twelve. Most is what it may take, in ms of the processor; what
// it allocates in all, B/op, is more than it ever holds.
func BenchmarkWall(b *testing.B) {
	for _, size := range []struct {
		frames, cases int
		most          float64
	}{{20, 1, 60}, {20, 12, 60}, {60, 1, 150}, {200, 1, 150}, {2000, 1, 6000}} {
		c, cases := wall(size.frames)
		b.Run(fmt.Sprintf("frames=%d/cases=%d", size.frames, size.cases), func(b *testing.B) {
			steps := 0
			timed(b, func() {
				p, err := Prepare(context.Background(), &c.Model, Limits{})
				if err != nil {
					b.Fatal(err)
				}
				steps = 0
				for _, one := range cases[:size.cases] {
					r, err := p.Solve(context.Background(), one)
					if err != nil || r.Outcome != Settled {
						b.Fatal(err, r)
					}
					steps += r.Steps
				}
			})
			b.ReportMetric(size.most, "most-ms")
			b.ReportMetric(float64(steps), "steps")
			b.ReportMetric(float64(len(c.seams)), "seams")
		})
	}
}

// BenchmarkParts times what a run consists of.
func BenchmarkParts(b *testing.B) {
	ctx := context.Background()
	for _, frames := range []int{20, 60, 200, 2000} {
		c, cases := wall(frames)
		p, err := Prepare(ctx, &c.Model, Limits{})
		if err != nil {
			b.Fatal(err)
		}
		work, entries := p.plan.Work()
		b.Run(fmt.Sprintf("prepare/frames=%d", frames), func(b *testing.B) {
			timed(b, func() {
				if _, err := Prepare(ctx, &c.Model, Limits{}); err != nil {
					b.Fatal(err)
				}
			})
			b.ReportMetric(float64(len(p.nodes)*6), "equations")
		})
		b.Run(fmt.Sprintf("factor/frames=%d", frames), func(b *testing.B) {
			timed(b, func() {
				if _, err := p.plan.Factor(ctx, p.terms, p.on, nil); err != nil {
					b.Fatal(err)
				}
			})
			b.ReportMetric(float64(work)*1e-6, "Mmul")
			b.ReportMetric(float64(entries)*1e-6, "Mentries")
		})
		b.Run(fmt.Sprintf("solve/frames=%d", frames), func(b *testing.B) {
			l, _ := p.loads(cases[0])
			f := p.vector(l.nodal)
			timed(b, func() { p.base.Solve(f) })
		})
	}
}

// lifted is the wall of seven carried flat, with a hand that can be switched on
// at every middle of a side, and the ways of four hands on the six outer frames.
func lifted() (*cluster, []Case) {
	c := newCluster(acrossFlats, handPine(), flower(acrossFlats), same(twoScrews))
	hands := map[Node]int{}
	for _, h := range c.cells[1:] {
		for _, n := range h.side {
			hands[n] = c.Spring(Spring{A: Ground, B: n, At: c.At(n), Axis: Vec{0, 0, 1}, Along: 500, Across: 5, Switched: true})
		}
	}
	var cases []Case
	for a := 1; a <= 6; a++ {
		for b := a + 1; b <= 6; b++ {
			for k := range 6 {
				at := []Node{c.cells[a].side[k], c.cells[a].side[(k+1)%6], c.cells[b].side[k], c.cells[b].side[(k+3)%6]}
				one := Case{Gravity: Vec{0, 0, -1}}
				for _, n := range at {
					one.On = append(one.On, hands[n])
				}
				cases = append(cases, one)
			}
		}
	}
	return c, cases
}

// BenchmarkHands tries all ways of lifting.
func BenchmarkHands(b *testing.B) {
	c, cases := lifted()
	p, err := Prepare(context.Background(), &c.Model, Limits{})
	if err != nil {
		b.Fatal(err)
	}
	timed(b, func() {
		for _, one := range cases {
			if r, err := p.Solve(context.Background(), one); err != nil || r.Outcome != Settled {
				b.Fatal(err, r)
			}
		}
	})
	b.ReportMetric(float64(len(cases)), "ways")
}

// sideBySide runs ours and theirs turn about, so that a busy machine is as busy
// for both, and reports what each takes by the clock and how many times as long
// theirs takes, by the clock and by the processor.
func sideBySide(b *testing.B, ours, theirs func()) {
	const often = 10 // ours for each of theirs: it is short
	var clock [2]time.Duration
	var used [2]float64
	run := func(k int, f func()) {
		before, from := cpu()+cpuOfChildren(), time.Now()
		f()
		clock[k] += time.Since(from)
		used[k] += cpu() + cpuOfChildren() - before
	}
	for b.Loop() {
		run(0, func() {
			for range often {
				ours()
			}
		})
		run(1, theirs)
	}
	each := clock[0].Seconds() * 1e3 / often / float64(b.N)
	other := clock[1].Seconds() * 1e3 / float64(b.N)
	b.ReportMetric(each, "ours-ms")
	b.ReportMetric(other, "theirs-ms")
	b.ReportMetric(other/each, "times")
	b.ReportMetric(used[1]*often/used[0], "times-by-cpu")
}

// BenchmarkAgainstGonum factors one matrix both ways: twenty times as fast is
// wanted at 200 frames.
func BenchmarkAgainstGonum(b *testing.B) {
	for _, frames := range []int{20, 60, 200} {
		c, _ := wall(frames)
		p, err := Prepare(context.Background(), &c.Model, Limits{})
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprintf("frames=%d", frames), func(b *testing.B) {
			k := p.banded(p.on).k
			sideBySide(b, func() {
				if _, err := p.plan.Factor(context.Background(), p.terms, p.on, nil); err != nil {
					b.Fatal(err)
				}
			}, func() {
				var chol mat.BandCholesky
				if !chol.Factorize(k) {
					b.Fatal("no factors")
				}
			})
			_, half := k.SymBand()
			b.ReportMetric(float64(half), "half-band")
		})
	}
}

// BenchmarkAgainstCalculix solves each wall of seven both ways: from the model's
// file to the movements, and as a whole process, which is wanted to take a
// hundred times as long.
func BenchmarkAgainstCalculix(b *testing.B) {
	for _, name := range []string{"seven-grav", "seven-top", "sevenbig-grav", "sevenbig-top"} {
		b.Run(name, func(b *testing.B) {
			sideBySide(b, func() {
				var ref reference
				readJSON(b, name, &ref)
				m, load := ref.build(b, 0)
				solve(b, m, load)
			}, func() { runCcx(b, name+"-b32r") })
		})
	}
}
