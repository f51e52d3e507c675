package bench

import (
	"math"
	"testing"
)

// ropeOf gives the one path of rope of a sheet and its length.
func ropeOf(t *testing.T, name, in string) ([]Point, float64) {
	t.Helper()
	var pts []Point
	for _, p := range sheet(t, name, in).Scene.Paths {
		if p.Role == Rope {
			if pts != nil {
				t.Fatalf("%s has two ropes", name)
			}
			pts = p.Points
		}
	}
	long := 0.0
	for i := 1; i < len(pts); i++ {
		long += math.Hypot(pts[i].X-pts[i-1].X, pts[i].Y-pts[i-1].Y)
	}
	return pts, long
}

// TestScenesAreToScale: what is drawn has the lengths and angles that were typed.
func TestScenesAreToScale(t *testing.T) {
	near := func(what string, got, want, part float64) {
		t.Helper()
		if math.Abs(got-want) > part*want {
			t.Errorf("%s is drawn %v, want %v", what, got, want)
		}
	}
	far := func(a, b Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
	for _, in := range []string{"apart=40cm length=60cm load=1kN", "apart=40cm length=60cm load=1kN tilt=25deg lower=9cm", "apart=40cm length=60cm load=1kN tilt=-25deg lower=9cm ring=15mm friction=0.2"} {
		pts, long := ropeOf(t, "bridge", in)
		near("the bridge, "+in+",", long, 0.6, 1e-3)
		near("the distance of its points, "+in+",", far(pts[0], pts[len(pts)-1]), 0.4, 1e-9)
		s := sheet(t, "bridge", in)
		last := pts[len(pts)-2]
		near("the first leg, "+in+",", far(pts[0], pts[1]), s.Figure("leg-first").Value, 2e-2)
		near("the second leg, "+in+",", far(last, pts[len(pts)-1]), s.Figure("leg-second").Value, 2e-2)
	}
	// Where friction can hold the ring, the rope is as long as it is.
	for _, p := range sheet(t, "bridge", "apart=40cm length=60cm load=1kN friction=0.25 lower=9cm").Scene.Paths {
		if p.Role != Reach {
			continue
		}
		b := Point{math.Sqrt(0.16 - 0.0081), 0.09}
		for _, x := range p.Points {
			near("the rope past a place of the ring", far(Point{}, x)+far(x, b), 0.6, 1e-9)
		}
	}
	pts, long := ropeOf(t, "stiffness overhang", "overhang=30cm angle=41.5deg weight=80g/m")
	tip := pts[len(pts)-1]
	near("the overhang with its bench", long, 0.3*1.4, 1e-3)
	near("the angle of the line to the tip", math.Atan2(tip.Y, tip.X)*180/math.Pi, 41.5, 5e-3)
	near("how far the tip comes along", tip.X/0.3, 0.724270, 5e-3) // derived table, 41.5°

	pts, long = ropeOf(t, "stiffness pinch", "force=5N apart=40mm length=100mm")
	near("the rope between the pins", long, 0.1, 1e-3)
	near("the distance of the pins", far(pts[0], pts[len(pts)-1]), 0.04, 5e-3)
	if y := math.Abs(pts[len(pts)-1].Y); y > 5e-4 {
		t.Errorf("the second pin is drawn %v m off the line", y)
	}

	pts, _ = ropeOf(t, "stiffness jaws", "force=5N gap=45mm rope=11mm")
	near("the gap of the middle lines", pts[len(pts)-1].Y-pts[0].Y, 0.034, 1e-9)
	apex, deep := 0.0, 0.0
	for i := range pts {
		if pts[i].X > deep {
			apex, deep = pts[i].Y, pts[i].X
		}
	}
	near("the depth of the bend", deep, 0.834626841674*0.034, 1e-2) // derived
	if math.Abs(apex) > 2e-4 {
		t.Errorf("the apex lies %v m off the middle", apex)
	}

	pts, long = ropeOf(t, "stiffness loop", "length=100cm height=16cm weight=40g/m")
	near("the loop", long, 1, 1e-3)
	near("its height", -pts[0].Y, 0.16, 1e-3)

	pts, long = ropeOf(t, "bend", "pin=20mm rope=10mm made-of=fibre")
	near("half a turn round the pin", long-2*0.045, math.Pi*0.015, 1e-3)
	near("the distance of the legs", pts[len(pts)-1].X-pts[0].X, 0.03, 1e-9)
}
