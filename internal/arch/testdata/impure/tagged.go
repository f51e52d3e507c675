//go:build !windows // bad: machine

package impure // bad: machine

//go:noescape // bad: machine
func outside(x float64) float64
