package web

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"bowerwright/internal/jobs"
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
)

// testDesk works jobs out; plan, when it is set, stands in for the real plan.
type testDesk struct {
	plan func(ctx context.Context) error
}

func (testDesk) Read(text []byte) (job.Spec, *jobfile.File, snag.List) {
	return jobfile.Read(text, "job file", nil, "")
}

func (d testDesk) Stand(ctx context.Context, spec job.Spec, _ *jobfile.File) (job.Result, snag.List, error) {
	return job.Stand(ctx, spec, job.BuiltIn())
}

func (d testDesk) Plan(ctx context.Context, spec job.Spec, f *jobfile.File) (job.Result, snag.List, error) {
	if d.plan != nil {
		if err := d.plan(ctx); err != nil {
			return job.Result{}, nil, err
		}
	}
	r, snags, err := job.Plan(ctx, spec, job.BuiltIn())
	for i := range snags {
		snags[i].Place = f.Locate(snags[i].Place.Path)
	}
	return r, snags, err
}

func (testDesk) Paper(w io.Writer, r job.Result, name string) (bool, error) {
	if name != "result.json" {
		return false, nil
	}
	return true, json.NewEncoder(w).Encode(r)
}

// A site is a server under test with the store behind it.
type site struct {
	t     testing.TB
	s     *Server
	store *jobs.Memory
}

const host = "127.0.0.1:8377"

func newSite(t testing.TB, change ...func(*Config)) *site {
	store := &jobs.Memory{}
	c := Config{Store: store, Desk: testDesk{}, Hosts: []string{host}}
	for _, f := range change {
		f(&c)
	}
	return &site{t, New(c), store}
}

// An ask is a request; its zero asks as our own pages do.
type ask struct {
	method, path, body string
	header             map[string]string // "" takes one out
	host               string
}

func (a ask) request() *http.Request {
	r := httptest.NewRequest(cmpOr(a.method, "GET"), "http://"+host+"/", strings.NewReader(a.body))
	r.URL = &url.URL{Scheme: "http", Host: host}
	r.URL.Path, r.URL.RawQuery, _ = strings.Cut(a.path, "?")
	r.RequestURI = a.path
	r.Host = cmpOr(a.host, host)
	r.RemoteAddr = "127.0.0.1:40000"
	if r.Method != "GET" {
		r.Header.Set("Bowerwright", "1")
		r.Header.Set("Window", "w1")
		r.Header.Set("Origin", "http://"+host)
		r.Header.Set("Content-Type", "application/json")
	}
	for k, v := range a.header {
		if r.Header.Set(k, v); v == "" {
			r.Header.Del(k)
		}
	}
	return r
}

func cmpOr(a, b string) string {
	if a == "" {
		return b
	}
	return a
}

func (s *site) do(a ask) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	s.s.ServeHTTP(w, a.request())
	return w
}

// get asks and decodes; the status must be as wanted.
func (s *site) get(want int, a ask) map[string]any {
	s.t.Helper()
	w := s.do(a)
	if w.Code != want {
		s.t.Fatalf("%s %s: %d, want %d: %.300s", a.method, a.path, w.Code, want, w.Body)
	}
	var out map[string]any
	if err := json.Unmarshal(w.Body.Bytes(), &out); err != nil {
		s.t.Fatalf("%s %s: %v: %.200s", a.method, a.path, err, w.Body)
	}
	return out
}

func (s *site) post(want int, path string, body any) map[string]any {
	s.t.Helper()
	b, err := json.Marshal(body)
	if err != nil {
		s.t.Fatal(err)
	}
	return s.get(want, ask{method: "POST", path: path, body: string(b)})
}

// as is post for another window.
func (s *site) as(window string, want int, path string, body any) map[string]any {
	s.t.Helper()
	b, _ := json.Marshal(body)
	return s.get(want, ask{method: "POST", path: path, body: string(b), header: map[string]string{"Window": window}})
}

type obj = map[string]any

