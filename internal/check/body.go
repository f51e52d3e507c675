package check

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/doc"
	"kernbook/internal/record"
)

// The kinds of entry, as this reader knows them.
const (
	kYard, kLimit, kPerson, kForget                 = "yard", "limit", "person", "forget"
	kPiece, kAmend, kUse, kRun, kExamination        = "piece", "amend", "use", "run", "examination"
	kEvent, kAnswer, kWashing, kChange, kFit, kHang = "event", "answer", "washing", "change", "fit", "hang"
	kDecision, kStop, kCorrect                      = "decision", "stop", "correct"
)

// The bodies that are no block of a record, their keys in the order in which
// they are written. A key that says nothing is left out, except where it must
// stand.

type limitBody struct {
	Limit string `json:"limit"`
	Why   string `json:"why,omitempty"`
}

type personBody struct {
	Person json.RawMessage `json:"person,omitempty"`
	Left   bool            `json:"left,omitempty"`
	Box    string          `json:"box,omitempty"`
	block  kit.Person
}

// sealed is what stands in a person's box.
type sealed struct {
	Name    string `json:"name,omitempty"`
	Mass    string `json:"mass,omitempty"`
	Contact string `json:"contact,omitempty"`

	Address   string `json:"address,omitempty"`
	Qualified string `json:"qualified,omitempty"`
	Employed  string `json:"employed,omitempty"`
}

type forgetBody struct {
	Person string `json:"person,omitempty"`
	Why    string `json:"why,omitempty"`
}

type amendBody struct {
	Piece json.RawMessage `json:"piece,omitempty"`
	Why   string          `json:"why,omitempty"`
	block kit.Piece
}

type useBody struct {
	Use   json.RawMessage `json:"use,omitempty"`
	Of    string          `json:"of,omitempty"`
	block kit.Use
}

type washingBody struct {
	With  string `json:"with,omitempty"`
	Event string `json:"event,omitempty"`
	Clean string `json:"clean,omitempty"`
	Words string `json:"words,omitempty"`
}

type fitBody struct {
	In       string `json:"in,omitempty"`
	Allowed  string `json:"allowed,omitempty"`
	Document string `json:"document,omitempty"`
}

type hangBody struct {
	Holder string `json:"holder,omitempty"`
	Place  string `json:"place,omitempty"`
}

type stopBody struct {
	What     string `json:"what,omitempty"`
	Why      string `json:"why,omitempty"`
	Document string `json:"document,omitempty"`
}

type correctBody struct {
	Entry   string          `json:"entry,omitempty"`
	Why     string          `json:"why,omitempty"`
	Instead json.RawMessage `json:"instead,omitempty"`
}

type decisionBody struct {
	AsOf        string      `json:"as_of,omitempty"`
	Examination string      `json:"examination,omitempty"`
	Verdict     string      `json:"verdict,omitempty"`
	Why         string      `json:"why,omitempty"`
	Latest      string      `json:"latest,omitempty"`
	Record      string      `json:"record,omitempty"`
	Outcome     string      `json:"outcome,omitempty"`
	OutcomeSum  string      `json:"outcome_sum,omitempty"`
	Millions    int64       `json:"millions,omitempty"`
	Reasons     []string    `json:"reasons,omitempty"`
	Report      *reportBody `json:"report,omitempty"`
}

type reportBody struct {
	Number     string       `json:"number,omitempty"`
	Employer   string       `json:"employer,omitempty"`
	Premises   string       `json:"premises,omitempty"`
	Occasion   string       `json:"occasion,omitempty"`
	Load       string       `json:"load,omitempty"`
	Tests      string       `json:"tests,omitempty"`
	Defect     string       `json:"defect,omitempty"`
	Repair     string       `json:"repair,omitempty"`
	Immediate  bool         `json:"immediate,omitempty"`
	NotLooked  string       `json:"not_looked,omitempty"`
	Authentic  string       `json:"authentic,omitempty"`
	Qualified  string       `json:"qualified,omitempty"`
	SelfEmploy bool         `json:"self_employed,omitempty"`
	DangerBy   string       `json:"danger_by,omitempty"`
	More       []defectBody `json:"more,omitempty"`
}

type defectBody struct {
	Defect    string `json:"defect,omitempty"`
	Repair    string `json:"repair,omitempty"`
	Immediate bool   `json:"immediate,omitempty"`
	DangerBy  string `json:"danger_by,omitempty"`
}

