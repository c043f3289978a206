package job

import (
	"fmt"
	"math"
	"strings"

	"bowerwright/stand"
	"bowerwright/unit"
)

var partWords = map[stand.Part]string{stand.SeamPart: "seam", stand.CornerPart: "corner", stand.BoardPart: "board", stand.BasePart: "base",
	stand.BracePart: "brace", stand.TiePart: "strongback", stand.MovementPart: "movement"}

// strengthFacts are what is printed of strength; nil where it was not reckoned.
func (s *stander) strengthFacts(t trial) *StrengthFacts {
	if t.strength == nil {
		return nil
	}
	p, w := t.strength, s.p.w
	f := &StrengthFacts{Word: p.Word, Over: p.Over(), Says: s.strengthSays(t), Held: s.heldText(t), Governs: -1,
		Move: moved(w, p.Move), MoveMost: moved(w, p.MoveMost), MoveCase: s.caseWords(p.MoveCase, t), Pivots: p.Pivots, Outside: p.Outside, Notes: stand.StrengthNotChecked()}
	for i, c := range p.Cases {
		f.Cases = append(f.Cases, s.strengthCase(c, t))
		if c.Name == p.Case && f.Governs < 0 {
			f.Governs = i
		}
	}
	for _, d := range p.Seams {
		f.Seams = append(f.Seams, SeamUse{Seam: d.Seam, Use: useOf(d.Ratio, d.Word), Pull: w.push(max(0, d.Pull)), Slide: w.push(max(0, d.Slide))})
	}
	for _, l := range p.Loose {
		f.Loose = append(f.Loose, s.looseFacts(l, t))
	}
	for _, q := range t.weak {
		q.Names, q.Case = s.labelled(q.Frames), s.caseWords(q.Case, t)
		says, help := q.Text()
		f.Problems = append(f.Problems, StrengthAmiss{Code: string(q.Code), Says: says, Help: help})
	}
	return f
}

// moved is a movement: one digit of it is known.
func moved(w scribe, mm float64) Size {
	if mm <= 0 {
		return w.looked(0)
	}
	step := math.Pow(10, math.Floor(math.Log10(mm)))
	return w.fine(math.Ceil(mm/step-grain) * step)
}

func (s *stander) labelled(frames []int) []string {
	out := make([]string, len(frames))
	for i, f := range frames {
		out[i] = s.p.labels[f]
	}
	return out
}

// where names a part by the labels of the papers.
func (s *stander) where(d stand.Demand) string {
	if d.Frame < 0 {
		return d.Where()
	}
	d.Name = s.p.labels[d.Frame]
	if round := s.p.kinds[s.p.kindAt[s.piece.Layout.Frames[d.Frame].Kind]].round != nil; round && d.Part == stand.CornerPart {
		return "a joint of " + d.Name // its corners in the layout stand for a circle
	} else if round && d.Part == stand.BoardPart {
		return "a board of " + d.Name
	}
	return d.Where()
}

// caseWords is a case in the job's own units and by the labels of the papers:
// package stand knows neither.
func (s *stander) caseWords(name string, t trial) string {
	for _, l := range t.input.Loads {
		if l.Load.Kind == stand.GustLoad {
			name = strings.ReplaceAll(name, l.Load.String(), s.loadWords(l.Load))
		}
	}
	for i, f := range s.piece.Layout.Frames {
		if by := ": " + f.ID + " lifted"; strings.Contains(name, by) {
			return strings.Replace(name, by, ": "+s.p.labels[i]+" lifted", 1)
		}
	}
	return name
}

func (s *stander) strengthCase(c stand.CaseResult, t trial) StrengthCase {
	w, d := s.p.w, c.Governs
	f := StrengthCase{Load: s.caseWords(c.Name, t), Way: c.Way, Force: w.push(c.Force), Height: w.looked(c.At + t.setup.Stance.Lift), Lift: c.Lift,
		Use: useOf(d.Ratio, d.Word), Where: s.where(d), At: w.xy(d.At), Band: [2]string{stand.TwoDigits(d.Low), stand.TwoDigits(d.High)}, Move: moved(w, c.Move)}
	if !c.Settled && !d.Sized() {
		f.Use, f.Where, f.Band = useOf(mostRatio, stand.Over), "the sums did not come to an end", [2]string{"", ""}
	}
	if c.Lift {
		f.Height = w.looked(0)
	}
	for _, x := range c.Worst {
		f.Parts = append(f.Parts, PartUse{Part: partWords[x.Part], Where: s.where(x), Use: useOf(x.Ratio, x.Word)})
	}
	return f
}

func (s *stander) looseFacts(l stand.Looseness, t trial) LooseFacts {
	names := s.labelled(l.Frames)
	f := LooseFacts{Frames: names, Seams: l.Seams, Says: andList(names) + " can move without resistance"}
	if l.Case != "" {
		f.Says += ", " + s.caseWords(l.Case, t)
	}
	for _, m := range l.Moves {
		f.Moves = append(f.Moves, LooseMove{Frame: s.p.labels[m.Frame], Corner: m.Corner, At: s.p.w.xy(m.At), Right: micro(m.Right), Back: micro(m.Back), Up: micro(m.Up)})
	}
	return f
}

// strengthSays is the one line on strength: what governs, where, under what, and
// what is to be put right first.
func (s *stander) strengthSays(t trial) string {
	p := t.strength
	for _, q := range t.weak {
		if q.Code == stand.OneFixing {
			continue
		}
		q.Names, q.Case = s.labelled(q.Frames), s.caseWords(q.Case, t)
		says, _ := q.Text()
		return p.Word + ": " + says
	}
	if !p.Governs.Sized() {
		return p.Word + ": nothing bears on it"
	}
	return fmt.Sprintf("%s: %s, %s; %s of what is allowed", p.Word, s.where(p.Governs), s.caseWords(p.Case, t), stand.TwoDigits(p.Governs.Ratio))
}

// heldText says how the frames are held to the base.
func (s *stander) heldText(t trial) string {
	in := t.input.Base
	if in.Method == stand.NotHeld {
		return "nothing holds it to a base"
	}
	text := "frames that stand on the base are held to it by "
	if len(t.asked.at.HeldFrames) > 0 {
		text = andList(s.labelled(in.Frames)) + " held to the base by "
	}
	text += string(in.Method)
	if in.Method == stand.ScrewedUp && len(s.piece.Layout.Feet) > 0 {
		text += " (screws into the ends of legs count for nothing: brackets hold there)"
	}
	if in.Each > 0 {
		text += fmt.Sprintf(", %s each", howMany(in.Each, "fastener"))
	}
	return text
}

// pullTest is a pull that the sums pass in every way, for a luggage scale before
// guests come; nil where anything is over, or nothing pushes.
func (s *stander) pullTest(t trial) *PullTestFacts {
	if t.strength == nil || t.over() {
		return nil
	}
	force, at, ok := t.strength.PullTest()
	if !ok {
		return nil
	}
	return &PullTestFacts{Force: s.p.w.holds(unit.Force(force)), Height: s.p.w.looked(at + t.setup.Stance.Lift)}
}
