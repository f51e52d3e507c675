package num

import (
	"math"
	"testing"
)

var sink float64

func benchArgs(lo, hi float64) []float64 {
	r := stream(5)
	v := make([]float64, 1024)
	for i := range v {
		v[i] = r.between(lo, hi)
	}
	return v
}

// The pairs are read as ratios: ours to Go's own on the same machine.
func BenchmarkExp(b *testing.B) { versus(b, benchArgs(-50, 50), Exp, math.Exp) }
func BenchmarkLog(b *testing.B) { versus(b, benchArgs(0, 50), Log, math.Log) }
func BenchmarkPow(b *testing.B) {
	versus(b, benchArgs(0, 50), func(x float64) float64 { return Pow(x, -3.7) }, func(x float64) float64 { return math.Pow(x, -3.7) })
}

func versus(b *testing.B, args []float64, ours, theirs func(float64) float64) {
	for _, c := range []struct {
		name string
		f    func(float64) float64
	}{{"num", ours}, {"math", theirs}} {
		b.Run(c.name, func(b *testing.B) {
			i := 0
			for b.Loop() {
				sink = c.f(args[i&1023])
				i++
			}
		})
	}
}

func BenchmarkStudentT(b *testing.B) {
	args := benchArgs(-5, 5)
	i := 0
	for b.Loop() {
		sink = StudentT(args[i&1023], 1+i%30)
		i++
	}
}
