package record

import (
	"bytes"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

// A block is one part of a record by itself, as an entry of the book holds it:
// JSON of the same keys as in a record, in its one canonical form. It is read
// strictly in its syntax, but any id is taken: whether the tables know it shows
// when it is put into a record and that is read whole.

// EncodeYard writes the block of a yard.
func EncodeYard(y *kit.Yard) []byte { return appendJSON(nil, yardOut(y), "", "") }

// EncodePiece writes the block of a piece.
func EncodePiece(p *kit.Piece) []byte { return appendJSON(nil, pieceOut(p), "", "") }

// EncodePerson writes the block of a person.
func EncodePerson(p *kit.Person) []byte { return appendJSON(nil, personOut(p), "", "") }

// EncodeUse writes the block of a use.
func EncodeUse(u *kit.Use) []byte { return appendJSON(nil, useOut(u), "", "") }

// EncodeExamination writes the block of an examination.
func EncodeExamination(e *kit.Examination) []byte {
	return appendJSON(nil, examinationOut(e), "", "")
}

// EncodeRun writes the block of a run of like looks.
func EncodeRun(r *kit.Run) []byte { return appendJSON(nil, runOut(r), "", "") }

// EncodeEvent writes the block of an event.
func EncodeEvent(e *kit.Event) []byte { return appendJSON(nil, eventOut(e), "", "") }

// EncodeAnswer writes the block of an answer.
func EncodeAnswer(a *kit.Answer) []byte { return appendJSON(nil, answerOut(a), "", "") }

// EncodeChange writes the block of a change.
func EncodeChange(c *kit.Change) []byte { return appendJSON(nil, changeOut(c), "", "") }

// DecodeYard reads the block of a yard; file names it in faults.
func DecodeYard(file string, b []byte) (kit.Yard, doc.Faults) {
	d, faults := block(file, b, func(d *decoder, c cursor) { d.yard(c) })
	return d.rec.Yard, canonical(file, b, EncodeYard(&d.rec.Yard), faults)
}

// DecodePiece reads the block of a piece.
func DecodePiece(file string, b []byte) (kit.Piece, doc.Faults) {
	d, faults := block(file, b, func(d *decoder, c cursor) { d.piece(c) })
	return d.rec.Piece, canonical(file, b, EncodePiece(&d.rec.Piece), faults)
}

// DecodePerson reads the block of a person.
func DecodePerson(file string, b []byte) (kit.Person, doc.Faults) {
	d, faults := block(file, b, func(d *decoder, c cursor) { d.persons([]cursor{c}) })
	return only(file, b, d.rec.People, EncodePerson, faults)
}

// DecodeUse reads the block of a use.
func DecodeUse(file string, b []byte) (kit.Use, doc.Faults) {
	d, faults := block(file, b, func(d *decoder, c cursor) { d.uses([]cursor{c}) })
	return only(file, b, d.rec.Uses, EncodeUse, faults)
}

// DecodeExamination reads the block of an examination.
func DecodeExamination(file string, b []byte) (kit.Examination, doc.Faults) {
	d, faults := block(file, b, func(d *decoder, c cursor) { d.examinations([]cursor{c}) })
	return only(file, b, d.rec.Examinations, EncodeExamination, faults)
}

// DecodeRun reads the block of a run of like looks.
func DecodeRun(file string, b []byte) (kit.Run, doc.Faults) {
	d, faults := block(file, b, func(d *decoder, c cursor) { d.runs([]cursor{c}) })
	return only(file, b, d.rec.Runs, EncodeRun, faults)
}

// DecodeEvent reads the block of an event.
func DecodeEvent(file string, b []byte) (kit.Event, doc.Faults) {
	d, faults := block(file, b, func(d *decoder, c cursor) { d.events([]cursor{c}) })
	return only(file, b, d.rec.Events, EncodeEvent, faults)
}

// DecodeAnswer reads the block of an answer.
func DecodeAnswer(file string, b []byte) (kit.Answer, doc.Faults) {
	d, faults := block(file, b, func(d *decoder, c cursor) { d.answers([]cursor{c}) })
	return only(file, b, d.rec.Answers, EncodeAnswer, faults)
}

// DecodeChange reads the block of a change.
func DecodeChange(file string, b []byte) (kit.Change, doc.Faults) {
	d, faults := block(file, b, func(d *decoder, c cursor) { d.changes([]cursor{c}) })
	return only(file, b, d.rec.Changes, EncodeChange, faults)
}

// block reads one table of JSON without any tables to hold it against.
func block(file string, b []byte, read func(*decoder, cursor)) (*decoder, doc.Faults) {
	d := &decoder{file: file, t: &table.Tables{}, loose: true, failed: map[string]bool{}, refs: map[string]*entry{}, people: set{any: true}}
	if f := tooLarge(file, b); f != nil {
		return d, f
	}
	root, faults := doc.ParseJSON(file, b)
	if root == nil {
		return d, faults
	}
	r := doc.NewReader(file, root)
	c := cursor{T: r.Root(), d: d}
	if c.Present() {
		c.n = root
	}
	read(d, c)
	faults = append(append(faults, r.Faults()...), d.own...)
	faults.Sort()
	return d, faults
}

// only gives the one thing that was read.
func only[V any](file string, b []byte, list []V, encode func(*V) []byte, faults doc.Faults) (V, doc.Faults) {
	var none V
	if len(faults) > 0 || len(list) != 1 {
		return none, faults
	}
	return list[0], canonical(file, b, encode(&list[0]), faults)
}

// OtherForm is what is wrong with a block that says nothing wrong, but is not
// written as the book writes it.
const OtherForm = "is not in the one form that the book keeps"

// canonical faults a block that is not written as it would be written back.
func canonical(file string, b, again []byte, faults doc.Faults) doc.Faults {
	if len(faults) > 0 || bytes.Equal(b, again) {
		return faults
	}
	at := 0
	for at < len(b) && at < len(again) && b[at] == again[at] {
		at++
	}
	return doc.Faults{{File: file, Line: 1, Col: at + 1, What: OtherForm, Mend: "it would be written " + string(again)}}
}
