package refractometer

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

// A temperature that nobody set is refused wherever an instrument needs one, and
// a freezing point that was set is not.
func TestForgottenTemperature(t *testing.T) {
	var none units.Temperature
	at := units.Celsius(20)
	good := Instrument{Graduation: PracticalScale(), Zero: Zeroing{Standard: PureWater(), Temperature: at}, Compensation: Automatic(PureWater())}
	bare := Instrument{Graduation: PracticalScale()}
	for _, row := range []struct {
		instrument    Instrument
		sample, prism units.Temperature
		want          string
	}{
		{good, none, at, "sample.temperature: got nothing, want a temperature"},
		{good, at, none, "prism.temperature: got nothing, want a temperature"},
		{bare, none, none, "sample.temperature: got nothing, want a temperature"},
		{Instrument{Graduation: PracticalScale(), Zero: Zeroing{Standard: PureWater()}}, at, at, "zero.temperature: got nothing, want a temperature"},
		{Instrument{Graduation: PracticalScale().At(none)}, at, at, "graduation.temperature: got nothing, want a temperature"},
		{Instrument{Graduation: GravityOfSeawater(units.GravityPair{})}, at, at, "graduation.temperatureOfTheLiquid: got nothing, want a temperature"},
		{Instrument{Graduation: GravityOfSodiumChloride(units.GravityPair{Liquid: at})}, at, at, "graduation.temperatureOfTheWater: got nothing, want a temperature"},
		{Instrument{Graduation: PracticalScale(), Compensation: Compensation{Liquid: PureWater(), Max: at}}, at, at, "compensation.lowestTemperature: got nothing, want a temperature"},
		// a freezing point, and nothing else, is no instrument that was never set
		{Instrument{Graduation: PracticalScale(), Zero: Zeroing{Temperature: units.Celsius(0)}}, at, at, "zero.liquid: got none, want pure water, a standard or a solution of this package"},
	} {
		r, err := row.instrument.ReadingUnsettled(sea(35), row.sample, row.prism)
		assert.EqualError(t, err, row.want)
		assert.True(t, math.IsNaN(float64(r)))
		sa, err := row.instrument.SalinityUnsettled(35, row.sample, row.prism)
		assert.EqualError(t, err, row.want)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
	}
	for _, i := range []Instrument{
		bare, {Graduation: PracticalScale().At(units.Celsius(0))}, {Graduation: GravityOfSeawater(units.GravityPair{Liquid: units.Celsius(0), Water: units.Celsius(4)})},
		{Graduation: PracticalScale(), Zero: Zeroing{Standard: PureWater(), Temperature: units.Celsius(0)}},
	} {
		_, err := i.Reading(sea(30), units.Celsius(0))
		assert.NoError(t, err, "%v", i)
	}
}

// Far outside its range a fit may fall below 1, the index of nothing.
func TestIndexOfNothing(t *testing.T) {
	for _, celsius := range []float64{-200, 0, 20, 150, 300, 1000} {
		at := units.Celsius(celsius)
		for _, w := range []units.Fraction{units.Share(0), units.Share(0.035), units.Share(0.3), units.Share(1)} {
			for _, n := range []AirIndex{SodiumChloride(w, at), Sucrose(w, at)} {
				assert.True(t, n.Value() >= 1 || math.IsNaN(n.Value()), "%v at %v: %v", w, at, n)
			}
		}
	}
	hot := units.Celsius(300)
	assert.True(t, math.IsNaN(SodiumChloride(units.Share(0.035), hot).Value()))
	fresh, _ := saltScale(hot)
	assert.Less(t, fresh, 1.)
	assert.True(t, math.IsNaN(SodiumChlorideStrength(InAir(fresh+0.001), hot).Value()))
	assert.True(t, math.IsNaN(Sucrose(units.Share(0.3), units.Celsius(200)).Value()))
	assert.True(t, math.IsNaN(SucroseStrength(InAir(sucrose(0.3, units.Celsius(200))), units.Celsius(200)).Value()))
}
