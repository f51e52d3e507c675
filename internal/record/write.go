package record

import (
	"strconv"

	canon "kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// object is a JSON object whose keys keep the order in which they were put. Its
// values are object, []object, []string, []any, string, bool, int and float64.
type object []member

type member struct {
	key   string
	value any
}

func (o *object) put(key string, value any) { *o = append(*o, member{key, value}) }

// The rest put a value only when there is something to say.

func (o *object) text(key, s string) {
	if s != "" {
		o.put(key, s)
	}
}

func (o *object) flag(key string, b bool) {
	if b {
		o.put(key, true)
	}
}

func (o *object) length(key string, l qty.Length) {
	if l != 0 {
		o.put(key, l.String())
	}
}

func (o *object) date(key string, p qty.PartialDate) {
	if p.Known() {
		o.put(key, p.String())
	}
}

func (o *object) day(key string, d qty.Day) {
	if d != 0 {
		o.put(key, d.String())
	}
}

func (o *object) months(key string, m qty.Months) {
	if m != 0 {
		o.put(key, m.String())
	}
}

func (o *object) texts(key string, list []string) {
	if len(list) > 0 {
		o.put(key, list)
	}
}

func (o *object) lengths(key string, list []qty.Length) {
	if len(list) > 0 {
		texts := make([]string, len(list))
		for i, l := range list {
			texts[i] = l.String()
		}
		o.put(key, texts)
	}
}

func (o *object) table(key string, t object) {
	if len(t) > 0 {
		o.put(key, t)
	}
}

// objects puts one object for each thing of a list.
func objects[V any](o *object, key string, list []V, write func(*V) object) {
	if len(list) == 0 {
		return
	}
	out := make([]object, len(list))
	for i := range list {
		out[i] = write(&list[i])
	}
	o.put(key, out)
}

func (o *object) days(key string, set [8]bool) {
	var out []string
	for i, w := range weekdays {
		if set[i+1] {
			out = append(out, w)
		}
	}
	o.texts(key, out)
}

func (o *object) yes(key string, y kit.Yes) { o.text(key, string(y)) }

// appendJSON writes a value. indent is "" for one line; otherwise every member
// and every item that is an object has a line of its own.
func appendJSON(b []byte, v any, indent, margin string) []byte {
	inner := margin + indent
	line := func(b []byte, margin string) []byte {
		if indent == "" {
			return b
		}
		return append(append(b, '\n'), margin...)
	}
	switch v := v.(type) {
	case object:
		b = append(b, '{')
		for i, m := range v {
			if i > 0 {
				b = append(b, ',')
			}
			b = canon.AppendText(line(b, inner), m.key)
			b = append(b, ':')
			if indent != "" {
				b = append(b, ' ')
			}
			b = appendJSON(b, m.value, indent, inner)
		}
		if len(v) > 0 {
			b = line(b, margin)
		}
		return append(b, '}')
	case []object:
		b = append(b, '[')
		for i, o := range v {
			if i > 0 {
				b = append(b, ',')
			}
			b = appendJSON(line(b, inner), o, indent, inner)
		}
		if len(v) > 0 {
			b = line(b, margin)
		}
		return append(b, ']')
	case []string:
		b = append(b, '[')
		for i, s := range v {
			if i > 0 {
				b = append(b, ',')
				if indent != "" {
					b = append(b, ' ')
				}
			}
			b = canon.AppendText(b, s)
		}
		return append(b, ']')
	case string:
		return canon.AppendText(b, v)
	case bool:
		return strconv.AppendBool(b, v)
	case int:
		return strconv.AppendInt(b, int64(v), 10)
	case float64:
		return strconv.AppendFloat(b, v, 'g', -1, 64)
	}
	panic("record: no way to write this value as JSON")
}
