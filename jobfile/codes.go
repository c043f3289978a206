package jobfile

import "bowerwright/snag"

// What can be wrong with a file as a whole.
var (
	fileTooBig       = snag.Kind{Code: "file-too-big", Meaning: "The file is over 1 MB: no job is so long."}
	notUTF8          = snag.Kind{Code: "not-utf8", Meaning: "The file is not text in UTF-8."}
	controlCharacter = snag.Kind{Code: "control-character", Meaning: "The file has a character in it that is no text, such as NUL."}
	tabIndent        = snag.Kind{Code: "tab-indent", Meaning: "A line is indented with a tab; YAML counts spaces."}
	tooDeep          = snag.Kind{Code: "too-deep", Meaning: "Brackets or indentation go deeper than 50 levels."}
	tooManyFields    = snag.Kind{Code: "too-many-fields", Meaning: "The file has more than 10,000 fields and items."}
	secondDocument   = snag.Kind{Code: "second-document", Meaning: "A line --- begins a second document; a file holds one job."}
	yamlFeature      = snag.Kind{Code: "yaml-feature", Meaning: "The file uses a part of YAML that job files do without: tags, anchors, aliases, merge keys, directives, complex keys."}
	notYAML          = snag.Kind{Code: "not-yaml", Meaning: "The text cannot be read as YAML."}
	emptyFile        = snag.Kind{Code: "empty-file", Meaning: "There is nothing in the file."}
	versionMissing   = snag.Kind{Code: "version-missing", Meaning: "The first line does not say what file this is: bowerwright: 1, or bowerwright-shop: 1."}
	versionUnknown   = snag.Kind{Code: "version-unknown", Meaning: "The version in the first line is none that exists."}
	versionNewer     = snag.Kind{Code: "version-newer", Meaning: "The file was written for a newer version of the program."}
	wrongFile        = snag.Kind{Code: "wrong-file", Meaning: "A shop file was given for a job file, or the other way round."}
	tooManySnags     = snag.Kind{Code: "too-many-snags", Meaning: "There is more to put right than is shown at once."}
)

// What can be wrong with a field.
var (
	unknownField   = snag.Kind{Code: "unknown-field", Meaning: "There is no field of this name here."}
	duplicateField = snag.Kind{Code: "duplicate-field", Meaning: "A field is given twice."}
	missingField   = snag.Kind{Code: "missing-field", Meaning: "A field that is needed is not given."}
	otherFile      = snag.Kind{Code: "other-file", Meaning: "The field belongs into the job file and not into the shop file."}
	emptyValue     = snag.Kind{Code: "empty-value", Meaning: "Nothing stands behind the colon or dash."}
	hashValue      = snag.Kind{Code: "hash-value", Meaning: "The value begins with #, which starts a comment, so that nothing is left."}
	wrongType      = snag.Kind{Code: "wrong-type", Meaning: "A line stands where a list or fields are expected, or the other way round."}
	strangeNumber  = snag.Kind{Code: "strange-number", Meaning: "A number is written in a way that YAML or a reader may take for another one: 010, 0x10, 1_000, 1e3, .inf."}
	badLength      = snag.Kind{Code: "bad-length", Meaning: "A length cannot be read, or has no unit."}
	badAngle       = snag.Kind{Code: "bad-angle", Meaning: "An angle cannot be read; angles are in degrees."}
	badNumber      = snag.Kind{Code: "bad-number", Meaning: "A whole number is expected."}
	badPercent     = snag.Kind{Code: "bad-percent", Meaning: "A share in percent cannot be read."}
	badPrice       = snag.Kind{Code: "bad-price", Meaning: "A price cannot be read, or has no currency."}
	badDate        = snag.Kind{Code: "bad-date", Meaning: "A date is not year, month, day."}
	badSwitch      = snag.Kind{Code: "bad-switch", Meaning: "Yes or no is expected."}
	badWord        = snag.Kind{Code: "bad-word", Meaning: "One of a few words is expected."}
	badText        = snag.Kind{Code: "bad-text", Meaning: "A text is too long, or has a line break where it must be one line."}
	badName        = snag.Kind{Code: "bad-name", Meaning: "A name is not one word of letters and figures, or is a word that layout lines use."}
	badStock       = snag.Kind{Code: "bad-stock-line", Meaning: "A line of the lengths that are bought or on hand cannot be read."}
	twoLengths     = snag.Kind{Code: "two-lengths", Meaning: "A timber says how long its boards are in two ways: length or price beside lengths."}
	badPair        = snag.Kind{Code: "bad-pair", Meaning: "Two values in a line, such as x, y or width x thickness, or three of a size, cannot be read."}
	outOfRange     = snag.Kind{Code: "out-of-range", Meaning: "A value is outside what is accepted."}
)

