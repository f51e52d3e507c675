package bench

// Point is a place in a drawing, in metres; y grows downward.
type Point struct{ X, Y float64 }

// Role says what a stroke of a drawing shows.
type Role string

// The roles.
const (
	Rope    Role = "rope"    // a line along the rope's middle
	Metal   Role = "metal"   // ring, pin, jaw: filled
	Fixed   Role = "fixed"   // a point of a harness, an anchor
	Load    Role = "load"    // an arrow from the first to the last point
	Measure Role = "measure" // a measured length, with an end mark at each end
	Reach   Role = "reach"   // where something can come to lie
	Ghost   Role = "ghost"   // how it lay before, or without load
)

// Path is a stroke of a scene. Width, of rope, is its diameter; 0 where it does not
// matter.
type Path struct {
	Role   Role
	Points []Point
	Closed bool
	Width  float64
}

// Label is a text of a scene: a key with the value it says, beside a place. Side is
// -1 to stand left of it, 0 above, 1 right, 2 below.
type Label struct {
	At    Point
	Key   string
	Value string
	Side  int
}

// Scene is the geometry of a drawing to scale.
type Scene struct {
	Paths  []Path
	Labels []Label
}

// Bar is a range or a value on a common scale.
type Bar struct {
	Key       string // "" where Words says it
	Words     string
	Low, High float64
	Open      bool // the upper end is not told
	None      bool // nothing is told
	Shown     string
}

// Bars is a drawing of ranges on one scale from 0, with a line to hold them against.
type Bars struct {
	Unit Unit
	Bars []Bar
	Mark float64 // 0 for none
	Key  string  // of the mark
}

func (s *Scene) path(r Role, pts ...Point) { s.Paths = append(s.Paths, Path{Role: r, Points: pts}) }

func (s *Scene) thick(width float64, pts ...Point) {
	s.Paths = append(s.Paths, Path{Role: Rope, Points: pts, Width: width})
}

func (s *Scene) label(key string, at Point, side int, value string) {
	s.Labels = append(s.Labels, Label{at, key, value, side})
}
