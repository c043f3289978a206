package job

import (
	"fmt"
	"math"
	"slices"

	"bowerwright/unit"
)

// stops lists the positions of the stop in bench order, as the boards are cut:
// shortest first by the shorter face.
func (k cutPlan) stops() []StopFacts {
	out := []StopFacts{}
	for i, stop := range k.w.session.Stops {
		f := k.stop(stop.Parts[0])
		f.Number, f.Count, f.SawSet = i+1, stop.Count, stop.Saw
		for _, part := range stop.Parts {
			q := k.s.sticks[part]
			f.Parts = append(f.Parts, StopPart{Mark: q.mark, Kind: q.kind, Count: q.saw()})
		}
		for _, a := range stop.Settings {
			f.Settings = append(f.Settings, k.cutter.w.angle(a))
		}
		for _, b := range stop.Boards {
			f.Boards = k.comes(f.Boards, b, stop.Parts)
		}
		out = append(out, f)
	}
	return out
}

// comes adds a board of the plan to those that come to the stop of some parts.
func (k cutPlan) comes(list []StopBoard, board int, parts []int) []StopBoard {
	n := 0
	for _, q := range k.w.plan.Boards[board].Parts {
		if slices.Contains(parts, q.Part) {
			n++
		}
	}
	if last := len(list) - 1; last >= 0 && list[last].Board == k.number[board] {
		list[last].Count += n
		return list
	}
	return append(list, StopBoard{Board: k.number[board], Count: n})
}

// roughOf is the length that a part is first sawn to, square, or 0.
func (k cutPlan) roughOf(part int) unit.Length {
	if k.w.rough[part] {
		return k.w.order.Parts[part].Outside
	}
	return k.s.sticks[part].rough
}

// stop is what the stop is set to for a part.
func (k cutPlan) stop(part int) StopFacts {
	q, w := k.s.sticks[part], k.cutter.w
	f := StopFacts{Stop: k.stopOf(part), Way: q.way, First: w.angle(q.left), Second: w.angle(q.right)}
	short := k.s.short(q)
	f.Short = w.cut(short)
	if q.fitted {
		f.Short = w.fitted(short)
	}
	f.Point, f.Face = stopPoint(q.left, q.right)
	if rough := k.roughOf(part); rough > 0 {
		short = rough.MM()
		f.Rough, f.Way, f.First, f.Second, f.Short = true, "square to rough length", w.angle(0), w.angle(0), w.cut(short)
		f.Point, f.Face = stopPoint(0, 0)
	}
	f.LongEnough = short >= k.s.hold.MM()
	f.Held = k.heldText(f)
	return f
}

// slants are how far the two ends of a stick lean over the depth, mm.
func (s stack) slants(q stick) (l, r float64) {
	return s.depth.MM() * math.Tan(float64(q.left)), s.depth.MM() * math.Tan(float64(q.right))
}

// short and long are the shorter and the longer face of a stick, and tips its
// tip-to-tip length, mm.
func (s stack) short(q stick) float64 {
	l, r := s.slants(q)
	return min(q.outside.MM(), q.outside.MM()-l-r)
}

func (s stack) long(q stick) float64 {
	l, r := s.slants(q)
	return max(q.outside.MM(), q.outside.MM()-l-r)
}

func (s stack) tips(q stick) float64 {
	l, r := s.slants(q)
	return q.outside.MM() + max(0, -l) + max(0, -r)
}

// stopOf is the distance from tooth to stop: between the two points that reach
// furthest along the board.
func (k cutPlan) stopOf(part int) Size {
	if rough := k.roughOf(part); rough > 0 {
		return k.cutter.w.cut(rough.MM())
	}
	return k.tipsOf(part)
}

func (k cutPlan) tipsOf(part int) Size {
	q := k.s.sticks[part]
	if q.fitted {
		return k.cutter.w.fitted(k.s.tips(q))
	}
	return k.cutter.w.cut(k.s.tips(q))
}

// stopPoint says which point of a part touches the stop, and on which face it
// lies.
func stopPoint(a, b unit.Angle) (point, face string) {
	out, in := "outside face", "inside face"
	switch {
	case a == 0 && b == 0:
		return "square end", "whole end"
	case a >= 0 && b >= 0:
		return "long point", out
	case a <= 0 && b <= 0:
		return "long point", in
	}
	return "tip", "tip to tip, " + out + " to " + in
}

func (k cutPlan) heldText(f StopFacts) string {
	w := k.cutter.w
	hold := w.text(w.cut(k.s.hold.MM()))
	with := "in the hand"
	if k.s.facts.Clamp {
		with = "under the clamp"
	}
	if f.LongEnough {
		return fmt.Sprintf("Hold the board; at the last cut of a board hold the part: its shorter face is %s (at least %s, %s).", w.text(f.Short), hold, with)
	}
	return fmt.Sprintf("Hold the board: at least %s, %s. The part is too short to hold: push up to a spacer at the stop, take the spacer away, then cut.", hold, with)
}

// trims lists what is trimmed off parts that are first sawn to rough lengths:
// setting by setting, each part's first end where it comes first, its second to
// the stop.
func (k cutPlan) trims() []TrimFacts {
	out := []TrimFacts{}
	done := map[int]bool{} // parts with one end trimmed
	for _, a := range k.w.session.TrimSettings {
		f := TrimFacts{Setting: k.cutter.w.angle(a)}
		for i, q := range k.s.sticks {
			if !k.w.rough[i] {
				continue
			}
			for end, lean := range [2]unit.Angle{q.left, -q.right} {
				if !k.set(lean, a) {
					continue
				}
				e := TrimEnd{Mark: q.mark, End: [2]string{"first", "second"}[end], Count: q.saw()}
				if done[i] {
					stop := k.tipsOf(i)
					e.Stop = &stop
				}
				done[i] = true
				f.Ends = append(f.Ends, e)
			}
		}
		out = append(out, f)
	}
	return out
}

// set says whether the saw stands at a setting for an end that leans so; where
// boards are turned only its size counts.
func (k cutPlan) set(lean, setting unit.Angle) bool {
	const same = 1e-9 // radians, as the session counts them
	if k.s.facts.Turning {
		lean, setting = unit.Angle(math.Abs(float64(lean))), unit.Angle(math.Abs(float64(setting)))
	}
	return math.Abs(float64(lean-setting)) < same
}
