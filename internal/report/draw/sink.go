package draw

// Sink takes the strokes of a drawing. Coordinates are units of the sheet.
type Sink interface {
	// Open begins a group; every group is closed again.
	Open(g Group)
	Close()
	Line(x1, y1, x2, y2 float64, s Stroke)
	Polyline(points []Point, s Stroke)
	Polygon(points []Point, p Paint)
	Rect(x, y, w, h float64, p Paint)
	Text(x, y float64, text string, t Type)
}

// Point is a place on the sheet.
type Point struct{ X, Y float64 }

// Group holds strokes together. Title and Desc are for those who cannot see
// the drawing; an empty Clip clips nothing.
type Group struct {
	Title string
	Desc  string
	Clip  []Point // a polygon
}

// Stroke is how a line is drawn; a Width of 0 draws none.
type Stroke struct {
	Colour Colour
	Width  float64
	Dash   []float64 // lengths on and off, in turn; empty is a full line
}

// Paint is how a shape is filled and outlined; an empty Fill fills nothing.
type Paint struct {
	Fill   Colour
	Stroke Stroke
}

// Anchor says which point of a text its place is.
type Anchor int

// The anchors of a text.
const (
	Start Anchor = iota
	Middle
	End
)

// Type is how a text is set; its place is on the base line.
type Type struct {
	Size   float64
	Bold   bool
	Anchor Anchor
	Colour Colour
	Ground Colour // what it stands on, for contrast
}
