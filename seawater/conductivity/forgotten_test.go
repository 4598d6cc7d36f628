package conductivity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// A temperature that nobody set is refused by every meter, and a freezing point
// that was set is not.
func TestForgottenTemperature(t *testing.T) {
	var none units.Temperature
	refused := func(err error, x float64) {
		t.Helper()
		assert.EqualError(t, err, "temperature: got nothing, want a temperature")
		assert.True(t, math.IsNaN(x))
	}
	for _, m := range meters() {
		c, err := m.Shows(1, none)
		refused(err, float64(c))
		c, err = m.Measured(1, none)
		refused(err, float64(c))
		c, err = m.Reading(standard, none)
		refused(err, float64(c))
		sa, err := m.Salinity(50, none)
		refused(err, sa.GramsPerKilogram())
		set, err := m.Calibrated(50, 50, none)
		refused(err, set.CellOffset.Value())
		m.ThermometerOffset = 0
		_, err = m.Reading(standard, units.Celsius(0))
		assert.NoError(t, err)
	}
	p, err := SalinityMeter{}.Reading(standard, none)
	refused(err, p.Value())
	sa, err := SalinityMeter{}.Salinity(units.Practical(35), none)
	refused(err, sa.GramsPerKilogram())
	_, err = SalinityMeter{}.Reading(standard, units.Celsius(0))
	assert.NoError(t, err)
	ppm, err := handheld.Shows(1, none)
	refused(err, ppm.PPM())
	content, err := tableppt.Shows(1, none)
	refused(err, float64(content))

	_, err = Meter{Compensation: Compensation{Reference: units.Celsius(0)}}.Shows(1, units.Celsius(20))
	assert.ErrorIs(t, err, units.ErrInput, "Raw with a reference, though of 0 °C")
}

// A cell that reads a tenth of the truth or less is a slip of the unit; beside
// the error nothing passes for an offset.
func TestCellThatIsNone(t *testing.T) {
	at := units.Celsius(25)
	for _, m := range []Meter{{CellOffset: units.Share(-0.91)}, {CellOffset: units.Share(-0.999999)}, {CellOffset: units.Share(9.01)}} {
		_, err := m.Shows(50, at)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	for _, reading := range []units.Conductivity{0.001, 4, 600} { // 50 mS/cm is the truth
		m, err := Meter{}.Calibrated(reading, 50, at)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(m.CellOffset.Value()))
	}
	s, err := SalinityMeter{}.Calibrated(units.Practical(1), standard, at)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(s.CellOffset.Value()))
	f, err := CellOffset(0.05, 1)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(f.Value()))
	_, err = CellOffset(0.1, 1)
	assert.NoError(t, err)
}

// What a meter of salinity shows and is asked for lies on the scale, whatever
// its cell makes of it.
func TestSalinityMeterStaysOnTheScale(t *testing.T) {
	at := units.Celsius(25)
	high, low := SalinityMeter{CellOffset: units.Share(0.5)}, SalinityMeter{CellOffset: units.Share(-0.3)}
	p, err := high.Reading(standard, at)
	var beyond *units.RangeError
	require.ErrorAs(t, err, &beyond)
	assert.Equal(t, "reading", beyond.Quantity)
	assert.Greater(t, float64(beyond.Got), 50.)
	assert.True(t, math.IsNaN(p.Value()))
	p, err = high.Reading(units.Absolute(25), at)
	require.NoError(t, err)
	sa, err := high.Salinity(p, at)
	require.NoError(t, err)
	assert.InDelta(t, 25, sa.GramsPerKilogram(), 1e-9)

	for _, reading := range []float64{42.1, 55} { // of which the water itself is on the scale
		sa, err := high.Salinity(units.Practical(reading), at)
		assert.ErrorIs(t, err, units.ErrRange)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
		m, err := high.Calibrated(units.Practical(reading), standard, at)
		assert.ErrorIs(t, err, units.ErrRange)
		assert.True(t, math.IsNaN(m.CellOffset.Value()))
	}
	_, err = low.Salinity(units.Practical(42), at)
	assert.ErrorIs(t, err, units.ErrRange, "the water is beyond the scale")
}
