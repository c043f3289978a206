package layout

import (
	"fmt"
	"testing"

	"bowerwright/unit"
)

func TestFeetOfAnArchAndItsOpening(t *testing.T) {
	kinds := []Kind{archOf("arch", 900, 2010), rectangle("box", 300, 300)}
	l := lay(t, kinds, []Place{at("A", "arch", 0, 0), at("B", "box", 900, 0)}, Settings{})
	if len(l.Feet) != 2 || len(l.Standing) != 1 || len(l.Tips)+len(l.Hanging) != 0 {
		t.Fatalf("feet %v, standing %v, tips %v, hanging %v", l.Feet, l.Standing, l.Tips, l.Hanging)
	}
	wantFoot(t, l.Feet[0], 4, 0, stock)
	wantFoot(t, l.Feet[1], 1, 900-stock, 900)
	if l.Standing[0].Side != 1 || l.Standing[0].From != 900 || l.Standing[0].To != 1200 {
		t.Errorf("standing %+v", l.Standing)
	}
	for i, want := range []struct{ height, left, right float64 }{
		{0, stock, 900 - stock}, {914.4, stock, 900 - stock}, {1524, stock, 900 - stock}, {1981.2, stock, 900 - stock},
	} {
		c := l.Clear[i]
		if !c.Found {
			t.Fatalf("no opening at %g", want.height)
		}
		wantNear(t, "height", c.Height, want.height, 1e-9)
		wantNear(t, "left", c.Left, want.left, 1e-9)
		wantNear(t, "right", c.Right, want.right, 1e-9)
	}
	over := lay(t, kinds, []Place{at("A", "arch", 0, 0)}, Settings{Heights: []float64{1995, 2500}})
	if over.Clear[0].Found || over.Clear[1].Found || over.Clear[0].Width() != 0 {
		t.Errorf("openings in the head board or above it: %+v", over.Clear)
	}
}

func wantFoot(t *testing.T, f Foot, corner int, from, to float64) {
	t.Helper()
	if f.Corner != corner || !near(f.From, from, 1e-9) || !near(f.To, to, 1e-9) {
		t.Errorf("foot %+v, want corner %d from %g to %g", f, corner, from, to)
	}
}

// A 600 hexagon at a height y: its slopes lie on x = +-(300 + y / sqrt 3) about
// its middle, its boards measure 18 / sin 60 along a level line. Two of them on
// the floor leave a gap between that is narrower than the openings.
func TestClearWidthOfHexagons(t *testing.T) {
	kinds := []Kind{regular("hex", 6, 600)}
	l := lay(t, kinds, []Place{at("A", "hex", 0, 0), at("B", "hex", 1250, 0)}, Settings{Heights: []float64{0, 299, 600}})
	wantNear(t, "in the bottom boards, the slot between", l.Clear[0].Width(), 650-2/1.7320508, 1e-3)
	wantNear(t, "in an opening", l.Clear[1].Width(), 2*(300+300/1.7320508)-2*18/0.8660254, 1e-3)
	wantNear(t, "over the middle", l.Clear[2].Width(), 2*(300+(1039.2305-601)/1.7320508)-2*18/0.8660254, 1e-3)
	wantNear(t, "in the first of equals", l.Clear[1].Left, 600-300-300/1.7320508+18/0.8660254, 1e-3)
}

// Wood that lies within other wood ends no opening, and a frame that turns in on
// itself has two stretches of wood at a height and the way between them.
func TestClearWidthPastWoodInWood(t *testing.T) {
	kinds := []Kind{rectangle("wide", 1000, 300), rectangle("box", 100, 300), letterU()}
	l, _ := Build(kinds, []Place{at("A", "wide", 0, 0), at("B", "box", 200, 0), at("C", "box", 1500, 0)}, Settings{Heights: []float64{0}})
	if c := l.Clear[0]; !near(c.Left, 1000, 1e-9) || !near(c.Right, 1500, 1e-9) {
		t.Errorf("%+v", c)
	}
	// Of an upright U, two arms of 200 with 500 between them.
	l = lay(t, kinds, []Place{at("U", "u", 0, 0)}, Settings{Heights: []float64{300}})
	if c := l.Clear[0]; !near(c.Left, 200, 1e-9) || !near(c.Right, 700, 1e-9) {
		t.Errorf("%+v", c)
	}
}

