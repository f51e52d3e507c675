package rope

import (
	"math"

	"kernbook/internal/core/num"
)

// Span is a bridge between two points of a harness, and the direction it is loaded
// in.
type Span struct {
	A, B   Vec     // the points, m
	Length float64 // of the bridge between them, m
	Along  Vec     // direction of the load; any size but nought
	Radius float64 // of the rope's middle line round the ring, m; 0 for a ring so small that it does not matter
}

// Hang is a loaded bridge at rest: leg 0 goes to A, leg 1 to B.
type Hang struct {
	Tension [2]float64 // N
	Leg     [2]float64 // m, from the point to where the rope meets the ring
	Angle   [2]float64 // of each leg to the direction of the load, radians
	Ring    Vec        // middle of the ring
	Between float64    // angle between the legs, radians
	Turn    float64    // angle the rope turns through at the ring, radians
	Pull    [2]Vec     // what each point bears, N
	Inward  [2]float64 // the part of it along the line between the points, towards the other, N
}

// flat is a span in the plane of the load and the line between the points.
type flat struct {
	apart float64 // distance of the points square to the load
	lower float64 // how much further along the load B lies than A
	u, n  Vec     // along the load; square to it, towards B
}

func (s *Span) flat() (flat, error) {
	var f flat
	if !s.A.finite() || !s.B.finite() || !s.Along.finite() {
		return f, bad("a point or the direction of the load", "is no number", "give every coordinate as a number")
	}
	size := s.Along.Size()
	if size == 0 {
		return f, bad("the direction of the load", "has no direction", "give one other than (0, 0, 0)")
	}
	ab := s.B.Sub(s.A)
	if err := first(length("the length of the bridge", s.Length), length("the distance between the points", ab.Size())); err != nil {
		return f, err
	}
	if !(s.Radius >= 0) || s.Radius > s.Length/4 {
		return f, bad("the size of the ring", "does not go with a bridge of this length", "give a radius from nought to a quarter of the bridge's length")
	}
	if s.Length <= ab.Size() {
		return f, bad("the length of the bridge", "is not more than the distance between its points, so no ring could hang in it", "measure both again, the bridge from point to point along the rope")
	}
	f.u = s.Along.Times(1 / size)
	f.lower = ab.Dot(f.u)
	across := ab.Sub(f.u.Times(f.lower))
	f.apart = across.Size()
	if f.apart <= 1e-9*ab.Size() {
		// The load pulls along the line between the points: any plane will do.
		f.apart, f.n = 0, f.u.square()
	} else {
		f.n = across.Times(1 / f.apart)
	}
	return f, nil
}

// square gives a unit vector at right angles to v.
func (v Vec) square() Vec {
	w := Vec{-v.Y, v.X, 0}
	if w.Size() < 1e-9 {
		w = Vec{1, 0, 0}
	}
	return w.Times(1 / w.Size())
}

// Rest gives how the bridge hangs under a load in newtons when its ring runs
// without friction: both legs then carry the same and stand at the same angle phi
// to the load. Only the distance of the points square to the load and the length of
// the bridge count: T = W L / (2 √(L² - S²)). Derived: on the ellipse (in space:
// ellipsoid) of all places that the length allows the ring rests where it is
// furthest along the load. With a ring that has a size the legs leave it on
// tangents, and (L - R(π - 2 phi)) sin phi + 2 R cos phi = S.
func (s Span) Rest(force float64) (Hang, error) {
	f, err := s.flat()
	if err = first(err, load("the load", force)); err != nil {
		return Hang{}, err
	}
	return s.rest(f, force)
}

