package entry

import (
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"

	"kernbook/internal/core/qty"
)

// Append writes an entry in its canonical form, one line of JSON without its
// line end: keys in a fixed order, nothing left out, no space.
func (e *Entry) Append(b []byte) []byte {
	b = e.appendUnsigned(b)
	b = append(b, `,"sign":`...)
	b = AppendText(b, e.Sign)
	return append(b, '}')
}

// Signed gives the bytes that a signature is over.
func (e *Entry) Signed() []byte { return append(e.appendUnsigned(nil), '}') }

func (e *Entry) appendUnsigned(b []byte) []byte {
	b = append(b, `{"form":"`+Form+`","yard":`...)
	b = AppendText(b, e.Yard)
	b = append(b, `,"id":"`...)
	b = append(b, e.ID.String()...)
	b = append(b, `","kind":`...)
	b = AppendText(b, string(e.Kind))
	b = append(b, `,"v":`...)
	b = strconv.AppendInt(b, int64(e.Version), 10)
	b = append(b, `,"day":"`...)
	b = append(b, e.Day.String()...)
	b = append(b, '"')
	for _, f := range [...]struct{ key, text string }{
		{"wall", e.Wall}, {"author", e.Author}, {"device", e.Device}, {"base", e.Base}, {"tables", e.Tables}, {"core", e.Core},
		{"artefact", e.Artefact}, {"piece", e.Piece},
	} {
		b = append(b, ',', '"')
		b = append(b, f.key...)
		b = append(b, '"', ':')
		b = AppendText(b, f.text)
	}
	b = append(b, `,"body":`...)
	return append(b, e.Body...)
}

// Append writes a leaf in its canonical form, one line with its line end.
func (l *Leaf) Append(b []byte) []byte {
	b = append(b, `{"recorded":`...)
	b = AppendText(b, l.Recorded)
	b = append(b, `,"entry":`...)
	b = l.Entry.Append(b)
	return append(b, '}', '\n')
}

// Parse reads an entry. It takes the canonical form and no other: what it reads,
// Append writes back byte for byte. The body shares the bytes it was read from.
func Parse(b []byte) (Entry, error) {
	p := parser{b: b}
	e := p.entry()
	return e, p.end(e.read)
}

// ParseLeaf reads a leaf of the book, its line end included, as strictly.
func ParseLeaf(b []byte) (Leaf, error) {
	p := parser{b: b}
	var l Leaf
	p.word(`{"recorded":`)
	l.Recorded = p.text()
	p.word(`,"entry":`)
	l.Entry = p.entry()
	p.word("}\n")
	return l, p.end(func() error {
		if !instant(l.Recorded) {
			return fault("recorded", "“"+l.Recorded+"” is no instant, such as 2026-06-01T06:31:02.123Z")
		}
		return l.Entry.read()
	})
}

// read is Check for an entry whose body a parser has seen to be canonical.
func (e *Entry) read() error {
	if err := e.head(); err != nil {
		return err
	}
	return e.object()
}

// parser walks over canonical bytes. After the first fault it stands still.
type parser struct {
	b   []byte
	at  int
	err error
}

func (p *parser) fail(what string) {
	if p.err == nil {
		p.err = errors.New("at byte " + strconv.Itoa(p.at) + ": " + what)
	}
}

func (p *parser) end(check func() error) error {
	switch {
	case p.err != nil:
		return p.err
	case len(p.b) > Largest+len(`{"recorded":"2026-06-01T06:31:02.123Z","entry":}`)+1:
		return errors.New("is larger than an entry may be")
	case p.at != len(p.b):
		p.fail("something follows the entry")
		return p.err
	}
	return check()
}

// word takes exactly these bytes.
func (p *parser) word(w string) {
	if p.err != nil {
		return
	}
	if len(p.b)-p.at < len(w) || string(p.b[p.at:p.at+len(w)]) != w {
		p.fail("want " + w)
		return
	}
	p.at += len(w)
}

