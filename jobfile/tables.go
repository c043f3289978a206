package jobfile

import (
	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/money"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A draft is what files are read into: the spec, and what only reading needs.
type draft struct {
	spec     job.Spec
	unit     unit.Unit             // of a bare number, in the file that is read
	currency money.Currency        // of a bare price, likewise
	ids      map[string]snag.Place // where each frame's id was taken
	metric   int                   // lengths written in mm, cm or m, less those in inches and feet
}

// The tables are functions and not variables where they are built of others'
// rows; all are small.

var sawTable = []field[job.Saw]{
	textField(info{Key: "name", Doc: "What the saw is called on paper.", Example: "the old slider"},
		func(s *job.Saw) *string { return &s.Name }),
	reachField(info{Key: "swing", Doc: "How far the head swings each way, in degrees from straight across; one number means both.",
		Example: "50 left, 60 right", Usual: "assumption `saw.swing`, 50 degrees"}, func(s *job.Saw) (*unit.Angle, *unit.Angle) { return &s.SwingLeft, &s.SwingRight }),
	reachField(info{Key: "tilt", Doc: "How far the head tilts each way, in degrees from upright; one number means both.",
		Example: "48 left, 3 right", Usual: "assumption `saw.tilt`, 45 degrees"}, func(s *job.Saw) (*unit.Angle, *unit.Angle) { return &s.TiltLeft, &s.TiltRight }),
	detentsField(info{Key: "detents", Doc: "Settings, in degrees, at which the head clicks in.", Example: "22.5"}),
	assumedField(info{Key: "kerf", Doc: "Width of the cut.", Example: "1/8 in", Assume: assume.Kerf},
		func(s *job.Saw) **unit.Length { return &s.Kerf }),
	assumedField(info{Key: "hold", Doc: "Least length that is held by hand at a cut, measured on the shorter face.",
		Example: "8 in", Assume: assume.Hold}, func(s *job.Saw) **unit.Length { return &s.Hold }),
	switchField(info{Key: "clamp", Doc: "Whether a hold-down clamp and a waste fence are used; then clamp hold goes for hold.",
		Example: "yes", Usual: "no"}, func(s *job.Saw, yes bool) { s.Clamp = yes }),
	assumedField(info{Key: "clamp hold", Doc: "Least length that the clamp holds at a cut.", Example: "3 in", Assume: assume.ClampHold},
		func(s *job.Saw) **unit.Length { return &s.ClampHold }),
	wordField(info{Key: "scale", Doc: "What the saw's scale counts from: across, where 0 is straight across, or along, where 0 is along the board.",
		Example: "across", Usual: "across"}, []string{"across", "along"}, func(s *job.Saw) *string { return &s.Scale }),
	wordField(info{Key: "stop", Doc: "Side of the blade that the stop is on.", Example: "left", Usual: "left"},
		[]string{"left", "right"}, func(s *job.Saw) *string { return &s.Stop }),
	takesField(info{Key: "takes", Doc: "The widest and thickest board the saw takes, at 0, 30 and 45 degrees, for boards that lie flat or stand against the fence, with the head swung or tilted. Of a standing board the first is its height. What is not given is not checked.",
		Example: "lying: {0: 12 in x 3 1/2 in}"}),
}

var timberTable = []field[job.Timber]{
	boardField(info{Key: "board", Doc: "Stock size by its name in the catalogue.", Example: "1x4"}),
	lengthField(info{Key: "thickness", Doc: "Thickness as measured; it goes over the catalogue's.", Example: "3/4 in"}, stockSize,
		func(t *job.Timber) *unit.Length { return &t.Thickness }),
	lengthField(info{Key: "width", Doc: "Width as measured; it goes over the catalogue's.", Example: "3 1/2 in"}, stockSize,
		func(t *job.Timber) *unit.Length { return &t.Width }),
	lengthField(info{Key: "length", Doc: "Length of a board as bought, where there is one length only.", Example: "8 ft"}, boardLong,
		func(t *job.Timber) *unit.Length { return &t.Length }),
	trimField(info{Key: "trim", Doc: "What is cut off the ends of a board before the first part and behind the last; one length means both.",
		Example: "1/4 in first, 0 in far", Usual: "the assumptions cut.trim-first and cut.trim-far"}),
	speciesField(info{Key: "species", Doc: "Species, for the weight.", Example: "eastern white pine"}),
	moistureField(info{Key: "moisture", Doc: "Moisture content, for the weight.", Example: "12 %", Assume: assume.Moisture}),
	switchField(info{Key: "turning", Doc: "Whether a board may be rolled over or swapped end for end between cuts; no for boards with one good face.",
		Example: "yes", Usual: "yes"}, func(t *job.Timber, yes bool) { t.Turning = &yes }),
	priceField(info{Key: "price", Doc: "Price of a board of that length.", Example: "$4.49"}),
	boardLengthsField(info{Key: "lengths", Doc: "Several lengths in which boards are bought, instead of length and price: the cheapest mix is found. Either every length has a price, or none has.", Example: exampleLength}),
	handField(info{Key: "on hand", Doc: "Boards and offcuts that are there already, the same size and laid alike. They count as not bought and cost nothing unless priced; of two that do, the shorter is taken. What of a single board cannot be used (a knot, a split) is told from its first end; it is sawn out with a margin, the assumption `cut.knot-margin`.", Example: exampleSpans}),
	spareEachField(info{Key: "spare parts", Doc: "Spare parts, of each part.", Example: "1", Usual: "0"}),
	rejectField(info{Key: "reject", Doc: "Share of each part that is expected to be spoilt: so many more are sawn, rounded up for each part.", Example: "5 %", Usual: "0 %"}),
}

var testTable = []field[job.TestReading]{
	kindNameField(info{Key: "frame", Doc: "The kind of frame whose test corner was cut.", Example: "big", Need: true}),
	lengthField(info{Key: "arms", Doc: "Outside length of each arm.", Example: "14 3/8 in", Need: true}, wide,
		func(t *job.TestReading) *unit.Length { return &t.Arms }),
	lengthField(info{Key: "across", Doc: "What was measured across the tips of the arms.", Example: "24 15/16 in", Need: true}, wide,
		func(t *job.TestReading) *unit.Length { return &t.Across }),
}

var driverTable = []field[job.Driver]{
	textField(info{Key: "name", Doc: "What the driver is called; of several, the shortest is what counts.", Example: "short driver"},
		func(d *job.Driver) *string { return &d.Name }),
	lengthField(info{Key: "length", Doc: "Length of its body, from the bit's holder to its back.", Example: "7 in", Usual: "assumption `driver.length`, 7.5 in"}, toolSize,
		func(d *job.Driver) *unit.Length { return &d.Length }),
	lengthField(info{Key: "width", Doc: "Width of its body, across the bit.", Example: "2 1/4 in", Usual: "twice the assumption `driver.half`, 1.125 in"}, toolSize,
		func(d *job.Driver) *unit.Length { return &d.Width }),
	lengthField(info{Key: "bit", Doc: "How far the bit stands out of its holder.", Example: "2 in", Usual: "assumption `driver.bit`, 2 in"}, toolSize,
		func(d *job.Driver) *unit.Length { return &d.Bit }),
	switchField(info{Key: "right angle", Doc: "Whether a right-angle head is at hand as well, which drives where the driver has no room.", Example: "yes", Usual: "no"},
		func(d *job.Driver, yes bool) { d.RightAngle = yes }),
	lengthField(info{Key: "head length", Doc: "Length of the right-angle head, along its bit.", Example: "2 1/4 in", Usual: "assumption `driver.right-angle`, 2.25 in"}, toolSize,
		func(d *job.Driver) *unit.Length { return &d.HeadLength }),
}

var personTable = []field[job.Person]{
	textField(info{Key: "name", Doc: "Who.", Example: "Ida", Need: true}, func(p *job.Person) *string { return &p.Name }),
	textField(info{Key: "does", Doc: "What they do.", Example: "saws"}, func(p *job.Person) *string { return &p.Does }),
	switchField(info{Key: "lifts", Doc: "Whether they are there to lift and carry: the lift paper counts them.", Example: "yes", Usual: "no"},
		func(p *job.Person, yes bool) { p.Lifts = yes }),
}

// jobTable are the fields of a job file, and, but for those that are JobOnly,
// of a shop file.
var jobTable = []field[draft]{
	textOf(info{Key: "name", Doc: "What the job is called.", Example: "Orchard wall", Need: true, JobOnly: true},
		func(s *job.Spec) *string { return &s.Name }),
	textOf(info{Key: "for", Doc: "Whom it is for.", Example: "Ida Quill and Sam Perrow", JobOnly: true},
		func(s *job.Spec) *string { return &s.For }),
	dateField(info{Key: "date", Doc: "Day of the event: year, month, day.", Example: "2027-05-22", JobOnly: true}),
	textOf(info{Key: "venue", Doc: "Where it stands.", Example: "The long barn, Thistledown", JobOnly: true},
		func(s *job.Spec) *string { return &s.Venue }),
	textOf(info{Key: "maker", Doc: "Who makes it.", Example: "Wren and Alder"}, func(s *job.Spec) *string { return &s.Maker }),
	noteField(info{Key: "note", Doc: "Anything that should stand on the cover; it may have several lines.", Example: "Paint is the client's.", JobOnly: true},
		func(d *draft) *string { return &d.spec.Note }),
	unitField(info{Key: "unit", Doc: "What a bare number means in this file.", Example: "in", Usual: "every length needs its unit"}),
	currencyField(info{Key: "currency", Doc: "What a bare price means in this file, by its three letters.", Example: "USD", Usual: "every price needs its currency"}),
	wordField(info{Key: "show", Doc: "Which units come first on paper.", Example: "us", Usual: "what unit says; without it, what most lengths of the job file are written in"},
		[]string{"us", "metric"}, func(d *draft) *string { return &d.spec.Show }),
	wordField(info{Key: "paper", Doc: "Size of the paper.", Example: "letter", Usual: "letter for us, a4 for metric"},
		[]string{"letter", "a4"}, func(d *draft) *string { return &d.spec.Paper }),
	markField(info{Key: "mark", Doc: "Finest mark on the tape; parts are rounded to it once.", Example: "1/16 in", Usual: "1/16 in or 1 mm"}),
	assumedOf(info{Key: "joint tolerance", Doc: "A gap up to this is a closed joint.", Example: "1/32 in", Assume: assume.JointTolerance},
		func(s *job.Spec) **unit.Length { return &s.JointTolerance }),
	assumedOf(info{Key: "seam gap", Doc: "What every seam adds to the whole: paint, glue, sides that do not lie quite flat.", Example: "1/32 in", Assume: assume.SeamGap},
		func(s *job.Spec) **unit.Length { return &s.Gap }),
	assumedOf(info{Key: "near miss", Doc: "Frames that come closer than this without touching are pointed out.", Example: "1/2 in", Assume: assume.NearMiss},
		func(s *job.Spec) **unit.Length { return &s.NearMiss }),
	groupField(info{Key: "saw", Doc: "The saw. What it takes is checked where it is given.", Example: "kerf: 1/8 in"}, sawTable,
		func(d *draft) *job.Saw { return &d.spec.Saw }),
	wordField(info{Key: "cutting", Doc: "Which way to cut goes on paper: the one with the fewest boards at least cost, or the one with the fewest changes of stop and saw. Both are priced.",
		Example: job.FewestChanges, Usual: job.FewestBoards}, []string{job.FewestBoards, job.FewestChanges}, func(d *draft) *string { return &d.spec.Cutting }),
	timbersField(info{Key: "timber", Doc: "Boards as bought, under names of your own. The first is used by frames that name none.", Example: "pine: {board: 1x4, length: 8 ft}"}),
	framesField(info{Key: "frames", Doc: "Kinds of frame, under names of your own: a shape, its measures, and what it is made of.",
		Example: "big: {shape: hexagon, flats: 18 in}", Need: true, JobOnly: true}),
	familiesField(info{Key: "families", Doc: "Kinds of frame whose sides are kept in whole-number ratio on the tape; a line names two or more.",
		Example: "big, middle, small", JobOnly: true}),
	layoutField(info{Key: "layout", Doc: "Where the frames stand: a line for each, under an id of your own.",
		Example: "B1: big at 0 in, 0 in", JobOnly: true}),
	copiesField(info{Key: "copies", Doc: "Frames of the layout repeated, under new ids.", Example: "B1..B6 as C1..C6, mirrored at 60 in", JobOnly: true}),
	testField(info{Key: "test corner", Doc: "What the test corner measured, from which the saw's true setting follows.",
		Example: "frame: big", JobOnly: true}),
	peopleField(info{Key: "people", Doc: "Who makes, carries and puts up.", Example: "{name: Ida, does: saws}"}),
	groupField(info{Key: "driver", Doc: "The drill or driver, for the room it needs inside a frame.", Example: "length: 7 in"}, driverTable,
		func(d *draft) *job.Driver { return &d.spec.Driver }),
	fixingField(),
	pricesField(info{Key: "prices", Doc: "What things cost, by the names that buying.csv lists. See docs/prices.md.", Example: "glue: $8.99 per 16 oz"}),
	inHandField(info{Key: "in hand", Doc: "What is there already, by the names that buying.csv lists: so much less is bought. Boards are given under their timber.", Example: "glue: 8 oz"}),
	taxField(info{Key: "tax", Doc: "Tax on what is bought: a rate that is added to prices, or one that prices include.", Example: "8.25 %", Usual: "no tax is added"}),
	groupField(info{Key: "making", Doc: "What there is to glue, sand, finish and lay out with.", Example: "straps: 12 ft, 12 ft"}, makingTable,
		func(d *draft) *job.MakingAsked { return &d.spec.Making }),
	dressingField(info{Key: "dressing", Doc: "Ways in which it is dressed, under names of your own, and under each the layers that hang on it; see *Dressing, base and standing* above.",
		Example: "greened: {greenery: {weight: 8 lb, closes: 60 %}}", JobOnly: true}),
	baseField(info{Key: "base", Doc: "Pieces of the base, under names of your own; see *Dressing, base and standing* above.", Example: "plate: {kind: plate, width: 72 in, depth: 30 in}", JobOnly: true}),
	standingField(),
	liftingField(),
	spotsField(info{Key: "tight spots", Doc: "What every section must pass, under names of your own, in the order in which they are met; see *Tight spots and sections* above.",
		Example: "barn-door: {kind: door, width: 46 in, height: 82 in, measured by: Ida}", JobOnly: true}),
	sectionsField(),
	assumeField(info{Key: "assume", Doc: "Any assumption by its id; docs/assumptions.md lists them.", Example: "saw.error: 0.25"}),
}
