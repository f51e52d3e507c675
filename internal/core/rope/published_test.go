package rope

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"kernbook/internal/core/num"
)

type values map[string]float64

// row is a line of testdata/published/rope.
type row struct {
	at    string // file and line
	test  string
	given values
	want  values
	words map[string]string // given ones that are no numbers
	tol   float64
	abs   bool
	trap  bool
}

// read takes a file of values apart: "case, given, wanted, tolerance, mark".
func read(t *testing.T, path string) []row {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var out []row
	for i, line := range strings.Split(string(b), "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		r := row{at: fmt.Sprintf("%s:%d", filepath.Base(path), i+1), given: values{}, want: values{}, words: map[string]string{}}
		f := strings.Split(line, ",")
		if len(f) != 5 {
			t.Fatalf("%s: %d fields", r.at, len(f))
		}
		r.test = strings.TrimSpace(f[0])
		for k, into := range []values{r.given, r.want} {
			for _, pair := range strings.Fields(f[1+k]) {
				name, v, ok := strings.Cut(pair, "=")
				x, err := strconv.ParseFloat(v, 64)
				switch {
				case ok && err != nil && k == 0:
					r.words[name] = v
				case !ok || err != nil:
					t.Fatalf("%s: %q", r.at, pair)
				default:
					into[name] = x
				}
			}
		}
		tol := strings.TrimSpace(f[3])
		if rest, ok := strings.CutPrefix(tol, "abs "); ok {
			tol, r.abs = rest, true
		}
		if r.tol, err = strconv.ParseFloat(tol, 64); err != nil {
			t.Fatalf("%s: tolerance %q", r.at, tol)
		}
		mark := strings.TrimSpace(f[4])
		switch r.trap = mark == "TRAP"; {
		case !r.trap && !strings.HasPrefix(mark, "SEEN") && !strings.HasPrefix(mark, "DER") && !strings.HasPrefix(mark, "MEM"):
			t.Fatalf("%s: mark %q", r.at, mark)
		}
		if len(r.want) == 0 {
			t.Fatalf("%s wants nothing", r.at)
		}
		out = append(out, r)
	}
	return out
}

