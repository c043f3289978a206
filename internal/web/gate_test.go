package web

import (
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
)

// quickDesk works nothing out that takes long.
type quickDesk struct{ testDesk }

func (quickDesk) Plan(context.Context, job.Spec, *jobfile.File) (job.Result, snag.List, error) {
	return job.Result{}, nil, nil
}

// keyring is Keys in memory.
type keyring struct {
	hash     string
	sessions map[[32]byte]time.Time
	now      func() time.Time
}

func (k *keyring) Secret(context.Context) (string, error) { return k.hash, nil }
func (k *keyring) SetSecret(_ context.Context, hash string) error {
	k.hash, k.sessions = hash, map[[32]byte]time.Time{}
	return nil
}
func (k *keyring) AddSession(_ context.Context, t [32]byte, until time.Time) error {
	k.sessions[t] = until
	return nil
}
func (k *keyring) Session(_ context.Context, t [32]byte) (bool, error) {
	return k.now().Before(k.sessions[t]), nil
}
func (k *keyring) EndSession(_ context.Context, t [32]byte) error {
	delete(k.sessions, t)
	return nil
}

// gated is a site with a gate, and a clock that the test turns.
type gated struct {
	*site
	gate *Gate
	keys *keyring
	at   time.Time
}

func newGated(t *testing.T, change ...func(*Config)) *gated {
	g := &gated{at: time.Unix(1_800_000_000, 0)}
	now := func() time.Time { return g.at }
	g.keys = &keyring{sessions: map[[32]byte]time.Time{}, now: now}
	g.gate = NewGate(g.keys, now)
	g.gate.memory = 64
	g.site = newSite(t, append(change, func(c *Config) { c.Gate, c.Desk = g.gate, quickDesk{} })...)
	return g
}

func (g *gated) enter(word string, header map[string]string) *httptest.ResponseRecorder {
	return g.do(ask{method: "POST", path: "/api/sign-in", body: `{"word":"` + word + `"}`, header: header})
}

// cookie is what a browser sends after an answer.
func cookie(w *httptest.ResponseRecorder) map[string]string {
	for _, c := range w.Result().Cookies() {
		if c.Value != "" {
			return map[string]string{"Cookie": c.Name + "=" + c.Value}
		}
	}
	return nil
}

func TestNothingWithoutSigningIn(t *testing.T) {
	g := newGated(t)
	for _, path := range routesOf("x") {
		w := g.do(ask{path: path})
		switch path {
		case "/sign-in", "/api/sign-in", "/font/Go-Bold.ttf":
			if w.Code != 200 {
				t.Errorf("%s: %d", path, w.Code)
			}
		default:
			if w.Code != 401 && w.Code != 303 || strings.HasPrefix(path, "/api/") && w.Code != 401 {
				t.Errorf("%s: %d", path, w.Code)
			}
		}
		if w := g.do(ask{method: "POST", path: path, body: "{}", header: map[string]string{"Cookie": "bowerwright=0123456789012345678901234567890"}}); w.Code != 401 && w.Code != 303 && path != "/sign-in" && !strings.HasPrefix(path, "/font") && path != "/api/sign-in" {
			t.Errorf("with a made-up cookie, %s: %d", path, w.Code)
		}
	}
}

