package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
)

// Dropped gives the people of a record whose role Take would leave as the book has it,
// though the record says that they are in it since an earlier day: what they did from that
// day on then does not count as that of their role.
func (a *App) Dropped(ctx context.Context, r *kit.Record) ([]kit.Person, error) {
	var out []kit.Person
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		for _, p := range r.People {
			m := s.Member(p.ID)
			if m == nil || p.Since == 0 || p.Role == "" {
				continue
			}
			was, ok, err := m.On(p.Since)
			if err != nil {
				return err
			}
			if !ok || was.Role != p.Role && !(was.Competent() && p.Competent()) {
				out = append(out, p)
			}
		}
		return nil
	})
	return out, err
}
