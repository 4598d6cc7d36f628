package gas

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// By hand: from 20 to 60 % in half an hour halves what is missing to 100: ln 2/0.5 h. A doubt of
// 1 % in each reading is 0.01 (1/0.8² + 1/0.4²)^(1/2)/0.5 h.
func TestRateOfTwo(t *testing.T) {
	first, second := Reading{0, units.Percent(20)}, Reading{30 * time.Minute, units.Percent(60)}
	k, u, err := RateOfTwo(first, second, units.Percent(100), units.Percent(1))
	require.NoError(t, err)
	assert.InEpsilon(t, 2*math.Ln2, k.PerHour(), 1e-12)
	assert.InEpsilon(t, 0.01*math.Hypot(1/0.8, 1/0.4)*2, u.PerHour(), 1e-12)
	// The way back down, from too much.
	k, _, err = RateOfTwo(Reading{0, units.Percent(140)}, Reading{time.Hour, units.Percent(110)}, units.Percent(100), units.Fraction{})
	require.NoError(t, err)
	assert.InEpsilon(t, math.Log(4), k.PerHour(), 1e-12)
	// With a third reading on the same curve the fit of a log agrees.
	log := []Reading{first, second, {time.Hour, units.Percent(80)}}
	fit, err := FitDeficit(log, units.Percent(100))
	require.NoError(t, err)
	assert.InEpsilon(t, 2*math.Ln2, fit.Rate.PerHour(), 1e-9)
	for want, r := range map[string][2]Reading{
		"second.oxygen: got 100.0 %, want a reading between": {first, {time.Hour, units.Percent(100)}},
		"second.oxygen: got 10.0 %":                          {first, {time.Hour, units.Percent(10)}},
		"second.oxygen: got 120.0 %":                         {first, {time.Hour, units.Percent(120)}},
		"second.at: got 0s":                                  {second, first},
		"first.oxygen: got -1.0 %":                           {{0, units.Percent(-1)}, second},
	} {
		_, u, err := RateOfTwo(r[0], r[1], units.Percent(100), units.Percent(1))
		assert.ErrorContains(t, err, want)
		assert.True(t, math.IsNaN(float64(u)))
	}
	_, _, err = RateOfTwo(first, second, units.Percent(0), units.Percent(1))
	assert.ErrorContains(t, err, "saturation")
	_, _, err = RateOfTwo(first, second, units.Percent(100), units.Percent(-1))
	assert.ErrorContains(t, err, "ofEach")
}

// ASHRAE Handbook Fundamentals, psychrometric chart 1, the worked state of 40 °C and a wet bulb of
// 20 °C: 14 % (from memory). Its 6.5 g/kg are those of a real gas, saturated with 14.758 g/kg at
// 20 °C; equations 20 and 33, of an ideal one, have 14.696 and by hand 6.40. Stull 2011, J. Appl. Meteorol. Climatol. 50, 2267-2269:
// 20 °C and 50 % give 13.7 °C by a fit that is right within 0.3 K in the mean.
func TestWetBulb(t *testing.T) {
	a := Air{units.Celsius(40), oneAtm, HumidityFromWetBulb(units.Celsius(40), units.Celsius(20), oneAtm)}
	checks.Printed(t, "W, g/kg", a.HumidityRatio()*1000, "6.40")
	checks.Printed(t, "humidity, %", a.Humidity.Percent(), "14")
	checks.Absolute(t, "wet bulb", a.WetBulb().Celsius(), 20, 1e-9)
	stull := Air{units.Celsius(20), oneAtm, units.Percent(50)}.WetBulb().Celsius()
	checks.Absolute(t, "Stull", stull, 13.7, 0.3)

	for c := 1.; c <= 45; c += 4 {
		for _, h := range []float64{0.3, 0.6, 0.9, 1} {
			a := Air{units.Celsius(c), 950, units.Share(h)}
			wet := a.WetBulb()
			if !wet.IsSet() || math.IsNaN(wet.Celsius()) {
				assert.Less(t, c, 9., "freezes")
				continue
			}
			assert.InDelta(t, h, HumidityFromWetBulb(a.Temperature, wet, 950).Value(), 1e-12)
			assert.LessOrEqual(t, wet.Celsius(), c)
			assert.GreaterOrEqual(t, wet.Celsius(), a.DewPoint().Celsius()-0.02)
		}
	}
	for _, a := range []Air{{}, {units.Celsius(5), oneAtm, units.Percent(20)}, {units.Celsius(20), oneAtm, units.Percent(120)}} {
		assert.True(t, math.IsNaN(a.WetBulb().Celsius()))
	}
	checks.NoAllocations(t, "WetBulb", func() { sink = warmAir.WetBulb().Celsius() })
}

var warmAir = Air{units.Celsius(25), oneAtm, units.Percent(50)}
