// Package conformance is what every engine that keeps the store has to pass: one suite, run by the tests of each.
package conformance

import (
	"flag"
	"testing"

	"wirewake/server/store/tables"
	"wirewake/server/store/tables/db"
)

// Kept is the store of a boat, with the database under it for what no store does by itself.
type Kept struct {
	*tables.Store
	DB *db.DB
}

// Engine is one under test.
type Engine struct {
	// Fresh opens the store of a boat that is new.
	Fresh func(t testing.TB) Kept
	// Beside opens the same once more, as another process does.
	Beside func(t testing.TB, k Kept) Kept
	// Copy copies all that is kept of a boat; what it gives closes the store and opens it as it was then.
	Copy func(t testing.TB, k Kept) (putBack func(t testing.TB) Kept)
}

// Run runs the suite over an engine.
func Run(t *testing.T, e Engine) {
	Lighten()
	for name, test := range map[string]func(*testing.T, Engine){
		"EntriesAreNumberedAndComeBackAsTheyWere":          entriesAreNumberedAndComeBackAsTheyWere,
		"WhatCannotBeTaken":                                whatCannotBeTaken,
		"WhatAnotherPhoneBringsIsShownAsBrought":           whatAnotherPhoneBringsIsShownAsBrought,
		"WhateverMayBeSaidIsKept":                          whateverMayBeSaidIsKept,
		"ManyTakersAtOnce":                                 manyTakersAtOnce,
		"WhatComesAtOnceIsJudgedInTurn":                    whatComesAtOnceIsJudgedInTurn,
		"WhatWasBroughtCountsOn":                           whatWasBroughtCountsOn,
		"HowTheLogStandsIsToldAtOnce":                      howTheLogStandsIsToldAtOnce,
		"TwoProcessesTakeByTurns":                          twoProcessesTakeByTurns,
		"AfterClosingNothingIsWritten":                     afterClosingNothingIsWritten,
		"AChangeThatFailsFailsAlone":                       aChangeThatFailsFailsAlone,
		"AGuestSeesOneTripAndNeverStalls":                  aGuestSeesOneTripAndNeverStalls,
		"PagesHoldAllOfItOnce":                             pagesHoldAllOfItOnce,
		"ACursorThatTheLogDoesNotHoldGetsAnotherEpochOnce": aCursorThatTheLogDoesNotHoldGetsAnotherEpochOnce,
		"MissingEntriesOfAPhoneAreNoticed":                 missingEntriesOfAPhoneAreNoticed,
		"NothingIsMissingByAGuestsCount":                   nothingIsMissingByAGuestsCount,
		"SomebodyMay":                                      somebodyMay,
		"Crew":                                             crew,
		"Guests":                                           guests,
		"WhoIsShutOutBringsNothing":                        whoIsShutOutBringsNothing,
		"WhatIsTheCrewsNoGuestWrites":                      whatIsTheCrewsNoGuestWrites,
		"ANamedPhotoIsNotShownForItsName":                  aNamedPhotoIsNotShownForItsName,
		"AGuestProposesWhatCanBeHeld":                      aGuestProposesWhatCanBeHeld,
		"AGuestProposesNothingThatIsTheCrewsToSay":         aGuestProposesNothingThatIsTheCrewsToSay,
		"VerifyFindsWhatWasTamperedWith":                   verifyFindsWhatWasTamperedWith,
		"NobodyStaysPastWhatIsThereAgain":                  nobodyStaysPastWhatIsThereAgain,
		"WhatIsOneTripIsSeenAgainOnceThatIsMended":         whatIsOneTripIsSeenAgainOnceThatIsMended,
		"WhatTheDiskSpoiltIsWithheldAndMended":             whatTheDiskSpoiltIsWithheldAndMended,
		"WhatTheDiskSpoiltIsNotForged":                     whatTheDiskSpoiltIsNotForged,
		"WhatTheDiskSpoiltIsMendedByAnother":               whatTheDiskSpoiltIsMendedByAnother,
		"ASpoiltRowRefusesNoAmendment":                     aSpoiltRowRefusesNoAmendment,
		"TheSlowLookFindsAndMends":                         theSlowLookFindsAndMends,
		"OriginsAreKept":                                   originsAreKept,
		"AddressesAreKept":                                 addressesAreKept,
		"WhoAsksIsAnswered":                                whoAsksIsAnswered,
		"PhotosOnTheirWay":                                 photosOnTheirWay,
		"HomeIsBroughtTogether":                            homeIsBroughtTogether,
		"WhatWasPutBackHasAnotherEpoch":                    whatWasPutBackHasAnotherEpoch,
		"ChangesAreTold":                                   changesAreTold,
		"AnyOrderOfThings":                                 anyOrderOfThings,
	} {
		t.Run(name, func(t *testing.T) { test(t, e) })
	}
}

// Lighten has properties tried fewer times than they are by themselves, unless somebody asks for more: each time takes
// databases.
func Lighten() {
	if checks := flag.Lookup("rapid.checks"); checks.Value.String() == checks.DefValue {
		_ = checks.Value.Set("10")
	}
}
