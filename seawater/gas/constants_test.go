package gas

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// The formulas of evaporation by hand, in a draught too, with their constants as
// [CARRIER] and [VDI] print them: E = F (0.089 + 0.0782 v) Δp/L and β Δp/(Rv T).
func TestEvaporationByHand(t *testing.T) {
	s, warm := units.Practical(35), units.Celsius(25)
	air := Air{Temperature: units.Celsius(22), Pressure: units.Atmosphere, Humidity: units.Percent(50)}
	drive := float64(surfacePressure(s, warm)-air.VapourPressure()) * 100 // Pa
	checks.Relative(t, "Carrier", CarrierRate(s, warm, air, 0.4*units.MetrePerSecond, CarrierActive), (0.089+0.0782*0.4)*drive/latent(s, warm)*3600, 1e-12)
	checks.Relative(t, "VDI in use", VDIRate(s, warm, air, VDIInUse), 21*drive/(461.52*(296.65)), 1e-4)
	checks.Relative(t, "VDI covered", VDIRate(s, warm, air, VDICovered)/VDIRate(s, warm, air, VDIStill), 0.1, 1e-12)
	assert.Equal(t, []float64{1, 0.5}, []float64{CarrierActive, CarrierQuiet})
}

// A draught of Shah's formula, b (pw - pa) where the air does not rise: from memory.
func TestShahForced(t *testing.T) {
	s, cold := units.Practical(35), units.Celsius(20)
	air := Air{Temperature: units.Celsius(35), Pressure: units.Atmosphere, Humidity: units.Percent(30)}
	drive := float64(surfacePressure(s, cold)-air.VapourPressure()) * 100
	checks.Relative(t, "Shah", ShahRate(s, cold, air), 5e-5*drive, 1e-12)
}

// The limits that CheckRange of a surface reports [SHAH], and the powers of the Schmidt
// number [J87].
func TestLimitsOfTheFormulas(t *testing.T) {
	assert.Equal(t, 0.28, poolHumidity.Min)
	assert.Equal(t, 0.07, poolArea.Min)
	assert.Equal(t, Exponent(-1./2), Rough)
	assert.Equal(t, Exponent(-2./3), Smooth)
}
