package fold

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/doc"
	"kernbook/internal/record"
)

// The bodies that are no block of a record. Each has one struct, and one
// canonical form that encode writes and no other is read.

// Limit is the body of entry.Limit: the yard's limit of doubt from that day on.
type Limit struct {
	Limit string `json:"limit"` // "1 in 2000"; "" for the tables' own
	Why   string `json:"why"`
}

// Person is the body of entry.Person: who somebody is in the yard. What is
// personal stands in the box, sealed under the person's key for this entry.
type Person struct {
	Person json.RawMessage `json:"person"` // block of a person
	Left   bool            `json:"left"`   // no longer in the yard
	Box    string          `json:"box"`
}

// Private is what is sealed in the box of a person.
type Private struct {
	Name    string `json:"name"`
	Mass    string `json:"mass"`    // body mass with kit, "82kg"
	Contact string `json:"contact"` // telephone, mail

	Address   string `json:"address"`   // postal, for the reports that this person makes
	Qualified string `json:"qualified"` // qualifications to examine
	Employed  string `json:"employed"`  // name and address of the employer; "self-employed"
}

// Forget is the body of entry.Forget: a person's key was destroyed.
type Forget struct {
	Person string `json:"person"`
	Why    string `json:"why"`
}

// Amend is the body of entry.Amend: the block of the piece as it is known now.
type Amend struct {
	Piece json.RawMessage `json:"piece"`
	Why   string          `json:"why"`
}

// Use is the body of entry.Use: how a piece is used, without anybody's mass.
type Use struct {
	Use json.RawMessage `json:"use"`
	Of  string          `json:"of"` // the person whose body mass it carries, "" for nobody known
}

// Washing is the body of entry.Washing.
type Washing struct {
	With  string  `json:"with"`  // what it was washed with
	Event string  `json:"event"` // ref of the spill that was washed out, "" for none
	Clean kit.Yes `json:"clean"` // nothing was left to see or feel
	Words string  `json:"words"`
}

// Fit is the body of entry.Fit: what the piece is fitted to from then on.
type Fit struct {
	In       string  `json:"in"` // "" when it was taken out
	Allowed  kit.Yes `json:"allowed"`
	Document string  `json:"document"`
}

// Hang is the body of entry.Hang: who holds it, or where it hangs unused.
type Hang struct {
	Holder string `json:"holder"` // id of a person; "" for nobody
	Place  string `json:"place"`  // "store", "van" …
}

// Stop is the body of entry.Stop: what a person did about its use. It is never
// looser than the outcome.
type Stop struct {
	What     string `json:"what"` // one of Stops
	Why      string `json:"why"`
	Document string `json:"document"`
}

// Stops lists what a Stop can be.
var Stops = [...]string{"set aside", "withdraw", "hold", "release", "cut up", "back in use"}

// Correct is the body of entry.Correct: an earlier entry was wrong. Instead is
// the body that it should have had; empty says that it should not be there.
type Correct struct {
	Entry   string          `json:"entry"`
	Why     string          `json:"why"`
	Instead json.RawMessage `json:"instead"`
}

// Decision is the body of entry.Decision: what was decided about a piece, by
// whom and why, beside what the core said of the same record.
type Decision struct {
	AsOf        string   `json:"as_of"`
	Examination string   `json:"examination"` // ref of the examination decided on
	Verdict     string   `json:"verdict"`     // the examiner's own
	Why         string   `json:"why"`
	Latest      string   `json:"latest"` // the latest date for the next examination
	Record      string   `json:"record"` // SHA-256 of the canonical record that was judged
	Outcome     string   `json:"outcome"`
	OutcomeSum  string   `json:"outcome_sum"` // SHA-256 of the outcome as the artefact gives it
	Millions    int64    `json:"millions"`    // doubt in whole millionths, rounded up; -1 where there is none
	Reasons     []string `json:"reasons"`     // ids of the lines of its reasons, strictest first
	Report      Report   `json:"report"`
}

// Report is what a report of thorough examination says besides (D-30 to D-46).
type Report struct {
	Number     string   `json:"number"`
	Employer   string   `json:"employer"`
	Premises   string   `json:"premises"`
	Occasion   string   `json:"occasion"`   // "first", "six-monthly", "twelve-monthly", "scheme", "exceptional"
	Load       string   `json:"load"`       // safe working load, or "none stated"
	Tests      string   `json:"tests"`      // tests made
	Defect     string   `json:"defect"`     // what is or could become a danger
	Repair     string   `json:"repair"`     // how to put it right, and by when
	Immediate  bool     `json:"immediate"`  // existing or imminent risk of serious injury
	NotLooked  string   `json:"not_looked"` // what was not examined and why
	Authentic  string   `json:"authentic"`  // who authenticates the report
	Qualified  string   `json:"qualified"`  // qualification, address of the author, where they are not sealed with the person
	SelfEmploy bool     `json:"self_employed"`
	DangerBy   string   `json:"danger_by"` // the time by which Defect could become a danger, where it is none yet
	More       []Defect `json:"more"`      // further defects
}

