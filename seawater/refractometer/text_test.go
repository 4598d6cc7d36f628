package refractometer

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// Every scale and liquid comes back from its text, and reads the same index.
func TestScalesAndLiquidsAsText(t *testing.T) {
	for text, g := range map[string]Graduation{
		"": {}, "practical salinity at 20 °C": PracticalScale(), "sea salt in g/kg at 25.3 °C": SeaSaltScale().At(units.Celsius(25.3)),
		"gravity of seawater 20/4 °C at 20 °C":        GravityOfSeawater(units.SG20C4C()),
		"gravity of sodium chloride 60/60 °F at 0 °C": GravityOfSodiumChloride(units.SG60F()).At(units.Celsius(0)),
		"sodium chloride in g/kg at 20 °C":            SodiumChloridePermille(), "sodium chloride in % at 20 °C": SodiumChloridePercent(),
		"Brix at 20 °C": BrixScale(), "refractive index at 20 °C": IndexScale(),
	} {
		written, err := g.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, text, string(written))
		back, err := units.Parse[Graduation](text)
		require.NoError(t, err, text)
		assert.Equal(t, g, back, text)
	}
	for text, l := range map[string]Liquid{
		"": {}, "pure water": PureWater(), "seawater 35.1 PSS-78": SeawaterStandard(units.Practical(35.1)),
		"sodium chloride 3.5 %": SaltSolution(units.Percent(3.5)), "sucrose 15 %": SugarSolution(units.Percent(15)),
		"index 1.3394 in air": IndexStandard(InAir(1.3394)),
	} {
		written, err := l.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, text, string(written))
		back, err := units.Parse[Liquid](text)
		require.NoError(t, err, text)
		assert.Equal(t, l, back, text)
	}
	for _, bad := range []string{"practical salinity", "practical salinity at ", "practical salinity at 20", "Brix 20/20 °C at 20 °C",
		"gravity of seawater at 20 °C", "gravity of seawater25/25 °C at 20 °C", "salt at 20 °C"} {
		_, err := units.Parse[Graduation](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
	}
	for _, bad := range []string{"water", "seawater", "seawater ", "seawater 35 g/kg", "sucrose 15", "index 1.3394"} {
		l, err := units.Parse[Liquid](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.Equal(t, Liquid{}, l, bad)
	}
	_, err := PracticalScale().At(units.Temperature{}).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = SaltSolution(units.Share(math.NaN())).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
}

// An index says relative to what.
func TestIndexAsText(t *testing.T) {
	n, err := units.Parse[AirIndex]("1.3394 in air")
	require.NoError(t, err)
	assert.Equal(t, InAir(1.3394), n)
	for _, bad := range []string{"1.3394", "1.3394 in vacuum", "NaN in air", " in air"} {
		n, err := units.Parse[AirIndex](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.True(t, math.IsNaN(n.Value()), bad)
	}
	v, err := units.Parse[VacuumIndex](InVacuum(1.33345).String())
	require.NoError(t, err)
	assert.Equal(t, InVacuum(1.33345), v)
}
