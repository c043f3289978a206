package cli

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
)

// stockFlags say on the command line what a list is cut from. They are read as
// the lines of a stock file would be, by the same reader and with the same
// words.
type stockFlags struct {
	Unit      string   `placeholder:"in|ft|mm|cm|m" enum:",in,ft,mm,cm,m" default:"" help:"What a bare number means in a CSV list and its CSV stock, and in these flags."`
	Currency  string   `placeholder:"USD" help:"What a bare price means."`
	Size      string   `placeholder:"1x4" help:"Stock size of the boards, by its name in the catalogue; or --thickness and --width."`
	Thickness string   `placeholder:"LENGTH" help:"Thickness of the boards, as measured."`
	Width     string   `placeholder:"LENGTH" help:"Width of the boards, as measured."`
	Length    []string `sep:"none" placeholder:"LINE" help:"A length in which boards are bought: '8 ft', '8 ft at $4.49' or '10 ft at $5.80, at most 6'. May be given several times."`
	OnHand    []string `name:"on-hand" sep:"none" placeholder:"LINE" help:"Boards that are there already: '41 in', '3 of 28 1/2 in', '96 in, unusable 31 in to 33 in'. May be given several times."`
	Kerf      string   `placeholder:"LENGTH" help:"Width of the cut."`
	Hold      string   `placeholder:"LENGTH" help:"Least length held at a cut."`
	Trim      string   `placeholder:"LINE" help:"What is cut off the ends of a board: '1/4 in first, 0 in far', or one length for both."`
	Turning   string   `placeholder:"yes|no" help:"Whether boards may be rolled or swapped end for end between cuts."`
	Keep      string   `placeholder:"LENGTH" help:"Least offcut worth keeping."`
	Cutting   string   `placeholder:"WAY" help:"'fewest boards' or 'fewest changes'."`
}

// flagsName is what messages call the flags.
const flagsName = "the flags"

// What boards are called that flags describe, and what stands for the boards of
// another file where the flags tell only how those are treated.
const (
	flagTimber  = "boards"
	everyTimber = "every-board"
)

func (f stockFlags) timber() string {
	if f.boards() {
		return flagTimber
	}
	return everyTimber
}

// boards tells whether flags describe boards.
func (f stockFlags) boards() bool {
	return f.Size != "" || f.Thickness != "" || f.Width != "" || len(f.Length) > 0 || len(f.OnHand) > 0
}

// any tells whether any flag is given.
func (f stockFlags) any() bool {
	return f.boards() || f.Unit+f.Currency+f.Kerf+f.Hold+f.Trim+f.Turning+f.Keep+f.Cutting != ""
}

// text writes the flags as the lines of a stock file.
func (f stockFlags) text() string {
	var b strings.Builder
	b.WriteString("bowerwright-cut-list: 1\n")
	line := func(indent, key, value string) {
		if value != "" {
			fmt.Fprintf(&b, "%s%s: %s\n", indent, key, quoted(value))
		}
	}
	list := func(key string, values []string) {
		if len(values) > 0 {
			fmt.Fprintf(&b, "    %s:\n", key)
		}
		for _, v := range values {
			fmt.Fprintf(&b, "      - %s\n", quoted(v))
		}
	}
	line("", "unit", f.Unit)
	line("", "currency", f.Currency)
	line("", "cutting", f.Cutting)
	if f.Kerf+f.Hold != "" {
		b.WriteString("saw:\n")
		line("  ", "kerf", f.Kerf)
		line("  ", "hold", f.Hold)
	}
	if f.Keep != "" {
		b.WriteString("assume:\n")
		line("  ", string(assume.Keep), f.Keep)
	}
	if f.boards() || f.Trim+f.Turning != "" {
		fmt.Fprintf(&b, "timber:\n  %s:\n", f.timber())
		line("    ", "board", f.Size)
		line("    ", "thickness", f.Thickness)
		line("    ", "width", f.Width)
		list("lengths", f.Length)
		list("on hand", f.OnHand)
		line("    ", "trim", f.Trim)
		line("    ", "turning", f.Turning)
		if !f.boards() { // trim and turning of boards that another file names
			line("    ", "board", "1x4")
		}
	}
	return b.String()
}

// quoted puts a value in quotes of YAML.
func quoted(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }

// lay puts what the flags say of the saw and the way of cutting over what a
// stock file says.
func (f stockFlags) lay(under *job.Spec, over job.Spec) {
	if f.Kerf != "" {
		under.Saw.Kerf = over.Saw.Kerf
	}
	if f.Hold != "" {
		under.Saw.Hold = over.Saw.Hold
	}
	if f.Cutting != "" {
		under.Cutting = over.Cutting
	}
	under.Assume = append(under.Assume, over.Assume...)
}

// trims puts trim and turning of the flags on all boards, and says that the
// flags are flags.
func (f stockFlags) trims(s *job.Spec, over job.Spec) {
	if f.Kerf != "" {
		said(s, assume.Kerf)
	}
	if f.Hold != "" {
		said(s, assume.Hold)
	}
	for i := range s.Assume {
		if f.Keep != "" && s.Assume[i].ID == string(assume.Keep) {
			s.Assume[i].From = "flag"
		}
	}
	if f.Trim+f.Turning == "" {
		return
	}
	at := slices.IndexFunc(over.Timber, func(t job.Timber) bool { return t.Name == f.timber() })
	if at < 0 { // it has a snag
		return
	}
	from := over.Timber[at]
	s.Timber = slices.DeleteFunc(s.Timber, func(t job.Timber) bool { return t.Name == everyTimber })
	for i := range s.Timber {
		if f.Trim != "" {
			s.Timber[i].TrimFirst, s.Timber[i].TrimFar = from.TrimFirst, from.TrimFar
		}
		if f.Turning != "" {
			s.Timber[i].Turning = from.Turning
		}
	}
}

func said(s *job.Spec, id assume.ID) {
	if s.Said == nil {
		s.Said = map[string]string{}
	}
	s.Said[string(id)] = "flag"
}
