package impure

import (
	"iter"
	m "maps"
	"slices"
)

type named map[string]float64

func order[K comparable, M ~map[K]int](a map[int]string, b named, c M, d []int) (n int) {
	for k := range a { // bad: map-order
		n += k
	}
	for range b { // bad: map-order
		n++
	}
	for range c { // bad: map-order
		n++
	}
	// order does not matter:
	for range a { // bad: map-order
		n++
	}
	// Order does not matter.
	for range a { // bad: map-order
		n++
	}
	for k := range m.Keys(a) { // bad: maps
		n += k
	}
	s := slices.Collect(m.Values(a)) // bad: maps
	keys := m.Keys[map[int]string]   // bad: maps
	next, stop := iter.Pull(keys(a)) // bad: go
	stop()
	next()
	return n + len(s)
}

func orderWell(a map[int]string, b named, d []int) (n int) {
	for _, k := range slices.Sorted(m.Keys(a)) {
		n += k
	}
	for k := range a { // order does not matter: whole numbers are added
		n += k
	}
	// A sum again; order does not matter: whole numbers
	// are added.
	for k := range a {
		n += k
	}
	// order does not matter: it is counted only
	for range m.Values(b) {
		n++
	}
	for i := range d {
		n += i
	}
	c := m.Clone(a)
	return n + len(c)
}

// count counts; order does not matter: one is added for each.
func count(a map[int]string) (n int) {
	for range a {
		n++
	}
	return n
}

// another is not covered by the comment of count.
func another(a map[int]string) (n int) {
	for range a { // bad: map-order
		n++
	}
	return n
}
