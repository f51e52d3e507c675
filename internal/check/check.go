// Package check is the second reader of a book. It reads the leaves and works
// everything out again by its own code: the tree over them, the form of each
// entry, what the entries come to, and, by the very core that decided, the
// outcome of each decision. It writes nothing. It shares no code with what
// wrote the book, apart from the form of a record and the nouns in it.
package check

import (
	"context"
	"errors"
	"fmt"
	"time"

	"kernbook/internal/book"
	"kernbook/internal/core/table"
	"kernbook/internal/seal"
)

// Slack is how far the instant at which an entry was recorded may lie before
// one that was recorded earlier: clocks are put right now and then.
const Slack = time.Hour

// Options say what is read.
type Options struct {
	Store  book.Store
	Keys   seal.Keys     // nil: none are here, no box is opened
	Cores  *Cores        // nil: none are here, no outcome is recomputed
	Tables *table.Tables // today's
	Yard   string        // id of the yard whose book it should be; "" for any
	Kept   book.Head     // a head that somebody has kept; size 0 for none
}

// Result is what the second reader found.
type Result struct {
	Entries    int64  `json:"entries"`         // that were read and hold
	Head       string `json:"head"`            // over them, by this reader's tree
	Holds      bool   `json:"holds"`           // no entry was found that does not
	Fault      *Fault `json:"fault,omitempty"` // the first that does not hold; nothing behind it was read
	Decisions  int    `json:"decisions"`       // among the entries
	Rebuilt    int    `json:"rebuilt"`         // decisions whose record was put together again, the same
	Recomputed int    `json:"recomputed"`      // decisions whose outcome came out again, the same, by the core that gave it
	Not        []Told `json:"not_recomputed"`  // decisions whose outcome was not recomputed, and why
	Otherwise  []Told `json:"otherwise"`       // decisions on which today's core says otherwise; no fault
	Notes      []Told `json:"notes"`           // what else should be known; no fault
}

// Fault is the first entry that does not hold.
type Fault struct {
	Index int64  `json:"index"` // from 0; -1 where no one entry can be named
	ID    string `json:"id"`    // "" where it cannot be read
	What  string `json:"what"`  // what was looked at
	Why   string `json:"why"`
}

// Told is something about an entry.
type Told struct {
	Index int64  `json:"index"`
	ID    string `json:"id"`
	Piece string `json:"piece,omitempty"`
	Say   string `json:"say"`
	Mend  string `json:"mend,omitempty"` // what to do about it; "" for nothing
}

// chunk is how many leaves are read at once.
const chunk = 512

// Run reads a book from its first entry to its last, and stops at the first that
// does not hold. The error is for what could not be read at all.
func Run(ctx context.Context, o Options) (*Result, error) {
	c := &checker{Options: o, out: &Result{Not: []Told{}, Otherwise: []Told{}, Notes: []Told{}}, history: newHistory(o.Keys), roots: []hash{(&tree{}).root()}}
	f, err := c.run(ctx)
	if err != nil {
		return nil, err
	}
	c.out.Fault, c.out.Holds = f, f == nil
	c.out.Head = headText(c.out.Entries, c.roots[c.out.Entries])
	return c.out, nil
}

// checker is a reading under way.
type checker struct {
	Options
	out     *Result
	history *history
	tree    tree
	roots   []hash // over the first so many leaves
	latest  time.Time
	forgot  []forgot
}

// forgot is a place in Result.Not of a decision whose record cannot be rebuilt,
// because the key of a person is not there.
type forgot struct {
	at     int
	person string
}

func (c *checker) run(ctx context.Context) (*Fault, error) {
	head, err := c.Store.Head(ctx)
	if errors.Is(err, book.ErrBroken) {
		return &Fault{-1, "", "the head of the book", err.Error()}, nil
	}
	if err != nil {
		return nil, err
	}
	most := int64(chunk)
	for at := int64(0); at < head.Size; {
		n := min(most, head.Size-at)
		lines, hashes, err := c.read(ctx, at, n)
		switch {
		case errors.Is(err, book.ErrBroken) && n > 1:
			most = 1 // find the first that cannot be read
			continue
		case errors.Is(err, book.ErrBroken):
			return &Fault{at, "", "the line and its hashes", err.Error()}, nil
		case err != nil:
			return nil, err
		}
		for _, line := range lines {
			if f, err := c.leaf(at, line, &hashes); f != nil || err != nil {
				return f, err
			}
			at++
			c.out.Entries = at
		}
	}
	root := c.tree.root()
	switch {
	case root != hash(head.Root):
		return &Fault{-1, "", "the head of the book", fmt.Sprintf("it says %s, the entries give the root %x", head, root)}, nil
	case c.Kept.Size > head.Size:
		return &Fault{head.Size, "", "the head that was kept", fmt.Sprintf("it counts %d entries, the book has %d: entries are gone from its end", c.Kept.Size, head.Size)}, nil
	}
	c.unfinished()
	return nil, ctx.Err()
}

