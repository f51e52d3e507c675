// Package draw draws an outcome on one sheet: what was decided and why, the
// line of the doubt over time, its fall look by look, and where along the piece
// it sits. Everything on the sheet stands in the text report as well.
//
// Drawings go to a Sink, so that the same sheet can be written in another form.
// All lengths are units of the sheet, which is 900 wide and 1200 high with its
// origin at the upper left; y grows downward.
//
// Nothing is told by colour alone: hatching always means "not known" (the part
// that no look can show, a stretch where nobody looked), the limit is a fence
// with its ticks on the side that is out of bounds, and the outcome is said in
// words on a plate whose frame gets heavier as the outcome gets stricter.
package draw