const sample = "bowerwright: 1\r\n# a wall\r\nname: Wall\r\nunit: in\r\ntimber:\r\n  pine: {board: 1x4, length: 8 ft}\r\nframes:\r\n  big:\r\n    shape: hexagon\r\n    flats: 18   # across\r\n  odd: {shape: square, side: 9}\r\nlayout:\r\n  A: big at 0, 0\r\n  B: big side 1 on A side 4\r\n"

func (s *site) begin() (id, api string) {
	s.t.Helper()
	id = s.post(http.StatusCreated, "/api/jobs", obj{"from": "file", "text": sample})["id"].(string)
	return id, "/api/jobs/" + id
}

func (s *site) file(api string) string { return s.do(ask{path: api + "/file"}).Body.String() }

func edit(base int, path, text string) obj {
	return obj{"base": base, "edits": []obj{{"path": path, "text": text}}, "say": path}
}

func TestJobsComeAndGo(t *testing.T) {
	s := newSite(t)
	id, api := s.begin()
	if got := s.file(api); got != sample {
		t.Errorf("handed out: %q", got)
	}
	v := s.get(200, ask{path: api})
	if v["name"] != "Wall" || v["rev"] != 1.0 || v["back"] != nil || len(v["frames"].([]any)) != 2 || len(v["kinds"].([]any)) != 2 {
		t.Errorf("view: %v", v)
	}
	copied := s.post(201, "/api/jobs", obj{"from": "copy", "of": id})["id"].(string)
	if got := s.file("/api/jobs/" + copied); got != sample {
		t.Errorf("the copy: %q", got)
	}
	begun := s.post(201, "/api/jobs", obj{"from": "new", "name": "Garden\narch"})["id"].(string)
	if v := s.get(200, ask{path: "/api/jobs/" + begun}); v["name"] != "Garden arch" || len(v["snags"].([]any)) > 0 {
		t.Errorf("a new one: %v, %v", v["name"], v["snags"])
	}
	if list := s.get(200, ask{path: "/api/jobs"})["jobs"].([]any); len(list) != 3 {
		t.Errorf("listed: %v", list)
	}
	s.get(200, ask{method: "DELETE", path: api})
	if list := s.get(200, ask{path: "/api/jobs"})["jobs"].([]any); len(list) != 2 {
		t.Errorf("put away and listed: %v", list)
	}
	if list := s.get(200, ask{path: "/api/jobs?away=1"})["jobs"].([]any); len(list) != 3 {
		t.Errorf("with those away: %v", list)
	}
	s.post(200, api+"/return", obj{})
	s.get(200, ask{method: "PUT", path: api + "/state", body: `{"state":"made"}`})
	for _, c := range s.get(200, ask{path: "/api/jobs"})["jobs"].([]any) {
		if c := c.(obj); c["id"] == id && (c["state"] != "made" || c["frames"] != 2.0 || c["name"] != "Wall" || !strings.HasPrefix(c["svg"].(string), "<svg")) {
			t.Errorf("card: %v", c)
		}
	}
	s.get(400, ask{method: "PUT", path: api + "/state", body: `{"state":"lost"}`})
}

func TestChangesUndoneAndRedone(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	c := s.post(200, api+"/edits", edit(1, "frames.big.flats", "20"))
	if c["rev"] != 2.0 || c["merged"] != false {
		t.Errorf("%v", c)
	}
	want := strings.Replace(sample, "flats: 18   #", "flats: 20   #", 1)
	if got := s.file(api); got != want {
		t.Errorf("after an edit: %q", got)
	}
	c = s.post(200, api+"/moves", obj{"base": 2, "move": obj{"do": "set", "kind": "odd", "hold": obj{"side": 1, "to": "A", "toSide": 6}}})
	if v := c["view"].(obj); c["rev"] != 3.0 || len(v["frames"].([]any)) != 3 || v["back"] != "S1 set down" && v["back"] != "O1 set down" {
		t.Errorf("after a move: %v", v["back"])
	}
	c = s.post(200, api+"/back", obj{"base": 3})
	if v := c["view"].(obj); c["rev"] != 2.0 || v["back"] != "frames.big.flats" || v["forward"] == nil {
		t.Errorf("undone: %v", v)
	}
	s.post(409, api+"/back", obj{"base": 3})
	s.post(200, api+"/back", obj{"base": 2})
	s.post(409, api+"/back", obj{"base": 1})
	if got := s.file(api); got != sample {
		t.Errorf("all undone: %q", got)
	}
	s.post(200, api+"/forward", obj{"base": 1})
	if got := s.file(api); got != want {
		t.Errorf("redone: %q", got)
	}
	if c := s.post(200, api+"/edits", edit(2, "frames.big.flats", "20")); c["rev"] != 2.0 {
		t.Errorf("an edit that changes nothing made revision %v", c["rev"])
	}
	// An older revision can still be looked at.
	if v := s.get(200, ask{path: api + "?rev=1"}); v["rev"] != 1.0 || v["back"] != nil {
		t.Errorf("%v", v["rev"])
	}
}

