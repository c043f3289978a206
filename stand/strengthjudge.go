package stand

import (
	"fmt"
	"math"

	"bowerwright/geom"
	"bowerwright/making"
	"bowerwright/statics"
	"bowerwright/unit"
)

// MovementPart stands for how far the piece moves: one that moves farther than a
// share of its height is taken for loose.
const MovementPart Part = "movement"

// A Demand is what one part is asked to bear, over what it is allowed.
type Demand struct {
	Part   Part
	Seam   int        // number; 0 for others
	Frame  int        // index; -1 for none
	Corner int        // from 1; of a corner, else 0
	Side   int        // from 1; of a board, else 0
	Name   string     // of the frame, or strongback, brace
	At     geom.Point // in the front view

	Pull, Slide unit.Force    // of a screw, bolt or bracket
	Stress      unit.Pressure // of a corner or board: the two sums, in MPa
	Twist       unit.Pressure

	Ratio     float64 // with the time that the load lasts
	Plain     float64 // without: C_D = 1
	Low, High float64 // between better and poorer wood, screws and glue
	Word      string
}

// Sized says whether a demand is anything.
func (d Demand) Sized() bool { return d.Part != "" }

// Where says which part it is.
func (d Demand) Where() string {
	switch d.Part {
	case SeamPart:
		return fmt.Sprintf("the fixing of seam %d", d.Seam)
	case CornerPart:
		return fmt.Sprintf("corner %d of %s", d.Corner, d.Name)
	case BoardPart:
		if d.Side > 0 {
			return fmt.Sprintf("board %d of %s", d.Side, d.Name)
		}
		return "the " + d.Name
	case BasePart:
		return "the joint of " + d.Name + " to the base"
	case TiePart:
		return "the screws of the strongback at " + d.Name
	case BracePart:
		return "the brace at " + d.Name
	}
	return "how far it moves"
}

// TwoDigits rounds a ratio for paper: two digits, and no figure beyond ten.
func TwoDigits(ratio float64) string {
	switch {
	case math.IsNaN(ratio) || ratio > ten:
		return "over 10"
	case ratio > 1-1/(2*ten*ten) && ratio <= 1: // rounded up, so that it is not read as over, nor over as not
		return "1.0"
	case ratio > 1 && ratio < 1+1/ten:
		return "1.1"
	case ratio >= 1:
		return fmt.Sprintf("%.1f", ratio)
	}
	return fmt.Sprintf("%.2f", ratio)
}

// ten is what a ratio is not shown beyond: the sums are for screws that hold.
const ten = 10.0

// A judge turns the figures of a case into demands.
type judge struct {
	m    *strengthModel
	time float64
}

// finish sets word and band.
func (j judge) finish(d Demand, band float64) Demand {
	d.Word = j.m.rules.Word(d.Ratio)
	d.Low, d.High = d.Ratio/(1+band), d.Ratio*(1+band)
	return d
}

// springs judges what each screw, bolt, plate and bracket bears.
func (j judge) springs(r *statics.Result, keep func(Demand)) {
	for i, f := range r.Springs {
		t := j.m.ties[i]
		if t.part == "" {
			continue
		}
		pull, slide := math.Max(0, f.Along), f.Across.Len()
		plain := together(pull, slide, t.pull, t.slide)
		if t.rock > 0 {
			plain += f.Rock.Len() / t.rock
		}
		d := Demand{Part: t.part, Frame: t.frames[0], Name: j.m.in.Layout.Frames[t.frames[0]].ID, At: t.at,
			Pull: unit.Force(pull), Slide: unit.Force(slide), Plain: plain, Ratio: plain}
		if t.part == SeamPart {
			d.Seam = t.number
		}
		if t.wood {
			d.Ratio = plain / j.time
		}
		keep(j.finish(d, j.m.rules.Band))
	}
}

