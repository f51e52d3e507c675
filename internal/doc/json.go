package doc

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// ParseJSON reads one JSON value (RFC 8259), more strictly than most: a name
// given twice in one object, anything after the value, text that is no UTF-8,
// half a surrogate pair, null, numbers beyond range and nesting beyond 64 are
// faults. After a fault of syntax the root is nil; after any other the tree is
// whole and a value that cannot be used has Kind Bad. The size of b is the
// caller's to limit.
func ParseJSON(file string, b []byte) (*Node, Faults) {
	p := &jsonParser{file: file, b: b, places: newPlaces(b)}
	if i := notText(b); i >= 0 {
		p.stop(i, "the file is not UTF-8 text from here on", utf8Mend)
		return nil, p.faults
	}
	p.space()
	root := p.value(nil)
	if root == nil {
		return nil, p.faults
	}
	p.space()
	if p.i < len(p.b) {
		p.stop(p.i, "there is more after the end of the document", "take out what follows the last bracket")
		return nil, p.faults
	}
	p.faults.Sort()
	return root, p.faults
}

type jsonParser struct {
	file   string
	b      []byte
	i      int
	places *places
	faults Faults
	trail  trail // to where it reads; the room is used again, so nothing keeps it
}

func (p *jsonParser) space() {
	for p.i < len(p.b) && strings.IndexByte(" \t\r\n", p.b[p.i]) >= 0 {
		p.i++
	}
}

func (p *jsonParser) stop(off int, what, mend string) {
	f := Fault{File: p.file, Field: p.trail.String(), What: what, Mend: mend}
	f.Line, f.Col = p.places.at(off)
	p.faults = append(p.faults, f)
}

// bad reports a value that is well formed but of no use.
func (p *jsonParser) bad(n *Node, what, mend string) {
	n.Kind = Bad
	p.faults = append(p.faults, Fault{File: p.file, Line: n.Line, Col: n.Col, Field: p.trail.String(), What: what, Mend: mend})
}

func (p *jsonParser) peek() byte {
	if p.i < len(p.b) {
		return p.b[p.i]
	}
	return 0
}

// take consumes c if it is next.
func (p *jsonParser) take(c byte) bool {
	if p.i < len(p.b) && p.b[p.i] == c {
		p.i++
		return true
	}
	return false
}

// value reads the value that begins here, or gives nil after a fault of syntax.
// named is the node that holds the key's place, nil for the root and for items.
func (p *jsonParser) value(named *Node) *Node {
	n := named
	if n == nil {
		n = &Node{}
		n.Line, n.Col = p.places.at(p.i)
	}
	if len(p.trail) > depthLimit {
		p.stop(p.i, "is nested more than "+strconv.Itoa(depthLimit)+" deep", "write it flatter")
		return nil
	}
	switch c := p.peek(); {
	case p.i >= len(p.b):
		p.stop(p.i, "the document ends where a value is wanted", "add what is missing")
		return nil
	case c == '{':
		return p.object(n)
	case c == '[':
		return p.array(n)
	case c == '"':
		s, ok := p.text()
		if !ok {
			return nil
		}
		n.Kind, n.Text = String, s
		return n
	case c == '-' || c >= '0' && c <= '9':
		return p.number(n)
	}
	for _, word := range [...]string{"true", "false", "null"} {
		if bytes.HasPrefix(p.b[p.i:], []byte(word)) {
			p.i += len(word)
			n.Kind, n.Text, n.Bool = Bool, word, word == "true"
			if word == "null" {
				p.bad(n, "is null", "leave the key out, or write \"unknown\" where that is taken")
			}
			return n
		}
	}
	p.stop(p.i, "there is no value that JSON knows", "write texts in double quotes, numbers plain, true or false")
	return nil
}

func (p *jsonParser) object(n *Node) *Node {
	n.Kind, n.Fields = Table, map[string]*Node{}
	p.i++
	here := len(p.trail)
	defer func() { p.trail = p.trail[:here] }()
	p.space()
	if p.take('}') {
		return n
	}
	for {
		p.trail = p.trail[:here]
		p.space()
		at := p.i
		if p.peek() != '"' {
			p.stop(p.i, "a name in double quotes is wanted here", "write \"name\": value, and no comma after the last")
			return nil
		}
		key, ok := p.text()
		if !ok {
			return nil
		}
		p.trail = append(p.trail, step{key: key})
		v := &Node{Key: key}
		v.Line, v.Col = p.places.at(at)
		p.space()
		if !p.take(':') {
			p.stop(p.i, "there is no colon after the name", "write \"name\": value")
			return nil
		}
		p.space()
		if v = p.value(v); v == nil {
			return nil
		}
		if first := n.Fields[key]; first != nil {
			p.faults = append(p.faults, twice(p.file, v, p.trail, first.Line))
		} else {
			n.add(v)
		}
		p.space()
		if p.take(',') {
			continue
		}
		if p.take('}') {
			return n
		}
		p.stop(p.i, "a comma or a closing brace is wanted here", "put a comma between the members")
		return nil
	}
}