func TestStandingOnACorner(t *testing.T) {
	kinds := []Kind{regular("sq", 4, 300)}
	a := at("A", "sq", 0, 0)
	a.Turn = unit.FromDegrees(45)
	l := lay(t, kinds, []Place{a}, Settings{})
	if len(l.Tips) != 1 || l.Tips[0].Corner != 1 || len(l.Standing) != 0 {
		t.Fatalf("tips %v, standing %v", l.Tips, l.Standing)
	}
	wantNear(t, "where", l.Tips[0].X, l.Width/2, 1e-9)
}

// A frame hangs from just over the joint tolerance on.
func TestOnTheFloorOrHanging(t *testing.T) {
	kinds := []Kind{regular("sq", 4, 300)}
	for _, c := range []struct {
		lift    float64
		hanging int
	}{{0.99, 0}, {1.01, 1}} {
		l := lay(t, kinds, []Place{at("A", "sq", 0, 0), at("B", "sq", 300, c.lift)}, Settings{JointTolerance: 1})
		if len(l.Hanging) != c.hanging || len(l.Standing) != 2-c.hanging {
			t.Errorf("lifted by %g: hanging %v, standing %v", c.lift, l.Hanging, l.Standing)
		}
	}
}

func TestGroups(t *testing.T) {
	kinds := []Kind{regular("sq", 4, 300)}
	l := lay(t, kinds, []Place{
		at("far", "sq", 2000, 0), at("A", "sq", 0, 0), at("B", "sq", 300, 0), at("C", "sq", 300, 300), at("far2", "sq", 2300, 0),
	}, Settings{})
	var ids [][]string
	for _, g := range l.Groups {
		ids = append(ids, nil)
		for _, i := range g {
			ids[len(ids)-1] = append(ids[len(ids)-1], l.Frames[i].ID)
		}
	}
	if got := fmt.Sprint(ids); got != "[[C A B] [far far2]]" {
		t.Errorf("groups %s", got)
	}
}

// Rows: the honeycomb's columns half a height apart make two rows; small frames
// are in the row whose highest centre is less than a quarter of 519.6 above.
func TestReadingOrder(t *testing.T) {
	flats := 300 * 1.7320508075688772
	kinds := []Kind{regular("hex", 6, 300), regular("small", 6, 100)}
	l := lay(t, kinds, []Place{
		at("low", "hex", 0, 0), at("mid", "hex", 450, flats/2), at("top", "hex", 0, flats), at("right", "hex", 900, flats),
		at("dot", "small", -600, flats+60), at("under", "small", -600, flats-140),
	}, Settings{})
	got := make([]string, len(l.Frames))
	for _, f := range l.Frames {
		got[f.Number-1] = f.ID
	}
	if s := fmt.Sprint(got); s != "[dot top right under mid low]" {
		t.Errorf("order %s", s)
	}
}

func TestSettingsDefaults(t *testing.T) {
	s := Settings{}.withDefaults()
	if s.JointTolerance != 0.79375 || s.NearMiss != 12.7 || fmt.Sprint(s.Heights) != "[0 914.4 1524 1981.2]" {
		t.Errorf("%+v", s)
	}
	kept := Settings{Gap: 1, JointTolerance: 2, NearMiss: 3, Heights: []float64{}}.withDefaults()
	if kept.Gap != 1 || kept.JointTolerance != 2 || kept.NearMiss != 3 || len(kept.Heights) != 0 {
		t.Errorf("%+v", kept)
	}
}
