package tested_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// Molar masses from the IUPAC abridged standard atomic weights of 2021; the degree
// of carbonate hardness is 10 mg/L CaO (DIN 38409), two equivalents of which weigh
// 56.077 g.
func TestLevelBase(t *testing.T) {
	for _, c := range []struct {
		text string
		of   tested.Parameter
		base float64
	}{
		{"8.2 dKH", tested.Alkalinity, 8.2 * 20 / 56.077},
		{"2.9 meq/L", tested.Alkalinity, 2.9},
		{"146 mg/L CaCO3 of alkalinity", tested.Alkalinity, 146 * 2 / 100.086},
		{"420 mg/L Ca", tested.Calcium, 420 / 40.078},
		{"1050 mg/L CaCO3 of calcium", tested.Calcium, 1050 / 100.086},
		{"10.4 mmol/L of calcium", tested.Calcium, 10.4},
		{"24 mg/L NO3", tested.Nitrate, 24 / 62.004},
		{"24 mg/l no3", tested.Nitrate, 24 / 62.004},
		{"6 mg/L NO3-N", tested.Nitrate, 6 / 14.007},
		{"6 mg/L N of nitrate", tested.Nitrate, 6 / 14.007},
		{"0.05 mg/L PO4", tested.Phosphate, 0.05 / 94.970},
		{"0.02 mg/L PO4-P", tested.Phosphate, 0.02 / 30.974},
		{"0.1 mg/L NH3-N", tested.Ammonia, 0.1 / 14.007},
		{"0.1 mg/L NH4", tested.Ammonia, 0.1 / 18.039},
		{"60 ug/L I", tested.Iodine, 0.06 / 126.90},
		{"0.2 mg/L of copper", "copper", 0.2},
	} {
		l, err := units.Parse[tested.Level](c.text)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.of, l.Parameter(), c.text)
		assert.InDelta(t, c.base, l.Base(), 1e-15*math.Abs(c.base)*4, c.text)
		text, err := l.MarshalText()
		require.NoError(t, err)
		back, err := units.Parse[tested.Level](string(text))
		require.NoError(t, err, string(text))
		assert.Equal(t, l, back, string(text))
	}
}

func TestLevelSaysOfWhat(t *testing.T) {
	for _, text := range []string{
		"24", "24 mg/L", "24 mg/L N", "146 mg/L CaCO3", "146 ppm CaCO3", "10 mmol/L", "5 mg/L of nitrate", "5 ppm",
		"5 mg/L Na of calcium", "8.2 dKH of calcium", "24 mg/L NO3 of phosphate", "5 mg/L NO3 of ", "x mg/L NO3",
	} {
		l, err := units.Parse[tested.Level](text)
		var bad *units.InputError
		require.ErrorAs(t, err, &bad, text)
		assert.False(t, l.Exists(), text)
	}
}

func TestLevelJSON(t *testing.T) {
	list := tested.Levels{
		tested.AlkalinityOf(units.DKH(8.2)).In(tested.DKH),
		tested.Nitrate.Of(24*units.MilligramPerLitre, units.AsNitrate),
		tested.Parameter("copper").OfMass(0.2 * units.MilligramPerLitre),
		{},
	}
	text, err := json.Marshal(list)
	require.NoError(t, err)
	assert.Equal(t, `["8.2 dKH","24 mg/L NO3","0.2 mg/L of copper",null]`, string(text))
	var back tested.Levels
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, list, back)
	_, err = json.Marshal(tested.Calcium.Of(units.MassPerLitre(math.NaN()), units.AsCalcium))
	assert.Error(t, err)
}

func TestLevelCheck(t *testing.T) {
	for _, l := range []tested.Level{
		{},
		tested.Calcium.Of(420, units.AsNitrogen),
		tested.Alkalinity.Of(8, units.AsNitrogen),
		tested.Calcium.OfMass(420),
		tested.Calcium.Of(-1, units.AsCalcium),
		tested.Calcium.Of(units.MassPerLitre(math.Inf(1)), units.AsCalcium),
		tested.Parameter("copper").OfAmount(1),
		tested.AlkalinityOf(units.MilliequivalentsPerLitre(math.NaN())),
		tested.AlkalinityOf(units.MilliequivalentsPerLitre(1)).In(7),
	} {
		assert.Error(t, l.Check("tank"), l.String())
	}
	assert.NoError(t, tested.AlkalinityOf(units.MilliequivalentsPerLitre(-0.1)).Check("tank"))
	twice := tested.Levels{tested.Nitrate.Of(1, units.AsNitrate), tested.Nitrate.Of(1, units.AsNitrogen)}
	assert.ErrorContains(t, twice.Check("tank"), "tank.nitrate: got two levels")
}

func TestLevelCountings(t *testing.T) {
	n := tested.Nitrate.Of(24*units.MilligramPerLitre, units.AsNitrate).As(units.AsNitrogen)
	checks.Printed(t, "24·14.007/62.004", n.MassPerLitre().MilligramsPerLitre(), "5.4217")
	a := tested.AlkalinityOf(units.DKH(8))
	checks.Printed(t, "8·20/56.077·100.086/2", a.In(tested.CaCO3).Alkalinity().PPMCaCO3(), "142.8")
	x, unit := a.In(tested.CaCO3).Counted()
	assert.Equal(t, "mg/L CaCO3", unit)
	checks.Printed(t, "the same", x, "142.8")
}

func FuzzLevel(f *testing.F) {
	for _, s := range []string{"8.2 dKH", "24 mg/L NO3", "6 mg/L N of nitrate", "0.2 mg/L of copper", "1e-7 mmol/L of iron"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := units.Parse[tested.Level](s)
		if err != nil || !l.Exists() {
			return
		}
		text, err := l.MarshalText()
		if err != nil {
			t.Fatalf("%q was read as what cannot be written: %v", s, err)
		}
		back, err := units.Parse[tested.Level](string(text))
		if err != nil || back != l {
			t.Fatalf("%q: %v is written as %q and read back as %v, %v", s, l, text, back, err)
		}
	})
}
