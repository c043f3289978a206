package job

import "bowerwright/unit"

// A MakingAsked is what the job and the shop say about gluing, sanding, finish
// and the dry lay, beside what are assumptions by another name. The zero value
// is one person with nothing but tape, who finishes all when it is glued.
type MakingAsked struct {
	Straps []unit.Length // band straps owned, by their length
	Hands  int           // people at the glue; 0 is 1
	Bench  unit.Length   // its length; 0: it limits nothing
	Brads  []unit.Length // at hand, by length; nil: any that the catalogue has
	Plates []unit.Length // likewise
	Inside string        // when the insides are finished: "after gluing" or "", "before gluing", "none"
}
