package electrode

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

func TestTotalFromNBS(t *testing.T) {
	at := units.Celsius(25)
	c := carbonate.At(units.Practical(35), at, carbonate.Options{})
	ph, u, err := TotalFromNBS(carbonate.PHNBS(8.2), 0.12, &c)
	require.NoError(t, err)
	assert.Equal(t, carbonate.PHNBS(8.2).Total(&c), ph)
	assert.InDelta(t, 0.13, u, 1e-12) // 5, 12, 13
	// fH is 0.7134 at salinity 35 and 25 °C, the seawater scale 0.010 below the total.
	checks.Printed(t, "the step", 8.2-ph.Value(), "0.14")
	_, u, err = TotalFromNBS(carbonate.PHNBS(8.2), 0, &c)
	require.NoError(t, err)
	assert.Equal(t, Junction, u)

	refused := func(ph, u float64, c *carbonate.Constants, kind error) {
		t.Helper()
		total, doubt, err := TotalFromNBS(carbonate.PHNBS(ph), u, c)
		assert.ErrorIs(t, err, kind)
		assert.True(t, math.IsNaN(total.Value()))
		assert.True(t, math.IsNaN(doubt))
	}
	refused(8.2, 0, nil, units.ErrInput)
	refused(8.2, 0, &carbonate.Constants{}, units.ErrInput)
	refused(8.2, -1, &c, units.ErrInput)
	refused(8.2, math.NaN(), &c, units.ErrInput)
	refused(math.NaN(), 0, &c, units.ErrRange)
	refused(-1, 0, &c, units.ErrRange)
	for _, s := range []float64{0, 19.9, 42.1, math.NaN()} {
		fresh := carbonate.At(units.Practical(s), at, carbonate.Options{})
		refused(8.2, 0, &fresh, units.ErrRange)
	}
	hot := carbonate.At(units.Practical(35), units.Celsius(500), carbonate.Options{})
	refused(8.2, 0, &hot, units.ErrInput)
}

func TestAtTemperature(t *testing.T) {
	lab := carbonate.At(units.Practical(35), units.Celsius(20), carbonate.Options{Boron: carbonate.Measured(500)})
	tank := units.Celsius(27)
	n := carbonate.Nutrients{Phosphate: 2, Silicate: 5}
	for _, ph := range []float64{7, 7.8, 8.2, 8.8} {
		moved, err := AtTemperature(carbonate.PHTotal(ph), 2500, n, &lab, tank)
		require.NoError(t, err)
		// The same by the water that mixing conserves.
		s, err := lab.Solve(carbonate.PH(carbonate.PHTotal(ph)), carbonate.Alkalinity(2500), n)
		require.NoError(t, err)
		w := s.Water().At(tank)
		other, err := w.System()
		require.NoError(t, err)
		assert.InDelta(t, other.PH().Value(), moved.Value(), 1e-12)
		// There and back.
		c := w.Constants()
		back, err := AtTemperature(moved, 2500, n, &c, lab.Temperature)
		require.NoError(t, err)
		assert.InDelta(t, ph, back.Value(), 1e-10)
		assert.Less(t, moved.Value(), ph, "warmer water has a lower pH")
	}
	same, err := AtTemperature(carbonate.PHTotal(8.1), 2500, n, &lab, lab.Temperature)
	require.NoError(t, err)
	assert.InDelta(t, 8.1, same.Value(), 1e-10)
}

// What the documentation says of a kelvin and of the alkalinity.
func TestPerKelvinOfASample(t *testing.T) {
	least, most, apart := math.Inf(1), 0.0, 0.0
	for ph := 7.6; ph < 8.45; ph += 0.1 {
		for _, celsius := range []float64{15, 20, 25} {
			c := carbonate.At(units.Practical(35), units.Celsius(celsius), carbonate.Options{})
			low, high := math.Inf(1), 0.0
			for _, ta := range []units.AmountPerKilogram{1500, 2300, 3500} {
				moved, err := AtTemperature(carbonate.PHTotal(ph), ta, carbonate.Nutrients{}, &c, units.Celsius(celsius+1))
				require.NoError(t, err)
				loss := ph - moved.Value()
				low, high = math.Min(low, loss), math.Max(high, loss)
			}
			least, most, apart = math.Min(least, low), math.Max(most, high), math.Max(apart, high-low)
		}
	}
	t.Logf("%.5f to %.5f per kelvin, %.5f by the alkalinity", least, most, apart)
	checks.Printed(t, "least", least, "0.0135")
	checks.Printed(t, "most", most, "0.0160")
	assert.Less(t, apart, 0.0005)
}

func TestAtTemperatureRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	lab := carbonate.At(units.Practical(35), units.Celsius(20), carbonate.Options{})
	tank := units.Celsius(27)
	refused := func(ph float64, ta units.AmountPerKilogram, c *carbonate.Constants, at units.Temperature, kind error) {
		t.Helper()
		moved, err := AtTemperature(carbonate.PHTotal(ph), ta, carbonate.Nutrients{}, c, at)
		assert.ErrorIs(t, err, kind)
		assert.True(t, math.IsNaN(moved.Value()))
	}
	for _, ta := range []float64{0, -1, nan, inf} {
		refused(8.1, units.AmountPerKilogram(ta), &lab, tank, units.ErrInput)
	}
	for _, ph := range []float64{nan, inf, 21} {
		refused(ph, 2400, &lab, tank, units.ErrInput)
	}
	refused(8.1, 2400, nil, tank, units.ErrInput)
	refused(8.1, 2400, &carbonate.Constants{}, tank, units.ErrInput)
	refused(8.1, 2400, &lab, units.Temperature{}, units.ErrInput)
	for _, celsius := range []float64{-2.1, 60.1, nan, inf} {
		refused(8.1, 2400, &lab, units.Celsius(celsius), units.ErrRange)
	}
	refused(11.5, 100, &lab, tank, carbonate.ErrNoSolution) // more hydroxide than alkalinity
	broken := lab
	broken.Salinity = units.Practical(nan)
	refused(8.1, 2400, &broken, tank, units.ErrInput)
}
