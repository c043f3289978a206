// Package web serves the pages and what they ask for: jobs as they stand,
// changes of them, and what follows from them.
//
// A page sends what a person means ("this frame against that side"), and draws
// what it is told; every change goes into the text of the job file and is kept
// before it is answered. A change on an older revision is merged when it is
// about another place of the file than what came between, else refused with
// both texts.
//
// Everything that goes in is limited: hosts, origins, bytes, kinds of body. No
// part of a request is ever a path on the disk: pages come from the files built
// into the program, jobs from the store by their id. The package knows nothing
// of where the store is; see docs/threats.md for what it guards against, and
// what not.
package web

import (
	"context"
	"embed"
	"io"
	"io/fs"
	"log/slog"
	"net/http"
	"net/netip"
	"net/url"
	"time"

	"bowerwright/internal/jobs"
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
)

//go:embed all:app
var built embed.FS

// A Desk works jobs out; the command line does it in the same way.
type Desk interface {
	// Read gives a job as asked, with what is to be put right.
	Read(text []byte) (job.Spec, *jobfile.File, snag.List)
	// Stand works out standing, Plan all; snags have their places.
	Stand(ctx context.Context, spec job.Spec, file *jobfile.File) (job.Result, snag.List, error)
	Plan(ctx context.Context, spec job.Spec, file *jobfile.File) (job.Result, snag.List, error)
	// Paper writes one file of the packet by its name; false when it has none.
	Paper(w io.Writer, r job.Result, name string) (bool, error)
}

// Config is what a server is made of. Store and Desk are needed.
type Config struct {
	Store jobs.Store
	Desk  Desk
	Gate  *Gate // who may come in; nil for everybody who reaches it
	App   fs.FS // the pages, nil for those that are built in

	// Hosts are the names, with their port where it is not usual, by which
	// the server is asked: any other Host header is refused. Names of the
	// loopback are always right on a loopback address.
	Hosts  []string
	Public *url.URL       // the address that people type, nil for none of its own
	Trust  []netip.Prefix // proxies whose X-Forwarded-For and -Proto are believed

	Now func() time.Time // for who came in when; nil for the time there is
	Log *slog.Logger     // nil for none
}

// A Server answers requests; make one with New.
type Server struct {
	Config
	handler http.Handler
	hub     hub
	floors  cache[floored] // by the hash of the text
	views   cache[View]
	cards   cache[card]
	results cache[worked]
	turns   chan struct{} // so many jobs are worked out at once
}

// atOnce is how many jobs are worked out at once: one more than windows that a
// person looks at.
const atOnce = 2

// New makes a server.
func New(c Config) *Server {
	if c.App == nil {
		c.App, _ = fs.Sub(built, "app")
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	s := &Server{Config: c, turns: make(chan struct{}, atOnce)}
	s.handler = s.guard(s.routes())
	return s
}

// ServeHTTP implements http.Handler.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// routes is every route there is.
func (s *Server) routes() *http.ServeMux {
	m := http.NewServeMux()
	for pattern, f := range map[string]func(http.ResponseWriter, *http.Request) error{
		"GET /api/jobs":               s.listJobs,
		"POST /api/jobs":              s.newJob,
		"GET /api/jobs/{id}":          s.getView,
		"DELETE /api/jobs/{id}":       s.putAway(true),
		"POST /api/jobs/{id}/return":  s.putAway(false),
		"PUT /api/jobs/{id}/state":    s.setState,
		"GET /api/jobs/{id}/file":     s.getFile,
		"GET /api/jobs/{id}/written":  s.getWritten,
		"POST /api/jobs/{id}/edits":   s.postEdits,
		"POST /api/jobs/{id}/moves":   s.postMove,
		"POST /api/jobs/{id}/back":    s.postHead(jobs.Store.Back),
		"POST /api/jobs/{id}/forward": s.postHead(jobs.Store.Forward),
		"GET /api/jobs/{id}/answers":  s.getAnswers,
		"GET /api/jobs/{id}/changes":  s.getChanges,
		"GET /api/jobs/{id}/{paper}":  s.getPaper,
		"GET /api/fields":             s.getFields,
		"POST /api/sign-in":           s.signIn,
		"POST /api/sign-out":          s.signOut,
		"GET /api/sign-in":            s.whoIsIn,
		"POST /api/code":              s.newCode,
		"POST /api/passphrase":        s.setPassphrase,
		"/api/":                       s.noRoute,
		"GET /font/{name}":            s.getFont,
		"GET /sign-in":                s.signInPage,
		"/":                           s.getPage,
	} {
		m.HandleFunc(pattern, s.answer(f))
	}
	return m
}
