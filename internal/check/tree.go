package check

import (
	"crypto/sha256"
	"encoding/hex"
	"strconv"
)

type hash = [sha256.Size]byte

// tree is a Merkle tree after RFC 6962, section 2.1 (from memory: a leaf is
// hashed behind a byte 0, two halves behind a byte 1, the left half is the
// largest power of two below the size). It keeps the roots of its full halves,
// the largest first: one for each bit that is set in its size.
type tree struct {
	size   int64
	halves []hash
}

// add puts a leaf behind the last one and gives every hash that is full with it,
// from the leaf upwards: the order in which a book stores them.
func (t *tree) add(leaf []byte) []hash {
	h := sha256.New()
	h.Write([]byte{0})
	h.Write(leaf)
	var top hash
	h.Sum(top[:0])
	full := []hash{top}
	for n := t.size; n&1 == 1; n >>= 1 {
		last := len(t.halves) - 1
		top = join(t.halves[last], top)
		t.halves = t.halves[:last]
		full = append(full, top)
	}
	t.halves = append(t.halves, top)
	t.size++
	return full
}

// root gives the hash over all leaves.
func (t *tree) root() hash {
	if len(t.halves) == 0 {
		return sha256.Sum256(nil)
	}
	last := len(t.halves) - 1
	root := t.halves[last]
	for i := last - 1; i >= 0; i-- {
		root = join(t.halves[i], root)
	}
	return root
}

func join(left, right hash) hash {
	var b [1 + 2*sha256.Size]byte
	b[0] = 1
	copy(b[1:], left[:])
	copy(b[1+sha256.Size:], right[:])
	return sha256.Sum256(b[:])
}

// headText names a state of a book as its entries do; "" for an empty one.
func headText(size int64, root hash) string {
	if size == 0 {
		return ""
	}
	return strconv.FormatInt(size, 10) + ":" + hex.EncodeToString(root[:])
}
