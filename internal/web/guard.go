package web

import (
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"runtime/debug"
	"slices"
	"strings"

	"bowerwright/internal/jobs"
)

// mostBody is how long a request's body may be: a job file in JSON, every byte
// of which may need six.
const mostBody = 6*jobs.MaxText + 64<<10

// policy lets a page load what comes from the program itself and nothing else.
// Styles may stand in the page: drawings carry them. The packet's own page has
// nothing but those.
const (
	policy      = "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self'; frame-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
	paperPolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'; sandbox"
)

// guard looks at every request before any route does.
func (s *Server) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			if p := recover(); p != nil {
				if p == http.ErrAbortHandler {
					panic(p)
				}
				s.Log.Error("stopped inside", "reason", fmt.Sprint(p), "stack", string(debug.Stack()))
				refuse(w, &refusal{http.StatusInternalServerError, "This is our fault, not the job's.", "Try again; if it stays so, please report it with the job file.", ""})
			}
		}()
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=()")
		h.Set("Cache-Control", "no-store")
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		if e := s.stranger(r); e != nil {
			refuse(w, e)
			return
		}
		if e := s.outside(r); e != nil {
			if e.status == http.StatusUnauthorized && !strings.HasPrefix(r.URL.Path, "/api/") {
				http.Redirect(w, r, "/sign-in", http.StatusSeeOther)
				return
			}
			refuse(w, e)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// stranger refuses a request that another site has made a browser send: asked
// by a name that is none of ours (DNS rebinding), or from a page that is none
// of ours.
func (s *Server) stranger(r *http.Request) *refusal {
	if !s.ours(r.Host) {
		return &refusal{http.StatusMisdirectedRequest, "The program is not known by this name.", "Type the address that it showed when it started.", ""}
	}
	if origin := r.Header.Get("Origin"); origin != "" {
		u, err := url.Parse(origin)
		if err != nil || u.Host != r.Host && !(s.Public != nil && u.Host == s.Public.Host && u.Scheme == s.Public.Scheme) {
			return &refusal{http.StatusForbidden, "Another site may not use this program.", "", ""}
		}
	}
	if site := r.Header.Get("Sec-Fetch-Site"); site == "cross-site" && (r.Method != http.MethodGet || strings.HasPrefix(r.URL.Path, "/api/")) {
		return &refusal{http.StatusForbidden, "Another site may not use this program.", "", ""}
	}
	if changes(r.Method) && r.Header.Get("Bowerwright") != "1" {
		return &refusal{http.StatusForbidden, "A change needs the header Bowerwright: 1.", "", ""}
	}
	return nil
}

func changes(method string) bool {
	return method != http.MethodGet && method != http.MethodHead
}

// ours tells whether a Host header names this server.
func (s *Server) ours(host string) bool {
	if s.Public != nil && host == s.Public.Host || slices.Contains(s.Hosts, host) {
		return true
	}
	name, port, err := net.SplitHostPort(host)
	if err != nil {
		return false
	}
	ip, err := netip.ParseAddr(name)
	loop := name == "localhost" || err == nil && ip.IsLoopback()
	return loop && slices.Contains(s.Hosts, net.JoinHostPort("127.0.0.1", port))
}

// outside refuses who has not signed in, where that is asked for.
func (s *Server) outside(r *http.Request) *refusal {
	if s.Gate == nil || strings.HasPrefix(r.URL.Path, "/font/") || r.URL.Path == "/sign-in" || r.URL.Path == "/sign-in.js" || r.URL.Path == "/icon.svg" || r.URL.Path == "/api/sign-in" {
		return nil
	}
	if s.Gate.inside(r) {
		return nil
	}
	return &refusal{http.StatusUnauthorized, "Please sign in.", "Use the code that the program showed, or the passphrase.", ""}
}

// peer is the address that a request came from: that of the connection, or what
// a proxy that is trusted says it was.
func (s *Server) peer(r *http.Request) string {
	from, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	ip := from.Addr().Unmap()
	chain := strings.Split(strings.Join(r.Header.Values("X-Forwarded-For"), ","), ",")
	for i := len(chain) - 1; i >= 0 && s.trusted(ip); i-- {
		next, err := netip.ParseAddr(strings.TrimSpace(chain[i]))
		if err != nil {
			break
		}
		ip = next.Unmap()
	}
	return ip.String()
}

func (s *Server) trusted(ip netip.Addr) bool {
	return slices.ContainsFunc(s.Trust, func(p netip.Prefix) bool { return p.Contains(ip) })
}

// secure tells whether the browser speaks to us over TLS.
func (s *Server) secure(r *http.Request) bool {
	if r.TLS != nil || s.Public != nil && s.Public.Scheme == "https" {
		return true
	}
	from, err := netip.ParseAddrPort(r.RemoteAddr)
	return err == nil && s.trusted(from.Addr().Unmap()) && r.Header.Get("X-Forwarded-Proto") == "https"
}