// Defect is one defect of a report: it is a danger, or it could become one by a time.
type Defect struct {
	Defect    string `json:"defect"` // the part and what is wrong with it
	Repair    string `json:"repair"` // repair, renewal or alteration required
	Immediate bool   `json:"immediate"`
	DangerBy  string `json:"danger_by"`
}

// Defects gives all defects that a report names, the first one first.
func (r *Report) Defects() []Defect {
	if r.Defect == "" {
		return r.More
	}
	return append([]Defect{{r.Defect, r.Repair, r.Immediate, r.DangerBy}}, r.More...)
}

// Same says whether two reports say the same.
func (r *Report) Same(o *Report) bool { return bytes.Equal(r.encode(), o.encode()) }

func (b *Limit) encode() []byte {
	var o entry.Object
	o.Set("limit", b.Limit)
	o.Text("why", b.Why)
	return o.Bytes()
}

func (b *Person) encode() []byte {
	var o entry.Object
	o.Raw("person", b.Person)
	o.Flag("left", b.Left)
	o.Text("box", b.Box)
	return o.Bytes()
}

func (b *Private) encode() []byte {
	var o entry.Object
	o.Text("name", b.Name)
	o.Text("mass", b.Mass)
	o.Text("contact", b.Contact)
	o.Text("address", b.Address)
	o.Text("qualified", b.Qualified)
	o.Text("employed", b.Employed)
	return o.Bytes()
}

func (b *Forget) encode() []byte {
	var o entry.Object
	o.Text("person", b.Person)
	o.Text("why", b.Why)
	return o.Bytes()
}

func (b *Amend) encode() []byte {
	var o entry.Object
	o.Raw("piece", b.Piece)
	o.Text("why", b.Why)
	return o.Bytes()
}

func (b *Use) encode() []byte {
	var o entry.Object
	o.Raw("use", b.Use)
	o.Text("of", b.Of)
	return o.Bytes()
}

func (b *Washing) encode() []byte {
	var o entry.Object
	o.Text("with", b.With)
	o.Text("event", b.Event)
	o.Text("clean", string(b.Clean))
	o.Text("words", b.Words)
	return o.Bytes()
}

func (b *Fit) encode() []byte {
	var o entry.Object
	o.Text("in", b.In)
	o.Text("allowed", string(b.Allowed))
	o.Text("document", b.Document)
	return o.Bytes()
}

func (b *Hang) encode() []byte {
	var o entry.Object
	o.Text("holder", b.Holder)
	o.Text("place", b.Place)
	return o.Bytes()
}

func (b *Stop) encode() []byte {
	var o entry.Object
	o.Text("what", b.What)
	o.Text("why", b.Why)
	o.Text("document", b.Document)
	return o.Bytes()
}

func (b *Correct) encode() []byte {
	var o entry.Object
	o.Text("entry", b.Entry)
	o.Text("why", b.Why)
	o.Raw("instead", b.Instead)
	return o.Bytes()
}

func (b *Decision) encode() []byte {
	var o entry.Object
	o.Text("as_of", b.AsOf)
	o.Text("examination", b.Examination)
	o.Text("verdict", b.Verdict)
	o.Text("why", b.Why)
	o.Text("latest", b.Latest)
	o.Text("record", b.Record)
	o.Text("outcome", b.Outcome)
	o.Text("outcome_sum", b.OutcomeSum)
	o.Int("millions", b.Millions)
	o.Texts("reasons", b.Reasons)
	if r := b.Report.encode(); string(r) != "{}" {
		o.Raw("report", r)
	}
	return o.Bytes()
}

func (r *Report) encode() []byte {
	var o entry.Object
	o.Text("number", r.Number)
	o.Text("employer", r.Employer)
	o.Text("premises", r.Premises)
	o.Text("occasion", r.Occasion)
	o.Text("load", r.Load)
	o.Text("tests", r.Tests)
	o.Text("defect", r.Defect)
	o.Text("repair", r.Repair)
	o.Flag("immediate", r.Immediate)
	o.Text("not_looked", r.NotLooked)
	o.Text("authentic", r.Authentic)
	o.Text("qualified", r.Qualified)
	o.Flag("self_employed", r.SelfEmploy)
	o.Text("danger_by", r.DangerBy)
	more := make([][]byte, len(r.More))
	for i := range r.More {
		more[i] = r.More[i].encode()
	}
	if len(more) > 0 {
		o.Raw("more", slices.Concat([]byte("["), bytes.Join(more, []byte(",")), []byte("]")))
	}
	return o.Bytes()
}

func (d *Defect) encode() []byte {
	var o entry.Object
	o.Text("defect", d.Defect)
	o.Text("repair", d.Repair)
	o.Flag("immediate", d.Immediate)
	o.Text("danger_by", d.DangerBy)
	return o.Bytes()
}

// body is a struct of this page.
type body interface{ encode() []byte }

