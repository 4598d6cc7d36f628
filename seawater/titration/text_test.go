package titration

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

func TestCarbonAndPointAsText(t *testing.T) {
	for text, c := range map[string]Carbon{
		"degassed": Degassed(), "closed, DIC 2000.5 µmol/kg": Closed(2000.5),
		"closed, pH 8.1 total": ClosedAt(carbonate.PHTotal(8.1)), "open to 420 µatm": Open(420),
	} {
		written, err := c.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, text, string(written))
		back, err := units.Parse[Carbon](text)
		require.NoError(t, err)
		assert.Equal(t, c, back)
	}
	for text, p := range map[string]Point{
		"": {}, "3.1 g: pH 4.5 total": PH(3.1, carbonate.PHTotal(4.5)), "0 g: -58.2 mV": EMF(0, -58.2*units.Millivolt),
	} {
		written, err := p.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, text, string(written))
		back, err := units.Parse[Point](text)
		require.NoError(t, err)
		assert.Equal(t, p, back)
	}
	for _, bad := range []string{"", "closed", "closed, DIC ", "closed, pH ", "closed, pH 8.1", "open to 420 ppm"} {
		c, err := units.Parse[Carbon](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.Error(t, c.check(), "what could not be read is refused later too")
	}
	for _, bad := range []string{"3 g", "3 g: ", "3 g: pH ", ": pH 4.5 total", "3 mL: pH 4.5 total", "3 g: 4.5"} {
		p, err := units.Parse[Point](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.Equal(t, Point{}, p, bad)
	}
	for _, p := range []Point{PH(units.Mass(math.NaN()), carbonate.PHTotal(4)), PH(3, carbonate.PHTotal(math.NaN()))} {
		_, err := p.MarshalText()
		assert.ErrorIs(t, err, units.ErrInput)
	}
	_, err := Closed(units.AmountPerKilogram(math.NaN())).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
}