// corners judges the mitres: bending both ways and pull in sum against the face,
// and twist, each over what is allowed, added. The modulus of each is that of the
// face of the mitre; the moments are those at the ends of both boards.
func (j judge) corners(r *statics.Result, keep func(Demand)) {
	for _, c := range j.m.ends {
		in := j.m.in.Frames[c.frame]
		allowed := j.m.rules.Mitre * j.m.damp()
		if reinforced(in) {
			allowed *= j.m.rules.MitreChosen
		}
		d := Demand{Part: CornerPart, Frame: c.frame, Corner: c.corner, Name: j.m.in.Layout.Frames[c.frame].ID, At: j.m.corner(c.frame, c.corner-1)}
		for k, s := range c.sticks {
			end := r.Members[s].A
			if k == 0 {
				end = r.Members[s].B
			}
			stress, twist := j.m.stresses(end, c.face, c.rise)
			if ratio := (stress + twist) / allowed; ratio >= d.Ratio {
				d.Ratio, d.Plain, d.Stress, d.Twist = ratio, ratio, unit.Pressure(stress), unit.Pressure(twist)
			}
		}
		keep(j.finish(d, j.m.rules.BandGlue))
	}
}

// reinforced says whether what was chosen for the corners counts: brads only
// keep a mitre from slipping while it is glued.
func reinforced(f StrengthFrame) bool {
	return f.Corner != making.GlueAlone && f.Corner != making.Brads
}

// boards judges the sticks: bending and pull against what is allowed of clear
// wood, twist against shear, whichever is worse, at their two ends and half way,
// where what hangs along them bends them most.
func (j judge) boards(r *statics.Result, keep func(Demand)) {
	rules := j.m.rules
	for i, s := range j.m.sticks {
		bending := rules.Bending * rules.Rupture * math.Pow(s.gravity, rules.Power) * j.m.damp()
		shear := rules.Shear * j.m.damp()
		d := Demand{Part: BoardPart, Frame: -1, Name: s.name}
		if s.side != nil {
			mid, _, _ := j.m.stickMid(i)
			d.Frame, d.Side, d.Name, d.At = s.side.frame, s.side.number, j.m.in.Layout.Frames[s.side.frame].ID, mid
		}
		stick := r.Members[i]
		for _, at := range []statics.Load{stick.A, stick.B, stick.At(stick.Length / 2)} {
			stress, twist := j.m.stresses(at, s.wide, s.deep)
			if plain := math.Max(stress/bending, twist/shear); plain >= d.Plain {
				d.Plain, d.Ratio, d.Stress, d.Twist = plain, plain/j.time, unit.Pressure(stress), unit.Pressure(twist)
			}
		}
		keep(j.finish(d, rules.Band))
	}
}

// stresses at the end of a stick with a face wide by deep: of bending both ways
// and what goes along it, and of twist.
func (m *strengthModel) stresses(end statics.Load, wide, deep float64) (stress, twist float64) {
	stress = math.Abs(end.Moment[1])/modulus(wide, deep) + math.Abs(end.Moment[2])/modulus(deep, wide) + math.Abs(end.Force[0])/(wide*deep)
	size := [2]float64{wide, deep}
	if m.twists[size] == 0 {
		m.twists[size] = twistModulus(wide, deep)
	}
	return stress, math.Abs(end.Moment[0]) / m.twists[size]
}

// modulus of a rectangle against bending in the plane of its depth.
func modulus(wide, deep float64) float64 { return wide * deep * deep / (2 * 3) }

// twistModulus is the moment over the greatest shear stress in a rectangle that
// is twisted, mm3: J / (b (1 - 8/π² Σ 1/(n² cosh(nπa/2b)))), n odd, a the longer
// side and b the shorter (Timoshenko and Goodier, Theory of Elasticity, section
// 109; from memory).
func twistModulus(wide, deep float64) float64 {
	a, b := math.Max(wide, deep), math.Min(wide, deep)
	sum := 0.0
	for n := 1.0; n < twistTerms; n += 2 {
		sum += 1 / (n * n * math.Cosh(n*math.Pi*a/(2*b)))
	}
	return statics.RectangleTwist(a, b) / (b * (1 - 2*4*sum/(math.Pi*math.Pi)))
}

// twistTerms is where the series has long come to a float's grain.
const twistTerms = 40
