package qty

import "math"

// Temp is a temperature in tenths of a degree Celsius.
type Temp int32

// DegreeC is one degree Celsius.
const DegreeC Temp = 10

// absoluteZero is -273.15 °C rounded half to even to whole tenths.
const absoluteZero = -2732

var temps = measure{"a temperature", "°C, °F", "60 °C", []unit{
	{10, 1, []string{"°C", "C", "ºC", "degC"}},
	{50, 9, []string{"°F", "F", "ºF", "degF"}},
}}

// ParseTemp reads a temperature typed with °C (C) or °F (F), rounded half to
// even to a tenth of a degree Celsius. Below absolute zero is refused.
func ParseTemp(s string) (Temp, error) {
	n, u, e := temps.read(s)
	if e != nil {
		return 0, e
	}
	if u.div == 9 {
		n = n.less(32)
	}
	v, _, ok := n.times(u.mul, u.div)
	if !ok || v > math.MaxInt32 {
		return 0, refuse(s, "is too large", temps.mend())
	}
	if v < absoluteZero {
		return 0, refuse(s, "is colder than anything can be", temps.mend())
	}
	return Temp(v), nil
}

// less gives n − k.
func (n number) less(k uint64) number {
	switch k *= n.den; {
	case n.neg:
		n.num += k
	case n.num >= k:
		n.num -= k
	default:
		n.num, n.neg = k-n.num, true
	}
	return n
}

// String gives the temperature exactly: "60 °C", "-5.5 °C".
func (t Temp) String() string { return decimal(int64(t), 1) + " °C" }

// Celsius gives the temperature in degrees Celsius.
func (t Temp) Celsius() float64 { return float64(t) / 10 }
