package making

import (
	"regexp"
	"strings"
	"testing"

	"bowerwright/frame"
	"bowerwright/unit"
)

// Whatever the method: dry first, faces sized before they are coated, flat and
// measured before the glue grabs, and waits that add up to no less than the
// glue's full strength. Nothing is measured in the text: figures are fields.
func TestSteps(t *testing.T) {
	for _, c := range []struct {
		f      frame.Frame
		method Method
		has    string
	}{
		{hexagon(t, 18, oneByFour), Rolled, "Roll it up"},
		{hexagon(t, 18, oneByFour), Strapped, "tighten the strap"},
		{hexagon(t, 18, oneByFour), Halves, "true both ends"},
		{hexagon(t, 18, flatFour), JointByJoint, "every other joint"},
		{regular(t, 12, 10, flatFour), InLayers, "half a segment on"},
		{arch(t, oneByFour), Rolled, "batten across the backs of the feet"},
	} {
		k := Kind{Name: "it", Frame: c.f, Count: 1, Method: c.method}
		if c.method == InLayers {
			k.Layers = 2
		}
		g := plan(t, Shop{Straps: []unit.Length{20 * unit.Foot}}, k).Kinds[0].GlueUp
		text := stepText(g.Steps)
		if !strings.Contains(text, c.has) {
			t.Errorf("%s says nothing of %q:\n%s", c.method, c.has, text)
		}
		inOrder(t, c.method, text, "dry", "front edges down", "measures across", "straight stick", "flat under weight", "full strength")
		if c.method != InLayers {
			inOrder(t, c.method, text, sizeDo, coatDo)
		}
		if m := regexp.MustCompile(`[0-9]`).FindString(text); m != "" {
			t.Errorf("%s has a figure in its text:\n%s", c.method, text)
		}
		sum := 0.0
		for _, s := range g.Steps {
			sum += s.Wait
		}
		if sum < g.Full {
			t.Errorf("%s: waits are %g min, full strength takes %g", c.method, sum, g.Full)
		}
		if open := strings.Contains(text, "batten"); open != c.f.Built.Open {
			t.Errorf("%s: a batten across the feet: %t", c.method, open)
		}
	}
}

func inOrder(t *testing.T, m Method, text string, parts ...string) {
	t.Helper()
	at := 0
	for _, p := range parts {
		i := strings.Index(text[at:], p)
		if i < 0 {
			t.Errorf("%s: %q is missing or too early:\n%s", m, p, text)
			return
		}
		at += i + len(p)
	}
}

// A frame that no chisel goes into is wiped; a larger one is pared.
func TestWipeOrPare(t *testing.T) {
	for flats, want := range map[float64]string{6: "no chisel goes in", 18: "like rubber"} {
		g := plan(t, Shop{}, Kind{Name: "hex", Frame: hexagon(t, flats, oneByFour), Count: 1}).Kinds[0].GlueUp
		if text := stepText(g.Steps); !strings.Contains(text, want) {
			t.Errorf("%g in: no %q in\n%s", flats, want, text)
		}
	}
}

// What strengthens a corner has its time: brads before the glue grabs, blocks when
// the frame may be moved, plates and splines at full strength, and splines hold
// before they are trimmed. No slot is sawn into a mitre that is yet to be closed.
func TestCornersHaveTheirTime(t *testing.T) {
	for _, c := range []struct {
		f    frame.Frame
		c    Corner
		does []string
	}{
		{hexagon(t, 18, oneByFour), Brads, []string{"straight stick", "Drive the brads", "like rubber"}},
		{hexagon(t, 18, oneByFour), Blocks, []string{"like rubber", "Glue the corner blocks", "flat under weight"}},
		{hexagon(t, 18, flatFour), Plates, []string{"full strength", "Screw the plates"}},
		{hexagon(t, 18, oneByFour), Splines, []string{"Roll it up", "full strength", "Saw the slots"}},
		{hexagon(t, 18, flatFour), Splines, []string{"full strength", "Saw the slots"}},
	} {
		g := plan(t, Shop{}, Kind{Name: "it", Frame: c.f, Count: 1, Corner: c.c}).Kinds[0].GlueUp
		inOrder(t, g.Method, stepText(g.Steps), c.does...)
		if last := g.Steps[len(g.Steps)-1]; c.c == Splines && last.Wait != g.Hold {
			t.Errorf("splines hold for %g min", last.Wait)
		}
	}
	if g := plan(t, Shop{}, Kind{Name: "it", Frame: hexagon(t, 18, oneByFour), Count: 1}).Kinds[0].GlueUp; strings.Contains(stepText(g.Steps), "as under Corners") {
		t.Error("glue alone has no step of its own")
	}
}

// Nobody is sent to make measures agree that differ by design.
func TestMeasuresThatDiffer(t *testing.T) {
	for _, c := range []struct {
		f    frame.Frame
		want string
	}{{hexagon(t, 18, oneByFour), acrossAlike}, {regular(t, 5, 12, oneByFour), acrossAlike}, {house(t, oneByFour), acrossGiven}, {arch(t, oneByFour), acrossGiven}} {
		if text := stepText(plan(t, Shop{}, Kind{Name: "it", Frame: c.f, Count: 1}).Kinds[0].GlueUp.Steps); !strings.Contains(text, c.want) {
			t.Errorf("no %q in\n%s", c.want, text)
		}
	}
}

// Every choice and every method is explained; only what was asked for is not.
func TestEverythingIsExplained(t *testing.T) {
	for _, c := range []Corner{GlueAlone, Brads, Blocks, Plates, Splines} {
		if howOf(Kind{Corner: c}) == "" {
			t.Errorf("%q is not explained", c)
		}
	}
	for _, m := range preference {
		if (GlueUp{Method: m}).Why() == "" {
			t.Errorf("%s has no reason", m)
		}
	}
	if (GlueUp{Method: Rolled, Asked: true}).Why() != "It was asked for." {
		t.Error("a reason for what was asked for")
	}
}

// No paper of this package says that a joint may be trusted.
func TestNeverSafe(t *testing.T) {
	kinds, l := comb(t)
	p, _, err := Make(kinds, l, Shop{FinishFirst: true})
	if err != nil {
		t.Fatal(err)
	}
	text := stepText(p.Kinds[0].GlueUp.Steps) + stepText(p.Finish.Steps) + stepText(p.Lay.Steps)
	for _, c := range []Corner{GlueAlone, Brads, Blocks, Plates, Splines} {
		text += howOf(Kind{Corner: c})
	}
	for _, m := range preference {
		text += whys[m]
	}
	if word := regexp.MustCompile(`(?i)\bsafe|strong enough|guarantee`).FindString(text); word != "" {
		t.Errorf("it says %q", word)
	}
}
