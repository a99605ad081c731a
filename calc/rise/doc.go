// Package rise looks ahead of the lures: what the sounder has read is what they come to.
//
// Without courses the boat is taken to have gone straight on at steady speed: the lure comes to where the sounder read as far back along
// the track as it is astern, or so long ago as it takes the boat to go that distance. With them it lies along the boat's path through
// the water, in a turn inside of it, while the current carries boat, line and all (trail.go): it passes beside where the water was
// sounded, with the more doubt of the ground the farther aside. In a turn the line sinks or rises as the steady turn has it
// (towline/turn), in a young one the deeper of before and after counts. Between two soundings the bottom is taken to be straight. That
// the line comes nearer when it is taken in or the boat goes faster is not counted, nor that she went slower through the water before.
//
// All values are SI. Errors are codec.Problems that name the field of the request.
package rise
