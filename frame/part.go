package frame

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// A Hand tells two mirror-handed parts apart. Look at the front of the frame
// with the part's outside face down: a left-handed part has the larger setting
// at its left end, which is its start.
type Hand int

// The hands.
const (
	Symmetric Hand = iota
	LeftHanded
	RightHanded
)

func (h Hand) String() string { return [...]string{"", "left", "right"}[h] }

// A Part is one stick as sawn. Its start is the end at corner k of its side k;
// seen from the front with the outside face down, the left one.
type Part struct {
	Side      int
	Outside   unit.Length // on the tape, unless Fitted or Pinned off it
	Fitted    bool        // the length closes the frame instead of being on the tape
	Pinned    bool        // the length was settled elsewhere
	Asked     float64     // outside before rounding, mm
	Inside    float64     // mm
	TipToTip  float64     // mm
	Start     unit.Angle  // signed setting
	End       unit.Angle
	StartFoot bool // the start stands on the floor
	EndFoot   bool
	Hand      Hand
	Face      geom.Polygon // as built, where it stands: outside start and end, inside end and start, mm
}

// LongPoint is the larger of outside and inside, mm.
func (p Part) LongPoint() float64 { return math.Max(p.Outside.MM(), p.Inside) }

// ShortPoint is the smaller of outside and inside, mm.
func (p Part) ShortPoint() float64 { return math.Min(p.Outside.MM(), p.Inside) }

// insideLength is the inside length, mm, of a part depth mm deep: the outside
// less depth x tan of each setting (right triangles at the ends).
func insideLength(outside, depth float64, start, end unit.Angle) float64 {
	return outside - depth*(math.Tan(float64(start))+math.Tan(float64(end)))
}

// makeParts lists the parts by side.
func makeParts(o Outline, t tape, s Settings) []Part {
	w := s.Boards.Depth().MM()
	parts := make([]Part, o.Sides())
	for i := range parts {
		k, next := i+1, (i+1)%len(o.Corners)+1
		p := Part{
			Side: k, Outside: t.lengths[i], Fitted: t.fitted(k), Asked: o.Length(k),
			Start: o.Setting(k), End: o.Setting(next),
			StartFoot: o.IsFoot(k), EndFoot: o.IsFoot(next),
		}
		_, p.Pinned = s.Pinned[k]
		p.Inside = insideLength(p.Outside.MM(), w, p.Start, p.End)
		p.TipToTip = TipToTip(p.Outside.MM(), w, p.Start, p.End)
		p.Hand = handOf(p.Start, p.End)
		parts[i] = p
	}
	return parts
}

func handOf(start, end unit.Angle) Hand {
	switch d := float64(start - end); {
	case math.Abs(d) < sameAngle:
		return Symmetric
	case d > 0:
		return LeftHanded
	}
	return RightHanded
}

// A Kind is a set of parts that are sawn alike.
type Kind struct {
	Part     Part // the first of them
	Sides    []int
	MirrorOf int // index of the kind that is its mirror image, or -1
}

// Kinds groups a frame's parts: parts are alike when their length and both
// settings in order are. A part and its mirror image are two kinds, named for
// each other, though without a good face one is the other rolled over.
// Kinds come in the order of their first side.
func (f Frame) Kinds() []Kind {
	var kinds []Kind
	for _, p := range f.Parts {
		i := indexOf(kinds, func(k Kind) bool { return Alike(k.Part, p) })
		if i < 0 {
			i = len(kinds)
			kinds = append(kinds, Kind{Part: p, MirrorOf: -1})
		}
		kinds[i].Sides = append(kinds[i].Sides, p.Side)
	}
	for i, k := range kinds {
		if k.Part.Hand != Symmetric {
			kinds[i].MirrorOf = indexOf(kinds, func(o Kind) bool { return MirrorHanded(k.Part, o.Part) })
		}
	}
	return kinds
}

func indexOf(kinds []Kind, is func(Kind) bool) int {
	for i, k := range kinds {
		if is(k) {
			return i
		}
	}
	return -1
}

// Alike says whether two parts of one stock are sawn alike: one is the other,
// swapped end for end and rolled over.
func Alike(p, q Part) bool {
	return p.Outside == q.Outside && p.Fitted == q.Fitted &&
		sameSetting(p.Start, q.Start) && sameSetting(p.End, q.End)
}

// MirrorHanded says whether one part is the other in a mirror and they are not
// alike.
func MirrorHanded(p, q Part) bool {
	return p.Outside == q.Outside && p.Hand != Symmetric &&
		sameSetting(p.Start, q.End) && sameSetting(p.End, q.Start)
}

func sameSetting(a, b unit.Angle) bool { return math.Abs(float64(a-b)) < sameAngle }
