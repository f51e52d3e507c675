package web

import (
	"strings"

	"kernbook/internal/core/criteria"
	"kernbook/internal/lang"
)

// onPage is the catalogue as the pages tell an outcome: where a sentence speaks of
// the keys of a record's file, or of options of the command, the section of the
// pages has one that names the page and the field instead.
type onPage struct{ *lang.Catalogue }

// pageKey begins the keys of these sentences; the key they stand for follows.
const pageKey = "web.page."

// inside are sentences that stand as a value inside others.
var inside = []string{"runs.none"}

// Say implements report.Words.
func (c onPage) Say(key string, args ...criteria.Arg) string {
	if c.Has(pageKey + key) {
		key = pageKey + key
	}
	said := c.Catalogue.Say(key, args...)
	for _, k := range inside {
		said = strings.ReplaceAll(said, c.Catalogue.Say(k), c.Catalogue.Say(pageKey+k))
	}
	return said
}
