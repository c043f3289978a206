package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"time"

	"bowerwright/internal/jobs"
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
)

// worked is what a revision comes to: a whole result, or what stops it.
type worked struct {
	result job.Result
	snags  snag.List
}

// pulse is how often a line is sent where nothing happens, so that a window
// that is gone is noticed.
const pulse = 20 * time.Second

// A stream is an answer that goes on.
type stream struct {
	w    http.ResponseWriter
	ctrl *http.ResponseController
	err  error
}

func newStream(w http.ResponseWriter) *stream {
	s := &stream{w: w, ctrl: http.NewResponseController(w)}
	w.Header().Set("Content-Type", "text/event-stream; charset=utf-8")
	w.Header().Set("X-Accel-Buffering", "no") // a proxy shall pass each event on
	s.ctrl.SetReadDeadline(time.Time{})
	w.WriteHeader(http.StatusOK)
	s.raw(":\n\n")
	return s
}

func (s *stream) raw(text string) {
	if s.err != nil {
		return
	}
	s.ctrl.SetWriteDeadline(time.Now().Add(2 * pulse))
	if _, s.err = s.w.Write([]byte(text)); s.err == nil {
		s.err = s.ctrl.Flush()
	}
}

func (s *stream) send(event string, v any) {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err) // our own types always encode
	}
	s.raw("event: " + event + "\ndata: " + string(b) + "\n\n")
}

// getChanges tells a window what others change.
func (s *Server) getChanges(w http.ResponseWriter, r *http.Request) error {
	j, err := s.Store.Job(r.Context(), r.PathValue("id"))
	if err != nil {
		return err
	}
	heard, end := s.hub.listen(j.ID)
	defer end()
	me := r.URL.Query().Get("window")
	out := newStream(w)
	beat := time.NewTicker(pulse)
	defer beat.Stop()
	for out.err == nil {
		select {
		case n := <-heard:
			if me == "" || n.By != me {
				out.send("changed", n)
			}
		case <-beat.C:
			out.raw(":\n\n")
		case <-r.Context().Done():
			return nil
		}
	}
	return nil
}

// getAnswers tells what follows from a revision as it is worked out, and stops
// with the next change.
func (s *Server) getAnswers(w http.ResponseWriter, r *http.Request) error {
	heard, end := s.hub.listen(r.PathValue("id")) // before the head is read: none is missed
	defer end()
	j, rev, err := s.at(r)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithCancel(r.Context())
	defer cancel()
	out := newStream(w)
	if rev.Number != j.Head {
		out.send("stopped", map[string]any{"rev": rev.Number})
		return nil
	}
	events := make(chan func(*stream), 4)
	go func() {
		defer close(events)
		defer s.recovered(events, rev.Number)
		s.answerAll(ctx, j, rev, events)
	}()
	beat := time.NewTicker(pulse)
	defer beat.Stop()
	for {
		select {
		case f, more := <-events:
			if !more {
				return nil
			}
			f(out)
		case n := <-heard:
			if n.Rev != rev.Number {
				cancel()
			}
		case <-beat.C:
			out.raw(":\n\n")
		}
		if out.err != nil {
			cancel()
		}
	}
}

// recovered makes of a fault inside an answer that it has stopped: it must not
// take the program down.
func (s *Server) recovered(events chan<- func(*stream), rev int) {
	if p := recover(); p != nil {
		s.Log.Error("stopped inside an answer", "reason", fmt.Sprint(p))
		events <- func(out *stream) {
			out.send("stopped", map[string]any{"rev": rev, "say": "This is our fault, not the job's."})
		}
	}
}

// answerAll works a revision out, the quick part first.
func (s *Server) answerAll(ctx context.Context, j jobs.Job, rev jobs.Revision, events chan<- func(*stream)) {
	tell := func(event string, v any) { events <- func(out *stream) { out.send(event, v) } }
	stopped := func(say string) { tell("stopped", map[string]any{"rev": rev.Number, "say": say}) }
	done, ok := s.results.get(key{j.ID, rev.Number})
	if !ok {
		tell("busy", map[string]any{"rev": rev.Number, "line": "whether it stays on its feet is being worked out"})
		spec, file, snags := s.Desk.Read(rev.Text)
		if !snags.Stops() {
			if f := s.standing(ctx, spec, file); f != nil {
				tell("stands", stands(f))
			}
		}
		if ctx.Err() == nil {
			tell("busy", map[string]any{"rev": rev.Number, "line": "the boards are being worked out"})
		}
	}
	done, err := s.work(ctx, j.ID, rev)
	switch {
	case ctx.Err() != nil:
		stopped("")
	case err != nil:
		s.Log.Error("not worked out", "job", j.ID, "reason", err)
		stopped("This is our fault, not the job's.")
	case done.snags.Stops():
		tell("stopped", map[string]any{"rev": rev.Number, "say": "There is something to put right first.", "snags": seenSnags(done.snags)})
	default:
		tell("counted", counted(done.result))
		if done.result.Standing != nil {
			tell("stands", stands(done.result.Standing))
		}
		tell("ready", map[string]any{"rev": rev.Number})
	}
}

