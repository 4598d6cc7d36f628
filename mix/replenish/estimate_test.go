package replenish_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// How sure is a dose in a tank of which the volume is known to 7 %, by a kit that reads
// calcium to 10 mg/L?
func ExampleDose_Estimates() {
	calcium := func(mg float64) tested.Level {
		return tested.Calcium.Of(units.MassPerLitre(mg), units.AsCalcium)
	}
	dose := replenish.Dose{
		Tank: reef(), To: calcium(430),
		Additive: replenish.Dry(jar("CaCl2.2H2O", units.Percent(97))),
	}
	list, err := dose.Estimates(replenish.Doubts{Tank: units.Percent(7), Level: calcium(10), Strength: units.Percent(2)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range list {
		fmt.Printf("%s %.0f ± %.0f %s, mostly because of %s\n", e.Name, e.Value, e.Uncertainty, e.Unit, e.Mostly)
	}
	// Output:
	// Dose 57 ± 12 g, mostly because of the test of calcium
	// Level afterwards 430 ± 11 mg/L Ca, mostly because of the test of calcium
}

// Of a product of powers the relative doubts add in squares (JCGM 100, 5.1.6), to first order.
func TestDoseEstimates(t *testing.T) {
	calcium := func(mg float64) tested.Level {
		return tested.Calcium.Of(units.MassPerLitre(mg), units.AsCalcium)
	}
	d := replenish.Dose{Tank: reef(), To: calcium(430), Additive: replenish.Dry(jar("CaCl2.2H2O", units.Percent(97)))}
	plan, err := replenish.Plan(d)
	require.NoError(t, err)
	list, err := d.Estimates(replenish.Doubts{
		Tank: units.Percent(0.03), Level: calcium(0.01), Strength: units.Percent(0.05), Amount: units.Percent(0.04),
	})
	require.NoError(t, err)
	assert.InEpsilon(t, plan.Amount.Mass.Grams(), float64(list[0].Value), 1e-12)
	assert.InEpsilon(t, math.Sqrt(3*3+2*2+5*5)*1e-4, float64(list[0].Uncertainty)/float64(list[0].Value), 1e-5) // 0.01 of 50 is 0.02 %
	assert.InEpsilon(t, 430, float64(list[1].Value), 1e-12)
	assert.InEpsilon(t, math.Sqrt(9+4+25+16)*1e-4*50, float64(list[1].Uncertainty), 1e-5)
	assert.Equal(t, "the strength of the additive", list[1].Mostly)

	stock := replenish.Dose{
		Tank: reef(), To: tested.AlkalinityOf(units.DKH(8)),
		Additive: replenish.Stock(replenish.Ingredient{Reagent: jar("NaHCO3", units.Percent(99)), PerLitre: 70 * units.GramPerLitre}),
	}
	list, err = stock.Estimates(replenish.Doubts{})
	require.NoError(t, err)
	assert.Equal(t, "mL", list[0].Unit)
	assert.Zero(t, list[0].Uncertainty)
	assert.Empty(t, list[0].Mostly)

	for name, bad := range map[string]replenish.Doubts{
		"negative": {Tank: units.Share(-1)},
		"NaN":      {Strength: units.Share(math.NaN())},
		"other":    {Level: tested.AlkalinityOf(units.DKH(1))},
		"counting": {Level: tested.Calcium.Of(1, units.AsNitrate)},
	} {
		_, err := d.Estimates(bad)
		assert.ErrorContains(t, err, "doubts", name)
	}
	d.To = calcium(300)
	_, err = d.Estimates(replenish.Doubts{})
	assert.ErrorIs(t, err, units.ErrInput)
}
