package bench

import (
	"math"
	"strconv"
)

// Round says which way a figure is rounded for printing.
type Round string

// The ways: loads up, strengths down, what is neither to the nearest.
const (
	Near Round = "near"
	Up   Round = "up"
	Down Round = "down"
)

// Unit is the unit of a figure, in the SI.
type Unit string

// The units.
const (
	Newton    Unit = "N"
	Metre     Unit = "m"
	Radian    Unit = "rad"
	Part      Unit = "share"
	One       Unit = "1"
	Stiffness Unit = "N m²"
	Joule     Unit = "J"
	Kelvin    Unit = "K"
	Celsius   Unit = "°C"
	Area      Unit = "m²"
)

// Figure is one figure of a sheet: a value, or a range from Low to High. High is NaN
// where the upper end is not told.
type Figure struct {
	Key       string
	Of        string // what it is of, where the same figure stands several times: words of the tables, or ""
	Unit      Unit
	Ranged    bool
	Value     float64
	Low, High float64
	Round     Round
	Lines     []string
}

// Open says that the figure is a range whose upper end is not told.
func (f *Figure) Open() bool { return f.Ranged && math.IsNaN(f.High) }

// Shown gives the figure as printed: value, or low and high ("" where not told).
func (f *Figure) Shown() (value, low, high string) {
	if !f.Ranged {
		return Print(f.Value, f.Unit, f.Round), "", ""
	}
	if !f.Open() {
		high = Print(f.High, f.Unit, f.Round)
	}
	down := f.Round
	if down == Up {
		down = Down // a range of loads is widened at both ends
	}
	return "", Print(f.Low, f.Unit, down), high
}

// Note is a sentence of a sheet: its key, its values, and the lines it rests on.
type Note struct {
	Key   string
	Args  [][2]string
	Lines []string
}

// Series is a table of a sheet: how one thing goes with another.
type Series struct {
	Key     string
	Columns []string // keys
	Units   []Unit
	Rounds  []Round
	Rows    [][]float64
}

// Given is one field as it was taken.
type Given struct {
	Name, Typed string
	Usual       bool // not typed: the usual value
}

// Sheet is what a calculator gives.
type Sheet struct {
	Calculator string
	Given      []Given
	Figures    []Figure
	Series     *Series
	Notes      []Note
	Cautions   []Note
	Scene      *Scene
	Bars       *Bars
}

// Figure gives the first figure with that key, or nil.
func (s *Sheet) Figure(key string) *Figure {
	for i := range s.Figures {
		if s.Figures[i].Key == key {
			return &s.Figures[i]
		}
	}
	return nil
}

// Fault is one thing wrong with a field; Field is "" where no single one is meant.
type Fault struct {
	Field string
	Says  string // a sentence: what is wrong, and how to mend it
}

// printed says how a unit is printed: up to which value in which multiple of it,
// with how many decimals.
var printed = map[Unit][]struct {
	below    float64
	times    float64
	decimals int
	name     string
}{
	Newton:    {{10, 1, 2, " N"}, {1000, 1, 0, " N"}, {math.Inf(1), 1e-3, 2, " kN"}},
	Metre:     {{0.1, 1e3, 2, " mm"}, {1, 1e3, 1, " mm"}, {math.Inf(1), 1, 3, " m"}},
	Radian:    {{math.Inf(1), 180 / math.Pi, 1, "°"}},
	Part:      {{math.Inf(1), 100, 1, " %"}},
	One:       {{10, 1, 3, ""}, {math.Inf(1), 1, 1, ""}},
	Stiffness: {{1e-3, 1e4, 3, " N cm²"}, {math.Inf(1), 1e4, 2, " N cm²"}},
	Joule:     {{1000, 1, 0, " J"}, {math.Inf(1), 1e-3, 2, " kJ"}},
	Kelvin:    {{math.Inf(1), 1, 1, " K"}},
	Celsius:   {{math.Inf(1), 1, 0, " °C"}},
	Area:      {{math.Inf(1), 1e6, 1, " mm²"}},
}

// Print prints a value with its unit, rounded the given way. What lies within a
// billionth of a printed value counts as that.
func Print(v float64, u Unit, r Round) string {
	for _, p := range printed[u] {
		if !(math.Abs(v) < p.below) {
			continue
		}
		scale := 1.0
		for range p.decimals {
			scale *= 10
		}
		x := float64(v * p.times * scale)
		slack := 1e-9 * max(1, math.Abs(x))
		switch r {
		case Up:
			x = math.Ceil(x - slack)
		case Down:
			x = math.Floor(x + slack)
		default:
			x = math.Round(x)
		}
		if x == 0 {
			x = 0 // no minus before nought
		}
		s := strconv.FormatFloat(x/scale, 'f', p.decimals, 64)
		return s + p.name
	}
	return strconv.FormatFloat(v, 'g', 6, 64)
}
