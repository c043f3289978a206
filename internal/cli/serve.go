package cli

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	qr "github.com/piglig/go-qr"

	"bowerwright/internal/store"
	"bowerwright/internal/web"
)

type serveCmd struct {
	Dir        string   `arg:"" optional:"" help:"The folder in which jobs are kept; it is made if need be. Without it: bowerwright-jobs in the home folder."`
	Addr       string   `default:"127.0.0.1:8377" placeholder:"HOST:PORT" help:"Where the pages are served: by default to this computer alone."`
	Share      bool     `help:"Let other devices in, after they have signed in. Needed for any address that is not this computer's own."`
	PublicURL  string   `name:"public-url" placeholder:"URL" help:"The address that people type, when a proxy stands before the program."`
	TrustProxy []string `name:"trust-proxy" placeholder:"CIDR" help:"Proxies whose word on who asks is taken, such as 10.0.0.0/8."`
	Shop       string   `placeholder:"FILE" help:"The shop file, as for plan."`
}

// Run serves until it is stopped.
func (c *serveCmd) Run(e *env) error {
	config, err := c.config()
	if err != nil {
		return err
	}
	shopName, shop, err := source{Shop: c.Shop}.shop()
	if err != nil {
		return err
	}
	dir, err := jobsDir(c.Dir)
	if err != nil {
		return err
	}
	kept, err := store.Open(e.ctx, dir, time.Now)
	if err != nil {
		return cannotOpen(dir, err)
	}
	defer kept.Close()
	l, err := net.Listen("tcp", c.Addr)
	if err != nil {
		return failf(exitIO, "cannot serve at %s: %v. Another program may be there: choose another with --addr", c.Addr, err)
	}
	config.Store, config.Desk, config.Log = kept, desk{e, shop, shopName}, e.log
	config.Hosts = hosts(l.Addr().(*net.TCPAddr), c.Share)
	if c.Share {
		config.Gate = web.NewGate(kept, time.Now)
	}
	c.say(e, dir, l.Addr().(*net.TCPAddr), config)
	return serve(e.ctx, l, web.New(config))
}

// config reads the flags that can be wrong.
func (c *serveCmd) config() (web.Config, error) {
	var out web.Config
	host, _, err := net.SplitHostPort(c.Addr)
	if err != nil {
		return out, failf(exitUsage, "--addr %s: write a host and a port, such as 127.0.0.1:8377", c.Addr)
	}
	if !loopback(host) && !c.Share {
		return out, failf(exitUsage, "%s can be reached from other devices: add --share, and they will have to sign in", c.Addr)
	}
	if c.PublicURL != "" {
		u, err := url.Parse(c.PublicURL)
		if err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https" || strings.Trim(u.Path, "/") != "" {
			return out, failf(exitUsage, "--public-url %s: write an address such as https://jobs.example.org", c.PublicURL)
		}
		if !c.Share {
			return out, failf(exitUsage, "with --public-url others can reach the program: add --share, and they will have to sign in")
		}
		out.Public = u
	}
	for _, text := range c.TrustProxy {
		p, err := netip.ParsePrefix(text)
		if err != nil {
			return out, failf(exitUsage, "--trust-proxy %s: write addresses such as 10.0.0.0/8 or 192.0.2.7/32", text)
		}
		out.Trust = append(out.Trust, p)
	}
	return out, nil
}

// loopback tells whether a host is this computer itself and nothing else.
func loopback(host string) bool {
	ip, err := netip.ParseAddr(host)
	return host == "localhost" || err == nil && ip.IsLoopback()
}

// hosts are the names by which browsers may ask: this computer's own, and when
// it is shared its addresses and its name.
func hosts(at *net.TCPAddr, share bool) []string {
	port := fmt.Sprint(at.Port)
	names := []string{"127.0.0.1"}
	if !at.IP.IsUnspecified() {
		names = append(names, at.IP.String())
	} else if share {
		names = append(names, addresses()...)
	}
	if name, err := os.Hostname(); err == nil && share {
		names = append(names, name, name+".local")
	}
	var out []string
	for _, n := range names {
		out = append(out, net.JoinHostPort(strings.ToLower(n), port))
	}
	return out
}

// addresses are this computer's own, those in a local network first.
func addresses() []string {
	var out []string
	list, _ := net.InterfaceAddrs()
	for _, a := range list {
		if n, ok := a.(*net.IPNet); ok && n.IP.IsGlobalUnicast() {
			out = append(out, n.IP.String())
		}
	}
	slices.SortStableFunc(out, func(a, b string) int { // short ones can be typed
		return len(a) - len(b)
	})
	return out
}

