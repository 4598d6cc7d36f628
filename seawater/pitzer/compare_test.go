package pitzer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/pitzer"
	"example.org/wellmixed/units"
)

// seawater of an alkalinity and a DIC in µmol/kg of solution, fluoride counted as chloride.
func seawater(salinity float64, alkalinity, dic units.AmountPerKilogram) pitzer.Brine {
	c := ions.Reference(units.Practical(salinity))
	c = c.Add(ions.Sodium, alkalinity-c.Alkalinity())
	c = c.With(ions.Bicarbonate, dic).With(ions.Carbonate, 0).With(ions.CarbonDioxide, 0)
	b, _ := pitzer.From(c.All())
	b.Chloride += b.Fluoride
	b.Fluoride = 0
	return b
}

// By how much the model differs from the CO2 system of seawater, whose constants were
// measured in it: what the package comment says.
func TestBesideCarbonate(t *testing.T) {
	for celsius, differences := range map[float64]struct{ ph, aragonite, calcite float64 }{
		10: {-0.041, -0.001, 0.012}, 20: {-0.003, 0.023, 0.052}, 25: {0.017, 0.032, 0.071}, 30: {0.036, 0.038, 0.089},
	} {
		at := units.Celsius(celsius)
		k := carbonate.At(units.Practical(35), at, carbonate.Options{})
		c, err := k.Solve(carbonate.Alkalinity(2300), carbonate.DIC(2000), carbonate.Nutrients{})
		require.NoError(t, err)
		s, err := pitzer.Solve(seawater(35, 2300, 2000), at)
		require.NoError(t, err)
		aragonite, err := s.Saturation(pitzer.Aragonite)
		require.NoError(t, err)
		calcite, err := s.Saturation(pitzer.Calcite)
		require.NoError(t, err)
		checks.Absolute(t, "pH", s.TotalPH()-c.PH().Value(), differences.ph, 0.0006)
		checks.Absolute(t, "aragonite", aragonite-math.Log10(c.Aragonite()), differences.aragonite, 0.0015)
		checks.Absolute(t, "calcite", calcite-math.Log10(c.Calcite()), differences.calcite, 0.0006)
	}
}

// Seawater becomes saturated with brucite at pH 9.31, where the CO2 system of package carbonate
// has 9.29 with the same alkalinity and DIC; by others at 8.8 to 9.4.
func TestBruciteOnset(t *testing.T) {
	lo, hi := 8.5, 10.
	for range 30 {
		ph := (lo + hi) / 2
		s, err := pitzer.AtTotalPH(seawater(35, 2300, 2000), units.Celsius(25), ph)
		require.NoError(t, err)
		index, err := s.Saturation(pitzer.Brucite)
		require.NoError(t, err)
		if index < 0 {
			lo = ph
		} else {
			hi = ph
		}
	}
	checks.Absolute(t, "pH", lo, 9.308, 0.001)
}

// What the model knows nothing of is listed and counted by its charge.
func TestFromListsWhatIsMissing(t *testing.T) {
	c := ions.Reference(units.Practical(35)).Add(ions.Phosphate, 10).Add(ions.Sodium, 20).Add(ions.Silicate, 50)
	b, without := pitzer.From(c.All())
	require.Len(t, without, 1)
	assert.Equal(t, "HPO4--", without[0].Formula)
	assert.InDelta(t, -2*float64(without[0].Amount), float64(b.OtherCharge), 1e-9)
	assert.InDelta(t, 10*1.0364, float64(without[0].Amount), 0.01)
	assert.InDelta(t, 50*1.0364, float64(b.Silicon), 0.05)
	s, err := pitzer.Solve(b, units.Celsius(25))
	require.NoError(t, err)
	plain, err := pitzer.Solve(seawater(35, 0, 0), units.Celsius(25))
	require.NoError(t, err)
	assert.InDelta(t, plain.Osmotic(), s.Osmotic(), 2e-3)
	total := 0.
	for _, ion := range []pitzer.Species{pitzer.SilicicAcid, pitzer.TrihydrogenSilicate, pitzer.DihydrogenSilicate} {
		total += float64(s.Molality(ion))
	}
	assert.InDelta(t, float64(b.Silicon), total, 1e-6)
	assert.True(t, math.IsNaN(float64(s.Molality(200))))
	assert.True(t, math.IsNaN(s.ActivityCoefficient(200)))
	assert.True(t, math.IsNaN(s.MeanActivityCoefficient(pitzer.Chloride, pitzer.Sodium)))
}

// Gypsum in natural seawater: -0.639 by the same data base.
func TestGypsumInSeawater(t *testing.T) {
	s, err := pitzer.Solve(seawater(35, 2300, 2000), units.Celsius(25))
	require.NoError(t, err)
	index, err := s.Saturation(pitzer.Gypsum)
	require.NoError(t, err)
	checks.Printed(t, "gypsum", index, "-0.639")
	list := s.AboveSaturation()
	require.NotEmpty(t, list)
	for i, x := range list {
		assert.Positive(t, x.Index)
		assert.NotEqual(t, pitzer.Dolomite, x.Solid, "it does not form")
		if i > 0 {
			assert.LessOrEqual(t, x.Index, list[i-1].Index)
		}
	}
}
