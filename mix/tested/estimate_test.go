package tested_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// ammoniated is a tank at 35 and 25 °C, pH 8.2, in which ammonia was tested.
func ammoniated(t testing.TB) tested.Water {
	sea, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	require.NoError(t, err)
	return tested.Water{
		Portion: sea.OfVolume(200 * units.Litre),
		Carbon:  carbonate.PH(carbonate.PHTotal(8.2)),
		Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(8)).In(tested.DKH),
			tested.Ammonia.Of(0.5*units.MilligramPerLitre, units.AsNitrogen),
		},
	}
}

// A kit reads ammonia to 0.1 mg/L and a meter the pH to 0.1: how sure is the poison?
func ExampleWater_Estimates() {
	sea, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	ammonia := func(mg float64) tested.Level {
		return tested.Ammonia.Of(units.MassPerLitre(mg), units.AsNitrogen)
	}
	tank := tested.Water{
		Portion: sea.OfVolume(200 * units.Litre),
		Carbon:  carbonate.PH(carbonate.PHTotal(8.2)),
		Levels:  tested.Levels{tested.AlkalinityOf(units.DKH(8)), ammonia(0.5)},
	}
	list, err := tank.Estimates(tested.Doubts{PH: 0.1, Temperature: 0.5, Levels: tested.Levels{ammonia(0.1)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	free := list[len(list)-1]
	fmt.Printf("%s %.3f ± %.3f %s, mostly because of %s\n", free.Name, free.Value, free.Uncertainty, free.Unit, free.Mostly)
	// Output: Free ammonia 0.050 ± 0.015 mg/L NH3, mostly because of the pH
}

// Of each doubt alone, by the mass action NH3/(NH3 + NH4) = K/(K + h).
func TestEstimatesOfFreeAmmonia(t *testing.T) {
	w := ammoniated(t)
	free := func(d tested.Doubts) (value, uncertainty float64) {
		list, err := w.Estimates(d)
		require.NoError(t, err)
		require.Len(t, list, 4)
		return float64(list[3].Value), float64(list[3].Uncertainty)
	}
	const ammonia, nitrogen = 17.031, 14.007 // IUPAC 2021
	value, none := free(tested.Doubts{})
	assert.Zero(t, none)
	share := value * nitrogen / ammonia / 0.5

	_, u := free(tested.Doubts{Levels: tested.Levels{tested.Ammonia.Of(0.1*units.MilligramPerLitre, units.AsNitrogen)}})
	assert.InEpsilon(t, value/5, u, 1e-9)

	at := func(by float64) float64 { return 1 / (1 + (1-share)/share*math.Pow(10, -by)) }
	_, u = free(tested.Doubts{PH: 0.1})
	assert.InEpsilon(t, (at(0.1)-at(-0.1))/2*0.5*ammonia/nitrogen, u, 1e-9)

	// pK = 10.0423 - 0.0315536 t + 0.003071 S (Bell et al. 2007, Environ. Chem. 4, 183-186, from
	// memory), another fit than the one in use: its slope in t within a tenth. That in S, a mean
	// from fresh water on, is no check: at 35 the fit in use has 0.0018.
	_, u = free(tested.Doubts{Temperature: 0.5})
	assert.InEpsilon(t, math.Ln10*(1-share)*0.0315536*0.5, u/value, 0.1)
	_, u = free(tested.Doubts{Salinity: units.Practical(1)})
	of := func(s float64) float64 {
		return carbonate.FreeAmmonia(units.Practical(s), units.Celsius(25), carbonate.PHTotal(8.2)).Value()
	}
	assert.InEpsilon(t, (of(34)-of(36))/2/share, u/value, 1e-6)
}

// A pH that was read does not follow the alkalinity; one that follows from the DIC does.
func TestEstimatesHoldWhatWasRead(t *testing.T) {
	w := ammoniated(t)
	doubt := tested.Doubts{Levels: tested.Levels{tested.AlkalinityOf(units.DKH(0.5))}}
	list, err := w.Estimates(doubt)
	require.NoError(t, err)
	assert.Zero(t, list[0].Uncertainty)
	assert.InEpsilon(t, 0.5/8, float64(list[2].Uncertainty)/float64(list[2].Value), 0.15, "aragonite goes nearly with the alkalinity")
	settled, err := w.WithDIC()
	require.NoError(t, err)
	list, err = settled.Estimates(doubt)
	require.NoError(t, err)
	assert.Greater(t, list[0].Uncertainty, 0.1)
	assert.Equal(t, "the alkalinity", list[0].Mostly)
	doubt.PH = 1e-6
	list, err = settled.Estimates(doubt)
	require.NoError(t, err)
	assert.InEpsilon(t, 1e-6, float64(list[0].Uncertainty), 1e-3)
}

func TestEstimatesRefuse(t *testing.T) {
	w := ammoniated(t)
	for name, d := range map[string]tested.Doubts{
		"negative": {PH: -1},
		"NaN":      {Salinity: units.Practical(math.NaN())},
		"level":    {Levels: tested.Levels{tested.Ammonia.Of(-1, units.AsNitrogen)}},
		"wild":     {Temperature: 500},
	} {
		_, err := w.Estimates(d)
		assert.ErrorContains(t, err, "doubts", name)
	}
	_, err := tested.Water{Portion: w.Portion}.Estimates(tested.Doubts{})
	assert.ErrorIs(t, err, units.ErrInput)
}
