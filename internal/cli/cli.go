// Package cli is the command line: one file a command. It reads and writes;
// everything between is jobfile, job and packet.
package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/signal"

	"github.com/alecthomas/kong"

	"bowerwright/jobfile"
	"bowerwright/snag"
)

// Exit codes, the same for every command.
const (
	exitDone        = 0
	exitUsage       = 1
	exitPutRight    = 2 // something to put right
	exitOver        = 3 // done, but something is over its limit
	exitOurs        = 4 // our fault
	exitIO          = 5 // cannot read or write
	exitInterrupted = 130
)

// commands are the commands and the flags that all of them take.
type commands struct {
	Verbose bool `short:"v" help:"Say on stderr what is being done."`

	Plan     planCmd     `cmd:"" help:"Work out a whole job: what to buy, how to saw it, and the papers."`
	Check    checkCmd    `cmd:"" help:"Say what is to be put right in a job file. Writes nothing."`
	Stand    standCmd    `cmd:"" help:"Say whether a set piece stays on its feet, by calculation, and what helps."`
	Sections sectionsCmd `cmd:"" help:"Say in how few sections a set piece travels, how each passes every tight spot, and the order of work."`
	Verify   verifyCmd   `cmd:"" help:"Look a result.json over: its counts, its boards, and the proofs that fewer are impossible."`
	Cut      cutCmd      `cmd:"" help:"Plan the boards for a bare cut list, as CSV or YAML."`
	Serve    serveCmd    `cmd:"" help:"Lay out, see and change jobs in the browser."`
	Backup   backupCmd   `cmd:"" help:"Write all jobs of a folder to one file, also while they are served."`
	Restore  restoreCmd  `cmd:"" help:"Put a backup back in its place. What was there is kept."`
	New      newCmd      `cmd:"" help:"Write a commented job file to start from."`
	Schema   schemaCmd   `cmd:"" help:"Print the JSON Schema of the job file or of result.json."`
	Version  versionCmd  `cmd:"" help:"Print the version."`
}

// An env is what a command may use of the world.
type env struct {
	ctx         context.Context
	out, errOut io.Writer
	log         *slog.Logger
	version     string
}

// A failure ends a command with an exit code. Its text goes to stderr; snags
// have been printed already and leave it empty.
type failure struct {
	code    int
	text    string
	missing bool // a file that is not there
}

func (f failure) Error() string { return f.text }

func failf(code int, format string, args ...any) error {
	return failure{code: code, text: fmt.Sprintf(format, args...)}
}

// Main runs one command as typed, without the program's name, and gives its
// exit code. ctx ends it early.
func Main(ctx context.Context, args []string, out, errOut io.Writer, version string) (code int) {
	var c commands
	stopped := -1
	parser, err := kong.New(&c, kong.Name("bowerwright"), kong.Writers(out, errOut),
		kong.Description("From a drawing of timber frames to boards, cuts and papers."),
		kong.UsageOnError(), kong.Exit(func(n int) { stopped = n }))
	if err != nil {
		fmt.Fprintln(errOut, "bowerwright:", err)
		return exitOurs
	}
	parsed, err := parser.Parse(args)
	if stopped == 0 { // --help has been printed
		return exitDone
	}
	if err != nil {
		fmt.Fprintf(errOut, "bowerwright: %v\nTo see what can be typed: bowerwright --help\n", err)
		return exitUsage
	}
	e := &env{ctx: ctx, out: out, errOut: errOut, log: logger(errOut, c.Verbose), version: version}
	defer func() {
		if r := recover(); r != nil {
			e.log.Error("stopped inside", "reason", fmt.Sprint(r))
			fmt.Fprintf(errOut, "bowerwright: this is our fault, not the job's: %v\nNothing was written. Please report it with the job file.\n", r)
			code = exitOurs
		}
	}()
	return e.exit(parsed.Run(e))
}

// exit tells a command's error and gives its code.
func (e *env) exit(err error) int {
	var f failure
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(e.errOut, "bowerwright: stopped; nothing was written")
		return exitInterrupted
	case errors.As(err, &f):
		if f.text != "" {
			fmt.Fprintln(e.errOut, "bowerwright: "+f.text)
		}
		return f.code
	}
	fmt.Fprintf(e.errOut, "bowerwright: this is our fault, not the job's: %v\n", err)
	return exitOurs
}

// logger writes to stderr, and only with --verbose.
func logger(w io.Writer, verbose bool) *slog.Logger {
	if !verbose {
		return slog.New(slog.DiscardHandler)
	}
	return slog.New(slog.NewTextHandler(w, &slog.HandlerOptions{Level: slog.LevelDebug}))
}

// putRight prints every snag with its line and ends the command.
func (e *env) putRight(snags snag.List, file *jobfile.File) error { return e.tell(snags, file.Source) }

// tell is putRight for snags of any files.
func (e *env) tell(snags snag.List, source snag.Source) error {
	fmt.Fprint(e.errOut, snag.Text(snags, source, snag.Width))
	n := 0
	for _, s := range snags {
		if s.Severity == snag.Stop {
			n++
		}
	}
	fmt.Fprintf(e.errOut, "\n%s to put right; nothing was written\n", counted(n, "thing"))
	return failure{code: exitPutRight}
}

// counted writes a number with its noun: 1 thing, 2 things.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// Run is Main with the process's own arguments and interrupts.
func Run(version string) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	return Main(ctx, os.Args[1:], os.Stdout, os.Stderr, version)
}
