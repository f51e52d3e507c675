package report_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"testing"

	"kernbook/internal/bench"
	"kernbook/internal/core/measure"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

// rope makes readings of a rope that is thinner by loss on stations 5 and 6 of n, the
// other differences being those of a gauge that reads alternately 0.01 mm off.
func rope(n int, loss float64, odd bool) *bench.Readings {
	r := &bench.Readings{Unit: "mm"}
	for i := range n {
		s := measure.Station{At: float64(50 * i), Base: []float64{11.70, 11.71, 11.69}, Now: []float64{11.66, 11.67, 11.65}}
		for k := range s.Now {
			s.Now[k] += 0.01 * float64((i*i*7+i)%5-2)
			if i == 5 || i == 6 {
				s.Now[k] -= loss
			}
		}
		if odd && i == 9 {
			s.Now = nil
		}
		if odd && i == 10 {
			s.Base[1] = 12.4
		}
		r.Stations = append(r.Stations, s)
	}
	return r
}

// TestAlongIsSaid: text, JSON and drawing have words for all that readings can tell;
// the JSON has the figures, and a place is flagged where one is thinner and nowhere
// else.
func TestAlongIsSaid(t *testing.T) {
	said := lang.English()
	for _, c := range []struct {
		r       *bench.Readings
		ask     bench.AlongAsk
		flagged int
		says    []string
	}{
		{rope(20, 0.3, false), bench.AlongAsk{From: "said"}, 1, []string{"Flagged: 225 mm to 325 mm (stations: 2)", "Would have been found", "as said", "Neither set says under which tension"}},
		{rope(20, 0, false), bench.AlongAsk{From: "assumed"}, 0, []string{"No place is flagged", "is assumed"}},
		{rope(20, 0.3, true), bench.AlongAsk{From: "study", Form: measure.Change, Side: measure.Either, Gauge: measure.Gauge{Freedom: 30, Step: 0.01}}, -1, []string{"changed by about", "by the study given", "Left out, for want of a reading then or now (1): 450 mm", "At 500 mm the reading 12.400 mm", "not equally far apart"}},
	} {
		c.ask.Gauge.Deviation, c.ask.Level = 0.05, 0.05
		s, apart, err := bench.Along(c.r, c.ask)
		if err != nil || len(apart) > 0 {
			t.Fatal(apart, err)
		}
		var text bytes.Buffer
		if err := report.AlongText(&text, s, said); err != nil {
			t.Fatal(err)
		}
		b, err := report.AlongJSON(s, said)
		if err != nil {
			t.Fatal(err)
		}
		svg := report.AlongDrawing(s, said)
		for what, out := range map[string]string{"text": text.String(), "json": string(b), "drawing": string(svg)} {
			if strings.Contains(out, "⟦") || strings.Contains(out, "NaN") {
				t.Errorf("%s lacks words or holds no number: %s", what, out)
			}
		}
		for _, x := range append(c.says, "seed 1", "20000 clean ropes", "A flag is for the eye") {
			if !strings.Contains(text.String(), x) {
				t.Errorf("the text does not say %q:\n%s", x, text.String())
			}
		}
		var back struct {
			Format   string
			Flagged  []struct{ From, To, P float64 }
			Stations []struct{ At, Change float64 }
			Runs     int
			Seed     int
		}
		if err := json.Unmarshal(b, &back); err != nil || back.Format != report.AlongFormat || back.Runs != bench.Runs || back.Seed != bench.Seed || len(back.Stations) != len(s.Differences) || len(back.Flagged) != len(s.Flagged) {
			t.Errorf("%v: %s", err, b)
		}
		if c.flagged >= 0 && len(back.Flagged) != c.flagged {
			t.Errorf("flagged %+v", back.Flagged)
		}
		for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Errorf("the drawing is not well formed: %v", err)
				break
			}
		}
		for i := range s.Flagged {
			if place := fmt.Sprintf("%g mm–%g mm", s.Flagged[i].From, s.Flagged[i].To); !strings.Contains(string(svg), place) {
				t.Errorf("the drawing does not name %s", place)
			}
		}
	}
}

// TestRefusedIsSaid: each reason not to compare has its sentence.
func TestRefusedIsSaid(t *testing.T) {
	apart, _ := bench.Comparable(&bench.Taken{Tension: "150 N", Wet: "no", Method: "tape"}, &bench.Taken{Wet: "yes", Method: "calliper"})
	got := strings.Join(report.Refused(apart, lang.English()), "\n")
	for _, x := range []string{"the tension was “150 N” then and is not said now", "wet was “no” then and is “yes” now", "the method was “tape” then and is “calliper” now"} {
		if !strings.Contains(got, x) {
			t.Errorf("it is not said that %s:\n%s", x, got)
		}
	}
	if strings.Contains(got, "⟦") {
		t.Error(got)
	}
}

// TestStudyIsSaid: a study's text and JSON have words for all, and the same figures.
func TestStudyIsSaid(t *testing.T) {
	var trials []measure.Trial
	for p := range 3 {
		for h := range 2 {
			for k := range 2 {
				trials = append(trials, measure.Trial{Part: fmt.Sprint(p), Hand: fmt.Sprint(h), Value: 11 + float64(p)/10 + float64((p*5+h*3+k*7)%4)/100})
			}
		}
	}
	s, err := measure.Crossed(trials)
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := report.StudyText(&text, &s, "mm", lang.English()); err != nil {
		t.Fatal(err)
	}
	b, err := report.StudyJSON(&s, "mm", lang.English())
	if err != nil || strings.Contains(text.String()+string(b), "⟦") || !strings.Contains(text.String(), "With few parts or hands") {
		t.Errorf("%v\n%s\n%s", err, text.String(), b)
	}
	var back struct {
		Format   string
		Variance struct{ Repeat, Part float64 }
	}
	if err := json.Unmarshal(b, &back); err != nil || back.Format != report.StudyFormat || back.Variance.Repeat != s.With.Repeat || back.Variance.Part != s.With.Part {
		t.Errorf("%v: %s", err, b)
	}
}
