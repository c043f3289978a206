package web

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	qr "github.com/piglig/go-qr"
	"golang.org/x/crypto/argon2"
)

// Keys keeps the passphrase's hash and who has signed in; the store does.
type Keys interface {
	Secret(ctx context.Context) (hash string, err error)
	SetSecret(ctx context.Context, hash string) error
	AddSession(ctx context.Context, token [32]byte, until time.Time) error
	Session(ctx context.Context, token [32]byte) (bool, error)
	EndSession(ctx context.Context, token [32]byte) error
}

// A Gate lets in who knows the one-time code or the passphrase.
type Gate struct {
	keys Keys
	now  func() time.Time

	mu    sync.Mutex
	code  [32]byte // SHA-256 of the code that holds
	until time.Time
	tries map[string]*trial // by the address they come from

	hashing sync.Mutex // argon2id takes 64 MB: one at a time
	memory  uint32     // of a new hash, in KiB; less in tests
}

// How long things hold: a code until a phone has been fetched, a session for a
// season of weddings' week-ends.
const (
	codeLife    = 15 * time.Minute
	sessionLife = 30 * 24 * time.Hour
)

// leastPassphrase is how many signs a passphrase has at least: 15 where it is
// all that is asked for (NIST SP 800-63B-4, 3.1.1.2; from memory).
const leastPassphrase, mostPassphrase = 15, 1024

// NewGate makes a gate that has no code yet.
func NewGate(keys Keys, now func() time.Time) *Gate {
	return &Gate{keys: keys, now: now, tries: map[string]*trial{}, memory: argonMemory}
}

// NewCode gives a code that lets one browser in, once, within a quarter of an
// hour. A code given before does not hold any more. It has 50 bits: at the
// rate that the gate allows nobody tries a millionth of them.
func (g *Gate) NewCode() string {
	code := rand.Text()[:10] // base 32: no 0, 1 or 8 that could be misread
	g.mu.Lock()
	defer g.mu.Unlock()
	g.code, g.until = sha256.Sum256([]byte(code)), g.now().Add(codeLife)
	return code
}

// takeCode tells whether a word is the code, which is used up then.
func (g *Gate) takeCode(word string) bool {
	sum := sha256.Sum256([]byte(strings.ToUpper(strings.ReplaceAll(strings.TrimSpace(word), "-", ""))))
	g.mu.Lock()
	defer g.mu.Unlock()
	if !g.now().Before(g.until) || subtle.ConstantTimeCompare(sum[:], g.code[:]) != 1 {
		return false
	}
	g.until = time.Time{}
	return true
}

// A trial counts failures of one address.
type trial struct {
	failed int
	wait   time.Time
}

// freeTries may fail before an address must wait; the wait then doubles from a
// second to a quarter of an hour.
const freeTries, mostWait = 5, 15 * time.Minute

// mostPeers is how many addresses are remembered; whoever has that many is met
// by one wait for all.
const mostPeers = 1000

// may tells how long an address must wait before it may try.
func (g *Gate) may(peer string) time.Duration {
	g.mu.Lock()
	defer g.mu.Unlock()
	if t := g.trial(peer); t != nil {
		return t.wait.Sub(g.now())
	}
	return 0
}

func (g *Gate) trial(peer string) *trial {
	if t := g.tries[peer]; t != nil {
		return t
	}
	if len(g.tries) >= mostPeers {
		return g.tries[""]
	}
	return nil
}

func (g *Gate) failed(peer string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	for p, t := range g.tries { // those who have waited long enough are forgotten
		if g.now().Sub(t.wait) > time.Hour {
			delete(g.tries, p)
		}
	}
	t := g.trial(peer)
	if t == nil {
		if len(g.tries) >= mostPeers-1 {
			peer = ""
		}
		t = &trial{}
		g.tries[peer] = t
	}
	t.failed++
	t.wait = g.now()
	if n := t.failed - freeTries; n >= 0 {
		t.wait = g.now().Add(min(mostWait, time.Second<<min(n, 20)))
	}
}

