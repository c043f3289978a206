package jobfile

import (
	"os"
	"testing"

	"bowerwright/snag"
)

func TestSampleIsClean(t *testing.T) {
	src, err := os.ReadFile("testdata/sample.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, f, l := Read(src, "sample.yaml", nil, "")
	if len(l) > 0 {
		t.Error(snag.Text(l, f.Source, snag.Width))
	}
}
