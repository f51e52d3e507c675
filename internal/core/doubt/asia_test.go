package doubt_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"kernbook/internal/core/doubt"
)

// The "Asia" network of Lauritzen and Spiegelhalter (1988): its table values
// SEEN in public files of the network (testdata/published/asia/net.json), the
// published marginals from memory and reproduced by the full joint and by a
// join tree to six digits.
//
// The engine's structure allows it in part: "either" is no noisy-OR of lung
// and tub with an extra cause, and "dyspnoea" is none of "either" and
// bronchitis. So smoking and bronchitis (and a visit to Asia, when it is not
// given) are gone through one by one outside; lung and tub are one mode with
// four joint states; X-ray and dyspnoea are signs with that mode as parent and
// a leak. What is seen goes through See, what is not through the unseen factor.

// asiaNet holds the tables, yes first.
type asiaNet struct {
	asia, smoke            float64
	tub, lung, bronc, xray [2]float64    // given the parent: yes, no
	dysp                   [2][2]float64 // given bronc, either
}

func readAsia(t testing.TB) *asiaNet {
	t.Helper()
	b, err := os.ReadFile("../../../testdata/published/asia/net.json")
	if err != nil {
		t.Fatal(err)
	}
	var raw map[string]struct {
		CPT json.RawMessage `json:"cpt"`
	}
	if err := json.Unmarshal(b, &raw); err != nil {
		t.Fatal(err)
	}
	n := &asiaNet{}
	root := func(name string) float64 {
		var v [2]float64
		if err := json.Unmarshal(raw[name].CPT, &v); err != nil {
			t.Fatal(name, err)
		}
		return v[0]
	}
	one := func(name string) (out [2]float64) {
		var v [2][2]float64
		if err := json.Unmarshal(raw[name].CPT, &v); err != nil {
			t.Fatal(name, err)
		}
		return [2]float64{v[0][0], v[1][0]}
	}
	n.asia, n.smoke = root("asia"), root("smoke")
	n.tub, n.lung, n.bronc, n.xray = one("tub"), one("lung"), one("bronc"), one("xray")
	var d [2][2][2]float64
	if err := json.Unmarshal(raw["dysp"].CPT, &d); err != nil {
		t.Fatal(err)
	}
	for b := range d {
		for e := range d[b] {
			n.dysp[b][e] = d[b][e][0]
		}
	}
	return n
}

// evidence: 1 yes, 0 no, -1 not given.
type evidence struct{ asia, xray, dysp int }

// marginals: P(yes) of asia, tub, smoke, lung, bronc, either, xray, dysp.
type marginals [8]float64

func yesno(p float64, state int) float64 {
	if state == 0 {
		return p
	}
	return 1 - p
}

// solve gives the eight marginals and P(evidence). State 0 is yes in the loops.
func (n *asiaNet) solve(e evidence) (m marginals, z float64) {
	for a := range 2 {
		if e.asia >= 0 && e.asia != 1-a {
			continue
		}
		for s := range 2 {
			for br := range 2 {
				w := yesno(n.asia, a) * yesno(n.smoke, s) * yesno(n.bronc[s], br)
				t, l := n.tub[a], n.lung[s]
				// states: neither, tub, lung, both, and one that never is
				b := doubt.New([]doubt.Vec{{(1 - t) * (1 - l), t * (1 - l), (1 - t) * l, t * l, 0}}, nil)
				xr := link(n.xray[1], n.xray[0])
				dy := link(n.dysp[br][1], n.dysp[br][0])
				put(b, xr, e.xray)
				put(b, dy, e.dysp)
				p, err := b.Normalize()
				if err != nil {
					panic(err)
				}
				w *= p
				v := b.WholeMode(0)
				z += w
				either := v[1] + v[2] + v[3]
				x, d := float64(max(e.xray, 0)), float64(max(e.dysp, 0))
				if e.xray < 0 {
					x = either*n.xray[0] + v[0]*n.xray[1]
				}
				if e.dysp < 0 {
					d = either*n.dysp[br][0] + v[0]*n.dysp[br][1]
				}
				for i, y := range [8]float64{float64(1 - a), v[1] + v[3], float64(1 - s), v[2] + v[3], float64(1 - br), either, x, d} {
					m[i] += w * y
				}
			}
		}
	}
	for i := range m {
		m[i] /= z
	}
	return m, z
}

// link makes a sign of a leak and a noisy-OR link that is there in any state
// but the first.
func link(leak, with float64) doubt.Sign {
	miss := (1 - with) / (1 - leak)
	return doubt.Sign{Leak: 1 - leak, Whole: []doubt.Parent{{Mode: 0, Miss: doubt.Vec{1, miss, miss, miss, 1}}}}
}

func put(b *doubt.Belief, s doubt.Sign, seen int) {
	switch seen {
	case 1:
		if _, err := b.See(s); err != nil {
			panic(err)
		}
	case 0:
		b.WeighWhole(0, &s.Whole[0].Miss)
		b.Scale(s.Leak)
	}
}

func TestAsia(t *testing.T) {
	n := readAsia(t)
	names := [8]string{"asia", "tub", "smoke", "lung", "bronc", "either", "xray", "dysp"}
	for _, c := range []struct {
		what string
		e    evidence
		want map[string]float64
		p    float64
	}{
		{"no evidence", evidence{-1, -1, -1}, map[string]float64{"tub": .0104, "lung": .055, "bronc": .45, "either": .064828, "xray": .110290, "dysp": .435971}, 1},
		{"asia, dysp and xray yes", evidence{1, 1, 1}, map[string]float64{"tub": .391712, "lung": .444271, "smoke": .702025, "bronc": .628822, "either": .813769}, .00098822675},
		{"asia and dysp yes", evidence{1, -1, 1}, map[string]float64{"tub": .087751, "lung": .099525, "either": .182300}, 0},
		{"xray yes", evidence{-1, 1, -1}, map[string]float64{"tub": .092411, "lung": .488711}, 0},
	} {
		m, z := n.solve(c.e)
		if c.p > 0 && math.Abs(z-c.p) > 5e-12 {
			t.Errorf("%s: P(evidence) %.11g, want %.11g", c.what, z, c.p)
		}
		found := 0
		for i, name := range names {
			want, ok := c.want[name]
			if !ok {
				continue
			}
			found++
			if math.Abs(m[i]-want) > 5.1e-7 { // six digits
				t.Errorf("%s: P(%s) = %.7f, want %.6f", c.what, name, m[i], want)
			}
		}
		if found != len(c.want) {
			t.Fatalf("%s: only %d of %d figures were looked for", c.what, found, len(c.want))
		}
	}
}

func BenchmarkAsia(b *testing.B) {
	n := readAsia(b)
	for i := range b.N {
		n.solve(evidence{i & 1, i >> 2 & 1, i >> 1 & 1})
	}
}
