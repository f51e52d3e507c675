package rope

import (
	"math"

	"kernbook/internal/core/num"
)

// mostMu is the largest coefficient of friction taken.
const mostMu = 5

func friction(mu float64) error {
	return within("the coefficient of friction", mu, -1e-300, mostMu, "give a number such as 0.15")
}

// Capstan gives by what factor the pull on one side of a wrap can exceed that on
// the other before the rope slips: exp(mu·turn), the turn in radians (Euler's and
// Eytelwein's equation; encyclopaedia article "Capstan equation", seen). It is for
// a thin limp rope and leaves out what bending it costs, which counts on small
// bars.
func Capstan(mu, turn float64) (float64, error) {
	if err := first(friction(mu), within("the turn", turn, -1e-300, 1000, "give an angle of nought or more")); err != nil {
		return 0, err
	}
	return num.Exp(float64(mu * turn)), nil
}

// Mu gives the coefficient of friction from the pull that raises a load over a wrap
// of a turn and the one that just lets it down: ln(raise/lower)/(2 turn) (Delaney,
// Physics for Roping Technicians, 2022, p. 88, seen).
func Mu(raise, lower, turn float64) (float64, error) {
	if err := first(load("the pull that raises", raise), load("the pull that lowers", lower), within("the turn", turn, 0, 1000, "give an angle of more than nought")); err != nil {
		return 0, err
	}
	if raise < lower {
		return 0, bad("the pull that raises", "is less than the one that lowers", "swap the two")
	}
	return num.Log(raise/lower) / float64(2*turn), nil
}

// Held is what friction at the ring allows: the ring rests anywhere between two
// places, and slips beyond.
type Held struct {
	Free Hang    // without friction
	Ends [2]Hang // where it is about to slip towards A, and towards B
	Most float64 // the highest tension in a leg anywhere between, N
	Over float64 // that, as a multiple of the tension without friction
	// EdgeA and EdgeB say that the ring does not slip at all before it meets that
	// point of the harness.
	EdgeA, EdgeB bool
}

// Stuck gives how far off the place without friction the ring can stick under a
// load in newtons, and what the legs then carry: T0/T1 lies between exp(-mu·turn)
// and exp(mu·turn) (capstan equation), and by the balance of forces (Lami)
// T0/T1 = sin a1/sin a0 for the angles a of the legs to the load. The ring counts
// as small.
func (s Span) Stuck(force, mu float64) (Held, error) {
	if err := friction(mu); err != nil {
		return Held{}, err
	}
	s.Radius = 0
	f, err := s.flat()
	if err = first(err, load("the load", force)); err != nil {
		return Held{}, err
	}
	free, err := s.rest(f, force)
	if err != nil {
		return Held{}, err
	}
	if f.apart == 0 {
		return Held{}, bad("the direction of the load", "is along the line between the points, where friction at the ring has no bounds", "give a load that pulls across it")
	}
	out := Held{Free: free, Most: free.Tension[0]}
	apart := s.B.Sub(s.A).Size()
	bounds := [2]float64{(s.Length - apart) / 2, (s.Length + apart) / 2} // of leg 0
	for side := range 2 {
		end, edge := s.slips(f, force, mu, free.Leg[0], bounds[side])
		out.Ends[side] = end
		if edge && side == 0 {
			out.EdgeA = true
		} else if edge {
			out.EdgeB = true
		}
	}
	out.Most = s.most(f, force, out.Ends[0].Leg[0], out.Ends[1].Leg[0])
	out.Over = out.Most / free.Tension[0]
	return out, nil
}

// slips goes from the place without friction towards a bound of leg 0 until the
// ring slips. edge says that it does not before it gets there.
func (s *Span) slips(f flat, force, mu, from, to float64) (Hang, bool) {
	over := func(leg float64) float64 {
		h, ok := s.at(f, force, leg)
		if !ok {
			return 1e9 // past what forces can hold there: slipped
		}
		return math.Abs(num.Log(h.Tension[0]/h.Tension[1])) - float64(mu*h.Turn)
	}
	near := from + float64((to-from)*(1-1e-9))
	if over(near) < 0 {
		h, _ := s.at(f, force, near)
		return h, true
	}
	if over(from) >= 0 { // hardly any friction: it slips where it rests
		h, _ := s.at(f, force, from)
		return h, false
	}
	leg, _ := num.Root(over, from, near)
	h, ok := s.at(f, force, leg)
	for step := 1e-15; !ok && step < 1; step *= 2 { // the root may lie a digit outside
		h, ok = s.at(f, force, leg+float64((from-leg)*step))
	}
	return h, false
}

