package record

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"kernbook/internal/doc"
)

// back reads a block that was just written, and holds that it says the same.
func back[V any](t *rapid.T, what string, v *V, encode func(*V) []byte, decode func(string, []byte) (V, doc.Faults)) {
	b := encode(v)
	got, faults := decode(what, b)
	if err := faults.Err(); err != nil {
		t.Fatalf("%s\n%s: %v", b, what, err)
	}
	if diff := cmp.Diff(*v, got, cmpopts.EquateEmpty()); diff != "" {
		t.Fatalf("%s (-want +got):\n%s", what, diff)
	}
	spaced := bytes.Replace(b, []byte(`":`), []byte(`": `), 1)
	if _, faults := decode(what, spaced); !strings.Contains(faults.Err().Error(), "the one form") {
		t.Fatalf("%s with a space is read: %v", what, faults.Err())
	}
}

// TestBlocks: every block of any record is read back by itself, without any
// tables, in its one form and no other.
func TestBlocks(t *testing.T) {
	tables := fixture()
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecord(t, tables)
		back(t, "yard", &r.Yard, EncodeYard, DecodeYard)
		back(t, "piece", &r.Piece, EncodePiece, DecodePiece)
		for i := range r.People {
			back(t, "person", &r.People[i], EncodePerson, DecodePerson)
		}
		for i := range r.Uses {
			back(t, "use", &r.Uses[i], EncodeUse, DecodeUse)
		}
		for i := range r.Examinations {
			back(t, "examination", &r.Examinations[i], EncodeExamination, DecodeExamination)
		}
		for i := range r.Runs {
			back(t, "run", &r.Runs[i], EncodeRun, DecodeRun)
		}
		for i := range r.Events {
			back(t, "event", &r.Events[i], EncodeEvent, DecodeEvent)
		}
		for i := range r.Answers {
			back(t, "answer", &r.Answers[i], EncodeAnswer, DecodeAnswer)
		}
		for i := range r.Changes {
			back(t, "change", &r.Changes[i], EncodeChange, DecodeChange)
		}
	})
}

// TestBlockFaults: what is wrong in itself is faulted, with its place.
func TestBlockFaults(t *testing.T) {
	for _, c := range []struct{ block, want string }{
		{`{"day":"2026-06-01","event":"saw","colour":"red"}`, "colour"},
		{`{"day":"2026-06","event":"saw"}`, "not known to the day"},
		{`{"day":"2026-06-01"}`, "event"},
		{`{"day":"2026-06-01","event":"saw"`, "1:"},
		{`[]`, ""},
	} {
		if _, faults := DecodeEvent("entry 7", []byte(c.block)); len(faults) == 0 || !strings.Contains(faults.Err().Error(), c.want) {
			t.Errorf("%s: %v", c.block, faults.Err())
		}
	}
}
