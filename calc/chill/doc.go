// Package chill keeps fish cold: how much ice a day takes, how cold and salt the slush is, how long the thickest part
// of a fish takes to cool, and what the temperatures of a day do to its keeping.
//
// Everything is an estimate. The balance of heat takes box, sea water, fish and ice as well mixed; a fish gives up its
// warmth at once when it comes in, which asks for the ice a little early and never too late. The fish that cools is an
// infinite bar of elliptic section in a bath of one temperature. The heat of flesh that freezes in strong slush is in
// neither; it takes more ice, and the slush thins until it freezes less.
//
// Masses are in kg, lengths in m, times in s, temperatures in °C. Intervals hold 90 % as far as the doubts named here
// go. Errors are codec.Problems that name the field of the request.
package chill
