package web

import (
	"fmt"
	"net/http"
	"net/netip"
	"net/url"
	"strings"
	"testing"

	"bowerwright/internal/jobs"
)

func TestStrangersAreRefused(t *testing.T) {
	public, _ := url.Parse("https://jobs.example.org")
	s := newSite(t, func(c *Config) { c.Public, c.Hosts = public, append(c.Hosts, "192.168.1.7:8377") })
	_, api := s.begin()
	for _, c := range []struct {
		name string
		ask  ask
		want int
	}{
		{"by its address", ask{path: api}, 200},
		{"by localhost", ask{path: api, host: "localhost:8377"}, 200},
		{"by the other loopback", ask{path: api, host: "[::1]:8377"}, 200},
		{"by an address of the network", ask{path: api, host: "192.168.1.7:8377"}, 200},
		{"by the public name", ask{path: api, host: "jobs.example.org"}, 200},
		{"by a name that was pointed here", ask{path: api, host: "evil.example:8377"}, 421},
		{"by a name like ours", ask{path: api, host: "localhost.evil.example:8377"}, 421},
		{"by another port", ask{path: api, host: "localhost:80"}, 421},
		{"by no name", ask{path: api, host: " "}, 421},
		{"a page by another name", ask{path: "/", host: "evil.example"}, 421},
		{"from our page", ask{method: "DELETE", path: api}, 200},
		{"from the public page", ask{method: "DELETE", path: api, header: map[string]string{"Origin": "https://jobs.example.org"}}, 200},
		{"from the public page without TLS", ask{method: "DELETE", path: api, header: map[string]string{"Origin": "http://jobs.example.org"}}, 403},
		{"from another page", ask{method: "DELETE", path: api, header: map[string]string{"Origin": "https://evil.example"}}, 403},
		{"from another port", ask{method: "DELETE", path: api, header: map[string]string{"Origin": "http://127.0.0.1:8000"}}, 403},
		{"from a file", ask{method: "DELETE", path: api, header: map[string]string{"Origin": "null"}}, 403},
		{"reading from another page", ask{path: api, header: map[string]string{"Origin": "https://evil.example"}}, 403},
		{"an image on another page", ask{path: api, header: map[string]string{"Sec-Fetch-Site": "cross-site"}}, 403},
		{"a link on another page", ask{path: "/", header: map[string]string{"Sec-Fetch-Site": "cross-site"}}, 200},
		{"a form on another page", ask{method: "POST", path: api + "/return", body: "{}", header: map[string]string{"Sec-Fetch-Site": "cross-site", "Origin": ""}}, 403},
		{"a form without the header", ask{method: "DELETE", path: api, header: map[string]string{"Bowerwright": ""}}, 403},
		{"a program", ask{method: "DELETE", path: api, header: map[string]string{"Origin": ""}}, 200},
	} {
		if w := s.do(c.ask); w.Code != c.want {
			t.Errorf("%s: %d, want %d: %s", c.name, w.Code, c.want, w.Body)
		}
	}
}

func TestBodiesAreLimited(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	long := strings.Repeat("x", jobs.MaxText+1)
	kind := func(k string) map[string]string { return map[string]string{"Content-Type": k} }
	for _, c := range []struct {
		name, method, path, body string
		header                   map[string]string
		want                     int
	}{
		{"a file too long", "POST", "/api/jobs", `{"from":"file","text":"` + long + `"}`, nil, 413},
		{"a body too long", "POST", "/api/jobs", `{"from":"file","text":"` + strings.Repeat("x", mostBody) + `"}`, nil, 413},
		{"a value too long", "POST", api + "/edits", `{"base":1,"edits":[{"path":"name","text":"` + long + `"}],"say":""}`, nil, 413},
		{"a form", "POST", "/api/jobs", "from=new", kind("application/x-www-form-urlencoded"), 415},
		{"a text that a form may send", "POST", "/api/jobs", `{"from":"new"}`, kind("text/plain"), 415},
		{"files", "POST", "/api/jobs", "--x--", kind("multipart/form-data; boundary=x"), 415},
		{"no kind", "POST", "/api/jobs", `{"from":"new"}`, kind(""), 415},
		{"JSON with its letters", "POST", "/api/jobs", `{"from":"new"}`, kind("application/json; charset=utf-8"), 201},
		{"nothing", "POST", "/api/jobs", "", nil, 400},
		{"no object", "POST", "/api/jobs", "[1]", nil, 400},
		{"two", "POST", "/api/jobs", `{"from":"new"} {"from":"new"}`, nil, 400},
		{"more than is known", "POST", "/api/jobs", `{"from":"new","to":"old"}`, nil, 400},
		{"from nowhere", "POST", "/api/jobs", `{"from":"web"}`, nil, 400},
		{"an empty file", "POST", "/api/jobs", `{"from":"file","text":" "}`, nil, 400},
		{"deep", "POST", "/api/jobs", strings.Repeat(`{"a":`, 100_000), nil, 400},
		{"a copy of none", "POST", "/api/jobs", `{"from":"copy","of":"none"}`, nil, 404},
		{"a job that is none", "GET", "/api/jobs/none", "", nil, 404},
		{"a revision that is none", "GET", api + "?rev=2", "", nil, 404},
		{"a revision that is no number", "GET", api + "?rev=x", "", nil, 404},
		{"a paper that is none", "GET", api + "/secret.txt", "", nil, 404},
		{"another method", "PATCH", "/api/jobs", "", nil, 404},
	} {
		if w := s.do(ask{method: c.method, path: c.path, body: c.body, header: c.header}); w.Code != c.want {
			t.Errorf("%s: %d, want %d: %.200s", c.name, w.Code, c.want, w.Body)
		}
	}
}

