package job

import "slices"

// A ShapeDef is one shape that a job may name, with the measures it is given
// by. The job file is read by it, and Plan builds frames from it.
//
// A measure stands in Kind.Lengths, Angles, Counts or Words under its Key, by
// its Is; corner points and runs of sides have fields of their own.
type ShapeDef struct {
	Name     string
	Also     []string // other names it is known by
	Sides    int      // boards of one frame; 0: it depends on the measures
	Regular  bool     // equal sides and corners
	Doc      string   // one sentence
	Example  string   // the measures of one, as a job file says them, a field a line
	Measures []Measure
	Need     []string   // keys that are always given
	OneOf    [][]string // of these groups of keys exactly one is given, whole
}

// MeasureKind says what a measure is.
type MeasureKind int

// The kinds of measure, and where a Kind holds them.
const (
	LengthMeasure MeasureKind = iota // Kind.Lengths
	AngleMeasure                     // Kind.Angles
	CountMeasure                     // Kind.Counts, Low to High
	WordMeasure                      // Kind.Words, one of Words; the first is the usual one
	SwitchMeasure                    // Kind.Words, "yes" or left out
	CornerList                       // Kind.Corners
	SideList                         // Kind.Run
)

// A Measure is one thing that a shape is given by.
type Measure struct {
	Key       string
	Is        MeasureKind
	Words     []string
	Low, High int    // for CountMeasure
	Doc       string // one sentence
	Example   string
}

// Measure finds one of the shape's measures.
func (d ShapeDef) Measure(key string) (Measure, bool) {
	i := slices.IndexFunc(d.Measures, func(m Measure) bool { return m.Key == key })
	if i < 0 {
		return Measure{}, false
	}
	return d.Measures[i], true
}

// ShapeNamed finds a shape by its name or another name it is known by.
func ShapeNamed(name string) (ShapeDef, bool) {
	for _, d := range Shapes {
		if d.Name == name || slices.Contains(d.Also, name) {
			return d, true
		}
	}
	return ShapeDef{}, false
}

// Sizes of a regular polygon. Flats, points and inside flats are there for an
// even number of sides only.
var (
	sizeSide      = Measure{Key: "side", Doc: "Outside length of one side.", Example: "10 3/8 in"}
	sizeFlats     = Measure{Key: "flats", Doc: "Across the flats, outside: between opposite sides.", Example: "18 in"}
	sizePoints    = Measure{Key: "points", Doc: "Across the points: between opposite corners.", Example: "20 3/4 in"}
	sizeInside    = Measure{Key: "inside flats", Doc: "Between the inside faces of opposite sides.", Example: "16 1/2 in"}
	sizeCorners   = Measure{Key: "corner circle", Doc: "Diameter of the circle through the corners.", Example: "20 3/4 in"}
	sizeInscribed = Measure{Key: "inscribed circle", Doc: "Diameter of the circle that touches the outside of every side.", Example: "18 in"}
	sizeHeight    = Measure{Key: "height", Doc: "Height as it stands.", Example: "18 in"}
	sizeWidth     = Measure{Key: "width", Doc: "Width as it stands.", Example: "20 3/4 in"}
	standsOn      = Measure{Key: "stands on", Is: WordMeasure, Words: []string{"side", "corner"},
		Doc: "Whether a side or a corner is lowest.", Example: "side"}
	circleFit = Measure{Key: "circle", Is: WordMeasure, Words: []string{"corners", "flats"},
		Doc: "Whether the outside corners lie on the circle or the outside flats touch it.", Example: "corners"}
	feet = Measure{Key: "feet", Is: WordMeasure, Words: []string{"floor", "square"},
		Doc: "Whether the feet are cut to the floor or straight across; sawn square, the frame stands on their inner edges.", Example: "floor"}
	width  = Measure{Key: "width", Doc: "Overall outside width.", Example: "36 in"}
	height = Measure{Key: "height", Doc: "Overall outside height.", Example: "84 in"}
)

var oddSizes = []Measure{sizeSide, sizeCorners, sizeInscribed, sizeHeight, sizeWidth}
var evenSizes = []Measure{sizeSide, sizeFlats, sizePoints, sizeInside, sizeCorners, sizeInscribed, sizeHeight, sizeWidth}

// regular defines the regular polygon of n sides.
func regular(name string, n int, also ...string) ShapeDef {
	sizes, example := oddSizes, "side: 10 3/8 in"
	if n%2 == 0 {
		sizes, example = evenSizes, "flats: 18 in"
	}
	return ShapeDef{
		Name: name, Also: also, Sides: n, Regular: true, Example: example,
		Doc:      "Equal sides, equal corners; one size is given.",
		Measures: append(slices.Clone(sizes), standsOn),
		OneOf:    each(sizes),
	}
}

// each makes every measure a group of its own.
func each(ms []Measure) [][]string {
	var out [][]string
	for _, m := range ms {
		out = append(out, []string{m.Key})
	}
	return out
}

func segments(low int, doc string) Measure {
	return Measure{Key: "segments", Is: CountMeasure, Low: low, High: 24, Doc: doc, Example: "8"}
}

