package web

import (
	"fmt"
	"math"
	"net/http"
	"strings"

	"bowerwright/internal/jobs"
	"bowerwright/jobfile"
)

func degrees(radians float64) float64 { return math.Round(radians*180/math.Pi*1e6)/1e6 + 0 }

// mostSay is how long a word for undoing may be, and a window's name.
const mostSay, mostWindow = 120, 64

// listed is a job in the list.
type listed struct {
	card
	ID      string `json:"id"`
	State   string `json:"state"`
	Changed string `json:"changed"` // RFC 3339, UTC
	Away    bool   `json:"away"`
}

// listJobs gives all jobs; with away=1 also those that are put away.
func (s *Server) listJobs(w http.ResponseWriter, r *http.Request) error {
	all, err := s.Store.All(r.Context())
	if err != nil {
		return err
	}
	out := []listed{}
	for _, j := range all {
		if j.Away && r.URL.Query().Get("away") != "1" {
			continue
		}
		c, err := s.card(r, j)
		if err != nil {
			return err
		}
		out = append(out, listed{c, j.ID, j.State, j.Changed.Format("2006-01-02T15:04:05Z07:00"), j.Away})
	}
	tell(w, http.StatusOK, map[string]any{"jobs": out, "states": jobs.States()})
	return nil
}

func (s *Server) card(r *http.Request, j jobs.Job) (card, error) {
	k := key{j.ID, j.Head}
	if c, ok := s.cards.get(k); ok {
		return c, nil
	}
	rev, err := s.Store.Revision(r.Context(), j.ID, j.Head)
	if err != nil {
		return card{}, err
	}
	v, err := s.view(j, rev)
	if err != nil { // the list is shown whatever is wrong with one of them
		s.Log.Error("no card", "job", j.ID, "reason", err)
		return card{Name: "job " + j.ID}, nil
	}
	c := cardOf(v)
	s.cards.put(k, c)
	return c, nil
}

// newJob begins a job: empty, as a copy, or from a file that is taken in.
func (s *Server) newJob(w http.ResponseWriter, r *http.Request) error {
	var asked struct {
		From string `json:"from"`
		Of   string `json:"of"`
		Text string `json:"text"`
		Name string `json:"name"`
	}
	if err := take(r, &asked); err != nil {
		return err
	}
	c := jobs.Change{Window: window(r)}
	switch asked.From {
	case "new":
		c.Text, c.Say = jobfile.Starter(oneLine(asked.Name, mostSay)), "begun"
	case "file":
		if strings.TrimSpace(asked.Text) == "" {
			return bad("The file is empty.")
		}
		c.Text, c.Say = []byte(asked.Text), "taken in"
	case "copy":
		j, err := s.Store.Job(r.Context(), asked.Of)
		if err != nil {
			return err
		}
		rev, err := s.Store.Revision(r.Context(), j.ID, j.Head)
		if err != nil {
			return err
		}
		c.Text, c.Say = rev.Text, "copied"
	default:
		return bad("A job is begun from new, copy or file.")
	}
	j, err := s.Store.New(r.Context(), c)
	if err != nil {
		return err
	}
	tell(w, http.StatusCreated, map[string]any{"id": j.ID, "rev": j.Head})
	return nil
}

func window(r *http.Request) string { return oneLine(r.Header.Get("Window"), mostWindow) }

func (s *Server) getView(w http.ResponseWriter, r *http.Request) error {
	j, rev, err := s.at(r)
	if err != nil {
		return err
	}
	v, err := s.view(j, rev)
	if err != nil {
		return err
	}
	tell(w, http.StatusOK, v)
	return nil
}

// getFile hands the job file out, byte for byte.
func (s *Server) getFile(w http.ResponseWriter, r *http.Request) error {
	j, rev, err := s.at(r)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/yaml; charset=utf-8")
	w.Header().Set("Content-Disposition", fmt.Sprintf(`attachment; filename="%s.yaml"`, j.ID))
	w.Write(rev.Text)
	return nil
}

func (s *Server) getWritten(w http.ResponseWriter, r *http.Request) error {
	_, rev, err := s.at(r)
	if err != nil {
		return err
	}
	tell(w, http.StatusOK, map[string]any{"written": jobfile.Written(rev.Text)})
	return nil
}

func (s *Server) putAway(away bool) func(http.ResponseWriter, *http.Request) error {
	return func(w http.ResponseWriter, r *http.Request) error {
		if err := s.Store.PutAway(r.Context(), r.PathValue("id"), away); err != nil {
			return err
		}
		tell(w, http.StatusOK, map[string]any{})
		return nil
	}
}

func (s *Server) setState(w http.ResponseWriter, r *http.Request) error {
	var asked struct {
		State string `json:"state"`
	}
	if err := take(r, &asked); err != nil {
		return err
	}
	if err := s.Store.SetState(r.Context(), r.PathValue("id"), asked.State); err != nil {
		return err
	}
	tell(w, http.StatusOK, map[string]any{"state": asked.State})
	return nil
}

func (s *Server) getFields(w http.ResponseWriter, r *http.Request) error {
	fields, shapes := jobfile.Forms()
	tell(w, http.StatusOK, map[string]any{"fields": fields, "shapes": shapes})
	return nil
}

func (s *Server) noRoute(http.ResponseWriter, *http.Request) error {
	return &refusal{http.StatusNotFound, "There is nothing at this address.", "", ""}
}
