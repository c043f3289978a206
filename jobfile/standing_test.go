package jobfile

import (
	"context"
	"math"
	"strings"
	"testing"

	"bowerwright/job"
	"bowerwright/unit"
)

// The example under Dressing, base and standing is a job that plans.
func TestStandingExample(t *testing.T) {
	_, rest, _ := strings.Cut(intro, "## Dressing, base and standing")
	_, rest, _ = strings.Cut(rest, "```yaml\n")
	example, _, ok := strings.Cut(rest, "```")
	if !ok || !strings.Contains(example, "dressing:") {
		t.Fatal("the section has no example")
	}
	src := lay + "  B3: big side 1 on B2 side 4\n  B4: big side 6 on B1 side 3\n  B5: big side 1 on B4 side 4\n" + example
	spec, _, snags := Read([]byte(src), "job.yaml", nil, "")
	if len(snags) > 0 {
		t.Fatal(snags)
	}
	r, snags, err := job.Stand(context.Background(), spec, job.BuiltIn())
	if err != nil || len(snags) > 0 {
		t.Fatal(err, snags)
	}
	if n := len(r.Standing.Ways); n != 3 {
		t.Errorf("%d ways", n)
	}
}

// What is written in one unit and the other is the same in the Spec.
func TestStandingUnits(t *testing.T) {
	spec, _, snags := Read([]byte(lay+`dressing:
  a:
    moss: {weight: 2 lb per sq ft}
    fern: {weight: 9.7648554 kg per m2}
base:
  pegs: {kind: stakes, pull: 10 kg, sideways: 98.0665 N}
standing:
  gust: 36 km/h
  mean: 10 m/s
  ballast:
    - {name: bag, weight: 10 lb, size: 1 ft x 8 in x 10 cm, owned: 3}
`), "job.yaml", nil, "")
	if len(snags) > 0 {
		t.Fatal(snags)
	}
	near := func(what string, got, want float64) {
		if math.Abs(got-want) > 1e-6*math.Abs(want) {
			t.Errorf("%s is %g, want %g", what, got, want)
		}
	}
	l := spec.Dressing[0].Layers
	near("a square foot", l[0].PerArea, 2*0.45359237/(0.3048*0.3048))
	near("a square metre", l[1].PerArea, l[0].PerArea)
	near("pull", float64(spec.Base[0].Pull), 98.0665)
	near("sideways", float64(spec.Base[0].Sideways), 98.0665)
	near("gust", spec.Standing.Gust, 10)
	near("mean", spec.Standing.Mean, 10)
	b := spec.Standing.Ballast[0]
	if b.Length != 12*unit.Inch || b.Width != 8*unit.Inch || b.Height != 100*unit.Millimetre || b.Owned != 3 || b.Mass != 10*unit.Pound {
		t.Errorf("%+v", b)
	}
}
