package bench

import (
	"maps"
	"math"
	"strconv"
	"strings"

	"kernbook/internal/core/qty"
	"kernbook/internal/core/rope"
	"kernbook/internal/core/table"
)

// LoadField is the field that takes, as a force, what a person's mass is as a load.
// Every calculator that takes a person's mass has it.
const LoadField = "load"

// Private says whether a calculator takes a mass that may be a person's own.
func (c *Calculator) Private() bool {
	for i := range c.Fields {
		if c.Fields[i].Person {
			return true
		}
	}
	return false
}

// Loaded gives what was typed with a person's mass taken out, and the load that it is
// put in its place, in whole newtons, rounded up. A mass that cannot be read, or stands
// beside a load, stays, so that Run tells what is wrong with it.
func Loaded(t *table.Tables, name string, typed map[string]string) map[string]string {
	out := maps.Clone(typed)
	c := Find(t, name)
	if c == nil || strings.TrimSpace(typed[LoadField]) != "" {
		return out
	}
	for i := range c.Fields {
		f := &c.Fields[i]
		text := strings.TrimSpace(typed[f.Name])
		if !f.Person || text == "" {
			continue
		}
		m, err := qty.ParseMass(text)
		if err != nil {
			continue
		}
		newtons := math.Ceil(float64(m.Kilograms()*rope.Gravity) - 1e-9)
		if newtons < 1 || newtons > 1e9 {
			continue
		}
		delete(out, f.Name)
		out[LoadField] = strconv.FormatFloat(newtons, 'f', 0, 64) + "N"
	}
	return out
}