func TestTwoWindows(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	s.as("one", 200, api+"/edits", edit(1, "frames.big.flats", "20"))
	// Another place: merged.
	c := s.as("two", 200, api+"/edits", edit(1, "name", "Other wall"))
	if c["merged"] != true || c["rev"] != 3.0 {
		t.Errorf("merged: %v at %v", c["merged"], c["rev"])
	}
	if got := s.file(api); !strings.Contains(got, "flats: 20 ") || !strings.Contains(got, "name: Other wall") {
		t.Errorf("both: %q", got)
	}
	// The same place: told, and nothing kept.
	before := s.file(api)
	x := s.as("two", 409, api+"/edits", edit(1, "frames.big.flats", "24"))
	if x["mine"] != "24" || x["theirs"] != "20" || x["head"] != 3.0 || x["path"] != "frames.big.flats" {
		t.Errorf("conflict: %v", x)
	}
	if s.file(api) != before {
		t.Error("a change that was refused was kept")
	}
	// Both mean the same: no conflict.
	s.as("two", 200, api+"/edits", edit(1, "frames.big.flats", "20"))
	// A frame is taken away here, and another laid against it there.
	s.as("one", 200, api+"/moves", obj{"base": 3, "move": obj{"do": "takeaway", "ids": []string{"B"}}})
	s.as("two", 409, api+"/moves", obj{"base": 3, "move": obj{"do": "set", "kind": "odd", "hold": obj{"side": 1, "to": "B", "toSide": 2}}})
	// A kind is taken out here, and a frame of it set down there.
	s.as("one", 200, api+"/edits", edit(4, "frames.odd", ""))
	s.as("two", 409, api+"/moves", obj{"base": 4, "move": obj{"do": "set", "kind": "odd", "at": []float64{2000, 0}}})
}

// Windows that change places of their own all at once lose nothing.
func TestManyWindowsAtOnce(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	fields := []string{"name", "for", "venue", "maker", "note"}
	for i, f := range fields { // each is there to begin with
		s.post(200, api+"/edits", edit(i+1, f, "word"))
	}
	start := len(fields)
	if f := s.get(200, ask{path: api}); f["rev"] != float64(start+1) {
		t.Fatalf("%v", f["rev"])
	}
	var wg sync.WaitGroup
	for _, f := range fields {
		wg.Go(func() {
			base := start + 1
			for n := range 8 {
				w := s.do(ask{method: "POST", path: api + "/edits", body: fmt.Sprintf(`{"base":%d,"edits":[{"path":%q,"text":"%s %d"}],"say":"x"}`, base, f, f, n)})
				var c struct{ Rev int }
				if err := json.Unmarshal(w.Body.Bytes(), &c); err != nil || w.Code != 200 {
					t.Errorf("%s %d: %d %s", f, n, w.Code, w.Body)
					return
				}
				base = c.Rev
			}
		})
	}
	wg.Wait()
	text := s.file(api)
	for _, f := range fields {
		if !strings.Contains(text, f+": "+f+" 7") {
			t.Errorf("the last change of %s is not there:\n%s", f, text)
		}
	}
}

