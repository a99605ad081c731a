// Package steady tells of rods towed on a straight course at a steady speed: where every lure of the spread rides and what
// to do, the line out, the drail or the speed for a depth, and a card of depths to print.
//
// All values are SI, angles radians. Errors are codec.Problems that name the field of the request.
package steady
