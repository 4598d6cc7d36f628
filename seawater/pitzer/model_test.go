package pitzer

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// TestConstants: the slope of the limiting law and J, printed by the same program as the
// solutions; J agrees with numerical integration of its integral to 1e-7 above x = 0.1.
func TestConstants(t *testing.T) {
	for c, printed := range map[float64]string{
		0: "0.3767287843", 10: "0.3821247064", 25: "0.3914584924", 40: "0.4022736926", 50: "0.4103044659",
	} {
		checks.Printed(t, "A-phi", debyeHuckel(c+273.15), printed)
	}
	for x, want := range map[float64]float64{0.1: 0.003602732962861399, 1: 0.11643721729364254, 5: 0.9203538786002898, 50: 11.822479794280547} {
		j, _, _ := mixing(x)
		checks.Relative(t, "J", j, want, 1e-14)
	}
	_, first, _ := mixing(5)
	checks.Relative(t, "x J'", first, 1.1012454262196456, 1e-14)
	e, slope, _ := unsymmetrical(0.3914584924, 1, 1)
	checks.Relative(t, "E", e, -0.1439228964707796, 1e-9)
	checks.Relative(t, "E'", slope, 0.06905024600674131, 1e-9)
}

// J is the integral of Pitzer (1975), equation 46, here by the midpoint rule.
func TestMixingIsTheIntegral(t *testing.T) {
	for _, x := range []float64{0.1, 0.5, 2, 10, 40} {
		n := checks.Runs(400000, 20000)
		const far = 40.
		sum := 0.
		for i := range n {
			y := (float64(i) + 0.5) * far / float64(n)
			q := -x / y * math.Exp(-y)
			sum += (1 + q + q*q/2 - math.Exp(q)) * y * y
		}
		want := sum * far / float64(n) / x
		j, _, _ := mixing(x)
		checks.Absolute(t, "J", j, want, 2e-7*(1+x))
	}
}

// The osmotic coefficient follows from the activity coefficients by Gibbs and Duhem:
// d(φ Σm) = Σ m d ln γ + d Σm along any dilution.
func TestGibbsDuhem(t *testing.T) {
	for _, c := range []float64{0, 25, 50} {
		var k model
		k.set(c + 273.15)
		s, err := Solve(sea.Scale(3), units.Celsius(c))
		require.NoError(t, err)
		at := func(x float64) state {
			s := s.state
			for i := range s.m {
				s.m[i] *= x
			}
			k.activities(&s)
			return s
		}
		const h = 1e-5
		up, down, here := at(1+h), at(1-h), at(1)
		sum := here.sum
		for i, m := range here.m {
			sum += m * (up.gamma[i] - down.gamma[i]) / (2 * h)
		}
		checks.Relative(t, "d(φ Σm)/dx", (up.osmotic*up.sum-down.osmotic*down.sum)/(2*h), sum, 1e-8)
	}
}

// What is dissolved is all there after speciation, and the charges balance.
func TestBalances(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for range checks.Runs(500, 50) {
		var b Brine
		for _, amount := range b.amounts() {
			if r.IntN(2) == 0 {
				*amount = units.AmountPerKilogram(math.Exp(19*r.Float64() - 5))
			}
		}
		n := b.totals()
		if x := n.excess(); x > 0 {
			b.Chloride += units.AmountPerKilogram(x * perMole)
		} else {
			b.Sodium -= units.AmountPerKilogram(x * perMole)
		}
		s, err := Solve(b, units.Celsius(50*r.Float64()))
		if errors.Is(err, units.ErrRange) {
			continue
		}
		require.NoError(t, err, "%+v", b)
		n = b.totals()
		charge, scale := n.other, 0.
		for i, m := range s.m {
			charge += m * speciesTable[i].charge
			scale += m
		}
		assert.InDelta(t, 0, charge, 1e-11*scale)
		for i, of := range counted {
			sum := s.m[of]
			for r := range reactions {
				sum += reactions[r].number(of) * s.m[reactions[r].gives]
			}
			assert.InDelta(t, n.n[i], sum, 1e-10*n.n[i], "%v of %+v", of, b)
		}
	}
}

// Water of no salt is neutral, and dilution brings every brine there.
func TestPureWater(t *testing.T) {
	s, err := Solve(Brine{}, units.Celsius(25))
	require.NoError(t, err)
	checks.Absolute(t, "pH", s.PH(), 6.9977, 0.0005) // pKw 13.995, CRC Handbook
	checks.Absolute(t, "activity of water", s.WaterActivity(), 1, 1e-8)
	assert.Empty(t, s.Known())
	assert.Empty(t, s.AboveSaturation())
	index, err := s.Saturation(Halite)
	assert.NoError(t, err)
	assert.True(t, math.IsInf(index, -1))
}

