package jobfile

import (
	"strings"
	"testing"

	"bowerwright/snag"
)

// TestHostile: what would hold the YAML parser for long is refused by counting
// and not by a clock; the benchmark beside this has the times.
func TestHostile(t *testing.T) {
	for name, c := range hostile {
		if _, _, l := Read([]byte(c.src), "job.yaml", nil, ""); !has(l, c.code) {
			t.Errorf("%s: %v", name, l)
		}
	}
}

var hostile = map[string]struct {
	src  string
	code snag.Kind
}{
	"open brackets":   {strings.Repeat("[", 100_000), tooDeep},
	"open braces":     {strings.Repeat("{", 100_000), tooDeep},
	"nested fields":   {strings.Repeat("{a: ", 100_000), tooDeep},
	"dashes":          {strings.Repeat("- ", 100_000), tooDeep},
	"many fields":     {strings.Repeat("a: b c d\n", 100_000), tooManyFields},
	"many groups":     {strings.Repeat("a: {b: c}\n", 50_000), tooManyFields},
	"alias bomb":      {"a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", yamlFeature},
	"quotes":          {strings.Repeat(`"`, 100_000), notYAML},
	"question marks":  {strings.Repeat("? ", 100_000), tooDeep},
	"after a bracket": {"a: ]\n" + strings.Repeat("[", 100_000), tooDeep},
	"in quotes first": {"a: \"]]]\"\n" + strings.Repeat("[", 100_000), tooDeep},
	"anchors":         {strings.Repeat("- &a x\n", 50_000), yamlFeature},
	"items":           {top + "saw: {detents: [" + strings.Repeat("1,", 500_000) + "]}", tooManyFields},
	"in comments":     {strings.Repeat("[ # ]\n", 30_000), tooDeep},
}

// BenchmarkHostile shows that 100 kB of open brackets, and the largest file
// that may reach the parser, are answered within a second.
func BenchmarkHostile(b *testing.B) {
	files := map[string]string{"brackets": strings.Repeat("[", 100_000), "fields": top + strings.Repeat("a: b c d\n", maxKeys-4),
		"groups": top + strings.Repeat("a: {b: c}\n", maxKeys/2-4), "items": top + "saw: {detents: [" + strings.Repeat("1,", maxKeys-9) + "]}"}
	for name, src := range files {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Read([]byte(src), "job.yaml", nil, "")
			}
		})
	}
}

// BenchmarkLayout reads a job of 2,000 frames.
func BenchmarkLayout(b *testing.B) {
	src := lay + "  R1..R2000: big side 6 on previous side 3\n"
	for b.Loop() {
		Read([]byte(src), "job.yaml", nil, "")
	}
}