// The pages say what is to be put right in the words of the command line.
func TestSnagsAreThoseOfTheCommandLine(t *testing.T) {
	s := newSite(t)
	for _, bad := range []string{
		strings.Replace(sample, "flats: 18", "flats: 1 800", 1), strings.Replace(sample, "on A side", "on Z side", 1),
		strings.Replace(sample, "B: big side 1 on A side 4", "B: big at 3, 0", 1), "name: [", "",
	} {
		if bad == "" {
			continue
		}
		id := s.post(201, "/api/jobs", obj{"from": "file", "text": bad})["id"].(string)
		v := s.get(200, ask{path: "/api/jobs/" + id})
		spec, file, want := jobfile.Read([]byte(bad), "job file", nil, "")
		if !want.Stops() {
			_, more, err := job.Plan(context.Background(), spec, job.BuiltIn())
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range more {
				q.Place = file.Locate(q.Place.Path)
				want.Add(q)
			}
		}
		var got []string
		for _, q := range v["snags"].([]any) {
			q := q.(obj)
			got = append(got, fmt.Sprint(q["code"], q["line"], q["problem"], q["remedy"]))
		}
		if len(got) == 0 {
			t.Errorf("%q: no snag is shown", bad)
		}
		for _, q := range want {
			if text := fmt.Sprint(q.Code, q.Place.Line, q.Problem, q.Remedy); !slices.Contains(got, text) {
				t.Errorf("%q: not shown: %s\nshown: %s", bad, text, got)
			}
		}
		if w := s.do(ask{path: "/api/jobs/" + id + "/packet.pdf"}); w.Code != 409 {
			t.Errorf("a packet of it: %d", w.Code)
		}
	}
}

func TestRefusedEditsAndMoves(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	for name, body := range map[string]obj{
		"no such base":    edit(7, "name", "x"),
		"base 0":          edit(0, "name", "x"),
		"no edit":         {"base": 1, "edits": []obj{}},
		"unknown field":   {"base": 1, "edits": []obj{}, "more": 1},
		"no such parent":  edit(1, "frames.big.flats.more.still", "1"),
		"breaks the file": edit(1, "name", "a: b: ["),
	} {
		b, _ := json.Marshal(body)
		w := s.do(ask{method: "POST", path: api + "/edits", body: string(b)})
		if w.Code != 400 && w.Code != 422 {
			t.Errorf("%s: %d %s", name, w.Code, w.Body)
		}
	}
	s.post(422, api+"/moves", obj{"base": 1, "move": obj{"do": "set", "kind": "none", "at": []int{0, 0}}})
	s.post(422, api+"/moves", obj{"base": 1, "move": obj{"do": "dance"}})
	if j, _ := s.store.Job(context.Background(), strings.TrimPrefix(api, "/api/jobs/")); j.Last != 1 {
		t.Errorf("%d revisions", j.Last)
	}
}

// fullStore has no room.
type fullStore struct{ jobs.Store }

func (fullStore) Change(context.Context, string, int, jobs.Change) (jobs.Job, error) {
	return jobs.Job{}, fmt.Errorf("%w: no space", jobs.ErrFull)
}

func TestFullDiskIsTold(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	s.s.Store = fullStore{s.store}
	c := s.post(507, api+"/edits", edit(1, "name", "x"))
	if say := c["error"].(obj)["say"].(string); !strings.Contains(say, "could not be kept") {
		t.Errorf("%q", say)
	}
}

// events reads a stream up to an event of a name, which comes back with all
// before it.
func events(t *testing.T, body io.Reader, until string) (names []string, last map[string]any) {
	t.Helper()
	name := ""
	for lines := bufio.NewScanner(body); lines.Scan(); {
		if n, ok := strings.CutPrefix(lines.Text(), "event: "); ok {
			name = n
			names = append(names, n)
		}
		if d, ok := strings.CutPrefix(lines.Text(), "data: "); ok && name == until {
			if err := json.Unmarshal([]byte(d), &last); err != nil {
				t.Fatal(err)
			}
			return names, last
		}
	}
	t.Fatalf("no event %q: %v", until, names)
	return nil, nil
}

// live serves a site over a connection, as streams need.
func (s *site) live() (url string) {
	server := httptest.NewServer(s.s)
	s.t.(*testing.T).Cleanup(server.Close)
	s.s.Hosts = append(s.s.Hosts, strings.TrimPrefix(server.URL, "http://"))
	return server.URL
}

