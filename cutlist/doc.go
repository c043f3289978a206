// Package cutlist reads a bare cut list, and the stock it is cut from, as a
// table of cells: a comma, a semicolon or a tab between them.
//
// The first row that is neither blank nor a comment (#) names the columns, in
// any order and in upper or lower case; the words are in Columns. Every row
// below has as many cells. A length carries its unit in the cell or in the
// name of its column, or has the one that the caller gives for bare numbers.
//
// Promise: nothing is guessed and nothing is left out. A column whose name is
// not known, a cell too many, a quote that is not closed, a number that could
// be read two ways: each is a snag with its line, its column and what to write,
// all at once; and with any snag there is no list. The order of rows and
// columns and the separator change nothing in what is read.
//
// A comma is the decimal mark only where it cannot separate cells: in a file of
// semicolons or tabs, or in quotes. Where three figures follow it, as in 1,250,
// it might group thousands and is refused. A file uses one decimal mark.
//
// What it does not know: whether the parts can be sawn from the stock, which
// job.Cut does; files, which the caller reads.
package cutlist
