package corpus

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"kernbook/internal/answer"
	"kernbook/internal/record"
	"kernbook/internal/tables"
)

const (
	mutants = 1000
	seed    = 20260601
)

// odd are values that no record should have, and some it may.
var odd = []any{nil, "", " ", "unknown", "yes", "no", "not known", "all", "whole", "0mm", "0.1mm", "-1mm", "99km", "1900", "2026-06", "2026-06-01", "2199-12-31",
	"1 in 1", "1 in 1000000", "0h", "168h", "0 months", "100 years", "0%", "100%", 0.0, 1.0, -1.0, 1e300, 5.0, true, false, []any{}, map[string]any{}, "end A", "body"}

// TestMutants changes records of the corpus at random, a thousand times: keys
// and entries taken out, doubled, exchanged, given values of other records or
// odd ones. Reading and deciding must never panic, and the answer must be JSON.
func TestMutants(t *testing.T) {
	rng := rand.New(rand.NewPCG(seed, 0))
	cases := all(t)
	pool := map[string][]any{}
	for _, c := range cases {
		gather(tree(t, record.Encode(c.Record)), pool)
	}
	decided, outcomes := 0, map[string]int{}
	for n := range mutants {
		c := cases[rng.IntN(len(cases))]
		m := tree(t, record.Encode(c.Record))
		edits := 1 + rng.IntN(4)
		for range edits {
			mutate(rng, m, pool)
		}
		text, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		out, ok, trouble := decideSafely(text)
		if trouble != nil {
			t.Errorf("seed %d, mutant %d of %s: panic: %v\n%s", seed, n, c.Name, trouble, text)
			continue
		}
		var told struct{ Outcome, Format string }
		if err := json.Unmarshal(out, &told); err != nil {
			t.Errorf("seed %d, mutant %d of %s: the answer is no JSON: %v\n%s", seed, n, c.Name, err, text)
		}
		if ok {
			decided++
			outcomes[told.Outcome]++
		} else if told.Format != answer.FaultsFormat {
			t.Errorf("seed %d, mutant %d of %s: the answer to what cannot be read is %.200s", seed, n, c.Name, out)
		}
	}
	t.Logf("seed %d: %d mutants, %d could be read and were decided: %v", seed, mutants, decided, outcomes)
	if decided < mutants/5 {
		t.Errorf("only %d of %d mutants could be read: the edits are too wild to try the judgement", decided, mutants)
	}
}

// decideSafely reads and decides a record; trouble is what it panicked with.
func decideSafely(text []byte) (out []byte, ok bool, trouble any) {
	defer func() { trouble = recover() }()
	out, ok = answer.Decide(tables.Default(), "record", text)
	return out, ok, nil
}

func tree(t *testing.T, text []byte) map[string]any {
	t.Helper()
	var m map[string]any
	if err := json.Unmarshal(text, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// gather collects the values of every key.
func gather(m map[string]any, pool map[string][]any) {
	for _, key := range slices.Sorted(maps.Keys(m)) {
		pool[key] = append(pool[key], m[key])
		switch v := m[key].(type) {
		case map[string]any:
			gather(v, pool)
		case []any:
			for _, x := range v {
				if x, ok := x.(map[string]any); ok {
					gather(x, pool)
				}
			}
		}
	}
}

// mutate makes one edit somewhere in a tree.
func mutate(rng *rand.Rand, root map[string]any, pool map[string][]any) {
	entry := pick(rng, root)
	keys := slices.Sorted(maps.Keys(entry))
	if len(keys) == 0 {
		return
	}
	key := keys[rng.IntN(len(keys))]
	list, _ := entry[key].([]any)
	switch edit := rng.IntN(10); {
	case edit < 2:
		delete(entry, key)
	case edit < 3:
		entry[key] = odd[rng.IntN(len(odd))]
	case edit < 4: // a key of some other place, with a value that it has somewhere
		others := slices.Sorted(maps.Keys(pool))
		other := others[rng.IntN(len(others))]
		entry[other] = copied(pool[other][rng.IntN(len(pool[other]))])
	case len(list) > 0 && edit < 5:
		entry[key] = append(slices.Clone(list), copied(list[rng.IntN(len(list))]))
	case len(list) > 0 && edit < 6:
		i := rng.IntN(len(list))
		entry[key] = slices.Delete(slices.Clone(list), i, i+1)
	case len(list) > 1 && edit < 7:
		list = slices.Clone(list)
		rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		entry[key] = list
	default:
		entry[key] = copied(pool[key][rng.IntN(len(pool[key]))])
	}
}

// pick goes down a tree to a table, by chance.
func pick(rng *rand.Rand, m map[string]any) map[string]any {
	var below []map[string]any
	for _, key := range slices.Sorted(maps.Keys(m)) {
		switch v := m[key].(type) {
		case map[string]any:
			below = append(below, v)
		case []any:
			for _, x := range v {
				if x, ok := x.(map[string]any); ok {
					below = append(below, x)
				}
			}
		}
	}
	if len(below) == 0 || rng.IntN(5) == 0 {
		return m
	}
	return pick(rng, below[rng.IntN(len(below))])
}

// copied gives a copy of a value that shares nothing with it.
func copied(v any) any {
	b, err := json.Marshal(v)
	if err != nil {
		panic(fmt.Sprint("a value of JSON that is none: ", err))
	}
	var out any
	if err := json.Unmarshal(b, &out); err != nil {
		panic(err)
	}
	return out
}
