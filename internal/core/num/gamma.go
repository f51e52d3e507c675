package num

import "math"

// LogGamma returns the logarithm of the gamma function of x > 0: Stirling's series
// from x = 16 on, below it the recurrence up to there. Absolute error below 1e-13,
// or that relative to the result where it is large. NaN for x of 0 or less.
func LogGamma(x float64) float64 {
	if !(x > 0) {
		return nan()
	}
	if math.IsInf(x, 1) {
		return x
	}
	product := 1.0
	for x < 16 {
		product *= x
		x++
	}
	z := 1 / float64(x*x)
	s := taylor(z, 1.0/12, -1.0/360, 1.0/1260, -1.0/1680, 1.0/1188, -691.0/360360, 1.0/156) / x
	const half = 0.91893853320467274178 // log(2π)/2
	return float64((x-0.5)*Log(x)) - x + half + s - Log(product)
}

// GammaTail returns the regularised upper incomplete gamma function Q(a, x), a > 0,
// x ≥ 0: by its series below a+1, by Lentz's continued fraction beyond (Abramowitz
// and Stegun 6.5.29 and 6.5.31, from memory). The chance that chi-squared with f
// degrees of freedom is above c is GammaTail(f/2, c/2). NaN outside its arguments.
func GammaTail(a, x float64) float64 {
	switch {
	case !(a > 0) || !(x >= 0):
		return nan()
	case x == 0:
		return 1
	case math.IsInf(x, 1):
		return 0
	}
	front := Exp(float64(a*Log(x)) - x - LogGamma(a))
	if x < a+1 {
		t := 1 / a
		s := t
		for k := 1.0; t > float64(s*1e-17); k++ {
			t = float64(t*x) / (a + k)
			s += t
		}
		return 1 - float64(front*s)
	}
	return float64(front * lentz(func(k float64) (num, den float64) {
		if k == 0 {
			return 1, x + 1 - a
		}
		return -float64(k * (k - a)), x + float64(2*k) + 1 - a
	}))
}

// BetaPart returns the regularised incomplete beta function I_x(a, b), a, b > 0,
// 0 ≤ x ≤ 1, by its continued fraction (Abramowitz and Stegun 26.5.8, from
// memory). NaN outside its arguments.
func BetaPart(x, a, b float64) float64 {
	switch {
	case !(a > 0) || !(b > 0) || !(x >= 0 && x <= 1):
		return nan()
	case x == 0 || x == 1:
		return x
	case x > (a+1)/(a+b+2):
		return 1 - BetaPart(1-x, b, a)
	}
	front := Exp(float64(a*Log(x))+float64(b*Log(1-x))+LogGamma(a+b)-LogGamma(a)-LogGamma(b)) / a
	return float64(front * lentz(func(k float64) (num, den float64) {
		if k == 0 {
			return 1, 1
		}
		m := math.Floor(k / 2)
		if k == float64(2*m) {
			return float64(float64(m*(b-m))*x) / float64((a+k-1)*(a+k)), 1
		}
		return -float64(float64((a+m)*(a+b+m))*x) / float64((a+k-1)*(a+k)), 1
	}))
}

// lentz works out the continued fraction num(0)/(den(0) + num(1)/(den(1) + …))
// (W. J. Lentz, Applied Optics 15, 1976, from memory).
func lentz(term func(k float64) (num, den float64)) float64 {
	const tiny = 1e-300
	n, d := term(0)
	if d == 0 {
		d = tiny
	}
	f := n / d
	c, r := d, 0.0
	for k := 1.0; k < 10_000; k++ {
		n, d = term(k)
		if r = d + float64(n*r); r == 0 {
			r = tiny
		}
		if c = d + n/c; c == 0 {
			c = tiny
		}
		r = 1 / r
		step := float64(c * r)
		f = f / step
		if math.Abs(step-1) < 4e-16 {
			break
		}
	}
	return f
}

// StudentTail returns the chance that Student's t with f > 0 degrees of freedom is
// above t.
func StudentTail(t, f float64) float64 {
	if math.IsNaN(t) || !(f > 0) {
		return nan()
	}
	half := float64(BetaPart(f/(f+float64(t*t)), f/2, 0.5) * 0.5)
	if t < 0 {
		return 1 - half
	}
	return half
}

// FisherTail returns the chance that Fisher's F with f1 and f2 > 0 degrees of
// freedom is above x ≥ 0.
func FisherTail(x, f1, f2 float64) float64 {
	if !(x >= 0) || !(f1 > 0) || !(f2 > 0) {
		return nan()
	}
	return BetaPart(f2/(f2+float64(f1*x)), f2/2, f1/2)
}

// StudentQuantile returns the t that Student's t with f degrees of freedom lies
// above with chance p, 0 < p < 1.
func StudentQuantile(p, f float64) float64 {
	if !(p > 0 && p < 1) || !(f > 0) {
		return nan()
	}
	if p > 0.5 {
		return -StudentQuantile(1-p, f)
	}
	x, ok := Root(func(u float64) float64 { return StudentTail(u/(1-u), f) - p }, 0, 1-1e-12)
	if !ok {
		return math.Inf(1)
	}
	return x / (1 - x)
}

// ChiSquaredQuantile returns the c that chi-squared with f degrees of freedom lies
// above with chance p, 0 < p < 1.
func ChiSquaredQuantile(p, f float64) float64 {
	if !(p > 0 && p < 1) || !(f > 0) {
		return nan()
	}
	x, ok := Root(func(u float64) float64 { return GammaTail(f/2, float64(f*u/(1-u))/2) - p }, 0, 1-1e-12)
	if !ok {
		return math.Inf(1)
	}
	return float64(f*x) / (1 - x)
}
