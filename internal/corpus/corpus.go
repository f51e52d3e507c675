// Package corpus reads the records of testdata/corpus: each an invented piece
// with the outcome that a line of the sources demands for it. The demands were
// written from the sources, not from what the program says; the tests of this
// package run every record natively and on every other machine kernbook is
// built for.
package corpus

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/record"
)

// Case is one record with what is demanded of it.
type Case struct {
	Name    string // file name without its ending
	Demand  kit.Verdict
	Held    bool     // withdrawn and held
	Lines   []string // ids of the lines that demand it
	Because string   // one sentence
	Text    []byte   // the record as TOML
	Record  *kit.Record
}

// Load reads every case of a directory, in the order of their names. Every
// fault of every case is told, one sentence each.
func Load(dir string, t *table.Tables) ([]Case, []string) {
	files, err := filepath.Glob(filepath.Join(dir, "*.toml"))
	if err != nil {
		return nil, []string{err.Error()}
	}
	slices.Sort(files)
	var cases []Case
	var faults []string
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			faults = append(faults, err.Error())
			continue
		}
		c := Case{Name: strings.TrimSuffix(filepath.Base(file), ".toml"), Text: text}
		faults = append(faults, c.head(t)...)
		r, wrong := record.DecodeTOML(c.Name+".toml", text, t)
		for _, f := range wrong {
			faults = append(faults, f.Error())
		}
		if r != nil {
			c.Record = r
			cases = append(cases, c)
		}
	}
	return cases, faults
}

// head reads the comment lines at the top: "# demand: withdraw", "# held",
// "# line: K-BR-ABS, E-13", "# because: one sentence". Nothing else may stand
// there, and each line once.
func (c *Case) head(t *table.Tables) (faults []string) {
	wrong := func(format string, args ...any) {
		faults = append(faults, c.Name+".toml: "+fmt.Sprintf(format, args...))
	}
	seen := map[string]bool{}
	for line := range strings.Lines(string(c.Text)) {
		line = strings.TrimSpace(line)
		if !strings.HasPrefix(line, "#") {
			break
		}
		key, value, _ := strings.Cut(strings.TrimSpace(line[1:]), ":")
		value = strings.TrimSpace(value)
		if seen[key] {
			wrong("“# %s” is there twice: write it once", key)
		}
		seen[key] = true
		switch key {
		case "demand":
			v, ok := kit.ParseVerdict(value)
			if !ok {
				wrong("“%s” is no outcome: write keep, keep, look sooner, set aside or withdraw", value)
			}
			c.Demand = v
		case "held":
			c.Held = true
		case "line":
			for _, id := range strings.Split(value, ",") {
				id = strings.TrimSpace(id)
				if t.Line(id) == nil {
					wrong("the line “%s” is not in the tables: correct its id", id)
				}
				c.Lines = append(c.Lines, id)
			}
		case "because":
			c.Because = value
		default:
			wrong("“%s” is no head of a case: write demand, held, line or because", line)
		}
	}
	for _, key := range []string{"demand", "line", "because"} {
		if !seen[key] {
			wrong("“# %s: …” is missing at the top", key)
		}
	}
	if seen["because"] && c.Because == "" {
		wrong("“# because:” says nothing: write one sentence")
	}
	if c.Held && c.Demand != kit.Withdraw {
		wrong("is held, but only what is withdrawn can be: correct one of the two")
	}
	return faults
}
