package replenish

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

func compound(t testing.TB, formula string) salts.Compound {
	t.Helper()
	c, err := salts.Find(formula)
	require.NoError(t, err)
	return c
}

func pure(t testing.TB, formula string) Additive {
	return Dry(salts.Reagent{Compound: compound(t, formula), Purity: units.Share(1)})
}

func water(t testing.TB, sp, celsius float64) seawater.Sample {
	t.Helper()
	s, err := seawater.FromPractical(units.Practical(sp), units.Celsius(celsius))
	require.NoError(t, err)
	return s
}

// What one gram in 100 L raises, computed by definition from the atomic weights
// of 2021: m/M/V.
func TestOneGramInAHundredLitres(t *testing.T) {
	raise := func(p tested.Parameter, formula string) float64 {
		return float64(p.In(pure(t, formula).per())) / 1000 / 100 // mmol/L
	}
	checks.Printed(t, "calcium, mg/L", float64(units.AsCalcium)*raise(tested.Calcium, "CaCl2.2H2O"), "2.726")
	checks.Printed(t, "alkalinity, meq/L", raise(tested.Alkalinity, "NaHCO3"), "0.1190")
	checks.Printed(t, "alkalinity, dKH", tested.AlkalinityOf(units.MilliequivalentsPerLitre(raise(tested.Alkalinity, "NaHCO3"))).Alkalinity().DKH(), "0.334")
	checks.Printed(t, "calcium for 1 meq/L, mg/L", float64(units.AsCalcium)/equivalentsPerCalcium, "20.04")
	// 24.305/203.295, 87.62/266.61, 4 * 10.81/381.363, 126.90/165.998 g/g; Na2CO3 2/105.988 eq/g
	checks.Printed(t, "magnesium, mg/L", float64(units.AsMagnesium)*raise(tested.Magnesium, "MgCl2.6H2O"), "1.1956")
	checks.Printed(t, "strontium, mg/L", float64(units.AsStrontium)*raise(tested.Strontium, "SrCl2.6H2O"), "3.2864")
	checks.Printed(t, "boron, mg/L", float64(units.AsBoron)*raise(tested.Boron, "Na2B4O7.10H2O"), "1.1338")
	checks.Printed(t, "iodine, mg/L", float64(units.AsIodine)*raise(tested.Iodine, "KI"), "7.6447")
	checks.Printed(t, "alkalinity, meq/L", raise(tested.Alkalinity, "Na2CO3"), "0.18870")
}

// changes are the columns of the table by the ions that count them. The
// zero-level forms of dissolved hydrogen sulfide and oxygen count nothing.
var changes = map[string]ions.Ion{
	"dCa_mol": ions.Calcium, "dNO3_mol": ions.Nitrate, "dNO2_mol": ions.Nitrite, "dNH3T_mol": ions.Ammonium,
	"dPO4_mol": ions.Phosphate, "dSO4_mol": ions.Sulfate,
}

// Each process of the table moves alkalinity as its changes of strong ions say.
func TestProcesses(t *testing.T) {
	const equivalents = 1e-12
	n := 0
	for _, r := range checks.Table(t, "testdata/stoichiometry.csv") {
		if r["kind"] != "process" {
			continue
		}
		n++
		var c ions.Composition
		for column, i := range changes {
			c = c.Add(i, units.AmountPerKilogram(r.Float(t, column)))
		}
		checks.Absolute(t, r["name"], float64(tested.Alkalinity.In(c)), r.Float(t, "dTA_eq"), equivalents)
	}
	assert.Equal(t, 24, n)
}

// The two numbers that the calcification check uses, put together from the rows.
func TestEquivalents(t *testing.T) {
	row := map[string]checks.Row{}
	for _, r := range checks.Table(t, "testdata/stoichiometry.csv") {
		row[r["name"]] = r
	}
	taken := func(name, per string) float64 { return row[name].Float(t, "dTA_eq") / row[name].Float(t, per) }
	assert.Equal(t, float64(equivalentsPerCalcium), taken("calcification", "dCa_mol"))
	// Food to ammonium gives 15 per 16 N and one phosphate, which takes 1 of them.
	mineralised := (row["respiration to ammonium (Redfield)"].Float(t, "dTA_eq") + 1) / 16
	assert.Equal(t, float64(-equivalentsPerNitrate), mineralised+taken("nitrification complete", "dNO3_mol"))
	assert.Equal(t, float64(-equivalentsPerNitrate), taken("denitrification on carbohydrate CH2O", "dNO3_mol"))
	assert.Equal(t, float64(-equivalentsPerNitrate), taken("denitrification on ethanol", "dNO3_mol"))
	// Uptake of nitrate by plants, its share of the Redfield row without the phosphate.
	uptake := row["photosynthesis with nitrate (Redfield 106:16:1, 138 O2)"]
	assert.Equal(t, float64(-equivalentsPerNitrate), (uptake.Float(t, "dTA_eq")-1)/uptake.Float(t, "dNO3_mol"))
}

