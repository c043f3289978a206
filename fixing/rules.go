package fixing

import (
	"fmt"

	"bowerwright/assume"
	"bowerwright/unit"
)

// Rules are the numbers behind the decisions, each an assumption that can be
// edited. Distances called Diameters are in diameters of the fastener, all
// others in mm. A zero Rules stands for the built-in ones.
type Rules struct {
	Edge, End, EndLeast   Diameters // screw to a board's edge; to its end; at the least
	Pitch, PitchAcross    Diameters // screw to screw along and across the grain
	Apart                 Diameters // clear between paths of different seams, and to hooks and pegs
	Hold, Full, Standard  Diameters // penetration: least; enough; least of the standard
	BoltEdge, BoltPitch   Diameters
	BoltEnd, BoltEndLeast Diameters
	Keep, Sink, Every     float64 // wood over a point; head below the face; farthest apart along a seam
	Bore                  float64 // wood beside a counterbore
	Standing, Seated      float64 // heights of eyes
	Camera, Distance      float64
	Driver, RightAngle    Tool
	Slant                 unit.Angle // steepest, from square to the board
	NutRoom               float64
	Reach                 float64 // heads higher than this are not reached from the floor
}

// Diameters is a distance counted in diameters of a fastener.
type Diameters float64

func (d Diameters) of(diameter unit.Length) float64 { return float64(d) * diameter.MM() }

// A Tool is a driver: the length of its body, of the bit outside its holder,
// and from the bit to the outside of the body, in mm.
type Tool struct{ Length, Bit, Half float64 }

// RulesFrom reads the rules from a book of assumptions. A rule in a unit that
// does not fit is a fault of the book and panics, as an unknown id does.
func RulesFrom(r *assume.Reader) Rules {
	mm := func(id assume.ID) float64 {
		v := r.Get(id)
		u, ok := unit.UnitNamed(v.Unit)
		l, fits := unit.Of(v.Value, u)
		if !ok || !fits {
			panic(fmt.Sprintf("fixing: %s is no length: %g %s", id, v.Value, v.Unit))
		}
		return l.MM()
	}
	times := func(id assume.ID) Diameters { return Diameters(r.Get(id).Value) }
	return Rules{
		Edge: times(assume.FixEdge), End: times(assume.FixEnd), EndLeast: times(assume.FixEndLeast),
		Pitch: times(assume.FixPitch), PitchAcross: times(assume.FixPitchAcross), Apart: times(assume.FixApart),
		Hold: times(assume.FixHold), Full: times(assume.FixFull), Standard: times(assume.FixStandard),
		BoltEdge: times(assume.FixBoltEdge), BoltPitch: times(assume.FixBoltPitch),
		BoltEnd: times(assume.FixBoltEnd), BoltEndLeast: times(assume.FixBoltEndLeast),
		Keep: mm(assume.FixKeep), Sink: mm(assume.FixSink), Every: mm(assume.FixEvery), Bore: mm(assume.FixBore),
		Standing: mm(assume.EyeStanding), Seated: mm(assume.EyeSeated), Camera: mm(assume.EyeCamera), Distance: mm(assume.EyeDistance),
		Driver:     Tool{mm(assume.DriverLength), mm(assume.DriverBit), mm(assume.DriverHalf)},
		RightAngle: Tool{mm(assume.RightAngleLength), mm(assume.RightAngleBit), mm(assume.RightAngleHalf)},
		Slant:      unit.FromDegrees(r.Get(assume.SlantMost).Value), NutRoom: mm(assume.NutRoom),
		Reach: mm(assume.FixReach),
	}
}
