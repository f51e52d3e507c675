// Package arch is tests only: they hold how the code is laid out.
//
//   - layers_test.go: imports point down only, by a table of what may not be
//     imported and why.
//   - pure_test.go: internal/core has no input or output, no clock, no
//     randomness, no goroutines, no hidden state, and no arithmetic that differs
//     between machines; by tables of what is banned and why.
//   - fused_test.go: the compiled code of internal/core, for machines that have
//     fused multiply-add instructions, contains none.
//
// Each check is itself checked on small bad sources, made up or under
// testdata, that it must find.
package arch
