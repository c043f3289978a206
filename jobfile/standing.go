package jobfile

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"bowerwright/job"
	"bowerwright/unit"
)

var ballastTable = []field[job.BallastAsked]{
	textField(info{Key: "name", Doc: "What one of them is called.", Example: "sandbag", Need: true}, func(b *job.BallastAsked) *string { return &b.Name }),
	massField(info{Key: "weight", Doc: "What one weighs, on a scale.", Example: "25 lb", Need: true}, func(b *job.BallastAsked, m unit.Mass) { b.Mass = m }),
	sizeOfBallast(info{Key: "size", Doc: "Of one as it stands: length along the set piece x width from front to back x height.", Example: "18 in x 10 in x 5 in", Need: true}),
	ownedCount(info{Key: "owned", Doc: "How many there are.", Example: "12", Need: true}),
}

var standingTable = []field[job.StandingAsked]{
	wordField(info{Key: "where", Doc: "Indoors the exhibition load is tried, outdoors the gust; a push in both.", Example: "outdoors", Usual: "indoors"}, []string{"indoors", "outdoors"},
		func(s *job.StandingAsked) *string { return &s.Where }),
	wordField(info{Key: "floor", Doc: "What it stands on: a hall floor, a polished one, carpet or rough concrete (rough), or grass. Its friction is an assumption: `stand.friction`, `stand.friction-polished`, `stand.friction-rough`, `stand.friction-grass`.",
		Example: "rough", Usual: "hall; outdoors grass"}, []string{"hall", "polished", "rough", "grass"}, func(s *job.StandingAsked) *string { return &s.Floor }),
	switchField(info{Key: "soft", Doc: "Whether the floor gives or is uneven; grass is.", Example: "yes", Usual: "no"}, func(s *job.StandingAsked, yes bool) { s.Soft = yes }),
	slopeField(info{Key: "slope", Doc: "How steeply the floor falls, in degrees.", Example: "1.5", Usual: "level"}),
	speedField(info{Key: "gust", Doc: "The strongest 3-second gust expected while it stands, in mph, km/h or m/s.", Example: "22 mph", Usual: "from mean; outdoors without either, assumption `wind.expected`, 20 mph; indoors none"},
		func(s *job.StandingAsked) *float64 { return &s.Gust }),
	speedField(info{Key: "mean", Doc: "The mean wind as forecasts name it; the gust is taken as the assumption `wind.gust` times as strong.", Example: "12 mph"},
		func(s *job.StandingAsked) *float64 { return &s.Mean }),
	wordField(info{Key: "wind from", Doc: "Where the wind can come from, where it has one side only, as before a wall.", Example: "front", Usual: "any side"}, []string{"front", "back", "left", "right"},
		func(s *job.StandingAsked) *string { return &s.WindFrom }),
	switchField(info{Key: "push", Doc: "Whether a person can reach it and push; no where a rope or flowers keep people away.", Example: "no", Usual: "yes"}, func(s *job.StandingAsked, yes bool) { s.NoPush = !yes }),
	switchField(info{Key: "crowd", Doc: "Whether a crowd may lean on it.", Example: "yes", Usual: "no"}, func(s *job.StandingAsked, yes bool) { s.Crowd = yes }),
	switchField(info{Key: "openings", Doc: "Whether the exhibition load is taken on openings too; no where the venue lets them be left out.", Example: "no", Usual: "yes"}, func(s *job.StandingAsked, yes bool) { s.Openings = !yes }),
	ballastField(info{Key: "ballast", Doc: "Weights that are owned; as few of them are put on the base as the sums want.", Example: "{name: sandbag, weight: 25 lb, size: 18 in x 10 in x 5 in, owned: 12}"}),
	switchField(info{Key: "ballast in front", Doc: "Whether ballast may stand before the frames too, where dressing hides it.", Example: "yes", Usual: "no"}, func(s *job.StandingAsked, yes bool) { s.InFront = yes }),
	lengthField(info{Key: "ballast hidden", Doc: "Height up to which ballast is hidden: stacks are no higher.", Example: "12 in", Usual: "stacks as high as the assumption `stand.ballast-stack`"}, wide,
		func(s *job.StandingAsked) *unit.Length { return &s.Hidden }),
	wordField(info{Key: "held by", Doc: "How the frames are held to their base: screws up through it, brackets, bolts with washers, or nothing.", Example: "brackets", Usual: "screws; without a base nothing"},
		[]string{"screws", "brackets", "bolts", "nothing"}, func(s *job.StandingAsked) *string { return &s.Held }),
	countField(info{Key: "held at", Doc: "At how many places each of them is held.", Example: "4", Usual: "two to four, as its length asks"}, 1, mostHeldAt,
		func(s *job.StandingAsked) *int { return &s.HeldEach }),
	idsField(info{Key: "held frames", Doc: "Frames that are held to the base, by their ids; one that does not stand on it is held by a post or a block.", Example: "B1, B4..B7", Usual: "all that stand on it"},
		func(s *job.StandingAsked) *[]string { return &s.HeldFrames }),
	idsField(info{Key: "retaining lines", Doc: "Frames that a line of their own holds besides their seams, as what hangs over people's heads is to have.", Example: "B9, B10"},
		func(s *job.StandingAsked) *[]string { return &s.Lines }),
	textField(info{Key: "watch", Doc: "Who watches the wind and may have it taken down.", Example: "Ida, 555 0142"}, func(s *job.StandingAsked) *string { return &s.Watch }),
}

