//go:build race

package corpus

// raced says that the race detector is on.
const raced = true