// jobsDir is the folder that is named, else one in the home folder.
func jobsDir(named string) (string, error) {
	if named != "" {
		return named, nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", failf(exitUsage, "there is no home folder: name the folder in which jobs are kept")
	}
	return filepath.Join(home, "bowerwright-jobs"), nil
}

// cannotOpen says why a folder cannot be used, and what helps.
func cannotOpen(dir string, err error) error {
	switch {
	case errors.Is(err, store.ErrInUse):
		return failf(exitIO, "%v. Use its pages, or stop it first", err)
	case errors.Is(err, store.ErrNewer):
		return failf(exitIO, "%v. Nothing was changed; use a newer bowerwright, or name another folder", err)
	case errors.Is(err, store.ErrForeign):
		return failf(exitIO, "%v. Nothing was changed; name another folder", err)
	}
	return failf(exitIO, "cannot open %s: %s", dir, plain(err))
}

// say tells where the pages are, and for a shared program how others get in.
func (c *serveCmd) say(e *env, dir string, at *net.TCPAddr, config web.Config) {
	fmt.Fprintf(e.out, "Jobs are kept in %s.\n", dir)
	base := "http://" + at.String()
	if at.IP.IsUnspecified() {
		base = "http://" + config.Hosts[0]
		if len(config.Hosts) > 1 {
			base = "http://" + config.Hosts[1]
		}
	}
	if config.Public != nil {
		base = strings.TrimSuffix(config.Public.String(), "/")
	}
	if config.Gate == nil {
		fmt.Fprintf(e.out, "Open %s in a browser. Ctrl+C ends it.\n", base)
		return
	}
	code := config.Gate.NewCode()
	fmt.Fprintf(e.out, "Open %s in a browser and sign in with the code %s-%s: it lets one browser in, once, within a quarter of an hour.\n", base, code[:5], code[5:])
	fmt.Fprint(e.out, qrText(base+"/sign-in#"+code))
	if strings.HasPrefix(base, "http://") {
		fmt.Fprintln(e.out, "This is plain http: whoever is in the same network can read what is sent, the sign-in among it, and could change it. Share it in a network of your own only, or put a proxy with https before it and name its address with --public-url.")
	}
	fmt.Fprintln(e.out, "Ctrl+C ends it.")
}

// qrText draws a code for a terminal, two rows of squares to a line, dark on
// light as phones expect it.
func qrText(text string) string {
	code, err := qr.EncodeText(text, qr.Low)
	if err != nil {
		return "" // an address longer than any code holds: it can still be typed
	}
	const quiet = 2 // squares of margin; 4 by the standard, 2 are read by phones (common practice, no source)
	var b strings.Builder
	dark := func(x, y int) bool {
		return x >= 0 && y >= 0 && x < code.Size() && y < code.Size() && code.Module(x, y)
	}
	for y := -quiet; y < code.Size()+quiet; y += 2 {
		b.WriteString("\x1b[30;107m")
		for x := -quiet; x < code.Size()+quiet; x++ {
			b.WriteString(map[[2]bool]string{{false, false}: " ", {true, false}: "▀", {false, true}: "▄", {true, true}: "█"}[[2]bool{dark(x, y), dark(x, y+1)}])
		}
		b.WriteString("\x1b[0m\n")
	}
	return b.String()
}

// Times after which a connection is given up. Streams of events set their own.
const (
	readTime  = 30 * time.Second
	writeTime = 5 * time.Minute // a whole packet of a large job
	idleTime  = 2 * time.Minute
	endTime   = 3 * time.Second
)

// serve answers until ctx ends; what has begun by then may end.
func serve(ctx context.Context, l net.Listener, h http.Handler) error {
	base, end := context.WithCancel(context.Background())
	defer end()
	srv := &http.Server{Handler: h, ReadHeaderTimeout: readTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: idleTime,
		MaxHeaderBytes: 32 << 10, BaseContext: func(net.Listener) context.Context { return base }}
	done := make(chan error, 1)
	go func() { done <- srv.Serve(l) }()
	select {
	case err := <-done:
		return failf(exitIO, "cannot serve: %v", err)
	case <-ctx.Done():
	}
	end() // streams of events end by this
	late, cancel := context.WithTimeout(context.Background(), endTime)
	defer cancel()
	srv.Shutdown(late)
	return nil
}
