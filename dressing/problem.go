package dressing

import (
	"fmt"
	"math"

	"bowerwright/geom"
	"bowerwright/snag"
)

// A Code names what is wrong with a way of dressing; it never changes once
// published.
type Code string

// The codes.
const (
	WayTwice  Code = "dressing-way-twice"     // two ways of one name
	BadShare  Code = "dressing-closes"        // closes less than nothing or more than all
	BadWet    Code = "dressing-wet"           // lighter wet than dry
	BadMass   Code = "dressing-mass"          // a mass below nothing, or no number
	NoFrame   Code = "dressing-frame-unknown" // on a frame that is not there
	BadRegion Code = "dressing-region"        // a shape whose sides cross, a band upside down, no number
	NoArea    Code = "dressing-covers-none"   // what it covers has no area
)

// Snags lists the codes for the docs.
var Snags = []snag.Kind{
	{Code: string(WayTwice), Meaning: "Two ways of dressing have one name."},
	{Code: string(BadShare), Meaning: "A layer closes less than nothing or more than all of what it covers."},
	{Code: string(BadWet), Meaning: "A layer is lighter wet than dry."},
	{Code: string(BadMass), Meaning: "The weight of a layer, or how far it hangs in front, is no sensible number."},
	{Code: string(NoFrame), Meaning: "A layer hangs on a frame that is not there."},
	{Code: string(BadRegion), Meaning: "What a layer covers is no simple shape, or its band of heights ends below where it begins."},
	{Code: string(NoArea), Meaning: "What a layer covers lies outside the piece or has no area."},
}

// A Problem is something the user must put right. Layer is empty when it is the
// way's own; Number is what was given.
type Problem struct {
	Code   Code
	Way    string
	Layer  string
	Number float64
}

// Text says what is wrong and what helps, as phrases without a full stop.
func (p Problem) Text() (problem, remedy string) {
	switch p.Code {
	case WayTwice:
		return fmt.Sprintf("two ways of dressing are called %q", p.Way), "give one of them another name"
	case BadShare:
		return fmt.Sprintf("%q closes %g %% of what it covers", p.Layer, 100*p.Number), "write 0 % (air goes through) to 100 % (closed)"
	case BadWet:
		return fmt.Sprintf("%q weighs %g times its dry weight when wet", p.Layer, p.Number), "write 1 or more"
	case BadMass:
		return fmt.Sprintf("the weight of %q, or how far it hangs in front, is no sensible number", p.Layer), "write a weight of 0 or more and a length"
	case NoFrame:
		return fmt.Sprintf("%q hangs on a frame that is not there", p.Layer), "name a frame of the piece"
	case BadRegion:
		return fmt.Sprintf("what %q covers is no simple shape or band", p.Layer), "write corners in order round the shape, and a band from below to above"
	}
	return fmt.Sprintf("%q covers nothing", p.Layer), "give it a place on the piece, or leave it out"
}

// sound gives the layers of a way that can be used, and what is wrong with the
// others.
func (p Piece) sound(w Way) (layers []Layer, problems []Problem) {
	for _, l := range w.Layers {
		wrong := p.wrong(l)
		for i := range wrong {
			wrong[i].Way, wrong[i].Layer = w.Name, l.Name
		}
		if len(wrong) == 0 {
			layers = append(layers, l)
		}
		problems = append(problems, wrong...)
	}
	return layers, problems
}

func (p Piece) wrong(l Layer) (problems []Problem) {
	fail := func(bad bool, c Code, n float64) {
		if bad {
			problems = append(problems, Problem{Code: c, Number: n})
		}
	}
	fail(!(l.Closes >= 0 && l.Closes <= 1), BadShare, l.Closes)
	fail(l.Wet != 0 && !(l.Wet >= 1 && finite(l.Wet)), BadWet, l.Wet)
	m := float64(l.Mass)
	fail(!(m >= 0 && l.PerArea >= 0 && finite(m+l.PerArea+l.Front)), BadMass, m)
	for _, f := range l.On.Frames {
		fail(f < 0 || f >= len(p.Layout.Frames), NoFrame, float64(f))
	}
	fail(!l.On.sound(), BadRegion, 0)
	return problems
}

func (r Region) sound() bool {
	if !finite(r.From+r.To) || r.To != 0 && r.To <= r.From {
		return false
	}
	for _, s := range r.Shapes {
		for _, c := range s {
			if !finite(c.X + c.Y) {
				return false
			}
		}
		if !s.IsSimple() || math.Abs(s.Area()) <= geom.Eps {
			return false
		}
	}
	return true
}

func finite(f float64) bool { return !math.IsNaN(f) && !math.IsInf(f, 0) }
