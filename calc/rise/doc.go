// Package rise looks ahead of the lures: what the sounder has read is what they come to.
//
// A lure follows the boat's track over ground, so it comes to where the sounder read so far back along the track as it is
// astern; where that is not told, so long ago as it takes the boat to go that distance, on a straight course at steady
// speed. In a turn it keeps inside of the track and sinks or rises (towline/turn): it comes to where the sounder read as far back
// along the track as the turn has it behind, with the more doubt of the ground the farther inside it is. What the current does to
// the shape of the track in a turn is not counted. Between two soundings the bottom is taken to be straight. The line lies as in
// steady water; that it comes nearer when line is taken in or the boat goes faster is not counted.
//
// All values are SI. Errors are codec.Problems that name the field of the request.
package rise
