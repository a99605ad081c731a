// Package towline is a rod as it is rigged, set and doubted: what all calculations about one have in common. It makes a
// line of the rig (package line), solves it with its inputs as given and a little off, and makes bands of that. Steady
// towing is in package steady, steady turns in turn, what happens in time in motion; package sample has rods for the tests.
//
// All values are SI, angles radians. Errors are codec.Problems that name the field of the request.
package towline
