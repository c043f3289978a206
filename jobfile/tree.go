package jobfile

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"bowerwright/snag"
)

// A form is what stands in one place of a file.
type form int

const (
	empty form = iota // nothing, or null
	line              // text: on one line, or a block of lines
	list
	fields
)

// String names the form as the user knows it.
func (f form) String() string {
	return [...]string{"nothing", "a line", "a list", "fields"}[f]
}

// A node is one place of the file. Scalars keep their text: what YAML would
// make of 010 or 1_000 never matters.
type node struct {
	form    form
	text    string
	place   snag.Place // with the path
	exact   bool       // text stands in the source at place as it is
	comment string     // of an empty one: the comment that stands where a value could
	items   []*node
	entries []entry
}

type entry struct{ key, value *node }

// get gives the value of a key, or nil.
func (n *node) get(key string) *node {
	for _, e := range n.entries {
		if e.key.text == key {
			return e.value
		}
	}
	return nil
}

// within gives the place of a byte of the node's text.
func (n *node) within(offset int) snag.Place {
	p := n.place
	if n.exact && offset <= len(n.text) {
		p.Column += utf8.RuneCountInString(n.text[:offset])
	}
	return p
}

// A planter makes nodes from the parser's tree.
type planter struct {
	scanner
	last struct{ line, column, offset int } // where rest was last
}

// parse gives the root of the file, or nil with snags.
func (p *planter) parse(src []byte) *node {
	tokens := p.scan(src)
	if len(p.list) > 0 {
		return nil
	}
	file, err := parseTokens(tokens)
	if err != nil {
		at, said := snag.Place{Line: 1, Column: 1}, err.Error()
		var e yaml.Error
		if errors.As(err, &e) {
			at, said = tokenPlace(e.GetToken()), e.GetMessage()
		}
		p.syntax(at, said)
		return nil
	}
	for _, doc := range file.Docs {
		if doc.Body == nil || doc.Body.Type() == ast.CommentType {
			continue
		}
		root := p.node(doc.Body, "")
		if len(p.list) > 0 {
			return nil
		}
		return root
	}
	return &node{form: empty, place: snag.Place{File: p.name, Line: 1, Column: 1}}
}

// parseTokens is the parser; a panic in it is an error.
func parseTokens(tokens token.Tokens) (f *ast.File, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the YAML parser gave up: %v", r)
		}
	}()
	return parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
}

// hints turn what the parser says into what a person can do. The first whose
// key is in the message holds.
var hints = []struct{ says, problem, write string }{
	{"end character of", "a text in quotes is not closed", "close the quotes; a text that begins with an inch or foot mark is put in the other kind of quotes"},
	{"end token", "a bracket is not closed", "close it with ] or }"},
	{"could not find '['", "this ] closes nothing", "take it out, or put the text in quotes"},
	{"mapping value is not allowed", "a second colon stands here, or the line is indented under a value", "put a text that has \": \" in it in quotes, and indent only under a key that ends in a colon"},
	{"unexpected key name", "the line above this is no field", "write key: value, with a space after the colon"},
	{"non-map value", "this line is no field", "write key: value, with a space after the colon"},
	{"invalid key", "a key is a single word or a few words", "write key: value"},
	{"pre-defined", "more stands behind the value in quotes", "put the whole value in quotes; one with an inch mark in it goes into single quotes"},
	{"sequence entr", "a dash cannot stand here", "begin the list on the next line, or put the text in quotes"},
	{"reserved character", "a text cannot begin with this sign", "put the text in quotes"},
	{"value is not allowed", "the indentation does not fit the lines above, or more stands behind the value", "indent the fields of one group alike; put a text with signs in it in quotes"},
}

// syntax makes what the lexer or the parser says a snag.
func (s *scanner) syntax(at snag.Place, said string) {
	for _, h := range hints {
		if strings.Contains(said, h.says) {
			s.add(notYAML, at, "", h.problem, h.write)
			return
		}
	}
	s.add(notYAML, at, "", "this cannot be read as YAML ("+said+")", "look at the indentation and the quotes here")
}

