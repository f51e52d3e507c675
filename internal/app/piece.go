package app

import (
	"context"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// AddPiece registers a piece.
func (a *App) AddPiece(ctx context.Context, who Who, p kit.Piece) (Written, error) {
	a = a.still()
	if p.ID == "" {
		return Written{}, fail(Invalid, "Give the piece the yard's own number or name for it.")
	}
	return a.put(ctx, who, draft{kind: entry.Piece, piece: p.ID, day: a.Today(), body: &p, check: func(s *fold.State) error {
		if s.Piece(p.ID) != nil {
			return fail(Conflict, "The piece “%s” is in the book already.", p.ID)
		}
		return nil
	}})
}

// AmendPiece says what is known of a piece now: a marking worn off, a length
// measured anew. Its kind stays. What it is fitted to and where it hangs have entries
// of their own. It is for a competent person: dates, life, layers and marking are reasons.
func (a *App) AmendPiece(ctx context.Context, who Who, p kit.Piece, why string) (Written, error) {
	a = a.still()
	if why == "" {
		return Written{}, fail(Invalid, "Say why the description changes.")
	}
	return a.put(ctx, who, draft{kind: entry.Amend, piece: p.ID, day: a.Today(), body: &fold.Amend{Piece: record.EncodePiece(&p), Why: why}, check: a.there(p.ID)})
}

// there checks that a piece is in the book.
func (a *App) there(id string) func(*fold.State) error {
	return func(s *fold.State) error {
		_, err := pieceOf(s, id)
		return err
	}
}

// pieceOf gives a piece that is in the book; NotFound where it is not.
func pieceOf(s *fold.State, id string) (*fold.Piece, error) {
	if p := s.Piece(id); p != nil {
		return p, nil
	}
	err := fail(NotFound, "No piece “%s” is in the book.", id)
	err.Lacks = "piece"
	return nil, err
}

// memberOf gives somebody who is, or was, in the yard; NotFound where nobody is.
func memberOf(s *fold.State, id string) (*fold.Member, error) {
	if m := s.Member(id); m != nil {
		return m, nil
	}
	err := fail(NotFound, "Nobody “%s” is on record in this yard.", id)
	err.Lacks = "person"
	return nil, err
}
