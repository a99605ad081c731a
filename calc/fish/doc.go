// Package fish weighs a striped bass by its measures, and judges by rules of size and bag whether it may be kept.
//
// Rules are data: those here are defaults of a date, to begin with; the rules in force where and when somebody fishes
// come first. Without a rule for a species and its waters nothing is ever judged fit to be kept.
//
// Lengths are total lengths in m: mouth closed, tail squeezed, in a straight line. Masses are in kg. Intervals hold
// 90 % of fish as far as the spreads named here go. Errors are codec.Problems that name the field of the request.
package fish
