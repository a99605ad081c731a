package towline

// What is taken for the drag of a line and of a spoon before this boat has told anything: a median, and a doubt as one
// standard deviation of the natural logarithm. This is the one place for them; prior_test.go does the sum.
//
// # The line
//
// Normal drag is LineDrag times that of a smooth cylinder by White's fit at the Reynolds number of the normal flow (80 to
// 120 for trolling wire). Published, as a factor on a smooth cylinder:
//
//   - quiet, smooth line: 1 by definition. The other fits (drag_test in package line) average 0.95; Taylor's normal force
//     of smooth cylinders at 6° (Proc. R. Soc. A 214 (1952) 158; from memory) gives 1.0; near the axis the force is said to
//     be more than the square of the sine (Ersdal and Faltinsen, J. Fluids Struct. 22 (2006) 1057; from memory).
//   - bare armoured cable, towed at its critical angle or with a body: one coefficient, 1.5, at all Reynolds numbers
//     ("Hydrodynamic Loading on Armored Towcables", abstract). A smooth cylinder there has 1.1 to 1.2 (handbook, from
//     memory): 1.3. It is the nearest to a trolled wire.
//   - line that strums: 1 + 1.043·(2·A/D)^0.65 (Vandiver) for root mean square amplitudes A of 0.2 to 0.35 diameters is
//     1.57 to 1.83; of a long vertical tow cable, which strummed, 2.2 to 2.5 was measured (J. Offshore Mech. Arct. Eng. 113
//     (1991) 117, abstract), over 1.15 about 2. Taken: 1.75.
//
// Nobody has told which of the three a trolled wire is. Each is given a third, with 0.15, 0.15 and 0.2 of its own, the
// doubt of the cross-flow principle at 6° included: 1.33, give or take 0.29.
//
// Common practice (no source) counts as one weak look. Its four sayings of 300 ft of wire at 3.3 kn (30 ft deep bare, 35
// with 4 oz, 40 with 8 oz, a three-way with 20 oz just touching in 60 ft) agree best with a factor of 1.4; they are
// one trade's, read off marks and felt, so ± 0.35. Together: 1.36, give or take 0.23. No saying has a factor of its own.
//
// # The spoon
//
// Its drag area is LureShare of its planform, taken as an ellipse. A spoon rolls and swings from side to side about the
// stream and so meets it at angles between 0 and the swing's amplitude. A plate of aspect ratio AR at an angle a has the
// normal coefficient (π/2)·AR·sin a·cos a + 1.17·sin² a: the lift of a slender plate (small aspect ratio) and the cross flow
// of a normal one, 1.1 to 1.2 (White; Hoerner; both from memory). The mean of its drag over a swing of 25° is 0.11 of the
// planform, of 50° 0.46; with 0.02 of friction 0.13 to 0.48. Swimming spoons swing so far, eight of ten of them (from
// memory): 0.25, give or take 0.49.
//
// A hand scale on a working rod shows 1.4 to 6 lb (from memory); this spoon would make it 1.7. Counted as a weak look at
// the spoon's drag, of which the pull follows the 0.6th power, it moves it to 0.3, give or take 0.43; taken 0.45.
//
// # Measured lines to compare with
//
// Not used above, and nothing is tuned to them: a straight rope held at ten angles in a flume, and lines of five lengths
// towed at sea (prior_test.go).
const (
	// LineDrag is the factor on the normal drag of a smooth line, LineDragDoubt its doubt.
	LineDrag      = 1.35
	LineDragDoubt = 0.23
	// LureShare is the drag area of a swimming spoon as a share of its planform, LureDragDoubt its doubt.
	LureShare     = 0.3
	LureDragDoubt = 0.45
)
