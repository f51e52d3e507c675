package arch

// A rule is one thing the checker of internal/core looks for.
type rule string

const (
	ruleImport   rule = "import"
	ruleMath     rule = "math"
	ruleFmt      rule = "fmt"
	ruleMaps     rule = "maps"
	ruleGo       rule = "go"
	ruleChan     rule = "chan"
	ruleSelect   rule = "select"
	ruleInit     rule = "init"
	ruleState    rule = "state"
	rulePrint    rule = "print"
	ruleProduct  rule = "product"
	ruleMapOrder rule = "map-order"
	ruleMachine  rule = "machine"
)

// reasons says why, for each rule. (Imports have reasons of their own below.)
var reasons = map[rule]string{
	ruleImport:   "the core is a calculation: what goes in is all it knows, what comes out is all it does",
	ruleMath:     "only functions that IEEE 754 defines to the last bit; for the others machines have forms of their own: use core/num",
	ruleFmt:      "only Errorf and Sprintf: printing is output, and scanning guesses",
	ruleMaps:     "a map's order is by luck: sort the keys (slices.Sorted(maps.Keys(m))), or say why order does not matter",
	ruleGo:       "goroutines make the order of work a matter of luck, and the phone has one thread",
	ruleChan:     "channels are for goroutines, and the core has none",
	ruleSelect:   "select chooses by luck",
	ruleInit:     "work at start-up is hidden work: it runs before anybody asked, and cannot be refused",
	ruleState:    "a package variable that changes makes the same question give another answer the second time",
	rulePrint:    "output, and on a stream nobody reads",
	ruleProduct:  "some machines round a*b + c once and others twice: write float64(a*b) + c",
	ruleMapOrder: "a map's order is by luck: sort the keys first, or say in a comment \"order does not matter: <why>\"",
	ruleMachine:  "the same source on every machine: no file for one system, no assembly, no tie to the compiler's inside",
}

// allowedImports is all that internal/core may import besides itself.
var allowedImports = map[string]string{
	"cmp":          "compares two values",
	"errors":       "makes and compares errors",
	"fmt":          "Errorf and Sprintf only",
	"iter":         "the types of sequences",
	"maps":         "copies and compares maps; order by luck is caught",
	"math":         "exact functions and constants only",
	"math/bits":    "whole numbers only",
	"slices":       "works on what it is given",
	"sort":         "works on what it is given",
	"strconv":      "prints and reads numbers the same everywhere",
	"strings":      "works on what it is given",
	"unicode":      "fixed tables",
	"unicode/utf8": "works on what it is given",
}

// bannedImports gives the reason for what is most likely to be tried; each is
// banned with all below it. What stands in neither table is refused too.
var bannedImports = []struct{ path, why string }{
	{"C", "another compiler, another arithmetic"},
	{"bufio", "input and output: whoever calls the core reads and writes"},
	{"context", "carries clocks and cancellation: a calculation ends by itself"},
	{"crypto/rand", "randomness: the same record must give the same outcome"},
	{"database", "storage: the core is given what was kept"},
	{"embed", "files: tables are read outside and handed in"},
	{"encoding", "forms of files: records and tables are read outside and handed in"},
	{"expvar", "hidden state, served over the network"},
	{"flag", "the command line belongs to the command"},
	{"hash/maphash", "seeded by luck at each start"},
	{"io", "input and output: whoever calls the core reads and writes"},
	{"log", "output: what matters is in the outcome, with its reasons"},
	{"math/big", "not needed for an outcome; tests use it as the reference"},
	{"math/cmplx", "no form of it is defined to the last bit"},
	{"math/rand", "randomness: the same record must give the same outcome"},
	{"net", "the network: and it trebles what a phone has to fetch"},
	{"os", "files, environment, processes: the core is given all it needs"},
	{"plugin", "code that nobody checked"},
	{"reflect", "walks maps by luck and hides what is used"},
	{"runtime", "what machine this is must not matter"},
	{"sync", "for goroutines, and the core has none"},
	{"syscall", "the operating system"},
	{"testing", "what is made for tests is not in the product"},
	{"time", "the clock and the local calendar: days are whole numbers (core/qty), and the as-of day is handed in"},
	{"unique", "hidden state"},
	{"unsafe", "shows how this machine lays out memory"},
	{"weak", "depends on when memory is tidied"},
}

// exactMath are the functions of package math that give the same bits on every
// machine: moves of bits, comparisons, and what IEEE 754 requires to be rounded
// correctly. Constants are free.
var exactMath = map[string]bool{
	"Abs": true, "Ceil": true, "Copysign": true, "Float32bits": true, "Float32frombits": true, "Float64bits": true,
	"Float64frombits": true, "Floor": true, "Frexp": true, "Inf": true, "IsInf": true, "IsNaN": true, "Ldexp": true,
	"Max": true, "Min": true, "Modf": true, "NaN": true, "Nextafter": true, "Round": true, "RoundToEven": true,
	"Signbit": true, "Sqrt": true, "Trunc": true,
}

// allowedFmt are the functions of package fmt that only make a string or an error.
var allowedFmt = map[string]bool{"Errorf": true, "Sprintf": true}

// luckyMaps are the functions of package maps that give keys or values in an
// order by luck.
var luckyMaps = map[string]bool{"All": true, "Keys": true, "Values": true}
