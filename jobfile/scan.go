package jobfile

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/token"

	"bowerwright/snag"
)

// Limits of a file. They keep a slip, or malice, from holding the machine: the
// YAML parser needs time that grows with the square of nesting and of the
// number of keys.
const (
	// MaxBytes is the largest file that is read. A job of 2,000 frames is
	// near 120 kB.
	MaxBytes = 1 << 20
	// maxNesting is how deep brackets and indentation may go; a job needs 4.
	maxNesting = 50
	// maxKeys is how many keys and items a file may have; a job of 2,000 frames has
	// about as many, and for so many the parser takes half a second.
	maxKeys = 10_000
)

// byteOrderMark may stand first in a file saved by some editors.
var byteOrderMark = []byte("\ufeff")

// A scanner looks at a file before the YAML parser may see it.
type scanner struct {
	name  string
	lines []string // without line ends
	found
}

// scan checks bytes and tokens, and gives the tokens when it found nothing to
// put right.
func (s *scanner) scan(src []byte) token.Tokens {
	if text, ok := s.bytes(src); ok {
		return s.tokens(text)
	}
	return nil
}

// bytes gives the text with plain line ends and without a byte order mark.
func (s *scanner) bytes(src []byte) (string, bool) {
	if len(src) > MaxBytes {
		s.add(fileTooBig, snag.Place{Line: 1, Column: 1}, "",
			fmt.Sprintf("the file has %d bytes; at most %d are read", len(src), MaxBytes),
			"split the job, or look whether this is a job file at all")
		return "", false
	}
	src = bytes.TrimPrefix(src, byteOrderMark)
	if at := invalidUTF8(src); at >= 0 {
		s.add(notUTF8, placeOf(src, at), "", "the file is not text in UTF-8",
			"save it as UTF-8 in your editor")
		return "", false
	}
	text := strings.ReplaceAll(string(src), "\r\n", "\n")
	s.lines = strings.Split(text, "\n")
	for i, line := range s.lines {
		s.line(i+1, line)
	}
	return text, len(s.list) == 0
}

// line refuses characters that do not belong into text, and tabs in the
// indentation, where YAML counts spaces.
func (s *scanner) line(number int, line string) {
	column, indent := 0, true
	for _, c := range line {
		column++
		at := snag.Place{Line: number, Column: column}
		switch {
		case c == '\t' && indent:
			s.add(tabIndent, at, "", "a tab stands in the indentation", "write spaces instead of the tab")
			return
		case refusedRune(c):
			s.add(controlCharacter, at, "", fmt.Sprintf("there is a control character, U+%04X", c), "take it out")
			return
		}
		indent = indent && c == ' '
	}
}

// refusedRune tells whether a character is none of text: a control, a line
// separator, a byte order mark that is not first.
func refusedRune(c rune) bool {
	return c < ' ' && c != '\t' || c >= 0x7f && c < 0xa0 || c == '\u2028' || c == '\u2029' || c == '\ufeff'
}

// refusedTokens are the parts of YAML that a job file does without, so that
// what stands in the file is what is read.
var refusedTokens = map[token.Type]struct{ what, write string }{
	token.AnchorType:      {"an anchor (&)", "write the value out; a text that begins with & is put in quotes"},
	token.AliasType:       {"an alias (*)", "write the value out; a text that begins with * is put in quotes"},
	token.TagType:         {"a tag (!)", "take it out; a text that begins with ! is put in quotes"},
	token.MergeKeyType:    {"a merge key (<<)", "write the fields out"},
	token.DirectiveType:   {"a directive (%)", "take the line out; a text that begins with % is put in quotes"},
	token.MappingKeyType:  {"a ? key", "write key: value"},
	token.DocumentEndType: {"an end of document (...)", "take the line out"},
}

