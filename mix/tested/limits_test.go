package tested_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

const day = 24 * time.Hour

// The usual limits, number by number against a list of their own; the reasons
// stand in package advice. All common practice.
func TestUsualLimits(t *testing.T) {
	usual := tested.Usual()
	require.Len(t, usual, 2)
	assert.Equal(t, "temperature 1 °C, pH 0.2 within an hour (common practice)", usual[0].String())
	assert.Equal(t, "salinity 1, temperature 2 °C, pH 0.3, new water 50 %, alkalinity 1 dKH, calcium 20 mg/L Ca, "+
		"magnesium 50 mg/L Mg, potassium 10 mg/L K, strontium 1 mg/L Sr, bromide 5 mg/L Br, boron 0.5 mg/L B, "+
		"fluoride 0.2 mg/L F, iodine 0.01 mg/L I, iron 0.002 mg/L Fe, nitrate 2 mg/L NO3, phosphate 0.02 mg/L PO4 "+
		"within a day (common practice)", usual[1].String())
	assert.NoError(t, tested.Limits{Own: usual}.Check("limits"))
}

// No limits given are the usual ones; one of one's own replaces its like and leaves
// the others; none is said.
func TestWhichLimitsHold(t *testing.T) {
	assert.Equal(t, tested.Held(tested.Usual()), tested.Limits{}.List())
	assert.Empty(t, tested.Limits{WithoutUsual: true}.List())
	own := tested.Limits{Own: []tested.Limit{{
		Within: 2 * day, PH: 0.1, Levels: tested.Levels{tested.Calcium.Of(60*units.MilligramPerLitre, units.AsCalcium)}, Origin: "me",
	}}}
	list := own.List()
	require.Len(t, list, 3)
	assert.Equal(t, "temperature 1 °C within an hour (common practice)", list[0].String())
	assert.NotContains(t, list[1].String(), "calcium")
	assert.Contains(t, list[1].String(), "alkalinity 1 dKH")
	assert.Equal(t, "pH 0.1, calcium 60 mg/L Ca within 48 h (me)", list[2].String())

	limit, origin, limited := own.List().PerDay(tested.Calcium)
	assert.True(t, limited)
	assert.Equal(t, "30 mg/L Ca", limit.String())
	assert.Equal(t, "me", origin)
	_, _, limited = tested.Limits{WithoutUsual: true}.List().PerDay(tested.Calcium)
	assert.False(t, limited)
	swing, _, limited := tested.Limits{}.List().PH(0)
	assert.True(t, limited)
	assert.Equal(t, 0.2, swing)
	swing, _, _ = tested.Limits{}.List().PH(2 * time.Hour)
	assert.Equal(t, 0.3, swing)
}

func TestLimitsCheck(t *testing.T) {
	for what, l := range map[string]tested.Limits{
		"no time":   {Own: []tested.Limit{{PH: 0.1, Origin: "me"}}},
		"no origin": {Own: []tested.Limit{{PH: 0.1, Within: day}}},
		"negative":  {Own: []tested.Limit{{PH: -0.1, Within: day, Origin: "me"}}},
		"no room":   {Own: []tested.Limit{{Levels: tested.Levels{tested.AlkalinityOf(units.MilliequivalentsPerLitre(0))}, Within: day, Origin: "me"}}},
	} {
		assert.Error(t, l.Check("limits"), what)
	}
}

func TestLimitsJSON(t *testing.T) {
	l := tested.Limits{Own: tested.Usual()}
	text, err := json.Marshal(l)
	require.NoError(t, err)
	var back tested.Limits
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, l, back)
}
