package replenish

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// US EPA 1993, Nitrogen Control Manual, EPA/625/R-93/010 (from memory): a gram of ammonia nitrogen
// takes 4.57 g of oxygen and 7.14 g of alkalinity as CaCO3; a gram of nitrate nitrogen gives
// 3.57 g of alkalinity back. COD by definition: 2.86 g of oxygen for a gram of nitrate
// nitrogen, of acetic acid 1.07 g/g and of ethanol 2.09 g/g (Metcalf and Eddy 2003, from memory).
func TestTurnover(t *testing.T) {
	const ofNitrification = 0.01
	nitrogen := units.AsNitrogen.AmountPerLitre(1 * units.MilligramPerLitre)
	n := Nitrification.Turns(nitrogen)
	checks.Printed(t, "oxygen of nitrification", n.OxygenDemand().MilligramsPerLitre(), "4.57")
	checks.Absolute(t, "alkalinity of nitrification", n.Alkalinity.PPMCaCO3(), -7.14, ofNitrification) // 7.146 with weights of 2021
	assert.Equal(t, nitrogen, n.Nitrate)
	assert.Equal(t, -nitrogen, n.Ammonia)
	for p, burned := range map[Process]Process{EthanolDenitrification: EthanolRespiration, AcetateDenitrification: AcetateRespiration} {
		d := p.Turns(nitrogen)
		checks.Printed(t, "alkalinity of "+p.String(), d.Alkalinity.PPMCaCO3(), "3.57")
		assert.Zero(t, d.OxygenDemand())
		cod := burned.Turns(-d.Food).OxygenDemand()
		checks.Printed(t, "COD of "+p.String(), cod.MilligramsPerLitre(), "2.86")
		checks.Relative(t, "two carbons in each", float64(d.Carbon/-d.Food), 2, 1e-14)
	}
	gram := func(molar units.MolarMass) units.AmountPerLitre { return molar.AmountPerLitre(1 * units.GramPerLitre) }
	checks.Printed(t, "COD of acetic acid", AcetateRespiration.Turns(gram(60.052)).OxygenDemand().GramsPerLitre(), "1.07")
	checks.Printed(t, "COD of ethanol", EthanolRespiration.Turns(gram(46.069)).OxygenDemand().GramsPerLitre(), "2.08") // 2.084; older weights 2.09
	assert.Zero(t, Process(0).Turns(1))
	assert.Zero(t, Process(99).Turns(1))

	for p := Nitrification; p < processes; p++ {
		text, err := json.Marshal(p)
		require.NoError(t, err)
		var back Process
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, p, back)
	}
	assert.Equal(t, "unknown", Process(0).String())
	var p Process
	assert.Error(t, p.UnmarshalText([]byte("fermentation")))
}

// By hand, 300 L from 25 to 10 mg/L of nitrate (62.004 g/mol): 72.58 mmol. Ethanol, 46.069 g/mol of
// 96 %, with a third of it for growth: 72.58 mmol 5/12 · 46.069/0.96/(2/3).
func TestFeed(t *testing.T) {
	nitrate := func(mg float64) tested.Level { return tested.Nitrate.Of(units.MassPerLitre(mg), units.AsNitrate) }
	tank := reef(t).With(nitrate(25))
	f := Feeding{
		Tank: tank, To: nitrate(10), Growth: units.Share(1. / 3), Days: 30,
		Food: salts.Reagent{Compound: compound(t, "C2H5OH"), Purity: units.Percent(96)},
	}
	p, err := Feed(f)
	require.NoError(t, err)
	mmol := 15 * 300 / 62.004
	checks.Relative(t, "ethanol", p.Amount.Grams(), mmol/1000*5/12*46.069/0.96*1.5, 1e-4)
	checks.Relative(t, "a day", p.PerDay.Grams(), p.Amount.Grams()/30, 1e-12)
	checks.Relative(t, "oxygen", p.Oxygen.MilligramsPerLitre(), 15/62.004*5/12*1.5*3*31.998/30, 1e-4)
	checks.Relative(t, "alkalinity", p.Alkalinity.Base(), 15/62.004, 1e-4)
	checks.Relative(t, "carbon", p.Carbon.MillimolesPerLitre(), 15/62.004*10/12, 1e-4)
	assert.NotContains(t, identifiers(p.Cautions), "dose-burns-oxygen")
	// Benson and Krause 1984: 6.75 mg/L at 25 °C and salinity 35 (Standard Methods table, from memory).
	checks.Absolute(t, "dissolved", p.Dissolved.MilligramsPerLitre(), 6.75, 0.02)

	f.Days = 3
	p, err = Feed(f)
	require.NoError(t, err)
	assert.Contains(t, identifiers(p.Cautions), "dose-burns-oxygen")

	// Sodium acetate, 82.034 g/mol, brings an equivalent of its own for each of 5/8.
	f.Food, f.Growth = salts.Reagent{Compound: compound(t, "CH3COONa"), Purity: units.Share(1)}, units.Fraction{}
	p, err = Feed(f)
	require.NoError(t, err)
	checks.Relative(t, "acetate", p.Amount.Grams(), mmol/1000*5/8*82.034, 1e-4)
	checks.Relative(t, "alkalinity", p.Alkalinity.Base(), 15/62.004*13/8, 1e-4)
	f.Food.Compound = compound(t, "CH3COOH") // and the acid none
	p, err = Feed(f)
	require.NoError(t, err)
	checks.Relative(t, "alkalinity", p.Alkalinity.Base(), 15/62.004, 1e-4)

	for want, spoil := range map[string]func(*Feeding){
		"tank.nitrate: got nothing":        func(f *Feeding) { f.Tank.Levels = f.Tank.Levels.Without(tested.Nitrate) },
		"to.nitrate: got 30 mg/L NO3":      func(f *Feeding) { f.To = nitrate(30) },
		"to: got alkalinity, want nitrate": func(f *Feeding) { f.To = tested.AlkalinityOf(units.DKH(7)) },
		"food: got NaCl, want ethanol":     func(f *Feeding) { f.Food.Compound = compound(t, "NaCl") },
		"CH3COOH.purity":                   func(f *Feeding) { f.Food.Purity = units.Fraction{} },
		"growth: got 100 %":                func(f *Feeding) { f.Growth = units.Share(1) },
		"days: got 0":                      func(f *Feeding) { f.Days = 0 },
		"tank.temperature":                 func(f *Feeding) { *f = Feeding{} },
	} {
		bad := f
		bad.Tank.Carbon = carbonate.Known{}
		spoil(&bad)
		plan, err := Feed(bad)
		assert.ErrorContains(t, err, want)
		assert.Zero(t, plan.Amount)
	}
}