// tokens splits the text and refuses what must not reach the parser.
func (s *scanner) tokens(text string) token.Tokens {
	tokens := tokenize(text)
	deep := depth{}
	keys, content, directive := 0, false, false
	for i, t := range tokens {
		if deep.step(tokens, i) > maxNesting {
			s.add(tooDeep, tokenPlace(t), "", fmt.Sprintf("brackets or indents go more than %d deep here", maxNesting),
				"close the brackets; a job file needs four levels")
			return nil
		}
		if r, refused := refusedTokens[t.Type]; refused {
			s.add(yamlFeature, tokenPlace(t), t.Value, r.what+" is not used in job files", r.write)
		}
		switch t.Type {
		case token.InvalidType:
			s.syntax(tokenPlace(t), t.Error)
		case token.DocumentHeaderType:
			if content && !directive {
				s.add(secondDocument, tokenPlace(t), t.Value, "a second document begins here",
					"keep one job to a file, without --- between")
			}
			content = true
		case token.MappingValueType, token.SequenceEntryType, token.CollectEntryType:
			keys, content = keys+1, true
		case token.DirectiveType:
			directive = true // what follows it is its own, up to ---
		case token.CommentType:
		default:
			content = true
		}
	}
	if keys > maxKeys {
		s.add(tooManyFields, snag.Place{Line: 1, Column: 1}, "",
			fmt.Sprintf("the file has %d fields and items; at most %d are read", keys, maxKeys), "split the job")
	}
	if len(s.list) > 0 {
		return nil
	}
	return tokens
}

// tokenize is the lexer; it is linear, unlike the parser. Should it panic on
// some text, the file has no tokens and is refused as a whole.
func tokenize(text string) (tokens token.Tokens) {
	defer func() {
		if recover() != nil {
			tokens = token.Tokens{{Type: token.InvalidType, Error: "this cannot be read as YAML",
				Position: &token.Position{Line: 1, Column: 1}}}
		}
	}()
	return lexer.Tokenize(text)
}

// A depth follows how deep brackets and indentation nest.
type depth struct {
	flow    int
	columns []int // of the keys and dashes of the open block levels
}

// step takes the i-th token in and gives the depth there.
func (d *depth) step(tokens token.Tokens, i int) int {
	t := tokens[i]
	switch t.Type {
	case token.SequenceStartType, token.MappingStartType:
		d.flow++
	case token.SequenceEndType, token.MappingEndType:
		d.flow = max(0, d.flow-1)
	default:
		isKey := i+1 < len(tokens) && tokens[i+1].Type == token.MappingValueType
		if d.flow == 0 && (t.Type == token.SequenceEntryType || t.Type == token.MappingKeyType || isKey) {
			d.open(t.Position.Column)
		}
	}
	return d.flow + len(d.columns)
}

// open closes the block levels at and behind the column and opens one there.
func (d *depth) open(column int) {
	n := len(d.columns)
	for n > 0 && d.columns[n-1] >= column {
		n--
	}
	d.columns = append(d.columns[:n], column)
}

func (s *scanner) add(k snag.Kind, at snag.Place, value, problem, remedy string) {
	at.File = s.name
	s.found.add(k.At(at, shorten(value), problem, remedy))
}

func tokenPlace(t *token.Token) snag.Place {
	if t == nil || t.Position == nil {
		return snag.Place{Line: 1, Column: 1}
	}
	return snag.Place{Line: max(1, t.Position.Line), Column: max(1, t.Position.Column)}
}

// invalidUTF8 gives the offset of the first byte that is no UTF-8, or -1.
func invalidUTF8(src []byte) int {
	for i := 0; i < len(src); {
		c, n := utf8.DecodeRune(src[i:])
		if c == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}

// placeOf gives line and column of an offset.
func placeOf(src []byte, offset int) snag.Place {
	before := src[:offset]
	start := bytes.LastIndexByte(before, '\n') + 1
	return snag.Place{
		Line:   bytes.Count(before, []byte("\n")) + 1,
		Column: utf8.RuneCount(before[start:]) + 1,
	}
}
