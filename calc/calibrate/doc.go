// Package calibrate learns from this boat's own touches how its lines lie.
//
// What is not known of a line are the inputs of towline.Doubt. At observation i they are off by x_i, in standard
// deviations of that doubt, and the lowest part of the line is at the depth h_i(x_i). A priori the x are jointly normal;
// input by input, the correlation of two observations a and b is
//
//	line drag                       k(wire)·(1 + min(age a, age b)/T)   a random walk backwards from now
//	weight, drag and lift of lure   k(lure)
//	friction, sinkers               1
//	speed through the water         exp(−|age a − age b|/τ)             what misleads lasts, but not for ever
//	line out, height of tip         0
//
// with k = 1 between equal kinds and ½ between different ones. A touch at a depth of water y has the likelihood
// N(y; h(x), s²), a line that stayed clear the likelihood Φ((y − h(x))/s). The posterior mode is found by damped
// Gauss–Newton steps in the space of the observations (Rasmussen and Williams, Gaussian Processes for Machine Learning,
// 2006, section 3.4), the covariance is Laplace's at the mode. An observation that lies further than 2½ standard
// deviations from what all others say, has its variance raised until it does not: it is told, and it counts less the
// further off it is.
//
// All values are SI. Errors are codec.Problems that name the field of the request.
package calibrate
