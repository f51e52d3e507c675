// Package seal keeps what is personal out of what is kept for ever. The book
// is never changed, so a name, a body mass or a telephone number stands in it
// only sealed, under a key of that one person (AES-256-GCM). Destroying the key
// is forgetting the person; everything else in the book stays as it is.
package seal

import (
	"crypto/aes"
	"crypto/cipher"
	"crypto/rand"
	"encoding/base64"
	"errors"
	"fmt"
)

// Key is one person's key.
type Key [32]byte

// Keys holds one key for each person. It lies beside the book, never in it.
type Keys interface {
	// Key gives a person's key; ErrForgotten where it was destroyed, and ErrNone, which
	// is one too, where there is no trace of one: it never was, or its file was lost.
	Key(person string) (Key, error)
	// Make gives a person's key, and makes it where there is none. A person who
	// was forgotten does not get a new one: ErrForgotten. It is for somebody of whom
	// nothing is sealed yet: a second key would open nothing of what is.
	Make(person string) (Key, error)
	// Destroy destroys a person's key for good. Doing it twice is no error.
	Destroy(person string) error
}

var (
	// ErrForgotten says that a person's key is not there any more.
	ErrForgotten = errors.New("this person has been forgotten: the key was destroyed")
	// ErrNone says that there is no trace of a person's key. It is an ErrForgotten.
	ErrNone = fmt.Errorf("there is no key of this person: %w", ErrForgotten)
	// ErrTampered says that a box was not sealed with this key for this place.
	ErrTampered = errors.New("what is sealed does not open: it was changed, or belongs elsewhere")
)

// Seal closes plain bytes under a key. The place says where the box belongs
// (the id of its entry and the person); a box moved elsewhere does not open.
func Seal(k Key, place string, plain []byte) (string, error) {
	a, err := aead(k)
	if err != nil {
		return "", err
	}
	nonce := make([]byte, a.NonceSize())
	if _, err := rand.Read(nonce); err != nil {
		return "", err
	}
	return base64.RawURLEncoding.EncodeToString(a.Seal(nonce, nonce, plain, []byte(place))), nil
}

// Open gives back what Seal closed.
func Open(k Key, place, box string) ([]byte, error) {
	a, err := aead(k)
	if err != nil {
		return nil, err
	}
	b, err := base64.RawURLEncoding.Strict().DecodeString(box)
	if err != nil || len(b) < a.NonceSize() {
		return nil, fmt.Errorf("%w: it is no sealed box", ErrTampered)
	}
	plain, err := a.Open(nil, b[:a.NonceSize()], b[a.NonceSize():], []byte(place))
	if err != nil {
		return nil, ErrTampered
	}
	return plain, nil
}

func aead(k Key) (cipher.AEAD, error) {
	c, err := aes.NewCipher(k[:])
	if err != nil {
		return nil, err
	}
	return cipher.NewGCM(c)
}