func TestCodeLetsOneIn(t *testing.T) {
	g := newGated(t)
	old := g.gate.NewCode()
	code := g.gate.NewCode()
	if w := g.enter(old, nil); w.Code != 403 {
		t.Errorf("an old code: %d", w.Code)
	}
	w := g.enter(strings.ToLower(code[:5]+"-"+code[5:]), nil)
	if w.Code != 200 {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	c := w.Result().Cookies()[0]
	if !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Secure || c.Path != "/" {
		t.Errorf("cookie: %v", c)
	}
	in := cookie(w)
	if w := g.do(ask{path: "/api/jobs", header: in}); w.Code != 200 {
		t.Errorf("inside: %d", w.Code)
	}
	if w := g.enter(code, nil); w.Code != 403 {
		t.Errorf("the code a second time: %d", w.Code)
	}
	var more struct{ Code, Address, SVG string }
	if w := g.do(ask{method: "POST", path: "/api/code", body: "{}", header: in}); json.Unmarshal(w.Body.Bytes(), &more) != nil || !strings.Contains(more.SVG, "<svg") {
		t.Errorf("a code for another device: %d %s", w.Code, w.Body)
	}
	if want := "http://" + host + "/sign-in#" + strings.ReplaceAll(more.Code, "-", ""); more.Address != want {
		t.Errorf("its address is %s, want %s", more.Address, want)
	}
	if w := g.enter(more.Code, nil); w.Code != 200 {
		t.Errorf("by the code for another device: %d", w.Code)
	}
	g.at = g.at.Add(sessionLife)
	if w := g.do(ask{path: "/api/jobs", header: in}); w.Code != 401 {
		t.Errorf("after a season: %d", w.Code)
	}
	code = g.gate.NewCode()
	g.at = g.at.Add(codeLife)
	if w := g.enter(code, nil); w.Code != 403 {
		t.Errorf("a code after its time: %d", w.Code)
	}
	if w := g.enter("", nil); w.Code != 403 {
		t.Errorf("no code: %d", w.Code)
	}
}

func TestPassphrase(t *testing.T) {
	g := newGated(t)
	first := cookie(g.enter(g.gate.NewCode(), nil))
	other := cookie(g.enter(g.gate.NewCode(), nil))
	set := func(header map[string]string, old, new string) *httptest.ResponseRecorder {
		return g.do(ask{method: "POST", path: "/api/passphrase", body: `{"old":"` + old + `","new":"` + new + `"}`, header: header})
	}
	if w := set(nil, "", "four words in a row"); w.Code != 401 {
		t.Errorf("by nobody: %d", w.Code)
	}
	if w := set(first, "", "short"); w.Code != 422 {
		t.Errorf("too short: %d", w.Code)
	}
	w := set(first, "", "four words in a row")
	if w.Code != 200 {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	now := cookie(w)
	for name, c := range map[string]struct {
		header map[string]string
		want   int
	}{"who set it": {now, 200}, "by the session before": {first, 401}, "another": {other, 401}} {
		if w := g.do(ask{path: "/api/jobs", header: c.header}); w.Code != c.want {
			t.Errorf("%s: %d", name, w.Code)
		}
	}
	if strings.Contains(g.keys.hash, "words") {
		t.Errorf("kept as %s", g.keys.hash)
	}
	if w := g.enter("four words in a row", nil); w.Code != 200 {
		t.Errorf("%d", w.Code)
	}
	if w := g.enter("four words in a raw", nil); w.Code != 403 {
		t.Errorf("nearly right: %d", w.Code)
	}
	if w := set(now, "wrong", "other words in a row"); w.Code != 403 {
		t.Errorf("changed without the old one: %d", w.Code)
	}
	if w := set(now, "four words in a row", "other words in a row"); w.Code != 200 {
		t.Errorf("changed: %d %s", w.Code, w.Body)
	}
	if w := g.enter("four words in a row", nil); w.Code != 403 {
		t.Errorf("the old one: %d", w.Code)
	}
	in := cookie(g.enter("other words in a row", nil))
	if w := g.do(ask{method: "POST", path: "/api/sign-out", body: "{}", header: in}); w.Code != 200 {
		t.Errorf("signing out: %d", w.Code)
	}
	if w := g.do(ask{path: "/api/jobs", header: in}); w.Code != 401 {
		t.Errorf("signed out: %d", w.Code)
	}
}

func TestGuessingIsSlow(t *testing.T) {
	g := newGated(t)
	code := g.gate.NewCode()
	for i := range freeTries {
		if w := g.enter("wrong", nil); w.Code != 403 {
			t.Fatalf("try %d: %d", i, w.Code)
		}
	}
	w := g.enter(code, nil)
	if w.Code != 429 || w.Header().Get("Retry-After") == "" {
		t.Errorf("after %d wrong: %d", freeTries, w.Code)
	}
	wait := time.Duration(0)
	for range 12 { // each failure waits longer
		before := g.gate.may("127.0.0.1")
		if before < wait {
			t.Errorf("the wait goes from %v to %v", wait, before)
		}
		wait = before
		g.at = g.at.Add(before)
		g.enter("wrong", nil)
	}
	if wait != mostWait && wait < 8*time.Minute {
		t.Errorf("the wait is %v", wait)
	}
	g.at = g.at.Add(mostWait)
	code = g.gate.NewCode()
	if w := g.enter(code, nil); w.Code != 200 {
		t.Errorf("after waiting: %d", w.Code)
	}
	if g.gate.may("127.0.0.1") > 0 {
		t.Error("who is in still waits")
	}
}

// Many addresses do not fill the memory, nor help who has them.
func TestManyAddresses(t *testing.T) {
	g := newGated(t)
	for i := range 3 * mostPeers {
		g.gate.failed(string(rune('a'+i%26)) + strings.Repeat("x", i/26))
	}
	if n := len(g.gate.tries); n > mostPeers {
		t.Errorf("%d are remembered", n)
	}
	if g.gate.may("somebody new") <= 0 {
		t.Error("one more address need not wait")
	}
	g.at = g.at.Add(2 * time.Hour)
	g.gate.failed("again")
	if n := len(g.gate.tries); n != 1 {
		t.Errorf("%d are remembered after two hours", n)
	}
}

func TestCookieOverTLS(t *testing.T) {
	public, _ := url.Parse("https://jobs.example.org")
	g := newGated(t, func(c *Config) { c.Public = public })
	c := g.enter(g.gate.NewCode(), nil).Result().Cookies()[0]
	if !c.Secure || c.Name != secureCookie {
		t.Errorf("%v", c)
	}
}

func TestHashesOfOthers(t *testing.T) {
	g := newGated(t)
	g.gate = NewGate(g.keys, g.gate.now)
	hash := g.gate.hashOf("correct horse battery staple")
	if !g.gate.fits("correct horse battery staple", hash) || g.gate.fits("correct horse battery stable", hash) {
		t.Error("a hash does not tell its passphrase")
	}
	if !strings.HasPrefix(hash, "$argon2id$v=19$m=65536,t=3,p=4$") {
		t.Errorf("made with %s", hash)
	}
	if hash == g.gate.hashOf("correct horse battery staple") {
		t.Error("the same salt twice")
	}
	for _, bad := range []string{"", "x", "$argon2i$v=19$m=8,t=1,p=1$c2FsdA$aGFzaA", "$argon2id$v=16$m=8,t=1,p=1$c2FsdA$aGFzaA", "$argon2id$v=19$m=8,t=0,p=1$c2FsdA$aGFzaA", "$argon2id$v=19$m=8,t=1,p=1$!$aGFzaA", "$argon2id$v=19$m=8,t=1,p=1$c2FsdA$"} {
		if g.gate.fits("correct horse battery staple", bad) {
			t.Errorf("%q fits", bad)
		}
	}
}

func TestNoGate(t *testing.T) {
	s := newSite(t)
	if v := s.get(200, ask{path: "/api/sign-in"}); v["needed"] != false {
		t.Errorf("%v", v)
	}
	s.post(404, "/api/sign-in", obj{"word": "x"})
	s.post(404, "/api/sign-out", obj{})
	s.post(404, "/api/code", obj{})
	s.post(404, "/api/passphrase", obj{"new": "x"})
}
