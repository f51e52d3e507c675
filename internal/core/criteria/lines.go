package criteria

// The lines that rules of this package rest on by themselves; everything else
// cites the lines of its row in the tables.
const (
	lAbsolute    = "R-01" // any absolute sign withdraws
	lFall        = "R-02" // a fall, a hard shock, a load dropped on it
	lDoubt       = "R-03" // any doubt sets aside
	lMarking     = "R-04" // marking that cannot be read
	lOverdue     = "R-05" // overdue, or out of the ordinary and not examined
	lLife        = "R-06" // past its end of life
	lSooner      = "R-07" // not yet a danger: with a date, then not used
	lSubstance   = "R-10" // contaminants
	lAltered     = "R-11" // alterations
	lDeclaration = "R-12" // new stock long after its declaration
	lSecondHand  = "R-13" // from another yard without proof
	lEarliest    = "L-10" // the earliest rule ends a life
	lFirstUse    = "L-11" // what stands in for a date that is not known
	lUntraced    = "L-12" // manufacture or history not known
	lNoLimit     = "L-09" // metal has no limit by the calendar
	lInterval    = "D-07" // intervals, and examination after exceptional circumstances
	lFirst       = "D-05" // before first use
	lProof       = "D-55" // evidence of the last inspection comes with it
	lNotUsed     = "D-17" // not used after the stated time
	lCompetent   = "D-04" // a thorough examination is a competent person's
	lBetween     = "D-08" // so is an inspection in between
	lSigned      = "D-13" // the report is signed
	lIndependent = "D-23" // the examiner is independent enough
	lGains       = "W-19" // whoever gains by keeping it does not examine it
	lCounted     = "D-120"
	lLawAsked    = "D-113" // law not known: the strictest
	lConsent     = "D-77"  // nothing changed without the maker's consent
	lRelease     = "D-76"  // written release after a fall
	lReturned    = "D-92"  // back in service only when found fit
	lMarked      = "D-75"  // what a marking holds
	lObsolete    = "D-81"  // end of life marked by the maker
	lAskedAlways = "W-10"  // a fall is asked for at every check
	lRow1        = "M-21"  // absolute reasons of the decision model
	lRow4        = "M-24"  // a required look not made
	lRow6a       = "M-26a" // growing wear, harmless contaminant washed out
	lWrongPart   = "M-07"  // what the maker does not allow at a place does not go into use there
	lBridge      = "M-03"  // a contaminant on a bridge, or suspicion of one
	lSubstances  = "M-30"  // what is a contaminant, and what is not
	lFallTravel  = "M-31"  // from which free travel on it is a fall
	lFallPeak    = "M-32"  // from which computed peak on it is a fall
	lHeld        = "M-39"  // withdrawn and held
	lOwnFirst    = "W-07"  // compare with the piece's own first record, not with the label
	lNewRope     = "P-45"  // how far a new rope is from its label
	lStitch      = "M-06"  // the stitch through the end of a rope
)
