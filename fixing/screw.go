package fixing

import (
	"math"

	"bowerwright/stock"
	"bowerwright/unit"
)

// Holes are what is drilled for a fastener, in the order of drilling. The drill
// is stopped Stop deep from the face under the head, along the axis.
type Holes struct {
	Clearance unit.Length // through the first board, so that the screw draws the second up to it
	Pilot     unit.Length // in the second
	Sink      unit.Length // width of the countersink, counterbore or washer's seat
	Stop      unit.Length
	Bore      unit.Length // depth of a counterbore
	Thread    string      // kind of thread to ask for
	Source    string      // of the pilot
}

// PointOut says how far the point of a screw stands out behind two boards when
// its head is sunk under the face by so much; below zero, how much wood is left.
func PointOut(length, sink, first, second unit.Length) unit.Length {
	return length + sink - first - second
}

// A fit is a length of screw in two boards.
type fit struct {
	stock.Fastener
	first, penetration, spare float64
}

// fit chooses the length: the shortest that goes in by Rules.Full, else the
// longest that leaves Rules.Keep over its point. The seam's gap is counted
// against the hold; over the point it is not, since the screw may close it. At
// a slant all thicknesses are longer by 1/cos.
func (w *work) fit(g gauge, c contact, head int, slant unit.Angle) (fit, bool) {
	return w.fitThrough(g, c.sides[head].thick, c.gap, c.sides[1-head].thick, slant)
}

func (w *work) fitThrough(g gauge, first, gap, second float64, slant unit.Angle) (fit, bool) {
	cos := math.Cos(float64(slant))
	var best fit
	found := false
	for _, f := range g.sold {
		reach := f.Length.MM() + w.rules.Sink
		t := fit{f, first / cos, reach - (first+gap)/cos, first + second - reach*cos}
		if t.spare < w.rules.Keep-keepSlack {
			break
		}
		if t.penetration < w.rules.Hold.of(g.Diameter)-keepSlack {
			continue
		}
		best, found = t, true
		if t.penetration >= w.rules.Full.of(g.Diameter) {
			break
		}
	}
	return best, found
}

// keepSlack, in mm, forgives what is lost in turning lengths to float64: far
// below what a screw's length is made to.
const keepSlack = 1e-6

// Steps of drill sizes sold in inches and in mm: common practice, no source.
const (
	drillInch   = unit.Inch / 64
	drillMetric = unit.Millimetre / 2
)

func drillStep(diameter unit.Length) unit.Length {
	if metric(diameter) {
		return drillMetric
	}
	return drillInch
}

// Pilot gives the pilot hole of a screw in timber of a specific gravity, before
// it is rounded to a drill: 70 % of the root, above a gravity of 0.6 90 %.
//
// Source: AF&PA NDS Commentary XI (seen): 70 % of the root in softwood, 90 % in
// hardwood; where one ends and the other begins is NDS 12.1.5.2 (from memory),
// which from 0.5 down asks for none at all: near a mitre one is drilled anyway
// (common practice, no source). A gravity of 0 is taken as 0.5.
func Pilot(root unit.Length, gravity float64) unit.Length {
	share := unit.Length(70)
	if gravity > hardGravity {
		share = 90
	}
	return root * share / 100
}

const hardGravity = 0.6 // NDS 12.1.5.2, from memory

const pilotSource = "AF&PA NDS Commentary XI: 70 % of the root, in hard timber 90 %"

// PilotDrill is the drill for the pilot of a screw: Pilot to the nearest that is
// sold.
func PilotDrill(s stock.Screw, gravity float64) unit.Length {
	return unit.Round(Pilot(s.Root, gravity), drillStep(s.Diameter))
}

// holes are those of a wood screw through one board into another. The
// clearance hole takes the whole screw, so a threaded shank turns free in it.
func (w *work) holes(s stock.Screw, f fit, gravity float64) Holes {
	step := drillStep(s.Diameter)
	up := func(l unit.Length) unit.Length { return (l + step - 1) / step * step }
	stop, _ := unit.FromMM(f.Length.MM()+w.rules.Sink, unit.Nanometre, unit.Nearest)
	thread := "coarse" // for soft timber; fine for hard: common practice, no source
	if gravity > hardGravity {
		thread = "fine"
	}
	turns := s.Diameter
	if metric(s.Diameter) { // sold by the outside of the thread, which would just bind
		turns++
	}
	return Holes{Clearance: up(turns), Pilot: PilotDrill(s, gravity), Sink: s.Head, Stop: stop,
		Thread: thread, Source: pilotSource}
}
