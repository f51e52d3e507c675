//go:build !artefact

package artefact

var (
	packed []byte
	sum    string

	pagePacked, pageExec []byte
)
