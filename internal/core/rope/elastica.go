package rope

// state is where an elastica is followed to: the angle of its tangent to the level,
// the rate of that, and the place.
type state struct{ angle, rate, x, y float64 }

func (o state) plus(d state, k float64) state {
	return state{o.angle + float64(k*d.angle), o.rate + float64(k*d.rate), o.x + float64(k*d.x), o.y + float64(k*d.y)}
}

// step follows an elastica from s by h, by the classical rule of Runge and Kutta.
func (o state) step(slope func(s float64, o state) state, s, h float64) state {
	half := float64(h * 0.5)
	a := slope(s, o)
	b := slope(s+half, o.plus(a, half))
	c := slope(s+half, o.plus(b, half))
	d := slope(s+h, o.plus(c, h))
	return o.plus(a.plus(b, 2).plus(c, 2).plus(d, 1), h/6)
}
