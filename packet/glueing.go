package packet

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// glueing are the papers of gluing up, sanding and finish.
func glueing(b *book, r job.Result) {
	if len(r.Making.Kinds) == 0 {
		return
	}
	b.flow(gluePaper(r))
	b.flow(finishPaper(r))
}

// gluePaper is how every kind is closed, what strengthens its corners, and the
// goes against the clock.
func gluePaper(r job.Result) paper {
	m := r.Making
	frames := 0
	for _, k := range m.Kinds {
		frames += k.Count
	}
	p := paper{title: "Glue-up", entry: "Glue-up", joins: true, right: [2]string{plural(frames, "frame") + " in " + plural(len(m.Goes), "go"),
		plural(m.Hands, "pair") + " of hands at the glue, shop at " + m.Glue.Shop}}
	p.right[0] = strings.Replace(p.right[0], "gos", "goes", 1)
	p.blocks = append(p.blocks, glueTimes(m.Glue), para("Size first: end grain drinks glue. A thin coat on every mitre face, wait, then the second coat, and close. "+
		"A go is what is coated and closed without a break; its last joint is closed before the open time of the second coat is over. "+
		"The label on the bottle comes before every time here; the glue wants "+m.Glue.Least+" or more.", fieldW, drawing.Text{}))
	for _, g := range methodGroups(m.Kinds) {
		p.blocks = append(p.blocks, methodBlocks(r, g)...)
	}
	p.blocks = append(p.blocks, closedBlocks(m.Kinds)...)
	p.blocks = append(p.blocks, cornerBlocks(r)...)
	p.blocks = append(p.blocks, goBlocks(r)...)
	return p
}

// glueTimes are the five times of the glue, large.
func glueTimes(g job.GlueFacts) block {
	return bigFacts([]bigFact{
		{g.OpenTime.Text, "open time in this shop"}, {g.Wait.Text, "from sizing to the second coat"}, {g.Hold.Text, "until a frame may be moved"},
		{g.Flat.Text, "flat under weight"}, {g.Full.Text, "until full strength"},
	})
}

// methodGroups are kinds that are glued in the same way, in the order of the
// kinds, so that a way is pictured once.
func methodGroups(kinds []job.MadeFacts) [][]job.MadeFacts {
	var out [][]job.MadeFacts
	at := map[string]int{}
	for _, k := range kinds {
		i, ok := at[k.Method]
		if !ok {
			i = len(out)
			at[k.Method] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], k)
	}
	return out
}

// methodBlocks are one way of gluing: its picture beside its steps, then its
// frames with their figures.
func methodBlocks(r job.Result, kinds []job.MadeFacts) []block {
	k := kinds[0]
	blocks := []block{heading(sentenceStart(k.Method), joinTitles(kinds), "")}
	blocks = append(blocks, pictureAndSteps(methodPicture(r, k), mergedSteps(kinds, false))...)
	head := []column{{"frames", 44, false}, {"row, or round", 23, false}, {"closed with", 50, false}, {"measure across, within " + first(r.Job, k.Within), 62.5, false}}
	var rows [][]cell
	for _, k := range kinds {
		rows = append(rows, []cell{
			over(fmt.Sprintf("%d × %s, %s", k.Count, k.Letter, k.Title), fmt.Sprintf("%s each, %d to a go", plural(k.Joints, "joint"), k.PerGo)),
			over(first(r.Job, k.Row), second(r.Job, k.Row)), closedWith(r, k), checksCell(r, k),
		})
	}
	blocks = append(blocks, together(table(0, head, rows))...)
	for _, s := range whyLines(kinds) {
		blocks = append(blocks, para(s, fieldW, drawing.Text{Size: drawing.Small}))
	}
	return blocks
}

// closedBlocks are what is done to every frame once it is closed.
func closedBlocks(kinds []job.MadeFacts) []block {
	steps := mergedSteps(kinds, true)
	if len(steps) == 0 {
		return nil
	}
	list := stepList(steps, 1, 0, fieldW)
	list[0].twins = []twin{saidSteps(steps)}
	return append([]block{heading("Every frame, once it is closed", "before the glue grabs, and after", "")}, together(list)...)
}

func sentenceStart(s string) string { return strings.TrimSuffix(sentence(s), ".") }

// mostTitles is how many kinds a heading names in full; more go by their letters.
const mostTitles = 3

func joinTitles(kinds []job.MadeFacts) string {
	var names, letters []string
	for _, k := range kinds {
		names, letters = append(names, k.Title), append(letters, k.Letter)
	}
	if len(names) > mostTitles {
		names = letters
	}
	return strings.Join(names, ", ")
}

