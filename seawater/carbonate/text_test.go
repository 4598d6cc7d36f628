package carbonate

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// The three ways of counting CO2 in air have one spelling each, and none is read as another.
func TestCO2AsText(t *testing.T) {
	p, err := units.Parse[PCO2](" 420 µatm ")
	require.NoError(t, err)
	assert.Equal(t, PCO2(420), p)
	f, err := units.Parse[FCO2]("418.7 uatm fugacity")
	require.NoError(t, err)
	assert.Equal(t, FCO2(418.7), f)
	x, err := units.Parse[XCO2]("600ppm")
	require.NoError(t, err)
	assert.Equal(t, XCO2(600), x)
	assert.Equal(t, "420 µatm, 418.7 µatm fugacity, 600 ppm", p.String()+", "+f.String()+", "+x.String())
	for _, bad := range []string{"", "420", "420 atm", "NaN µatm", "Inf ppm", "1e999 ppm", "ppm", "4,2 ppm", "420 ppm fugacity"} {
		p, err := units.Parse[PCO2](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.True(t, math.IsNaN(float64(p)), bad)
		x, err := units.Parse[XCO2](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.True(t, math.IsNaN(float64(x)), bad)
	}
	_, err = units.Parse[PCO2]("420 ppm")
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = units.Parse[FCO2]("420 µatm")
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = XCO2(math.Inf(1)).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
}

// Whatever is known comes back from its text to the last bit, its uncertainty too.
func TestKnownAsText(t *testing.T) {
	for range 1000 {
		x, u := rand.Float64()*3000, rand.Float64()*rand.Float64()
		for _, k := range []Known{
			Alkalinity(units.AmountPerKilogram(x - 1500)), DIC(units.AmountPerKilogram(x)), PH(PHTotal(x / 200)),
			DissolvedCO2(units.AmountPerKilogram(x)), Bicarbonate(units.AmountPerKilogram(x)),
			Carbonate(units.AmountPerKilogram(x)), PartialPressure(PCO2(x)), Fugacity(FCO2(x)), {},
		} {
			if k.kind != nothing {
				k = k.PlusMinus(math.Round(u*2) * u) // some exactly known
			}
			text, err := k.MarshalText()
			require.NoError(t, err)
			back, err := units.Parse[Known](string(text))
			require.NoError(t, err, string(text))
			require.Equal(t, k, back, string(text))
		}
	}
	text, err := PartialPressure(420).PlusMinus(2).MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "pCO2 420 µatm ± 2", string(text))
	for _, bad := range []string{"2300 µmol/kg", "alkalinity", "alkalinity ", "alkalinity 2300", "pH 8.1", "pH ", "pH 8.1 NBS", "pCO2 420 ppm",
		"pCO2 ", "pCO2 420 µatm ±", "pCO2 420 µatm ± ", "DIC 2000 µmol/kg ± 2 %", "alkalinity 2.3 meq/L"} {
		k, err := units.Parse[Known](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.Equal(t, Known{}, k, bad)
	}
}

// The choices and totals of Options come back by name, and no name is that of two.
func TestOptionsAsText(t *testing.T) {
	for i := range K1K2(len(k1k2Domains)) {
		text, err := i.MarshalText()
		require.NoError(t, err)
		back, err := units.Parse[K1K2](string(text))
		require.NoError(t, err)
		assert.Equal(t, i, back)
	}
	for i := range KNH4(len(knh4Domains)) {
		text, err := i.MarshalText()
		require.NoError(t, err)
		back, err := units.Parse[KNH4](string(text))
		require.NoError(t, err)
		assert.Equal(t, i, back)
	}
	k, err := units.Parse[KS]("nobody 1900")
	assert.EqualError(t, err, `KS: got "nobody 1900", want Dickson 1990, Khoo et al. 1977 or Waters and Millero 2013`)
	assert.False(t, (&Options{KS: k}).known(), "what could not be read is no choice")
	_, err = KF(9).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)

	for _, total := range []Total{{}, Measured(0), Measured(412.3), Total{}.plus(20)} {
		text, err := total.MarshalText()
		require.NoError(t, err)
		back, err := units.Parse[Total](string(text))
		require.NoError(t, err)
		assert.Equal(t, total, back, string(text))
	}
	bad, err := units.Parse[Total]("412 mg/L")
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, bad.IsMeasured() && math.IsNaN(float64(bad.content)))
}