func (g *Gate) passed(peer string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	delete(g.tries, peer)
}

// Measures of argon2id: the second recommended option of RFC 9106, section 4.
const argonTime, argonMemory, argonThreads, argonLen, saltLen = 3, 64 * 1024, 4, 32, 16

// hashOf is a passphrase's hash with its measures, as others write it.
func (g *Gate) hashOf(passphrase string) string {
	salt := make([]byte, saltLen)
	rand.Read(salt)
	g.hashing.Lock()
	defer g.hashing.Unlock()
	sum := argon2.IDKey([]byte(passphrase), salt, argonTime, g.memory, argonThreads, argonLen)
	b := base64.RawStdEncoding.EncodeToString
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, g.memory, argonTime, argonThreads, b(salt), b(sum))
}

// fits tells whether a passphrase is that of a hash.
func (g *Gate) fits(passphrase, hash string) bool {
	parts := strings.Split(hash, "$")
	var version, memory, times, threads int
	if len(parts) != 6 || parts[1] != "argon2id" {
		return false
	}
	if n, err := fmt.Sscanf(parts[2]+" "+parts[3], "v=%d m=%d,t=%d,p=%d", &version, &memory, &times, &threads); n != 4 || err != nil || version != argon2.Version {
		return false
	}
	salt, errA := base64.RawStdEncoding.DecodeString(parts[4])
	want, errB := base64.RawStdEncoding.DecodeString(parts[5])
	if errA != nil || errB != nil || len(want) == 0 || times < 1 || threads < 1 || threads > 255 {
		return false
	}
	g.hashing.Lock()
	defer g.hashing.Unlock()
	got := argon2.IDKey([]byte(passphrase), salt, uint32(times), uint32(memory), uint8(threads), uint32(len(want)))
	return subtle.ConstantTimeCompare(got, want) == 1
}

// Names of the cookie; the first is for TLS, where the browser itself sees to it
// that nobody else has set it.
const secureCookie, plainCookie = "__Host-bowerwright", "bowerwright"

// inside tells whether a request comes from somebody who has signed in.
func (g *Gate) inside(r *http.Request) bool {
	token, ok := tokenOf(r)
	if !ok {
		return false
	}
	in, err := g.keys.Session(r.Context(), token)
	return err == nil && in
}

func tokenOf(r *http.Request) ([32]byte, bool) {
	for _, name := range []string{secureCookie, plainCookie} {
		if c, err := r.Cookie(name); err == nil && len(c.Value) > 20 {
			return sha256.Sum256([]byte(c.Value)), true
		}
	}
	return [32]byte{}, false
}

func (s *Server) begin(w http.ResponseWriter, r *http.Request) error {
	token := rand.Text() // 128 bits and more
	if err := s.Gate.keys.AddSession(r.Context(), sha256.Sum256([]byte(token)), s.Gate.now().Add(sessionLife)); err != nil {
		return err
	}
	c := &http.Cookie{Name: plainCookie, Value: token, Path: "/", MaxAge: int(sessionLife.Seconds()), HttpOnly: true, SameSite: http.SameSiteStrictMode}
	if s.secure(r) {
		c.Name, c.Secure = secureCookie, true
	}
	http.SetCookie(w, c)
	return nil
}

var errNoGate = &refusal{http.StatusNotFound, "Nobody has to sign in here.", "", ""}

// newCode gives who is in a code for another device, with its square picture.
func (s *Server) newCode(w http.ResponseWriter, r *http.Request) error {
	if s.Gate == nil {
		return errNoGate
	}
	base := "http://" + r.Host
	if s.Public != nil {
		base = strings.TrimSuffix(s.Public.String(), "/")
	}
	code := s.Gate.NewCode()
	address := base + "/sign-in#" + code
	square, err := qr.EncodeText(address, qr.Low)
	if err != nil {
		return err
	}
	svg, err := square.ToSVGBytes(qr.NewQrCodeImgConfig(8, 4))
	if err != nil {
		return err
	}
	tell(w, http.StatusOK, map[string]any{"code": code[:5] + "-" + code[5:], "address": address, "svg": string(svg), "minutes": int(codeLife.Minutes())})
	return nil
}

