package doc

import (
	"bytes"
	"errors"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"kernbook/internal/core/qty"
)

// ParseTOML reads a TOML document. Keys given twice, tables defined twice or
// extended from outside, times of day, infinite numbers, numbers beyond range,
// text that is no UTF-8 and nesting beyond 64 are faults. A line whose fault is
// plainly its own is left out (its key has Kind Bad) and reading goes on, so
// that one go finds them all; after any other fault of syntax the root is nil.
// The size of b is the caller's to limit.
func ParseTOML(file string, b []byte) (*Node, Faults) {
	b = bytes.TrimPrefix(b, []byte("\ufeff"))
	t := &tomlTree{file: file, src: b, places: newPlaces(b), made: map[*Node]origin{}}
	t.root = newTable("", 1, 1)
	t.made[t.root] = byHeader
	t.cur = t.root
	if i := notText(b); i >= 0 {
		t.report(i, nil, "the file is not UTF-8 text from here on", utf8Mend)
		return nil, t.faults
	}
	whole := true
	for start := 0; start >= 0 && start < len(b); {
		start = t.read(start, &whole)
	}
	t.faults.Sort()
	if !whole {
		return nil, t.faults
	}
	return t.root, t.faults
}

// read parses from an offset to the end or to a fault of syntax. It gives the
// offset from which to go on, or -1; whole becomes false when what follows the
// fault cannot be read.
func (t *tomlTree) read(start int, whole *bool) int {
	var p unstable.Parser
	data := t.src[start:]
	p.Reset(data)
	t.base = start
	end := start // of what has been read, on its last line
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.KeyValue:
			t.keyValue(e, t.cur, t.at)
			end = start + int(e.Raw.Offset+e.Raw.Length)
		case unstable.Table, unstable.ArrayTable:
			t.header(e, e.Kind == unstable.ArrayTable)
			for it := e.Key(); it.Next(); {
				end = start + int(it.Node().Raw.Offset+it.Node().Raw.Length)
			}
		}
	}
	err := p.Error()
	if err == nil {
		return -1
	}
	off, message := len(t.src), err.Error()
	var pe *unstable.ParserError
	if errors.As(err, &pe) {
		if i := cap(data) - cap(pe.Highlight); i >= 0 && i <= len(data) {
			off = start + i
		}
		message = pe.Message
	}
	lineStart := bytes.LastIndexByte(t.src[:off], '\n') + 1
	lineEnd := len(t.src)
	if i := bytes.IndexByte(t.src[off:], '\n'); i >= 0 {
		lineEnd = off + i
	}
	line := string(t.src[lineStart:lineEnd])
	key, alone := ownFault(line)
	alone = alone && t.begins(end, end > start) == lineStart
	what, mend := tomlSentence(line, off-lineStart, message)
	if !alone {
		t.report(off, t.at, what, mend)
		*whole = false
		return -1
	}
	n := &Node{Key: key}
	n.Line, n.Col = t.places.at(lineStart + strings.Index(line, key))
	at := t.at.key(key)
	t.reportNode(n, at, what, mend)
	if t.cur.Fields[key] == nil {
		t.cur.add(n)
	}
	return lineEnd + 1
}

// begins gives the start of the first line from an offset on that is neither
// empty nor a comment; rest says that the offset's own line is used up.
func (t *tomlTree) begins(off int, rest bool) int {
	for off < len(t.src) {
		line, _, _ := bytes.Cut(t.src[off:], []byte{'\n'})
		if text := bytes.TrimSpace(line); !rest && len(text) > 0 && text[0] != '#' {
			break
		}
		rest = false
		off += len(line) + 1
	}
	return off
}

// ownFault reports whether a line is a plain key with a value that begins and
// ends on it, so that the next line can be read whatever is wrong with this one.
func ownFault(line string) (key string, ok bool) {
	key, value, ok := strings.Cut(line, "=")
	key = strings.TrimSpace(key)
	if !ok || key == "" {
		return "", false
	}
	for _, c := range key {
		if !strings.ContainsRune("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-", c) {
			return "", false
		}
	}
	for _, pair := range []string{"[]", "{}"} {
		if strings.Count(value, pair[:1]) != strings.Count(value, pair[1:]) {
			return "", false
		}
	}
	return key, !strings.Contains(value, `"""`) && !strings.Contains(value, "'''")
}

