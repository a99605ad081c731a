// Package light tells when sun and moon rise and set, when it dawns and is dark, and the moon's phase.
//
// Sun and moon are placed by the shorter series of J. Meeus, Astronomical Algorithms, 2nd ed., 1998, chapters 25 and 47: the
// sun to 0.01°, the moon, by the terms above 0.01°, to about 0.05°. They rise and set when the upper limb is on a sea
// horizon with the usual 34′ of refraction; an eye higher up sees the sun some seconds earlier, land and the day's air
// change more than that. Civil twilight ends with the sun's centre at 6° below, nautical at 12°.
//
// Times are seconds since 1970 in UTC, places on WGS 84, all else SI. Errors are codec.Problems that name the field of
// the request.
package light
