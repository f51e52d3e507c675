// Package criteria judges a record by rules that need no probability: absolute
// reasons, reasons for setting aside, dates, looks that were required, and
// wear or washing that asks for an earlier look. These are rows 1, 2, 3, 4 and
// 6a of the decision; the doubt of the other rows is worked out elsewhere.
//
// Every rule that applies is listed, each with the lines of the sources that
// demand it, and the strictest outcome holds. Everything that decides is
// compared as an integer: micrometres, days, parts per thousand, millionths.
// Whatever is missing (a date, an answer, a look, its coverage) is taken as
// the stricter of what it could be, so that leaving it out never loosens.
//
// The package is pure: no clock, files, randomness or goroutines.
package criteria
