package svg

import (
	"encoding/base64"
	"regexp"
	"strings"
	"testing"

	"bowerwright/drawing"
)

// TestFonts: a rule for each font, for the runes that it has and no others.
func TestFonts(t *testing.T) {
	css, err := Fonts("ab 7 колокол 🌸", drawing.Regular, drawing.Bold, drawing.Mono)
	if err != nil {
		t.Fatal(err)
	}
	rules := strings.Split(strings.TrimSpace(css), "\n")
	if len(rules) != 3 {
		t.Fatalf("%d rules", len(rules))
	}
	for i, want := range []string{`"Go"; font-weight: 400;`, `"Go"; font-weight: 700;`, `"Go Mono"; font-weight: 400;`} {
		if !strings.Contains(rules[i], want) {
			t.Errorf("rule %d lacks %s", i, want)
		}
		if !strings.Contains(rules[i], "U+20, U+37, U+61-62, U+A0") || strings.Contains(rules[i], "1F338") {
			t.Errorf("rule %d is for %s", i, rules[i][strings.Index(rules[i], "unicode-range"):])
		}
		data := regexp.MustCompile(`base64,([^)]*)\)`).FindStringSubmatch(rules[i])
		if b, err := base64.StdEncoding.DecodeString(data[1]); err != nil || string(b[:4]) != "wOFF" {
			t.Errorf("rule %d carries no font: %v", i, err)
		}
	}
	if again, _ := Fonts("🌸 колокол 7 ba", drawing.Regular, drawing.Bold, drawing.Mono); again != css {
		t.Error("the order of the text changes the fonts")
	}
}

func TestRanges(t *testing.T) {
	for in, want := range map[string]string{"abc": "U+61-63", "ac": "U+61, U+63", "a": "U+61", "": ""} {
		if got := ranges([]rune(in)); got != want {
			t.Errorf("%q: %s, want %s", in, got, want)
		}
	}
}
