package ions

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

var (
	seawater35 = Reference(units.Practical(35))
	warm       = units.Celsius(25)
)

func lookup(t testing.TB, symbol string) Ion {
	t.Helper()
	i, ok := Lookup(symbol)
	require.True(t, ok, symbol)
	return i
}

// Every printed column of table 4 of [MFWM08].
func TestReferenceAgainstTheTable(t *testing.T) {
	var sum, charge float64
	for _, r := range checks.Table(t, "testdata/reference_composition.csv") {
		i := lookup(t, r["species"])
		n := seawater35.Amount(i).MolesPerKilogram()
		assert.Equal(t, int(r.Float(t, "charge")), i.Charge())
		checks.Relative(t, "content "+i.Symbol(), n, r.Float(t, "mol_per_kg_sw"), 1e-14)
		checks.Printed(t, "molality "+i.Symbol(), n/(1-seawater35.grams()/1000), r["molality_published"])
		checks.Printed(t, "mass fraction "+i.Symbol(), n*scaleMass[i]/35.16504, r["mass_fraction_W"])
		checks.Printed(t, "molar mass "+i.Symbol(), scaleMass[i], r["molar_mass_g_mol"])
		sum += r.Float(t, "mole_fraction_X")
		charge += r.Float(t, "mole_fraction_X") * float64(i.Charge())
	}
	checks.Absolute(t, "sum of mole fractions", sum, 1, 1e-15)
	checks.Absolute(t, "charge of mole fractions", charge, 0, 1e-15)
	checks.Absolute(t, "mass", seawater35.SolutionSalinity().GramsPerKilogram(), 35.16504, 1e-7) // mean molar mass has 9 digits
	checks.Absolute(t, "charge", seawater35.Charge().MolesPerKilogram(), 0, 1e-15)
	checks.Printed(t, "ionic strength", seawater35.IonicStrength(), "0.7226")
	checks.Printed(t, "chlorinity", seawater35.Chlorinity().GramsPerKilogram(), "19.373945")
	checks.Absolute(t, "alkalinity", seawater35.Alkalinity().MicromolesPerKilogram(),
		float64(seawater35.Amount(Bicarbonate)+2*seawater35.Amount(Carbonate)+seawater35.Amount(Borate)+seawater35.Amount(Hydroxide)), 1e-9)
	checks.Absolute(t, "DIC", seawater35.Carbon().MicromolesPerKilogram(), 1966.315139388544, 1e-9)
	checks.Absolute(t, "boron", seawater35.Boron().MicromolesPerKilogram(), 415.0985319882308, 1e-9)
}

// Where the two sets of atomic weights meet: the scale of salinity keeps that of
// 2005, by which [MFWM08] defines it; a balance counts with that of 2021. The sum with
// the weights of 2021 was made by hand from the mole fractions.
func TestTwoSetsOfWeights(t *testing.T) {
	checks.Absolute(t, "on the scale", seawater35.SolutionSalinity().GramsPerKilogram(), 35.16504, 1e-7)
	const meanMass = 0.4188071*22.990 + 0.0471678*24.305 + 0.0091823*40.078 + 0.0091159*39.098 + 0.0000810*87.62 +
		0.4874839*35.45 + 0.0252152*96.056 + 0.0015340*61.016 + 0.0007520*79.904 + 0.0002134*60.008 +
		0.0000900*78.838 + 0.0000610*18.998 + 0.0000071*17.007 + 0.0002807*61.831 + 0.0000086*44.009
	balance := 1000 * (1 - seawater35.Water().Value())
	checks.Relative(t, "by the balance", balance, 35.16504*meanMass/31.4038218, 1e-12)
	checks.Printed(t, "as documented", balance, "35.1633")
	salt := Composition{}.With(Sodium, units.MolePerKilogram).With(Chloride, units.MolePerKilogram)
	checks.Absolute(t, "NaCl on the scale", salt.grams(), 58.44277, 5e-6)
	checks.Absolute(t, "NaCl by the balance", 1000*(1-salt.Water().Value()), 58.44, 1e-10)

	// Half a mole of sodium chloride in a kilogram of water, weighed as 0.5 · 58.44 g.
	n := units.AmountPerKilogram(0.5/(1+0.5*58.44/1000)) * units.MolePerKilogram
	half := Composition{}.With(Sodium, n).With(Chloride, n)
	checks.Absolute(t, "ionic strength", half.IonicStrength(), 0.5, 1e-15)

	in := map[Ion]bool{}
	for _, x := range referenceFraction {
		in[x.ion] = true
	}
	for i := range Ion(count) {
		if in[i] {
			checks.Relative(t, i.Name(), species[i].molarMass, scaleMass[i], 3e-4)
		} else {
			assert.Equal(t, species[i].molarMass, scaleMass[i], i.Name())
		}
	}
}

