// Package bench is the bench of rope mechanics: calculators that are each declared
// once, with the fields they take and what they work out. From that one declaration
// come the flags of a command, the fields of a page and the call of the WebAssembly
// form.
//
// A calculator takes what was typed, each quantity with its unit, and gives a sheet:
// figures with the range they lie in, a series, notes with the lines they rest on,
// cautions, and the geometry for a drawing. A sheet has keys and values, no
// sentences. Input that cannot be gets one fault for each field.
//
// Loads are rounded up and strengths down. Nothing here enters a decision: a sheet
// stands by itself, or says what to enter in a record.
package bench

import (
	"kernbook/internal/core/table"
)

// Kind is the sort of quantity that a field takes.
type Kind string

// The kinds.
const (
	Length Kind = "length"
	Force  Kind = "force"
	Mass   Kind = "mass"
	Angle  Kind = "angle"
	Share  Kind = "share"
	Number Kind = "number"
	Linear Kind = "mass per length"
	Temp   Kind = "temperature"
	Word   Kind = "word"
)

// Field is one thing that a calculator takes.
type Field struct {
	Name    string // of the flag, and of the field of a form
	Kind    Kind
	Must    bool
	Default string   // as typed; "" for none
	Example string   // as typed
	Words   []string // what a field of kind Word takes
	Called  []string // what faults of the mechanics call it
	Person  bool     // the mass of a person: used, and not shown again
}

// Calculator is one calculator of the bench.
type Calculator struct {
	Name   string // one word, or two: a command and what stands below it
	Fields []Field
	work   func(*job)
}

// Field gives the field with that name, or nil.
func (c *Calculator) Field(name string) *Field {
	for i := range c.Fields {
		if c.Fields[i].Name == name {
			return &c.Fields[i]
		}
	}
	return nil
}

// All gives the calculators of the bench, in the order they are shown. The words
// some fields take come from the tables.
func All(t *table.Tables) []Calculator {
	return []Calculator{bridge(), fall(), bend(), ends(t), damage(t), heat(t), overhang(), loop(), jaws(), pinch(), knot(), section(t)}
}

// Find gives the calculator with that name, or nil.
func Find(t *table.Tables, name string) *Calculator {
	all := All(t)
	for i := range all {
		if all[i].Name == name {
			return &all[i]
		}
	}
	return nil
}

func take(name string, kind Kind, example string, called ...string) Field {
	return Field{Name: name, Kind: kind, Example: example, Called: called}
}

func must(name string, kind Kind, example string, called ...string) Field {
	f := take(name, kind, example, called...)
	f.Must = true
	return f
}

// person is a mass that may be somebody's own.
func person(f Field) Field {
	f.Person = true
	return f
}

func usual(name string, kind Kind, value string, called ...string) Field {
	f := take(name, kind, value, called...)
	f.Default = value
	return f
}

func choice(name string, words []string) Field {
	return Field{Name: name, Kind: Word, Words: words, Example: words[0]}
}
