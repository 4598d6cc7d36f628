package replenish

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Without a pH, soda and borax are weighed as ever: the amounts by hand, 1 dKH = 0.35663 mmol/L
// of charge (DIN 38409-6, 10 mg/L of CaO), 105.988 g/mol of Na2CO3 with two of it, 381.363 g/mol
// of borax with two of it and four of boron. What follows from the pH is named, not guessed.
func TestWithoutPH(t *testing.T) {
	tank := reef(t)
	tank.Carbon = carbonate.Known{}
	for _, r := range []struct {
		formula string
		grams   float64
		days    string
	}{
		{"Na2CO3", 300 * 1.5 * 0.35663e-3 / 2 * 105.988, "alkalinity, 1 dKH a day (common practice), it takes 2 days at the least"},
		{"NaHCO3", 300 * 1.5 * 0.35663e-3 * 84.007, "it takes 2 days at the least"},
		{"Na2B4O7.10H2O", 300 * 1.5 * 0.35663e-3 / 2 * 381.363, "By boron, 0.5 mg/L B a day (common practice), it takes 24 days at the least"},
	} {
		d := Dose{Tank: tank, To: tested.AlkalinityOf(units.DKH(8.5)), Additive: pure(t, r.formula)}
		p, err := Plan(d)
		require.NoError(t, err, r.formula)
		checks.Relative(t, r.formula, p.Amount.Mass.Grams(), r.grams, 1e-4)
		assert.Equal(t, []string{"pH", "saturation", "steps"}, p.NotKnown)
		assert.Empty(t, p.Steps)
		assert.NotEqual(t, p.Before.PH.Value(), p.Before.PH.Value(), "NaN")
		checks.Relative(t, "alkalinity", p.After[0].Alkalinity().DKH(), 8.5, 1e-12)
		assert.Greater(t, p.Salinity.After.Value(), p.Salinity.Before.Value())
		assert.Contains(t, identifiers(p.Cautions), "steps-not-known")
		for _, c := range p.Cautions {
			if c.ID == "steps-not-known" {
				assert.Contains(t, c.Text, r.days)
			}
		}

		d.Air = air // and with the air it is a plan
		known, err := Plan(d)
		require.NoError(t, err)
		assert.Empty(t, known.NotKnown)
		assert.GreaterOrEqual(t, len(known.Steps), 2)
		assert.Equal(t, p.Amount, known.Amount)
		assert.Equal(t, p.Raises, known.Raises)
		assert.NotContains(t, identifiers(known.Cautions), "steps-not-known")
	}
	// Boron by borax: half of it comes as boric acid, half as borate, and all of it counts.
	p, err := Plan(Dose{
		Tank: tank.With(tested.Boron.Of(4, units.AsBoron)), To: tested.Boron.Of(5, units.AsBoron),
		Additive: pure(t, "Na2B4O7.10H2O"),
	})
	require.NoError(t, err)
	checks.Relative(t, "borax", p.Amount.Mass.Grams(), 300e-3/10.81/4*381.363, 1e-4)
	assert.NotEmpty(t, p.NotKnown)
	// At its level already, nothing is unknown.
	p, err = Plan(Dose{Tank: tank, To: tested.AlkalinityOf(units.DKH(7)), Additive: pure(t, "Na2CO3")})
	require.NoError(t, err)
	assert.Empty(t, p.NotKnown)
}

