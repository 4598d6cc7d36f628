package rodi_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/units"
)

// As much chlorine as chloramine is not none of both, and uses the carbon of both.
func TestCarbonForBoth(t *testing.T) {
	c := rodi.Carbon{Bed: 1, Chlorine: 100 * units.Gram, Chloramine: 50 * units.Gram}
	both, err := c.Lasts(2*units.MilligramPerLitre, 2*units.MilligramPerLitre)
	assert.NoError(t, err)
	assert.InEpsilon(t, 1/(0.002/100+0.002/50), both.Litres(), 1e-12)
}

// What is wrong with a stage is refused by whatever asks it.
func TestRefusalsOfStages(t *testing.T) {
	for _, c := range []rodi.Carbon{
		{Bed: -1}, {Chlorine: -1}, {Chloramine: units.Mass(math.NaN())}, {Price: units.Money{Amount: -1, Currency: "EUR"}},
	} {
		_, err := c.Lasts(1, 0)
		assert.ErrorIs(t, err, units.ErrInput, "%+v", c)
	}
	r, doubt, err := rodi.Rejection(units.TDSReading(240, 0.5), units.TDSReading(-9, 0.5), 1)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(r.Value()) && math.IsNaN(doubt.Value()))
	for _, k := range []rodi.FluxConstants{{Cold: -1, Warm: 3000}, {Cold: 10001, Warm: 3000}, {Cold: 2640, Warm: -1}, {Cold: 2640, Warm: 10001}} {
		system, feed := house()
		system.Membrane.Flux = k
		_, err := system.Produce(feed)
		assert.ErrorIs(t, err, units.ErrInput, "%+v", k)
	}
}

// What is said of the carbon is said where there is carbon and chlorine or chloramine for
// it, be there as much of the one as of the other.
func TestCarbonIsSpokenOf(t *testing.T) {
	const sentence = "The carbon removes what its label says"
	for _, c := range []struct {
		carbon               bool
		chlorine, chloramine units.MassPerLitre
		want                 bool
	}{{true, 1, 0, true}, {true, 0.5, 0.5, true}, {true, 0, 0, false}, {false, 1, 0, false}} {
		system, feed := house()
		system.Carbon = rodi.Carbon{}
		if c.carbon {
			system.Carbon = rodi.Carbon{Bed: 1, Chlorine: 100 * units.Gram, Chloramine: 50 * units.Gram}
		}
		feed.Chlorine, feed.Chloramine = c.chlorine, c.chloramine
		p, err := system.Produce(feed)
		assert.NoError(t, err)
		assert.Equal(t, c.want, strings.Contains(strings.Join(p.Assumptions, " "), sentence), "%+v", c)
	}
}

// Without its carbon dioxide the feed uses less of the resin than it will, and the plan
// says so.
func TestResinOfAFeedThatIsNotKnown(t *testing.T) {
	system, feed := house()
	feed.CarbonDioxide = 0
	p, err := system.Produce(feed)
	assert.NoError(t, err)
	assert.Contains(t, strings.Join(p.Assumptions, " "), "that of the feed is not known and was left out")
}

// A capacity of more than 5 eq/L is one in other units (common practice: 0.5 to 2); a
// membrane is rated at 25 °C.
func TestBoundOfACapacity(t *testing.T) {
	for capacity, ok := range map[units.AmountPerLitre]bool{4.9 * units.MolePerLitre: true, 5.1 * units.MolePerLitre: false} {
		_, err := rodi.Resin{Volume: 1, Capacity: capacity, Usable: units.Share(0.7)}.Lasts(units.TDSReading(10, 0.5), 0)
		assert.Equal(t, ok, err == nil, "%v: %v", capacity, err)
	}
	assert.InDelta(t, 1, rodi.TemperatureFactor(units.Celsius(25), rodi.FluxConstants{}), 1e-15)
}