// closedWith is what holds the joints of a kind while the glue sets.
func closedWith(r job.Result, k job.MadeFacts) cell {
	var out cell
	if t := k.Tape; t != nil {
		out = append(out, boldLine(fmt.Sprintf("tape: %s of %s", plural(t.Strips, "strip"), first(r.Job, t.Length))), quietLine(first(r.Job, t.Width)+" wide, along the row"))
	}
	if k.Strapped > 0 {
		var which []string
		for _, i := range k.Straps {
			which = append(which, fmt.Sprintf("%d (%s)", i, first(r.Job, r.Making.Straps[i-1])))
		}
		out = append(out, boldLine(plural(k.Strapped, "strap")+" at once"), quietLine("strap "+strings.Join(which, ", ")+" goes round"))
	}
	if t := k.Truing; t != nil {
		out = append(out, boldLine(fmt.Sprintf("corners %d and %d stay dry", t.Corners[0], t.Corners[1])),
			quietLine(fmt.Sprintf("true %s off both ends of each half: the frame comes out %s smaller across them, which the measures count with", first(r.Job, t.Off), first(r.Job, t.Lost))))
	}
	if k.Batten != nil {
		out = append(out, boldLine(first(r.Job, *k.Batten)+" between the feet"), quietLine(feetSays(r.Job, *k.Across)))
	}
	if k.Layers > 1 {
		out = append(out, boldLine(plural(k.Layers, "layer")+", clamped"))
	}
	if out == nil {
		out = cell{plainLine("clamps against a fence")}
	}
	return out
}

// feetSays is what keeps the feet of an open frame apart.
func feetSays(j job.JobFacts, b job.BattenFacts) string {
	if b.Mark == "" {
		return "kept so by a straight length of the shop's, " + first(j, b.Length) + " or a little less"
	}
	return "kept so by batten " + b.Mark + ", " + first(j, b.Length) + " long, from the cut list"
}

// checksCell is the measures across a frame: one when all read the same.
func checksCell(r job.Result, k job.MadeFacts) cell {
	if k.Equal {
		c := k.Checks[0]
		how := fmt.Sprintf("all %d, corner to opposite corner", len(k.Checks))
		if c.To == 0 {
			how = fmt.Sprintf("all %d, corner to middle of opposite side", len(k.Checks))
		}
		return cell{boldLine(first(r.Job, c.Size)), quietLine(how)}
	}
	var parts []string
	for _, c := range k.Checks {
		to := fmt.Sprintf("%d to %d:\u00a0", c.From, c.To)
		if c.To == 0 {
			to = fmt.Sprintf("%d to the middle of side %d:\u00a0", c.From, c.Side)
		}
		parts = append(parts, to+strings.ReplaceAll(first(r.Job, c.Size), " ", "\u00a0"))
	}
	return cell{boldLine(strings.Join(parts, ", "))}
}

// whyLines say why a way was taken, what stood against the ones before it, and
// what a helper would spare; what holds of several kinds is said once.
func whyLines(kinds []job.MadeFacts) []string {
	var lines []string
	titles := map[string][]string{}
	add := func(line, title string) {
		if titles[line] == nil {
			lines = append(lines, line)
		}
		titles[line] = append(titles[line], title)
	}
	for _, k := range kinds {
		s := "Why: " + lowerFirst(k.Why)
		if k.Asked {
			s = "Why: the job asks for it."
		}
		for _, t := range k.Tried {
			if t.Method == k.Method {
				break
			}
			if t.Why != "a single layer" && !k.Asked {
				s += fmt.Sprintf(" Not %s: %s.", t.Method, t.Why)
			}
		}
		add(joined(" ", s, k.Help), k.Title)
	}
	for i, l := range lines {
		if len(lines) > 1 {
			lines[i] = sentenceStart(strings.Join(titles[l], ", ")) + ". " + l
		}
	}
	return lines
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// A step is one thing to do as it stands on paper.
type step struct{ do, wait string }

// madeSteps puts the wait behind each step.
func madeSteps(facts []job.StepFacts) []step {
	out := make([]step, len(facts))
	for i, f := range facts {
		out[i].do = f.Do
		if f.Wait != nil {
			out[i].wait = f.Wait.Text
		}
	}
	return out
}

// mergedSteps are the steps of kinds before their frames are closed, or after; a
// step of some kinds only says of which.
func mergedSteps(kinds []job.MadeFacts, after bool) []step {
	var out []step
	var of [][]string // titles of the kinds that have each
	for _, k := range kinds {
		at := 0
		for _, s := range stepsBy(k, after) {
			i := slices.Index(out[at:], s)
			if i < 0 {
				out, of = slices.Insert(out, at, s), slices.Insert(of, at, nil)
				i = 0
			}
			of[at+i] = append(of[at+i], k.Title)
			at += i + 1
		}
	}
	for i, titles := range of {
		if len(titles) < len(kinds) {
			out[i].do = sentenceStart(strings.Join(titles, ", ")) + ": " + lowerFirst(out[i].do)
		}
	}
	return out
}

func stepsBy(k job.MadeFacts, after bool) []step {
	var facts []job.StepFacts
	for _, s := range k.Steps {
		if s.After == after {
			facts = append(facts, s)
		}
	}
	return madeSteps(facts)
}
