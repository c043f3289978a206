package unit

import "fmt"

// A ParseError is a quantity that could not be read. It carries what a caller
// needs to show the user the place and the next move.
type ParseError struct {
	Text    string // as the user wrote it
	Offset  int    // byte in Text where the trouble starts; at most len(Text)
	Problem string // what is wrong, in words: "there is no unit after 10"
	Write   string // what to write instead: "10 in", or examples
}

// Error says text, problem and remedy in one line.
func (e *ParseError) Error() string {
	return fmt.Sprintf("%q: %s; write %s", e.Text, e.Problem, e.Write)
}
