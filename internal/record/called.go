package record

import (
	"errors"
	"strings"

	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

// countrySet are the countries of the tables, by their codes and by their names.
func countrySet(t *table.Tables) set {
	s := set{noun: "country of the tables", named: map[string]string{}}
	for i := range t.Countries {
		c := &t.Countries[i]
		s.ids = append(s.ids, c.Code)
		s.named[strings.ToLower(countryName(c))] = c.Code
		for _, name := range calledCountries[c.Code] {
			s.named[name] = c.Code
		}
	}
	s.ids = append(s.ids, unknown)
	return s
}

// Country says that a word is no code of a country of the tables, nor “unknown”, with the
// code that was meant, as GB for UK; nil where it is one.
func Country(code string, t *table.Tables) error {
	s := countrySet(t)
	if s.has(code) {
		return nil
	}
	what, mend := s.wrong(code)
	return errors.New(what + " — " + doc.Straight(mend))
}

// CalledKind gives the kind of piece that other words of the trade stand for, as
// connector for karabiner; "" for none.
func CalledKind(words string) string { return calledKinds[strings.ToLower(strings.TrimSpace(words))] }
