package replenish

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

func TestParse(t *testing.T) {
	for _, r := range []struct {
		parameter Parameter
		text      string
		amount    float64 // mmol/L or meq/L
		writes    string
	}{
		{Alkalinity, "8.2 dKH", 8.2 * 20 / 56.077, "8.2 dKH"},
		{Alkalinity, "2.9 meq/L", 2.9, "2.9 meq/L"},
		{Alkalinity, "146 ppm CaCO3", 146 * 2 / 100.086, "146 mg/L CaCO3"},
		{Calcium, "420 mg/L", 420 / 40.078, "420 mg/L Ca"},
		{Calcium, "420 mg/L Ca", 420 / 40.078, "420 mg/L Ca"},
		{Calcium, "1050 mg/L as CaCO3", 1050 / 100.086, "1050 mg/L CaCO3"},
		{Calcium, "10.4 mmol/L", 10.4, "10.4 mmol/L"},
		{Magnesium, "1.29 g/L", 1290 / 24.305, "1290 mg/L Mg"},
		{Nitrate, "5 mg/L NO3", 5 / 62.004, "5 mg/L NO3"},
		{Nitrate, "1.1 mg/L as N", 1.1 / 14.007, "1.1 mg/L N"},
		{Nitrate, "1.1 mg/L NO3-N", 1.1 / 14.007, "1.1 mg/L N"},
		{Phosphate, "0.03 mg/L PO4-P", 0.03 / 30.974, "0.03 mg/L P"},
		{Phosphate, "30 ug/L P", 0.03 / 30.974, "0.03 mg/L P"},
		{Phosphate, "0.05 mg/L PO4", 0.05 / 94.970, "0.05 mg/L PO4"},
		{Boron, "4.5 mg/L", 4.5 / 10.81, "4.5 mg/L B"},
		{Boron, "25 mg/L H3BO3", 25 / 61.831, "25 mg/L H3BO3"},
		{Iodine, "60 ug/L", 0.06 / 126.90, "0.06 mg/L I"},
	} {
		l, err := r.parameter.Parse(r.text)
		require.NoError(t, err, r.text)
		checks.Relative(t, r.text, l.amount, r.amount, 1e-15)
		assert.Equal(t, r.writes, l.String())
		assert.NoError(t, l.check("test"))
		text, err := l.MarshalText()
		require.NoError(t, err)
		back, err := r.parameter.Parse(string(text))
		require.NoError(t, err)
		checks.Relative(t, "back from "+string(text), back.amount, l.amount, 1e-15)
	}
	for _, r := range []struct {
		parameter  Parameter
		text, want string
	}{
		{Nitrate, "5 mg/L", `nitrate: got "5 mg/L", want what the mass counts: "mg/L NO3" or "mg/L N" or "mmol/L"`},
		{Phosphate, "0.03 mg/L", `phosphate: got "0.03 mg/L", want what the mass counts: "mg/L PO4" or "mg/L P" or "mmol/L"`},
		{Calcium, "420 ppm", `calcium: got "420 ppm", want a level such as "mg/L Ca" or "mg/L CaCO3" or "mmol/L"`},
		{Calcium, "420", `calcium: got "420", want a level such as`},
		{Calcium, "420 mg/L Mg", `calcium: got "420 mg/L Mg", want what the mass counts`},
		{Phosphate, "30 ppb", `ppb may be ug/L or ug/kg`},
		{Calcium, "420 mg/L Ca-CaCO3", `want what the mass counts`},
		{Alkalinity, "8 KH", `alkalinity: got "8 KH", want "dKH"`},
		{Alkalinity, "", `alkalinity: got "", want`},
		{Calcium, "", `calcium: got "", want`},
		{0, "5 mg/L", "parameter: got none, want one of the parameters"},
	} {
		l, err := r.parameter.Parse(r.text)
		assert.ErrorContains(t, err, r.want)
		assert.False(t, l.Exists())
	}
}

// An alkalinity comes back in the unit in which it was asked for.
func TestAlkalinityRemembersItsUnit(t *testing.T) {
	for _, r := range []struct {
		unit units.Alkalinity
		want string
	}{{units.DKH, "8 dKH"}, {units.PPMCaCO3, "142.784 mg/L CaCO3"}, {units.MilliequivalentPerLitre, "2.85322 meq/L"}, {0, "2.85322 meq/L"}} {
		l := AlkalinityOf(8 * units.DKH).In(r.unit)
		assert.Equal(t, r.want, l.String())
		tank := reef(t)
		tank.Levels[0] = AlkalinityOf(7 * units.DKH).In(r.unit)
		plan, err := Plan(Dose{Tank: tank, To: l, Additive: pure(t, "NaHCO3")})
		require.NoError(t, err)
		assert.Equal(t, r.want, plan.Steps[len(plan.Steps)-1].Level.String())
		assert.Equal(t, r.want, plan.After[0].String())
	}
}

func TestLevel(t *testing.T) {
	assert.False(t, Level{}.Exists())
	assert.Equal(t, "nothing", Level{}.String())
	assert.True(t, math.IsNaN(float64(Level{}.AmountPerLitre())))
	assert.True(t, math.IsNaN(float64(Calcium.OfAmount(1).Alkalinity())))
	assert.True(t, math.IsNaN(float64(AlkalinityOf(1).MassPerLitre())))
	x, unit := Level{}.Counted()
	assert.True(t, math.IsNaN(x) && unit == "")
	x, unit = Calcium.Of(420, units.AsCalcium).Counted()
	checks.Relative(t, "counted", x, 420, 1e-15)
	assert.Equal(t, "mg/L Ca", unit)
	assert.Equal(t, "3 mg/L as 14.007 g/mol", Calcium.Of(3, units.AsNitrogen).String())
	out, err := json.Marshal(map[string]Level{"a": AlkalinityOf(2.5), "b": {}})
	require.NoError(t, err)
	assert.Equal(t, `{"a":"2.5 meq/L","b":""}`, string(out))
}

func TestParameter(t *testing.T) {
	for p := Parameter(1); p < parameters; p++ {
		text, err := p.MarshalText()
		require.NoError(t, err)
		var q Parameter
		require.NoError(t, q.UnmarshalText(text))
		assert.Equal(t, p, q)
		limit := usualLimit(p)
		assert.NoError(t, limit.PerDay.check("limit"))
		assert.NotEmpty(t, limit.Origin)
	}
	var q Parameter
	assert.EqualError(t, q.UnmarshalText([]byte("gold")), `parameter: got "gold", want one such as "alkalinity", "calcium" or "nitrate"`)
	assert.Equal(t, "no parameter", Parameter(200).String())
	_, err := Parameter(0).MarshalText()
	assert.Error(t, err)
}

// Any text is a level that reads back, or an error.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"8.2 dKH", "5 mg/L NO3", "1e-300 ug/L as P", "-3 mmol/L", "/L", "mg/L as as N"} {
		f.Add(uint8(1), text)
		f.Add(uint8(11), text)
	}
	f.Fuzz(func(t *testing.T, p uint8, text string) {
		l, err := Parameter(p).Parse(text)
		if err != nil {
			require.ErrorIs(t, err, units.ErrInput)
			return
		}
		written, err := l.MarshalText()
		require.NoError(t, err)
		back, err := l.Parameter().Parse(string(written))
		require.NoError(t, err, "%s", written)
		if l.amount != 0 && math.Abs(l.amount) > 1e-300 && math.Abs(l.amount) < 1e300 {
			require.InEpsilon(t, l.amount, back.amount, 1e-14)
		}
	})
}
