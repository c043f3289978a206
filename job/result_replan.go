package job

// ProgressFacts are what happened at the bench before this plan was made.
type ProgressFacts struct {
	Packets []string `json:"packets"` // marks of the papers that were sawn from, the first first
	Boards  int      `json:"boards"`  // sawn whole or begun
	Parts   int      `json:"parts"`   // sawn
	Spoilt  int      `json:"spoilt"`  // of them cannot be used
	Left    int      `json:"left"`    // parts still to be sawn
	Says    string   `json:"says"`    // all of it in words, and what is to be bought
}

// BenchFacts are what of a timber was sawn before this plan was made, and what
// the papers before had.
type BenchFacts struct {
	Done    []DoneFacts `json:"done"`    // boards touched, by number
	Boards  []BenchMark `json:"boards"`  // of this plan, in its order
	Bought  int         `json:"bought"`  // boards bought for the papers before
	Whole   int         `json:"whole"`   // boards bought that are not touched and not needed any more
	Dropped []int       `json:"dropped"` // boards of the papers before that are sawn otherwise now
	Says    string      `json:"says"`    // what is to be bought now, in words
}

// A BenchMark says which board of the papers a board of the plan is.
type BenchMark struct {
	Number  int    `json:"number"`
	Changed bool   `json:"changed"`        // the papers before had it otherwise, or not at all
	Begun   bool   `json:"begun"`          // parts were sawn from it before: lengths count from the last of them
	Turn    string `json:"turn,omitempty"` // of a board begun: what to do with it before the first cut
}

// DoneFacts are a board that was touched at the bench.
type DoneFacts struct {
	Board    BoardFacts `json:"board"`  // as its papers had it, with its number there
	Packet   string     `json:"packet"` // the mark of those papers
	Cut      int        `json:"cut"`    // parts sawn, from the first on
	Rejected bool       `json:"rejected"`
	Says     string     `json:"says"` // what became of it, in words
}