// readBody reads the body of an entry: a pointer to one of the structs above,
// or to the noun of a record. What it gives is nobody else's.
func readBody(kind string, b []byte) (any, error) {
	switch kind {
	case kYard:
		return noun(record.DecodeYard("the yard", b))
	case kPiece:
		return noun(record.DecodePiece("the piece", b))
	case kExamination:
		return noun(record.DecodeExamination("the examination", b))
	case kRun:
		return noun(record.DecodeRun("the run", b))
	case kEvent:
		return noun(record.DecodeEvent("the event", b))
	case kAnswer:
		return noun(record.DecodeAnswer("the answer", b))
	case kChange:
		return noun(record.DecodeChange("the change", b))
	}
	make, ok := bodies[kind]
	if !ok {
		return nil, fmt.Errorf("the kind “%s” is not known", kind)
	}
	v := make()
	if err := strictly(b, v); err != nil {
		return nil, err
	}
	again, err := written(v)
	if err != nil {
		return nil, err
	}
	if !bytes.Equal(again, b) {
		return nil, fmt.Errorf("its body is not in the one form of its kind, from byte %d on", parting(again, b))
	}
	return v, whole(v)
}

var bodies = map[string]func() any{
	kLimit: func() any { return &limitBody{} }, kPerson: func() any { return &personBody{} }, kForget: func() any { return &forgetBody{} },
	kAmend: func() any { return &amendBody{} }, kUse: func() any { return &useBody{} }, kWashing: func() any { return &washingBody{} },
	kFit: func() any { return &fitBody{} }, kHang: func() any { return &hangBody{} }, kDecision: func() any { return &decisionBody{} },
	kStop: func() any { return &stopBody{} }, kCorrect: func() any { return &correctBody{} },
}

func noun[V any](v V, faults doc.Faults) (any, error) {
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return &v, nil
}

// whole reads the blocks inside a body and says what is missing or cannot be.
func whole(v any) error {
	var faults doc.Faults
	switch b := v.(type) {
	case *limitBody:
		_, err := b.millionths()
		return err
	case *personBody:
		b.block, faults = record.DecodePerson("the person", b.Person)
		return faults.Err()
	case *amendBody:
		b.block, faults = record.DecodePiece("the piece", b.Piece)
		return errors.Join(faults.Err(), needs("why", b.Why))
	case *useBody:
		b.block, faults = record.DecodeUse("the use", b.Use)
		return faults.Err()
	case *forgetBody:
		return needs("person", b.Person)
	case *washingBody:
		return among("clean", b.Clean, "yes", "no", "not known")
	case *fitBody:
		return among("allowed", b.Allowed, "yes", "no", "not known", "")
	case *hangBody:
		return needs("holder or place", b.Holder+b.Place)
	case *stopBody:
		return errors.Join(among("what", b.What, "set aside", "withdraw", "hold", "release", "cut up", "back in use"), needs("why", b.Why))
	case *correctBody:
		if !isID.MatchString(b.Entry) {
			return fmt.Errorf("“%s”, which it corrects, is no id", b.Entry)
		}
		return needs("why", b.Why)
	case *decisionBody:
		verdict, ok := kit.ParseVerdict(b.Verdict)
		outcome, known := kit.ParseVerdict(b.Outcome)
		switch {
		case !ok || !known:
			return fmt.Errorf("“%s” or “%s” is no outcome", b.Verdict, b.Outcome)
		case verdict < outcome:
			return fmt.Errorf("it decides “%s”, looser than the outcome “%s”", b.Verdict, b.Outcome)
		case verdict > outcome && b.Why == "":
			return fmt.Errorf("it does not say why it decides “%s” where the outcome is “%s”", b.Verdict, b.Outcome)
		case !isDay(b.AsOf):
			return fmt.Errorf("“%s”, for which it was decided, is no day", b.AsOf)
		case !isSum.MatchString(b.Record) || !isSum.MatchString(b.OutcomeSum):
			return errors.New("it does not give the SHA-256 of the record and of the outcome")
		}
	}
	return nil
}

// millionths reads the limit in whole millionths, rounded down; 0 stands for the tables' own.
func (b *limitBody) millionths() (int64, error) {
	if b.Limit == "" {
		return 0, nil
	}
	text, ok := strings.CutPrefix(b.Limit, "1 in ")
	n, err := strconv.ParseInt(text, 10, 64)
	if !ok || err != nil || n < 1 || n > 1_000_000 {
		return 0, fmt.Errorf("“%s” is no limit of doubt", b.Limit)
	}
	return 1_000_000 / n, nil
}

func needs(key, text string) error {
	if text == "" {
		return errors.New(key + " is missing")
	}
	return nil
}

func among(key, word string, words ...string) error {
	if !slices.Contains(words, word) {
		return fmt.Errorf("%s “%s” is none of: %s", key, word, strings.Join(words, ", "))
	}
	return nil
}