// What can be wrong with what the job is about.
var (
	unknownBoard      = snag.Kind{Code: "unknown-board", Meaning: "The stock size is not in the catalogue."}
	unknownSpecies    = snag.Kind{Code: "unknown-species", Meaning: "The species is not in the catalogue."}
	noStockSize       = snag.Kind{Code: "no-stock-size", Meaning: "A timber has neither a board from the catalogue nor a measured thickness and width."}
	unknownShape      = snag.Kind{Code: "unknown-shape", Meaning: "There is no shape of this name."}
	noSuchMeasure     = snag.Kind{Code: "no-such-measure", Meaning: "The shape is not given by this measure."}
	unclearDiameter   = snag.Kind{Code: "unclear-diameter", Meaning: "Diameter could mean several sizes of a shape; the size must be named."}
	oneSize           = snag.Kind{Code: "one-size", Meaning: "A shape is given by exactly one size, and none or several are given."}
	unknownTimber     = snag.Kind{Code: "unknown-timber", Meaning: "A kind of frame names a timber that is not there."}
	unknownKind       = snag.Kind{Code: "unknown-kind", Meaning: "A line names a kind of frame that is not there."}
	unknownFrame      = snag.Kind{Code: "unknown-frame", Meaning: "A line names a frame that is not in the layout."}
	unknownAssumption = snag.Kind{Code: "unknown-assumption", Meaning: "There is no assumption of this id."}
	duplicateID       = snag.Kind{Code: "duplicate-id", Meaning: "Two frames have the same id."}
	badRow            = snag.Kind{Code: "bad-row", Meaning: "A row of frames, such as R1..R4, cannot be read."}
	badLayout         = snag.Kind{Code: "bad-layout", Meaning: "A line of the layout cannot be read."}
	badCopy           = snag.Kind{Code: "bad-copy", Meaning: "A line of the copies cannot be read."}
	badList           = snag.Kind{Code: "bad-list", Meaning: "A line that lists values, such as grits or lengths, is too long, or in an order that makes no sense."}
	badFamily         = snag.Kind{Code: "bad-family", Meaning: "A family does not name two or more kinds of frame."}
)

// Snags are the kinds of snag that this package finds.
var Snags = append(buyingSnags, []snag.Kind{
	fileTooBig, notUTF8, controlCharacter, tabIndent, tooDeep, tooManyFields, secondDocument, yamlFeature, notYAML,
	emptyFile, versionMissing, versionUnknown, versionNewer, wrongFile, tooManySnags,
	unknownField, duplicateField, missingField, otherFile, emptyValue, hashValue, wrongType, strangeNumber, badLength,
	badAngle, badNumber, badPercent, badPrice, badDate, badSwitch, badWord, badText, badName, badPair, badStock, twoLengths, outOfRange,
	unknownBoard, unknownSpecies, noStockSize, unknownShape, noSuchMeasure, unclearDiameter, oneSize, unknownTimber,
	unknownKind, unknownFrame, unknownAssumption, duplicateID, badRow, badLayout, badCopy, badList, badFamily, badFixing, unknownScrew,
	badPart, badMark, badBoards, badHappened, badMass, badSpeed, baseMeasure, spotMeasure,
}...)
