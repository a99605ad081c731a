// Package sounder tells the bottom from what a sounder takes for it.
//
// A sounder now and then reads something else: fish, weed, its own wake, the second echo. Method: Hampel's identifier (F.
// R. Hampel, Journal of the American Statistical Association 69 (1974) 383) about a line instead of a level: the line by
// the median of the slopes between all pairs (H. Theil 1950; P. K. Sen, Journal of the American Statistical Association 63
// (1968) 1379) through what was taken for the bottom in the last seconds, and beyond three deviations by the median from it
// a reading is set aside. Three in a row that agree with each other are the bottom all the same: a ledge, or a bank of fish
// so thick that the sounder sees nothing below it, which nobody can tell from here. So a single false echo never counts,
// two neither, and shoal ground that is there counts with its third reading.
//
// Depths are m, times s. Errors are codec.Problems that name the field of the request.
package sounder