// A log of a product of which only the rise is known is the log of the compound that makes
// that rise: 8.4006 g of NaHCO3 in 100 L are 1 meq/L (84.006 g/mol).
func TestLogOfKnownRises(t *testing.T) {
	by := func(d Dosed) Use {
		l := Log{Volume: 100, Doses: []Dosed{d}}
		for i, x := range []float64{3, 2.83, 3.6, 3.39} {
			l.Tests = append(l.Tests, Test{At: day(float64(2 * i)), Level: tested.AlkalinityOf(units.MilliequivalentsPerLitre(x))})
		}
		demand, err := Consumption(l)
		require.NoError(t, err)
		use, found := demand.Of(tested.Alkalinity)
		require.True(t, found)
		return use
	}
	var rise tested.Level
	require.NoError(t, rise.UnmarshalText([]byte("+1.5 dKH")))
	checks.Relative(t, "rise", rise.Alkalinity().DKH(), 1.5, 1e-12)
	require.NoError(t, rise.UnmarshalText([]byte("+1 meq/L of alkalinity")))
	for _, to := range []float64{0, 5} {
		d := Dosed{From: day(3), Additive: pure(t, "NaHCO3"), Amount: Amount{Mass: 8.4006}}
		if to > 0 {
			d.To = day(to)
		}
		known := by(d)
		d.Additive, d.Amount, d.Raised = Additive{}, Amount{}, tested.Levels{rise}
		raised := by(d)
		checks.Relative(t, "use", raised.PerDay.Base(), known.PerDay.Base(), 1e-4)
		checks.Relative(t, "uncertainty", raised.Uncertainty.Base(), known.Uncertainty.Base(), 2e-3)
	}
	for want, d := range map[string]Dosed{
		"doses[0].raised: got an additive besides, want the one or the other": {From: day(0), Additive: pure(t, "NaHCO3"), Raised: tested.Levels{rise}},
		"doses[0].from: got no time":                                          {Raised: tested.Levels{rise}},
		"doses[0].raised.alkalinity: got two levels":                          {From: day(0), Raised: tested.Levels{rise, rise}},
		"doses[0].additive: got nothing, want an additive":                    {From: day(0)},
	} {
		_, err := Consumption(Log{Volume: 100, Doses: []Dosed{d}})
		assert.ErrorContains(t, err, want)
	}
}

// Lime water of a given strength: 0.8 g/L of Ca(OH)2 (74.09 g/mol) are 21.6 meq/L; 4 L of it in
// 300 L give 0.288 meq/L a day. Above what dissolves it is milk.
func TestLimeOfAStrength(t *testing.T) {
	w := limeWater300(t)
	w.Saturation, w.Content, w.Temperature = units.Fraction{}, 0.8*units.GramPerLitre, units.Temperature{}
	s, err := Lime(w)
	require.NoError(t, err)
	checks.Relative(t, "alkalinity", s.Alkalinity.Base(), 0.8/74.092*2*1000*4/300, 1e-4)
	checks.Relative(t, "hydroxide", s.Hydroxide.Grams(), 3.2, 1e-12)
	assert.Zero(t, s.Uncertainty.Value())
	assert.Contains(t, s.Assumptions[0], "as strong as was said: 0.80 g of Ca(OH)2 in a litre")
	w.Temperature = units.Celsius(22)
	same, err := Lime(w)
	require.NoError(t, err)
	assert.Equal(t, s.Alkalinity, same.Alkalinity)

	w.Content = 2.5 * units.GramPerLitre
	_, err = Lime(w)
	assert.ErrorContains(t, err, "content: got 2500 mg/L, want no more than dissolves at 22 °C, 1.6")
	w.Saturation = units.Share(1)
	_, err = Lime(w)
	assert.ErrorContains(t, err, "saturation: got 100 %, want a content or a saturation, one of the two")
	w.Content = -1
	_, err = Lime(w)
	assert.ErrorContains(t, err, "content: got")
}

func TestLimeBeyondEvaporation(t *testing.T) {
	w := limeWater300(t)
	for evaporates, noticed := range map[float64]bool{0: false, 4: false, 5: false, 2.5: true} {
		w.Evaporation = units.Flow(evaporates) * units.LitrePerDay
		s, err := Lime(w)
		require.NoError(t, err)
		assert.Equal(t, noticed, slices.Contains(identifiers(s.Cautions), "lime-beyond-evaporation"), evaporates)
		for _, c := range s.Cautions {
			if c.ID == "lime-beyond-evaporation" { // 1.5 of 300 L
				assert.Contains(t, c.Text, "1.5 L a day are more than evaporates, 2.5 L: the tank fills by them and loses 0.5 %")
			}
		}
	}
	w.Evaporation = -1
	_, err := Lime(w)
	assert.ErrorContains(t, err, "evaporation")
}
