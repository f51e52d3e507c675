package rope

// Warm is what a descent or slip does to a metal part.
type Warm struct {
	Heat float64 // set free by friction, J
	Rise float64 // of the part's mean temperature, K: a bound from above, for nothing cools
}

// Descent gives the heat that a mass of m kg sets free going down by h metres and
// the rise of the mean temperature of a part of so many kg and specific heat c in
// J/(kg K), a share of the heat going into it: Q = m g h, dT = share Q/(part c).
// No cooling: a bound for the mean of the part, and no bound for the spot the fibre
// runs on: a glazed spot proves melting there whatever the mean says.
func Descent(m, h, part, c, share float64) (Warm, error) {
	err := first(mass("the mass", m), length("the height", h), mass("the mass of the part", part),
		within("the specific heat", c, 0, 20_000, "give it in J/(kg K); aluminium has 900"),
		within("the share of the heat", share, -1e-300, 1, "give a share from 0 to 1"))
	if err != nil {
		return Warm{}, err
	}
	q := float64(float64(m*Gravity) * h)
	return Warm{q, float64(share*q) / float64(part*c)}, nil
}
