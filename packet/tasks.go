package packet

import (
	"strings"

	"bowerwright/job"
)

// A task is one part of a kind with its stop: what the card is about.
type task struct {
	part job.PartFacts
	stop job.StopFacts
	turn string // what is done to the board after most of its cuts
}

// tasks are a kind's parts in bench order, shortest stop first, as the timber's
// stops stand; a part without a stop comes last.
func tasks(r job.Result, k job.KindFacts) []task {
	t, _ := timberOf(r, k)
	var ts []task
	done := map[string]bool{}
	for _, s := range t.Stops {
		for _, p := range k.Parts {
			if s.Has(p.Mark) && !done[p.Mark] {
				done[p.Mark] = true
				ts = append(ts, taskAt(r, t, s, p))
			}
		}
	}
	for _, p := range k.Parts {
		if !done[p.Mark] {
			ts = append(ts, task{p, job.StopFacts{Parts: []job.StopPart{{Mark: p.Mark, Kind: k.Name, Count: p.Count}}, Stop: p.LongPoint, Point: "long point", Count: p.Count,
				First: p.First.Setting, Second: p.Second.Setting}, turnOf(t, p.Mark)})
		}
	}
	return ts
}

// taskAt is a part at its stop. A stop may serve several parts: ends and count
// are the part's own, spare ones included.
func taskAt(r job.Result, t job.TimberFacts, s job.StopFacts, p job.PartFacts) task {
	if w := wantedOf(t, p.Mark); w.Saw > 0 {
		p.Count = w.Saw
	}
	if !s.Rough {
		s.First, s.Second = p.First.Setting, p.Second.Setting
	} else if p.Rough == nil { // the way of cutting wants it rough, not the saw's reach
		p.Rough, p.WayOut = &s.Stop, trimSays(r, t, p.Mark)
	}
	return task{p, s, turnOf(t, p.Mark)}
}

// trimSays is how a part sawn to a rough length is trimmed.
func trimSays(r job.Result, t job.TimberFacts, mark string) string {
	var out []string
	for _, f := range t.Trims {
		for _, e := range f.Ends {
			if e.Mark != mark {
				continue
			}
			says := "the " + e.End + " end at " + f.Setting.Text
			if e.Stop != nil {
				says += " to the stop at " + both(r.Job, *e.Stop)
			}
			out = append(out, says)
		}
	}
	return "Then trim " + strings.Join(out, ", then ") + ", with all ends of that setting: see Cutting by stop."
}

// turnOf is the commonest turn of the board after a cut of a part; ties go to
// the one met first.
func turnOf(t job.TimberFacts, mark string) string {
	count := map[string]int{}
	best := ""
	for _, b := range t.Boards {
		for _, p := range b.Parts {
			if p.Mark == mark && p.Turn != "" {
				if count[p.Turn] += len(b.Numbers); count[p.Turn] > count[best] {
					best = p.Turn
				}
			}
		}
	}
	return best
}

// perFrame says how many parts a frame takes, and how many are sawn beyond them.
func perFrame(r job.Result, t task) string {
	for _, x := range r.Timber {
		if w := wantedOf(x, t.part.Mark); w.Saw > w.Need {
			return itoa(t.part.PerFrame) + " to a frame, " + itoa(w.Saw-w.Need) + " to spare"
		}
	}
	return itoa(t.part.PerFrame) + " to a frame, all alike"
}
