//go:build ignore

// Writes what the mock server answers, from the examples, into a folder:
// go run web/mock/gen.go DIR.
package main

import (
	"context"
	"encoding/json"
	"os"

	"bowerwright/job"
	"bowerwright/jobfile"
)

type object = map[string]any

func main() {
	for _, name := range []string{"thistle-wall", "hop-lane", "lantern-gate"} {
		text, err := os.ReadFile("examples/" + name + ".yaml")
		check(err)
		spec, _, _ := jobfile.Read(text, name, nil, "")
		r, snags, err := job.Plan(context.Background(), spec, job.BuiltIn())
		check(err)
		if snags.Stops() {
			panic(snags)
		}
		write(name, object{"view": view(spec, r), "result": r, "written": jobfile.Written(text)})
	}
	fields, shapes := jobfile.Forms()
	write("fields", object{"fields": fields, "shapes": shapes})
}

func write(name string, what any) {
	out, err := json.Marshal(what)
	check(err)
	check(os.WriteFile(os.Args[1]+"/"+name+".json", out, 0o644))
}

func check(err error) {
	if err != nil {
		panic(err)
	}
}

func view(spec job.Spec, r job.Result) object {
	holds := map[string][]object{}
	floor := map[string]bool{}
	for _, p := range spec.Layout {
		floor[p.ID] = p.At != nil
		for _, a := range p.Attach {
			holds[p.ID] = append(holds[p.ID], object{"side": a.Side, "to": a.To, "toSide": a.ToSide, "align": a.Align, "shift": a.Shift.MM()})
		}
	}
	ids := map[string]string{}
	var frames, kinds, seams, near []object
	for _, f := range r.Frames {
		ids[f.Label] = f.ID
		frames = append(frames, object{"id": f.ID, "label": f.Label, "kind": f.Kind, "outline": f.Outside, "inside": f.Inside,
			"turn": f.Turn.Degrees, "mirror": f.Mirror, "holds": holds[f.ID], "floor": floor[f.ID]})
	}
	for _, k := range r.Kinds {
		var sides []object
		for _, p := range k.Parts {
			for _, s := range p.Sides {
				sides = append(sides, object{"n": s, "length": p.Outside})
			}
		}
		kinds = append(kinds, object{"name": k.Name, "title": k.Title, "shape": k.Shape, "outline": k.Outside, "inside": k.Inside,
			"placed": k.Placed, "spare": k.Make - k.Placed, "sides": sides})
	}
	for _, s := range r.Seams {
		seams = append(seams, object{"n": s.Number, "a": object{"frame": ids[s.Frames[0]], "side": s.Sides[0]},
			"b": object{"frame": ids[s.Frames[1]], "side": s.Sides[1]}, "from": s.From, "to": s.To, "length": s.Length})
	}
	for _, n := range r.Near {
		near = append(near, object{"a": ids[n.Frames[0]], "b": ids[n.Frames[1]], "say": n.Distance.US + " apart"})
	}
	return object{"rev": 1, "back": nil, "forward": nil, "name": r.Job.Name, "for": r.Job.For, "date": r.Job.Date, "venue": r.Job.Venue,
		"units": r.Job.Show, "mark": object{"mm": 1.5875, "text": r.Job.Finest}, "kinds": kinds, "frames": frames, "seams": seams, "near": near,
		"overlaps": []object{}, "width": r.Overall.Width, "height": r.Overall.Height, "opening": nil,
		"people": []object{{"name": "", "height": 1676.4}}, "snags": []object{}, "notes": r.Notes}
}
