package corpus

import (
	"encoding/json"
	"strconv"
	"testing"

	"kernbook/internal/record"
	"kernbook/internal/tables"
)

// required are the keys that every entry must have, by the path of its list or
// table; "" is the record itself. A key after "?" may be missing from the start
// and is taken out where it stands.
var required = map[string][]string{
	"":                 {"format", "yard", "piece"},
	"yard":             {"country"},
	"piece":            {"id", "kind", "marking", "origin", "history", "made", "first_use", "?length"},
	"piece.layer":      {"name", "fibre"},
	"person":           {"id", "?since"},
	"use":              {"from", "?week", "?weekdays"},
	"run":              {"kind", "by", "from", "to", "weekdays", "look"},
	"run.look":         {"look", "?covers"},
	"examination":      {"kind", "day", "by"},
	"examination.look": {"look", "?covers"},
	"examination.sign": {"?sign", "?at"},
	"event":            {"day", "event"},
	"answer":           {"day", "to", "verified", "by"},
	"change":           {"day", "what", "by", "?zones"},
}

// optional tells the keys of required that this record need not have.
func optional(path, key string, entry map[string]any, lengthwise bool) bool {
	_, stored := entry["store"]
	_, state := entry["state"]
	switch path + "." + key {
	case "piece.length":
		return !lengthwise
	case "person.since":
		return entry["role"] != "examiner" && entry["role"] != "competent person"
	case "use.week":
		return stored
	case "use.weekdays":
		return stored || entry["week"] == "unknown"
	case "run.look.covers", "examination.look.covers":
		return entry["look"] == "ask" || entry["look"] == "read"
	case "examination.sign.sign", "examination.sign.at":
		return state || entry["at"] == "whole"
	}
	return false
}

// enough is how often a key is taken out of the records of one kind.
const enough = 3

// TestRequiredKeys takes each required key out of records of every kind, one
// after the other. The record must not be read any more, and a fault must name
// the key.
func TestRequiredKeys(t *testing.T) {
	tb := tables.Default()
	taken := map[string]int{}
	for _, c := range all(t) {
		var tree map[string]any
		if err := json.Unmarshal(record.Encode(c.Record), &tree); err != nil {
			t.Fatal(err)
		}
		lengthwise := tb.Kind(c.Record.Piece.Kind).Axis == "length"
		walk("", "", tree, func(path, field string, entry map[string]any) {
			for _, key := range required[path] {
				sure := key[0] != '?'
				if !sure {
					key = key[1:]
				}
				value, there := entry[key]
				if optional(path, key, entry, lengthwise) {
					continue
				}
				if !there {
					if sure {
						t.Errorf("%s: %s has no %s", c.Name, field, key)
					}
					continue
				}
				of := string(c.Record.Piece.Kind) + " " + path + "." + key
				if taken[of]++; taken[of] > enough {
					continue
				}
				delete(entry, key)
				text, err := json.Marshal(tree)
				entry[key] = value
				if err != nil {
					t.Fatal(err)
				}
				taken[path+"."+key]++
				name := key
				if path == "run" && key == "look" {
					name = "looks" // the shorter of the two ways to write them is asked for
				}
				if field != "" {
					name = field + "." + name
				}
				r, faults := record.DecodeJSON("record", text, tb)
				named := false
				for _, f := range faults {
					named = named || f.Field == name
				}
				if r != nil || !named {
					t.Errorf("%s without %s: read %v, faults %v", c.Name, name, r != nil, faults)
				}
			}
		})
	}
	for path, keys := range required {
		for _, key := range keys {
			if key[0] == '?' {
				key = key[1:]
			}
			if taken[path+"."+key] == 0 {
				t.Errorf("no record of the corpus has %s in %q to take out", key, path)
			}
		}
	}
}

// walk visits every table of a tree: path without numbers, field with them.
func walk(path, field string, entry map[string]any, visit func(path, field string, entry map[string]any)) {
	visit(path, field, entry)
	for key, value := range entry {
		p, f := key, key
		if path != "" {
			p, f = path+"."+key, field+"."+key
		}
		switch v := value.(type) {
		case map[string]any:
			walk(p, f, v, visit)
		case []any:
			for i := range v {
				if m, ok := v[i].(map[string]any); ok {
					walk(p, f+"["+strconv.Itoa(i)+"]", m, visit)
				}
			}
		}
	}
}
