package draw

// Colour is "#rrggbb" in sRGB, or "" for none.
type Colour string

// The palette. Blue and brown stay apart for every kind of colour vision, and
// both are dark enough to read as ink in black and white. Every text is Ink or
// Soft on Paper or Floor, or Paper on Ink.
const (
	Paper Colour = "#fbfaf5" // the ground
	Floor Colour = "#efebdf" // ground of what is not known, under the hatching
	Ink   Colour = "#14171a" // text, the limit, the outcome
	Soft  Colour = "#3a4046" // text of second rank
	Doubt Colour = "#0b3d66" // the doubt line
	Ahead Colour = "#5a2e00" // forecasts
	Rule  Colour = "#8a8679" // thin rules and hatching
	Grid  Colour = "#d8d4c7" // lines of a scale
)