// FreezingPoint and the vapour pressure beside TEOS-10 and the steam tables.
func TestFreezingAndVapour(t *testing.T) {
	for c, printed := range map[float64]string{0.01: "6.1166", 25: "31.70", 50: "123.52"} { // steam tables, hPa
		pure, err := Solve(Brine{}, units.Celsius(c))
		require.NoError(t, err)
		checks.Printed(t, "vapour pressure", float64(pure.VapourPressure()), printed)
	}
	for _, factor := range []float64{0.3, 0.6, 1, 1.1} {
		s, err := Solve(sea.Scale(factor), units.Celsius(10))
		require.NoError(t, err)
		froze, err := s.FreezingPoint()
		require.NoError(t, err)
		sa := factor * 35.16504 / (1 + (factor-1)*35.16504/1000)
		want := teos10.FreezingTemperature(units.Absolute(sa), 0, units.Share(0))
		checks.Absolute(t, "freezing point", froze.Celsius(), want.Celsius(), 0.006)
	}
	for _, sa := range []float64{0, 30, 60, 100} { // activity of water over ice by TEOS-10
		froze := teos10.FreezingTemperature(units.Absolute(sa), 0, units.Share(0))
		less := teos10.WaterPotential(units.Absolute(sa), froze, 0) - teos10.WaterPotential(units.Absolute(0), froze, 0)
		checks.Absolute(t, "ice", iceActivity(froze.Kelvin()), float64(less)/461.51805/froze.Kelvin(), 2e-5)
	}
	// CRC Handbook, concentrative properties, from memory: 10 and 20 % of sodium chloride.
	for m, want := range map[units.AmountPerKilogram]float64{1.9013e6: -6.56, 4.2779e6: -16.46} {
		brine, err := Solve(Brine{Sodium: m, Chloride: m}, units.Celsius(20))
		require.NoError(t, err)
		froze, err := brine.FreezingPoint()
		require.NoError(t, err)
		checks.Absolute(t, "freezing point of sodium chloride", froze.Celsius(), want, 0.15)
	}
	for _, b := range []Brine{{Calcium: 5e6, Chloride: 1e7}} {
		s, err := Solve(b, units.Celsius(20))
		require.NoError(t, err)
		_, err = s.FreezingPoint()
		assert.ErrorIs(t, err, units.ErrInput)
	}
}

func TestAtTotalPH(t *testing.T) {
	for _, c := range []float64{0, 25, 50} {
		for ph := 3.; ph <= 11; ph += checks.Step(0.5, 2) {
			s, err := AtTotalPH(sea, units.Celsius(c), ph)
			require.NoError(t, err, ph)
			checks.Absolute(t, "pH", s.TotalPH(), ph, 1e-7)
			brine := s.Brine()
			assert.Equal(t, sea.Carbon, brine.Carbon)
		}
	}
	_, err := AtTotalPH(sea, units.Celsius(25), 14)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = AtTotalPH(sea, units.Celsius(25), math.NaN())
	assert.ErrorIs(t, err, units.ErrRange)
}

func TestSolveRefuses(t *testing.T) {
	for _, b := range []Brine{{Sodium: -1}, {Chloride: units.AmountPerKilogram(math.NaN())}, {OtherCharge: units.AmountPerKilogram(math.Inf(1))}} {
		_, err := Solve(b, units.Celsius(25))
		assert.ErrorIs(t, err, units.ErrInput)
	}
	for _, c := range []float64{-0.1, 50.1, math.NaN()} {
		_, err := Solve(sea, units.Celsius(c))
		assert.Error(t, err)
	}
	_, err := Solve(sea, units.Temperature{})
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = Solve(Brine{Magnesium: 1e9, Chloride: 2e9}, units.Celsius(25))
	assert.Error(t, err)
	_, err = Solve(Brine{Boron: 6e6}, units.Celsius(25))
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = Solve(Brine{Magnesium: 7e6, Chloride: 14e6}, units.Celsius(25))
	assert.ErrorIs(t, err, units.ErrRange)
}

// Unsound constants and those of 25 °C elsewhere are refused, and nothing else is.
func TestSaturationRefuses(t *testing.T) {
	warm, err := Solve(sea, units.Celsius(25))
	require.NoError(t, err)
	cold, err := Solve(sea, units.Celsius(10))
	require.NoError(t, err)
	for s := Halite; s < solidEnd; s++ {
		_, err := warm.Saturation(s)
		_, colder := cold.Saturation(s)
		switch solids[s].grade {
		case unsound:
			assert.ErrorIs(t, err, units.ErrInput, s.String())
		case only25:
			assert.NoError(t, err)
			assert.ErrorIs(t, colder, units.ErrRange, s.String())
		default:
			assert.NoError(t, err)
			assert.NoError(t, colder)
		}
	}
	for _, s := range []Solid{0, solidEnd, 255} {
		_, err := warm.Saturation(s)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.Empty(t, s.Formula())
		assert.Empty(t, s.String())
		assert.True(t, math.IsNaN(float64(s.MolarMass())))
	}
	for _, s := range []Solid{Portlandite, Magnesite} {
		_, err := warm.Saturation(s)
		assert.Error(t, err)
	}
}

