package impure

import (
	_ "context" // bad: import
	"errors"
	"fmt"
	_ "gonum.org/v1/gonum/stat" // bad: import
	_ "io/fs"                   // bad: import
	_ "kernbook/internal/doc"   // bad: import
	_ "math/rand/v2"            // bad: import
	_ "net/http"                // bad: import
	_ "os"                      // bad: import
	_ "regexp"                  // bad: import
	_ "runtime"                 // bad: import
	_ "sync/atomic"             // bad: import
	_ "syscall"                 // bad: import
	_ "time"                    // bad: import
	_ "unsafe"                  // bad: import
)

func imported(x int) error {
	if x == 0 {
		return errors.New("nothing")
	}
	fmt.Println(x)           // bad: fmt
	show := fmt.Sprint       // bad: fmt
	_, err := fmt.Sscan("1") // bad: fmt
	if err != nil {
		return fmt.Errorf("%s: %w", fmt.Sprintf("%d", x), err)
	}
	return errors.New(show(x))
}
