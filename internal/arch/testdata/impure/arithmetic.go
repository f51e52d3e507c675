package impure

import (
	"math"
	. "math"
	other "math"
)

type metres float64

const half = 0.5

func arithmetic[F ~float32 | ~float64, I ~int](a, b, c float64, m metres, f F, i I) float64 {
	x := a*b + c                    // bad: product
	x = c - a*b                     // bad: product
	x = a*b - b*c                   // bad: product product
	x = -(a * b) + c                // bad: product
	x += a * b                      // bad: product
	x -= (a * 2)                    // bad: product
	m = m*m + 1                     // bad: product
	f = f*f + 1                     // bad: product
	x += math.Exp(a)                // bad: math
	x += other.Pow(a, b)            // bad: math
	x += Log(a)                     // bad: math
	x += math.FMA(a, b, c)          // bad: math
	g := math.Sin                   // bad: math
	x += g(math.Pi) + math.Gamma(2) // bad: math
	return x + float64(m) + float64(f)
}

func arithmeticWell[I ~int](a, b, c float64, m metres, i I, n int) float64 {
	x := float64(a*b) + c
	x += float64(a * b)
	x -= 2 * half
	x = half*2 + a
	x = a * b / c
	x = (a + b) * c
	x = a/b + c
	m = metres(m*m) + 1
	i += i * i
	n = n*n + n
	x += math.Sqrt(a) + math.Floor(b) + math.Abs(c) + Inf(1) + other.MaxFloat64
	return x + float64(m) + float64(i) + float64(n)
}
