package job

// A LiftingAsked is how the set piece is brought onto its feet. The zero value
// is lifted in one by as few people as may.
type LiftingAsked struct {
	InPlace     bool   // built up frame by frame where it stands, never lifted in one
	People      int    // who carry it flat; 0: as few as the limits allow
	Strongbacks string // battens across its back on the way: "" or "none", "level", "upright"
}
