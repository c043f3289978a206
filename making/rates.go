package making

import (
	"fmt"
	"math"

	"bowerwright/assume"
	"bowerwright/unit"
)

// Rates are the numbers behind the plan, each an assumption that can be
// edited: lengths mm, areas mm², times minutes, temperatures °C, volumes ml.
// The zero Rates stands for the built-in ones.
type Rates struct {
	Tolerance float64 // what two measures that should be equal may differ by
	Glue      GlueRates
	Corner    CornerRates
	Filler    Filler
	Sanding   SandingRates
	Finish    FinishRates
	Laying    LayingRates
}

// GlueRates are about the glue, the hands that spread it and the ways of
// closing.
type GlueRates struct {
	Open20           float64 // open time at 20 °C
	Warm             float64 // share of the open time left for each 10 °C over 20 °C
	Shop, Least      float64 // temperature of the shop; the glue's least
	Hold, Full, Flat float64 // until it may be moved; until full strength; under weight
	Face, Close      float64 // to coat one mitre face; to close one joint
	Spread           float64 // area coated in a minute
	SizeFace         float64 // to size one mitre face
	SizeWait         float64
	Coverage         float64 // area that 1 ml coats once
	Waste            float64 // share on top
	Row, Side, Stock float64 // greatest row, side and thickness laid on tape and rolled
	Pitch            float64 // of straps and clamps
	Truing           float64 // taken off each half
	Chisel           float64 // clear room a chisel needs
	TapeWidth        float64
	TapePitch        float64
	TapeLap          float64
}

// CornerRates are about what strengthens a corner.
type CornerRates struct {
	Block, BlockBack float64 // width of a corner block; kept back from the front edge
	Bevel            unit.Angle
	RipLeast         float64 // shortest and longest board that blocks are ripped from
	RipMost          float64
	Brads            int // to a joint
	BradEnd          float64
	BradHold         float64
	Keep             float64
	Slot             float64 // deepest slot for a spline, from the tip
}

// SandingRates are about abrasive. A Sheet sands that area with one grit.
type SandingRates struct {
	First, Last, Between int
	Sheet                float64
}

// FinishRates are about paint, stain or lacquer.
type FinishRates struct {
	Coats, ADay int
	Recoat      float64
	Coverage    float64 // area that 1 ml covers once
	Waste       float64
}

// LayingRates are about the dry lay.
type LayingRates struct {
	Straight       float64 // longest known-straight length in the shop
	Shim, ShimOver float64 // thickness of one; gap above the planned one that is shimmed
	Blanket        float64 // area of one
	Margin, Sheet  float64 // round what is laid out; waxed sheet beyond a frame
}

// RatesFrom reads the rates from a book of assumptions. A rate in a unit that
// does not fit is a fault of the book and panics, as an unknown id does.
func RatesFrom(r *assume.Reader) Rates {
	b := book{r}
	return Rates{
		Tolerance: b.mm(assume.JointTolerance),
		Glue:      b.glue(),
		Corner:    b.corner(),
		Filler:    Filler{Set: b.in(assume.FillerSet), Sand: b.in(assume.FillerSand), Paint: b.in(assume.FillerPaint), Joint: b.in(assume.FillerJoint)},
		Sanding:   SandingRates{First: b.whole(assume.SandFirst), Last: b.whole(assume.SandLast), Between: b.whole(assume.SandBetween), Sheet: b.in(assume.SandSheet)},
		Finish: FinishRates{Coats: b.whole(assume.FinishCoats), ADay: b.whole(assume.FinishCoatsDay), Recoat: b.in(assume.FinishRecoat),
			Coverage: b.in(assume.FinishCoverage), Waste: b.in(assume.FinishWaste)},
		Laying: LayingRates{Straight: b.mm(assume.LayStraight), Shim: b.mm(assume.LayShim), ShimOver: b.mm(assume.LayShimOver),
			Blanket: b.in(assume.LayBlanket), Margin: b.mm(assume.LayMargin), Sheet: b.mm(assume.LaySheet)},
	}
}

// book reads assumptions in the units of this package.
type book struct{ r *assume.Reader }

func (b book) glue() GlueRates {
	return GlueRates{
		Open20: b.in(assume.GlueOpen), Warm: b.in(assume.GlueWarm), Shop: b.in(assume.ShopTemperature), Least: b.in(assume.GlueTemperature),
		Hold: b.in(assume.GlueHold), Full: b.in(assume.GlueFull), Flat: b.in(assume.GlueFlat),
		Face: b.in(assume.GlueFace), Close: b.in(assume.GlueClose), Spread: b.in(assume.GlueSpread),
		SizeFace: b.in(assume.GlueSizeFace), SizeWait: b.in(assume.GlueSizeWait),
		Coverage: b.in(assume.GlueCoverage), Waste: b.in(assume.GlueWaste),
		Row: b.mm(assume.GlueRow), Side: b.mm(assume.GlueSide), Stock: b.mm(assume.GlueStock), Pitch: b.mm(assume.GluePitch),
		Truing: b.mm(assume.GlueTruing), Chisel: b.mm(assume.GlueChisel),
		TapeWidth: b.mm(assume.RollWidth), TapePitch: b.mm(assume.RollPitch), TapeLap: b.mm(assume.RollLap),
	}
}

func (b book) corner() CornerRates {
	return CornerRates{
		Block: b.mm(assume.CornerBlock), BlockBack: b.mm(assume.CornerBlockBack), Bevel: unit.FromDegrees(b.in(assume.CornerBevel)),
		RipLeast: b.mm(assume.CornerRipLeast), RipMost: b.mm(assume.CornerRipMost),
		Brads: b.whole(assume.CornerBrads), BradEnd: b.mm(assume.CornerBradEnd), BradHold: b.mm(assume.CornerBradHold),
		Keep: b.mm(assume.CornerKeep), Slot: b.mm(assume.CornerSlot),
	}
}

// ours are the units of assumptions that are no lengths, and how many of this
// package's own unit one of them is. A m²/L is 1000 mm² to the ml, an m² a
// million mm².
var ours = map[string]float64{
	"min": 1, "h": 60, "s": 1.0 / 60, "%": 0.01, "C": 1, "deg": 1, "ml": 1, "grit": 1, "coats": 1, "brads": 1,
	"m2": 1e6, "m2/min": 1e6, "m2/L": 1000,
}

func (b book) in(id assume.ID) float64 {
	v := b.r.Get(id)
	k, ok := ours[v.Unit]
	if !ok {
		panic(fmt.Sprintf("making: %s is in %s, which is not known here", id, v.Unit))
	}
	return v.Value * k
}

// whole reads a count; a broken one, such as 2.5 coats, is taken up.
func (b book) whole(id assume.ID) int { return int(math.Ceil(b.in(id))) }

func (b book) mm(id assume.ID) float64 {
	v := b.r.Get(id)
	u, ok := unit.UnitNamed(v.Unit)
	l, fits := unit.Of(v.Value, u)
	if !ok || !fits {
		panic(fmt.Sprintf("making: %s is no length: %g %s", id, v.Value, v.Unit))
	}
	return l.MM()
}

// OpenTime is the glue's open time in minutes at the shop's temperature. It
// shortens by the share Warm for each 10 °C over 20 °C and is not lengthened
// below: the label speaks of about 20 °C, and skin forms sooner in draughts.
// Common practice, no source.
func (g GlueRates) OpenTime() float64 {
	return g.Open20 * math.Pow(g.Warm, max(0, g.Shop-20)/10)
}
