// Package lang puts the outcome into words: keys with values in, plain
// sentences out. The words stand in a catalogue, one file per language.
//
// What is missing never passes in silence: a key without words, or a place
// without a value, shows as a fault between ⟦ and ⟧ in the sentence itself.
package lang

import (
	_ "embed"
	"slices"
	"sync"

	"kernbook/internal/core/criteria"
	"kernbook/internal/doc"
)

// Arg is one named value of a message, as the core gives it: a day as ISO 8601,
// a quantity as qty prints it, anything else as an id.
type Arg = criteria.Arg

// Catalogue holds the words of one language. It is safe for use by several
// goroutines.
type Catalogue struct {
	language string
	messages map[string]message
	unsaid   map[string][]string
	core     []string
	own      []string
	drawn    []string
	web      []string
	bench    []string
}

//go:embed en.toml
var english []byte

var builtIn = sync.OnceValue(func() *Catalogue {
	c, faults := Load("en.toml", english)
	if err := faults.Err(); err != nil {
		panic("the catalogue built into this program does not load:\n" + err.Error())
	}
	return c
})

// English gives the catalogue built into the program. It is read once, at the
// first call; a test holds that it loads.
func English() *Catalogue { return builtIn() }

// Load reads a catalogue. It has a text "language" (a tag of BCP 47) and six
// tables: "core" with the words for each key that the core gives, "unsaid" with
// the values of those keys that the words leave out on purpose, "draw" with
// what only the drawing says, whose keys are said as "draw.…", "web" with what
// only the pages say, whose keys are said as "web.…", "bench" with what only the
// bench says, whose keys are said as "bench.…", and "words" with all else. With any
// fault it gives nil and all faults.
func Load(file string, b []byte) (*Catalogue, doc.Faults) {
	root, faults := doc.ParseTOML(file, b)
	r := doc.NewReader(file, root)
	t := r.Root()
	c := &Catalogue{language: t.Str("language", doc.Required), messages: map[string]message{}, unsaid: map[string][]string{}}
	read := func(name, prefix string, must bool) []string {
		sub := t.Sub(name, must)
		var keys []string
		for _, short := range sub.Keys() {
			key, text := prefix+short, sub.Str(short, doc.Required)
			keys = append(keys, key)
			if _, twice := c.messages[key]; twice {
				sub.Fault(short, "has words already", "take one of the two out")
			}
			m, err := parse(text)
			if err != nil {
				sub.Fault(short, err.Error(), "write places as {name}, {name:how} or {^name}, and put what may be left out between [ and ]")
			}
			c.messages[key] = m
		}
		slices.Sort(keys)
		return keys
	}
	c.core = read("core", "", doc.Required)
	c.own = read("words", "", doc.Required)
	c.drawn = read("draw", "draw.", doc.Optional)
	c.web = read("web", "web.", doc.Optional)
	c.bench = read("bench", "bench.", doc.Optional)
	unsaid := t.Sub("unsaid", doc.Optional)
	for _, key := range unsaid.Keys() {
		c.unsaid[key] = unsaid.Strings(key, doc.Required)
		if !slices.Contains(c.core, key) {
			unsaid.Fault(key, "is no key of the table core", "correct the key, or take it out")
		}
	}
	if faults = append(faults, r.Faults()...); len(faults) > 0 {
		faults.Sort()
		return nil, faults
	}
	return c, nil
}

// Language gives the tag of the language: "en".
func (c *Catalogue) Language() string { return c.language }

// Has reports whether there are words for a key.
func (c *Catalogue) Has(key string) bool {
	_, ok := c.messages[key]
	return ok
}

// Core gives the keys that the core emits, sorted.
func (c *Catalogue) Core() []string { return slices.Clone(c.core) }

// Drawn gives the keys that only the drawing asks for, sorted.
func (c *Catalogue) Drawn() []string { return slices.Clone(c.drawn) }

// Web gives the keys that only the pages ask for, sorted.
func (c *Catalogue) Web() []string { return slices.Clone(c.web) }

// Bench gives the keys that only the bench asks for, sorted.
func (c *Catalogue) Bench() []string { return slices.Clone(c.bench) }

// Own gives all other keys, sorted.
func (c *Catalogue) Own() []string { return slices.Clone(c.own) }

// Places gives the names of the values that a message shows, in order, once
// each; needed are those that it cannot do without.
func (c *Catalogue) Places(key string) (all, needed []string) {
	for _, p := range c.messages[key] {
		all, needed = p.names(all, needed, false)
	}
	return all, needed
}

// Unsaid gives the names of the values that the words of a key leave out on
// purpose.
func (c *Catalogue) Unsaid(key string) []string { return slices.Clone(c.unsaid[key]) }
