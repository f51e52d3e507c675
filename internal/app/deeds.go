package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Deed is what a person did about the use of a piece: one of fold.Stops, or a
// decision on an examination, with the outcome they chose.
type Deed struct {
	Day      qty.Day
	By       string
	Decision bool
	What     string
	Why      string
}

// Deeds gives what people did about a piece, in the order of the book. What a
// correction took out is left out.
func (a *App) Deeds(ctx context.Context, piece string) ([]Deed, error) {
	var out []Deed
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		for i := range p.Lines {
			l := &p.Lines[i]
			if l.Void || l.Kind != entry.Stop && l.Kind != entry.Decision {
				continue
			}
			v, err := fold.Decode(l.Kind, l.Version, l.Body)
			if err != nil {
				return err
			}
			d := Deed{Day: l.Day, By: l.Author}
			switch b := v.(type) {
			case *fold.Stop:
				d.What, d.Why = b.What, b.Why
			case *fold.Decision:
				d.Decision, d.What, d.Why = true, b.Verdict, b.Why
			}
			out = append(out, d)
		}
		return nil
	})
	return out, err
}
