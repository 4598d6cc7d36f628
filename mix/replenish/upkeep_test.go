package replenish

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// A day's dose does to the level what the tank takes, and a plan for as much
// asks for the same.
func TestMaintain(t *testing.T) {
	tank := reef(t)
	use := tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.12))
	m, err := Maintain(Upkeep{Tank: tank, Air: air, Use: Use{PerDay: use}, Additive: stock(t, "Na2CO3", 50*units.GramPerLitre)})
	require.NoError(t, err)
	// 0.12 meq/L * 300 L / 2 * 105.988 g/mol / 50 g/L
	checks.Relative(t, "by hand", m.PerDay.Volume.Millilitres(), 0.12*300/2*0.105988/50*1000, 1e-12)
	plan, err := Plan(Dose{Tank: tank, Air: air, To: tested.AlkalinityOf(units.MilliequivalentsPerLitre(units.DKH(7).MilliequivalentsPerLitre() + 0.12)), Additive: stock(t, "Na2CO3", 50*units.GramPerLitre)})
	require.NoError(t, err)
	checks.Relative(t, "as a plan", m.PerDay.Volume.Litres(), plan.Amount.Volume.Litres(), 1e-12)
	require.Len(t, m.Raises, 1)
	checks.Relative(t, "brings", m.Raises[0].Base(), 0.12, 1e-12)
	checks.Absolute(t, "charge of a month", float64(m.LeavesPerDay.Amount(ions.Sodium)), 0.12e3/tank.Portion.Density().KilogramsPerCubicMetre()*1000, 1e-9)
	assert.Equal(t, 1, m.Parts)
	assert.Zero(t, m.High)

	// Lye has to be cut up, into no more parts than needed.
	u := Upkeep{Tank: tank, Air: air, Use: Use{PerDay: tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.5)), Low: tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.4)), High: tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.6))}, Additive: pure(t, "NaOH")}
	m, err = Maintain(u)
	require.NoError(t, err)
	assert.Greater(t, m.Parts, 1)
	assert.LessOrEqual(t, m.AtOnce.PH.Value()-8.05, 0.2)
	checks.Relative(t, "low", m.Low.Mass.Grams(), m.PerDay.Mass.Grams()*0.8, 1e-12)
	checks.Relative(t, "high", m.High.Mass.Grams(), m.PerDay.Mass.Grams()*1.2, 1e-12)
	assert.Contains(t, identifiers(m.Cautions), "large-use")
	whole, err := Plan(Dose{Tank: tank, Air: air, To: tested.AlkalinityOf(units.MilliequivalentsPerLitre(units.DKH(7).MilliequivalentsPerLitre() + 0.5/float64(m.Parts-1))), Additive: pure(t, "NaOH"),
		Limits: limits(9, tested.AlkalinityOf(units.MilliequivalentsPerLitre(9)))})
	require.NoError(t, err)
	assert.Greater(t, whole.Steps[0].AtOnce.PH.Value()-8.05, 0.2)

	for _, r := range []struct {
		spoil func(*Upkeep)
		want  string
	}{
		{func(u *Upkeep) { *u = Upkeep{} }, "tank.temperature"},
		{func(u *Upkeep) { u.Use = Use{} }, "use: got nothing, want a level"},
		{func(u *Upkeep) { u.Use.PerDay = tested.AlkalinityOf(units.MilliequivalentsPerLitre(-0.1)) }, "use.alkalinity: got -0.1 meq/L, want above zero: there is nothing to give back"},
		{func(u *Upkeep) { u.Use.PerDay = tested.AlkalinityOf(units.MilliequivalentsPerLitre(math.NaN())) }, "use.alkalinity: got NaN meq/L, want above zero"},
		{func(u *Upkeep) { u.Use.PerDay = tested.AlkalinityOf(units.MilliequivalentsPerLitre(math.Inf(1))) }, "use.alkalinity: got +Inf meq/L, want above zero"},
		{func(u *Upkeep) { u.Additive = pure(t, "CaCl2") }, "additive: got CaCl2, want one that raises alkalinity"},
		{func(u *Upkeep) { u.Additive = Additive{} }, "additive: got nothing"},
		{func(u *Upkeep) { u.Tank.Carbon, u.Air = carbonate.Known{}, 0 }, "tank.carbon: got nothing, want the alkalinity, and a pH or the CO2 of the air"},
		{func(u *Upkeep) { u.Limits = limits(math.NaN()) }, "limits.pH: got NaN, want zero or more"},
	} {
		bad := u
		r.spoil(&bad)
		_, err := Maintain(bad)
		assert.ErrorContains(t, err, r.want)
		assert.ErrorIs(t, err, units.ErrInput)
	}
}

