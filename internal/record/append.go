package record

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

// NewExamination writes an examination to fill in for a piece of that kind, as
// New does, without the rest of a record: Append puts it behind one.
func NewExamination(piece string, kind kit.KindID, t *table.Tables, today qty.PartialDate) ([]byte, error) {
	k := t.Kind(kind)
	if k == nil {
		return nil, errors.New("the tables have no kind of piece “" + string(kind) + "”")
	}
	p := &pen{t: t, k: k, today: today}
	p.say("An examination of " + piece + ", to be put to what is on record of it.")
	p.line("#")
	p.fill("When done: kernbook examine add FILE --piece " + piece + ". It lists everything that is still missing, with its line, and enters nothing until it is there.")
	p.examination()
	p.answer()
	return []byte(p.b.String()), nil
}

// Append reads a file that holds [[examination]] and [[answer]] alone, as TOML,
// and gives a record with these behind its own; or every fault, as Decode does.
// The record itself must be without faults.
func Append(r *kit.Record, file string, b []byte, t *table.Tables) (*kit.Record, doc.Faults) {
	if f := tooLarge(file, b); f != nil {
		return nil, f
	}
	more, faults := doc.ParseTOML(file, b)
	if more == nil {
		return nil, faults
	}
	root, own := doc.ParseJSON(file, Encode(r))
	if len(own) > 0 {
		return nil, own
	}
	for _, key := range more.Keys {
		n := more.Fields[key]
		switch have := root.Fields[key]; {
		case key != "examination" && key != "answer":
			faults = append(faults, doc.Fault{File: file, Line: n.Line, Col: n.Col, Field: key, What: "does not belong here: this file holds [[examination]] and [[answer]] alone", Mend: "take it out; a whole record is entered without the piece being named"})
		case n.Kind != doc.Array:
			faults = append(faults, doc.Fault{File: file, Line: n.Line, Col: n.Col, Field: key, What: "is " + n.Kind.String() + " where a list is wanted", Mend: "write [[" + key + "]]"})
		case have != nil:
			have.Items = slices.Concat(have.Items, n.Items)
		default:
			root.Keys = append(root.Keys, key)
			root.Fields[key] = n
		}
	}
	out, faults := decode(file, root, faults, t)
	for i := range faults { // counted as in the file
		faults[i].Field = asInFile(faults[i].Field, "examination", len(r.Examinations))
		faults[i].Field = asInFile(faults[i].Field, "answer", len(r.Answers))
	}
	return out, faults
}

// asInFile counts a block as its file does, which has the blocks before it not.
func asInFile(field, block string, before int) string {
	rest, ok := strings.CutPrefix(field, block+"[")
	number, behind, both := strings.Cut(rest, "]")
	n, err := strconv.Atoi(number)
	if !ok || !both || err != nil || n < before {
		return field
	}
	return block + "[" + strconv.Itoa(n-before) + "]" + behind
}
