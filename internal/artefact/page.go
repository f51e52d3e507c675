package artefact

import (
	"crypto/sha256"
	"encoding/hex"
)

// Live is the core for a page: the js form of it, packed by gzip, the script of Go that
// runs it, and a word that is another for another of either.
type Live struct {
	Packed []byte
	Exec   []byte
	Sum    string
}

// Page gives the core for a page; nil when the binary was built without it.
func Page() *Live {
	if len(pagePacked) == 0 {
		return nil
	}
	return NewLive(pagePacked, pageExec)
}

// NewLive puts a packed core and its script together.
func NewLive(packed, exec []byte) *Live {
	h := sha256.New()
	h.Write(packed)
	h.Write(exec)
	return &Live{packed, exec, hex.EncodeToString(h.Sum(nil))[:16]}
}
