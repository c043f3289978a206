package jobfile

import (
	"reflect"
	"slices"
	"testing"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/unit"
)

// What the sample says of making is read: lengths as they are, all else as
// assumptions in their own units.
func TestMakingIsRead(t *testing.T) {
	s, _ := clean(t, sample(t))
	m := job.MakingAsked{Hands: 2, Straps: []unit.Length{12 * unit.Foot, 12 * unit.Foot, 5 * unit.Metre}, Bench: 8 * unit.Foot,
		Brads: []unit.Length{unit.Inch}, Plates: []unit.Length{}, Inside: "before gluing"}
	if !reflect.DeepEqual(s.Making, m) {
		t.Errorf("%+v", s.Making)
	}
	for id, want := range map[assume.ID]float64{
		assume.ShopTemperature: 18, assume.GlueOpen: 30, assume.GlueTemperature: 5, assume.GlueHold: 60, assume.GlueFull: 24, assume.FillerSet: 30,
		assume.FillerSand: 3, assume.FillerPaint: 24, assume.SandFirst: 100, assume.SandLast: 220, assume.FinishCoats: 2, assume.FinishRecoat: 1.5, assume.LayStraight: 10,
	} {
		i := slices.IndexFunc(s.Assume, func(o job.Override) bool { return o.ID == string(id) })
		if i < 0 || s.Assume[i].Value != want || s.Assume[i].From != "job file" {
			t.Errorf("%s is read as %+v, want %g", id, s.Assume, want)
		}
	}
	kind := func(name string) job.Kind {
		return s.Kinds[slices.IndexFunc(s.Kinds, func(k job.Kind) bool { return k.Name == name })]
	}
	if k := kind("big"); k.Corner != "spline" || k.GlueUp != "rolled" || k.Layers != 0 {
		t.Errorf("%+v", k)
	}
	if k := kind("hoop"); k.Corner != "" || k.GlueUp != "in layers" || k.Layers != 2 {
		t.Errorf("%+v", k)
	}
}

// Temperatures and times in every form that the reference names.
func TestValuesInEveryForm(t *testing.T) {
	for text, want := range map[string]float64{
		"18 C": 18, "18 °C": 18, "18°C": 18, "64.4 F": 18, "64.4°F": 18, "-4 F": -20, "0 C": 0, "20.5C": 20.5,
	} {
		if got := makingValue(t, "shop temperature: "+text, assume.ShopTemperature); got != want {
			t.Errorf("%s is %g °C, want %g", text, got, want)
		}
	}
	for text, want := range map[string]float64{"10 min": 10, "0.5 h": 30, "1 hour": 60, "90 minutes": 90, "2hr": 120} {
		if got := makingValue(t, "open time: "+text, assume.GlueOpen); got != want {
			t.Errorf("%s is %g min, want %g", text, got, want)
		}
	}
	for text, want := range map[string]float64{"1 day": 24, "2 days": 48, "36 h": 36, "600 min": 10} {
		if got := makingValue(t, "full strength: "+text, assume.GlueFull); got != want {
			t.Errorf("%s is %g h, want %g", text, got, want)
		}
	}
	if a, b := makingValue(t, "grits: 150", assume.SandFirst), makingValue(t, "grits: 150", assume.SandLast); a != 150 || b != 150 {
		t.Errorf("one grit is the first and the last, not %g and %g", a, b)
	}
}

// makingValue is what a line under making makes of an assumption.
func makingValue(t *testing.T, line string, id assume.ID) float64 {
	t.Helper()
	s, _ := clean(t, lay+"making:\n  "+line+"\n")
	for _, o := range s.Assume {
		if o.ID == string(id) {
			return o.Value
		}
	}
	t.Fatalf("%s sets no %s: %+v", line, id, s.Assume)
	return 0
}
