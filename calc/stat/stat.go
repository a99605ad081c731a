// Package stat holds the numerics that more than one calculation needs: quantiles, fits, a root.
package stat

// Standard normal quantiles: of the two tails together, 20, 10 and 5 per cent lie beyond.
const (
	Z80 = 1.2815515655446004
	Z90 = 1.6448536269514722
	Z95 = 1.9599639845400545
)

// Student is the quantile of Student's t distribution with dof degrees of freedom that belongs to the quantile z
// of the normal one, by the expansion of Abramowitz and Stegun 26.7.5: within 1 % from 3 degrees of freedom up,
// for z up to 2.
func Student(z, dof float64) float64 {
	s := z * z
	return z * (1 +
		(s+1)/(4*dof) +
		((5*s+16)*s+3)/(96*dof*dof) +
		(((3*s+19)*s+17)*s-15)/(384*dof*dof*dof))
}

// Median of the values, the mean of the middle two if their number is even; 0 of none. It sorts them.
func Median(values []float64) float64 {
	n := len(values)
	if n == 0 {
		return 0
	}
	Sort(values)
	return (values[(n-1)/2] + values[n/2]) / 2
}

// Sort sorts the values by Shell's method with the steps of Ciura (2001). It is here because package slices
// would add kilobytes to what a phone loads.
func Sort(values []float64) {
	for _, step := range [...]int{701, 301, 132, 57, 23, 10, 4, 1} {
		for i := step; i < len(values); i++ {
			for j := i; j >= step && values[j] < values[j-step]; j -= step {
				values[j], values[j-step] = values[j-step], values[j]
			}
		}
	}
}
