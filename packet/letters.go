package packet

import (
	"strings"

	"bowerwright/job"
)

// lettersSay names the texts that hold letters which the print fonts lack, or
// is "" when all print: an empty box without a word would look like a fault of
// the printer.
func lettersSay(r job.Result) string {
	var where []string
	add := func(name, text string) {
		if lacks(text) {
			where = addNew(where, name)
		}
	}
	j := r.Job
	for _, t := range [][2]string{{"the job's name", j.Name}, {"for whom it is", j.For}, {"the venue", j.Venue}, {"the note", j.Note},
		{"the maker", j.Maker}, {"the date", j.Date}, {"the saw's name", r.Saw.Name}} {
		add(t[0], t[1])
	}
	for _, k := range r.Kinds {
		add("the title of "+k.Letter, k.Title)
	}
	for _, t := range r.Timber {
		add("a timber's name", t.Name+t.Species)
	}
	for _, f := range r.Frames {
		add("frames' ids", f.ID)
	}
	for _, n := range r.Notes {
		add("what to look at", n.Text+n.Do+n.Where)
	}
	if where == nil {
		return ""
	}
	return string(missing) + " stands for a letter that the print fonts lack, in: " + strings.Join(where, ", ") + ". The page packet.html shows it."
}

// lacks says whether a text holds a letter that the fonts lack.
func lacks(s string) bool {
	return strings.ContainsRune(clean(s), missing) && !strings.ContainsRune(s, missing)
}
