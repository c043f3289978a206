package job

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"bowerwright/snag"
)

// Replan is Plan for a job that is partly sawn: what is cut stays cut, and the
// rest is planned anew from what is really there. input is the SHA-256, in hex,
// of the files that the spec was read from. The papers before are made again
// from them, round by round, so that the marks in done must be theirs. The
// order of the rounds counts; the same rounds always give the same plan.
func Replan(ctx context.Context, spec Spec, cat Catalogue, input string, done Progress) (Result, snag.List, error) {
	p := start(spec, cat)
	p.done, p.input = &done, input
	return p.run(ctx)
}

// Recut is Cut for a list that is partly sawn, as Replan is Plan.
func Recut(ctx context.Context, spec CutSpec, cat Catalogue, input string, done Progress) (Result, snag.List, error) {
	p := startCut(spec, cat)
	p.done, p.input = &done, input
	return p.runCut(ctx, spec)
}

// ProgressSHA256 is what a packet is known by that is made from input after
// some rounds: the SHA-256 of both, in hex; of no rounds it is input. How the
// file of progress is written, and what stands in later rounds, change nothing.
func ProgressSHA256(input string, rounds []Round) string {
	if len(rounds) == 0 {
		return input
	}
	h := sha256.New()
	fmt.Fprintln(h, input)
	for _, r := range rounds {
		fmt.Fprintln(h, "packet", r.Packet)
		for _, b := range r.Boards {
			fmt.Fprintf(h, "board %q %q %d %d %v %d %d %d %v\n", b.Timber, b.Laid, b.From, b.To, b.Cut, b.Parts, b.Spans, b.Short, b.Rejected)
		}
		for _, s := range r.Spoilt {
			fmt.Fprintf(h, "spoilt %q %d\n", s.Mark, s.Count)
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// PacketMark is the mark of a packet that is known by a SHA-256 in hex.
func PacketMark(sum string) string {
	const letters = 4
	return strings.ToUpper(sum[:min(letters, len(sum))])
}

// resume makes the papers before again, round by round, and then plans what is
// left.
func (p *planner) resume(ctx context.Context, stacks []stack) error {
	var benches []*bench
	for _, s := range stacks {
		b := newBench(cutter{p.w}, s)
		if err := p.replanned(b.plan(ctx)); err != nil {
			return err
		}
		benches = append(benches, b)
	}
	var packets []string
	for i, round := range p.done.Rounds {
		if p.snags.Stops() {
			return nil
		}
		if mark := PacketMark(ProgressSHA256(p.input, p.done.Rounds[:i])); round.Packet != mark {
			p.wrongPacket(round, i, mark)
			return nil
		}
		packets = append(packets, round.Packet)
		p.happened(benches, round)
		for _, b := range benches {
			if p.snags.Stops() {
				return nil
			}
			if err := p.replanned(b.plan(ctx)); err != nil {
				return err
			}
		}
	}
	for _, b := range benches {
		p.result.Timber = append(p.result.Timber, b.facts)
		p.result.Overall.BoardCount += b.facts.Buy
	}
	p.result.Progress = progressFacts(packets, benches)
	return nil
}

func (p *planner) replanned(snags snag.List, err error) error {
	p.snags.Add(snags...)
	return err
}

// wrongPacket says that a round belongs to other papers.
func (p *planner) wrongPacket(round Round, i int, mark string) {
	problem := fmt.Sprintf("papers marked %s are not of this job: its first packet is marked %s", round.Packet, mark)
	remedy := "name the job file, and the shop file, that those papers were made from, unchanged since; or take the mark from the foot of the papers that were sawn from"
	if i > 0 {
		problem = fmt.Sprintf("papers marked %s do not follow from the rounds above: those are marked %s", round.Packet, mark)
		remedy = "leave the rounds above as they were when those papers were printed, and add new ones below"
	}
	p.snag(snagPacket, round.Path+".packet", round.Packet, problem, remedy)
}

// happened gives every bench what a round tells of it.
func (p *planner) happened(benches []*bench, round Round) {
	for _, b := range benches {
		b.begin(round.Packet)
	}
	for _, told := range round.Boards {
		if b := p.benchOf(benches, told); b != nil {
			for n := told.From; n <= told.To && !p.snags.Stops(); n++ {
				p.snags.Add(b.tell(n, told)...)
			}
		}
	}
	for _, b := range benches {
		b.put()
	}
	for _, s := range round.Spoilt {
		p.spoil(benches, s)
	}
}

// benchOf finds the timber that a line of progress is about.
func (p *planner) benchOf(benches []*bench, told Sawn) *bench {
	var fits []*bench
	var all []string
	for _, b := range benches {
		f := b.s.facts
		all = append(all, f.Name+" "+f.Laid)
		if (told.Timber == "" || told.Timber == f.Name) && (told.Laid == "" || told.Laid == f.Laid) {
			fits = append(fits, b)
		}
	}
	if len(fits) == 1 {
		return fits[0]
	}
	problem := "there are boards of several kinds with that number"
	if len(fits) == 0 {
		problem = fmt.Sprintf("no boards are called %s", strings.TrimSpace(told.Timber+" "+told.Laid))
	}
	p.snag(snagBoardNumber, told.Path, "", problem, fmt.Sprintf("write the timber before the number, one of: %s; as in %s %d", strings.Join(all, ", "), all[0], told.From))
	return nil
}

// spoil notes parts that cannot be used.
func (p *planner) spoil(benches []*bench, s Spoilt) {
	var marks []string
	for _, b := range benches {
		for i, q := range b.s.sticks {
			marks = append(marks, q.mark)
			if q.mark != s.Mark {
				continue
			}
			if good := b.sawn[i] - b.spoilt[i]; s.Count > good {
				p.snag(snagSpoilt, s.Path, fmt.Sprint(s.Count), fmt.Sprintf("%d of %s were spoilt, and only %d good ones are told as cut", s.Count, s.Mark, good),
					"tell the boards that they were cut from too")
				return
			}
			b.spoilt[i] += s.Count
			b.wrong = true
			return
		}
	}
	remedy := "write one of: " + strings.Join(marks, ", ")
	if near := snag.DidYouMean(s.Mark, marks); near != "" {
		remedy = fmt.Sprintf("did you mean %s?", near)
	}
	p.snag(snagSpoilt, s.Path, s.Mark, fmt.Sprintf("no part is marked %s", s.Mark), remedy)
}

// progressFacts sums up what happened.
func progressFacts(packets []string, benches []*bench) *ProgressFacts {
	f := &ProgressFacts{Packets: packets}
	var buy []string
	for _, b := range benches {
		f.Boards += len(b.bench.Done)
		for i, q := range b.wantedNow() {
			f.Parts += b.sawn[i]
			f.Spoilt += b.spoilt[i]
			f.Left += q.saw()
		}
		buy = append(buy, b.bench.Says)
	}
	empty(&f.Packets)
	f.Says = fmt.Sprintf("%s touched, %s sawn", counted(f.Boards, "board"), counted(f.Parts, "part"))
	if f.Spoilt > 0 {
		f.Says += fmt.Sprintf(", %d of them spoilt", f.Spoilt)
	}
	f.Says += fmt.Sprintf("; %s left to saw. %s", counted(f.Left, "part"), strings.Join(buy, " "))
	return f
}

var (
	snagPacket      = define("progress-packet", "A round of a file of progress belongs to papers of another job, or of another version of it.")
	snagBoardNumber = define("progress-board", "A file of progress tells of a board that those papers do not have, or not clearly.")
	snagBoardDone   = define("progress-board-told", "A file of progress tells more of a board than there can be: more parts than are on it, a knot beyond its end.")
	snagSpoilt      = define("progress-spoilt", "A file of progress tells of spoilt parts that are not there or were not cut.")
)