// TestPublished holds every value of testdata/published/rope: within its tolerance,
// and, where it is a known error of its source, outside of it.
func TestPublished(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/published/rope/*.csv")
	if err != nil || len(files) < 9 {
		t.Fatalf("%d files of values, %v", len(files), err)
	}
	met := map[string]int{}
	for _, file := range files {
		for _, r := range read(t, file) {
			f := cases[r.test]
			if f == nil {
				t.Errorf("%s: no such case: %s", r.at, r.test)
				continue
			}
			met[r.test]++
			got, err := f(r)
			if err != nil {
				t.Errorf("%s: %v", r.at, err)
				continue
			}
			for name, want := range r.want {
				have, ok := got[name]
				if !ok {
					t.Errorf("%s: nothing gives %s", r.at, name)
					continue
				}
				off := math.Abs(have - want)
				if !r.abs {
					off /= math.Max(math.Abs(want), 1e-300)
				}
				if in := off <= r.tol; in == r.trap {
					t.Errorf("%s: %s is %.10g, the source has %.10g (off by %.3g, held is %g, trap %v)", r.at, name, have, want, off, r.tol, r.trap)
				}
			}
		}
	}
	for name := range cases {
		if met[name] == 0 {
			t.Errorf("no file has a case %q", name)
		}
	}
}

const deg = math.Pi / 180

// level is a bridge between points one above the other's level, loaded downwards.
func level(apart, higher, long float64) Span {
	return Span{B: Vec{X: apart, Y: higher}, Length: long, Along: Vec{Y: -1}}
}

func tension(apart, long, force float64) (values, error) {
	h, err := level(apart, 0, long).Rest(force)
	return values{"T": h.Tension[0], "H": h.Inward[0]}, err
}

var cases = map[string]func(row) (values, error){
	"level": func(r row) (values, error) { // a rope whose legs lie so far below the level
		return tension(num.Cos(r.given["angle"]*deg), 1, r.given["weight"])
	},
	"wire": func(r row) (values, error) {
		half := r.given["wire"] / 2
		return tension(2*math.Sqrt(half*half-r.given["sag"]*r.given["sag"]), r.given["wire"], r.given["weight"])
	},
	"span":    span,
	"notspan": span,
	"heat": func(r row) (values, error) { // a fall of that energy
		w, err := Descent(r.given["joules"]/(100*Gravity), 100, r.given["part"], r.given["c"], 1)
		return values{"rise": w.Rise}, err
	},
	"pulley": func(r row) (values, error) {
		// The sheet's A is the lower point.
		h, err := level(r.given["apart"], r.given["higher"], r.given["long"]).Rest(r.given["load"])
		return values{"T": h.Tension[0], "x": h.Ring.X, "theta": 90 - h.Angle[0]/deg, "r1": h.Leg[0], "r2": h.Leg[1], "drop": -h.Ring.Y}, err
	},
	"wrap": func(r row) (values, error) {
		c, err := Capstan(r.given["mu"], r.given["turn"]*deg)
		return values{"F": r.given["pull"] / c}, err
	},
	"raise":    raise,
	"notraise": raise,
	"ratio": func(r row) (values, error) {
		c, err := Capstan(r.given["mu"], r.given["turn"]*deg)
		return values{"ratio": c, "hand": 100 / c}, err
	},
	"mu": func(r row) (values, error) {
		mu, err := Mu(r.given["raise"], r.given["lower"], r.given["turn"]*deg)
		return values{"mu": mu}, err
	},
	"between": func(r row) (values, error) {
		return tension(num.Sin(r.given["psi"]*deg/2), 1, 1)
	},
	"ratio of length": func(r row) (values, error) {
		h, err := level(1, 0, r.given["LS"]).Rest(1)
		return values{"sag": -h.Ring.Y, "theta": 90 - h.Angle[0]/deg, "T": h.Tension[0], "H": h.Inward[1]}, err
	},
	"tilted": func(r row) (values, error) {
		sin, cos := num.SinCos(r.given["delta"] * deg)
		s := Span{B: Vec{X: r.given["S"], Y: r.given["h"]}, Length: r.given["L"], Along: Vec{X: sin, Y: -cos}}
		h, err := s.Rest(r.given["W"])
		return values{"T": h.Tension[1], "r1": h.Leg[0], "r2": h.Leg[1], "x": h.Ring.X, "y": h.Ring.Y, "psi": h.Between / deg, "phi": h.Angle[0] / deg, "beta": h.Turn / deg}, err
	},
	"space": func(r row) (values, error) {
		sin, cos := num.SinCos(r.given["swing"] * deg)
		s := Span{B: Vec{r.given["bx"], r.given["by"], r.given["bz"]}, Length: r.given["L"], Along: Vec{0, sin, -cos}}
		f, err := s.flat()
		if err != nil {
			return nil, err
		}
		h, err := s.Rest(r.given["W"])
		return values{"apart": f.apart, "lower": f.lower, "phi": h.Angle[0] / deg, "T": h.Tension[0], "r1": h.Leg[0], "r2": h.Leg[1]}, err
	},
	"stretched": func(r row) (values, error) {
		h, long, err := level(r.given["S"], 0, r.given["L"]).Stretched(r.given["W"], r.given["M"])
		return values{"L": long, "T": h.Tension[0]}, err
	},
	"swing": func(r row) (values, error) {
		d, legs, err := Swing(r.given["S"], r.given["L"], r.given["W"], r.given["mu"])
		h, _ := level(r.given["S"], 0, r.given["L"]).Rest(r.given["W"])
		return values{"phi": h.Angle[0] / deg, "beta": h.Turn / deg, "ratio": legs[0] / legs[1], "delta": d / deg, "T0": legs[0], "T1": legs[1]}, err
	},
	"stuck": func(r row) (values, error) {
		h, err := level(r.given["S"], 0, r.given["L"]).Stuck(r.given["W"], r.given["mu"])
		e := h.Ends[0]
		return values{"x": e.Ring.X, "y": e.Ring.Y, "r1": e.Leg[0], "T0": e.Tension[0], "T1": e.Tension[1], "beta": e.Turn / deg}, err
	},
	"static": func(r row) (values, error) {
		m, err := FromStretch(r.given["share"])
		return values{"M": m.EA}, err
	},
	"impact": func(r row) (values, error) {
		m, err := FromImpact(r.given["F0"], r.given["m0"], r.given["f0"])
		return values{"M": m.EA}, err
	},
	"fall": fall, "notfall": fall,
	"forum": func(r row) (values, error) {
		// The forum's own constants: 9.8 for g, and 1.396 for 80·9.8·1.78/1000.
		k := r.given["K"]
		ea := Modulus{EA: 1000 * k * (k - 1.568) / 1.396 / 2}
		m := r.given["lb"] * 0.4536 * 9.8 / Gravity
		f, _, err := Spring(m, r.given["f"], 1, ea.EA)
		return values{"F": f / 1000}, err
	},
	"speed": func(r row) (values, error) { return values{"v": math.Sqrt(2 * Gravity * r.given["height"])}, nil },
	"back": func(r row) (values, error) {
		// The modulus at which the model gives the force that was seen.
		m, ok := num.Root(func(ea float64) float64 {
			f, _, err := Spring(r.given["m"], r.given["f"], 1, ea)
			if err != nil {
				return math.NaN()
			}
			return f - r.given["F"]
		}, 1000, 1e6)
		if !ok {
			return nil, fmt.Errorf("no modulus gives that force")
		}
		return values{"M": m}, nil
	},
	"descent": func(r row) (values, error) {
		w, err := Descent(r.given["m"], r.given["h"], r.given["part"], r.given["c"], r.given["share"])
		return values{"Q": w.Heat, "rise": w.Rise}, err
	},
	"overhang": overhung, "tip": overhung, "half": overhung,
	"notpeirce": func(r row) (values, error) { return values{"c": Peirce(1, r.given["th"]*deg)}, nil },
	"stiffness": func(r row) (values, error) {
		o, err := Cantilever(r.given["l"], r.given["th"]*deg, r.given["q"])
		return values{"B": o.B}, err
	},
	"flatloop": func(row) (values, error) {
		y, _, ok := loop(0, weightless)
		if !ok {
			return nil, fmt.Errorf("no loop")
		}
		return values{"l0": y}, nil
	},
	"heart": func(r row) (values, error) {
		o, err := HeartLoop(1, r.given["l"], 0.08)
		return values{"c": o.Length}, err
	},
	"jaws": func(r row) (values, error) {
		d := math.Sqrt(2*jaw*jaw*r.given["B"]/r.given["F"]) + 0.011
		b, err := Jaws(r.given["F"], d, 0.011)
		return values{"D": d - 0.011, "R": b.Tightest}, err
	},
	"pinch": func(r row) (values, error) {
		b, err := Pinch(1, r.given["D"], 1)
		return values{"height": b.Depth, "curve": 1 / b.Tightest, "Fl2B": 1 / b.B}, err
	},
	"packing": func(r row) (values, error) {
		p, err := Packing(r.given["q"], r.given["d"], r.given["rho"])
		return values{"phi": p}, err
	},
	"oval": func(r row) (values, error) {
		short := r.given["b"]
		long, err := Longer(short, 1)
		if err != nil {
			return nil, err
		}
		same, err := Callipers(short, long)
		if err != nil {
			return nil, err
		}
		area, err := Callipers(short, 1/short) // equal area
		return values{"long": long, "area": same.Area / (math.Pi / 4), "mean": same.Mean, "longsame": area.Round * area.Round / short, "tape": area.Around}, err
	},
	"sheath": func(r row) (values, error) {
		s, err := LeastSheath(r.given["d"] / 1000)
		return values{"percent": 100 * s}, err
	},
	"slip": func(r row) (values, error) {
		s, err := MostSlip(true, r.given["d"]/1000)
		return values{"mm": 1000 * s}, err
	},
	"tension": func(r row) (values, error) {
		n, err := Reference(map[string]Tension{"iso": ISO2307, "cord": CordageInst}[r.words["rule"]], r.given["d"]/1000)
		return values{"N": n}, err
	},
	"strain": func(r row) (values, error) {
		e, err := FibreStrain(r.given["D"], 1)
		return values{"e": e}, err
	},
	"knot": func(r row) (values, error) {
		k, err := Knotability(r.given["inner"]/1000, r.given["d"]/1000)
		return values{"K": k}, err
	},
}

func span(r row) (values, error) {
	half, sag := r.given["span"]/2, r.given["sag"]
	return tension(2*half, 2*math.Sqrt(half*half+sag*sag), r.given["weight"])
}

func raise(r row) (values, error) {
	// What raises and what holds stand in the square of the ratio; the load is between.
	mu, err := Mu(r.given["load"], r.given["hold"], r.given["turn"]*deg/2)
	if err != nil {
		return nil, err
	}
	c, err := Capstan(mu, r.given["turn"]*deg)
	return values{"mu": mu, "F": r.given["load"] * c}, err
}

func fall(r row) (values, error) {
	f, x, err := Spring(r.given["m"], r.given["f"], 1, r.given["M"])
	return values{"F": f, "x": x}, err
}

func overhung(r row) (values, error) {
	const q = 0.08
	o, err := Cantilever(1, r.given["th"]*deg, q)
	return values{"lambda": o.Weight, "c": o.Length, "peirce": Peirce(1, r.given["th"]*deg), "slope": o.Tip / deg}, err
}