// Every solid is neutral, weighs what its formula says and holds the ions that it names.
func TestSolidsAgainstTheirFormulas(t *testing.T) {
	for s := Halite; s < solidEnd; s++ {
		r := &solids[s]
		f, err := parseFormula(r.formula)
		require.NoError(t, err, r.formula)
		for i, of := range counted {
			assert.Equal(t, inSolid(r, of), f.n[i], "%s %v", s, of)
		}
		assert.Equal(t, r.hydrogen, f.hydrogen, s.String())
		assert.Equal(t, r.water, f.water, s.String())
		var back Solid
		text, err := json.Marshal(s)
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, s, back)
	}
	checks.Absolute(t, "gypsum", float64(Gypsum.MolarMass()), 172.164, 0.001)
	for s := range speciesEnd {
		charge := 0.
		for r := range reactions {
			if x := &reactions[r]; x.gives == s {
				charge = x.hydrogen
				for _, of := range x.of {
					charge += of.n * speciesTable[of.of].charge
				}
				assert.Equal(t, speciesTable[s].charge, charge, s.String())
			}
		}
		assert.Greater(t, float64(s.MolarMass()), 0., s.String())
	}
}

func TestSolidsAsText(t *testing.T) {
	_, err := solidEnd.MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	var s Solid
	assert.ErrorIs(t, s.UnmarshalText([]byte("granite")), units.ErrInput)
	assert.NoError(t, s.UnmarshalText([]byte("Gypsum")))
	assert.Equal(t, Gypsum, s)
}

func TestFormulas(t *testing.T) {
	for text, want := range map[string]float64{ // g/mol, IUPAC 2021
		"NaCl": 58.44, "CaCl2·2H2O": 147.008, "CaCl2.2H2O": 147.008, "(NH4)2SO4": 132.134, "Na2B4O7·10H2O": 381.363,
		"Mg5(CO3)4(OH)2·4H2O": 467.633, "H2SO4": 98.072, "CO2": 44.009, "SrCl2*6H2O": 266.61,
		"BaCl2": 208.23, "MnSO4": 150.994, "LiCl": 42.39, "FeCl2": 126.745, "NaF": 41.988, "KI": 165.998, "KBr": 119.002,
		"Si(OH)4": 96.113, "NH4NO3": 80.043, "NH4HCO3": 79.055, "Ca(NO3)2·4H2O": 236.146, "NaNO3": 84.994, "KHCO3": 100.114,
	} {
		f, err := parseFormula(text)
		assert.NoError(t, err, text)
		checks.Absolute(t, text, f.mass, want, 0.004)
	}
	for _, text := range []string{
		"", "Na2SO3", "KIO3", "CuSO4", "Na", "Cl", "NaCl2", "C6H12O6", "NaHPO4", "(NaCl", "NaCl)", "2", "·", "NaCl·", "((((((((((NaCl))))))))))",
		"H2O2", "NH3", "NaNO2", "CO(NH2)2", "KCN", "NH2OH", "N2H4", "NaCl·CH4", "\xff",
	} {
		_, err := parseFormula(text)
		assert.ErrorIs(t, err, units.ErrInput, text)
	}
	other, err := parseFormula("MgCl2:6H2O")
	require.NoError(t, err)
	assert.Equal(t, 6., other.water)
	both, err := parseFormula("(NH4)2SO4·NH4NO3")
	require.NoError(t, err)
	assert.Equal(t, []float64{3, 1, 1, 0, 0}, []float64{content(&both.totals, Ammonium), content(&both.totals, Nitrate),
		content(&both.totals, Sulfate), both.water, both.hydrogen}, "nitrogen by the charges")
}

func FuzzFormula(f *testing.F) {
	for _, seed := range []string{"CaCl2·2H2O", "(NH4)2SO4", "Mg5(CO3)4(OH)2·4H2O", "((", "9999999H"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		x, err := parseFormula(text)
		if err == nil && !(x.mass > 0) {
			t.Errorf("%q weighs %v", text, x.mass)
		}
	})
}

func FuzzSolve(f *testing.F) {
	f.Add(486e3, 54.7e3, 10.6e3, 29e3, 2e3, 430., 25.)
	f.Add(0., 6e6, 0., 0., 0., 0., 0.)
	f.Add(1e-9, 1e-9, 1e6, 1e-12, 1e6, 1e6, 50.)
	f.Fuzz(func(t *testing.T, sodium, magnesium, calcium, sulfate, carbon, boron, celsius float64) {
		b := Brine{
			Sodium: units.AmountPerKilogram(sodium), Magnesium: units.AmountPerKilogram(magnesium),
			Calcium: units.AmountPerKilogram(calcium), Sulfate: units.AmountPerKilogram(sulfate),
			Carbon: units.AmountPerKilogram(carbon), Boron: units.AmountPerKilogram(boron),
		}
		b.Chloride = max(0, b.Sodium+2*b.Magnesium+2*b.Calcium-2*b.Sulfate)
		s, err := Solve(b, units.Celsius(celsius))
		if err != nil {
			return
		}
		if !(s.WaterActivity() > 0 && s.WaterActivity() <= 1+1e-9 && math.Abs(s.PH()) < 25) {
			t.Errorf("%+v at %v: activity of water %v, pH %v", b, celsius, s.WaterActivity(), s.PH())
		}
	})
}
