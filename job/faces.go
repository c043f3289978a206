package job

import (
	"fmt"

	"bowerwright/frame"
)

// checkFaces names kinds whose mirrored frames would show the wrong face: flat
// boards with one good face give parts of one hand only.
func (p *planner) checkFaces() {
	for i, k := range p.kinds {
		if !k.Flat || k.board.turning || ownMirror(k.asked) {
			continue
		}
		mirrored := ""
		for _, f := range p.asked.Frames {
			if p.kindAt[f.Kind] == i && f.Move.Mirror {
				mirrored = f.ID
				break
			}
		}
		if mirrored == "" {
			continue
		}
		p.snag(snagWrongFace, "layout."+mirrored, mirrored,
			fmt.Sprintf("%s is the mirror image of %s, whose flat boards have one good face: its parts would show the other one", mirrored, k.title()),
			"describe the mirrored frame as a kind of its own, by its mirrored corners, or allow turning: yes")
	}
}

// ownMirror says whether the mirror image of a frame is made of the same parts.
func ownMirror(f frame.Frame) bool {
	kinds := f.Kinds()
	for _, k := range kinds {
		if k.Part.Hand == frame.Symmetric {
			continue
		}
		if k.MirrorOf < 0 || len(kinds[k.MirrorOf].Sides) != len(k.Sides) {
			return false
		}
	}
	return true
}
