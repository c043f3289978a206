package cli

import (
	"encoding/json"
	"fmt"
	"strings"

	"bowerwright/job"
)

type sectionsCmd struct {
	source
	JSON bool `name:"json" help:"Print what stands under sections in result.json, and nothing else."`
}

// Run says in how few sections the set piece travels, how each passes every
// tight spot, and in which order it goes up and comes down. It writes no papers.
func (c *sectionsCmd) Run(e *env) error {
	spec, file, snags, err := c.read(e)
	if err != nil {
		return err
	}
	if snags.Stops() {
		return e.putRight(snags, file)
	}
	result, snags, err := job.Sections(e.ctx, spec, job.BuiltIn())
	if err != nil {
		return err
	}
	for i := range snags {
		snags[i].Place = file.Locate(snags[i].Place.Path)
	}
	snags.Sort()
	if snags.Stops() {
		return e.putRight(snags, file)
	}
	if c.JSON {
		enc := json.NewEncoder(e.out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		if err := enc.Encode(result.Sections); err != nil {
			return failf(exitIO, "cannot write: %s", plain(err))
		}
	} else {
		fmt.Fprint(e.out, sectionsText(result))
	}
	if result.Sections.Over {
		return failf(exitOver, "%s", result.Sections.Says)
	}
	return nil
}

// sectionsText is what sections prints: tight spots, sections, site seams, what
// fewest rests on, and the orders of work.
func sectionsText(r job.Result) string {
	f, say := r.Sections, r.Own
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("%s: %s", r.Job.Name, f.Says)
	spotsText(line, r)
	for _, x := range f.Sections {
		line("")
		line("Section %s: %s; %s, %s wide, %s high, %s deep; %s", x.Letter, strings.Join(x.Frames, ", "), say(x.Weight.US, x.Weight.Metric),
			say(x.Width.US, x.Width.Metric), say(x.Height.US, x.Height.Metric), say(x.Depth.US, x.Depth.Metric), carriers(x.People))
		for _, p := range x.Passes {
			line("  %s", p.Says)
		}
	}
	if len(f.Site) > 0 {
		line("")
		line("Closed on site: %d fasteners in all", f.Screws)
	}
	for _, s := range f.Site {
		line("  seam %d, %s to %s, sections %s and %s: %d %s", s.Number, s.Frames[0], s.Frames[1], s.Sections[0], s.Sections[1], s.Count, s.Thing)
	}
	restsText(line, f)
	for i := range f.Shop {
		orderText(line, "In the shop, section "+f.Shop[i].Section, &f.Shop[i])
	}
	orderText(line, "On site", f.Build)
	orderText(line, "Strike", f.Strike)
	if x := f.Blocked; x != nil {
		line("")
		line("%s", x.Says)
		for _, h := range x.Helps {
			line("  what helps: %s", h)
		}
	}
	line("")
	for _, s := range f.NotChecked {
		line("%s", s)
	}
	return b.String()
}

func spotsText(line func(string, ...any), r job.Result) {
	if len(r.Sections.Spots) == 0 {
		line("  the job names no tight spots: only weight and hands part it")
		return
	}
	line("")
	line("Tight spots")
	for _, s := range r.Sections.Spots {
		by := "unverified"
		if s.Verified {
			by = "measured by " + s.By
		}
		line("  %s, %s: %s; %s", s.Name, s.Kind, s.Measures, by)
		if s.Whole != nil {
			line("    in one it %s", strings.TrimPrefix(s.Whole.Says, s.Name+": "))
		}
		if s.Stands != nil {
			line("    standing, %s is left overhead; while it is tilted up, %s", r.Own(s.Stands.US, s.Stands.Metric), r.Own(s.Tilting.US, s.Tilting.Metric))
		}
	}
}

func carriers(n int) string {
	switch n {
	case 0:
		return "no team is enough to carry it flat"
	case 1:
		return "1 person carries it flat"
	}
	return fmt.Sprintf("%d people carry it flat", n)
}

func restsText(line func(string, ...any), f *job.SectionsFacts) {
	if len(f.Sections) == 0 {
		return
	}
	line("")
	if f.Proved {
		line("No fewer: a program of its own has replayed why. It rests on:")
	} else {
		line("Fewer than %d are ruled out; between that and %d nothing is known within the work allowed. It rests on:", f.AtLeast, len(f.Sections))
	}
	for _, s := range f.Rests {
		line("  %s", s)
	}
	for _, n := range f.Closed {
		line("  seam %d closed in the shop, since no order on site reaches it", n)
	}
}

func orderText(line func(string, ...any), what string, o *job.OrderFacts) {
	if o == nil {
		return
	}
	window := ""
	if o.Window != nil {
		window = fmt.Sprintf("; the window is %s, and %s do it", o.Window.Text, o.By)
	}
	line("")
	line("%s, %s: makers %s, strangers %s to %s%s", what, o.Way, o.Makers.Text, o.Least.Text, o.Most.Text, window)
	for i, s := range o.Steps {
		people := ""
		if s.People > 0 {
			people = ", " + strings.Replace(counted(s.People, "person"), "persons", "people", 1)
		}
		line("%4d  %s%s, %s", i+1, s.Says, people, s.Time.Text)
	}
}
