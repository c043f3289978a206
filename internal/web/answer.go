package web

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"
	"strconv"

	"bowerwright/internal/jobs"
	"bowerwright/jobfile"
)

// A refusal is what the person is told when something is not done.
type refusal struct {
	status             int
	say, remedy, place string
}

func (r *refusal) Error() string { return r.say }

// mostTold is how much of what was sent comes back in words.
const mostTold = 400

func refuse(w http.ResponseWriter, e *refusal) {
	tell(w, e.status, map[string]any{"error": map[string]string{"say": e.say, "remedy": e.remedy, "place": e.place}})
}

// tell writes JSON.
func tell(w http.ResponseWriter, status int, v any) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		panic(err) // our own types always encode
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	w.Write(b.Bytes())
}

// answer makes a route's error what the person is told.
func (s *Server) answer(f func(http.ResponseWriter, *http.Request) error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		err := f(w, r)
		if err == nil {
			return
		}
		e := s.refusal(err)
		if e.status >= 500 {
			s.Log.Error("not answered", "path", r.URL.Path, "reason", err)
		}
		refuse(w, e)
	}
}

func (s *Server) refusal(err error) *refusal {
	var e *refusal
	var long *http.MaxBytesError
	var edit *jobfile.CannotEditError
	var move *jobfile.CannotMoveError
	switch {
	case errors.As(err, &e):
		return e
	case errors.Is(err, jobs.ErrNone):
		return &refusal{http.StatusNotFound, "There is no such job, or no such revision of it.", "Look for it in the list of jobs.", ""}
	case errors.Is(err, jobs.ErrNowhere):
		return &refusal{http.StatusConflict, "There is nothing to take back or to bring again.", "", ""}
	case errors.Is(err, jobs.ErrState):
		return &refusal{http.StatusBadRequest, "A job has no such state.", "", ""}
	case errors.Is(err, jobs.ErrTooLong) || errors.As(err, &long):
		return &refusal{http.StatusRequestEntityTooLarge, "That is longer than a job file may be.", "", ""}
	case errors.Is(err, jobs.ErrFull):
		return &refusal{http.StatusInsufficientStorage, "It could not be kept: the disk is full, or cannot be written.", "Make room, then try again; everything before is kept.", ""}
	case errors.As(err, &edit):
		return &refusal{http.StatusUnprocessableEntity, oneLine(edit.Error(), mostTold), "", edit.Path}
	case errors.As(err, &move):
		return &refusal{http.StatusUnprocessableEntity, move.Why, move.Do, ""}
	case errors.Is(err, context.Canceled):
		return &refusal{499, "It was stopped.", "", ""} // nobody reads it
	}
	return &refusal{http.StatusInternalServerError, "This is our fault, not the job's.", "Try again; if it stays so, please report it with the job file.", ""}
}

func bad(say string) error { return &refusal{http.StatusBadRequest, say, "", ""} }

// take reads a request's JSON, one object and nothing it does not know.
func take(r *http.Request, v any) error {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/json" {
		return &refusal{http.StatusUnsupportedMediaType, "JSON is expected.", "", ""}
	}
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	err := d.Decode(v)
	var long *http.MaxBytesError
	if errors.As(err, &long) {
		return err
	}
	if err != nil {
		return bad("This is not what is expected here: " + err.Error())
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return bad("More is sent than is expected here.")
	}
	return nil
}

// revision is the number that a request asks for, the job's head without one.
func revision(r *http.Request, j jobs.Job) (int, error) {
	text := r.URL.Query().Get("rev")
	if text == "" {
		return j.Head, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > j.Last {
		return 0, jobs.ErrNone
	}
	return n, nil
}

// at finds the job and the revision that a request is about.
func (s *Server) at(r *http.Request) (jobs.Job, jobs.Revision, error) {
	j, err := s.Store.Job(r.Context(), r.PathValue("id"))
	if err != nil {
		return j, jobs.Revision{}, err
	}
	n, err := revision(r, j)
	if err != nil {
		return j, jobs.Revision{}, err
	}
	rev, err := s.Store.Revision(r.Context(), j.ID, n)
	return j, rev, err
}