// Shapes are all shapes, in the order of the reference.
var Shapes = []ShapeDef{
	regular("triangle", 3, "equilateral triangle"),
	regular("square", 4),
	regular("pentagon", 5),
	regular("hexagon", 6),
	regular("heptagon", 7),
	regular("octagon", 8),
	{
		Name: "regular", Also: []string{"regular polygon"}, Regular: true,
		Doc:     "A regular polygon of 3 to 24 sides; one size is given. Flats, points and inside flats need an even number of sides.",
		Example: "sides: 12\nflats: 30 in",
		Measures: append([]Measure{{Key: "sides", Is: CountMeasure, Low: 3, High: 24, Doc: "How many sides.", Example: "12"}},
			append(slices.Clone(evenSizes), standsOn)...),
		Need: []string{"sides"}, OneOf: each(evenSizes),
	},
	{
		Name: "rectangle", Sides: 4, Doc: "Upright, by its outside width and height.",
		Example: "width: 36 in\nheight: 84 in", Measures: []Measure{width, height}, Need: []string{"width", "height"},
	},
	{
		Name: "diamond", Sides: 4, Doc: "Four equal sides, standing on a corner.",
		Example: "width: 20 in\nheight: 34 in",
		Measures: []Measure{width, height, sizeSide,
			{Key: "angle", Is: AngleMeasure, Doc: "Inside angle at the foot.", Example: "60"}},
		OneOf: [][]string{{"width", "height"}, {"side", "angle"}},
	},
	{
		Name: "kite", Sides: 4, Doc: "Standing on a corner, by its width and the heights above and below its widest level.",
		Example: "width: 20 in\ntop: 8 in\nbottom: 18 in",
		Measures: []Measure{width,
			{Key: "top", Doc: "From the widest level up to the top corner.", Example: "8 in"},
			{Key: "bottom", Doc: "From the foot up to the widest level.", Example: "18 in"}},
		Need: []string{"width", "top", "bottom"},
	},
	{
		Name: "house", Also: []string{"house outline"}, Sides: 5, Doc: "Two walls, a sill and a pitched roof.",
		Example: "width: 48 in\neaves: 60 in\nridge: 84 in",
		Measures: []Measure{width,
			{Key: "eaves", Doc: "Height of the eaves over the floor.", Example: "60 in"},
			{Key: "ridge", Doc: "Height of the ridge over the floor.", Example: "84 in"}},
		Need: []string{"width", "eaves", "ridge"},
	},
	{
		Name: "half hexagon", Doc: "The upper half of a hexagon, on its long side; open, it has no board there and stands on two feet.",
		Example: "side: 24 in",
		Measures: []Measure{sizeSide, {Key: "width", Doc: "Outside length of the long side: two sides.", Example: "48 in"},
			{Key: "open", Is: SwitchMeasure, Doc: "Whether the long side is left out.", Example: "yes"}},
		OneOf: [][]string{{"side"}, {"width"}},
	},
	{
		Name: "elongated hexagon", Also: []string{"long hexagon"}, Sides: 6,
		Doc:     "A hexagon on its corner with two uprights drawn out.",
		Example: "width: 36 in\nheight: 84 in\nuprights: 48 in",
		Measures: []Measure{width, height,
			{Key: "uprights", Doc: "Outside length of each upright.", Example: "48 in"}},
		Need: []string{"width", "height", "uprights"},
	},
	{
		Name: "arch", Also: []string{"half round"}, Doc: "A half circle of straight segments on two feet.",
		Example: "segments: 8\noutside: 84 in",
		Measures: []Measure{segments(2, "How many straight segments."),
			{Key: "outside", Doc: "Diameter of the circle: with corners on it, how far the feet stand apart outside.", Example: "84 in"}, circleFit, feet},
		Need: []string{"segments", "outside"},
	},
	{
		Name: "arch on legs", Doc: "Straight segments over two upright legs.",
		Example: "width: 60 in\nlegs: 54 in\nsegments: 6",
		Measures: []Measure{width, {Key: "legs", Doc: "Outside length of each leg.", Example: "54 in"},
			segments(1, "How many straight segments stand between the legs."), circleFit},
		Need: []string{"width", "legs", "segments"},
	},
	{
		Name: "ring", Regular: true,
		Doc:     "Straight segments all round. Outside and inside together mean that it is sawn round afterwards, from boards that lie flat. Its blanks are then the shortest that cover it, outside faces on the outside circle, and reach farther in where the board is wide; only of boards so wide that blanks would come nearly to the middle they are longer.",
		Example: "segments: 12\noutside: 60 in",
		Measures: []Measure{segments(3, "How many segments."),
			{Key: "outside", Doc: "Diameter of the circle through the outside corners, or of the ring sawn round.", Example: "60 in"},
			{Key: "inside", Doc: "Diameter of the largest circle that fits inside, or of the hole sawn round.", Example: "50 in"},
			sizeSide, standsOn},
		Need: []string{"segments"}, OneOf: [][]string{{"outside"}, {"inside"}, {"outside", "inside"}, {"side"}},
	},
	{
		Name: "corners", Doc: "Any outline that does not cross itself, by its corners in order, either way round.",
		Example: "corners:\n  - 0 in, 0 in\n  - 24 in, 0 in\n  - 12 in, 30 in",
		Measures: []Measure{
			{Key: "corners", Is: CornerList, Doc: "A list of lines `x, y`: to the right, up.", Example: "- 24 in, 0 in"},
			{Key: "open", Is: SwitchMeasure, Doc: "Whether the outline runs from foot to foot, without a board on the floor.", Example: "yes"},
			feet},
		Need: []string{"corners"},
	},
	{
		Name:    "sides",
		Doc:     "Any outline by its sides, walked anticlockwise from a level first side with the inside above; the corners must close within 1/16 in.",
		Example: "sides:\n  - 24 in, 60\n  - 24 in, 60\n  - 24 in",
		Measures: []Measure{{Key: "sides", Is: SideList,
			Doc:     "A list of lines `length, inside angle at its far end`; the last line may leave out the angle.",
			Example: "- 24 in, 60"}},
		Need: []string{"sides"},
	},
}