func (p *jsonParser) array(n *Node) *Node {
	n.Kind = Array
	p.i++
	here := len(p.trail)
	defer func() { p.trail = p.trail[:here] }()
	p.space()
	if p.take(']') {
		return n
	}
	for {
		p.trail = append(p.trail[:here], step{i: len(n.Items), isI: true})
		p.space()
		v := p.value(nil)
		if v == nil {
			return nil
		}
		n.Items = append(n.Items, v)
		p.space()
		if p.take(',') {
			continue
		}
		if p.take(']') {
			return n
		}
		p.stop(p.i, "a comma or a closing bracket is wanted here", "put a comma between the items")
		return nil
	}
}

func (p *jsonParser) run() int {
	from := p.i
	for c := p.peek(); c >= '0' && c <= '9'; c = p.peek() {
		p.i++
	}
	return p.i - from
}

func (p *jsonParser) number(n *Node) *Node {
	from := p.i
	n.Kind = Integer
	p.take('-')
	lead := p.peek()
	whole := p.run()
	ok := whole == 1 || whole > 1 && lead != '0'
	if p.take('.') {
		n.Kind = Float
		ok = p.run() > 0 && ok
	}
	if c := p.peek(); c == 'e' || c == 'E' {
		n.Kind = Float
		p.i++
		if !p.take('+') {
			p.take('-')
		}
		ok = p.run() > 0 && ok
	}
	n.Text = string(p.b[from:p.i])
	if !ok {
		p.stop(from, "“"+Short(n.Text)+"” is not a number that JSON knows", "write it as 12 or 0.5, without noughts before it")
		return nil
	}
	if c := p.peek(); c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= utf8.RuneSelf {
		p.stop(from, "a number is followed by a letter", "write a number with its unit in double quotes")
		return nil
	}
	if !setNumber(n, n.Text) {
		p.bad(n, "is a number out of range ("+Short(n.Text)+")", "correct it")
	}
	return n
}

// setNumber sets the values of an Integer or Float node from plain digits.
func setNumber(n *Node, digits string) bool {
	var err error
	if n.Kind == Integer {
		n.Int, err = strconv.ParseInt(digits, 0, 64)
		n.Float = float64(n.Int)
	} else {
		n.Float, err = strconv.ParseFloat(digits, 64)
	}
	return err == nil
}

// text reads a string that begins here.
func (p *jsonParser) text() (string, bool) {
	from := p.i
	p.i++
	var out []byte
	plain := p.i
	for p.i < len(p.b) {
		switch c := p.b[p.i]; {
		case c == '"' && out == nil:
			p.i++
			return string(p.b[plain : p.i-1]), true
		case c == '"':
			out = append(out, p.b[plain:p.i]...)
			p.i++
			return string(out), true
		case c == '\\':
			out = append(out, p.b[plain:p.i]...)
			r, ok := p.escape()
			if !ok {
				return "", false
			}
			out = utf8.AppendRune(out, r)
			plain = p.i
		case c < 0x20:
			p.stop(p.i, "a text runs over the end of its line, or holds a control character", "close it with a double quote; write a line break as \\n")
			return "", false
		default:
			p.i++
		}
	}
	p.stop(from, "a text is not closed", "close it with a double quote")
	return "", false
}

// escape reads what begins with a backslash.
func (p *jsonParser) escape() (rune, bool) {
	from := p.i
	p.i++
	c := p.peek()
	p.i++
	if i := strings.IndexByte(`"\/bfnrt`, c); i >= 0 && c != 0 {
		return rune("\"\\/\b\f\n\r\t"[i]), true
	}
	if c == 'u' {
		r, ok := p.hex()
		if ok && utf16.IsSurrogate(r) {
			if ok = p.take('\\') && p.take('u'); ok {
				var low rune
				low, ok = p.hex()
				r = utf16.DecodeRune(r, low)
				ok = ok && r != utf8.RuneError
			}
		}
		if ok {
			return r, true
		}
	}
	p.stop(from, "a backslash is followed by what JSON does not know", "write \\\\ for a backslash, \\\" for a double quote")
	return 0, false
}

func (p *jsonParser) hex() (rune, bool) {
	if p.i+4 > len(p.b) {
		return 0, false
	}
	v, err := strconv.ParseUint(string(p.b[p.i:p.i+4]), 16, 32)
	p.i += 4
	return rune(v), err == nil
}

// twice is the fault of a key given a second time.
func twice(file string, n *Node, at trail, firstLine int) Fault {
	return Fault{File: file, Line: n.Line, Col: n.Col, Field: at.String(),
		What: "is given twice; the first is in line " + strconv.Itoa(firstLine), Mend: "keep one of the two"}
}
