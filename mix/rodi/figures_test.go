package rodi

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

// Every limit and threshold against a second table, written down number by number.
// Where no source is named it is common practice.
func TestFigures(t *testing.T) {
	l := UsualLimits()
	for _, c := range []struct {
		figure    string
		got, want float64
		source    string
	}{
		{"least rejection, %", l.Rejection.Percent(), 90, ""},
		{"most behind the resin, ppm", l.AfterResin.PPM(), 1, ""},
		{"its factor, ppm per µS/cm", float64(l.AfterResin.Scale()), 0.5, ""},
		{"most pressure drop, bar", l.PressureDrop.Bars(), 0.7, ""},
		{"the same, psi", l.PressureDrop.PSI(), 10.15, ""},
		{"most chlorine, mg/L", l.Chlorine.MilligramsPerLitre(), 0.1, ""},
		{"usual recovery", usualRecovery, 0.5, ""},
		{"hottest feed, °C", hottest, 45, ""},
		{"frost, °C", frostBelow, 4, ""},
		{"range of the membrane, from, °C", temperatureRange.Min, 0, ""},
		{"to, °C", temperatureRange.Max, 45, ""},
		{"flux below 25 °C, K", usualFlux.Cold, 3020, "a design note, second hand"},
		{"flux above, K", usualFlux.Warm, 2640, "a design note, second hand"},
		{"conductivity of an equivalent, S cm²/eq", chargeConductivity, 100, "water analysis, from memory"},
		{"coverage", coverage, 2, "JCGM 100, 6.2"},
		{"1 eq/L in kilograins per cubic foot", float64(units.MolePerLitre / KilograinPerCubicFoot), 21.87, "Michaud 2011"},
	} {
		assert.InEpsilon(t, c.want+1, c.got+1, 5e-4, "%s (%s)", c.figure, c.source)
	}
}

// Where each caution begins and ends, and that its sentence has the figure.
func TestThresholdsOfCautions(t *testing.T) {
	said := func(celsius, recovery float64) string {
		f := Feed{Temperature: units.Celsius(celsius)}
		ids := ""
		for _, c := range (System{}).cautions(f, Product{Recovery: units.Share(recovery)}) {
			ids += c.ID + " "
		}
		return ids
	}
	assert.Contains(t, said(3.9, 0.2), "frost")
	assert.NotContains(t, said(4, 0.2), "frost")
	assert.NotContains(t, said(20, 0.5), "scaling")
	assert.Contains(t, said(20, 0.501), "scaling")
	assert.Contains(t, hotWater().Text, "above 45 °C")
	assert.Equal(t, advice.Care, hotWater().Severity)
	for _, danger := range []advice.Caution{drinkingLine, notForDrinking} {
		assert.Equal(t, advice.Danger, danger.Severity)
	}
}

// What a reading of 1 ppm behind the resin says depends on the step of the meter.
func TestEdgesOfWhatIsAccepted(t *testing.T) {
	for _, c := range []struct {
		scale float64
		ok    bool
	}{{0.29, false}, {0.3, true}, {1, true}, {1.01, false}} {
		err := checkTDS("x", units.TDSReading(100, units.TDSScale(c.scale)))
		assert.Equal(t, c.ok, err == nil, c.scale)
	}
	// 40 g/L of sodium chloride have 62.19 mS/cm, computed here: 31.09 g/L at the factor 0.5.
	assert.NoError(t, checkTDS("x", units.TDSReading(31000, 0.5)))
	assert.ErrorIs(t, checkTDS("x", units.TDSReading(31200, 0.5)), units.ErrRange)
	r := Resin{Volume: 1, Capacity: 5 * units.MolePerLitre, Usable: units.Share(1)}
	assert.NoError(t, r.check())
	r.Capacity *= 1.001
	assert.ErrorIs(t, r.check(), units.ErrInput)
	m := Membrane{
		Rated: Rating{Flow: 12, Pressure: 4, Temperature: units.Celsius(25), Rejection: units.Share(0.96)},
		Flux:  FluxConstants{Cold: 10000, Warm: 10000},
	}
	assert.NoError(t, m.check())
	m.Flux.Warm = 10001
	assert.ErrorIs(t, m.check(), units.ErrInput)
}

// What is assumed of the carbon is said as soon as there is anything to remove.
func TestCarbonAssumption(t *testing.T) {
	s := System{
		Membrane:   Membrane{Rated: Rating{Flow: 12, Pressure: 4, Temperature: units.Celsius(25), Rejection: units.Share(0.96)}},
		Carbon:     Carbon{Chlorine: 20},
		WasteRatio: 3,
	}
	said := func(chlorine, chloramine units.MassPerLitre) bool {
		p, err := s.Produce(Feed{TDS: units.TDSReading(250, 0.5), Pressure: 4, Temperature: units.Celsius(15), Chlorine: chlorine, Chloramine: chloramine})
		require.NoError(t, err)
		return strings.Contains(strings.Join(p.Assumptions, " "), "The carbon removes what its label says")
	}
	assert.True(t, said(0.5, 0))
	assert.True(t, said(0, 0.05))
	assert.False(t, said(0, 0))
	s.Carbon = Carbon{}
	assert.False(t, said(0.5, 0))
}

