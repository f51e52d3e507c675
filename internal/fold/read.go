package fold

import (
	"encoding/json"
	"fmt"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/doc"
	"kernbook/internal/record"
)

// Read reads a body as a person writes it, in whatever layout and order of
// keys: a pointer to one of the structs that Encode takes. What is not in the
// form of Decode for another reason than its layout is an error. An entry about
// a person is not read: it is said anew, since what is personal in it is sealed.
func Read(k entry.Kind, b []byte) (any, error) {
	if !json.Valid(b) {
		return nil, fmt.Errorf("it is no JSON: see that each bracket and quotation mark is closed, and that nothing follows")
	}
	switch k {
	case entry.Piece:
		return loose(record.DecodePiece, b, func(v *kit.Piece) []byte { return record.EncodePiece(v) })
	case entry.Examination:
		return loose(record.DecodeExamination, b, func(v *kit.Examination) []byte { return record.EncodeExamination(v) })
	case entry.Run:
		return loose(record.DecodeRun, b, func(v *kit.Run) []byte { return record.EncodeRun(v) })
	case entry.Event:
		return loose(record.DecodeEvent, b, func(v *kit.Event) []byte { return record.EncodeEvent(v) })
	case entry.Answer:
		return loose(record.DecodeAnswer, b, func(v *kit.Answer) []byte { return record.EncodeAnswer(v) })
	case entry.Change:
		return loose(record.DecodeChange, b, func(v *kit.Change) []byte { return record.EncodeChange(v) })
	case entry.Amend:
		x := &Amend{}
		return x, inner(b, x, &x.Piece, func(b []byte) (any, error) { return Read(entry.Piece, b) })
	case entry.Use:
		x := &Use{}
		return x, inner(b, x, &x.Use, func(b []byte) (any, error) {
			return loose(record.DecodeUse, b, func(v *kit.Use) []byte { return record.EncodeUse(v) })
		})
	case entry.Washing:
		return plain(k, b, &Washing{})
	case entry.Fit:
		return plain(k, b, &Fit{})
	case entry.Hang:
		return plain(k, b, &Hang{})
	case entry.Stop:
		return plain(k, b, &Stop{})
	}
	return nil, fmt.Errorf("an entry of the kind “%s” is not written anew: take it out, and enter what is right", k)
}

// loose reads a block of a record in any layout.
func loose[V any](decode func(string, []byte) (V, doc.Faults), b []byte, encode func(*V) []byte) (any, error) {
	v, faults := decode("", b)
	if len(faults) == 1 && faults[0].What == record.OtherForm {
		v, faults = decode("", encode(&v))
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return &v, nil
}

// inner reads a body that holds a block of a record.
func inner(b []byte, into any, raw *json.RawMessage, read func([]byte) (any, error)) error {
	if err := strict(b, into); err != nil {
		return err
	}
	v, err := read(*raw)
	if err != nil {
		return err
	}
	if u, ok := v.(*kit.Use); ok {
		*raw = record.EncodeUse(u)
	} else {
		*raw = Encode(v)
	}
	return nil
}

// plain reads a body of one level.
func plain(k entry.Kind, b []byte, into body) (any, error) {
	if err := strict(b, into); err != nil {
		return nil, err
	}
	return Decode(k, 1, into.encode())
}