// Without a pH a base is refused; soda is not, but in how many parts nobody can
// tell.
func TestMaintainWithoutPH(t *testing.T) {
	tank := reef(t)
	tank.Carbon = carbonate.Known{}
	for _, formula := range []string{"NaOH", "Ca(OH)2", "CaO"} {
		_, err := Maintain(Upkeep{Tank: tank, Use: Use{PerDay: tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.1))}, Additive: pure(t, formula)})
		assert.ErrorContains(t, err, "tank.carbon: got nothing", formula)
	}
	m, err := Maintain(Upkeep{Tank: tank, Use: Use{PerDay: tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.1))}, Additive: pure(t, "Na2CO3")})
	require.NoError(t, err)
	assert.Zero(t, m.Parts)
	assert.Contains(t, identifiers(m.Cautions), "many-parts")
	m, err = Maintain(Upkeep{Tank: tank, Use: Use{PerDay: tested.Calcium.OfAmount(0.1)}, Additive: pure(t, "CaCl2")})
	require.NoError(t, err)
	assert.NotContains(t, identifiers(m.Cautions), "many-parts")
}

// Lime water that gives far more than is used lifts alkalinity faster than it
// may move.
func TestLimeClimbs(t *testing.T) {
	w := limeWater300(t) // gives 1.64 dKH a day
	for _, r := range []struct {
		demand units.Alkalinity // dKH
		id     string
	}{{units.MilliequivalentsPerLitre(0.4), "lime-climbs"}, {units.MilliequivalentsPerLitre(1.2), "lime-oversupply"}, {units.MilliequivalentsPerLitre(2), ""}} {
		w.Demand = tested.AlkalinityOf(units.DKH(r.demand.MilliequivalentsPerLitre())).In(tested.DKH)
		s, err := Lime(w)
		require.NoError(t, err)
		for _, id := range []string{"lime-climbs", "lime-oversupply"} {
			assert.Equal(t, id == r.id, slices.Contains(identifiers(s.Cautions), id), "%v %s", r.demand, id)
		}
		for _, c := range s.Cautions {
			if c.ID == "lime-climbs" {
				assert.Contains(t, c.Text, "alkalinity would climb by 1.24 dKH a day, more than the limit of 1 dKH (common practice)")
			}
		}
	}
	w.Demand = tested.Level{}
	s, err := Lime(w)
	require.NoError(t, err)
	assert.Contains(t, identifiers(s.Cautions), "lime-climbs")
	w.Limits = limits(0, tested.AlkalinityOf(units.DKH(2)))
	s, err = Lime(w)
	require.NoError(t, err)
	assert.NotContains(t, identifiers(s.Cautions), "lime-climbs")
}

func limeWater300(t testing.TB) LimeWater {
	return LimeWater{Tank: reef(t), Air: air, TopOff: 4 * units.LitrePerDay, Temperature: units.Celsius(22), Saturation: units.Share(1)}
}

