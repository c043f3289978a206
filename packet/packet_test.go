package packet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bowerwright/drawing/pdf"
)

var made = time.Date(2027, 5, 3, 10, 42, 0, 0, time.UTC)

// TestRender writes the sample packets where BOWERWRIGHT_LOOK says, for eyes.
func TestRender(t *testing.T) {
	dir := os.Getenv("BOWERWRIGHT_LOOK")
	if dir == "" { // still drawn, so that what is looked at is known to draw
		dir = t.TempDir()
	}
	odd := gateway()
	odd.name = "Stop on the right, head tilted"
	right := odd.result()
	right.Saw.Stop = "right"
	for i := range right.Kinds {
		for j := range right.Kinds[i].Parts {
			right.Kinds[i].Parts[j].First.Way = "lying, head tilted"
		}
	}
	for _, r := range append(examples(t), right) {
		f, err := os.Create(filepath.Join(dir, strings.ReplaceAll(r.Job.Name, " ", "-")+".pdf"))
		if err != nil {
			t.Fatal(err)
		}
		if err := pdf.Write(f, Build(r, made)); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
