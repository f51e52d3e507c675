// Package fused is what the check for fused instructions is tried on: the first
// four functions are compiled to a fused instruction where the machine has one,
// the last three are not.
package fused

func Plain(a, b, c float64) float64 { return a*b + c }

func AcrossStatements(a, b, c float64) float64 {
	t := a * b
	return t + c
}

func ThroughInlining(a, b, c float64) float64 { return product(a, b) + c }

func product(a, b float64) float64 { return a * b }

func StoredThenSummed(v *[2]float64, a, b float64) float64 {
	v[0] = a * b
	return v[0] + v[1]
}

func Wrapped(a, b, c float64) float64 { return float64(a*b) + c }

func WrappedAcrossStatements(a, b, c float64) float64 {
	t := float64(a * b)
	return t + c
}

func OnlySum(a, b, c float64) float64 { return a + b + c }
