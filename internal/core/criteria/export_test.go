package criteria

// OwnLines are the lines that rules of this package cite by themselves, for the
// test that the tables hold them.
var OwnLines = []string{lAbsolute, lFall, lDoubt, lMarking, lOverdue, lLife, lSooner, lSubstance, lAltered, lDeclaration, lSecondHand,
	lEarliest, lFirstUse, lUntraced, lNoLimit, lInterval, lFirst, lProof, lNotUsed, lCompetent, lBetween, lSigned, lIndependent, lGains, lCounted, lLawAsked, lConsent, lRelease, lReturned, lMarked,
	lObsolete, lAskedAlways, lRow1, lRow4, lRow6a, lWrongPart, lBridge, lSubstances, lFallTravel, lFallPeak, lHeld, lStitch}
