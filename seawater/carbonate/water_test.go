package carbonate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

func tank() Water {
	return Water{Salinity: units.Practical(35), Temperature: units.Celsius(25), Alkalinity: 2300, DIC: 2000,
		Nutrients: Nutrients{Phosphate: 1}, Options: Options{Calcium: Measured(10500)}}
}

func TestWaterRoundTrip(t *testing.T) {
	s, err := tank().System()
	require.NoError(t, err)
	assert.Equal(t, tank(), s.Water())
}

func TestEquilibrate(t *testing.T) {
	for _, barometer := range []units.AirPressure{units.Atmosphere, 850 * units.Hectopascal} {
		w, err := tank().Equilibrate(420, barometer)
		require.NoError(t, err)
		assert.Equal(t, tank().Alkalinity, w.Alkalinity)
		s, err := w.System()
		require.NoError(t, err)
		c := w.Constants()
		checks.Relative(t, "air", float64(s.PCO2().XCO2(&c, barometer)), 420, 1e-12)
		again, err := w.Equilibrate(420, barometer)
		require.NoError(t, err)
		checks.Relative(t, "again", float64(again.DIC), float64(w.DIC), 1e-13)
	}
	for _, air := range []XCO2{0, -1, XCO2(math.NaN()), XCO2(math.Inf(1))} {
		w, err := tank().Equilibrate(air, units.Atmosphere)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(w.DIC)))
	}
	for _, barometer := range []units.AirPressure{0, -1, 10, units.AirPressure(math.NaN()), units.AirPressure(math.Inf(1))} {
		_, err := tank().Equilibrate(420, barometer)
		assert.ErrorIs(t, err, units.ErrInput)
	}
}

// What each dose does to alkalinity and DIC, and that they cancel.
func TestDoses(t *testing.T) {
	w := tank()
	for _, row := range []struct {
		name                string
		got                 Water
		alkalinity, dic, ca units.AmountPerKilogram
	}{
		{"bicarbonate", w.AddBicarbonate(100), 100, 100, 0},
		{"carbonate", w.AddCarbonate(100), 200, 100, 0},
		{"hydroxide", w.AddHydroxide(100), 100, 0, 0},
		{"acid", w.AddAcid(100), -100, 0, 0},
		{"CO2", w.AddCO2(100), 0, 100, 0},
		{"calcium", w.AddCalcium(100), 0, 0, 100},
		{"precipitation", w.Precipitate(100), -200, -100, -100},
		{"hydroxide and CO2 are bicarbonate", w.AddHydroxide(100).AddCO2(100), 100, 100, 0},
		{"bicarbonate and hydroxide are carbonate", w.AddBicarbonate(100).AddHydroxide(100), 200, 100, 0},
		{"there and back", w.Precipitate(100).AddCarbonate(100).AddCalcium(100), 0, 0, 0},
	} {
		assert.Equal(t, row.alkalinity, row.got.Alkalinity-w.Alkalinity, row.name)
		assert.Equal(t, row.dic, row.got.DIC-w.DIC, row.name)
		assert.Equal(t, row.ca, row.got.Constants().Totals.Calcium-w.Constants().Totals.Calcium, row.name)
	}
	assert.Equal(t, tank(), w, "the water itself is left alone")
	checks.Relative(t, "1 g of CaCO3 in 100 kg", float64(CalciumCarbonate(units.Gram, 100*units.Kilogram)), 1e6/100.086/100, 1e-15)

	plain := w
	plain.Options.Calcium = Total{}
	after := plain.Precipitate(100)
	assert.False(t, after.Options.Calcium.IsMeasured(), "still from the salinity, less what has left")
	checks.Absolute(t, "calcium", float64(plain.Constants().Totals.Calcium-after.Constants().Totals.Calcium), 100, 1e-10)
	_, err := w.AddCO2(-3000).System()
	assert.ErrorIs(t, err, units.ErrInput, "more CO2 driven out than there was carbon")
}

func TestWarming(t *testing.T) {
	cold, err := tank().At(units.Celsius(15)).System()
	require.NoError(t, err)
	warm, err := tank().System()
	require.NoError(t, err)
	assert.Equal(t, warm.DIC(), cold.DIC())
	assert.Greater(t, cold.PH().Value(), warm.PH().Value())
	// 4.23 percent per kelvin for a water in a closed vessel: Takahashi et al.
	// 1993, Global Biogeochem. Cycles 7, 843-878.
	rate := math.Log(float64(warm.PCO2()/cold.PCO2())) / 10
	assert.InDelta(t, 0.0423, rate, 0.002)
}

func TestBlend(t *testing.T) {
	a := tank()
	b := Water{Salinity: units.Practical(33), Temperature: units.Celsius(20), Alkalinity: 3200, DIC: 2900,
		Nutrients: Nutrients{Silicate: 40}}
	m, err := a.Blend(150*units.Kilogram, b, 50*units.Kilogram, units.Celsius(24))
	require.NoError(t, err)
	checks.Relative(t, "salinity", m.Salinity.Value(), 34.5, 1e-15)
	assert.Equal(t, 24., m.Temperature.Celsius())
	checks.Relative(t, "alkalinity", float64(m.Alkalinity), 2525, 1e-15)
	checks.Relative(t, "DIC", float64(m.DIC), 2225, 1e-15)
	checks.Relative(t, "phosphate", float64(m.Nutrients.Phosphate), 0.75, 1e-15)
	checks.Relative(t, "silicate", float64(m.Nutrients.Silicate), 10, 1e-15)
	checks.Relative(t, "calcium", float64(m.Constants().Totals.Calcium), 0.75*10500+0.25*float64(b.Constants().Totals.Calcium), 1e-15)
	assert.True(t, m.Options.Calcium.IsMeasured())
	assert.False(t, m.Options.Boron.IsMeasured(), "both from the salinity")
	checks.Relative(t, "boron", float64(m.Constants().Totals.Boron), 0.75*float64(a.Constants().Totals.Boron)+0.25*float64(b.Constants().Totals.Boron), 1e-14)

	other, err := b.Blend(50, a, 150, units.Celsius(24))
	require.NoError(t, err)
	checks.Relative(t, "either way round", float64(other.Alkalinity), float64(m.Alkalinity), 1e-15)
	same, err := a.Blend(1, b, 0, a.Temperature)
	require.NoError(t, err)
	assert.Equal(t, a.Alkalinity, same.Alkalinity)

	for _, masses := range [][2]units.Mass{{-1, 2}, {0, 0}, {1, units.Mass(math.NaN())}, {units.Mass(math.Inf(1)), 1}} {
		m, err := a.Blend(masses[0], b, masses[1], units.Celsius(24))
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(m.Alkalinity)))
	}
	b.Options.K1K2 = Waters2014
	_, err = a.Blend(1, b, 1, units.Celsius(24))
	assert.ErrorIs(t, err, units.ErrInput)
}

// A temperature that nobody set would make ice water of a tank.
func TestForgottenTemperatureIsRefused(t *testing.T) {
	w := Water{Salinity: units.Practical(35), Alkalinity: 2400, DIC: 2100}
	s, err := w.System()
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(s.PH().Value()))
	aired, err := w.Equilibrate(420, units.Atmosphere)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(float64(aired.DIC)))
	_, err = w.At(units.Celsius(0)).System()
	assert.NoError(t, err)
	w = w.At(units.Celsius(25))
	w.Salinity = units.Practical(-1)
	_, err = w.System()
	assert.EqualError(t, err, "water.salinity: got -1, want zero or more")
}
