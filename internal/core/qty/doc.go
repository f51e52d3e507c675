// Package qty holds the units of the tool as Go types: days, partly known
// dates, lengths, forces, masses, times of use, temperatures, calendar months
// and shares. All but Share are integers, so that a limit is compared exactly
// and alike on every machine.
//
// Numbers are typed with their unit ("58cm", "11,2 mm", "1/2in", "15kN").
// Decimal comma and decimal point are both taken; thousands separators never
// are, because "1,234" would have to be guessed. Every refusal is an *Error:
// what was typed, what is wrong with it, how to write it.
//
// The package is pure: no clock, no files, no randomness.
package qty
