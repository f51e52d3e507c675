package qty

// Error says why a typed value was refused.
type Error struct {
	Typed string // what was typed
	What  string // what is wrong with it, the end of a sentence that begins with the typed text
	Mend  string // how to write it
}

// Error gives the whole sentence: “5 furlongs”: the unit … is not known — write ….
func (e *Error) Error() string {
	return "“" + e.Typed + "” " + e.What + " — " + e.Mend
}

func refuse(typed, what, mend string) *Error {
	const longest = 60
	if r := []rune(typed); len(r) > longest {
		typed = string(r[:longest]) + "…"
	}
	return &Error{Typed: typed, What: what, Mend: mend}
}
