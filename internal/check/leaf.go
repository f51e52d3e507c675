package check

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// leaf is a line of the book, its keys in their order.
type leaf struct {
	Recorded string   `json:"recorded"`
	Entry    envelope `json:"entry"`
}

type envelope struct {
	Form     string          `json:"form"`
	Yard     string          `json:"yard"`
	ID       string          `json:"id"`
	Kind     string          `json:"kind"`
	Version  int             `json:"v"`
	Day      string          `json:"day"`
	Wall     string          `json:"wall"`
	Author   string          `json:"author"`
	Device   string          `json:"device"`
	Base     string          `json:"base"`
	Tables   string          `json:"tables"`
	Core     string          `json:"core"`
	Artefact string          `json:"artefact"`
	Piece    string          `json:"piece"`
	Body     json.RawMessage `json:"body"`
	Sign     string          `json:"sign"`
}

const (
	form    = "kernbook entry 1"
	largest = 1<<20 + 64 // bytes of a line
	deepest = 18         // how far values may lie within one another, the line itself included
)

var (
	isID   = regexp.MustCompile(`^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$`)
	isSum  = regexp.MustCompile(`^[0-9a-f]{64}$`)
	isHead = regexp.MustCompile(`^[1-9][0-9]{0,18}:[0-9a-f]{64}$`)
	isWall = regexp.MustCompile(`^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$`)
	isTime = regexp.MustCompile(`^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$`)
)

// readLeaf reads a line and gives it with the instant it was recorded. It takes
// the one form in which lines are written and no other.
func readLeaf(line []byte) (*leaf, time.Time, error) {
	var none time.Time
	text, ok := bytes.CutSuffix(line, []byte("\n"))
	switch {
	case len(line) > largest:
		return nil, none, errors.New("it is larger than an entry may be")
	case !ok:
		return nil, none, errors.New("it has no line end")
	}
	var l leaf
	if err := strictly(text, &l); err != nil {
		return nil, none, err
	}
	again, err := written(&l)
	if err != nil {
		return nil, none, err
	}
	if !bytes.Equal(again, text) {
		return nil, none, fmt.Errorf("it is not in its canonical form, from byte %d on", parting(again, text))
	}
	at, err := time.Parse("2006-01-02T15:04:05.000Z", l.Recorded)
	if err != nil || !isTime.MatchString(l.Recorded) {
		return nil, none, fmt.Errorf("“%s”, when it was recorded, is no instant", l.Recorded)
	}
	return &l, at, l.Entry.sound()
}

// sound says what of an envelope is not as it must be.
func (e *envelope) sound() error {
	switch {
	case e.Form != form:
		return fmt.Errorf("its form “%s” is not known", e.Form)
	case !isID.MatchString(e.ID):
		return fmt.Errorf("its id “%s” is no UUID of version 7", e.ID)
	case e.Version != 1:
		return fmt.Errorf("version %d of “%s” is not known: verify with the version of kernbook that wrote it, or a later one", e.Version, e.Kind)
	case !isDay(e.Day):
		return fmt.Errorf("its day “%s” is none", e.Day)
	case !isWall.MatchString(e.Wall) || !parses(time.RFC3339, e.Wall):
		return fmt.Errorf("its wall time “%s” is no time with an offset", e.Wall)
	case e.Author == "":
		return errors.New("it has no author")
	case e.Base != "" && !isHead.MatchString(e.Base):
		return fmt.Errorf("“%s”, which it was made on top of, is no head", e.Base)
	case e.Artefact != "" && !isSum.MatchString(e.Artefact):
		return fmt.Errorf("“%s” is no SHA-256 of a core", e.Artefact)
	case !bytes.HasPrefix(e.Body, []byte("{")):
		return errors.New("its body is no object")
	}
	for _, s := range []string{e.Yard, e.Author, e.Device, e.Tables, e.Core, e.Piece, e.Sign} {
		if strings.ContainsFunc(s, func(r rune) bool { return r < 0x20 }) {
			return fmt.Errorf("“%q” holds a control character", s)
		}
	}
	return nil
}

func parses(layout, s string) bool {
	_, err := time.Parse(layout, s)
	return err == nil
}

func isDay(s string) bool { return parses("2006-01-02", s) && s >= "0001-01-01" }

// strictly reads one JSON value with no key that is not known.
func strictly(b []byte, into any) error {
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return fmt.Errorf("it cannot be read: %v", err)
	}
	return nil
}

// written writes a value the one way in which the book writes JSON.
func written(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	d := json.NewDecoder(&b)
	d.UseNumber()
	return canonical(d, nil, 0)
}

// canonical copies the next value of a decoder behind b in canonical form: no
// space, keys in their order and each once, the fewest escapes, the shortest
// numbers, no null.
func canonical(d *json.Decoder, b []byte, depth int) ([]byte, error) {
	if depth > deepest {
		return nil, errors.New("it is too deep")
	}
	t, err := d.Token()
	if err != nil {
		return nil, err
	}
	switch t := t.(type) {
	case json.Delim:
		keys := map[string]bool{}
		b = append(b, byte(t))
		for n := 0; d.More(); n++ {
			if n > 0 {
				b = append(b, ',')
			}
			if t == '{' {
				key, err := d.Token()
				if err != nil {
					return nil, err
				}
				k := key.(string) // the decoder takes no other key
				if k == "" || keys[k] {
					return nil, fmt.Errorf("it has the key “%s” twice, or one that is empty", k)
				}
				keys[k] = true
				b = append(quote(b, k), ':')
			}
			if b, err = canonical(d, b, depth+1); err != nil {
				return nil, err
			}
		}
		if _, err := d.Token(); err != nil {
			return nil, err
		}
		return append(b, byte(t)+2), nil // ] and } come two behind [ and {
	case string:
		return quote(b, t), nil
	case bool:
		return strconv.AppendBool(b, t), nil
	case json.Number:
		if n, err := strconv.ParseInt(t.String(), 10, 64); err == nil {
			return strconv.AppendInt(b, n, 10), nil
		}
		x, err := strconv.ParseFloat(t.String(), 64)
		if err != nil || math.IsInf(x, 0) {
			return nil, fmt.Errorf("%s is no number that can be kept", t)
		}
		return strconv.AppendFloat(b, x, 'g', -1, 64), nil
	}
	return nil, errors.New("it holds a null")
}

// quote writes a text as JSON: only quotes, backslashes and control characters
// are escaped.
func quote(b []byte, s string) []byte {
	b = append(b, '"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b = append(b, '\\', byte(r))
		case r == '\n':
			b = append(b, `\n`...)
		case r < 0x20:
			b = fmt.Appendf(b, `\u%04x`, r)
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return append(b, '"')
}

// parting gives the first byte in which two texts differ.
func parting(a, b []byte) int {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	return i
}
