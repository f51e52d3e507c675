package record

import (
	"bytes"
	"path/filepath"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

// Decode reads a record written as TOML or as JSON: by the file's extension,
// and where that says neither, as JSON if it begins with a brace. It gives the
// record, or every fault of the file in the order of their places; never both.
func Decode(file string, b []byte, t *table.Tables) (*kit.Record, doc.Faults) {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".json":
		return DecodeJSON(file, b, t)
	case ".toml":
		return DecodeTOML(file, b, t)
	}
	if bytes.HasPrefix(bytes.TrimLeft(b, " \t\r\n"), []byte("{")) {
		return DecodeJSON(file, b, t)
	}
	return DecodeTOML(file, b, t)
}

// DecodeTOML reads a record written as TOML; see Decode.
func DecodeTOML(file string, b []byte, t *table.Tables) (*kit.Record, doc.Faults) {
	if f := tooLarge(file, b); f != nil {
		return nil, f
	}
	root, faults := doc.ParseTOML(file, b)
	return decode(file, root, faults, t)
}
