package job

import "bowerwright/snag"

// What Plan may find to put right. The shapes' and the layout's own reasons
// keep their codes behind "shape-" and "layout-".
var (
	snagAssumeUnknown = define("assumption-unknown", "An assumption is set that does not exist.")
	snagAssumeRange   = define("assumption-range", "An assumption is set outside the range in which it makes sense.")
	snagTimberMissing = define("timber-missing", "The job names no boards.")
	snagTimberUnknown = define("timber-unknown", "A frame is made of boards that the job does not describe.")
	snagTimberSize    = define("timber-size", "The real thickness and width of boards are not known.")
	snagTimberLength  = define("timber-length", "The boards have no length as bought.")
	snagTimberTrim    = define("timber-trim", "Trimming the ends leaves nothing of a board.")
	snagTimberSpecies = define("timber-species", "The species is not in the catalogue.")
	snagFrames        = define("frames-missing", "The job describes no frames or places none.")
	snagShapeUnknown  = define("shape-unknown", "A frame has a shape that does not exist.")
	snagShapeMeasure  = define("shape-measure", "A measure that the shape needs is missing, or there are too many.")
	snagShape         = define("shape-refused", "A shape cannot be made from its measures.")
	snagSizeUnclear   = define("size-unclear", "A size could mean several things: it must be named.")
	snagBoardTooDeep  = define("board-too-deep", "The boards fill the shape: there is no inside left.")
	snagRingBoard     = define("ring-board-narrow", "The board is too narrow for a ring that is sawn round.")
	snagFamily        = define("family-ratio", "Frames called a family are in no whole-number ratio.")
	snagFamilyMember  = define("family-member", "A family names a frame that does not exist, or one that is in another family.")
	snagLayout        = define("layout-reference", "A line of the layout names a kind, a frame, a side or a corner that does not exist.")
	snagCycle         = define("layout-cycle", "Frames are attached to each other in a ring, and none of them to a placed one.")
	snagUnplaced      = define("layout-unplaced", "A frame has neither a position nor something it lies against.")
	snagTwice         = define("layout-twice", "Two frames have the same id.")
	snagLoop          = define("layout-loop-open", "A frame cannot lie against two others as the job says: the loop does not close.")
	snagOverlap       = define("layout-overlap", "Two frames are in the same place.")
	snagCopy          = define("copy-reference", "A copy names a frame that does not exist.")
	snagUncuttable    = define("part-uncuttable", "A part cannot be sawn from the boards, or not with enough left to hold.")
	snagTestCorner    = define("test-corner-reading", "The reading of the test corner cannot be right.")
)

// Snags lists every kind of snag that Plan may return.
var Snags []snag.Kind

func define(code, meaning string) snag.Kind {
	k := snag.Kind{Code: code, Meaning: meaning}
	Snags = append(Snags, k)
	return k
}

// snag notes something to put right at a path of the job file.
func (p *planner) snag(k snag.Kind, path, value, problem, remedy string) {
	p.snags.Add(k.At(snag.Place{Path: path}, value, problem, remedy))
}

// note points something out that does not stop the job.
func (p *planner) note(code, where, text, do string) {
	p.result.Notes = append(p.result.Notes, Note{Code: code, Where: where, Text: text, Do: do})
}
