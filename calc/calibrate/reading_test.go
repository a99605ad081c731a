package calibrate

import (
	"math"
	"testing"
)

// Values of scipy.special.log_ndtr (SciPy 1.10.1), and of exp(−z²/2 − log_ndtr(z))/√(2π).
func TestNormalTails(t *testing.T) {
	for _, c := range []struct{ z, log, hazard float64 }{
		{-1000.0, -500007.826695, 1000.001},
		{-40.0, -804.608442014, 40.024969},
		{-25.5, -329.284148987, 25.539096},
		{-24.5, -304.244270741, 24.540681},
		{-8.0, -35.0134371599, 8.1213681},
		{-3.0, -6.60772622151, 3.2830987},
		{-1.0, -1.84102164501, 1.5251353},
		{0.0, -0.69314718056, 0.79788456},
		{1.0, -0.172753779023, 0.28759997},
		{4.0, -3.16717433775e-05, 0.00013383446},
	} {
		if got := logPhi(c.z); math.Abs(got/c.log-1) > 1e-9 {
			t.Errorf("log Φ(%v) = %v, want %v", c.z, got, c.log)
		}
		if got := hazard(c.z); math.Abs(got/c.hazard-1) > 1e-5 {
			t.Errorf("φ/Φ(%v) = %v, want %v", c.z, got, c.hazard)
		}
	}
}
