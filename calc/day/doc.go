// Package day lays the water ahead side by side: for a place and a time the tide, the current, the light, how the boat
// can hold a wanted speed on a wanted track, and the line out that keeps the lures where they are wanted over the bottom
// as the water rises and falls; and for moments past the hour of the tide.
//
// It judges nothing: what fish prefer is the skipper's to know. All of it is computed, not official, not for
// navigation. Times are seconds since 1970 in UTC; all else is SI. Errors are codec.Problems that name the field.
package day
