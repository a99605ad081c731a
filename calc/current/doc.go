// Package current finds the boat's speed through the water and the set and drift of the current from velocities
// over ground, and steers by them.
//
// Velocity over ground is velocity through the water plus current. On different headings at steady throttle the
// tips of the ground velocities therefore lie on a circle: its centre is the current, its radius the speed through
// the water. No compass is needed. Steady leeway counts as current.
//
// What a receiver cannot tell: a boat loses speed in a turn, and the speed found is that of the turn; so turn
// widely, two minutes for the whole circle, and begin to sample when already turning. A receiver that smooths its
// fixes over t seconds shrinks the radius by half the square of (rate of turn × t), 1 % at 4° a second and 2 s.
// A change of throttle looks much like a current: with fixes good to 0.1 m/s one of a tenth of the speed passes
// mostly unnoticed, one of a sixth is mostly found; of a boat whose own speed wanders larger
// ones pass too.
//
// Bearings are in radians clockwise from north, velocities in m/s, times in seconds. Intervals hold 90 %. Errors
// are codec.Problems that name the field of the request; that there is no answer yet is an answer, with why.
package current
