package jobfile

import (
	_ "embed"
	"encoding/json"
	"regexp"
	"strings"
)

//go:embed starter.yaml
var starter string

// plainName matches names that need no quotes in YAML: words of letters and
// figures that begin with a letter and are no YAML word.
var plainName = regexp.MustCompile(`^[\pL][\pL0-9]*( [\pL0-9]+)*$`)

// Starter is a commented job file of the given name to begin from; it plans as
// it stands. Line breaks and the like in the name become spaces.
func Starter(name string) []byte {
	name = strings.Join(strings.FieldsFunc(strings.ToValidUTF8(name, ""), isBreak), " ")
	if r := []rune(name); len(r) > maxLine {
		name = string(r[:maxLine])
	}
	if name = strings.TrimSpace(name); name == "" {
		name = "New job"
	}
	return []byte(strings.Replace(starter, "NAME", quoted(name), 1))
}

// isBreak is what a job file refuses in its text, see scanner.line.
func isBreak(c rune) bool {
	return c == ' ' || refusedRune(c) || c == '\t'
}

func quoted(name string) string {
	if plainName.MatchString(name) && !strings.Contains(" yes no true false on off null y n ", " "+strings.ToLower(name)+" ") {
		return name
	}
	var b strings.Builder
	e := json.NewEncoder(&b) // a JSON text is a YAML text
	e.SetEscapeHTML(false)
	if err := e.Encode(name); err != nil {
		panic(err) // a text always encodes
	}
	return strings.TrimSuffix(b.String(), "\n")
}
