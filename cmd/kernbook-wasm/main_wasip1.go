// Command kernbook-wasm is the core for places without a server: bytes in,
// bytes out, and nothing else. Built for wasip1 it is the artefact by which an
// old outcome can be recomputed: one record as JSON per line on standard input,
// one outcome (or list of faults) per line on standard output.
package main

import (
	"bufio"
	"bytes"
	"fmt"
	"os"

	"kernbook/internal/answer"
	"kernbook/internal/record"
	"kernbook/internal/tables"
)

// longest is the longest line that is read, in bytes. One that is a little too
// long for a record is told so; a longer one ends the program.
const longest = 2 * record.MaxSize

func main() {
	t := tables.Default()
	in := bufio.NewScanner(os.Stdin)
	in.Buffer(make([]byte, 1<<16), longest)
	out := bufio.NewWriter(os.Stdout)
	for in.Scan() {
		if len(bytes.TrimSpace(in.Bytes())) == 0 {
			continue
		}
		b, _ := answer.Decide(t, "record", in.Bytes())
		if _, err := out.Write(append(b, '\n')); err != nil {
			stop(err)
		}
		if err := out.Flush(); err != nil {
			stop(err)
		}
	}
	if err := in.Err(); err != nil {
		stop(err)
	}
}

func stop(err error) {
	fmt.Fprintln(os.Stderr, "kernbook:", err)
	os.Exit(4)
}
