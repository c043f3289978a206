package cli

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"time"

	"bowerwright/drawing/pdf"
	"bowerwright/internal/folder"
	"bowerwright/job"
	"bowerwright/packet"
)

// cutPapers draws every file of a bare cut list.
func cutPapers(r job.Result, result []byte) ([]folder.File, error) {
	files := []folder.File{{Name: "result.json", Data: result}}
	for _, f := range []struct {
		name string
		draw func(io.Writer) error
	}{
		{"cutting.pdf", func(w io.Writer) error { return pdf.Write(w, packet.Cutting(r, time.Time{})) }},
		{"boards.csv", func(w io.Writer) error { return packet.BoardsCSV(w, r) }},
	} {
		var b bytes.Buffer
		if err := f.draw(&b); err != nil {
			return nil, err
		}
		files = append(files, folder.File{Name: f.name, Data: b.Bytes()})
	}
	return files, nil
}

// sizeIn gives the text of a size in the result's own units.
func sizeIn(r job.Result) func(job.Size) string {
	return func(s job.Size) string {
		if r.Job.Show == "metric" {
			return s.Metric
		}
		return s.US
	}
}

// cutSummary says in a line a timber what is taken, and how good that is.
func cutSummary(w io.Writer, r job.Result) {
	size := sizeIn(r)
	fmt.Fprintf(w, "%s: %s\n", r.Job.Name, counted(r.Overall.PartCount, "part"))
	for _, t := range r.Timber {
		fmt.Fprintf(w, "  %s, %s x %s, %s: %s\n", t.Name, size(t.Thickness), size(t.Width), t.Laid, t.Claim)
	}
	if r.Progress != nil {
		fmt.Fprintf(w, "  %s\n", r.Progress.Says)
	}
	for _, n := range r.Notes {
		fmt.Fprintf(w, "  note: %s. %s\n", n.Text, n.Do)
	}
}

// cutText prints the whole plan: what to take, boards, stops, the three aims,
// and the other ways to cut.
func cutText(w io.Writer, r job.Result) {
	cutSummary(w, r)
	for _, t := range r.Timber {
		fmt.Fprintf(w, "\n%s, %s\n", strings.ToUpper(t.Name), t.Laid)
		textDone(w, t)
		textStocks(w, r, t)
		textBoards(w, r, t)
		textStops(w, r, t)
		textLevels(w, t)
	}
	fmt.Fprintf(w, "\nKerf %s, hold %s. Mark %s.\n%s\n", sizeIn(r)(r.Saw.Kerf), sizeIn(r)(r.Saw.Hold), r.Mark, r.Banner)
}

func textStocks(w io.Writer, r job.Result, t job.TimberFacts) {
	fmt.Fprintln(w, "  take")
	for _, s := range t.Stocks {
		if s.Used == 0 {
			continue
		}
		line := fmt.Sprintf("    %d x %s", s.Used, s.Name)
		if s.Buy > 0 {
			line += ", to buy"
		}
		if s.Cost != "" {
			line += fmt.Sprintf(", %s each, %s", s.Price, s.Cost)
		}
		fmt.Fprintln(w, line)
	}
	if t.Cost != "" {
		fmt.Fprintf(w, "    in all %s\n", t.Cost)
	}
}

func textBoards(w io.Writer, r job.Result, t job.TimberFacts) {
	size := sizeIn(r)
	fmt.Fprintln(w, "  boards")
	for _, b := range t.Boards {
		var left string
		switch {
		case b.Keep:
			left = "; keep " + size(b.Offcut)
		case b.Offcut.MM > 0:
			left = "; left " + size(b.Offcut)
		}
		if b.Changed {
			left += "; changed"
		}
		fmt.Fprintf(w, "    %s, %s: %s%s\n", numbered(b.Numbers), b.Stock, b.Summary, left)
		for _, s := range b.Spans {
			fmt.Fprintf(w, "      saw out first: %s to %s\n", size(s.OutFrom), size(s.OutTo))
		}
	}
}

// numbered writes board numbers, a run as 3..7.
func numbered(ns []int) string {
	var out []string
	for i := 0; i < len(ns); {
		j := i
		for j+1 < len(ns) && ns[j+1] == ns[j]+1 {
			j++
		}
		switch {
		case j > i:
			out = append(out, fmt.Sprintf("%d..%d", ns[i], ns[j]))
		default:
			out = append(out, fmt.Sprint(ns[i]))
		}
		i = j + 1
	}
	return strings.Join(out, ", ")
}

func textStops(w io.Writer, r job.Result, t job.TimberFacts) {
	size := sizeIn(r)
	fmt.Fprintln(w, "  stops, in this order")
	for _, s := range t.Stops {
		var parts []string
		for _, p := range s.Parts {
			parts = append(parts, fmt.Sprintf("%d x %s", p.Count, p.Mark))
		}
		var boards []int
		for _, b := range s.Boards {
			boards = append(boards, b.Board)
		}
		fmt.Fprintf(w, "    %d  stop at %s, %s; ends %s and %s; %s; boards %s\n", s.Number, size(s.Stop), s.Point, s.First.Text, s.Second.Text,
			strings.Join(parts, ", "), numbered(boards))
	}
	fmt.Fprintf(w, "    the stop is set %s, the saw %s\n", times(t.Session.StopSettings), times(t.Session.SawSettings))
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return counted(n, "time")
}

func textLevels(w io.Writer, t job.TimberFacts) {
	fmt.Fprintln(w, "  how good it is")
	for _, l := range []struct {
		name string
		job.LevelFacts
	}{{"cost", t.Levels.Cost}, {"boards to buy", t.Levels.Boards}, {"longest offcut", t.Levels.Offcut}} {
		text := l.Text
		if text == "" {
			text = "not given"
		}
		fmt.Fprintf(w, "    %s: %s; %s\n", l.name, text, l.Says)
	}
	for _, v := range t.Ways {
		fmt.Fprintf(w, "    %s: %s\n", v.Name, v.Says)
	}
	if u := t.Unturned; u != nil {
		fmt.Fprintf(w, "    %s: %s\n", u.Name, u.Says)
	}
}

// textDone says what was sawn before.
func textDone(w io.Writer, t job.TimberFacts) {
	if t.Bench == nil || len(t.Bench.Done) == 0 {
		return
	}
	fmt.Fprintln(w, "  done")
	for _, d := range t.Bench.Done {
		fmt.Fprintf(w, "    board %s of packet %s: %s\n", numbered(d.Board.Numbers), d.Packet, d.Says)
	}
	if len(t.Bench.Dropped) > 0 {
		fmt.Fprintf(w, "    sawn otherwise now: boards %s\n", numbered(t.Bench.Dropped))
	}
}