// standing is whether it stays on its feet, nil for what cannot be told.
func (s *Server) standing(ctx context.Context, spec job.Spec, file *jobfile.File) *job.StandingFacts {
	release, err := s.turn(ctx)
	if err != nil {
		return nil
	}
	defer release()
	r, snags, err := s.Desk.Stand(ctx, spec, file)
	if err != nil || snags.Stops() {
		return nil
	}
	return r.Standing
}

// turn waits until there is room for one more to be worked out.
func (s *Server) turn(ctx context.Context) (release func(), err error) {
	select {
	case s.turns <- struct{}{}:
		return func() { <-s.turns }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// work gives what a revision comes to; it is worked out once.
func (s *Server) work(ctx context.Context, id string, rev jobs.Revision) (worked, error) {
	k := key{id, rev.Number}
	if w, ok := s.results.get(k); ok {
		return w, nil
	}
	release, err := s.turn(ctx)
	if err != nil {
		return worked{}, err
	}
	defer release()
	if w, ok := s.results.get(k); ok { // another window has asked for it meanwhile
		return w, nil
	}
	spec, file, snags := s.Desk.Read(rev.Text)
	w := worked{snags: snags}
	if !snags.Stops() {
		if w.result, w.snags, err = s.Desk.Plan(ctx, spec, file); err != nil {
			return worked{}, err
		}
	}
	if err := ctx.Err(); err != nil { // what was cut short is not kept
		return worked{}, err
	}
	s.results.put(k, w)
	return w, nil
}

// counted is a result in four lines.
func counted(r job.Result) map[string]any {
	boards, proved := []string{}, []string{}
	for _, t := range r.Timber {
		boards = append(boards, t.Name+": "+t.Claim)
		proved = append(proved, t.Claim)
	}
	cost := "no prices yet"
	if r.Buying.Currency != "" {
		cost = r.Buying.Total + " " + r.Buying.Currency
		if r.Buying.Without != "" {
			cost += ", " + r.Buying.Without
		}
	}
	n := "1 board"
	if r.Overall.BoardCount != 1 {
		n = fmt.Sprintf("%d boards", r.Overall.BoardCount)
	}
	return map[string]any{"boards": n, "by_timber": boards, "cost": cost, "weight": r.Overall.Weight, "proved": strings.Join(proved, "; ")}
}

// stands are the facts of standing, with how much of the limit is used by what
// governs.
func stands(f *job.StandingFacts) map[string]any {
	b, err := json.Marshal(f)
	var out map[string]any
	if err == nil {
		err = json.Unmarshal(b, &out)
	}
	if err != nil {
		panic(err) // our own types always encode
	}
	out["line"], out["share"] = f.Says, nil
	if f.Governs >= 0 && f.Governs < len(f.Findings) {
		out["share"] = f.Findings[f.Governs].Use.Ratio
	}
	return out
}

// papers are the files of a packet by the name that is asked for, with their
// kind. Nothing else is written.
var papers = map[string]struct{ name, kind string }{
	"result":         {"result.json", "application/json; charset=utf-8"},
	"result.json":    {"result.json", "application/json; charset=utf-8"},
	"packet.pdf":     {"packet.pdf", "application/pdf"},
	"packet.html":    {"packet.html", "text/html; charset=utf-8"},
	"front.svg":      {"front.svg", "image/svg+xml"},
	"front.png":      {"front.png", "image/png"},
	"cut-list.csv":   {"cut-list.csv", "text/csv; charset=utf-8"},
	"boards.csv":     {"boards.csv", "text/csv; charset=utf-8"},
	"drill-list.csv": {"drill-list.csv", "text/csv; charset=utf-8"},
	"buying.csv":     {"buying.csv", "text/csv; charset=utf-8"},
}

// getPaper writes a file of the packet.
func (s *Server) getPaper(w http.ResponseWriter, r *http.Request) error {
	paper, ok := papers[r.PathValue("paper")]
	if !ok {
		return s.noRoute(w, r)
	}
	j, rev, err := s.at(r)
	if err != nil {
		return err
	}
	done, err := s.work(r.Context(), j.ID, rev)
	if err != nil {
		return err
	}
	if done.snags.Stops() {
		first := done.snags[0]
		return &refusal{http.StatusConflict, "There is something to put right first: " + first.Problem + ".", first.Remedy, first.Place.Path}
	}
	var b bytes.Buffer
	if ok, err = s.Desk.Paper(&b, done.result, paper.name); err != nil {
		return err
	}
	if !ok {
		return s.noRoute(w, r)
	}
	h := w.Header()
	h.Set("Content-Type", paper.kind)
	h.Set("X-Frame-Options", "SAMEORIGIN")
	h.Set("Content-Security-Policy", paperPolicy)
	switch {
	case strings.HasPrefix(paper.kind, "text/csv"):
		h.Set("Content-Disposition", fmt.Sprintf(`attachment; filename=%q`, paper.name))
	case paper.kind == "application/pdf": // browsers show no PDF in a sandbox
		h.Set("Content-Security-Policy", "default-src 'none'; object-src 'self'; plugin-types application/pdf; style-src 'unsafe-inline'; frame-ancestors 'self'")
	}
	w.Write(b.Bytes())
	return nil
}
