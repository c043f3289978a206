package making

import "math"

// A spline crosses a closed corner from outside: when the glue has set, a slot is
// sawn in from the tip, parallel to the front, and a thin piece is glued into it.
// The slot can be sawn no earlier in a frame that is rolled up, for its joints
// turn about their tips and a spline in the faces would jam; sawn into the closed
// corner it is alike for every way of gluing, for boards on edge and flat ones.

// Of a spline and its slot; all common practice, no source.
const (
	// thinnestWall is how many times a slot's width the frame must be from front
	// to back: a wall as thick as the slot on either side.
	thinnestWall = 3
	// slotShare of a mitre is the most that is sawn into: the rest, towards the
	// inside, keeps the corner together at the saw and hides the slot.
	slotShare = 2.0 / 3
	// leastSlot, in mm, is the shallowest that is worth the sawing: 1/4 in.
	leastSlot = 25.4 / 4
	// splineProud, in mm, is what a spline stands out of its slot on every side
	// and is trimmed off: 1/4 in.
	splineProud = 25.4 / 4
	// oneSpline, in mm, is the depth from front to back up to which a corner takes
	// a single one: 2 in. A deeper one takes two, at a third from either edge, so
	// that one setting of the fence saws both, the frame turned over between.
	oneSpline = 2 * 25.4
	// slotMark, in mm, is what a slot's depth is taken down to without a tape's
	// mark: a tenth of a millimetre.
	slotMark = 0.1
	// commonKerf, in mm, is what a common blade saws away, 1/8 in, for a shop that
	// gives none.
	commonKerf = 25.4 / 8
)

// spline is as thick as the blade's cut is wide. Beside the mitre the wood at a
// depth d from the tip reaches d / tan s to either side, for a setting s, and
// d / sin s along the outside faces, of which a slot may use half: the other
// half is the next corner's (plane trigonometry). A corner that turns inwards
// has its tip inside, where no saw goes, and takes none.
func (m *maker) spline(k Kind, corner int) (Piece, bool) {
	f := k.Frame
	setting, rise := float64(f.Asked.Setting(corner)), f.Boards.Rise().MM()
	if setting < noTurn {
		return Piece{}, false
	}
	if need := thinnestWall * m.shop.Kerf; rise < need {
		m.fail(Problem{Code: SplineRoom, Kind: k.Name, Corner: corner, What: FrontToBack, Room: rise, Need: need})
		return Piece{}, false
	}
	before, after := partsAt(f, corner)
	half := min(before.Outside, after.Outside).MM() / 2
	slot := min(m.shop.Rates.Corner.Slot, slotShare*mitreLength(f, corner), half*math.Sin(setting))
	mark := m.shop.Mark
	if mark <= 0 {
		mark = slotMark
	}
	slot = markBelow(slot, mark)
	if slot < leastSlot {
		m.fail(Problem{Code: SplineRoom, Kind: k.Name, Corner: corner, What: FromTheTip, Room: slot, Need: leastSlot})
		return Piece{}, false
	}
	count := 1
	if rise > oneSpline {
		count = 2
	}
	lean := onScale(setting) // so that corners alike but for the last digit of a float take splines alike
	return Piece{Corner: corner, Name: "spline", Cut: true, Count: count, Length: 2*slot/math.Tan(float64(lean)) + 2*splineProud, Width: slot + splineProud,
		Thickness: m.shop.Kerf, Slot: slot, Behind: m.evenly(count, rise), Lean: lean}, true
}

// splineGlue is for both broad faces of the splines of a corner, once: each is a
// triangle, as wide at the slot's bottom as the wood is there.
func (m *maker) splineGlue(p Piece) float64 {
	if p.Slot == 0 {
		return 0
	}
	r := m.shop.Rates.Glue
	return float64(p.Count) * 2 * p.Slot * p.Slot / math.Tan(float64(p.Lean)) / r.Coverage * (1 + r.Waste)
}
