package making

// howOf says how the corners of a kind are strengthened, without measures. Layers
// hold a ring by their faces, whatever its ends are.
func howOf(k Kind) string {
	if k.Corner == GlueAlone && k.Layers > 1 {
		return "Glue alone: the broad faces of the layers hold, since each lies over the joints of the next."
	}
	return cornerHows[k.Corner]
}

var cornerHows = map[Corner]string{
	GlueAlone: "Glue alone: a mitre is largely end grain, so nothing is lifted by a corner.",
	Brads: "When the frame is closed and flat, drive the brads from outside, square to the face, by turns from the one part and from the other, " +
		"each at its own place behind the front edge, so that no two meet. They hold the joint while the glue sets and add little after.",
	Blocks: "When the frame may be moved, glue a block into every corner, behind the front edge, and rub it until it grabs.",
	Plates: "When the glue has its full strength, screw a plate to the back, square across the middle of every mitre, pilot holes first.",
	Splines: "When the glue has its full strength, saw the slots into the closed corner, from its tip inwards, parallel to the front. " +
		"The frame stands upright in a cradle, tip down: two boards rise from the table at the angle given, on a tall back that slides along the fence. Clamp the frame's front against that back, and a block behind the place where the blade comes out. " +
		"For the second slot of a corner turn the frame over, its back against the cradle; the fence stays. " +
		"The guard is off for this cut: the saw's instructions come first, hands stay above the corner's inside, and a second person steadies a big frame. By hand, a saw along a guide block makes the same slots. " +
		"Fit the splines until they slide in by hand, glue them in, grain across the joint, and trim them flush when they hold.",
}

// cornerStep is what is done for the corners of a frame that is closed, and when:
// before the glue grabs, when the frame may be moved, or at full strength.
type cornerStep struct {
	at   int
	step Step
}

const (
	whileWet = iota + 1
	whenMoved
	atFullStrength
)

// cornerSteps puts what the corners take where it belongs.
func cornerSteps(g GlueUp, k Kind, at int) []Step {
	s, ok := map[Corner]cornerStep{
		Brads:   {whileWet, Step{Do: "Drive the brads, as under Corners."}},
		Blocks:  {whenMoved, Step{Do: "Glue the corner blocks in, as under Corners."}},
		Plates:  {atFullStrength, Step{Do: "Screw the plates on, as under Corners."}},
		Splines: {atFullStrength, Step{Do: "Saw the slots and glue the splines in, as under Corners; trim them when they hold.", Wait: g.Hold}},
	}[k.Corner]
	if !ok || s.at != at {
		return nil
	}
	s.step.After = true
	return []Step{s.step}
}