// A mole of each additive changes alkalinity, carbon and the rest as the table
// says, also after the dose has gone through a tank.
func TestAdditions(t *testing.T) {
	formulas := map[string]string{
		"add Ca(OH)2 or CaO": "Ca(OH)2", "add CaCl2": "CaCl2", "add NaHCO3": "NaHCO3", "add Na2CO3": "Na2CO3", "add NaOH": "NaOH",
		"add HCl": "HCl", "add MgCl2": "MgCl2", "add KNO3": "KNO3", "add Na2HPO4": "Na2HPO4",
		"add B(OH)3 boric acid": "H3BO3", "add Na2B4O7 borax": "Na2B4O7",
	}
	n := 0
	for _, r := range checks.Table(t, "testdata/stoichiometry.csv") {
		formula, has := formulas[r["name"]]
		if !has {
			continue
		}
		n++
		tank := tested.Water{
			Portion: water(t, 35, 25).OfVolume(200), Levels: tested.Levels{tested.AlkalinityOf(units.MilliequivalentsPerLitre(2.5))},
			Carbon: carbonate.PH(carbonate.PHTotal(8.1)),
		}
		s, _, err := start(tank, air)
		require.NoError(t, err)
		before := s
		const moles = 0.05
		c := compound(t, formula)
		require.NoError(t, s.dose(pure(t, formula).per().Scale(c.Mass(moles).Grams())))
		gained := func(after, before units.AmountPerKilogram, b, a units.Mass) float64 {
			return (after.MolesPerKilogram()*a.Kilograms() - before.MolesPerKilogram()*b.Kilograms()) / moles
		}
		total := func(s state) carbonate.Totals { return s.carbon.Constants().Totals }
		checks.Absolute(t, formula+" TA", gained(s.carbon.Alkalinity, before.carbon.Alkalinity, before.mass, s.mass), r.Float(t, "dTA_eq"), 1e-11)
		checks.Absolute(t, formula+" DIC", gained(s.carbon.DIC, before.carbon.DIC, before.mass, s.mass), r.Float(t, "dDIC_mol"), 1e-11)
		checks.Absolute(t, formula+" Ca", gained(total(s).Calcium, total(before).Calcium, before.mass, s.mass), r.Float(t, "dCa_mol"), 1e-11)
		checks.Absolute(t, formula+" PO4", gained(s.carbon.Nutrients.Phosphate, 0, before.mass, s.mass), r.Float(t, "dPO4_mol"), 1e-11)
		boron := 4 * float64(strings.Count(formula, "B4"))
		if formula == "H3BO3" {
			boron = 1
		}
		checks.Absolute(t, formula+" B", gained(total(s).Boron, total(before).Boron, before.mass, s.mass), boron, 1e-11)
		// The salt of the tank grows by that of the dose, and its volume stays.
		checks.Relative(t, formula+" volume", s.water.OfMass(s.mass).Volume().Litres(), 200, 1e-12)
		checks.Relative(t, formula+" salt", s.water.OfMass(s.mass).Salt().Grams(), float64(s.salt), 1e-12)
	}
	assert.Equal(t, len(formulas), n)
}

// The factors between the ways of counting.
func TestCountings(t *testing.T) {
	ratio := func(p tested.Parameter, from, to units.MolarMass) float64 {
		return p.Of(1, from).As(to).MassPerLitre().MilligramsPerLitre()
	}
	got := map[string]float64{
		"NO3_per_NO3N":                ratio(tested.Nitrate, units.AsNitrogen, units.AsNitrate),
		"PO4_per_P":                   ratio(tested.Phosphate, units.AsPhosphorus, units.AsPhosphate),
		"CaCO3_per_Ca":                ratio(tested.Calcium, units.AsCalcium, units.AsCalciumCarbonate),
		"umol_L_per_mg_L_NO3":         tested.Nitrate.Of(1, units.AsNitrate).AmountPerLitre().MicromolesPerLitre(),
		"umol_L_per_mg_L_PO4":         tested.Phosphate.Of(1, units.AsPhosphate).AmountPerLitre().MicromolesPerLitre(),
		"meq_L_per_dKH":               tested.AlkalinityOf(units.DKH(1)).Alkalinity().MilliequivalentsPerLitre(),
		"mg_Ca_per_meq_calcification": tested.Calcium.OfAmount(1. / equivalentsPerCalcium).As(units.AsCalcium).MassPerLitre().MilligramsPerLitre(),
	}
	n := 0
	for _, r := range checks.Table(t, "testdata/stoichiometry.csv") {
		if x, has := got[r["name"]]; has {
			n++
			checks.Relative(t, r["name"], x, r.Float(t, "dTA_eq"), 1e-12)
		}
	}
	assert.Equal(t, len(got), n)
}

