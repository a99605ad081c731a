// Package motion follows one rod's line in time, through a change of speed, line or course. The line is a chain of masses
// with inextensible pieces between them, under the same forces as in package line, stepped implicitly.
//
// All values are SI, angles radians. Errors are codec.Problems that name the field of the request.
package motion