// Encode gives the canonical body of one of the structs above, or of a block of
// a record: *kit.Yard, *kit.Piece, *kit.Examination, *kit.Run, *kit.Event,
// *kit.Answer or *kit.Change.
func Encode(v any) []byte {
	switch v := v.(type) {
	case body:
		return v.encode()
	case *kit.Yard:
		return record.EncodeYard(v)
	case *kit.Piece:
		return record.EncodePiece(v)
	case *kit.Examination:
		return record.EncodeExamination(v)
	case *kit.Run:
		return record.EncodeRun(v)
	case *kit.Event:
		return record.EncodeEvent(v)
	case *kit.Answer:
		return record.EncodeAnswer(v)
	case *kit.Change:
		return record.EncodeChange(v)
	}
	panic(fmt.Sprintf("fold: %T is no body", v))
}

// Decode reads the body of a kind of entry, in its version 1: a pointer to one
// of the structs that Encode takes. It takes the canonical form alone.
func Decode(k entry.Kind, version int, b []byte) (any, error) {
	if version != 1 {
		return nil, fmt.Errorf("the body of “%s” in version %d is of a later kernbook", k, version)
	}
	name := "the body of “" + string(k) + "”"
	switch k {
	case entry.Yard:
		return block(record.DecodeYard(name, b))
	case entry.Piece:
		return block(record.DecodePiece(name, b))
	case entry.Examination:
		return block(record.DecodeExamination(name, b))
	case entry.Run:
		return block(record.DecodeRun(name, b))
	case entry.Event:
		return block(record.DecodeEvent(name, b))
	case entry.Answer:
		return block(record.DecodeAnswer(name, b))
	case entry.Change:
		return block(record.DecodeChange(name, b))
	case entry.Limit:
		return own(b, &Limit{}, func(x *Limit) string { return "" })
	case entry.Person:
		return own(b, &Person{}, func(x *Person) string { return inBlock(record.DecodePerson("person", x.Person)) })
	case entry.Forget:
		return own(b, &Forget{}, func(x *Forget) string { return missing("person", x.Person) })
	case entry.Amend:
		return own(b, &Amend{}, func(x *Amend) string { return inBlock(record.DecodePiece("piece", x.Piece)) + missing("why", x.Why) })
	case entry.Use:
		return own(b, &Use{}, func(x *Use) string { return inBlock(record.DecodeUse("use", x.Use)) })
	case entry.Washing:
		return own(b, &Washing{}, func(x *Washing) string { return oneOf("clean", string(x.Clean), "yes", "no", "not known") })
	case entry.Fit:
		return own(b, &Fit{}, func(x *Fit) string { return oneOf("allowed", string(x.Allowed), "yes", "no", "not known", "") })
	case entry.Hang:
		return own(b, &Hang{}, func(x *Hang) string {
			if x.Holder == "" {
				return missing("place", x.Place)
			}
			return ""
		})
	case entry.Stop:
		return own(b, &Stop{}, func(x *Stop) string { return oneOf("what", x.What, Stops[:]...) + missing("why", x.Why) })
	case entry.Correct:
		return own(b, &Correct{}, func(x *Correct) string {
			_, err := entry.ParseID(x.Entry)
			if err != nil {
				return "entry " + err.Error() + "; "
			}
			return missing("why", x.Why)
		})
	case entry.Decision:
		return own(b, &Decision{}, func(x *Decision) string {
			if _, ok := kit.ParseVerdict(x.Verdict); !ok {
				return "verdict “" + x.Verdict + "” is no outcome; "
			}
			if _, ok := kit.ParseVerdict(x.Outcome); !ok {
				return "outcome “" + x.Outcome + "” is none; "
			}
			return missing("as_of", x.AsOf) + missing("record", x.Record)
		})
	}
	return nil, fmt.Errorf("entries of the kind “%s” are not known", k)
}

func block[V any](v V, faults doc.Faults) (any, error) {
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return &v, nil
}

func inBlock[V any](_ V, faults doc.Faults) string {
	if err := faults.Err(); err != nil {
		return err.Error() + "; "
	}
	return ""
}

func missing(key, text string) string {
	if text == "" {
		return key + " is missing; "
	}
	return ""
}

func oneOf(key, word string, words ...string) string {
	for _, w := range words {
		if w == word {
			return ""
		}
	}
	return key + " “" + word + "” is none of: " + strings.Join(words, ", ") + "; "
}

// own reads a body of this page.
func own[B body](b []byte, into B, wrong func(B) string) (any, error) {
	if err := strict(b, into); err != nil {
		return nil, err
	}
	if w := wrong(into); w != "" {
		return nil, errors.New(strings.TrimSuffix(w, "; "))
	}
	if again := into.encode(); !bytes.Equal(again, b) {
		return nil, fmt.Errorf("is not in the one form that the book keeps: it would be written %s", again)
	}
	return into, nil
}

func strict(b []byte, into any) error {
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	return d.Decode(into)
}

// EncodePrivate gives what is to be sealed in a box.
func EncodePrivate(p *Private) []byte { return p.encode() }
