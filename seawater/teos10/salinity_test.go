package teos10

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

func TestReferenceSalinity(t *testing.T) {
	const thereAndBack = 1e-14
	assert.Equal(t, 35.16504, AbsoluteFromPractical(units.Practical(35)).GramsPerKilogram(), "by definition")
	assert.Equal(t, 35.0, PracticalFromAbsolute(units.Absolute(35.16504)).Value())
	assert.Equal(t, 0.0, AbsoluteFromPractical(units.Practical(0)).GramsPerKilogram())
	for sp := 0.0; sp < 50; sp += 0.7 {
		back := PracticalFromAbsolute(AbsoluteFromPractical(units.Practical(sp))).Value()
		assert.InDelta(t, sp, back, thereAndBack*(1+sp))
	}
	for _, s := range []float64{-1e-9, nan, inf, -inf} {
		assert.True(t, math.IsNaN(AbsoluteFromPractical(units.Practical(s)).GramsPerKilogram()), s)
		assert.True(t, math.IsNaN(PracticalFromAbsolute(units.Absolute(s)).Value()), s)
		assert.True(t, math.IsNaN(Molality(units.Absolute(s))), s)
		assert.True(t, math.IsNaN(IonicStrength(units.Absolute(s))), s)
		assert.True(t, math.IsNaN(SalinityAnomaly(units.Practical(s), Solutes{})), s)
		assert.True(t, math.IsNaN(PracticalFromDensitySalinity(units.Absolute(s), Solutes{}).Value()), s)
	}
}

func TestSalinityAnomaly(t *testing.T) {
	sp := units.Practical(35)
	ocean := Solutes{Alkalinity: 2300, Carbon: 2080}
	assert.InDelta(t, 0, SalinityAnomaly(sp, ocean), 1e-15, "the contents that the fit starts from")
	// One coefficient at a time, in mg/kg for a mmol/kg more [PWM11].
	for _, r := range []struct {
		more Solutes
		want float64
	}{
		{Solutes{Alkalinity: 3300, Carbon: 2080}, 0.0556},
		{Solutes{Alkalinity: 2300, Carbon: 3080}, 0.0047},
		{Solutes{Alkalinity: 2300, Carbon: 2080, Nitrate: 1000}, 0.0389},
		{Solutes{Alkalinity: 2300, Carbon: 2080, Silicate: 1000}, 0.0507},
	} {
		assert.InDelta(t, r.want, SalinityAnomaly(sp, r.more), 1e-14)
		assert.InDelta(t, 35.16504+r.want, DensitySalinity(sp, r.more).GramsPerKilogram(), 1e-14)
	}
	// Half as salt, half of each.
	assert.InDelta(t, 0, SalinityAnomaly(units.Practical(17.5), Solutes{Alkalinity: 1150, Carbon: 1040}), 1e-15)
	// The factor that published codes use for the way back.
	assert.InDelta(t, 0.999218211671, PracticalFromDensitySalinity(units.Absolute(1), Solutes{}).Value(), 5e-13)
	for s := 1.0; s < 45; s++ {
		w := Solutes{Alkalinity: 2900, Carbon: 2500, Nitrate: 100, Silicate: 40}
		sa := DensitySalinity(units.Practical(s), w)
		assert.InDelta(t, s, PracticalFromDensitySalinity(sa, w).Value(), 1e-13)
	}
}
