package fold

import (
	"maps"
	"sync"

	"kernbook/internal/core/kit"
	"kernbook/internal/record"
)

// kept is what was read of the bodies of some lines, by their place, so that each
// is read once. It is filled while others look at the same state.
type kept struct {
	mu sync.Mutex
	of map[int]any
}

// body gives what a line says: what Decode gives, or one of the structs below. It
// must not be changed.
func (k *kept) body(lines []Line, i int) (any, error) {
	k.mu.Lock()
	v, ok := k.of[i]
	k.mu.Unlock()
	if ok {
		return v, nil
	}
	l := &lines[i]
	v, err := Decode(l.Kind, l.Version, l.Body)
	if err == nil {
		v, err = inside(v)
	}
	if err != nil {
		return nil, err
	}
	k.mu.Lock()
	if k.of == nil {
		k.of = map[int]any{}
	}
	k.of[i] = v
	k.mu.Unlock()
	return v, nil
}

// forget lets go of what was read of a line: it counts otherwise now.
func (k *kept) forget(i int) {
	k.mu.Lock()
	delete(k.of, i)
	k.mu.Unlock()
}

// copy gives what was read, for a copy of the lines.
func (k *kept) copy() map[int]any {
	k.mu.Lock()
	defer k.mu.Unlock()
	return maps.Clone(k.of)
}

// The bodies that hold a block of a record, with that block read.
type (
	amended struct{ piece kit.Piece }
	used    struct {
		use kit.Use
		of  string
	}
	somebody struct {
		*Person
		person kit.Person
	}
)

// inside reads the block in a body that holds one.
func inside(v any) (any, error) {
	switch x := v.(type) {
	case *Amend:
		p, faults := record.DecodePiece("piece", x.Piece)
		return &amended{p}, faults.Err()
	case *Use:
		u, faults := record.DecodeUse("use", x.Use)
		return &used{u, x.Of}, faults.Err()
	case *Person:
		p, err := x.block()
		return &somebody{x, p}, err
	}
	return v, nil
}
