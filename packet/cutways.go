package packet

import (
	"strings"

	"bowerwright/job"
)

// waysTable is how good the plan is at its three aims, and what the other ways
// of cutting would take.
func waysTable(r job.Result, t job.TimberFacts) []block {
	if len(t.Ways) == 0 {
		return nil
	}
	out := append([]block{heading("How good the plan is", "each aim among plans as good in those above it", "")}, levelsTable(t)...)
	out = append(out, heading("Ways to cut it", "the job's choice: "+t.Cutting, ""))
	var rows [][]cell
	for _, w := range t.Ways {
		rows = append(rows, wayRow(w))
	}
	if t.Unturned != nil {
		rows = append(rows, wayRow(*t.Unturned))
	}
	cols := []column{{"way", 40, false}, {"buy", 9, true}, {"on hand", 14, true}, {"cost", 22, true}, {"stop set", 15, true}, {"saw set", 14, true}, {"against what is on paper", 58, false}}
	return append(out, table(0, cols, rows)...)
}

func levelsTable(t job.TimberFacts) []block {
	var rows [][]cell
	for _, l := range []struct {
		name string
		job.LevelFacts
	}{{"least cost", t.Levels.Cost}, {"fewest boards bought", t.Levels.Boards}, {"longest offcut of a board bought", t.Levels.Offcut}} {
		if l.name == "least cost" && t.Currency == "" {
			continue
		}
		rows = append(rows, []cell{small(l.name), strong(l.Text), small(sentence(l.Says))})
	}
	return table(0, []column{{"aim", 52, false}, {"this plan", 26, true}, {"what is known of better ones", 104, false}}, rows)
}

func wayRow(w job.WayFacts) []cell {
	name := strong(w.Name)
	if !w.Chosen {
		name = small(w.Name)
	}
	if w.Closed != "" {
		return []cell{name, small(""), small(""), small(""), small(""), small(""), small(sentence(w.Says))}
	}
	if len(w.Rough) > 0 {
		name = append(name, quietLine("rough lengths first: "+strings.Join(w.Rough, ", ")))
	}
	says := sentence(w.Says)
	if w.SameAs == "" && !w.Levels.Boards.Proved {
		says += " " + sentence(w.Levels.Boards.Says)
	}
	return []cell{name, strong(itoa(w.Buy)), small(itoa(w.FromHand)), small(w.Cost), small(itoa(w.StopSettings)), small(itoa(w.SawSettings)), small(says)}
}
