package base

import (
	"testing"

	"bowerwright/assume"
	"bowerwright/geom"

	"pgregory.net/rapid"
)

// bag is a sandbag of 10 kg: 400 x 250 x 120.
var bag = Unit{Name: "sandbag", Mass: 10, Length: 400, Width: 250, Height: 120, Owned: 6}

// A plate 1200 x 700 with the frames from y = 0 to 90: behind them, past a gap
// of 30, there is room for one row of three.
func TestSpotsBehind(t *testing.T) {
	p := PlateOf(Rectangle(0, -200, 1200, 700), ply)
	p.Name = "plate"
	s := stand(t, Base{Pieces: []Piece{p}}, Line{0, 1200, 0, 90})
	got := s.Spots(bag, Room{Gap: 30, Stack: 2})
	y := (120 + 500) / 2.0 // one row: in the middle of what is left
	for i, w := range []Spot{{geom.Point{X: 600, Y: y}, "plate", false, 2}, {geom.Point{X: 200, Y: y}, "plate", false, 2}, {geom.Point{X: 1000, Y: y}, "plate", false, 2}} {
		if i >= len(got) || got[i].At.Dist(w.At) > 1e-9 || got[i].On != w.On || got[i].Front || got[i].Most != 2 {
			t.Fatalf("spots %+v, want %+v at %d", got, w, i)
		}
	}
	if len(got) != 3 {
		t.Errorf("%d spots", len(got))
	}
	if got := s.Spots(bag, Room{Gap: 30, InFront: true}); len(got) != 3 { // 170 in front is too little for 250
		t.Errorf("%d spots with the front", len(got))
	}
	small := Unit{Length: 300, Width: 150, Height: 100, Owned: 9}
	front := 0
	for _, o := range s.Spots(small, Room{Gap: 30, InFront: true, Stack: 5, Hidden: 350}) {
		if o.Most != 3 {
			t.Errorf("%d on each other under 350 of dressing", o.Most)
		}
		if o.Front {
			front++
			want(t, "in front", o.At.Y, -115, 1e-9)
		}
	}
	if front != 4 {
		t.Errorf("%d spots in front", front)
	}
	if got := s.Spots(bag, Room{Hidden: 100}); got != nil {
		t.Errorf("a bag of 120 hides behind 100: %v", got)
	}
	if got := s.Spots(Unit{Mass: 4}, Room{}); got != nil {
		t.Errorf("a unit without a size finds room: %v", got)
	}
}

func TestRowsEndAtBothEnds(t *testing.T) {
	p := PlateOf(Rectangle(0, 0, 1000, 900), ply)
	s := stand(t, Base{Pieces: []Piece{p}}, Line{0, 1000, 0, 90})
	ys := map[float64]bool{}
	for _, o := range s.Spots(Unit{Length: 300, Width: 200}, Room{Gap: 10}) {
		ys[o.At.Y] = true
	}
	if len(ys) != 4 || !ys[200] || !ys[800] {
		t.Errorf("rows at %v", ys)
	}
}

// Every spot lies on its deck, off the frames, and off every other.
func TestSpotsHaveRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hex := PlateOf(RegularFromPoints(geom.Point{X: 600, Y: 45}, rapid.IntRange(3, 8).Draw(t, "n"), rapid.Float64Range(300, 1200).Draw(t, "across"), 0.3), ply)
		brace := BraceAt(600, 500, rapid.Float64Range(300, 900).Draw(t, "brace"), 1500, 90, 900, 1)
		lines := []Line{{500, 700, 0, 90}}
		s, _ := Base{Pieces: []Piece{hex, brace}}.Stand(lines)
		u := Unit{Length: rapid.Float64Range(80, 500).Draw(t, "long"), Width: rapid.Float64Range(80, 300).Draw(t, "wide"), Owned: 9}
		gap := rapid.Float64Range(0, 60).Draw(t, "gap")
		spots := s.Spots(u, Room{Gap: gap, InFront: rapid.Bool().Draw(t, "in front")})
		for i, o := range spots {
			box := u.around(o.At)
			on := hex.takes(hex.Footprint[0], box) || brace.takes(brace.Footprint[0], box)
			if b := box.Box(); !on || b.Max.Y > -gap+1e-6 && b.Min.Y < 90+gap-1e-6 || o.Front != (b.Max.Y < 0.1) {
				t.Fatalf("spot %+v", o)
			}
			for _, q := range spots[:i] {
				if meet(box, u.around(q.At)) {
					t.Fatalf("%v and %v share room", o, q)
				}
			}
		}
	})
}

func TestUsualRoom(t *testing.T) {
	got := RoomFrom(assume.BuiltInBook().Reader())
	if got.Stack != 2 || got.InFront || got.Hidden != 0 {
		t.Errorf("%+v", got)
	}
	want(t, "gap", got.Gap, 25.4, 1e-9)
	b, err := assume.Parse("id,name,value,unit,low,high,status,source,note\nstand.ballast-gap,gap,1,lb,0,2,memory,x,\n")
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if recover() == nil {
			t.Error("a gap in pounds is read")
		}
	}()
	RoomFrom(b.Reader())
}

// Places that bags and irons may share are as far apart as bags are long; a bag
// too high for the dressing finds none of them.
func TestSharedSpots(t *testing.T) {
	s := stand(t, Base{Pieces: []Piece{PlateOf(Rectangle(0, -200, 1200, 700), ply)}}, Line{0, 1200, 0, 90})
	iron := Unit{Name: "iron", Mass: 20, Length: 250, Width: 250, Height: 60, Owned: 2}
	got := s.SharedSpots([]Unit{bag, iron}, Room{Gap: 30, Stack: 3, Hidden: 200})
	if len(got[0]) != 3 || len(got[1]) != 3 || got[0][0].Most != 1 || got[1][0].Most != 3 || got[0][2].At != got[1][2].At {
		t.Errorf("spots %+v", got)
	}
	got = s.SharedSpots([]Unit{bag, iron}, Room{Gap: 30, Stack: 3, Hidden: 100})
	if got[0] != nil || len(got[1]) != 3 {
		t.Errorf("low dressing: %+v", got)
	}
}
