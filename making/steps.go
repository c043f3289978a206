package making

// A Step is one thing to do, and how long to wait before the next, in minutes.
// Its text has no measures: those are in the fields of what it belongs to.
// After tells what is done to a frame once it is closed, alike for every way of
// gluing.
type Step struct {
	Do    string
	Wait  float64
	After bool
}

// Why says why the method was taken, in one sentence.
func (g GlueUp) Why() string {
	if g.Asked {
		return "It was asked for."
	}
	return whys[g.Method]
}

var whys = map[Method]string{
	InLayers:     "The layers cross each other's joints, so that face grain holds the ring and not end grain.",
	Rolled:       "The boards stand on edge and the row is short enough for one person to roll: all joints close in one go, each turning on its tape.",
	Strapped:     "A strap long enough pulls every corner at once, over blocks that keep it off the tips.",
	Halves:       "The frame does not close in one go, but its sides are even: two halves are glued first, and the last two joints are trued so that they meet.",
	JointByJoint: "Nothing closes the frame in one go: every other joint is glued, then the pieces are joined.",
}

// Measures across, alike by design or not.
const (
	acrossAlike = "Take the measures across before the glue grabs; push the longer one in until all agree."
	acrossGiven = "Take the measures across before the glue grabs: they differ by design, so push until each reads what is given."
)

// steps are those of the glue-up of one frame, in order.
func steps(g GlueUp, k Kind) []Step {
	across := acrossAlike
	if !agree(g.checks(k.Frame)) {
		across = acrossGiven
	}
	out := append([]Step{{Do: "Close all joints dry and look through them at a lamp."}}, methodSteps(g)...)
	if k.Frame.Built.Open {
		out = append(out, Step{Do: "Screw a batten across the backs of the feet, at the distance given, before anything is moved: two screws a foot, and not into a seam's place. It comes off when the frame is fixed in its place."})
	}
	wipe := "Pare squeezed-out glue from the inside when it is like rubber."
	if g.Wipe {
		wipe = "Wipe squeezed-out glue from the inside with a damp rag on a stick while it is wet: no chisel goes in there."
	}
	return append(out, afterSteps(g, k, across, wipe)...)
}

// afterSteps are those once the frame is closed.
func afterSteps(g GlueUp, k Kind, across, wipe string) []Step {
	out := []Step{
		{Do: "Lay the front edges down on the waxed sheet and press: differences in width go to the back.", After: true},
		{Do: across, After: true},
		{Do: "Lay a straight stick across each end and sight over both: they must not cross. Pack under a corner until they do not.", After: true},
	}
	out = append(out, cornerSteps(g, k, whileWet)...)
	out = append(out, Step{Do: wipe, Wait: g.Hold, After: true})
	out = append(out, cornerSteps(g, k, whenMoved)...)
	out = append(out, Step{Do: "Leave it flat under weight.", Wait: g.Flat, After: true},
		Step{Do: "Do not lift it by a corner until the glue has its full strength.", Wait: max(0, g.Full-g.Hold-g.Flat), After: true})
	out = append(out, cornerSteps(g, k, atFullStrength)...)
	if k.Ring.Outside > 0 {
		out = append(out, Step{Do: "Strike both circles from the middle and saw the ring round, clamped down, the inside first.", After: true})
	}
	return out
}

const (
	sizeDo = "Brush a thin first coat on every mitre face: end grain drinks it."
	coatDo = "Coat every mitre face again, thinly, to its edges."
)

func methodSteps(g GlueUp) []Step {
	size, coat := Step{Do: sizeDo}, Step{Do: coatDo}
	switch g.Method {
	case InLayers:
		return []Step{{Do: "Lay the first layer dry on the chalked ring, on the waxed sheet."}, {Do: "Size the ends of the segments."},
			{Do: "Coat the broad face and the ends of one segment, lay it half a segment on, and clamp it before the next."},
			{Do: "Leave it clamped before another layer goes on.", Wait: g.Hold}}
	case Rolled:
		return []Step{{Do: "Lay the parts in a row against a straight edge, outside up, tips touching, and tape along the row."},
			{Do: "Turn the row over, tape down."}, size, coat, {Do: "Roll it up from one end and tape the last joint."}}
	case Strapped:
		return []Step{{Do: "Lay the parts in place on the waxed sheet with a block outside every corner, waxed paper under it."}, size, coat,
			{Do: "Close by hand, tighten the strap a little, tap the corners level, then tighten it fully."}}
	case Halves:
		return []Step{size, coat, {Do: "Close both halves; leave the joints of the two corners named dry.", Wait: g.Hold},
			{Do: "Hold the halves together and true both ends of each half in one plane, the same amount off each."}, size, coat,
			{Do: "Close the last two joints together."}}
	}
	return []Step{{Do: "Screw a fence with the frame's corner to the bench and close each joint against it."}, size, coat,
		{Do: "Close every other joint; then join the pieces in the same way, each time when the last joints hold.", Wait: g.Hold},
		{Do: "Close the last joints of a closed frame together."}}
}
