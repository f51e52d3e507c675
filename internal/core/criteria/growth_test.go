package criteria

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// TestQuantile80 holds the printed quantiles against gonum's Student's t: never
// below, and at most a thousandth above up to 20 degrees of freedom.
func TestQuantile80(t *testing.T) {
	if want := distuv.UnitNormal.Quantile(0.8); quantile80(0) < want || quantile80(0)-want > 0.001 {
		t.Errorf("normal: %v, want %v", quantile80(0), want)
	}
	for df := 1; df <= 200; df++ {
		want := distuv.StudentsT{Sigma: 1, Nu: float64(df)}.Quantile(0.8)
		got := quantile80(df)
		if got < want || df <= 20 && got-want > 0.001 {
			t.Errorf("%d degrees of freedom: %v, want %v", df, got, want)
		}
	}
}

// TestReachesByHand holds three cases whose sums were done by hand.
func TestReachesByHand(t *testing.T) {
	cases := []struct {
		name  string
		pts   []point
		limit int64
		err   qty.Length
		days  int64
		grows bool
	}{
		// Slope 1 a day; 0.842 · 50 · √2 / 100 = 0.5954 more: 1.5954. At the last
		// day 250 + 1.5954 · 50 = 329.8; (1000 − 329.8) / 1.5954 = 420.1.
		{"two readings", []point{{0, 200}, {100, 300}}, 1000, 50, 420, true},
		// A perfect gauge and two readings: the line itself, 700 days, less the
		// hair that rounding outward takes.
		{"two readings, no error", []point{{0, 200}, {100, 300}}, 1000, 0, 699, true},
		// On a line; the gauge's 10 µm stand for the scatter. Sum of squares about
		// the mean 20000: se 0.07071; t(0.8; 1) 1.377: slope 1.0974. At the last
		// day 300 + 1.0974 · 100 = 409.7; 590.3 / 1.0974 = 537.9.
		{"three on a line", []point{{0, 200}, {100, 300}, {200, 400}}, 1000, 10, 537, true},
		// Last reading above the line: slope 1.25, residuals 25, −50, 25, scatter
		// 61.24, se 0.4330, upper 1.8463; line 325 + 184.6 = 509.6 there
		// against a last reading of 450: from 509.6, 490.4 / 1.8463 = 265.6.
		{"three with scatter", []point{{0, 225}, {100, 275}, {200, 475}}, 1000, 10, 265, true},
		{"shrinks", []point{{0, 300}, {100, 200}}, 1000, 50, 0, false},
		{"stands still", []point{{0, 300}, {100, 300}}, 1000, 50, 0, false},
		{"one reading", []point{{0, 300}}, 1000, 50, 0, false},
		{"twice on one day", []point{{0, 300}, {0, 400}}, 1000, 50, 0, false},
		{"there already", []point{{0, 300}, {100, 1000}}, 1000, 50, 0, false},
		{"there by its line", []point{{0, 100}, {10, 990}}, 1000, 50, 0, true},
		{"falling toward a least value", []point{{0, -800}, {100, -700}}, -500, 0, 199, true},
	}
	for _, c := range cases {
		if days, grows := reaches(c.pts, c.limit, c.err); days != c.days || grows != c.grows {
			t.Errorf("%s: %d days (%v), want %d (%v)", c.name, days, grows, c.days, c.grows)
		}
	}
}

// TestAbsolute holds the figure that a share of the first record comes to: 10 %
// of 10001 µm off is 9000.9, rounded toward the record to 9001; 6 % on is
// 10601.06, rounded to 10601.
func TestAbsolute(t *testing.T) {
	cases := []struct {
		lim  table.Limit
		want []int64
	}{
		{table.Limit{Share: -100, Below: true}, []int64{9001}},
		{table.Limit{Share: 60}, []int64{10601}},
		{table.Limit{At: 500, Share: -100, Below: true}, []int64{500, 9001}},
		{table.Limit{At: 500}, []int64{500}},
	}
	for _, c := range cases {
		got := absolute(&c.lim, ratio{20002, 2})
		if len(got) != len(c.want) || got[0] != c.want[0] || got[len(got)-1] != c.want[len(got)-1] {
			t.Errorf("%+v: %v, want %v", c.lim, got, c.want)
		}
	}
}

// TestReachesAgainstRegression holds the date against gonum's least squares on
// random readings: never later than the exact crossing, at most a day earlier
// where the two quantiles agree; and never later for a worse gauge.
func TestReachesAgainstRegression(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "n")
		var pts []point
		var x, y []float64
		day, limit := int64(0), int64(3000)
		for i := 0; i < n; i++ {
			p := point{day, rapid.Int64Range(0, 200).Draw(t, "noise") + day/2}
			day += rapid.Int64Range(1, 200).Draw(t, "step")
			pts = append(pts, p)
			x, y = append(x, float64(p.day)), append(y, float64(p.value))
		}
		a, b := stat.LinearRegression(x, y, nil, false)
		days, grows := reaches(pts, limit, 0)
		if grows != (b > 0) && math.Abs(b) > 1e-9 {
			t.Fatalf("grows %v at slope %v", grows, b)
		}
		if !grows || b <= 0 {
			return
		}
		var ss, sxx float64
		mean := stat.Mean(x, nil)
		for i := range x {
			ss += math.Pow(y[i]-a-b*x[i], 2)
			sxx += math.Pow(x[i]-mean, 2)
		}
		upper := b + quantile80(n-2)*math.Sqrt(ss/float64(n-2))/math.Sqrt(sxx)
		line := math.Max(stat.Mean(y, nil)+upper*(x[n-1]-mean), y[n-1])
		want := (float64(limit) - line) / upper
		if want > 0 && (float64(days) > want+1e-6 || float64(days) < want-1.001) || want <= 0 && days != 0 {
			t.Fatalf("%d days, want %v", days, want)
		}
		if worse, ok := reaches(pts, limit, 100); !ok || worse > days {
			t.Fatalf("a worse gauge gives %d days instead of %d", worse, days)
		}
	})
}
