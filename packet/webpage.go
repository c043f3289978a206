package packet

import (
	_ "embed"
	"fmt"
	"io"
	"strings"
	"time"

	"bowerwright/drawing"
	"bowerwright/drawing/svg"
	"bowerwright/job"
)

//go:embed web.css
var webStyle string

// A webPaper is one paper as the page has it: its head, and its blocks in
// reading order.
type webPaper struct {
	title  string
	right  [2]string
	entry  string // its line in the contents; "" for the cover
	blocks []block
}

// shown adds a paper to the page for screens, when it has anything to say there.
func (b *book) shown(p webPaper) {
	if len(twinsOf(p.blocks...)) > 0 {
		b.papers = append(b.papers, p)
	}
}

// HTML writes all papers of a job as one page for screens and readers: the
// blocks of the packet by their twins, and the cover. The page needs nothing
// else, runs no script and keeps nothing. Made is as for Build.
func HTML(w io.Writer, r job.Result, made time.Time) error {
	b := build(r)
	p := &webWriter{}
	p.page(r, b, made)
	if p.err != nil {
		return p.err
	}
	text := p.b.String()
	fonts, err := svg.Fonts(text, drawing.Regular, drawing.Medium, drawing.Bold)
	if err != nil {
		return fmt.Errorf("packet: %w", err)
	}
	_, err = io.WriteString(w, strings.Replace(text, fontsMark, fonts, 1))
	return err
}

// fontsMark is where the fonts go once it is known which letters the page has.
const fontsMark = "/* fonts */\n"

func (w *webWriter) page(r job.Result, b *book, made time.Time) {
	w.put("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
	w.put(`<meta name="viewport" content="width=device-width, initial-scale=1">` + "\n" + `<meta name="color-scheme" content="light dark">` + "\n")
	w.put("<title>%s, packet</title>\n<style>\n%s%s</style>\n</head>\n<body>\n", plainHTML(r.Job.Name), fontsMark, webStyle)
	w.put(`<a class="skip" href="#papers">Skip to the papers</a>` + "\n")
	w.cover(r)
	w.contents(b.papers)
	w.put(`<main id="papers" tabindex="-1">` + "\n")
	for i, p := range b.papers {
		w.paper(i+1, p)
	}
	w.put("</main>\n")
	w.foot(r, made)
	w.put("</body>\n</html>\n")
}

// cover is the job's name, for whom, when and where, the picture with people,
// the facts, and what has not been checked.
func (w *webWriter) cover(r job.Result) {
	j := r.Job
	w.id = "cover"
	w.put("<header>\n<h1>%s</h1>\n", rich(j.Name))
	for i, l := range []string{joined(", ", j.For, day(j.Date)), j.Venue, j.Note} {
		if l != "" {
			w.put("<p class=\"%s\">%s</p>\n", [3]string{"lead who", "lead", "quiet"}[i], rich(l))
		}
	}
	w.under = "The whole set piece"
	w.all(coverTwins(r))
	w.put("</header>\n")
}

// contents leads to every paper.
func (w *webWriter) contents(papers []webPaper) {
	w.put("<nav aria-labelledby=\"contents\">\n<h2 id=\"contents\">In this packet</h2>\n<ol>\n")
	for i, p := range papers {
		w.put("<li><a href=\"#%s\">%s</a></li>\n", paperID(i+1), rich(p.entry))
	}
	w.put("</ol>\n</nav>\n")
}

func paperID(n int) string { return fmt.Sprintf("paper-%d", n) }

func (w *webWriter) paper(n int, p webPaper) {
	w.id, w.heads, w.under, w.title = paperID(n), 0, p.title, p.title
	w.put("<section id=\"%s\" aria-labelledby=\"%s-h\">\n<h2 id=\"%s-h\">%s</h2>\n", w.id, w.id, w.id, rich(p.title))
	if s := joined("; ", p.right[:]...); s != "" {
		w.put("<p class=\"quiet\">%s</p>\n", rich(s))
	}
	w.all(twinsOf(p.blocks...))
	w.put("<p class=\"up\"><a href=\"#contents\">Back to the contents</a></p>\n</section>\n")
}

// foot says how old the page is: a different mark means another state of the
// job.
func (w *webWriter) foot(r job.Result, made time.Time) {
	when := ""
	if !made.IsZero() {
		when = "made " + made.Format("2 January 2006, 15:04")
	}
	if r.Mark != "" {
		when = joined(", ", when, "mark "+r.Mark)
	}
	w.put("<footer>\n<p>%s</p>\n</footer>\n", rich(joined(", ", r.Job.Name, when)))
}