func TestReferenceOutside(t *testing.T) {
	assert.Equal(t, Composition{}, Reference(units.Practical(0)))
	for _, s := range []float64{-1e-9, math.NaN(), math.Inf(1), 1000} {
		assert.True(t, math.IsNaN(float64(Reference(units.Practical(s)).Amount(Sodium))), s)
		assert.Error(t, Reference(units.Practical(s)).Check())
	}
}

func TestArithmetic(t *testing.T) {
	a, b := seawater35, Composition{}.With(Calcium, 500).With(Nitrate, 1000)
	assert.Equal(t, a.Amount(Calcium)+500, a.Plus(b).Amount(Calcium))
	assert.True(t, a.Plus(b).Minus(b).Equal(a, 1e-9))
	assert.False(t, a.Plus(b).Equal(a, 499))
	assert.True(t, a.Plus(b).Equal(a, 1000))
	assert.Equal(t, units.AmountPerKilogram(1000), b.Scale(1).Amount(Nitrate))
	assert.True(t, a.Scale(0.5).Equal(Reference(units.Practical(17.5)), 1e-9))

	mixed := a.Blend(3*units.Kilogram, Composition{}, 1*units.Kilogram)
	assert.True(t, mixed.Equal(Reference(units.Practical(26.25)), 1e-9), "three parts of seawater, one of pure water")
	for _, bad := range [][2]units.Mass{{0, 0}, {-1, 2}, {2, -1}, {units.Mass(math.NaN()), 1}, {1, units.Mass(math.Inf(1))}} {
		assert.True(t, math.IsNaN(float64(a.Blend(bad[0], b, bad[1]).Amount(Sodium))), bad)
	}
	assert.True(t, math.IsNaN(float64(a.Amount(count))))
	assert.True(t, math.IsNaN(float64(a.With(255, 1).Amount(Sodium))))
	assert.False(t, invalid().Equal(invalid(), 1))

	n := 0
	for i, amount := range a.All() {
		assert.Equal(t, a.Amount(i), amount)
		n++
	}
	assert.Equal(t, len(referenceFraction), n)
	for range a.All() { // and it stops when told
		break
	}
}

func TestCheck(t *testing.T) {
	assert.NoError(t, seawater35.Check())
	assert.NoError(t, Composition{}.Check())
	assert.EqualError(t, seawater35.With(Calcium, -1).Check(), "calcium: got -1 µmol/kg, want zero or more")
	assert.ErrorContains(t, seawater35.With(Sodium, 1e9).Check(), "want some water left")
	assert.Error(t, seawater35.With(Calcium, units.AmountPerKilogram(math.NaN())).Check())
	assert.Error(t, seawater35.With(Calcium, units.AmountPerKilogram(math.Inf(1))).Check())
}

func TestCalcify(t *testing.T) {
	after := seawater35.Calcify(100)
	checks.Absolute(t, "calcium", float64(after.Amount(Calcium)-seawater35.Amount(Calcium)), -100, 1e-9)
	checks.Absolute(t, "alkalinity", float64(after.Alkalinity()-seawater35.Alkalinity()), -200, 1e-9)
	checks.Absolute(t, "DIC", float64(after.Carbon()-seawater35.Carbon()), -100, 1e-9)
	checks.Absolute(t, "charge", float64(after.Charge()), 0, 1e-9)
	assert.True(t, after.Calcify(-100).Equal(seawater35, 1e-9), "dissolving undoes it")
}

func TestDeviations(t *testing.T) {
	c := seawater35.Add(Calcium, seawater35.Amount(Calcium)/10).Add(Nitrate, 50)
	table := c.Deviations(units.Practical(35))
	assert.Len(t, table, len(referenceFraction)+1)
	for _, d := range table {
		switch d.Ion {
		case Calcium:
			checks.Absolute(t, "calcium", d.Ratio(), 1.1, 1e-12)
		case Nitrate:
			assert.True(t, math.IsInf(d.Ratio(), 1))
			assert.Equal(t, units.AmountPerKilogram(50), d.Amount)
		default:
			assert.Equal(t, 1.0, d.Ratio(), d.Ion)
		}
	}
}

