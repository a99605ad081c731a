// Package sentence reads what a boat's instruments say: lines of NMEA 0183 (IEC 61162-1), text in, quantities in SI out.
//
// A line is taken only whole: begun by $, printable, no longer than the standard's 82 characters, with a checksum that is
// right. A tag block before it (NMEA 0183 4.10) is read for its source and its time; its own checksum must be right. What
// is proprietary, encapsulated or of no use here is passed over, which is no fault. Fields may be empty; one that cannot
// be read makes nothing of the whole line. What no boat does is told as nonsense, and never as a value.
//
// The protocol bears no proof of who speaks: whatever it says may be wrong or forged. So each quantity has bounds, a rate
// beyond which a change is a jump, and an age beyond which it says nothing any more.
//
// Angles are radians clockwise from north, or from the bow; speeds m/s; depths m; temperatures °C; a time of the day is in
// seconds from midnight and a date in days since 1 January 1970, both UTC.
package sentence