// standingField is the group.
func standingField() field[draft] {
	return groupField(info{Key: "standing", Doc: "Where it stands, what pushes it there, and what ballast is owned.", Example: "where: outdoors"},
		standingTable, func(d *draft) *job.StandingAsked { return &d.spec.Standing })
}

// mostHeldAt is how many fasteners there may be at one frame.
const mostHeldAt = 12

var liftingTable = []field[job.LiftingAsked]{
	switchField(info{Key: "in place", Doc: "Whether it is built up frame by frame where it stands, and never lifted in one.", Example: "yes", Usual: "no: it is carried flat and tilted up"},
		func(l *job.LiftingAsked, yes bool) { l.InPlace = yes }),
	countField(info{Key: "people", Doc: "How many carry it flat.", Example: "6", Usual: "as few as the limits allow"}, 1, mostCarriers, func(l *job.LiftingAsked) *int { return &l.People }),
	wordField(info{Key: "strongbacks", Doc: "Two battens screwed across its back on the way, level or upright, off again when it stands. They are sawn from the boards of the first frame, and in the cut list, the buying list and the bags.", Example: "level", Usual: "none"},
		[]string{"none", "level", "upright"}, func(l *job.LiftingAsked) *string { return &l.Strongbacks }),
}

// mostCarriers is the largest team that is looked at: the sums of package stand
// end there.
const mostCarriers = 8

func liftingField() field[draft] {
	return groupField(info{Key: "lifting", Doc: "How it is brought onto its feet.", Example: "in place: yes", JobOnly: true}, liftingTable,
		func(d *draft) *job.LiftingAsked { return &d.spec.Lifting })
}

func countField[T any](i info, least, most int, at func(*T) *int) field[T] {
	k := kind{words: fmt.Sprintf("a whole number, %d to %d", least, most), form: line, schema: whole(least, most)}
	return anyField(i, k, func(r *reader, n *node, into *T) {
		if v, ok := r.count(n, least, most); ok {
			*at(into) = v
		}
	})
}

func slopeField(i info) field[job.StandingAsked] {
	k := kind{words: "an angle, 0 to 15 degrees", form: line, schema: ref("angle")}
	return anyField(i, k, func(r *reader, n *node, s *job.StandingAsked) {
		if v, ok := r.angle(n, 0, 15); ok {
			s.Slope = v
		}
	})
}

// speedsIn are metres a second to one of each unit: exact by definition.
var speedsIn = []struct {
	name string
	ms   float64
}{{"mph", 1609.344 / 3600}, {"km/h", 1000.0 / 3600}, {"kmh", 1000.0 / 3600}, {"kph", 1000.0 / 3600}, {"m/s", 1}}

func speedField(i info, at func(*job.StandingAsked) *float64) field[job.StandingAsked] {
	k := kind{words: "a speed up to 90 mph; in mph, km/h or m/s", form: line, schema: object{"type": "string"}}
	return anyField(i, k, func(r *reader, n *node, s *job.StandingAsked) {
		v, err := Speed(n.text)
		switch {
		case errors.Is(err, errTooFast):
			r.bad(outOfRange, n, fmt.Sprintf("%s is %s; it must be above 0 and up to 90 mph", r.at.Key, n.text), "write a speed up to 90 mph")
		case err != nil:
			r.bad(badSpeed, n, err.Error(), r.at.remedy())
		default:
			*at(s) = v
		}
	})
}

var errTooFast = errors.New("it must be above 0 and up to 90 mph")

