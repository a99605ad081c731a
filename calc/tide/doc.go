// Package tide predicts heights and currents at NOAA's stations from their harmonic constants.
//
// A height or speed is a mean and a sum of f·H·cos(V + u − κ) over the constituents, with V and the moon's node in f and
// u after P. Schureman, Manual of Harmonic Analysis and Prediction of Tides (US Coast and Geodetic Survey, Special
// Publication 98, 1940), f and u of the middle of each UTC year throughout it, as in NOAA's own predictions. Subordinate
// stations are told from a reference station by times and ratios.
//
// A station gives a current along one line, forward in flood and back in ebb, not a turning one: no constants across that
// line are published. The two directions need not be opposite.
//
// What a prediction does not know is the weather: 10 hPa of pressure is about 0.1 m of height, and wind moves both water
// and turns. The stations come in a Table, read once from what tools/tides made. Times are seconds since 1970 in UTC;
// all else is SI. Errors are codec.Problems that name the field of the request.
package tide
