package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"
)

// A page is a buffer that may be read while it is written.
type page struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (p *page) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.b.Write(b)
}

func (p *page) String() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.b.String()
}

// served runs serve until the test ends, and gives what it said and its address.
func served(t *testing.T, args ...string) (said *page, url string, stop func() int) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	said = &page{}
	code := make(chan int, 1)
	go func() { code <- Main(ctx, append([]string{"serve"}, args...), said, said, "test") }()
	once := sync.OnceValue(func() int { cancel(); return <-code })
	t.Cleanup(func() { once() })
	for range 500 {
		if m := regexp.MustCompile(`Open (http://\S+)`).FindStringSubmatch(said.String()); m != nil {
			return said, m[1], once
		}
		select {
		case c := <-code:
			t.Fatalf("ended with %d: %s", c, said)
		case <-time.After(20 * time.Millisecond):
		}
	}
	t.Fatalf("nothing is served: %s", said)
	return
}

func send(t *testing.T, method, url, body string, cookies ...*http.Cookie) (int, string, []*http.Cookie) {
	t.Helper()
	r, err := http.NewRequest(method, url, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Bowerwright", "1")
	r.Header.Set("Content-Type", "application/json")
	for _, c := range cookies {
		r.AddCookie(c)
	}
	w, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer w.Body.Close()
	text, _ := io.ReadAll(w.Body)
	return w.StatusCode, string(text), w.Cookies()
}

func ran(args ...string) (int, string) {
	var out bytes.Buffer
	code := Main(context.Background(), args, &out, &out, "test")
	return code, out.String()
}

// A job that is taken in, handed out and planned from the pages is the job that
// plan works out of the file, and survives a backup.
func TestServeBackupRestore(t *testing.T) {
	t.Setenv("HOME", t.TempDir())
	dir := filepath.Join(t.TempDir(), "jobs")
	said, url, stop := served(t, dir, "--addr", "127.0.0.1:0")
	if strings.Contains(said.String(), "sign in") {
		t.Errorf("said: %s", said)
	}
	if code, text, _ := send(t, "GET", url, ""); code != 200 || !strings.Contains(text, "<html") {
		t.Errorf("first page: %d %s", code, text)
	}
	text, err := os.ReadFile("../../examples/lantern-gate.yaml")
	if err != nil {
		t.Fatal(err)
	}
	body, _ := json.Marshal(map[string]string{"from": "file", "text": string(text)})
	code, answer, _ := send(t, "POST", url+"/api/jobs", string(body))
	var begun struct{ ID string }
	if json.Unmarshal([]byte(answer), &begun); code != 201 || begun.ID == "" {
		t.Fatalf("%d %s", code, answer)
	}
	api := url + "/api/jobs/" + begun.ID
	if _, got, _ := send(t, "GET", api+"/file", ""); got != string(text) {
		t.Error("the file that is handed out is another")
	}
	_, got, _ := send(t, "GET", api+"/result.json", "")
	var want bytes.Buffer
	if code := Main(context.Background(), []string{"plan", "../../examples/lantern-gate.yaml", "--json"}, &want, io.Discard, "test"); code != 0 && code != 3 || got != want.String() {
		t.Errorf("plan ends with %d; the pages' result is the same: %v", code, got == want.String())
	}
	for _, p := range packetPapers {
		if code, got, _ := send(t, "GET", api+"/"+p.name, ""); code != 200 || len(got) == 0 {
			t.Errorf("%s: %d", p.name, code)
		}
	}
	if code, out := ran("serve", dir, "--addr", "127.0.0.1:0"); code != exitIO || !strings.Contains(out, "in use") {
		t.Errorf("a second one: %d %s", code, out)
	}
	file := filepath.Join(t.TempDir(), "b.db")
	if code, out := ran("backup", dir, "-o", file); code != 0 || !strings.Contains(out, "1 job, 1 revision") {
		t.Errorf("backup: %d %s", code, out)
	}
	if code, out := ran("backup", dir, "-o", file); code != exitIO || !strings.Contains(out, "already there") {
		t.Errorf("backup over it: %d %s", code, out)
	}
	if code, out := ran("restore", file, dir); code != exitIO || !strings.Contains(out, "in use") {
		t.Errorf("restore while served: %d %s", code, out)
	}
	if code := stop(); code != exitDone {
		t.Errorf("ended with %d: %s", code, said)
	}
	if code, out := ran("restore", file, dir); code != 0 || !strings.Contains(out, "kept as") {
		t.Errorf("restore: %d %s", code, out)
	}
	_, url, _ = served(t, dir, "--addr", "127.0.0.1:0")
	if _, got, _ := send(t, "GET", url+"/api/jobs/"+begun.ID+"/file", ""); got != string(text) {
		t.Error("after restoring the file is another")
	}
}

func TestShareAsksForASignIn(t *testing.T) {
	t.Setenv("HOME", t.TempDir())
	said, url, _ := served(t, t.TempDir(), "--addr", "127.0.0.1:0", "--share")
	m := regexp.MustCompile(`code (\w{5})-(\w{5})`).FindStringSubmatch(said.String())
	if m == nil || !strings.Contains(said.String(), "plain http") || !strings.Contains(said.String(), "▀") {
		t.Fatalf("said: %s", said)
	}
	if code, _, _ := send(t, "GET", url+"/api/jobs", ""); code != 401 {
		t.Errorf("without signing in: %d", code)
	}
	code, answer, cookies := send(t, "POST", url+"/api/sign-in", fmt.Sprintf(`{"word":"%s%s"}`, m[1], m[2]))
	if code != 200 || len(cookies) == 0 {
		t.Fatalf("%d %s", code, answer)
	}
	if code, answer, _ := send(t, "GET", url+"/api/jobs", "", cookies...); code != 200 {
		t.Errorf("signed in: %d %s", code, answer)
	}
}

func TestServeRefuses(t *testing.T) {
	t.Setenv("HOME", t.TempDir())
	dir := t.TempDir()
	foreign := t.TempDir()
	if err := os.WriteFile(filepath.Join(foreign, "jobs.db"), []byte(strings.Repeat("no store ", 100)), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"serve " + dir + " --addr 0.0.0.0:0", exitUsage, "add --share"},
		{"serve " + dir + " --addr :0", exitUsage, "add --share"},
		{"serve " + dir + " --addr 8377", exitUsage, "a host and a port"},
		{"serve " + dir + " --public-url https://jobs.example.org", exitUsage, "add --share"},
		{"serve " + dir + " --share --public-url jobs.example.org", exitUsage, "write an address"},
		{"serve " + dir + " --trust-proxy 10.0.0.0", exitUsage, "write addresses"},
		{"serve " + foreign + " --addr 127.0.0.1:0", exitIO, "no store of bowerwright"},
		{"backup " + foreign + " -o " + filepath.Join(dir, "b"), exitIO, "no store of bowerwright"},
		{"backup " + filepath.Join(dir, "none") + " -o " + filepath.Join(dir, "b"), exitIO, "holds no jobs"},
		{"restore " + filepath.Join(foreign, "jobs.db") + " " + dir, exitIO, "Nothing was changed"},
		{"restore " + filepath.Join(dir, "none") + " " + dir, exitIO, "no such file"},
	} {
		if code, out := ran(strings.Fields(c.args)...); code != c.code || !strings.Contains(out, c.says) {
			t.Errorf("%s: %d %s", c.args, code, out)
		}
	}
}

func TestHosts(t *testing.T) {
	if !loopback("127.0.0.1") || !loopback("::1") || !loopback("localhost") || loopback("") || loopback("0.0.0.0") || loopback("192.168.1.7") || loopback("localhost.example") {
		t.Error("what is this computer alone is taken for others, or the other way round")
	}
}

func BenchmarkFirstPage(b *testing.B) {
	for b.Loop() {
		ctx, cancel := context.WithCancel(context.Background())
		said, code := &page{}, make(chan int, 1)
		go func() { code <- Main(ctx, []string{"serve", b.TempDir(), "--addr", "127.0.0.1:0"}, said, said, "test") }()
		for {
			if m := regexp.MustCompile(`Open (http://\S+)`).FindStringSubmatch(said.String()); m != nil {
				if r, err := http.Get(m[1]); err == nil {
					r.Body.Close()
				}
				break
			}
			time.Sleep(time.Millisecond)
		}
		cancel()
		<-code
	}
}
