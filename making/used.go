package making

import "bowerwright/assume"

// Used lists the assumptions that a plan rests on: those of the ways of gluing,
// corners and finish that it takes, in the order of the work. Another value of
// any other assumption gives the same plan.
func (p Plan) Used(s Shop) []assume.ID {
	ids := []assume.ID{assume.JointTolerance}
	ids = append(ids, p.glueUsed(s.withDefaults())...)
	for _, c := range []Corner{Brads, Blocks, Plates, Splines} {
		if p.has(func(k KindPlan) bool { return k.Corners.Choice == c }) {
			ids = append(ids, cornerUses[c]...)
		}
	}
	ids = append(ids, p.finishUsed()...)
	if len(p.Lay.Order) > 0 {
		ids = append(ids, assume.LayShim, assume.LayShimOver, assume.LayBlanket, assume.LayMargin)
	}
	if len(p.Lay.Straight.Frames) > 0 {
		ids = append(ids, assume.LayStraight)
	}
	return ids
}

// cornerUses are the assumptions behind each way of strengthening a corner.
var cornerUses = map[Corner][]assume.ID{
	Brads:   {assume.CornerBrads, assume.CornerBradEnd, assume.CornerBradHold, assume.CornerKeep},
	Blocks:  {assume.CornerBlock, assume.CornerBlockBack, assume.CornerBevel, assume.CornerRipLeast, assume.CornerRipMost},
	Plates:  {assume.CornerKeep},
	Splines: {assume.CornerSlot},
}

func (p Plan) has(is func(KindPlan) bool) bool {
	for _, k := range p.Kinds {
		if is(k) {
			return true
		}
	}
	return false
}

// glueUsed: every method is held against its limits, the one taken or not.
func (p Plan) glueUsed(s Shop) []assume.ID {
	by := func(m Method) bool { return p.has(func(k KindPlan) bool { return k.GlueUp.Method == m }) }
	ids := []assume.ID{assume.GlueOpen, assume.ShopTemperature, assume.GlueTemperature, assume.GlueFace, assume.GlueClose, assume.GlueSpread,
		assume.GlueSizeFace, assume.GlueSizeWait, assume.GlueHold, assume.GlueFlat, assume.GlueFull, assume.GlueChisel,
		assume.GlueRow, assume.GlueSide, assume.GlueStock, assume.GluePitch, assume.GlueCoverage, assume.GlueWaste, assume.LaySheet}
	if s.Rates.Glue.Shop > 20 {
		ids = append(ids, assume.GlueWarm)
	}
	if by(Halves) {
		ids = append(ids, assume.GlueTruing)
	}
	if by(Rolled) {
		ids = append(ids, assume.RollWidth, assume.RollPitch, assume.RollLap)
	}
	return ids
}

func (p Plan) finishUsed() []assume.ID {
	ids := []assume.ID{assume.SandFirst, assume.SandLast, assume.SandSheet, assume.FillerSet, assume.FillerSand, assume.FillerPaint, assume.FillerJoint, assume.FinishCoats}
	if p.Finish.Coats > 0 {
		ids = append(ids, assume.FinishCoatsDay, assume.FinishRecoat, assume.FinishCoverage, assume.FinishWaste)
	}
	if p.Finish.Coats > 1 {
		ids = append(ids, assume.SandBetween)
	}
	return ids
}