// The strong ions give the alkalinity that the carbonate system then shares out.
func TestSettled(t *testing.T) {
	c := seawater35.Add(Silicate, 200).Add(Phosphate, 20).Add(Ammonium, 30).Add(Calcium, 400).Add(Acetate, 40)
	s, err := c.Settled(warm)
	require.NoError(t, err)
	checks.Absolute(t, "charge", float64(s.Charge()), 0, 1e-9)
	checks.Absolute(t, "alkalinity", float64(s.Alkalinity()), float64(c.Alkalinity()), 1e-9)
	checks.Absolute(t, "carbon", float64(s.Carbon()), float64(c.Carbon()), 1e-9)
	checks.Absolute(t, "boron", float64(s.Boron()), float64(c.Boron()), 1e-9)

	// The forms are those of package carbonate for the alkalinity that acetate and
	// phosphate leave to carbon and boron.
	of, err := c.constants(warm)
	require.NoError(t, err)
	weak, err := of.FromAlkalinityDIC(c.Alkalinity()-c.Amount(Acetate)-c.Amount(Phosphate), c.Carbon(), carbonate.Nutrients{})
	require.NoError(t, err)
	checks.Absolute(t, "carbonate", float64(s.Amount(Carbonate)), float64(weak.Carbonate()), 1e-9)
	checks.Absolute(t, "borate", float64(s.Amount(Borate)), float64(weak.Species().BOH4), 1e-9)

	again, err := s.Settled(warm)
	require.NoError(t, err)
	assert.True(t, again.Equal(s, 1e-9), "settled water stays as it is")

	// The reference composition is one in equilibrium at 25 °C, by constants of its
	// time: the forms agree within a few tenths of a percent.
	r, err := seawater35.Settled(warm)
	require.NoError(t, err)
	checks.Relative(t, "bicarbonate", float64(r.Amount(Bicarbonate)), float64(seawater35.Amount(Bicarbonate)), 0.001)
	checks.Relative(t, "carbonate", float64(r.Amount(Carbonate)), float64(seawater35.Amount(Carbonate)), 0.004)
	checks.Relative(t, "borate", float64(r.Amount(Borate)), float64(seawater35.Amount(Borate)), 0.01)

	// An acid is its anion alone: hydrochloric acid turns bicarbonate to CO2.
	acid, err := seawater35.Add(Chloride, 500).Settled(warm)
	require.NoError(t, err)
	checks.Absolute(t, "alkalinity", float64(acid.Alkalinity()), float64(seawater35.Alkalinity())-500, 1e-9)
	assert.Greater(t, acid.Amount(CarbonDioxide), seawater35.Amount(CarbonDioxide))

	k, err := r.constants(warm)
	require.NoError(t, err)
	system, err := k.FromAlkalinityDIC(r.Alkalinity(), r.Carbon(), carbonate.Nutrients{})
	require.NoError(t, err)
	ph, err := seawater35.AtPH(system.PH(), warm)
	require.NoError(t, err)
	checks.Relative(t, "DIC from pH", float64(ph.Carbon()), float64(r.Carbon()), 1e-9)
}

// Water without any carbon, and pure water, have no bicarbonate to share.
func TestSettledWithoutCarbon(t *testing.T) {
	c := seawater35.With(Bicarbonate, 0).With(Carbonate, 0).With(CarbonDioxide, 0)
	for _, more := range []units.AmountPerKilogram{0, 123, 5000} {
		s, err := c.Add(Calcium, more).Settled(warm) // as the hydroxide
		require.NoError(t, err)
		checks.Absolute(t, "charge", float64(s.Charge()), 0, 1e-9)
		checks.Absolute(t, "carbon", float64(s.Carbon()), 0, 0)
		checks.Absolute(t, "alkalinity", float64(s.Amount(Hydroxide)+s.Amount(Borate)), float64(s.Alkalinity()), 1e-9)
	}
	pure, err := Composition{}.Settled(warm)
	require.NoError(t, err)
	assert.True(t, pure.Equal(Composition{}, 1e-9))
	_, err = c.Add(Chloride, 5000).Settled(warm)
	assert.ErrorContains(t, err, "acid", "no base left")
}

// Free hydrogen ions are counted as carbonic acid: water of hardly any alkalinity, by
// the definition TA = HCO3 + 2 CO3 + B(OH)4 + OH - H - HSO4 - HF.
func TestSettledCountsFreeAcid(t *testing.T) {
	const left = 5 // µmol/kg of alkalinity
	acid := seawater35.Add(Chloride, seawater35.Alkalinity()-left)
	s, err := acid.Settled(warm)
	require.NoError(t, err)
	k, err := acid.constants(warm)
	require.NoError(t, err)
	weak, err := k.FromAlkalinityDIC(acid.Alkalinity(), acid.Carbon(), carbonate.Nutrients{})
	require.NoError(t, err)
	forms := weak.Species()
	free := forms.HCO3 + 2*forms.CO3 + forms.BOH4 + forms.OH - left
	assert.Greater(t, float64(free), 10.0, "µmol/kg: so acid that it shows")
	checks.Absolute(t, "bicarbonate", float64(s.Amount(Bicarbonate)), float64(forms.HCO3-free), 1e-6)
	checks.Absolute(t, "carbon dioxide", float64(s.Amount(CarbonDioxide)), float64(forms.CO2+free), 1e-6)
	checks.Absolute(t, "charge", float64(s.Charge()), 0, 1e-9)
}

func TestSettledRefuses(t *testing.T) {
	_, err := seawater35.With(Calcium, -1).Settled(warm)
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = seawater35.Settled(units.Temperature{})
	assert.ErrorIs(t, err, units.ErrInput)
	bad, err := seawater35.Add(Chloride, 10000).Settled(warm)
	assert.ErrorIs(t, err, units.ErrInput, "free acid")
	assert.True(t, math.IsNaN(float64(bad.Amount(Sodium))))
	_, err = seawater35.AtPH(carbonate.PHTotal(math.NaN()), warm)
	assert.Error(t, err)
}
