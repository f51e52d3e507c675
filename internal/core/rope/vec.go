package rope

import "math"

// Vec is a point in metres or a direction, in space. For a flat case leave Z at
// nought.
type Vec struct{ X, Y, Z float64 }

// Add gives v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Sub gives v - w.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Times gives v times k.
func (v Vec) Times(k float64) Vec {
	return Vec{float64(v.X * k), float64(v.Y * k), float64(v.Z * k)}
}

// Dot gives the scalar product.
func (v Vec) Dot(w Vec) float64 {
	return float64(v.X*w.X) + float64(v.Y*w.Y) + float64(v.Z*w.Z)
}

// Size gives the length of v.
func (v Vec) Size() float64 { return math.Sqrt(v.Dot(v)) }

func (v Vec) finite() bool {
	s := v.X + v.Y + v.Z
	return !math.IsNaN(s) && !math.IsInf(s, 0)
}
