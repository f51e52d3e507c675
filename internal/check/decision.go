package check

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"kernbook/internal/answer"
)

// outcome is what a decision tells of an outcome, read from its JSON.
type outcome struct {
	Outcome string `json:"outcome"`
	Reasons []struct {
		ID string `json:"id"`
	} `json:"reasons"`
	Doubt *struct {
		Figure struct {
			Millionths int64 `json:"millionths"`
		} `json:"figure"`
	} `json:"doubt"`
}

// putCores is what to do where a core is missing.
const putCores = "put the folder cores back from a copy of the yard"

// decision puts together the record that was judged, when the book had the size
// of the head that the entry was made on top of, and has the core that decided
// judge it again. The error says why what does not hold.
func (c *checker) decision(index, size int64, e *envelope) (what string, err error) {
	var d decisionBody
	if err := strictly(e.Body, &d); err != nil {
		return "what it says", err
	}
	not := func(why, mend string) {
		c.out.Not = append(c.out.Not, Told{index, e.ID, e.Piece, why, mend})
	}
	asOf, err := dayOf(d.AsOf)
	if err != nil {
		return "what it says", err
	}
	rec, err := c.history.rebuild(e.Piece, asOf, size, c.Tables)
	var whose keyless
	switch {
	case errors.As(err, &whose):
		c.forgot = append(c.forgot, forgot{len(c.out.Not), string(whose)})
		fallthrough
	case errors.As(err, new(missing)):
		not("its record cannot be rebuilt: "+err.Error(), "put the folder keys back from a copy of the yard")
		return "", nil
	case err != nil:
		return "the record that was judged", err
	}
	if got := sum(rec); got != d.Record {
		return "the record that was judged", fmt.Errorf("the entries before it give a record with the SHA-256 %s, the decision names %s", got, d.Record)
	}
	c.out.Rebuilt++
	today, _ := answer.Decide(c.Tables, "record", rec)
	switch {
	case e.Artefact == "":
		not("it names no core that decided"+alike(today, &d), "it stays so: it was entered by a program without a core of its own, as a plain go build makes one; what a program built with make enters from now on names its core, and is recomputed")
	case c.Cores == nil:
		not("the yard's cores are not here"+alike(today, &d), putCores)
	default:
		out, err := c.Cores.Outcome(e.Artefact, rec)
		if errors.As(err, new(missing)) {
			not(err.Error()+alike(today, &d), putCores)
			break
		}
		if err != nil {
			return "the core that decided", err
		}
		if err := same(out, &d); err != nil {
			return "the outcome", err
		}
		c.out.Recomputed++
	}
	var now outcome
	switch err := json.Unmarshal(today, &now); {
	case err != nil:
		return "today's core", fmt.Errorf("today's core gives no outcome that can be read: %w", err)
	case now.Outcome != d.Outcome:
		c.out.Otherwise = append(c.out.Otherwise, Told{Index: index, ID: e.ID, Piece: e.Piece, Say: fmt.Sprintf("the outcome was “%s”; today's core says “%s” to the same record", d.Outcome, orFaults(now.Outcome))})
	case now.millions() != d.Millions:
		c.out.Otherwise = append(c.out.Otherwise, Told{Index: index, ID: e.ID, Piece: e.Piece, Say: fmt.Sprintf("the outcome was “%s” with a doubt of %s, and is so today with %s", d.Outcome, million(d.Millions), million(now.millions()))})
	}
	return "", nil
}

// same says how an outcome is not the one of which a decision tells.
func same(out []byte, d *decisionBody) error {
	if got := sum(out); got != d.OutcomeSum {
		var o outcome
		json.Unmarshal(out, &o) // what is no outcome has none
		return fmt.Errorf("the core that decided gives “%s” with the SHA-256 %s, the decision names “%s” with %s", orFaults(o.Outcome), got, d.Outcome, d.OutcomeSum)
	}
	var o outcome
	if err := json.Unmarshal(out, &o); err != nil {
		return fmt.Errorf("the core that decided gives no outcome that can be read: %w", err)
	}
	var reasons []string
	for _, r := range o.Reasons {
		reasons = append(reasons, r.ID)
	}
	switch {
	case o.Outcome != d.Outcome:
		return fmt.Errorf("the core that decided gives “%s”, the decision says it gave “%s”", orFaults(o.Outcome), d.Outcome)
	case o.millions() != d.Millions:
		return fmt.Errorf("the core that decided gives a doubt of %s, the decision says it gave %s", million(o.millions()), million(d.Millions))
	case !slices.Equal(reasons, d.Reasons):
		return fmt.Errorf("the core that decided gives the reasons %q, the decision says it gave %q", reasons, d.Reasons)
	}
	return nil
}

// alike says beside what was not recomputed whether today's core gives the very
// same outcome. That is told, and not counted: it is not the core that decided.
func alike(today []byte, d *decisionBody) string {
	if same(today, d) == nil {
		return "; today's core gives the same outcome, byte for byte"
	}
	return ""
}

func (o *outcome) millions() int64 {
	if o.Doubt == nil {
		return -1
	}
	return o.Doubt.Figure.Millionths
}

func million(n int64) string {
	if n < 0 {
		return "none"
	}
	return fmt.Sprintf("%d in a million", n)
}

func orFaults(outcome string) string {
	if outcome == "" {
		return "the record has faults"
	}
	return outcome
}

func sum(b []byte) string {
	s := sha256.Sum256(b)
	return hex.EncodeToString(s[:])
}
