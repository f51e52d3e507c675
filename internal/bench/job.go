package bench

import (
	"errors"
	"math"
	"slices"
	"strings"

	"kernbook/internal/core/qty"
	"kernbook/internal/core/rope"
	"kernbook/internal/core/table"
)

// Run works out one call of a calculator: typed has what was typed by the names of
// the fields. With any fault there is no sheet.
func Run(t *table.Tables, name string, typed map[string]string) (*Sheet, []Fault) {
	c := Find(t, name)
	if c == nil {
		return nil, []Fault{{Says: "there is no calculator “" + name + "”"}}
	}
	j := &job{t: t, calc: c, got: map[string]float64{}, word: map[string]string{}, sheet: &Sheet{Calculator: c.Name}}
	j.read(typed)
	if len(j.faults) == 0 {
		c.work(j)
	}
	if len(j.faults) > 0 {
		return nil, j.faults
	}
	return j.sheet, nil
}

// job is a call under way.
type job struct {
	t      *table.Tables
	calc   *Calculator
	got    map[string]float64 // in SI units
	word   map[string]string
	sheet  *Sheet
	faults []Fault
}

// read takes every field, and tells of each what is wrong with it.
func (j *job) read(typed map[string]string) {
	var strange []string
	for name := range typed { // order does not matter: sorted below
		if j.calc.Field(name) == nil {
			strange = append(strange, name)
		}
	}
	slices.Sort(strange)
	for _, name := range strange {
		j.fault(name, "is no field of this calculator")
	}
	for i := range j.calc.Fields {
		f := &j.calc.Fields[i]
		text := strings.TrimSpace(typed[f.Name])
		g := Given{f.Name, text, false}
		if text == "" {
			if f.Must {
				j.fault(f.Name, "is missing; write it as “"+f.Example+"”")
			}
			if f.Default == "" {
				continue
			}
			g.Typed, g.Usual = f.Default, true
		}
		if err := j.one(f, g.Typed); err != nil {
			says := err.Error()
			if f.Person { // the sentence would show it again
				says = "is no mass that can be read; write it with its unit, as “" + f.Example + "”"
			}
			j.fault(f.Name, says)
			continue
		}
		if !f.Person {
			j.sheet.Given = append(j.sheet.Given, g)
		}
	}
}

func (j *job) one(f *Field, text string) error {
	switch f.Kind {
	case Length:
		v, err := qty.ParseLength(text)
		j.got[f.Name] = v.Metres()
		return err
	case Force:
		v, err := qty.ParsePull(text)
		j.got[f.Name] = v.Newtons()
		return err
	case Mass:
		v, err := qty.ParseMass(text)
		j.got[f.Name] = v.Kilograms()
		return err
	case Angle:
		v, err := qty.ParseAngle(text)
		j.got[f.Name] = v.Radians()
		return err
	case Share:
		v, err := qty.ParsePercent(text)
		j.got[f.Name] = float64(v)
		return err
	case Linear:
		v, err := qty.ParseLinear(text)
		j.got[f.Name] = v.KilogramsPerMetre()
		return err
	case Temp:
		v, err := qty.ParseTemp(text)
		j.got[f.Name] = v.Celsius()
		return err
	case Number:
		v, err := qty.ParseNumber(text)
		j.got[f.Name] = v
		return err
	}
	if !slices.Contains(f.Words, text) {
		return errors.New("“" + text + "” is not a word taken here; write one of: " + strings.Join(f.Words, ", "))
	}
	j.word[f.Name] = text
	return nil
}

func (j *job) fault(field, says string) { j.faults = append(j.faults, Fault{field, says}) }

// has says whether a field was taken.
func (j *job) has(name string) bool {
	_, n := j.got[name]
	_, w := j.word[name]
	return n || w
}

// ok tells a fault of the mechanics beside the field it speaks of.
func (j *job) ok(err error) bool {
	if err == nil {
		return true
	}
	field := ""
	var e *rope.Error
	if errors.As(err, &e) {
		for i := range j.calc.Fields {
			if slices.Contains(j.calc.Fields[i].Called, e.Field) && j.has(j.calc.Fields[i].Name) {
				field = j.calc.Fields[i].Name
			}
		}
	}
	j.fault(field, err.Error())
	return false
}

// exactly refuses other than one of several fields.
func (j *job) exactly(names ...string) bool {
	n := 0
	for _, name := range names {
		if j.has(name) {
			n++
		}
	}
	list := strings.Join(names, ", ")
	switch {
	case n == 0:
		j.fault(names[0], "is missing; give one of: "+list)
	case n > 1:
		j.fault(names[0], "is given in more than one way; give one of: "+list)
	}
	return n == 1
}

// weighed gives the mass in kilograms that was typed as a mass or as the load it is,
// and prints the load of a mass.
func (j *job) weighed() float64 {
	if !j.exactly("mass", "load") || len(j.faults) > 0 {
		return 0
	}
	if j.has("load") {
		return j.got["load"] / rope.Gravity
	}
	j.fig("load", float64(j.got["mass"]*rope.Gravity), Newton, Up)
	return j.got["mass"]
}

// unused takes usual values that this sheet did not need out of what it was given.
func (j *job) unused(names ...string) {
	j.sheet.Given = slices.DeleteFunc(j.sheet.Given, func(g Given) bool { return g.Usual && slices.Contains(names, g.Name) })
}

func (j *job) fig(key string, v float64, u Unit, r Round, lines ...string) {
	j.sheet.Figures = append(j.sheet.Figures, Figure{Key: key, Value: v, Unit: u, Round: r, Lines: lines})
}

func (j *job) span(key, of string, low, high float64, u Unit, r Round, lines ...string) {
	j.sheet.Figures = append(j.sheet.Figures, Figure{Key: key, Of: of, Ranged: true, Low: low, High: high, Unit: u, Round: r, Lines: lines})
}

func (j *job) note(key string, lines []string, pairs ...string) {
	j.sheet.Notes = append(j.sheet.Notes, Note{key, args(pairs), lines})
}

func (j *job) caution(key string, lines []string, pairs ...string) {
	j.sheet.Cautions = append(j.sheet.Cautions, Note{key, args(pairs), lines})
}

func args(pairs []string) [][2]string {
	var out [][2]string
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, [2]string{pairs[i], pairs[i+1]})
	}
	return out
}

// untold is the upper end of a range that no source tells.
var untold = math.NaN()
