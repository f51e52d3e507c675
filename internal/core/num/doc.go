// Package num holds numerics that agree to the last bit on every machine.
//
// The functions of Go's math package do not: some machines have an assembly
// form of Exp or Log, and some (arm64, riscv64, ppc64le, s390x, amd64 at level
// v3) let the compiler fuse x*y + z into one instruction with one rounding
// instead of two. An outcome decided on a phone and recomputed on a server
// would then differ in its last digits.
//
// Here every function is built only from operations that IEEE 754 defines to
// the last bit: + - * / and Sqrt, rounded to nearest even, and moves between a
// float64 and its bits. Every product is wrapped in float64(), which the Go
// language specification ("Floating-point operators") names as the way to
// forbid fusing. The compiled code is searched for fused instructions by the
// tests of internal/arch, and the same golden hash of result bits is checked
// natively, in WebAssembly and on arm64 by the tests of this package.
//
// Methods: Exp and Pow reduce the argument by a table of 2^(j/32)
// (P. T. P. Tang, "Table-driven implementation of the exponential function in
// IEEE floating-point arithmetic", ACM TOMS 15, 1989); Log and Pow by a
// table of log(j/128) (Tang, same title for the logarithm, ACM TOMS 16, 1990).
// The remainders are Taylor polynomials, and the leading terms are carried as
// unevaluated sums of two float64 (T. J. Dekker, "A floating-point technique
// for extending the available precision", Numerische Mathematik 18, 1971). The
// papers are cited from memory; the tables were computed anew, and the tests
// compute every entry again with math/big.
//
// Sin, Cos and Atan reduce by quarter turns and by a table of atan(k/16), and sum
// Taylor polynomials; the complete elliptic integrals come from the
// arithmetic-geometric mean; the normal, gamma and beta functions from their
// series and continued fractions; Root finds where a function changes its sign.
//
// Every function is pure and returns the same NaN (one fixed bit pattern)
// whenever it has no answer.
package num
