package entry

import "strconv"

// Object writes a JSON object in canonical form, its keys in the order in which
// they are put. Except for Set, nothing is put where there is nothing to say.
type Object struct{ b []byte }

func (o *Object) key(key string) {
	if len(o.b) == 0 {
		o.b = append(o.b, '{')
	} else {
		o.b = append(o.b, ',')
	}
	o.b = append(AppendText(o.b, key), ':')
}

// Set puts a text, empty or not.
func (o *Object) Set(key, text string) {
	o.key(key)
	o.b = AppendText(o.b, text)
}

// Text puts a text.
func (o *Object) Text(key, text string) {
	if text != "" {
		o.Set(key, text)
	}
}

// Texts puts a list of texts.
func (o *Object) Texts(key string, list []string) {
	if len(list) == 0 {
		return
	}
	o.key(key)
	for i, s := range list {
		if i == 0 {
			o.b = append(o.b, '[')
		} else {
			o.b = append(o.b, ',')
		}
		o.b = AppendText(o.b, s)
	}
	o.b = append(o.b, ']')
}

// Int puts a whole number that is not 0.
func (o *Object) Int(key string, n int64) {
	if n != 0 {
		o.key(key)
		o.b = strconv.AppendInt(o.b, n, 10)
	}
}

// Flag puts what is true.
func (o *Object) Flag(key string, is bool) {
	if is {
		o.key(key)
		o.b = append(o.b, "true"...)
	}
}

// Raw puts a value that is in canonical form already.
func (o *Object) Raw(key string, canonical []byte) {
	if len(canonical) > 0 {
		o.key(key)
		o.b = append(o.b, canonical...)
	}
}

// Bytes gives the object.
func (o *Object) Bytes() []byte {
	if len(o.b) == 0 {
		return []byte("{}")
	}
	return append(o.b[:len(o.b):len(o.b)], '}')
}