func open(t *testing.T, url string) io.ReadCloser {
	t.Helper()
	r, err := http.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Body.Close() })
	if r.StatusCode != 200 || !strings.HasPrefix(r.Header.Get("Content-Type"), "text/event-stream") {
		t.Fatalf("%d, %s", r.StatusCode, r.Header.Get("Content-Type"))
	}
	return r.Body
}

func TestAnswers(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	at := s.live()
	names, last := events(t, open(t, at+api+"/answers?rev=1"), "ready")
	if got := strings.Join(names, " "); got != "busy stands busy counted stands ready" || last["rev"] != 1.0 {
		t.Errorf("%s, %v", got, last)
	}
	names, _ = events(t, open(t, at+api+"/answers"), "ready") // known already
	if got := strings.Join(names, " "); got != "counted stands ready" {
		t.Errorf("again: %s", got)
	}
	_, stand := events(t, open(t, at+api+"/answers"), "stands")
	r := s.get(200, ask{path: api + "/result?rev=1"})
	if stand["word"] != r["standing"].(obj)["word"] || stand["line"] != r["standing"].(obj)["says"] || stand["share"] == nil {
		t.Errorf("stands: %v", stand["line"])
	}
	_, count := events(t, open(t, at+api+"/answers"), "counted")
	if want := fmt.Sprintf("%v board", r["overall"].(obj)["board_count"]); !strings.HasPrefix(count["boards"].(string), want) {
		t.Errorf("counted: %v, want %s", count, want)
	}
	bad := s.post(201, "/api/jobs", obj{"from": "file", "text": "bowerwright: 1\nname: x\n"})["id"].(string)
	if _, last := events(t, open(t, at+"/api/jobs/"+bad+"/answers"), "stopped"); last["say"] == "" {
		t.Errorf("what stops it is not told: %v", last)
	}
}

// The next change ends what is being worked out for the one before, and so does
// the window that goes.
func TestAnswersStop(t *testing.T) {
	begun, ended := make(chan bool, 4), make(chan bool, 4)
	s := newSite(t, func(c *Config) {
		c.Desk = testDesk{plan: func(ctx context.Context) error {
			begun <- true
			<-ctx.Done()
			ended <- true
			return ctx.Err()
		}}
	})
	_, api := s.begin()
	at := s.live()
	body := open(t, at+api+"/answers")
	<-begun
	s.post(200, api+"/edits", edit(1, "name", "x"))
	<-ended
	events(t, body, "stopped")
	events(t, open(t, at+api+"/answers?rev=1"), "stopped") // of an old one nothing is worked out

	body = open(t, at+api+"/answers")
	<-begun
	body.Close()
	<-ended
	// A paper that nobody waits for any more.
	ctx, cancel := context.WithCancel(context.Background())
	r, _ := http.NewRequestWithContext(ctx, "GET", at+api+"/result", nil)
	done := make(chan error)
	go func() { _, err := http.DefaultClient.Do(r); done <- err }()
	<-begun
	cancel()
	<-ended
	<-done
}

// A fault in the sums stops one answer and not the program.
func TestFaultStopsOneAnswer(t *testing.T) {
	s := newSite(t, func(c *Config) {
		c.Desk = testDesk{plan: func(context.Context) error { panic("a fault") }}
	})
	_, api := s.begin()
	at := s.live()
	for range atOnce + 1 { // and leaves its turn to others
		_, last := events(t, open(t, at+api+"/answers"), "stopped")
		if !strings.Contains(last["say"].(string), "our fault") {
			t.Errorf("%v", last)
		}
		if w := s.do(ask{path: api + "/result"}); w.Code != 500 {
			t.Errorf("%d", w.Code)
		}
	}
	s.get(200, ask{path: api})
}

