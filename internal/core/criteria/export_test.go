package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// OwnLines are the lines that rules of this package cite by themselves, for the
// test that the tables hold them.
var OwnLines = []string{lAbsolute, lFall, lDoubt, lMarking, lOverdue, lLife, lSooner, lSubstance, lAltered, lDeclaration, lSecondHand,
	lEarliest, lFirstUse, lUntraced, lNoLimit, lInterval, lFirst, lProof, lNotUsed, lCompetent, lBetween, lSigned, lIndependent, lGains, lCounted, lLawAsked, lConsent, lRelease, lReturned, lMarked,
	lObsolete, lAskedAlways, lRow1, lRow4, lRow6a, lWrongPart, lBridge, lSubstances, lFallTravel, lFallPeak, lHeld, lStitch}

// Life gives the end of the piece's life: the earliest day of all rules. The
// piece is past its life from that day on.
func Life(t *table.Tables, r *kit.Record) Due { return newJudge(t, r).life() }

// Interval gives the day on which the next examination of a kind is due at the
// latest; it is overdue from the day after.
func Interval(t *table.Tables, r *kit.Record, exam kit.ExamKind) Due {
	return newJudge(t, r).interval(exam)
}

// Told gives the events that are on record only as a yes to a question of the
// look "ask": nothing else is known of them, so each counts as the worst.
func Told(t *table.Tables, r *kit.Record) []kit.Event { return newJudge(t, r).told() }