// signIn takes the code or the passphrase.
func (s *Server) signIn(w http.ResponseWriter, r *http.Request) error {
	if s.Gate == nil {
		return errNoGate
	}
	var asked struct {
		Word string `json:"word"`
	}
	if err := take(r, &asked); err != nil {
		return err
	}
	peer := s.peer(r)
	if wait := s.Gate.may(peer); wait > 0 {
		w.Header().Set("Retry-After", fmt.Sprint(int(wait.Seconds())+1))
		return &refusal{http.StatusTooManyRequests, fmt.Sprintf("Too many tries; wait %d s.", int(wait.Seconds())+1), "", ""}
	}
	hash, err := s.Gate.keys.Secret(r.Context())
	if err != nil {
		return err
	}
	long := utf8.RuneCountInString(asked.Word) >= leastPassphrase && len(asked.Word) <= mostPassphrase
	if !s.Gate.takeCode(asked.Word) && !(hash != "" && long && s.Gate.fits(asked.Word, hash)) {
		s.Gate.failed(peer)
		s.Log.Info("not let in", "from", peer)
		return &refusal{http.StatusForbidden, "That is neither the code nor the passphrase.", "A code holds once, for a quarter of an hour.", ""}
	}
	s.Gate.passed(peer)
	if err := s.begin(w, r); err != nil {
		return err
	}
	tell(w, http.StatusOK, map[string]any{"passphrase": hash != ""})
	return nil
}

func (s *Server) signOut(w http.ResponseWriter, r *http.Request) error {
	if s.Gate == nil {
		return errNoGate
	}
	if token, ok := tokenOf(r); ok {
		if err := s.Gate.keys.EndSession(r.Context(), token); err != nil {
			return err
		}
	}
	for _, name := range []string{secureCookie, plainCookie} {
		http.SetCookie(w, &http.Cookie{Name: name, Path: "/", MaxAge: -1, HttpOnly: true, SameSite: http.SameSiteStrictMode, Secure: name == secureCookie})
	}
	tell(w, http.StatusOK, map[string]any{})
	return nil
}

func (s *Server) whoIsIn(w http.ResponseWriter, r *http.Request) error {
	if s.Gate == nil {
		tell(w, http.StatusOK, map[string]any{"needed": false, "inside": true})
		return nil
	}
	tell(w, http.StatusOK, map[string]any{"needed": true, "inside": s.Gate.inside(r)})
	return nil
}

// setPassphrase sets one, or another by the one there is. All who have signed
// in are out then, but for who asked.
func (s *Server) setPassphrase(w http.ResponseWriter, r *http.Request) error {
	if s.Gate == nil {
		return errNoGate
	}
	var asked struct {
		Old string `json:"old"`
		New string `json:"new"`
	}
	if err := take(r, &asked); err != nil {
		return err
	}
	peer := s.peer(r)
	if s.Gate.may(peer) > 0 {
		return &refusal{http.StatusTooManyRequests, "Too many tries; wait a while.", "", ""}
	}
	hash, err := s.Gate.keys.Secret(r.Context())
	if err != nil {
		return err
	}
	if hash != "" && (len(asked.Old) > mostPassphrase || !s.Gate.fits(asked.Old, hash)) {
		s.Gate.failed(peer)
		return &refusal{http.StatusForbidden, "The passphrase so far is another.", "", "old"}
	}
	if utf8.RuneCountInString(asked.New) < leastPassphrase || len(asked.New) > mostPassphrase {
		return &refusal{http.StatusUnprocessableEntity, fmt.Sprintf("A passphrase has at least %d signs; a few words will do.", leastPassphrase), "", "new"}
	}
	if err := s.Gate.keys.SetSecret(r.Context(), s.Gate.hashOf(asked.New)); err != nil {
		return err
	}
	if err := s.begin(w, r); err != nil {
		return err
	}
	tell(w, http.StatusOK, map[string]any{})
	return nil
}
