package rope

import (
	"math"

	"kernbook/internal/core/num"
)

// hang follows the right half of a heart loop of length 1 from its lowest point up to
// the clamp, in units of length and of B. lambda is w L³/B, h the pull along the level
// at the lowest point, rate the curvature there. The moment of the cut gives
// theta″ = h sin theta - lambda s cos theta.
func hang(lambda, rate, h float64) state { return follow(lambda, rate, h, nil) }

// follow is hang that shows each state it comes through to see, if there is one.
func follow(lambda, rate, h float64, see func(state)) state {
	const steps = 400
	const step = 0.5 / steps
	slope := func(s float64, o state) state {
		sin, cos := num.SinCos(o.angle)
		return state{o.rate, float64(h*sin) - float64(float64(lambda*s)*cos), cos, sin}
	}
	o := state{rate: rate}
	for i := range steps {
		o = o.step(slope, float64(float64(i)*step), step)
		if see != nil {
			see(o)
		}
	}
	return o
}

// HeartShape gives the right half of a hanging loop of a length in metres, from its
// lowest point up to the clamp: places along the level and up from there. weight is
// w L³/B, as HeartLoop gives it. It gives none where the shape is not found.
func HeartShape(long, weight float64) []Vec {
	from := weightless
	for at := 0.0; ; at += 5 {
		at = min(at, weight)
		_, p, ok := loop(at, from)
		if !ok || !(weight <= mostLambda) {
			return nil
		}
		if from = p; at == weight {
			break
		}
	}
	out := []Vec{{}}
	follow(weight, from[0], from[1], func(o state) { out = append(out, Vec{X: float64(o.x * long), Y: float64(o.y * long)}) })
	return out
}

// loop gives the height of a heart loop of length 1 between clamp and lowest point,
// and the state it was found from: the half loop must come down into the clamp, on
// the middle line. Newton's rule on the two unknowns, from a guess nearby.
func loop(lambda float64, guess [2]float64) (height float64, found [2]float64, ok bool) {
	p := guess
	miss := func(p [2]float64) (state, [2]float64) {
		o := hang(lambda, p[0], p[1])
		return o, [2]float64{o.angle - 3*math.Pi/2, o.x}
	}
	for range 60 {
		o, m := miss(p)
		if math.Abs(m[0])+math.Abs(m[1]) < 1e-12 {
			return o.y, p, true
		}
		const eps = 1e-6
		_, a := miss([2]float64{p[0] + eps, p[1]})
		_, b := miss([2]float64{p[0], p[1] + eps})
		j00, j01, j10, j11 := (a[0]-m[0])/eps, (b[0]-m[0])/eps, (a[1]-m[1])/eps, (b[1]-m[1])/eps
		det := float64(j00*j11) - float64(j01*j10)
		if det == 0 || math.IsNaN(det) {
			return 0, p, false
		}
		d0 := (float64(m[0]*j11) - float64(m[1]*j01)) / det
		d1 := (float64(m[1]*j00) - float64(m[0]*j10)) / det
		if size := max(math.Abs(d0)/5, math.Abs(d1)/50); size > 1 {
			d0, d1 = d0/size, d1/size
		}
		p[0], p[1] = p[0]-d0, p[1]-d1
	}
	return 0, p, false
}

// The state of the loop without weight, from which those with weight are reached
// step by step; loop finds it again to the last digits.
var weightless = [2]float64{5.11170975331, 35.2421104391}

// mostLambda is the largest weight taken, w L³/B; beyond it the loop touches itself.
const mostLambda = 150

// HeartLoop gives the bending stiffness of a strip or rope of q kg/m whose two ends
// are clamped together, both leaving the clamp upwards, so that it hangs in the form
// of a heart: long is the length from clamp to clamp, deep how far the lowest point
// lies below the clamp, both in metres. It is the heavy elastica itself; Peirce's
// formula for the same loop (ASTM D1388 option B, from memory) lies within 8 % of
// it. The loop of a stiff rope hardly gives way: then it is refused.
func HeartLoop(long, deep, q float64) (Overhang, error) {
	err := first(length("the length of the loop", long), length("the height of the loop", deep), within("the mass per metre", q, 0, 100, "give it in g/m, such as “79 g/m”"))
	if err != nil {
		return Overhang{}, err
	}
	share := deep / long
	y, p, ok := loop(0, weightless)
	if !ok {
		return Overhang{}, bad("the loop", "could not be worked out", "use the overhang instead")
	}
	if share < y+0.0005 {
		return Overhang{}, bad("the height of the loop", "is that of a rope that its own weight does not bend (0.134 of the length), so nothing can be told from it", "use a longer loop, or the overhang")
	}
	lo, from := 0.0, p
	for at := 5.0; ; at += 5 {
		if at > mostLambda {
			return Overhang{}, bad("the height of the loop", "is more than the weight of the rope can make it", "measure from the clamp to the lowest point, and use a shorter loop")
		}
		y, p, ok = loop(at, from)
		if !ok {
			return Overhang{}, bad("the loop", "could not be worked out", "use the overhang instead")
		}
		if y >= share {
			break
		}
		lo, from = at, p
	}
	lambda, ok := num.Root(func(l float64) float64 {
		y, _, ok := loop(l, from)
		if !ok {
			return math.NaN()
		}
		return y - share
	}, lo, lo+5)
	if !ok {
		return Overhang{}, bad("the loop", "could not be worked out", "use the overhang instead")
	}
	b := float64(float64(q*Gravity)*float64(float64(long*long)*long)) / lambda
	return Overhang{B: b, Length: long * num.Pow(lambda, -1.0/3), Weight: lambda}, nil
}
