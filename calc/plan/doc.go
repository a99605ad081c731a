// Package plan proposes how to set the spread: a drail and the line out for each rod, so that the lures ride the wanted
// band at different distances astern, with the drails aboard.
//
// In a straight tow every line lies in its own upright plane behind its tip, so lines keep the distance that their tips
// have abeam, and more where they do not cross seen from the side. Then the usual turn is looked at, to either side: where
// it lays a lure on the bottom or brings lines together, every lure is aimed higher in the band or spaced further apart
// astern, if that helps; else the plan says what the turn does.
//
// What is weighed against what is a judgement: a lure on the edge of the band costs 1, one that rides beside another
// costs 10, a lure that cannot reach the band more than everything else together. Common practice, no source: the farther
// outboard, the farther astern, the inner lines shorter and heavier below them; the farthest goes out first and comes in
// last; one person steers and each other one can tend two rods.
//
// All values are SI. Errors are codec.Problems that name the field of the request.
package plan
