package job

import "fmt"

// benchAgrees checks what is told of the bench against itself: the parts sawn
// from the boards touched are those that are counted as sawn, and every board
// of the plan has a number of its own.
func benchAgrees(path string, f TimberFacts) (wrong []string) {
	say := func(ok bool, format string, args ...any) {
		if !ok {
			wrong = append(wrong, path+": "+fmt.Sprintf(format, args...))
		}
	}
	sawn := map[string]int{}
	if f.Bench != nil {
		for i, d := range f.Bench.Done {
			say(d.Cut >= 0 && d.Cut <= len(d.Board.Parts), "bench.done[%d]: %d of %d parts are cut", i, d.Cut, len(d.Board.Parts))
			for _, q := range d.Board.Parts[:max(min(d.Cut, len(d.Board.Parts)), 0)] {
				sawn[q.Mark]++
			}
		}
		seen := map[int]bool{}
		for i, m := range f.Bench.Boards {
			say(m.Number > 0 && !seen[m.Number], "bench.boards[%d]: board %d is there twice", i, m.Number)
			seen[m.Number] = true
		}
	}
	for i, q := range f.Parts {
		say(sawn[q.Mark] == q.Sawn, "parts[%d]: %d of %s are sawn, the boards touched gave %d", i, q.Sawn, q.Mark, sawn[q.Mark])
		say(q.Spoilt >= 0 && q.Spoilt <= q.Sawn, "parts[%d]: %d of %d sawn are spoilt", i, q.Spoilt, q.Sawn)
	}
	return wrong
}