// mostWind is 90 mph in m/s: beyond it nothing is left standing.
const mostWind = 90 * 1609.344 / 3600

// Speed reads the speed of a wind, 22 mph, 35 km/h or 10 m/s, and gives it in
// m/s. The error says what is wrong, without a full stop.
func Speed(text string) (float64, error) {
	text = strings.TrimSpace(text)
	for _, u := range speedsIn {
		figures, ok := strings.CutSuffix(text, u.name)
		if !ok {
			continue
		}
		figures = strings.TrimSpace(figures)
		v, err := strconv.ParseFloat(figures, 64)
		switch {
		case err != nil || strings.Trim(figures, ".0123456789") != "":
			return 0, fmt.Errorf("%q is no speed", text)
		case v <= 0 || v*u.ms > mostWind*(1+1e-12):
			return 0, errTooFast
		}
		return v * u.ms, nil
	}
	return 0, fmt.Errorf("%q is no speed in mph, km/h or m/s", text)
}

// Weight reads a weight, 60 lb or 30 kg, that is above 0. The error says what
// is wrong, without a full stop.
func Weight(text string) (unit.Mass, error) {
	m, err := unit.ParseMass(text)
	var e *unit.ParseError
	switch {
	case errors.As(err, &e):
		return 0, fmt.Errorf("%s; write %s", e.Problem, e.Write)
	case err != nil:
		return 0, err
	case m <= 0 || float64(m) > mostKG:
		return 0, fmt.Errorf("it must be above 0 and up to %g kg", mostKG)
	}
	return m, nil
}

// mostKinds is how many kinds of ballast are looked through.
const mostKinds = 6

func ballastField(i info) field[job.StandingAsked] {
	i.kind = kind{words: fmt.Sprintf("a list of fields, at most %d", mostKinds), form: list, sub: describe("ballast", ballastTable)}
	return field[job.StandingAsked]{i, func(r *reader, n *node, s *job.StandingAsked) {
		if !r.is(n, list) {
			return
		}
		if len(n.items) > mostKinds {
			r.bad(badList, n, fmt.Sprintf("ballast lists %d kinds; at most %d are looked through", len(n.items), mostKinds), "keep those that there are most of")
			return
		}
		s.Ballast = nil
		names := map[string]bool{}
		for _, item := range n.items {
			if !r.is(item, fields) {
				continue
			}
			var b job.BallastAsked
			before := len(r.list)
			readFields(r, item, "a kind of ballast", ballastTable, &b)
			if names[b.Name] && b.Name != "" {
				r.bad(duplicateField, item, fmt.Sprintf("ballast is called %q twice", b.Name), "give one of them another name")
			}
			names[b.Name] = true
			if n := item.get("weight"); n != nil && b.Mass == 0 && len(r.list) == before {
				r.bad(outOfRange, n, "ballast without weight is none", "write what one weighs on a scale")
			}
			s.Ballast = append(s.Ballast, b)
		}
	}}
}

// ballastSize is how large one unit may be.
var ballastSize = span{20 * unit.Millimetre, 2 * unit.Metre, "20 mm to 2 m"}

func sizeOfBallast(i info) field[job.BallastAsked] {
	k := kind{words: "three lengths with x between, " + ballastSize.words + " each", form: line, schema: object{"type": "string"}}
	return anyField(i, k, func(r *reader, n *node, b *job.BallastAsked) {
		parts := strings.Split(strings.ReplaceAll(n.text, "×", "x"), " x ")
		if len(parts) != 3 {
			r.bad(badPair, n, fmt.Sprintf("%q is no length x width x height", n.text), r.at.remedy())
			return
		}
		at := 0
		for k, into := range []*unit.Length{&b.Length, &b.Width, &b.Height} {
			part := parts[k]
			lead := len(part) - len(strings.TrimLeft(part, " "))
			l, ok := r.lengthIn(n, strings.TrimSpace(part), at+lead)
			if !ok || !r.fits(n, l, ballastSize) {
				return
			}
			*into = l
			at += len(part) + len(" x ")
		}
	})
}

const mostOwned = 200

func ownedCount(i info) field[job.BallastAsked] {
	k := kind{words: fmt.Sprintf("a whole number, 0 to %d", mostOwned), form: line, schema: whole(0, mostOwned)}
	return anyField(i, k, func(r *reader, n *node, b *job.BallastAsked) {
		if v, ok := r.count(n, 0, mostOwned); ok {
			b.Owned = v
		}
	})
}
