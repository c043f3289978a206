package web

import (
	"bytes"
	"errors"
	"io/fs"
	"net/http"
	"path"
	"strings"
	"time"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomedium"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/gomonobold"
	"golang.org/x/image/font/gofont/goregular"
)

var fonts = map[string][]byte{
	"Go-Regular.ttf": goregular.TTF, "Go-Medium.ttf": gomedium.TTF, "Go-Bold.ttf": gobold.TTF,
	"Go-Mono.ttf": gomono.TTF, "Go-Mono-Bold.ttf": gomonobold.TTF,
}

func (s *Server) getFont(w http.ResponseWriter, r *http.Request) error {
	data, ok := fonts[r.PathValue("name")]
	if !ok {
		return s.noRoute(w, r)
	}
	w.Header().Set("Content-Type", "font/ttf")
	w.Header().Set("Cache-Control", "max-age=86400")
	w.Write(data)
	return nil
}

// kinds are those of the built pages. A file of another kind is not served.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8",
	".svg": "image/svg+xml", ".png": "image/png", ".webmanifest": "application/manifest+json", ".woff2": "font/woff2", ".ttf": "font/ttf",
}

// getPage serves the built pages: a file by its name, and the first page for
// every address that the pages make up themselves. The names come from the
// program's own files, never from the disk.
func (s *Server) getPage(w http.ResponseWriter, r *http.Request) error {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		return &refusal{http.StatusMethodNotAllowed, "A page can only be read.", "", ""}
	}
	name := strings.TrimPrefix(r.URL.Path, "/")
	switch {
	case name == "sign-in.js":
		return sendPage(w, r, name, []byte(signInScript))
	case path.Ext(name) == "":
		name = "index.html"
	}
	if !fs.ValidPath(name) || kinds[path.Ext(name)] == "" {
		return s.noRoute(w, r)
	}
	data, err := fs.ReadFile(s.App, name)
	if errors.Is(err, fs.ErrNotExist) && name == "index.html" {
		data, err = []byte(placeholder), nil
	}
	if err != nil {
		return s.noRoute(w, r)
	}
	return sendPage(w, r, name, data)
}

func sendPage(w http.ResponseWriter, r *http.Request, name string, data []byte) error {
	w.Header().Set("Content-Type", kinds[path.Ext(name)])
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
	return nil
}

// placeholder stands in for pages that have not been built.
const placeholder = `<!doctype html>
<html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>bowerwright</title>
<h1>bowerwright</h1>
<p>The pages are not built into this program. Jobs are kept all the same: see <a href="/api/jobs">the list</a>.</p>
</html>
`

const signInHTML = `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark">
<title>Sign in: bowerwright</title>
<style>body{font:16px/1.35 Go,sans-serif;max-width:24rem;margin:15vh auto;padding:0 16px}label{display:block;margin:16px 0 4px}input,button{font:inherit;padding:10px;min-height:44px;box-sizing:border-box;width:100%}button{margin-top:16px}:focus-visible{outline:3px solid;outline-offset:3px}</style>
</head><body><main><h1>Sign in</h1>
<p>Type the code that the program showed when it started, or the passphrase.</p>
<form id="form"><label for="word">Code or passphrase</label><input id="word" type="password" autocomplete="current-password" required>
<button>Sign in</button><p id="say" role="alert"></p></form></main>
<script src="/sign-in.js"></script></body></html>
`

// signInScript sends what is typed, or the code behind the address's #, which
// no server and no log ever sees.
const signInScript = `const say = document.getElementById('say');
async function enter(word) {
  say.textContent = '';
  const answer = await fetch('/api/sign-in', { method: 'POST', headers: { 'Content-Type': 'application/json', Bowerwright: '1' }, body: JSON.stringify({ word }) });
  if (answer.ok) location.replace('/');
  else say.textContent = ((await answer.json()).error || {}).say || 'That did not work.';
}
document.getElementById('form').addEventListener('submit', (e) => { e.preventDefault(); enter(document.getElementById('word').value); });
if (location.hash.length > 1) { const code = location.hash.slice(1); history.replaceState(null, '', '/sign-in'); enter(code); }
`

func (s *Server) signInPage(w http.ResponseWriter, r *http.Request) error {
	return sendPage(w, r, "sign-in.html", []byte(signInHTML))
}
