// Package plan proposes how to set the spread: a drail and the line out for each rod, so that the lures have the best
// chance to ride in the wanted band, touching no oftener than is accepted, at different distances astern, with the drails
// aboard. It goes by the same odds as the answer for a spread.
//
// In a straight tow every line lies in its own upright plane behind its tip, so lines keep the distance that their tips
// have abeam, and more where they do not cross seen from the side. Then the usual turn is looked at, to both sides: where
// in it a lure touches oftener than is accepted in a turn the plan is made again aimed higher, where it brings lines
// together farther apart.
//
// What is weighed against what is a judgement: a chance in the band less by a quarter counts as much as one lure right
// beside another; a chance to touch above the accepted one ten times as much. Common practice, no source: the farther
// outboard, the farther astern, the inner lines shorter and no lighter; the farthest goes out first and comes in last; one
// person steers and each other one can tend two rods. That order is left where it costs more than that, and the answer
// says why. It is asked among rods with drails: a three-way goes by the sinker that is on, and the others only keep their
// distance from it; where it is out of order for that, the answer says so. Who has far more line out than the rod beside
// is told why, and what backing goes out; a three-way lets none out, for it a heavier sinker is told first.
//
// All values are SI. Errors are codec.Problems that name the field of the request.
package plan
