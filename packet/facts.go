package packet

import (
	"strings"
	"time"

	"bowerwright/drawing"
	"bowerwright/job"
)

// first is a size in the job's own system, second in the other.
func first(j job.JobFacts, s job.Size) string {
	if j.Show == "metric" {
		return s.Metric
	}
	return s.US
}

func second(j job.JobFacts, s job.Size) string {
	if j.Show == "metric" {
		return s.US
	}
	return s.Metric
}

// both is a size in both systems, the job's own first.
func both(j job.JobFacts, s job.Size) string { return first(j, s) + " (" + second(j, s) + ")" }

func weigh(j job.JobFacts, w job.Weight) (own, other string) {
	if j.Show == "metric" {
		return w.Metric, w.US
	}
	return w.US, w.Metric
}

// sized is a dimension with its figure in both systems.
func sized(d drawing.Dimension, j job.JobFacts, s job.Size) drawing.Dimension {
	d.S, d.After, d.Font = first(j, s), " · "+second(j, s), drawing.Bold
	return d
}

// split takes a figure apart from its unit: "10 3/8 in" is "10 3/8" and "in".
func split(s string) (figure, unit string) {
	if i := strings.LastIndexAny(s, " \u00a0"); i > 0 {
		return s[:i], strings.TrimLeft(s[i:], " \u00a0")
	}
	return s, ""
}

// day writes a date as people say it; what is no date stays as it is.
func day(s string) string {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		return s
	}
	return t.Format("Monday 2 January 2006")
}

// unsigned is an angle without its sign, as a saw's scale shows it.
func unsigned(a job.Angle) string { return strings.TrimLeft(a.Text, "-−") }

// plural puts a count before a word.
func plural(n int, word string) string {
	if n != 1 {
		word += "s"
	}
	return itoa(n) + " " + word
}

// kindOf finds a frame's kind; ok is false for a Result that lacks it.
func kindOf(r job.Result, name string) (job.KindFacts, bool) {
	for _, k := range r.Kinds {
		if k.Name == name {
			return k, true
		}
	}
	return job.KindFacts{}, false
}

// timberOf finds the boards of a kind: one timber may be laid on edge in some
// frames and flat in others, and each way has boards and stops of its own.
func timberOf(r job.Result, k job.KindFacts) (job.TimberFacts, bool) {
	for _, t := range r.Timber {
		if t.Name == k.Timber && t.Laid == k.Laid {
			return t, true
		}
	}
	return job.TimberFacts{}, false
}

// sentence gives text a capital and a full stop.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return s
	}
	rs := []rune(s)
	s = strings.ToUpper(string(rs[:1])) + string(rs[1:])
	if !strings.ContainsRune(".:;", rs[len(rs)-1]) {
		s += "."
	}
	return s
}
