package doc

import (
	"strconv"

	"github.com/pelletier/go-toml/v2/unstable"
)

// origin says how a table or list came to be, which decides who may add to it.
type origin uint8

const (
	byChild  origin = iota + 1 // named only on the way to a deeper [header]: may still get its own
	byHeader                   // by its own [header]
	byDots                     // by a dotted key: only further dotted keys of the same table add to it
	closed                     // an inline table, or a table inside one: nothing adds to it
	byArray                    // a list made by [[header]]; a list in brackets has no origin
)

// tomlTree builds the tree from the parser's expressions by the rules of TOML
// 1.0 on tables.
type tomlTree struct {
	file   string
	src    []byte
	base   int // offset of the part being parsed
	places *places
	faults Faults
	root   *Node
	cur    *Node // the table of the last header
	at     trail // and the way to it
	made   map[*Node]origin
}

func (t *tomlTree) report(off int, at trail, what, mend string) {
	f := Fault{File: t.file, Field: at.String(), What: what, Mend: mend}
	f.Line, f.Col = t.places.at(off)
	t.faults = append(t.faults, f)
}

// reportNode reports a value that cannot be used, and makes it Bad.
func (t *tomlTree) reportNode(n *Node, at trail, what, mend string) {
	n.Kind = Bad
	t.faults = append(t.faults, Fault{File: t.file, Line: n.Line, Col: n.Col, Field: at.String(), What: what, Mend: mend})
}

// part is one part of a dotted key.
type part struct {
	key       string
	line, col int
}

func (t *tomlTree) parts(it unstable.Iterator) []part {
	var out []part
	for it.Next() {
		k := it.Node()
		p := part{key: string(k.Data)}
		p.line, p.col = t.places.at(t.base + int(k.Raw.Offset))
		out = append(out, p)
	}
	return out
}

// header goes to the table of [a.b] or to a new item of [[a.b]]. After a fault
// the keys that follow go to the table that is there, or to one apart from the
// tree, so that one slip is one fault.
func (t *tomlTree) header(e *unstable.Node, array bool) {
	parts := t.parts(e.Key())
	n, at := t.root, trail(nil)
	for i, p := range parts {
		at = at.key(p.key)
		last := i == len(parts)-1
		if len(at) > depthLimit {
			t.faults = append(t.faults, Fault{File: t.file, Line: p.line, Col: p.col, Field: at[:depthLimit].String(),
				What: "is nested more than " + strconv.Itoa(depthLimit) + " deep", Mend: "write it flatter"})
			t.apart(p, nil)
			return
		}
		child := n.Fields[p.key]
		switch {
		case child == nil && last && array:
			child = &Node{Kind: Array, Key: p.key, Line: p.line, Col: p.col}
			t.made[child] = byArray
			n.add(child)
			n, at = t.item(child, p, at)
		case child == nil:
			child = newTable(p.key, p.line, p.col)
			t.made[child] = byChild
			if last {
				t.made[child] = byHeader
			}
			n.add(child)
			n = child
		case child.Kind == Bad:
			t.apart(p, at)
			return
		case child.Kind == Array && t.made[child] == byArray && last && array:
			n, at = t.item(child, p, at)
		case child.Kind == Array && t.made[child] == byArray && !last:
			n, at = child.Items[len(child.Items)-1], at.item(len(child.Items)-1)
		case child.Kind == Table && !last && t.made[child] != closed:
			n = child
		case child.Kind == Table && last && !array && t.made[child] == byChild:
			t.made[child] = byHeader
			child.Line, child.Col = p.line, p.col
			n = child
		case child.Kind == Table && last && !array && t.made[child] == byHeader:
			t.again(p, at, child, "is a table defined twice", "write all its keys under one header")
			n = child
		default:
			t.again(p, at, child, "is already "+child.Kind.String()+", which a header cannot add to", "write it in one place")
			t.apart(p, at)
			return
		}
	}
	t.cur, t.at = n, at
}

// item adds a table to the list of a [[header]].
func (t *tomlTree) item(list *Node, p part, at trail) (*Node, trail) {
	n := newTable("", p.line, p.col)
	t.made[n] = byHeader
	list.Items = append(list.Items, n)
	return n, at.item(len(list.Items) - 1)
}

// apart sends the keys that follow to a table outside the tree.
func (t *tomlTree) apart(p part, at trail) {
	t.cur, t.at = newTable(p.key, p.line, p.col), at
	t.made[t.cur] = byHeader
}

// again reports a second definition, with the line of the first.
func (t *tomlTree) again(p part, at trail, first *Node, what, mend string) {
	t.faults = append(t.faults, Fault{File: t.file, Line: p.line, Col: p.col, Field: at.String(),
		What: what + "; the first is in line " + strconv.Itoa(first.Line), Mend: mend})
}

// keyValue puts "a.b = value" into a table that at leads to.
func (t *tomlTree) keyValue(e *unstable.Node, into *Node, at trail) {
	parts := t.parts(e.Key())
	n := into
	for _, p := range parts[:len(parts)-1] {
		at = at.key(p.key)
		if len(at) > depthLimit {
			break
		}
		child := n.Fields[p.key]
		switch {
		case child == nil:
			child = newTable(p.key, p.line, p.col)
			t.made[child] = byDots
			n.add(child)
		case child.Kind == Bad:
			return
		case child.Kind != Table || t.made[child] != byDots:
			t.again(p, at, child, "is already "+child.Kind.String()+", which a dotted key cannot add to", "write it in one place")
			return
		}
		n = child
	}
	p := parts[len(parts)-1]
	at = at.key(p.key)
	v := t.value(&Node{Key: p.key, Line: p.line, Col: p.col}, e.Value(), at)
	if first := n.Fields[p.key]; first != nil {
		t.faults = append(t.faults, twice(t.file, v, at, first.Line))
		return
	}
	n.add(v)
}

// close makes an inline table, and every table inside it, final.
func (t *tomlTree) close(n *Node) {
	t.made[n] = closed
	for _, k := range n.Keys {
		if c := n.Fields[k]; c.Kind == Table && t.made[c] == byDots {
			t.close(c)
		}
	}
}
