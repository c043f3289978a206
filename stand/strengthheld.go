package stand

// A HeldFrame is one place where a frame is held to the base, for the lists.
type HeldFrame struct {
	Frame     int     // index in the layout
	Fasteners int     // brackets, screws or bolts
	Up        float64 // mm over the base: more than nothing where a post holds it
}

// HeldFrames are the places where the base holds the frames, with as many
// fasteners as strength reckons with. They follow from the layout, the boards
// and the joint alone.
func (in StrengthInput) HeldFrames(rules StrengthRules) []HeldFrame {
	m := newStrengthModel(in, rules, false)
	var out []HeldFrame
	for _, p := range m.pads() {
		if !p.held {
			continue
		}
		n, rows := in.Base.fasteners(p.face.Len(), in.Frames[p.frame].Boards.Rise().MM(), rules)
		out = append(out, HeldFrame{Frame: p.frame, Fasteners: n * len(rows), Up: (p.face.A.Y + p.face.B.Y) / 2})
	}
	return out
}