// rest is Rest in the plane of the load and the points.
func (s *Span) rest(f flat, force float64) (Hang, error) {
	phi, err := s.tilt(f)
	if err != nil {
		return Hang{}, err
	}
	sin, cos := num.SinCos(phi)
	legs := s.Length - float64(s.Radius*(math.Pi-float64(2*phi)))
	more := f.lower / cos // of leg 0 over leg 1
	h := Hang{Between: 2 * phi, Turn: math.Pi - float64(2*phi), Angle: [2]float64{phi, phi}}
	h.Leg = [2]float64{(legs + more) / 2, (legs - more) / 2}
	if !(h.Leg[0] > 0) || !(h.Leg[1] > 0) {
		return Hang{}, bad("the size of the ring", "leaves no room for both legs", "give a smaller ring or a longer bridge")
	}
	t := force / (2 * cos)
	h.Tension = [2]float64{t, t}
	h.Ring = s.A.Add(f.n.Times(float64(h.Leg[0]*sin) + float64(s.Radius*cos))).Add(f.u.Times(float64(h.Leg[0]*cos) - float64(s.Radius*sin)))
	h.pulls(s, f, [2]Vec{f.n.Times(sin).Add(f.u.Times(cos)), f.n.Times(-sin).Add(f.u.Times(cos))})
	return h, nil
}

// tilt gives the angle of both legs to the load.
func (s *Span) tilt(f flat) (float64, error) {
	if s.Radius == 0 {
		return num.Asin(f.apart / s.Length), nil
	}
	phi, ok := num.Root(func(phi float64) float64 {
		sin, cos := num.SinCos(phi)
		return float64((s.Length-float64(s.Radius*(math.Pi-float64(2*phi))))*sin) + float64(2*s.Radius*cos) - f.apart
	}, -math.Pi/2, math.Pi/2)
	if !ok {
		return 0, bad("the size of the ring", "leaves no room in this bridge", "give a smaller ring or a longer bridge")
	}
	return phi, nil
}

// pulls fills in what the points bear, the legs leaving them in these directions.
func (h *Hang) pulls(s *Span, f flat, dir [2]Vec) {
	line := s.B.Sub(s.A)
	line = line.Times(1 / line.Size())
	for i := range dir {
		h.Pull[i] = dir[i].Times(h.Tension[i])
	}
	h.Inward = [2]float64{h.Pull[0].Dot(line), -h.Pull[1].Dot(line)}
}

// Stretched gives the same as Rest for a bridge that gives way under load: its
// length is that without load times (1 + T/modulus), the modulus EA in newtons. It
// gives the length under load as well.
func (s Span) Stretched(force, modulus float64) (Hang, float64, error) {
	f, err := s.flat()
	if err = first(err, load("the load", force), within("the modulus of the bridge", modulus, 0, mostEA, "give it as a force, such as “30 kN”")); err != nil {
		return Hang{}, 0, err
	}
	slack := s.Length
	long, ok := num.Root(func(l float64) float64 {
		t := s
		t.Length = l
		phi, err := t.tilt(f)
		if err != nil {
			return math.NaN()
		}
		return float64(slack*(1+force/float64(2*modulus*num.Cos(phi)))) - l
	}, slack, float64(2*slack)+float64(slack*force/modulus))
	if !ok {
		return Hang{}, 0, bad("the modulus of the bridge", "is too small for this load", "give the modulus EA of the rope as a force, such as “30 kN”")
	}
	s.Length = long
	h, err := s.Rest(force)
	return h, long, err
}

// Sag gives the length of a bridge from how its ring hangs: the distance of its
// points, how far from A the ring hangs along the line between them and how far
// square to it, all in metres.
func Sag(apart, along, down float64) (float64, error) {
	if err := first(length("the distance between the points", apart), length("how deep the ring hangs", down)); err != nil {
		return 0, err
	}
	if !(along >= 0) || along > apart {
		return 0, bad("how far the ring hangs from the first point", "does not lie between the points", "measure it along the line between them")
	}
	rest := apart - along
	return math.Sqrt(float64(along*along)+float64(down*down)) + math.Sqrt(float64(rest*rest)+float64(down*down)), nil
}
