// Package turn tells of rods towed round a circle. The distance of each line's free end from the centre is found by
// secants, on the branch of solutions that begins at the straight tow; where that branch falls over an edge, the tow has
// collapsed and there is no number.
//
// All values are SI, angles radians. Errors are codec.Problems that name the field of the request.
package turn