// conditions takes "pitzer.dat NaOH S=35 t=25 TA=2300 DIC=2000" apart.
func conditions(t *testing.T, text string) (base string, x map[string]float64) {
	t.Helper()
	x = map[string]float64{}
	for i, word := range strings.Fields(text) {
		if i == 1 {
			base = word
		}
		if name, number, ok := strings.Cut(word, "="); ok {
			v, err := strconv.ParseFloat(number, 64)
			require.NoError(t, err)
			x[name] = v
		}
	}
	return base, x
}

// beyond holds the rows that are missed, with what comes out instead, to half of
// the last digit: 4.6 mmol/kg of soda are half a gram of salt, which a tank counts as
// sea salt.
var beyond = map[string]struct{ dose, ph string }{
	"pitzer.dat Na2CO3 S=35 t=25 TA=2300 DIC=2000": {"4592.5", "9.2745"}, // for 4581.7 and 9.2781
}

// A base doses a tank until brucite is saturated, as a full model of activities
// has it.
func TestBruciteDose(t *testing.T) {
	for _, r := range checks.Table(t, "testdata/brucite.csv") {
		if strings.HasPrefix(r["quantity"], "limewater") {
			continue
		}
		base, x := conditions(t, r["conditions"])
		sample := water(t, x["S"], x["t"])
		tank := tested.Water{
			Portion: sample.OfVolume(100), Carbon: carbonate.DIC(units.AmountPerKilogram(x["DIC"])),
			Levels: tested.Levels{tested.AlkalinityOf(units.AmountPerKilogram(x["TA"]).Alkalinity(sample.Density()))},
		}
		s, _, err := start(tank, air)
		require.NoError(t, err)
		c := compound(t, base)
		per := pure(t, base).per()
		after := func(micromoles float64) tested.Chemistry { // per kg of the tank
			at := s
			require.NoError(t, at.dose(per.Scale(c.Mass(micromoles*1e-6*s.mass.Kilograms()).Grams())))
			chemistry, err := at.chemistry()
			require.NoError(t, err)
			return chemistry
		}
		dose, ok := solve.Brent(func(x float64) float64 { return math.Log(float64(after(x).Brucite.Omega)) }, 1, 20000, 1e-6)
		require.True(t, ok)
		got, instead := dose, beyond[r["conditions"]].dose
		if r["quantity"] != "dose_to_saturation" {
			got, instead = after(dose).PH.Value(), beyond[r["conditions"]].ph
		}
		if instead != "" {
			checks.Printed(t, r["conditions"], got, instead)
			assert.Greater(t, math.Abs(got-r.Float(t, "value")), r.Float(t, "tolerance"), "%s is met after all", r["conditions"])
			continue
		}
		checks.Absolute(t, r["conditions"], got, r.Float(t, "value"), r.Float(t, "tolerance"))
	}
}

// So much saturated lime water, at once, saturates a tank with brucite.
func TestLimeWaterBrucite(t *testing.T) {
	sample := water(t, 35, 25)
	for _, r := range checks.Table(t, "testdata/brucite.csv") {
		if r["quantity"] != "limewater_volume_percent" {
			continue
		}
		w := LimeWater{
			Tank: tested.Water{Portion: sample.OfVolume(1000), Carbon: carbonate.DIC(2000),
				Levels: tested.Levels{tested.AlkalinityOf(units.AmountPerKilogram(2300).Alkalinity(sample.Density()))}},
			Temperature: units.Celsius(25), Saturation: units.Share(1),
		}
		litres, ok := solve.Brent(func(x float64) float64 {
			w.TopOff = units.Flow(x) * units.LitrePerDay
			supply, err := Lime(w)
			require.NoError(t, err)
			return math.Log(float64(supply.AllDay.Brucite.Omega))
		}, 1, 500, 1e-6)
		require.True(t, ok)
		w.TopOff = units.Flow(litres) * units.LitrePerDay
		supply, err := Lime(w)
		require.NoError(t, err)
		// The row takes a solubility of 1.57 g/kg, and pours the lime water into
		// the tank; here it takes the place of what has evaporated.
		share := litres / 1023.343 * supply.Content.GramsPerLitre() / 1.57
		checks.Absolute(t, r["quantity"], 100*share/(1-share), r.Float(t, "value"), r.Float(t, "tolerance"))
		return
	}
	t.Error("no row")
}
