// Command kernbook-wasm is the core for places without a server: bytes in,
// bytes out, and nothing else. Built for js it answers calls of a page.
package main

import (
	"syscall/js"

	"kernbook/internal/answer"
	"kernbook/internal/tables"
)

// The page calls kernbookDecide(record) with a record as a JSON string and gets
// the outcome, or the faults of the record, as a JSON string. kernbookBench(call)
// takes a call of the bench as a JSON string and gives its sheet, or the faults;
// kernbookSheet(call) gives the sheet as the part of a page.
func main() {
	t := tables.Default()
	js.Global().Set("kernbookDecide", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 1 || args[0].Type() != js.TypeString {
			return string(answer.Refuse(nil))
		}
		out, _ := answer.Decide(t, "record", []byte(args[0].String()))
		return string(out)
	}))
	js.Global().Set("kernbookBench", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 1 || args[0].Type() != js.TypeString {
			return string(answer.Refuse(nil))
		}
		out, _ := answer.Bench(t, []byte(args[0].String()))
		return string(out)
	}))
	js.Global().Set("kernbookSheet", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 1 || args[0].Type() != js.TypeString {
			return string(answer.BenchPart(t, nil))
		}
		return string(answer.BenchPart(t, []byte(args[0].String())))
	}))
	if ready := js.Global().Get("kernbookReady"); ready.Type() == js.TypeFunction {
		ready.Invoke(t.Version)
	}
	select {}
}