// What cannot be reckoned is an error, not a number beside none.
func TestAnswersThatAreNone(t *testing.T) {
	tds := func(x float64) units.TDS { return units.TDSReading(x, 0.5) }
	_, _, err := Rejection(tds(5e-324), tds(5e-324), 0)
	assert.ErrorIs(t, err, units.ErrInput)
	_, _, err = Rejection(tds(8), tds(1), 1e308)
	assert.EqualError(t, err, "step: got 1e+308 ppm, want no more than the 8 ppm of the feed")
	p := Product{Flow: 5, Waste: units.Flow(-1)}
	_, err = p.Fill(10)
	assert.ErrorContains(t, err, "product.waste: ")
	p = Product{Flow: 5, Waste: 5, Cost: units.Money{Amount: 1e308}}
	run, err := p.Fill(1000)
	assert.ErrorContains(t, err, "product.cost: ")
	assert.Equal(t, Run{}, run)
	assert.True(t, p.Idle(-1) != p.Idle(-1))
	s := System{
		Membrane:   Membrane{Rated: Rating{Flow: 12, Pressure: 4, Temperature: units.Celsius(25), Rejection: units.Share(0.96)}},
		WasteRatio: 3, Sediment: Filter{Life: 1e-300, Price: units.Money{Amount: 1e300}},
	}
	_, err = s.Produce(Feed{TDS: tds(250), Pressure: 4, Temperature: units.Celsius(15)})
	assert.ErrorContains(t, err, "sediment.price: ")
}

// Chlorine is warned of where there is any, or no carbon to tell that there is none.
func TestChlorineCaution(t *testing.T) {
	bed := Carbon{Bed: 1}
	for _, c := range []struct {
		carbon               Carbon
		chlorine, chloramine units.MassPerLitre
		kills, passes        bool
	}{
		{bed, 0, 0, false, false}, {Carbon{}, 0, 0, true, false},
		{bed, 0.1, 0, true, false}, {bed, 0, 0.1, true, true}, {Carbon{}, 0.1, 0.1, true, true},
	} {
		f := Feed{Temperature: units.Celsius(20), Chlorine: c.chlorine, Chloramine: c.chloramine}
		list := System{Carbon: c.carbon}.cautions(f, Product{})
		assert.Equal(t, c.kills, slices.Contains(list, chlorineKills), "%+v", c)
		assert.Equal(t, c.passes, slices.Contains(list, chloraminePass), "%+v", c)
	}
}

// What a bed lasts for is not known where the capacity for something that is there is not.
func TestCarbonLastsFor(t *testing.T) {
	for _, c := range []struct {
		bed                  Carbon
		chlorine, chloramine units.MassPerLitre
		want                 units.Volume
	}{
		{Carbon{Chlorine: 20}, 1, 0, 20000}, {Carbon{Chlorine: 20}, 0, 1, 0}, {Carbon{Chlorine: 20}, 1, 1, 0},
		{Carbon{Chloramine: 4}, 0, 1, 4000}, {Carbon{Chloramine: 4}, 1, 0, 0}, {Carbon{Chloramine: 4}, 1, 1, 0},
		{Carbon{Chlorine: 20, Chloramine: 4}, 0, 1, 4000}, {Carbon{Chlorine: 20, Chloramine: 4}, 1, 0, 20000},
		{Carbon{Chlorine: 20, Chloramine: 4}, 0, 0, 0}, {Carbon{}, 0, 0, 0},
	} {
		got, err := c.bed.Lasts(c.chlorine, c.chloramine)
		require.NoError(t, err)
		assert.InDelta(t, c.want.Litres(), got.Litres(), 1e-8, "%+v", c)
	}
}

// One pressure read without the step of the gauge is asked about; what is behind the resin
// is not for drinking.
func TestJudgeAsksAndWarns(t *testing.T) {
	r := Readings{Feed: units.TDSReading(240, 0.5), AfterMembrane: units.TDSReading(8, 0.5), Step: 1}
	c, err := Judge(r, UsualLimits())
	require.NoError(t, err)
	assert.NotContains(t, c.Cautions, notForDrinking)
	r.AfterResin = units.TDSReading(0, 0.5)
	c, err = Judge(r, UsualLimits())
	require.NoError(t, err)
	assert.Contains(t, c.Cautions, notForDrinking)
	for _, one := range []Readings{{Before: 4}, {Behind: 3}} {
		one.Feed, one.AfterMembrane, one.Step = r.Feed, r.AfterMembrane, 1
		_, err = Judge(one, UsualLimits())
		assert.ErrorContains(t, err, "gaugeStep: ")
	}
}

// Above 25 °C the constant of warm water holds, below that of cold, whatever they are.
func TestTemperatureFactorTurnsAt25(t *testing.T) {
	k := FluxConstants{Cold: 3020, Warm: 2640}
	assert.InDelta(t, math.Exp(2640*(1./298-1./303)), TemperatureFactor(units.Celsius(30), k), 1e-12)
	assert.InDelta(t, math.Exp(3020*(1./298-1./293)), TemperatureFactor(units.Celsius(20), k), 1e-12)
	assert.InDelta(t, 1, TemperatureFactor(units.Celsius(25), k), 1e-12)
}