// read reads leaves with the hashes that are stored for them.
func (c *checker) read(ctx context.Context, at, n int64) ([][]byte, []hash, error) {
	lines, err := c.Store.Read(ctx, at, int(n))
	if err != nil {
		return nil, nil, err
	}
	if int64(len(lines)) != n {
		return nil, nil, fmt.Errorf("%w: entry %d is gone", book.ErrBroken, at+int64(len(lines)))
	}
	places := make([]int64, storedFor(at+n)-storedFor(at))
	for i := range places {
		places[i] = storedFor(at) + int64(i)
	}
	got, err := c.Store.Hashes(ctx).ReadHashes(places)
	if err != nil {
		return nil, nil, err
	}
	hashes := make([]hash, len(got))
	for i := range got {
		hashes[i] = hash(got[i])
	}
	return lines, hashes, nil
}

// storedFor says how many hashes are stored for so many leaves: one for each
// leaf, each full pair, each full four, and so on.
func storedFor(size int64) int64 {
	n := int64(0)
	for ; size > 0; size >>= 1 {
		n += size
	}
	return n
}

// leaf looks at the next leaf; hashes begin with those stored for it.
func (c *checker) leaf(index int64, line []byte, hashes *[]hash) (*Fault, error) {
	l, at, err := readLeaf(line)
	id := ""
	if l != nil {
		id = l.Entry.ID
	}
	fault := func(what, why string, args ...any) (*Fault, error) {
		return &Fault{index, id, what, fmt.Sprintf(why, args...)}, nil
	}
	full := c.tree.add(line)
	c.roots = append(c.roots, c.tree.root())
	for level, h := range full {
		stored := (*hashes)[level]
		switch {
		case h == stored:
		case level == 0:
			return fault("the line", "it is not the one that was written: its hash is %x…, the stored one %x…", h[:6], stored[:6])
		default:
			return fault("the tree", "the hash over entries %d to %d is %x…, the stored one %x…", index+1-1<<level, index, h[:6], stored[:6])
		}
	}
	*hashes = (*hashes)[len(full):]
	if err != nil {
		return fault("its form", "%v", err)
	}
	e := &l.Entry
	base, err := c.based(index, e.Base)
	if err != nil {
		return fault("the head it was made on top of", "%v", err)
	}
	switch {
	case c.Yard == "":
		c.Yard = e.Yard
	case c.Yard != e.Yard:
		return fault("the yard", "it is of the yard “%s”, the book is that of “%s”", e.Yard, c.Yard)
	}
	if at.Before(c.latest.Add(-Slack)) {
		return fault("when it was recorded", "%s lies more than %v before an entry that stands before it (%s)", l.Recorded, Slack, c.latest.Format("2006-01-02T15:04:05.000Z"))
	}
	if at.After(c.latest) {
		c.latest = at
	}
	says, err := c.history.take(index, e)
	if err != nil {
		return fault("what it says", "%v", err)
	}
	if err := c.history.may(index, e, says); err != nil {
		return fault("who enters it", "%v", err)
	}
	if c.Kept.Size == index+1 && hash(c.Kept.Root) != c.tree.root() { // which of them, a root does not say
		return &Fault{-1, "", "the head that was kept", fmt.Sprintf("the first %d entries give the root %x, the head that was kept says %x: this is not the book it was taken from, or it was written anew", c.Kept.Size, c.tree.root(), c.Kept.Root[:])}, nil
	}
	if e.Kind != kDecision {
		return nil, nil
	}
	c.out.Decisions++
	what, err := c.decision(index, base, e)
	if err != nil {
		return fault(what, "%v", err)
	}
	return nil, nil
}

// based reads the head that an entry was made on top of, and gives its size.
func (c *checker) based(index int64, base string) (int64, error) {
	h, err := book.ParseHead(base)
	switch {
	case err != nil:
		return 0, err
	case h.Size > index:
		return 0, fmt.Errorf("%s counts %d entries, and %d stand before it", base, h.Size, index)
	case headText(h.Size, c.roots[h.Size]) != base:
		return 0, fmt.Errorf("%s was never a head of this book: its first %d entries give the root %x", base, h.Size, c.roots[h.Size])
	}
	return h.Size, nil
}

// unfinished tells, now that the whole book is known, of whose keys are not there
// that they were forgotten, and notes who was to be forgotten and is not yet.
func (c *checker) unfinished() {
	for _, f := range c.forgot {
		if p := c.history.person(f.person, c.out.Entries); p.forgotten(c.out.Entries) {
			c.out.Not[f.at].Say = "its record cannot be rebuilt: the person was forgotten (" + f.person + ")"
			c.out.Not[f.at].Mend = "nothing is to be done: the body mass was destroyed with their key, as it should be"
		}
	}
	for _, p := range c.history.people {
		for _, x := range p.items {
			if x.kind != kForget || c.Keys == nil {
				continue
			}
			if _, err := c.Keys.Key(p.id); !errors.Is(err, seal.ErrForgotten) {
				c.out.Notes = append(c.out.Notes, Told{Index: x.index, ID: x.id, Say: "“" + p.id + "” is to be forgotten, and the key is still here: forget them again"})
			}
		}
	}
}
