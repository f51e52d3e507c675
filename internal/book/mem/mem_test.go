package mem

import (
	"fmt"
	"sync"
	"testing"

	"kernbook/internal/book"
	"kernbook/internal/book/booktest"
)

func TestSuite(t *testing.T) {
	var mu sync.Mutex
	places := map[string]*Store{}
	booktest.Run(t, booktest.Engine{
		Fresh: func(testing.TB) string {
			mu.Lock()
			defer mu.Unlock()
			place := fmt.Sprint(len(places))
			places[place] = New()
			return place
		},
		Open: func(place string) (book.Store, error) {
			places[place].Reopen()
			return places[place], nil
		},
		Full: func(testing.TB) book.Store { return Limited(1 << 20) },
	})
}
