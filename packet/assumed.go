package packet

import (
	"strings"

	"bowerwright/job"
)

// builtIn is where an assumption is from that nobody changed, as the Result
// says it.
const builtIn = "built in"

// assumed are the numbers that the sums rest on: on paper those that a file or a
// flag changed in full, and the others by value and name only; on a screen all
// in full.
func assumed(r job.Result) []block {
	var changed, kept []job.AssumedFacts
	for _, a := range r.Assumed {
		if a.From == builtIn {
			kept = append(kept, a)
		} else {
			changed = append(changed, a)
		}
	}
	return append(assumedChanged(changed), assumedKept(kept)...)
}

var assumedCols = []column{{"assumption, and its name in the job file", 71, false}, {"value", 19, false}, {"from", 17, false},
	{"usual range", 25, false}, {"source", 45, false}}

func assumedRows(all []job.AssumedFacts) [][]cell {
	var rows [][]cell
	for _, a := range all {
		source := a.Source
		if !strings.Contains(source, a.Status) {
			source += " (" + a.Status + ")"
		}
		rows = append(rows, []cell{named(a), strong(a.Value), quiet(a.From), quiet(a.Range), quiet(source)})
	}
	return rows
}

// named is an assumption's name with its id.
func named(a job.AssumedFacts) cell {
	return cell{append(small(a.Name)[0], quietLine(" \u00a0"+a.ID)...)}
}

func assumedChanged(all []job.AssumedFacts) []block {
	if len(all) == 0 {
		return nil
	}
	return append([]block{heading("Assumptions of this job and shop", "each can be changed in the job file by its name", "")},
		table(0, assumedCols, assumedRows(all))...)
}

// assumedKept are those built in, by what they are about, two beside each
// other. Their ranges and sources would fill pages that nobody reads at the
// bench.
func assumedKept(all []job.AssumedFacts) []block {
	if len(all) == 0 {
		return nil
	}
	head := heading("Assumptions as built in", "ranges and sources: packet.html, result.json, docs/assumptions.md", "")
	head = head.says(webHead("Assumptions as built in", "each can be changed in the job file by its name"), webTable("", assumedCols, assumedRows(all)))
	var rows downward
	for i, a := range all {
		if i == 0 || about(a) != about(all[i-1]) {
			title := tableRow(0, []column{{"", downWide, false}}, []cell{strong(aboutWords(a))}, nil)
			title.keep = true
			rows = append(rows, title)
		}
		rows = append(rows, tableRow(0, keptCols, []cell{named(a), strong(a.Value)}, nil))
	}
	return []block{head, rows.block().says()}
}

var keptCols = []column{{"", downWide - keptValue - colGap, false}, {"", keptValue, true}}

// keptValue is the room for a value, mm.
const keptValue = 19.5

// about is what an assumption is about: its id up to the first point.
func about(a job.AssumedFacts) string {
	s, _, _ := strings.Cut(a.ID, ".")
	return s
}

// aboutWords are headings for the beginnings of ids; one that has none stands
// for itself.
func aboutWords(a job.AssumedFacts) string {
	words := map[string]string{
		"board": "Boards", "buying": "Buying", "corner": "Corners", "cut": "Cutting", "dress": "Dressing", "driver": "The driver",
		"eye": "Where people look from", "figure": "People drawn for scale", "filler": "Filler", "finish": "Finish", "fixing": "Screws and bolts",
		"glue": "Glue", "lay": "The dry lay", "layout": "Where frames meet", "lift": "Lifting", "opening": "Openings", "roll": "Rolled up in tape",
		"rough": "Parts sawn rough first", "sand": "Sanding", "saw": "The saw", "shop": "The shop", "stand": "Standing", "tape": "The tape",
		"test-corner": "The test corner", "timber": "Timber", "wind": "Wind",
	}
	if s, ok := words[about(a)]; ok {
		return s
	}
	return about(a)
}