// text takes a string in its canonical form.
func (p *parser) text() string {
	if p.err != nil {
		return ""
	}
	from := p.at
	n, plain := scanText(p.b[from:])
	if n < 0 {
		p.fail("want a text in its canonical form")
		return ""
	}
	p.at += n
	raw := string(p.b[from+1 : p.at-1])
	if plain {
		return raw
	}
	return unescape(raw)
}

// kind takes the text of a kind, and one that is known without a copy.
func (p *parser) kind() Kind {
	for _, k := range Kinds {
		if n := p.at + 1 + len(k); p.err == nil && n < len(p.b) && p.b[p.at] == '"' && p.b[n] == '"' && string(p.b[p.at+1:n]) == string(k) {
			p.at = n + 1
			return k
		}
	}
	return Kind(p.text())
}

func (p *parser) entry() Entry {
	var e Entry
	var err error
	p.word(`{"form":"` + Form + `","yard":`)
	e.Yard = p.text()
	p.word(`,"id":`)
	if id := p.text(); p.err == nil {
		if e.ID, err = ParseID(id); err != nil {
			p.fail("the id " + err.Error())
		}
	}
	p.word(`,"kind":`)
	e.Kind = p.kind()
	p.word(`,"v":`)
	e.Version = p.number()
	p.word(`,"day":`)
	if day := p.text(); p.err == nil {
		d, err := qty.ParseDate(day)
		if err != nil || !d.Known() || d.Earliest() != d.Latest() || d.Earliest().String() != day {
			p.fail("“" + day + "” is no day, such as 2026-06-01")
		} else {
			e.Day = d.Earliest()
		}
	}
	for _, f := range [...]struct {
		key  string
		into *string
	}{
		{`,"wall":`, &e.Wall}, {`,"author":`, &e.Author}, {`,"device":`, &e.Device}, {`,"base":`, &e.Base}, {`,"tables":`, &e.Tables},
		{`,"core":`, &e.Core}, {`,"artefact":`, &e.Artefact}, {`,"piece":`, &e.Piece},
	} {
		p.word(f.key)
		*f.into = p.text()
	}
	p.word(`,"body":`)
	if p.err == nil {
		n, err := scan(p.b[p.at:], 0)
		if err != nil {
			p.fail("the body: " + err.Error())
		} else {
			e.Body = p.b[p.at : p.at+n : p.at+n]
			p.at += n
		}
	}
	p.word(`,"sign":`)
	e.Sign = p.text()
	p.word("}")
	return e
}

// number takes a whole number above 0 without needless zeros.
func (p *parser) number() int {
	from := p.at
	for p.err == nil && p.at < len(p.b) && p.b[p.at] >= '0' && p.b[p.at] <= '9' {
		p.at++
	}
	n, err := strconv.ParseInt(string(p.b[from:p.at]), 10, 32)
	if err != nil || p.b[from] == '0' {
		p.at = from
		p.fail("want a whole number above 0")
	}
	return int(n)
}

// AppendText writes a JSON string: quotes, backslashes and control characters
// are escaped, everything else stands as it is.
func AppendText(b []byte, s string) []byte {
	b = append(b, '"')
	from := 0
	for i := range len(s) {
		c := s[i]
		if c >= 0x20 && c != '"' && c != '\\' {
			continue
		}
		b = append(b, s[from:i]...)
		from = i + 1
		switch c {
		case '"', '\\':
			b = append(b, '\\', c)
		case '\n':
			b = append(b, '\\', 'n')
		default:
			const digits = "0123456789abcdef"
			b = append(b, '\\', 'u', '0', '0', digits[c>>4], digits[c&15])
		}
	}
	return append(append(b, s[from:]...), '"')
}

func unescape(s string) string {
	var out strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] != '\\' {
			out.WriteByte(s[i])
			continue
		}
		i++
		switch s[i] {
		case 'n':
			out.WriteByte('\n')
		case 'u':
			v, _ := strconv.ParseUint(s[i+1:i+5], 16, 8)
			out.WriteByte(byte(v))
			i += 4
		default:
			out.WriteByte(s[i])
		}
	}
	return out.String()
}

func plain(s string) bool {
	for i := range len(s) {
		if s[i] < 0x20 {
			return false
		}
	}
	return utf8.ValidString(s)
}
