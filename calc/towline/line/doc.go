// Package line computes the shape and the pull of one line, or a tree of lines, towed in steady water.
//
// Frame: it moves with the boat; x forward, z up, s along the line from its free end up. The stream U(z) runs
// aft. An element of line with unit tangent t (up the line), diameter d and weight in water per length w feels
//
//	f = ½ρ·Cn·d·|u_n|·u_n + ½ρ·π·d·Ct·|u_t|·u_t − w·z
//
// where u_t and u_n are the parts of the stream along and across it (cross-flow principle; Choo and
// Casarella's independent normal and tangential loading). An inextensible line without bending stiffness then
// obeys dT/ds = −f for its tension vector T, with T at the free end the opposite of all forces on the lure.
// Straight tow in a uniform stream is therefore an initial-value problem from the lure up: the same solution
// serves every length of line. Above the water the line hangs as a catenary; line out is measured from the rod
// tip, so a high tip keeps line out of the sea.
//
// In a steady turn the frame turns with the boat. The line then moves through the water at Ω × r, and what holds an
// element on its circle is added: with a = −Ω²·r, m·a for its own mass and mₐ·(a − (a·t)·t) for the water it takes along
// across itself; a body adds its mass with that of its water times a. The part in the air hangs as on a straight course;
// what its circling does to it is left out.
//
// Cn follows, unless given, from White's fit for a smooth circular cylinder, Cn = 1 + 10·Re^(−2/3), with the
// Reynolds number of the normal flow (White, Viscous Fluid Flow; valid for 1 < Re < 2·10⁵; from memory).
//
// All values are SI, angles radians. Errors are codec.Problems that name the field of the request.
package line
