package carbonate

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// Coralline algae of 15 mol % magnesium in a tank whose pH has sunk to 7.6 at night.
func ExampleSystem_MagnesianCalcite() {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	s, err := c.Solve(Alkalinity(2400*units.MicromolePerKilogram), PH(PHTotal(7.6)), Nutrients{})
	if err != nil {
		fmt.Println(err)
		return
	}
	algae := s.MagnesianCalcite(units.Percent(15))
	fmt.Printf("aragonite %.1f, coralline algae %.1f (%.1f to %.1f)\n", s.Aragonite(), algae.Likely, algae.Low, algae.High)
	// Output: aragonite 1.5, coralline algae 1.4 (0.4 to 1.4)
}

// Without magnesium it is calcite: Mucci's product within the 15 to 20 % that the two ways of
// activities differ by. Near 12 mol % it is as soluble as aragonite (Bischoff, Mackenzie and
// Bishop 1987, from memory); above, more.
func TestMagnesianCalcite(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	s, err := c.Solve(Alkalinity(2300*units.MicromolePerKilogram), DIC(2000*units.MicromolePerKilogram), Nutrients{})
	require.NoError(t, err)
	pure := s.MagnesianCalcite(units.Fraction{})
	assert.InDelta(t, 1, float64(pure.High)/s.Calcite(), 0.2)
	aragonite := s.Aragonite()
	at := func(percent float64) Band { return s.MagnesianCalcite(units.Percent(percent)) }
	assert.InDelta(t, 1, float64(at(12).Likely)/aragonite, 0.25)
	assert.Less(t, at(20).Likely, aragonite)
	assert.Less(t, at(15).Low, aragonite/2)
	for p := 0.; p <= 25; p++ {
		b := at(p)
		assert.True(t, b.Low <= b.Likely && b.Likely <= b.High, p)
	}
	// By hand, from the contents of seawater: Ca 10.28, Mg 52.82 mmol/kg (Millero et al. 2008);
	// log IAP = -8.3459 - 0.4928 + 1.2560 - 1.0725 + 0.4339 - 0.0670 at 10 mol %.
	iap := math.Pow(10, -8.3459-0.4928+1.2560-1.0725+0.4339-0.0670)
	co3 := float64(s.Carbonate()) * 1e-6
	want := math.Pow(0.2029*52.82e-3, 0.1) * math.Pow(0.191*10.28e-3, 0.9) * 0.037 * co3 / iap
	assert.InEpsilon(t, want, float64(at(10).Likely), 1e-3)
	for _, bad := range []float64{-1, 25.1, math.NaN()} {
		assert.True(t, math.IsNaN(float64(at(bad).Likely)))
	}
}
