package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// identity enters a marking that cannot be read: set aside while the
// records prove what the piece is, withdrawn where nothing does. A marking that
// nobody has spoken of counts as unreadable; one read in part sets aside.
func (j *judge) identity() {
	p := &j.r.Piece
	if p.Marking == "readable" || j.answer(qty.FirstDay, inWriting, QIdentity) != nil {
		return
	}
	x := Reason{Row: "2", Verdict: kit.SetAside, ID: lMarking, Lines: []string{lMarked}, Key: "identity.provable",
		Args: []Arg{{"marking", p.Marking}, {"proof", p.Proof}}, Question: QIdentity}
	switch {
	case p.Proof != "":
	case p.Marking == "partly":
		x.Key = "identity.partly"
	default:
		x.Verdict, x.Key, x.Lines = kit.Withdraw, "identity.unproven", []string{lMarked, lUntraced}
	}
	j.add(x)
}

// assembly enters a part that its maker does not allow where it is fitted, or
// of which nobody knows whether it is. Only the maker's word answers; a plain
// "no" is answered by taking it out, which is a new record.
func (j *judge) assembly() {
	f := &j.r.Piece.Fitted
	if f.In == "" && (!j.k.Fitted || j.r.Piece.StoredIn == "store") && f.Allowed != kit.SaidNo {
		return
	}
	if f.In != "" && f.Allowed == kit.SaidYes {
		return
	}
	x := Reason{Row: "2", Verdict: kit.SetAside, ID: lConsent, Lines: []string{lWrongPart, lDoubt}, Key: "assembly.not-known",
		Args: []Arg{{"in", f.In}}, Question: QAssembly, Status: table.CommonPractice}
	switch {
	case f.Allowed == kit.SaidNo:
		x.Key, x.Fact = "assembly.not-allowed", true
	case j.answer(qty.FirstDay, inWriting, QAssembly) != nil:
		return
	case f.In == "":
		x.Key = "assembly.not-said"
	}
	j.add(x)
}

// ownHistory reports whether the history is said to be wholly known; what was
// found has none.
func (j *judge) ownHistory() bool {
	return j.r.Piece.History == "known" && j.r.Piece.Origin != "found"
}

// origin enters a history not wholly known (L-12) and a piece from elsewhere
// without proof of its last examination (R-13, D-05). An origin that nobody has
// spoken of counts as elsewhere.
func (j *judge) origin() {
	p := &j.r.Piece
	if !j.ownHistory() && j.answer(qty.FirstDay, inWriting, QHistory) == nil {
		x := Reason{Row: "2", Verdict: kit.Withdraw, ID: lUntraced, Lines: []string{lSecondHand}, Key: "history.unknown",
			Args: []Arg{{"origin", p.Origin}, {"history", p.History}}, Question: QHistory}
		if p.Traced != "" {
			x.Verdict, x.Key = kit.SetAside, "history.traced"
			x.Args = append(x.Args, Arg{"traced", p.Traced})
		}
		j.add(x)
	}
	if p.Origin == "new" || j.proven() {
		return
	}
	if _, ok := j.thorough(); ok {
		return
	}
	j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lSecondHand, Lines: []string{lFirst, lProof}, Key: "origin.no-proof",
		Args: []Arg{{"origin", p.Origin}}, Question: QProof})
}