// Whatever is answered says how it is to be taken.
func TestHeadersOnEverything(t *testing.T) {
	s := newSite(t)
	_, api := s.begin()
	for _, a := range []ask{{path: "/"}, {path: api}, {path: "/none.js"}, {path: api, host: "evil.example"}, {path: api + "/file"}, {path: api + "/result"}, {method: "POST", path: api}} {
		h := s.do(a).Header()
		csp := h.Get("Content-Security-Policy")
		if !strings.HasPrefix(csp, "default-src 'none'") || strings.Contains(strings.Split(csp, "style-src")[0], "unsafe") || strings.Contains(csp, "*") || strings.Contains(csp, "http") {
			t.Errorf("%s: policy %q", a.path, csp)
		}
		if h.Get("X-Content-Type-Options") != "nosniff" || h.Get("X-Frame-Options") == "" || h.Get("Content-Type") == "" || h.Get("Referrer-Policy") != "no-referrer" {
			t.Errorf("%s: %v", a.path, h)
		}
		if h.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s may be read by other sites", a.path)
		}
	}
	if csp := s.do(ask{path: api + "/result"}).Header().Get("Content-Security-Policy"); strings.Contains(csp, "script-src") {
		t.Errorf("a paper may run scripts: %s", csp)
	}
}

func TestWhoAsks(t *testing.T) {
	s := newSite(t, func(c *Config) { c.Trust = []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8")} })
	for _, c := range []struct{ from, chain, want string }{
		{"203.0.113.5:1", "", "203.0.113.5"},
		{"203.0.113.5:1", "198.51.100.1", "203.0.113.5"}, // no proxy of ours: it may say what it likes
		{"10.0.0.1:1", "198.51.100.1", "198.51.100.1"},
		{"10.0.0.1:1", "1.2.3.4, 198.51.100.1", "198.51.100.1"}, // what came before the proxy is hearsay
		{"10.0.0.1:1", "198.51.100.1, 10.9.9.9", "198.51.100.1"},
		{"10.0.0.1:1", "nonsense", "10.0.0.1"},
		{"[::ffff:10.0.0.1]:1", "198.51.100.1", "198.51.100.1"},
		{"[2001:db8::1]:1", "198.51.100.1", "2001:db8::1"},
	} {
		r := ask{header: map[string]string{"X-Forwarded-For": c.chain}}.request()
		r.RemoteAddr = c.from
		if got := s.s.peer(r); got != c.want {
			t.Errorf("from %s by %q: %s, want %s", c.from, c.chain, got, c.want)
		}
	}
	for _, c := range []struct {
		from, proto string
		want        bool
	}{{"10.0.0.1:1", "https", true}, {"10.0.0.1:1", "http", false}, {"203.0.113.5:1", "https", false}} {
		r := ask{header: map[string]string{"X-Forwarded-Proto": c.proto}}.request()
		if r.RemoteAddr = c.from; s.s.secure(r) != c.want {
			t.Errorf("%+v", c)
		}
	}
}

// routesOf are all routes with a job in them.
func routesOf(id string) []string {
	var out []string
	for _, tail := range []string{"", "/return", "/state", "/file", "/written", "/edits", "/moves", "/back", "/forward", "/result", "/packet.pdf", "/front.svg", "/none"} {
		out = append(out, "/api/jobs/"+id+tail)
	}
	return append(out, "/", "/api/jobs", "/api/fields", "/api/sign-in", "/api/sign-out", "/api/passphrase", "/api/code", "/api/", "/font/Go-Bold.ttf", "/sign-in", "/app.js", "/jobs/x")
}

// FuzzRoutes sends anything to every route: nothing may stop the program, and
// nothing is our fault.
func FuzzRoutes(f *testing.F) {
	for i, body := range []string{
		`{"from":"new"}`, `{"base":1,"edits":[{"path":"name","text":"x"}],"say":"x"}`, `{"base":1,"edits":[{"path":"[","text":"]"}]}`,
		`{"base":1,"edits":[{"path":"","text":"x"}]}`, `{"base":1,"edits":[{"path":".","text":""}]}`, `{"base":1,"edits":[{"path":"layout[0]","text":"a"}]}`,
		`{"base":1,"edits":[{"path":"frames.big[99999999999999999999]","text":"a"}]}`, `{"base":1,"edits":[{"path":"a[-1]","text":"a"}]}`,
		`{"base":1,"edits":[{"path":"frames.big.flats","text":"a: b\nc: d"}]}`, `{"base":1,"edits":[{"path":"name","text":"\u0000"}]}`,
		`{"base":1,"move":{"do":"set","kind":"big","at":[1e308,-1e308],"turn":1e300}}`, `{"base":1,"move":{"do":"nudge","ids":["A"],"marks":[9007199254740993,1]}}`,
		`{"base":1,"move":{"do":"turn","ids":["A","B"],"steps":-9223372036854775808}}`, `{"base":1,"move":{"do":"copy","ids":["A"],"by":[1,2]}}`,
		`{"base":1,"move":{"do":"set","id":"A","hold":{"side":1,"to":"B","toSide":1}}}`, `{"base":1,"move":{"do":"takeaway","ids":["A","B"]}}`,
		`{"state":"made"}`, `{"word":"x"}`, `{"old":"","new":"a long enough passphrase"}`, `null`, `"x"`, `{`, ``,
	} {
		for _, route := range []int{i % len(routesOf("")), 2, 5, 6, 14} { // one of all, and those that take much
			f.Add(uint8(i), uint8(route), body, "rev=1")
		}
	}
	methods := []string{"POST", "GET", "PUT", "DELETE", "HEAD", "OPTIONS", "PATCH", "TRACE"}
	f.Fuzz(func(t *testing.T, method, route uint8, body, query string) {
		s := newSite(t, func(c *Config) { c.Desk = quickDesk{} })
		id, api := s.begin()
		routes := routesOf(id)
		a := ask{method: methods[int(method)%len(methods)], path: routes[int(route)%len(routes)] + "?" + query, body: body}
		for range 2 { // an answer from a cache is one, too
			if w := s.do(a); w.Code >= 500 {
				t.Fatalf("%s %s: %d %s", a.method, a.path, w.Code, w.Body)
			}
		}
		if w := s.do(ask{path: api}); w.Code != http.StatusOK {
			t.Fatalf("the job cannot be seen after %s %s %q: %d %s", a.method, a.path, body, w.Code, w.Body)
		}
	})
}

func TestEveryRouteWithEveryMethod(t *testing.T) {
	s := newSite(t, func(c *Config) { c.Desk = quickDesk{} })
	id, _ := s.begin()
	for _, path := range routesOf(id) {
		for _, m := range []string{"GET", "POST", "PUT", "DELETE", "HEAD", "OPTIONS", "PATCH", "CONNECT", "X"} {
			for _, body := range []string{"", "{}", "[]", `{"base":1}`, `{"base":-1,"edits":null,"move":null}`} {
				if w := s.do(ask{method: m, path: path, body: body}); w.Code >= 500 {
					t.Errorf("%s %s %s: %d %s", m, path, body, w.Code, w.Body)
				}
			}
		}
	}
	if w := s.do(ask{path: fmt.Sprint("/api/jobs/", strings.Repeat("a", 5000))}); w.Code != 404 {
		t.Errorf("a long id: %d", w.Code)
	}
}
