// Package tables holds the data files of the judgement, built into the binary.
// Package internal/tables reads them.
package tables

import "embed"

// Files are the data files: the common ones, and one for each kind under kinds/.
//
//go:embed *.toml kinds/*.toml
var Files embed.FS
