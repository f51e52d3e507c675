package web

import (
	"math"
	"strconv"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
)

// bar is a doubt against its limit, on a scale from one in a million to
// certain, each factor of ten as long as the next.
type bar struct {
	Known bool
	Over  bool
	At    float64 // share of the bar's length
	Limit float64
	Words string
}

func (s *Site) bar(doubt, limit int64) bar {
	if doubt < 0 {
		return bar{Words: s.say("doubt.no-figure")}
	}
	b := bar{Known: true, Over: doubt >= limit, At: along(doubt), Limit: along(limit)}
	key := s.say("doubt.within", "n", num.OneIn(doubt), "limit", num.OneIn(limit))
	if b.Over {
		key = s.say("doubt.over", "n", num.OneIn(doubt), "limit", num.OneIn(limit))
	}
	b.Words = key
	return b
}

// along gives where a share in whole millionths lies on the scale: 0 is one in
// a million, 1 is certain.
func along(millions int64) float64 {
	if millions < 1 {
		return 0
	}
	return math.Round(math.Min(1, math.Log10(float64(millions))/6)*1000) / 1000
}

// Width gives the length of the bar on a drawing 100 units wide.
func (b bar) Width() string { return units(b.At) }

// Fence gives where the limit stands on it.
func (b bar) Fence() string { return units(b.Limit) }

func units(share float64) string { return strconv.FormatFloat(share*100, 'f', 1, 64) }

// rung is one year of life that is left, ten at most; the last may be a part.
type rung struct{ X, Width string }

// life says how much of a life is left.
func (s *Site) life(end qty.Day) (string, []rung) {
	today := s.app.Today()
	left := int64(end - today)
	if left <= 0 {
		return s.say("life.over", "day", end), nil
	}
	years, months := left/365, left%365/30
	var out []rung
	for i := range int64(10) {
		part := math.Min(1, float64(left)/365-float64(i))
		if part <= 0 {
			break
		}
		out = append(out, rung{strconv.FormatInt(i*10, 10), strconv.FormatFloat(math.Max(1, 8*part), 'f', 1, 64)})
	}
	switch {
	case years == 0 && months == 0:
		return s.say("life.days", "day", end, "n", left), out
	case years == 0:
		return s.say("life.months", "day", end, "n", months), out
	case years == 1:
		return s.say("life.year", "day", end), out
	}
	return s.say("life.years", "day", end, "n", years), out
}

// shapes gives each kind the drawing it hangs as: one of its own.
var shapes = map[kit.KindID]string{
	kit.Bridge: "bridge", kit.Harness: "harness", kit.Line: "coil", kit.Rigging: "rigging", kit.Rescue: "rescue", kit.Lanyard: "lanyard",
	kit.Absorber: "absorber", kit.HitchCord: "cord", kit.Sling: "sling", kit.Connector: "connector", kit.Ring: "ring", kit.Swivel: "swivel",
	kit.Pulley: "pulley", kit.Device: "device", kit.Ascender: "ascender", kit.Helmet: "helmet",
}

func shapeOf(k kit.KindID) string {
	if s, ok := shapes[k]; ok {
		return s
	}
	return "other"
}
