package drawing

// A Tone is a paper or an ink by name. What colour it has is a matter of the
// Palette: a drawing says "chalk" and a printer makes it ink.
type Tone uint8

// The tones. None paints nothing.
const (
	None      Tone = iota
	Ink            // text, outlines
	Pencil         // second text, the outline of a person
	Line           // hatching, reach lines, hairlines of tables
	Faint          // decoration, never alone
	Chalk          // in hand, snap; prints as ink
	OnChalk        // text on chalk or on a black disc
	Sheet          // the paper drawn on
	Slip           // tags, a part on the saw
	Boxwood        // rules, the fence
	ChalkWash      // the inside of the frame in hand
	Wash           // dressing, as a picture only
	tones
)

var toneNames = [tones]string{"none", "ink", "pencil", "line", "faint", "chalk", "onchalk", "sheet", "slip", "boxwood", "chalkwash", "wash"}

// String is the tone's name, as in the style sheet of the pages.
func (t Tone) String() string { return toneNames[t] }

// An RGB is a colour in sRGB, 0 to 255.
type RGB struct{ R, G, B uint8 }

// A Palette gives each tone its colour.
type Palette [tones]RGB

// Of is the colour of a tone.
func (p *Palette) Of(t Tone) RGB { return p[t] }

// Paper is for the printer: white sheet, chalk printed as ink (its dash tells
// it apart), and no tone that a black toner would grey under text but the
// lightest. The values are those of the look's style sheet for print.
var Paper = Palette{
	Ink: {0x22, 0x1E, 0x18}, Pencil: {0x57, 0x4F, 0x43}, Line: {0x85, 0x7A, 0x68}, Faint: {0xCF, 0xC5, 0xB3},
	Chalk: {0x22, 0x1E, 0x18}, OnChalk: {0xFF, 0xFF, 0xFF}, Sheet: {0xFF, 0xFF, 0xFF}, Slip: {0xF4, 0xEF, 0xE5},
	Boxwood: {0xF0, 0xDF, 0xAE}, ChalkWash: {0xFF, 0xFF, 0xFF}, Wash: {0xDD, 0xE1, 0xD0},
}

// Light is for the screen by day.
var Light = Palette{
	Ink: {0x22, 0x1E, 0x18}, Pencil: {0x57, 0x4F, 0x43}, Line: {0x85, 0x7A, 0x68}, Faint: {0xCF, 0xC5, 0xB3},
	Chalk: {0x1B, 0x4A, 0x8A}, OnChalk: {0xFF, 0xFF, 0xFF}, Sheet: {0xFF, 0xFD, 0xF7}, Slip: {0xF3, 0xEB, 0xDB},
	Boxwood: {0xF0, 0xDF, 0xAE}, ChalkWash: {0xE2, 0xEA, 0xF5}, Wash: {0xDD, 0xE1, 0xD0},
}

// Dark is for the screen by night.
var Dark = Palette{
	Ink: {0xF5, 0xEE, 0xDF}, Pencil: {0xC9, 0xBE, 0xAA}, Line: {0x93, 0x88, 0x74}, Faint: {0x4A, 0x42, 0x35},
	Chalk: {0xA3, 0xC6, 0xF2}, OnChalk: {0x10, 0x13, 0x1A}, Sheet: {0x22, 0x1E, 0x18}, Slip: {0x30, 0x2A, 0x21},
	Boxwood: {0x5A, 0x4C, 0x2B}, ChalkWash: {0x20, 0x32, 0x4A}, Wash: {0x3A, 0x40, 0x32},
}
