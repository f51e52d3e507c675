package entry

import "errors"

// ID is a UUID of version 7 (RFC 9562, section 5.7, from memory): 48 bits of
// milliseconds since 1970, then chance. It is not the clock: times have fields
// of their own.
type ID [16]byte

// String gives the 36 characters of an id, in lower case.
func (id ID) String() string {
	const digits = "0123456789abcdef"
	b := make([]byte, 0, 36)
	for i, x := range id {
		if i == 4 || i == 6 || i == 8 || i == 10 {
			b = append(b, '-')
		}
		b = append(b, digits[x>>4], digits[x&15])
	}
	return string(b)
}

// ParseID reads the 36 characters of an id, in lower case, of version 7 and of
// the common variant.
func ParseID(s string) (ID, error) {
	var id ID
	n := 0
	for i := range len(s) {
		c := s[i]
		if i == 8 || i == 13 || i == 18 || i == 23 {
			if c != '-' {
				return ID{}, errID
			}
			continue
		}
		v := byte(0)
		switch {
		case c >= '0' && c <= '9':
			v = c - '0'
		case c >= 'a' && c <= 'f':
			v = c - 'a' + 10
		default:
			return ID{}, errID
		}
		if n >= 32 {
			return ID{}, errID
		}
		id[n/2] = id[n/2]<<4 | v
		n++
	}
	if len(s) != 36 || n != 32 || id[6]>>4 != 7 || id[8]>>6 != 2 {
		return ID{}, errID
	}
	return id, nil
}

var errID = errors.New("is no UUID of version 7 in lower case")

// MakeID puts an id together from milliseconds since 1970 and ten bytes of
// chance, of which it uses 74 bits.
func MakeID(millis int64, chance [10]byte) ID {
	var id ID
	for i := range 6 {
		id[i] = byte(millis >> (40 - 8*i))
	}
	copy(id[6:], chance[:])
	id[6] = id[6]&0x0f | 0x70
	id[8] = id[8]&0x3f | 0x80
	return id
}

// Millis gives the milliseconds since 1970 that an id was made with.
func (id ID) Millis() int64 {
	var m int64
	for _, b := range id[:6] {
		m = m<<8 | int64(b)
	}
	return m
}