// most gives the highest tension in a leg with leg 0 anywhere from lo to hi. Of a
// slack bridge it is met at an end, of a nearly taut one between: so it is sought
// in steps, and closed in on around the highest.
func (s *Span) most(f flat, force, lo, hi float64) float64 {
	high := func(leg float64) float64 {
		h, ok := s.at(f, force, leg)
		if !ok {
			return 0
		}
		return max(h.Tension[0], h.Tension[1])
	}
	const steps = 64
	best, at := 0.0, lo
	for i := range steps + 1 {
		leg := lo + float64((hi-lo)*(float64(i)/steps))
		if t := high(leg); t > best {
			best, at = t, leg
		}
	}
	one := float64((hi - lo) * (1.0 / steps))
	a, b := max(lo, at-one), min(hi, at+one)
	for range 60 { // by thirds
		c, d := a+(b-a)/3, b-(b-a)/3
		if high(c) < high(d) {
			a = c
		} else {
			b = d
		}
	}
	return max(best, high(a), high(b))
}

// at gives the forces with the ring at a place where leg 0 has this length, by
// Lami's rule. ok is false where the ring could not rest there with both legs
// taut, whatever friction.
func (s *Span) at(f flat, force, leg float64) (Hang, bool) {
	// The ring lies in the plane of the load and the points, at leg from A and
	// Length-leg from B, on the side of the load.
	d := math.Sqrt(float64(f.apart*f.apart) + float64(f.lower*f.lower))
	other := s.Length - leg
	p := (float64(leg*leg) - float64(other*other) + float64(d*d)) / (2 * d)
	q2 := float64(leg*leg) - float64(p*p)
	if q2 < 0 {
		q2 = 0
	}
	q := math.Sqrt(q2)
	// Along the line: (apart, lower)/d; square to it, towards the load: (-lower, apart)/d.
	x := (float64(p*f.apart) - float64(q*f.lower)) / d
	y := (float64(p*f.lower) + float64(q*f.apart)) / d
	a0 := num.Atan2(x, y)
	a1 := num.Atan2(f.apart-x, y-f.lower)
	if !(a0 > 0) || !(a1 > 0) || a0+a1 >= math.Pi {
		return Hang{}, false
	}
	whole := num.Sin(a0 + a1)
	h := Hang{Leg: [2]float64{leg, other}, Angle: [2]float64{a0, a1}, Between: a0 + a1, Turn: math.Pi - a0 - a1}
	h.Tension = [2]float64{float64(force*num.Sin(a1)) / whole, float64(force*num.Sin(a0)) / whole}
	h.Ring = s.A.Add(f.n.Times(x)).Add(f.u.Times(y))
	dir := [2]Vec{h.Ring.Sub(s.A), h.Ring.Sub(s.B)}
	for i := range dir {
		dir[i] = dir[i].Times(1 / dir[i].Size())
	}
	h.pulls(s, f, dir)
	return h, true
}

// Swing gives by what angle, in radians, the load can swing out of the middle of a
// level bridge before the ring slips, and what the legs carry then, the higher
// first: tan(delta) = tan(phi)·tanh(mu·turn/2), sin phi = S/L. Derived from the
// same two laws.
func Swing(apart, long, force, mu float64) (delta float64, legs [2]float64, err error) {
	if err = first(length("the distance between the points", apart), length("the length of the bridge", long), load("the load", force), friction(mu)); err != nil {
		return 0, legs, err
	}
	if long <= apart {
		return 0, legs, bad("the length of the bridge", "is not more than the distance between its points", "measure both again")
	}
	phi := num.Asin(apart / long)
	e := num.Exp(float64(mu * (math.Pi - float64(2*phi)))) // tanh(z/2) = (e^z - 1)/(e^z + 1)
	delta = num.Atan(float64(num.Tan(phi) * ((e - 1) / (e + 1))))
	whole := num.Sin(2 * phi)
	legs = [2]float64{float64(force*num.Sin(phi+delta)) / whole, float64(force*num.Sin(phi-delta)) / whole}
	return delta, legs, nil
}