func TestOtherWindowsHear(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	at := s.live()
	mine, other := open(t, at+api+"/changes?window=w1"), open(t, at+api+"/changes?window=w2")
	s.post(200, api+"/edits", edit(1, "name", "x"))
	if _, n := events(t, other, "changed"); n["rev"] != 2.0 || n["by"] != "w1" || n["say"] != "name" {
		t.Errorf("heard: %v", n)
	}
	s.as("w2", 200, api+"/edits", edit(2, "name", "y"))
	if names, n := events(t, mine, "changed"); len(names) != 1 || n["rev"] != 3.0 {
		t.Errorf("its own change came back: %v, %v", names, n)
	}
}

func TestPages(t *testing.T) {
	s := newSite(t, func(c *Config) {
		c.App = fstest.MapFS{"index.html": {Data: []byte("<title>pages</title>")}, "app.js": {Data: []byte("1")}, "notes.txt": {Data: []byte("no")}}
	})
	for path, want := range map[string]string{
		"/": "pages", "/jobs/abc": "pages", "/jobs/abc/floor": "pages", "/app.js": "1", "/font/Go-Regular.ttf": "\x00\x01\x00\x00", "/sign-in": "Sign in", "/sign-in.js": "fetch",
	} {
		if w := s.do(ask{path: path}); w.Code != 200 || !strings.Contains(w.Body.String()[:min(2000, w.Body.Len())], want) {
			t.Errorf("%s: %d %.80q", path, w.Code, w.Body)
		}
	}
	for _, path := range []string{"/notes.txt", "/none.js", "/web_test.go", "/font/none.ttf", "/api/none", "/api/jobs/x/y/z", "/..%2f..%2fgo.mod", "/a/../../etc/passwd", "/C:/x.html", "/a\\b.js", "/\x00.js"} {
		if w := s.do(ask{path: path}); w.Code == 200 && !strings.Contains(w.Body.String(), "pages") || w.Code >= 500 {
			t.Errorf("%q: %d %.80q", path, w.Code, w.Body)
		}
	}
	empty := newSite(t, func(c *Config) { c.App = fstest.MapFS{} })
	if w := empty.do(ask{path: "/"}); w.Code != 200 || !strings.Contains(w.Body.String(), "not built") {
		t.Errorf("without pages: %d %s", w.Code, w.Body)
	}
	if w := newSite(t).do(ask{path: "/"}); w.Code != 200 {
		t.Errorf("built in: %d", w.Code)
	}
}

func TestFieldsAndWritten(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	if f := s.get(200, ask{path: "/api/fields"}); len(f["fields"].([]any)) < 20 || len(f["shapes"].([]any)) < 10 {
		t.Error("fields are missing")
	}
	var flats any
	for _, q := range s.get(200, ask{path: api + "/written?rev=1"})["written"].([]any) {
		if q := q.(obj); q["path"] == "frames.big.flats" {
			flats = q["text"]
		}
	}
	if flats != "18" {
		t.Errorf("written: %v", flats)
	}
}

func TestCacheKeepsTheLast(t *testing.T) {
	var c cache[int]
	for i := range kept + 5 {
		c.put(key{"a", i}, i)
		c.get(key{"a", 0})
	}
	if _, ok := c.get(key{"a", 0}); !ok {
		t.Error("what is asked for all the time is gone")
	}
	if _, ok := c.get(key{"a", 2}); ok || len(c.have) != kept || len(c.last) != kept {
		t.Errorf("%d kept, %d known", len(c.have), len(c.last))
	}
}

// What a drop waits for, at some forty frames.
func BenchmarkMove(b *testing.B) {
	s := newSite(b)
	var text bytes.Buffer
	text.WriteString(strings.ReplaceAll(sample, "\r", ""))
	for i := range 38 {
		fmt.Fprintf(&text, "  C%d: big at %d, %d\n", i, 40+22*(i%8), 18*(i/8))
	}
	id := s.post(201, "/api/jobs", obj{"from": "file", "text": text.String()})["id"].(string)
	rev, n := 1.0, 1
	for b.Loop() {
		n = -n
		rev = s.post(200, "/api/jobs/"+id+"/moves", obj{"base": rev, "move": obj{"do": "nudge", "ids": []string{"A"}, "marks": []int{n, 0}}})["rev"].(float64)
	}
}