// So much water, so much hydroxide: two equivalents for a mole of calcium.
func TestLime(t *testing.T) {
	w := limeWater300(t)
	s, err := Lime(w)
	require.NoError(t, err)
	// Near 1.6 g/L at room temperature: tables, 2 to 5 %.
	assert.InDelta(t, 1.6, s.Content.GramsPerLitre(), 0.08)
	assert.InDelta(t, 5, s.Uncertainty.Percent(), 1e-12, "as the tables differ")
	checks.Relative(t, "hydroxide", s.Hydroxide.Grams(), 4*s.Content.GramsPerLitre(), 1e-12)
	checks.Relative(t, "calcium", s.Calcium.Base(), s.Hydroxide.Grams()/74.092*1000/300, 1e-12)
	checks.Relative(t, "alkalinity", s.Alkalinity.Base(), 2*s.Calcium.Base(), 1e-12)
	assert.Equal(t, s.Calcium, s.Calcium.As(units.AsCalcium))
	// A portion moves the pH by the limit and no more.
	checks.Absolute(t, "swing", s.AtOnce.PH.Value()-8.05, 0.2, 1e-7)
	assert.LessOrEqual(t, s.AtOnce.PH.Value()-8.05, 0.2)
	assert.Greater(t, s.AllDay.PH.Value(), s.AtOnce.PH.Value())
	assert.Less(t, s.Aired.PH.Value(), s.AllDay.PH.Value())
	assert.Contains(t, identifiers(s.Cautions), "lime-water")
	assert.Contains(t, identifiers(s.Cautions), "caustic")
	assert.Contains(t, identifiers(s.Cautions), "lime-overdose")

	// Warmer water holds less, half saturated half as much.
	last := math.Inf(1)
	for celsius := 0.0; celsius <= 40; celsius += 5 {
		w.Temperature = units.Celsius(celsius)
		s, err := Lime(w)
		require.NoError(t, err)
		assert.Less(t, s.Content.GramsPerLitre(), last)
		last = s.Content.GramsPerLitre()
	}
	w = limeWater300(t)
	w.Saturation = units.Share(0.5)
	half, err := Lime(w)
	require.NoError(t, err)
	checks.Relative(t, "half", half.Alkalinity.Base(), s.Alkalinity.Base()/2, 1e-12)

	// The demand: what is met, what is short, and what would do.
	w = limeWater300(t)
	w.Demand = s.Alkalinity.WithBase(2 * s.Alkalinity.Base())
	d, err := Lime(w)
	require.NoError(t, err)
	checks.Relative(t, "share", d.Share.Value(), 0.5, 1e-12)
	checks.Relative(t, "short", d.Short.Base(), s.Alkalinity.Base(), 1e-12)
	checks.Relative(t, "needed", d.Needed.LitresPerDay(), 8, 1e-12)
	w.Demand = s.Alkalinity.WithBase(s.Alkalinity.Base() / 2)
	d, err = Lime(w)
	require.NoError(t, err)
	assert.Zero(t, d.Short.Base())
	assert.Contains(t, identifiers(d.Cautions), "lime-oversupply")

	// A day's worth in a small tank is a catastrophe, and said to be one.
	w = limeWater300(t)
	w.Tank = w.Tank.OfVolume(60)
	d, err = Lime(w)
	require.NoError(t, err)
	assert.Contains(t, identifiers(d.Cautions), "never-at-once")
	w.Tank.Carbon, w.Air = carbonate.Known{}, 0
	d, err = Lime(w)
	require.NoError(t, err)
	assert.Contains(t, identifiers(d.Cautions), "ph-not-checked")
	assert.Zero(t, d.Portion)
}

func TestWrongLime(t *testing.T) {
	for _, r := range []struct {
		spoil func(*LimeWater)
		want  string
	}{
		{func(w *LimeWater) { *w = LimeWater{} }, "tank.temperature"},
		{func(w *LimeWater) { w.TopOff = 0 }, "topOff: got 0 L/day, want a number above zero"},
		{func(w *LimeWater) { w.TopOff = 400 * units.LitrePerDay }, "topOff: got 400 L/day, want at most the volume of the tank in a day"},
		{func(w *LimeWater) { w.TopOff = units.Flow(math.NaN()) }, "topOff: got NaN L/day"},
		{func(w *LimeWater) { w.Temperature = units.Temperature{} }, "temperature: got nothing, want a temperature"},
		{func(w *LimeWater) { w.Temperature = units.Celsius(95) }, "temperature: 95 °C is outside"},
		{func(w *LimeWater) { w.Saturation = units.Share(0) }, "saturation: got 0 %, want above 0 and up to 100 %"},
		{func(w *LimeWater) { w.Saturation = units.Share(1.1) }, "saturation: got 110 %"},
		{func(w *LimeWater) { w.Demand = tested.Calcium.OfAmount(1) }, "demand: got calcium, want alkalinity"},
		{func(w *LimeWater) { w.Demand = tested.AlkalinityOf(units.MilliequivalentsPerLitre(0)) }, "demand.alkalinity: got 0 meq/L, want above zero"},
	} {
		w := limeWater300(t)
		r.spoil(&w)
		s, err := Lime(w)
		if assert.Error(t, err, r.want) {
			assert.Contains(t, err.Error(), r.want)
			assert.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange))
			assert.Zero(t, s.Hydroxide)
		}
	}
}

func BenchmarkLime(b *testing.B) {
	w := limeWater300(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Lime(w); err != nil {
			b.Fatal(err)
		}
	}
}
