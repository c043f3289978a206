package job

// cautions are the usual ones for the work the packet asks for: common
// practice, no source. What the saw's maker, the local rules and licensed
// people say comes first, and each card says so.
func cautions() []Caution {
	return []Caution{
		{ID: "first", Text: "The saw maker's own instructions, local rules and licensed people come before anything on this paper."},
		{ID: "blade", Text: "Guards on. Hands out of the blade's path and never crossed over it; the piece held is the one this card names."},
		{ID: "clothes", Text: "No gloves, loose sleeves, cords or rings at the saw or the drill; long hair tied back."},
		{ID: "stopped", Text: "The blade has stopped before it is raised, before anything is picked up, and before a setting is changed. Nothing is cleared with a hand while it turns."},
		{ID: "trapped", Text: "No part may be trapped between the blade and a fixed stop. A part shorter than the hold length is pushed up to a spacer at the stop, and the spacer is taken away before the cut."},
		{ID: "phone", Text: "Read this card or a phone with the blade stopped, and keep both out of reach of the cut."},
		{ID: "dust", Text: "Wood dust harms lungs and burns: a mask that fits, extraction on, bins emptied."},
		{ID: "eyes", Text: "Eyes and ears covered at every cut."},
		{ID: "nails", Text: "Look for staples, nails and loose knots before the first cut, and support long boards at table height on both sides."},
	}
}
