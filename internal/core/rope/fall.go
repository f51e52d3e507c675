package rope

import "math"

// UnderReading is the share by which the spring model was seen to read low in hard
// falls: up to 30 % (Weber, "Analysis of Impact Force Equations", ITRS 2002,
// abstract, seen; drops of EN 1891 type at factor 1 in a blog of 2018, seen: 10 to
// 12 kN where the model gives 8.46).
const UnderReading = 0.30

// Stiffer is how many times the modulus taken from static stretch the rope can be
// in a fall: back-calculated from the same drops 1.5 to 2.2 times (derived).
const Stiffer = 2.2

// Gripped is the range in which the force of a fall lies, so far as the model
// tells. Upper is no upper bound: knots, friction at turns and the body are not in
// the model, and what was seen above it is few drops.
type Gripped struct {
	Lower float64 // what the spring model gives, N
	Upper float64 // that with all it was seen to leave out, N
	// Stretch is how far the rope gives by the model, m.
	Stretch float64
}

// Modulus is how stiff a rope is, EA in newtons, and where that comes from.
type Modulus struct {
	EA     float64 // N
	Static bool    // from slow stretch: in a fall the rope is stiffer
}

// FromStretch gives the modulus from the elongation of EN 1891, between 50 kg and
// 150 kg, as a share: EA = 100 kg g / e.
func FromStretch(share float64) (Modulus, error) {
	if err := within("the elongation", share, 0, 1, "give it as a share of the length, such as “3.5 %”"); err != nil {
		return Modulus{}, err
	}
	return Modulus{100 * Gravity / share, true}, nil
}

// FromPull gives the modulus from a stretch that was measured: by how much a length
// in metres became longer between two pulls in newtons.
func FromPull(from, to, long, longer float64) (Modulus, error) {
	if err := first(within("the first pull", from, -1e-300, mostForce, "give a force, such as “100 N”"), load("the second pull", to), length("the length measured over", long), length("the stretch", longer)); err != nil {
		return Modulus{}, err
	}
	switch {
	case to <= from:
		return Modulus{}, bad("the second pull", "is not more than the first", "give the smaller pull first")
	case longer > long:
		return Modulus{}, bad("the stretch", "is more than the length itself", "give by how much the length grew")
	}
	return Modulus{float64((to-from)*long) / longer, true}, nil
}

// FromImpact gives the modulus from the impact force of EN 892 in newtons: m0 and
// f0 are the mass and the fall factor it was measured with, 80 kg and about 1.77:
// EA = F0 (F0 - 2 m0 g)/(2 m0 g f0) (encyclopaedia article "Fall factor", seen).
func FromImpact(f, m0, f0 float64) (Modulus, error) {
	if err := first(load("the impact force", f), mass("the mass of the test", m0), within("the fall factor of the test", f0, 0, 2, "give one of at most 2; EN 892 has about 1.77")); err != nil {
		return Modulus{}, err
	}
	w := float64(2 * m0 * Gravity)
	if f <= w {
		return Modulus{}, bad("the impact force", "is not more than what the mass of the test gives without any fall", "give the impact force of the rope's own paper, such as “9 kN”")
	}
	return Modulus{float64(f*(f-w)) / float64(w*f0), false}, nil
}

// Spring gives the force in newtons and the stretch in metres when a mass of m kg
// falls freely by h metres and is caught by l metres of rope of a modulus EA, as an
// undamped spring: F = mg + √((mg)² + 2 mg EA h/l), x = F l/EA (encyclopaedia
// article "Fall factor", seen; the balance of energy). A slip without free fall
// gives 2 mg.
func Spring(m, h, l, ea float64) (force, stretch float64, err error) {
	if err = first(mass("the mass", m), within("the free fall", h, -1e-300, mostLength, "give a length of nought or more"), length("the rope in play", l), within("the modulus", ea, 0, mostEA, "give it as a force, such as “28 kN”")); err != nil {
		return 0, 0, err
	}
	if h > 2*l {
		return 0, 0, bad("the free fall", "is more than twice the rope in play, which no rope allows", "give the rope between the climber and what holds it, or less slack")
	}
	w := float64(m * Gravity)
	force = w + math.Sqrt(float64(w*w)+float64(float64(2*w*ea)*(h/l)))
	return force, float64(force*l) / ea, nil
}

// Fall gives the range in which the force of a fall or slip lies: the model as it
// is, and the larger of the model raised by what it was seen to read low, and the
// model with the rope as stiff as it was seen to be in falls.
func Fall(m, h, l float64, rope Modulus) (Gripped, error) {
	low, x, err := Spring(m, h, l, rope.EA)
	if err != nil {
		return Gripped{}, err
	}
	out := Gripped{Lower: low, Upper: low / (1 - UnderReading), Stretch: x}
	if rope.Static {
		stiff, _, err := Spring(m, h, l, float64(rope.EA*Stiffer))
		if err != nil {
			return Gripped{}, err
		}
		out.Upper = max(out.Upper, stiff)
	}
	return out, nil
}
