// Package produced asks a season's record what brought fish, and whether that is more than chance.
//
// # What is counted
//
// A rod's line in the water is effort, in seconds; a strike is what fish answer with. Strikes that follow one another
// within School (300 s) are one event, told of the first: schools come at once, and their fish are one piece of news.
// Where a setting was not told, effort and strikes count as untold and nowhere else.
//
// # Rates
//
// A rate is events for effort, with Garwood's exact interval (Biometrika 28, 1936, 437). Days differ more than chance
// lets them; by how much is estimated from the trips, and a count that few days made is worth fewer events: the interval
// is that of so many. Levels of one factor are drawn towards each other as much as they look alike: a gamma prior of
// their rates, its mean and width learned from them (hierarchical Gamma–Poisson).
//
// # Comparisons
//
// In the School after a strike no event can begin, since what strikes then belongs to one that has: as with a counter that
// is dead for a while after each count, only the rest of the time is effort that counts in a comparison. Without that the
// hours in which most strikes come would tell the least of it.
//
// A level is compared with the others of its factor within the same trip and, within it, the same light: there the events
// of a stratum fall to the level with a chance that follows from the efforts alone if nothing matters. The number that did
// is judged by its exact distribution, the sum of the strata's binomials; from 300 events on by the saddlepoint formula of
// Lugannani and Rice (1980), which agrees to a hundredth. Its p-value is the mid-p one (Lancaster, JASA 56, 1961, 223). Trips
// that differ in what they say of a factor, over all its levels, widen it.
//
// What is the boat's, such as tide or speed, has nothing beside it at one time, and seldom changes within one light: it is
// compared within the same trip, and what the light is worth in all trips alike is taken from it by conditional logistic
// regression (Breslow and Day, The analysis of case-control studies, 1980, chapter 7). The efforts count times what their
// light is worth, and the variance is what the light's part leaves of it: that of the efficient score.
//
// What is better must be so at 2.5 % after all looks are paid for: all levels of all factors and pairs, by Holm (1979); the
// false discovery rate is that of Benjamini and Hochberg (1995). Half of 5 %, because a season is asked again and again
// while it goes on. At 5 % it must stand without the trip that speaks for it most, and within every other factor, whose
// part is taken beside the light's in the same way; where it cannot, since both always went together, they are named
// together, and where it does not, what it goes with is named.
//
// # Honest words
//
// Less than 60 events in a season: too early, and nothing is compared. Less than 10 at a level: a count; where the others
// have less, they are compared as long as 10 were to be expected of them. Less than 20 in a comparison, on either side: thin. (The National Center for Health Statistics calls rates from fewer than 20 events
// unreliable, US Cancer Statistics leaves out those from fewer than 16; the rest is a judgement.) Nothing is ever the
// best, or without difference.
//
// All values are SI. Errors are codec.Problems that name the field of the request.
package produced
