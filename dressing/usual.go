package dressing

import (
	"bowerwright/assume"
	"bowerwright/unit"
)

// Usual is what is taken of a layer when nothing is said: the share that it
// closes and how far it hangs in front.
func Usual(r *assume.Reader) Layer {
	front := r.Get(assume.DressFront)
	u, ok := unit.UnitNamed(front.Unit)
	if !ok {
		panic("dressing: " + string(front.ID) + " is in " + front.Unit + ", which is no length")
	}
	const percent = 100
	return Layer{Closes: r.Get(assume.DressCloses).Value / percent, Front: front.Value * u.Length().MM()}
}
