package doubt

// Miss gives the chance that a link of strength q fires for none of several
// persons who looked with qualities kappas: beta of what they miss they miss
// together, the rest each on their own,
//
//	beta·(1 − max κ·q) + (1 − beta)·Π (1 − κ_j·q).
//
// With one person, or beta = 1, it is 1 − max κ·q; with none it is 1.
func Miss(kappas []float64, beta, q float64) float64 {
	best, prod := 0.0, 1.0
	for _, k := range kappas {
		best = max(best, k)
		prod *= 1 - float64(k*q)
	}
	if len(kappas) <= 1 {
		return 1 - float64(best*q)
	}
	return float64(beta*(1-float64(best*q))) + float64((1-beta)*prod)
}
