// Package formats writes what was noted in formats that any program reads: GPX 1.1 (Topografix' schema), GeoJSON
// (RFC 7946), CSV (RFC 4180, UTF-8, units in the header, formulas defused) and iCalendar (RFC 5545). The same request
// makes the same bytes, whoever asks.
//
// Times are seconds since 1970 January 1, 0h UTC, positions degrees on WGS 84, all else SI. Errors are codec.Problems.
package formats
