// Package calibrate learns from what this boat has observed how its lines lie: touches of the bottom, settings known from
// before, the wire's angle at the tip, where it enters the water, its pull.
//
// What is not known of a line are the inputs of towline.Doubt. At observation i they are off by x_i, in standard
// deviations of that doubt, and what is read should be h_i(x_i). A priori the x are jointly normal; input by input, the
// correlation of two observations a and b is
//
//	line drag                       k(wire)·(1 + min(age a, age b)/T)   a random walk backwards from now
//	weight, drag and lift of lure   k(lure)
//	friction, sinkers               1
//	speed through the water         s(a, b)·(the lesser of the two doubts)/(the greater)
//	line out, height of tip         s(a, b) of one rod with the same line out, else 0
//	instrument                      s(a, b) of the same instrument; of the hand scale 1
//
// with k = 1 between equal kinds and ½ between different ones, and s = exp(−|age a − age b|/τ): what misleads lasts, but
// not for ever. What makes a speed more doubtful than another, such as a current that nobody knows, is an error of its
// own, not that of the other magnified. Of settings known from before half of the error is one habit, whatever their ages.
// The instrument is an input of its own: what the sounder and the tide, the way of holding the phone, the eye or the scale
// are off.
//
// A reading y has the likelihood N(y; h(x), s²), of a distance and a pull by their logarithms; a line that stayed clear
// of a bottom at y has Φ((y − h(x))/s). A trust below 1 is the power to which a likelihood is raised. The posterior mode
// is found by damped Gauss–Newton steps in the space of the observations (Rasmussen and Williams, Gaussian Processes for
// Machine Learning, 2006, section 3.4), the covariance is Laplace's at the mode. An observation that lies z > 2½ standard
// deviations from what all others say has its variance raised to (z/2½)⁴ of what was told: it is told, and it pulls less
// the further off it is. Beyond 5 it is set aside, the worst first, and the rest is fitted anew from the prior: where
// evidence has two camps, what no longer counts would else have decided between them on the way. The prior alone
// sets nothing aside.
//
// Whether the app was right is told by what it would have said before each observation, from those before it: later ones
// cannot help a skipper then, and what all the others say of one touch would flatter where they come in bunches, each with
// its neighbours' errors.
//
// All values are SI. Errors are codec.Problems that name the field of the request.
package calibrate
