package ions

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// inLitres is a report as laboratories print it, of the reference composition at 35.
// Millero et al. 2008, Deep-Sea Res. I 55, table 4, gives g/kg: Na 10.78145, Mg 1.28372, Ca 0.41208,
// K 0.39910, Sr 0.00795, Cl 19.35271, SO4 2.71235, Br 0.06728, boron 4.5 mg/kg (as
// B, from memory); a litre weighs 1.0234 kg at 25 °C.
func inLitres() Report {
	const litre = 1.0234
	return Report{
		{Quantity: "Na", Value: 10781.45 * litre, Unit: "mg/L"}, {Quantity: "Mg", Value: 1283.72 * litre, Unit: "mg/L"},
		{Quantity: "Ca", Value: 412.08 * litre, Unit: "mg/L"}, {Quantity: "K", Value: 399.10 * litre, Unit: "mg/L"},
		{Quantity: "Sr", Value: 7.95 * litre, Unit: "mg/L"}, {Quantity: "Cl", Value: 19352.71 * litre, Unit: "mg/L"},
		{Quantity: "SO4", Value: 2712.35 * litre, Unit: "mg/L"}, {Quantity: "Br", Value: 67.28 * litre, Unit: "mg/L"},
		{Quantity: "B", Value: 4.5 * litre, Unit: "mg/L"}, {Quantity: "alkalinity", Value: 6.6, Unit: "dKH"},
		{Quantity: "NO3 as NO3", Value: 5, Unit: "mg/L"}, {Quantity: "Li", Value: 0.2, Unit: "mg/L", Below: true},
		{Quantity: "temperature", Value: 25, Unit: "°C"},
	}
}

// The printed contents of the sea are the sea's.
func TestScreenOfTheSea(t *testing.T) {
	list, err := inLitres().Screen()
	require.NoError(t, err)
	require.Len(t, list, len(inLitres()))
	for i, s := range list {
		assert.Zero(t, s.Slip, s.Quantity)
		if i < 8 {
			assert.InEpsilon(t, 1, s.Ratio(), 0.001, "%s: the digits printed, and half a per mille of the litre", s.Quantity)
		}
	}
	assert.Equal(t, "boron", list[8].Of)
	assert.InEpsilon(t, 1, list[8].Ratio(), 0.05)
	assert.Equal(t, "nitrate", list[10].Of)
	assert.True(t, math.IsNaN(list[10].Ratio()), "the sea holds it in no proportion")
	assert.True(t, math.IsNaN(list[11].Ratio()), "below detection")
	assert.Equal(t, "lithium", list[11].Of)
}

// A value that slipped is named with the factor; the others are not. The quotients are of molar
// masses, worked by hand from IUPAC weights: CaCO3/Ca = 100.086/40.078, SO4/S = 96.056/32.06,
// dKH/meq = 20/56.077.
func TestSlips(t *testing.T) {
	for _, r := range []struct {
		line         int
		times, found float64
		how          string
	}{
		{2, 0.1, 0.1, "the point or the unit, by 10"},
		{2, 0.11, 0.1, "the point or the unit, by 10"},
		{4, 10, 10, "the point or the unit, by 10"},
		{4, 14, 10, "the point or the unit, by 10"},
		{1, 100, 100, "the point or the unit, by 100"},
		{0, 1e-6, 1e-6, "the point or the unit, by 1000000"},
		{2, 2.6, 2.497, "a number counted as CaCO3"},
		{6, 1 / 3., 0.3338, "a number counted as S"},
		{9, 20 / 56.077, 0.3566, "a number in meq/L"},
		{2, 1.3, 0, ""}, {4, 2.2, 0, ""}, {3, 2.5, 0, ""}, {4, 20, 0, ""}, // what tanks do, and what slips by nothing
	} {
		report := inLitres()
		report[r.line].Value *= r.times
		list, err := report.Screen()
		require.NoError(t, err)
		for i, s := range list {
			if i != r.line {
				assert.Zero(t, s.Slip, s.Quantity)
				continue
			}
			assert.Equal(t, r.how, s.How, "%s %g", s.Quantity, r.times)
			assert.InDelta(t, r.found, s.Slip, 0.0005*r.found, "%s %g", s.Quantity, r.times)
		}
	}
	silent, err := Report{{Quantity: "Ca", Value: 41, Unit: "mg/L"}}.Screen()
	require.NoError(t, err)
	assert.Zero(t, silent[0].Slip, "one line does not tell how salt the water is")
	two, err := Report{{Quantity: "Ca", Value: 41, Unit: "mg/L"}, {Quantity: "salinity", Value: 35, Unit: "PSU"}}.Screen()
	require.NoError(t, err)
	assert.Equal(t, 0.1, two[0].Slip)
	_, err = Report{{Quantity: "Ca", Value: 41, Unit: "ppm"}, {Quantity: "lead soap", Value: 1, Unit: "mg/L"}}.Screen()
	assert.ErrorIs(t, err, units.ErrInput)
	assert.ErrorContains(t, err, "Ca.unit")
	assert.ErrorContains(t, err, "lead soap", "all that is wrong at once")
}

// Specific gravity tells salinity by the density at its own temperature. Standard seawater
// of 35 at 25 °C has 1023.34306 kg/m³ (UNESCO technical papers in marine science 44, 1983), pure
// water 997.0480 kg/m³ (CRC Handbook): their quotient is 1.026373.
func TestSpecificGravity(t *testing.T) {
	for unit, assumed := range map[string]bool{"25/25 °C": false, "25/25": true, "77/77 °F": false} {
		c, err := Report{{Quantity: "specific gravity", Value: 1.026373, Unit: unit}}.Close()
		require.NoError(t, err, unit)
		assert.InDelta(t, 35, c.Composition.PracticalSalinity(units.Celsius(25)).Value(), 0.01, unit)
		assert.Equal(t, assumed, c.Assumed[0] == "the temperatures 25/25 of a specific gravity are °C", unit)
	}
	// It is at 25 °C whatever the temperature of the report.
	cool, err := ReadReport("SG, 1.026373, 25/25 °C\ntemperature, 15, °C\nCa, 420, mg/L")
	require.NoError(t, err)
	c, err := cool.Close()
	require.NoError(t, err)
	assert.InDelta(t, 35, c.Composition.PracticalSalinity(units.Celsius(25)).Value(), 0.02)
	for _, unit := range []string{"", "60/60", "25", "kg/m3"} {
		_, err := Report{{Quantity: "SG", Value: 1.0264, Unit: unit}}.Close()
		assert.ErrorContains(t, err, `SG.unit: got "`+unit+`", want the temperatures`)
	}
	_, err = Report{{Quantity: "SG", Value: 1026.4, Unit: "25/25 °C"}}.Close()
	assert.ErrorIs(t, err, units.ErrInput)
}
