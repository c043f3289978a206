package job

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"
)

func in(v float64) unit.Length { l, _ := unit.FromMM(v*25.4, 1, unit.Nearest); return l }

func TestTry(t *testing.T) {
	hex := func(name string, flats float64) Kind {
		return Kind{Name: name, Shape: "hexagon", Lengths: map[string]unit.Length{"flats": in(flats)}}
	}
	s := Spec{Name: "Try", Timber: []Timber{{Name: "pine", Nominal: "1x4", Length: 8 * unit.Foot}},
		Kinds:    []Kind{hex("big", 18), hex("middle", 12), hex("small", 6), {Name: "half", Shape: "half hexagon", Lengths: map[string]unit.Length{"side": in(10.375)}}},
		Families: [][]string{{"big", "middle", "small", "half"}},
		Layout: []Place{
			{ID: "B1", Kind: "big", At: &geom.Point{}},
			{ID: "B2", Kind: "big", Attach: []Attach{{Side: 1, To: "B1", ToSide: 4}}},
			{ID: "B4", Kind: "big", Attach: []Attach{{Side: 6, To: "B1", ToSide: 3}, {Side: 5, To: "B2", ToSide: 2}}},
			{ID: "H1", Kind: "half", Attach: []Attach{{Side: 3, To: "B4", ToSide: 1}}},
			{ID: "M1", Kind: "middle", Attach: []Attach{{Side: 1, To: "B2", ToSide: 4, Align: "flush at start"}}},
			{ID: "S1", Kind: "small", Attach: []Attach{{Side: 3, To: "B1", ToSide: 6, Align: "flush at start"}}},
		}}
	r, snags, err := Plan(context.Background(), s, BuiltIn())
	for _, x := range snags {
		fmt.Println(x)
	}
	if err != nil {
		t.Fatal(err)
	}
	b, _ := json.MarshalIndent(r, "", " ")
	fmt.Println(string(b))
}
