package stand

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"bowerwright/assume"
)

// sources are our own files that are not tests.
func sources(t *testing.T) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, e := range entries {
		if n := e.Name(); strings.HasSuffix(n, ".go") && !strings.HasSuffix(n, "_test.go") {
			text, err := os.ReadFile(n)
			if err != nil {
				t.Fatal(err)
			}
			out[n] = string(text)
		}
	}
	if len(out) < 8 {
		t.Fatalf("only %d files: the test looks in the wrong place", len(out))
	}
	return out
}

// Every number in the code is geometry (0 to 4: halves, quarters, squares, three
// unknowns) or a constant whose comment says what it is; all others are
// assumptions.
func TestNumbersAreGeometryOrAssumptions(t *testing.T) {
	geometry := map[string]bool{"0": true, "1": true, "2": true, "3": true, "4": true, "0.0": true, "1.0": true}
	for name, text := range sources(t) {
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, name, text, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GenDecl:
				if n.Tok == token.CONST && n.Doc == nil {
					t.Errorf("%s: constants without a word on them", set.Position(n.Pos()))
				}
				return n.Tok != token.CONST
			case *ast.BasicLit:
				if (n.Kind == token.INT || n.Kind == token.FLOAT) && !geometry[n.Value] {
					t.Errorf("%s: the number %s is neither geometry nor an assumption", set.Position(n.Pos()), n.Value)
				}
			}
			return true
		})
	}
}

// The package never says that anything may be relied on.
func TestNothingIsCalledSafe(t *testing.T) {
	for name, text := range sources(t) {
		for _, word := range []string{"safe", "secure", "guarantee"} {
			if strings.Contains(strings.ToLower(text), word) {
				t.Errorf("%s says %q", name, word)
			}
		}
	}
}

// Every assumption of standing, wind and lifting but those that package base
// reads is read here, and a change of it changes the rules.
func TestEveryAssumptionCounts(t *testing.T) {
	book := assume.BuiltInBook()
	elsewhere := map[assume.ID]bool{"wind.expected": true, assume.StandFriction: true, assume.StandFrictionGrass: true, assume.StandFrictionPolished: true,
		assume.StandFrictionRough: true, assume.StandBallastGap: true, assume.StandBallastStack: true}
	before := rules()
	n := 0
	for _, v := range book.Values() {
		topic, _, _ := strings.Cut(string(v.ID), ".")
		if topic != "stand" && topic != "wind" && topic != "lift" || elsewhere[v.ID] {
			continue
		}
		n++
		to := v.Low
		if to == v.Value {
			to = v.High
		}
		other, err := book.With(assume.Job, v.ID, to)
		if err != nil {
			t.Fatal(err)
		}
		r := other.Reader()
		if sameRules(before, RulesFrom(r)) {
			t.Errorf("%s changes nothing", v.ID)
		}
		if got, _ := other.Lookup(v.ID); len(r.Used()) == 0 || got.Value != to {
			t.Errorf("%s is not read", v.ID)
		}
	}
	if n < 60 {
		t.Errorf("only %d assumptions", n)
	}
}

func sameRules(a, b Rules) bool {
	if !slices.Equal(a.Wind.Bands, b.Wind.Bands) || !slices.Equal(a.Lift.Zones, b.Lift.Zones) {
		return false
	}
	x, y := a.Lift, b.Lift
	return a.Factor == b.Factor && sameWind(a.Wind, b.Wind) && sameRest(a, b) && x.NIOSH == y.NIOSH && x.Person == y.Person && x.Two == y.Two &&
		x.Three == y.Three && x.Most == y.Most && x.Carry == y.Carry && x.Up == y.Up && x.Even == y.Even && x.HandSpan == y.HandSpan
}

func sameWind(a, b Wind) bool {
	return a.Unit == b.Unit && a.GustOfMean == b.GustOfMean && a.GustEffect == b.GustEffect && slices.Equal(a.Solid, b.Solid) && a.Power == b.Power &&
		a.Oblique == b.Oblique && a.Along == b.Along && a.Stop == b.Stop && a.Watch == b.Watch && a.Act == b.Act
}

func sameRest(a, b Rules) bool {
	return a.Dead == b.Dead && a.DeadOver == b.DeadOver && a.Ballast == b.Ballast && a.Well == b.Well && a.Lean == b.Lean &&
		a.SoftEdge == b.SoftEdge && a.SoftLean == b.SoftLean && a.Push == b.Push && a.PushHeight == b.PushHeight && a.Crowd == b.Crowd &&
		a.CrowdHeight == b.CrowdHeight && a.HallLow == b.HallLow && a.HallHigh == b.HallHigh && a.HallStep == b.HallStep
}

// The built-in rules in the units of the package, by hand.
func TestBuiltInRules(t *testing.T) {
	r := rules()
	want(t, "push in N", float64(r.Push), 88.964, 0.001)
	want(t, "exhibition load in N/mm2", float64(r.HallLow), 0.000125, 1e-15)
	want(t, "its step", r.HallStep, 4000, 1e-9)
	want(t, "wind at 1 m/s in Pa", float64(r.Wind.Unit)*1e6, 0.613, 0.001)
	want(t, "stop in m/s", float64(r.Wind.Stop), 13.4112, 1e-9)
	want(t, "reach", r.Lift.NIOSH.Reach, 250, 1e-9)
	want(t, "loss a millimetre", r.Lift.NIOSH.HeightLoss, 0.0003, 1e-15)
	if !math.IsInf(r.Lift.Zones[4].To, 1) || r.Lift.Most != 4 {
		t.Errorf("%+v", r.Lift)
	}
}

// A book in another unit is a fault of the program.
func TestWrongUnitsPanic(t *testing.T) {
	header := "id,name,value,unit,low,high,status,source,note\n"
	for _, row := range []string{"stand.push,push,20,kg,0,200,memory,x,", "stand.push-height,height,60,lb,0,200,memory,x,"} {
		b, err := assume.Parse(header + row + "\n")
		if err != nil {
			t.Fatal(err)
		}
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s is read", row)
				}
			}()
			r := reading{b.Reader()}
			if strings.Contains(row, "height") {
				r.length(assume.StandPushHeight)
			} else {
				r.force(assume.StandPush)
			}
		}()
	}
}
