// Package beat finds the beat of the rod tip from taps, and learns from the skipper's own marks at which beat
// and speed a spoon works.
//
// Taps follow the beat with the hand's unsteadiness, which adds up from beat to beat, and the delays of finger and
// screen, which do not. Missed beats and double taps are told apart by the median interval.
//
// Beats are in Hz, speeds in m/s, times in seconds. Errors are codec.Problems that name the field of the request;
// that there is no answer yet is an answer, with why.
package beat
