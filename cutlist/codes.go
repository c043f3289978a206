package cutlist

import "bowerwright/snag"

// What can be wrong with a table.
var (
	tooBig        = snag.Kind{Code: "list-too-big", Meaning: "The cut list is over 1 MB, or has more rows than are read."}
	notText       = snag.Kind{Code: "list-not-text", Meaning: "The cut list is not text in UTF-8, or has a control character in it."}
	noRows        = snag.Kind{Code: "list-empty", Meaning: "The cut list has no row that names its columns, or none under it."}
	unknownColumn = snag.Kind{Code: "list-column-unknown", Meaning: "A column of the cut list has a name that is not read."}
	twiceColumn   = snag.Kind{Code: "list-column-twice", Meaning: "Two columns of the cut list say the same thing."}
	noColumn      = snag.Kind{Code: "list-column-missing", Meaning: "The cut list lacks a column that is needed."}
	wrongCells    = snag.Kind{Code: "list-cells", Meaning: "A row of the cut list has more or fewer cells than the row that names the columns."}
	badQuote      = snag.Kind{Code: "list-quote", Meaning: "A quote in the cut list is not closed in its line, or something stands behind it in its cell."}
	badDecimal    = snag.Kind{Code: "list-decimal", Meaning: "A number in the cut list can be read in two ways: 1,250 or 1.234,5; or the file uses both decimal marks."}
	badLength     = snag.Kind{Code: "list-length", Meaning: "A length in the cut list cannot be read, or has no unit."}
	badCount      = snag.Kind{Code: "list-count", Meaning: "A count in the cut list is not a whole number of 1 or more."}
	badAngle      = snag.Kind{Code: "list-angle", Meaning: "An end of a part in the cut list is not an angle in degrees from straight across."}
	badName       = snag.Kind{Code: "list-name", Meaning: "A name in the cut list is missing, too long, or not one line of text."}
	badWord       = snag.Kind{Code: "list-word", Meaning: "A cell of the cut list takes one of a few words."}
	badPrice      = snag.Kind{Code: "list-price", Meaning: "A price in the cut list cannot be read, or has no currency."}
	badSpan       = snag.Kind{Code: "list-unusable", Meaning: "What is unusable of a board is not written as lengths: 31 in to 33 in and 60 in to 61 in."}
	outOfRange    = snag.Kind{Code: "list-range", Meaning: "A value in the cut list is outside what is accepted."}
	twoTimbers    = snag.Kind{Code: "list-timber-unlike", Meaning: "Two rows of one timber in the stock differ in what boards of one timber share."}
)

// Snags are the kinds of snag that this package finds.
var Snags = []snag.Kind{
	tooBig, notText, noRows, unknownColumn, twiceColumn, noColumn, wrongCells, badQuote, badDecimal, badLength, badCount,
	badAngle, badName, badWord, badPrice, badSpan, outOfRange, twoTimbers,
}