// tomlSentence says what the parser found in plain words.
func tomlSentence(line string, i int, message string) (what, mend string) {
	_, value, _ := strings.Cut(line, "=")
	value, _, _ = strings.Cut(value, "#")
	value = strings.TrimSpace(value)
	switch {
	case strings.ContainsAny(value, "“”„‘’"):
		return "a text stands in curly quotes (" + value + ")", "write straight ones, as \"new\""
	case strings.Contains(message, "string") && (strings.Contains(message, "new line") || strings.Contains(message, "not terminated") || strings.Contains(message, "unterminated")):
		return "a text begins with a quote and does not end on its line", "end it with the same quote"
	case otherDate(value):
		return value + " is a date written another way", "write it as 2026-06-01"
	case message == "strings must be quoted" || strings.HasPrefix(message, "unexpected character") ||
		strings.HasPrefix(message, "expected keyword"):
		if value != "" && !strings.ContainsAny(value, `"'[]{}`) {
			return value + " is not in quotes", "write \"" + value + "\""
		}
		if i >= 0 && i < len(line) {
			if word, _, _ := strings.Cut(line[i:], ","); strings.TrimRight(word, " \t\r]}") != "" && !strings.ContainsAny(word, `"'[{=`) {
				word = strings.TrimSpace(strings.TrimRight(word, " \t\r]}"))
				return Short(word) + " is not in quotes", "write \"" + Short(word) + "\""
			}
		}
		return "a value is neither a number, true, false, a date, nor a text in quotes", "put texts and numbers with units in double quotes"
	case strings.HasPrefix(message, "expected newline") && i < len(line) && line[i] == ',':
		return "there is a comma after the value (" + value + ")", "write a decimal number with a point, or a number with its unit in quotes"
	case strings.HasPrefix(message, "expected newline"):
		return "there is more on the line after its value", "put a text in double quotes, and each key on a line of its own"
	case strings.HasPrefix(message, "expected '=' after key"):
		return "there is no “=” after the key", "write key = value"
	case message == "integers cannot have leading zeroes":
		return "a number begins with a nought (" + value + ")", "write it without, or in quotes"
	}
	return "this is not TOML: " + message, "correct the line"
}

// otherDate says whether a value is a date in a form of daily life: 1.6.2026,
// 1/6/2026, 1 June 2026.
func otherDate(value string) bool {
	parts := strings.FieldsFunc(value, func(r rune) bool { return r == '.' || r == '/' || r == ' ' })
	if len(parts) != 3 {
		return false
	}
	for i, p := range parts {
		digits := strings.Trim(p, "0123456789") == ""
		if month := i < 2 && len(p) >= 3 && strings.Contains("january february march april may june july august september october november december", strings.ToLower(p)); !digits && !month || i == 2 && len(p) != 4 {
			return false
		}
	}
	return true
}

// value makes a Node of a parsed value; n carries its key and place.
func (t *tomlTree) value(n *Node, v *unstable.Node, at trail) *Node {
	if len(at) > depthLimit {
		t.reportNode(n, at[:depthLimit], "is nested more than "+strconv.Itoa(depthLimit)+" deep", "write it flatter")
		return n
	}
	n.Text = string(v.Data)
	switch v.Kind {
	case unstable.String:
		n.Kind = String
	case unstable.Bool:
		n.Kind, n.Bool = Bool, n.Text == "true"
	case unstable.Integer, unstable.Float:
		t.number(n, v.Kind, at)
	case unstable.LocalDate:
		t.date(n, at)
	case unstable.LocalTime, unstable.LocalDateTime, unstable.DateTime:
		t.reportNode(n, at, "has a time of day ("+n.Text+"), which is not taken", "write the day alone, such as 2026-06-01")
	case unstable.Array:
		n.Kind = Array
		for it := v.Children(); it.Next(); {
			item := &Node{Line: n.Line, Col: n.Col}
			if off, ok := t.offset(it.Node()); ok {
				item.Line, item.Col = t.places.at(off)
			}
			n.Items = append(n.Items, t.value(item, it.Node(), at.item(len(n.Items))))
		}
	case unstable.InlineTable:
		n.Kind, n.Fields = Table, map[string]*Node{}
		t.made[n] = byDots
		for it := v.Children(); it.Next(); {
			t.keyValue(it.Node(), n, at)
		}
		t.close(n)
	}
	return n
}

// offset gives where a value begins; lists have no place of their own, and take
// that of their first item.
func (t *tomlTree) offset(v *unstable.Node) (int, bool) {
	for ; v != nil; v = v.Child() {
		if v.Raw.Length > 0 {
			return t.base + int(v.Raw.Offset), true
		}
	}
	return 0, false
}

func (t *tomlTree) number(n *Node, kind unstable.Kind, at trail) {
	n.Kind = Integer
	if kind == unstable.Float {
		n.Kind = Float
		if strings.HasSuffix(n.Text, "inf") || strings.HasSuffix(n.Text, "nan") {
			t.reportNode(n, at, n.Text+" is not a number that can be used", "write a number, or leave the key out")
			return
		}
	}
	if !setNumber(n, strings.TrimPrefix(strings.ReplaceAll(n.Text, "_", ""), "+")) {
		t.reportNode(n, at, "is a number out of range ("+Short(n.Text)+")", "correct it")
	}
}

func (t *tomlTree) date(n *Node, at trail) {
	n.Kind = Date
	p, err := qty.ParseDate(n.Text)
	switch {
	case err != nil:
		what, mend := sentence(err)
		if strings.Count(n.Text, "-") == 2 {
			mend = "write a day of the calendar, such as 2026-06-01"
		}
		t.reportNode(n, at, what, mend)
	case !p.Exact():
		t.reportNode(n, at, n.Text+" is not in quotes", "write \""+n.Text+"\", or the whole day where a day is wanted, such as 2026-06-01")
	}
}