// node turns one place of the tree, which lies at path, into a node.
func (p *planter) node(n ast.Node, path string) *node {
	at := tokenPlace(n.GetToken())
	at.File, at.Path = p.name, path
	switch n := n.(type) {
	case *ast.MappingNode:
		return p.fields(n.Values, at)
	case *ast.MappingValueNode:
		return p.fields([]*ast.MappingValueNode{n}, at)
	case *ast.SequenceNode:
		out := &node{form: list, place: at}
		for i, v := range n.Values {
			out.items = append(out.items, p.node(v, fmt.Sprintf("%s[%d]", path, i)))
		}
		return out
	case *ast.NullNode:
		if t := n.GetToken(); t.Type == token.ImplicitNullType {
			return &node{form: empty, place: at, comment: p.commentAfter(at)}
		}
		return &node{form: line, place: at, text: n.GetToken().Value, exact: true}
	case *ast.LiteralNode:
		return &node{form: line, place: at, text: strings.TrimSuffix(n.Value.Value, "\n")}
	case ast.ScalarNode:
		return p.scalar(n.GetToken(), at)
	}
	p.add(yamlFeature, at, "", "this part of YAML is not used in job files", "write a plain value")
	return &node{form: empty, place: at}
}

func (p *planter) fields(values []*ast.MappingValueNode, at snag.Place) *node {
	out := &node{form: fields, place: at}
	for i, v := range values {
		t := v.Key.GetToken()
		if _, ok := v.Key.(ast.ScalarNode); !ok {
			p.add(yamlFeature, tokenPlace(t), "", "a key is a single word or a few words", "write key: value")
			continue
		}
		path := join(at.Path, t.Value)
		key := p.scalar(t, tokenPlace(t))
		key.place.File, key.place.Path = p.name, path
		if i == 0 { // the parser places a group at its first colon
			out.place.Line, out.place.Column = key.place.Line, key.place.Column
		}
		value := p.node(v.Value, path)
		if value.form == empty && v.Start != nil { // the parser's place for nothing varies
			colon := tokenPlace(v.Start)
			value.place.Line, value.place.Column = colon.Line, colon.Column+1
		}
		out.entries = append(out.entries, entry{key, value})
	}
	return out
}

// scalar reads a token's own text.
func (p *planter) scalar(t *token.Token, at snag.Place) *node {
	n := &node{form: line, place: at, text: t.Value}
	rest := p.rest(at)
	if t.Type == token.SingleQuoteType || t.Type == token.DoubleQuoteType {
		n.exact = len(rest) > 1 && strings.HasPrefix(rest[1:], n.text+rest[:1])
		if n.exact {
			n.place.Column++ // the text begins behind the quote
		}
		return n
	}
	n.exact = strings.HasPrefix(rest, n.text)
	return n
}

// rest gives the source line from a place on. It goes on from the place before
// on the same line, so that a line of many values is walked once.
func (p *planter) rest(at snag.Place) string {
	if at.Line < 1 || at.Line > len(p.lines) {
		return ""
	}
	text, from := p.lines[at.Line-1], p.last
	if from.line != at.Line || from.column > at.Column {
		from.line, from.column, from.offset = at.Line, 1, 0
	}
	for from.column < at.Column && from.offset < len(text) {
		_, n := utf8.DecodeRuneInString(text[from.offset:])
		from.offset += n
		from.column++
	}
	p.last = from
	return text[from.offset:]
}

// commentAfter gives the comment that stands alone behind the colon or dash at
// a place, or "".
func (p *planter) commentAfter(at snag.Place) string {
	rest := strings.TrimLeft(p.rest(at), ":- \t")
	if !strings.HasPrefix(rest, "#") {
		return ""
	}
	return strings.TrimSpace(rest)
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}
