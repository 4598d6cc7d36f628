package carbonate

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/pitzer"
	"example.org/wellmixed/units"
)

// Each factor is one over a difference quotient of the solver itself.
func TestBuffersAreDerivatives(t *testing.T) {
	for _, n := range []Nutrients{{}, {Phosphate: 15, Silicate: 180, Ammonia: 45, Sulfide: 4}} {
		for _, in := range [][2]float64{{5, 10}, {35, 25}, {42, 30}} {
			c := At(units.Practical(in[0]), units.Celsius(in[1]), Options{K1K2: Waters2014})
			for _, carbon := range []units.AmountPerKilogram{1500, 2000, 2200, 2600} {
				at := func(ta, x units.AmountPerKilogram) System {
					s, err := c.FromAlkalinityDIC(ta, x, n)
					require.NoError(t, err)
					return s
				}
				s := at(2300, carbon)
				b := s.Buffers()
				const e = 0.05 // µmol/kg
				quotient := func(lo, hi System) (co2, h, omega, ph float64) {
					return math.Log(float64(hi.CO2()/lo.CO2())) / (2 * e), math.Log(hi.h/lo.h) / (2 * e),
						math.Log(hi.Calcite()/lo.Calcite()) / (2 * e), (hi.PH().Value() - lo.PH().Value()) / (2 * e)
				}
				co2, h, omega, ph := quotient(at(2300, carbon-e), at(2300, carbon+e))
				const tol = 2e-6
				checks.Relative(t, "GammaDIC", float64(b.GammaDIC), 1/co2, tol)
				checks.Relative(t, "BetaDIC", float64(b.BetaDIC), 1/h, tol)
				checks.Relative(t, "OmegaDIC", float64(b.OmegaDIC), 1/omega, 1e-5)
				checks.Relative(t, "PHPerDIC", float64(b.PHPerDIC), ph, tol)
				checks.Relative(t, "Revelle", float64(b.Revelle), co2*float64(carbon), tol)
				co2, h, omega, ph = quotient(at(2300-e, carbon), at(2300+e, carbon))
				checks.Relative(t, "GammaAlkalinity", float64(b.GammaAlkalinity), 1/co2, tol)
				checks.Relative(t, "BetaAlkalinity", float64(b.BetaAlkalinity), 1/h, tol)
				checks.Relative(t, "OmegaAlkalinity", float64(b.OmegaAlkalinity), 1/omega, tol)
				checks.Relative(t, "PHPerAlkalinity", float64(b.PHPerAlkalinity), ph, tol)
			}
		}
	}
}

// The formulas of [E10], of carbonate, borate and water alone. Sulfate and
// fluoride are taken out to make a water of which they are exact.
func TestEgleston(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{Sulfate: Measured(0), Fluoride: Measured(0)})
	s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	require.NoError(t, err)
	sp, b := s.Species(), s.Buffers()
	carbonateAlkalinity := float64(sp.HCO3 + 2*sp.CO3)
	sum := float64(sp.HCO3+4*sp.CO3+sp.H+sp.OH) + float64(sp.BOH4)*s.h/(float64(c.KB)+s.h)
	p := float64(2*sp.CO2 + sp.HCO3)
	x := s.dic
	checks.Relative(t, "gamma DIC", float64(b.GammaDIC), x-carbonateAlkalinity*carbonateAlkalinity/sum, 1e-12)
	checks.Relative(t, "beta DIC", float64(b.BetaDIC), (x*sum-carbonateAlkalinity*carbonateAlkalinity)/carbonateAlkalinity, 1e-12)
	checks.Relative(t, "gamma TA", float64(b.GammaAlkalinity), (carbonateAlkalinity*carbonateAlkalinity-x*sum)/carbonateAlkalinity, 1e-12)
	checks.Relative(t, "beta TA", float64(b.BetaAlkalinity), carbonateAlkalinity*carbonateAlkalinity/x-sum, 1e-12)
	checks.Relative(t, "omega TA", float64(b.OmegaAlkalinity), -(carbonateAlkalinity*carbonateAlkalinity-x*sum)/p, 1e-12)
}

// Doses of base that bring seawater to saturation with brucite, computed with
// PHREEQC 3 and pitzer.dat in water of the reference composition, in µmol/kg;
// pH on the total scale.
func TestBrucite(t *testing.T) {
	for _, row := range []struct {
		s, t, ta, dic, dose, ph float64
		base                    string
	}{
		{35, 25, 2300, 2000, 757.3141409075361, 9.286745355398722, "Ca(OH)2"},
		{35, 20, 2300, 2000, 797.5314422237514, 9.446851030885341, "Ca(OH)2"},
		{35, 30, 2300, 2000, 715.2417590274058, 9.13147397260397, "Ca(OH)2"},
		{30, 25, 1971.428571, 1714.285714, 649.48204069188, 9.322075706186512, "Ca(OH)2"},
		{40, 25, 2628.571429, 2285.714286, 867.2108961087799, 9.256597148020498, "Ca(OH)2"},
		{35, 25, 2500, 2200, 824.4937708617102, 9.286123012034091, "Ca(OH)2"},
		{35, 25, 2800, 2450, 883.4490961318112, 9.285429562649089, "Ca(OH)2"},
		{35, 25, 3500, 3100, 1076.8325498867484, 9.284144691089056, "Ca(OH)2"},
		{35, 25, 3500, 2800, 825.8073371033737, 9.2844236518042, "Ca(OH)2"},
		{35, 25, 2300, 2000, 1512.9282710443701, 9.285541665968518, "NaOH"},
		{35, 25, 2300, 2000, 4581.7336425834865, 9.27805087387549, "Na2CO3"},
	} {
		w := Water{Salinity: units.Practical(row.s), Temperature: units.Celsius(row.t),
			Alkalinity: units.AmountPerKilogram(row.ta), DIC: units.AmountPerKilogram(row.dic)}
		add := func(dose float64) Water {
			x := units.AmountPerKilogram(dose)
			switch row.base {
			case "NaOH":
				return w.AddHydroxide(x)
			case "Na2CO3":
				return w.AddCarbonate(x)
			}
			return w.AddHydroxide(2 * x).AddCalcium(x)
		}
		at, err := add(row.dose).System()
		require.NoError(t, err)
		checks.Absolute(t, "pH after "+row.base, at.PH().Value(), row.ph, 0.002)
		// the dose at which Omega is 1 here
		lo, hi := 0., 5000.
		for range 60 {
			m := (lo + hi) / 2
			s, err := add(m).System()
			require.NoError(t, err)
			if s.Brucite().Omega < 1 {
				lo = m
			} else {
				hi = m
			}
		}
		checks.Absolute(t, "dose of "+row.base, lo, row.dose, 2)
		onset, _ := at.BruciteOnset()
		checks.Absolute(t, "onset", onset.Value(), row.ph, 0.002)
		natural, err := w.System()
		require.NoError(t, err)
		far, _ := natural.BruciteOnset()
		checks.Absolute(t, "onset, told from the water without base", far.Value(), row.ph, 0.011)
	}
}

// What the published sources leave open, as pH of saturation on the total scale. PHREEQC 3
// with other data bases for salinity 35, 25 °C, alkalinity 2300 and DIC 2000, and the product
// of 1938, 5e-11 (mol/L)³ at 20 °C, with KW of Millero 1995: 8.89.
func TestBruciteDoubt(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	require.NoError(t, err)
	onset, u := s.BruciteOnset()
	checks.Relative(t, "uncertainty of the index", float64(s.Brucite().Uncertainty), 2*u, 1e-12)
	for name, ph := range map[string]float64{
		"sit.dat": 9.389561391428737, "minteq.v4.dat": 9.261979120015216, "wateq4f.dat": 9.224280783042408,
		"llnl.dat": 8.805107973044944,
	} {
		assert.Less(t, math.Abs(onset.Value()-ph), 3*u, name)
		assert.True(t, ph >= onset.Value()+bruciteLowest && ph <= onset.Value()+bruciteHighest+0.003, name)
	}
	checks.Printed(t, "u, GUM 4.3.8", (0.1028+0.5569)/math.Sqrt(12), "0.190")
	checks.Printed(t, "u", u, "0.190")

	cold := At(units.Practical(35), units.Celsius(20), Options{})
	const density = 1.0248 // kg/L
	hydroxide := math.Sqrt(5e-11 / (density * density * density) / (float64(cold.Totals.Magnesium) / perMole))
	checks.Printed(t, "1938", -math.Log10(float64(cold.KW)/hydroxide), "8.89")
	s, err = cold.FromAlkalinityDIC(2300, 2000, Nutrients{})
	require.NoError(t, err)
	onset, _ = s.BruciteOnset()
	checks.Absolute(t, "1938", onset.Value()+bruciteLowest, 8.890, 0.011)
}

// PHREEQC 3: natural seawater of salinity 35 at 25 °C, with pitzer.dat -0.639, and 3.3373 and
// 3.2692 times concentrated at 25 and 10 °C saturated; minteq.v4.dat has -0.485.
func TestGypsum(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	require.NoError(t, err)
	checks.Printed(t, "pitzer.dat", s.Gypsum().Index(), "-0.639")
	assert.Greater(t, -0.485, s.Gypsum().Index()+3*float64(s.Gypsum().Uncertainty), "another set of constants")
	for celsius, times := range map[float64]float64{25: 3.3372908, 10: 3.2692229} {
		// as many times the salt in a kilogram of water
		salt := 35.16504 / (1000 - 35.16504) * times
		c := At(units.Practical(1000*salt/(1+salt)*35/35.16504), units.Celsius(celsius), Options{})
		s, err := c.FromAlkalinityDIC(units.AmountPerKilogram(2300*times*1.02/(1+salt)), units.AmountPerKilogram(2000*times*1.02/(1+salt)), Nutrients{})
		require.NoError(t, err)
		t.Log(s.Gypsum().Index())
		checks.Absolute(t, "saturated", s.Gypsum().Index(), 0, 0.003)
	}
}

// Outside 0 to 50 °C the model of activities says nothing.
func TestMineralsOutside(t *testing.T) {
	for _, r := range []struct {
		celsius float64
		known   bool
	}{{-0.01, false}, {0, true}, {50, true}, {50.01, false}} {
		c := At(units.Practical(35), units.Celsius(r.celsius), Options{})
		s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
		require.NoError(t, err)
		m := s.Minerals()
		assert.Equal(t, r.known, !math.IsNaN(float64(m.Brucite.Omega)), r.celsius)
		assert.Equal(t, r.known, !math.IsNaN(float64(m.Gypsum.Omega)), r.celsius)
		_, err = s.Activities()
		assert.Equal(t, !r.known, errors.Is(err, units.ErrRange), r.celsius)
	}
}

// Nutrients and organic bases hold no carbonate: the model of activities is given the
// alkalinity without them, and so has the same carbonate as the CO2 system, within what the
// two differ by anyway.
func TestActivitiesLeaveNutrientsOut(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	plain, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	require.NoError(t, err)
	with, err := c.FromAlkalinityDIC(2500, 2000, Nutrients{Organic: 200})
	require.NoError(t, err)
	a, err := plain.Activities()
	require.NoError(t, err)
	b, err := with.Activities()
	require.NoError(t, err)
	checks.Relative(t, "carbonate", float64(b.Molality(pitzer.Carbonate)), float64(a.Molality(pitzer.Carbonate)), 1e-9)
	checks.Absolute(t, "pH", a.TotalPH()-plain.PH().Value(), 0.017, 0.001)
}

// First-order differences against 20000 drawn waters.
func TestUncertaintyMonteCarlo(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	k := ConstantUncertainty{PK0: 0.002, PK1: 0.0055, PK2: 0.0100, PKB: 0.01, PKW: 0.01, PKCalcite: 0.02, PKAragonite: 0.02, Boron: units.Share(0.02), Calcium: units.Share(0.01)}
	n := Nutrients{Phosphate: 1}
	random := rand.New(rand.NewSource(1))
	for _, pair := range [][2]Known{
		{Alkalinity(2300).PlusMinus(10), DIC(2000).PlusMinus(8)},
		{Alkalinity(2300).PlusMinus(20), PH(PHTotal(8.05)).PlusMinus(0.02)},
		{PH(PHTotal(8.05)).PlusMinus(0.01), PartialPressure(400).PlusMinus(8)},
		{Alkalinity(2300), PartialPressure(400).PlusMinus(10)},
	} {
		u, err := c.Uncertainty(pair[0], pair[1], n, k)
		require.NoError(t, err)
		draws, wider := checks.Draws(20000)
		var sum, square results
		for range draws {
			drawn := c
			for i := range parameters {
				drawn.shift(i, k.of(i)*random.NormFloat64())
			}
			s, err := drawn.Solve(pair[0].shifted(random.NormFloat64()), pair[1].shifted(random.NormFloat64()), n)
			require.NoError(t, err)
			for i, x := range s.results() {
				sum[i] += x
				square[i] += x * x
			}
		}
		for i, want := range map[kind]float64{
			acidity: float64(u.PH), partialPressure: float64(u.PCO2), fugacityOfCO2: float64(u.FCO2), alkalinity: float64(u.Alkalinity),
			dic: float64(u.DIC), dissolved: float64(u.CO2), bicarbonate: float64(u.Bicarbonate), carbonate: float64(u.Carbonate),
			ofCalcite: float64(u.Calcite), ofAragonite: float64(u.Aragonite),
		} {
			mean := sum[i] / float64(draws)
			got := math.Sqrt(math.Max(0, square[i]/float64(draws)-mean*mean))
			if want < 1e-9*math.Abs(mean) { // not free
				assert.InDelta(t, 0, got, 1e-6*math.Abs(mean))
				continue
			}
			checks.Relative(t, pair[0].String()+", "+pair[1].String(), got, want, 0.03*wider)
		}
	}
}

func TestUncertaintyAlone(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	u, err := c.Uncertainty(Alkalinity(2300), DIC(2000), Nutrients{}, ConstantUncertainty{})
	require.NoError(t, err)
	assert.Equal(t, Uncertainty{}, u, "nothing is uncertain")
	// of one input: the derivative times it
	u, err = c.Uncertainty(Alkalinity(2300).PlusMinus(1), DIC(2000), Nutrients{}, ConstantUncertainty{})
	require.NoError(t, err)
	s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	require.NoError(t, err)
	checks.Relative(t, "pH", float64(u.PH), float64(s.Buffers().PHPerAlkalinity), 1e-5)
	// pKsp moves Omega by itself
	u, err = c.Uncertainty(Alkalinity(2300), DIC(2000), Nutrients{}, ConstantUncertainty{PKAragonite: 0.01})
	require.NoError(t, err)
	checks.Relative(t, "aragonite", float64(u.Aragonite), s.Aragonite()*0.01*math.Ln10, 1e-4)
	assert.Zero(t, float64(u.Calcite))

	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		u, err = c.Uncertainty(Alkalinity(2300).PlusMinus(bad), DIC(2000), Nutrients{}, ConstantUncertainty{})
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(u.PH)))
		_, err = c.Uncertainty(Alkalinity(2300), DIC(2000), Nutrients{}, ConstantUncertainty{PK1: bad})
		assert.ErrorIs(t, err, units.ErrInput)
	}
	_, err = c.Uncertainty(DIC(10), DissolvedCO2(20), Nutrients{}, ConstantUncertainty{})
	assert.ErrorIs(t, err, ErrNoSolution)
	_, err = c.Uncertainty(DIC(10), DissolvedCO2(9).PlusMinus(4), Nutrients{}, ConstantUncertainty{})
	assert.ErrorIs(t, err, ErrNoSolution, "the one end of its uncertainty is no water")
}

func TestConsistency(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	require.NoError(t, err)
	ta, ph, gas := Alkalinity(s.Alkalinity()).PlusMinus(10), PH(s.PH()).PlusMinus(0.01), PartialPressure(s.PCO2()).PlusMinus(10)

	v, err := c.Consistency([3]Known{ta, ph, gas}, Nutrients{}, ConstantUncertainty{})
	require.NoError(t, err)
	assert.True(t, v.Consistent)
	for _, a := range v.Agreements {
		assert.InDelta(t, 0, float64(a.Off), 1e-9*math.Abs(a.Measured.Value()))
	}

	// An electrode that is off by 0.1: the pH is blamed, and by how much it is
	// off is found.
	wrong := PH(PHTotal(s.PH().Value() + 0.1)).PlusMinus(0.03)
	v, err = c.Consistency([3]Known{ta, wrong, gas}, Nutrients{}, ConstantUncertainty{})
	require.NoError(t, err)
	assert.False(t, v.Consistent)
	assert.Equal(t, 1, v.Suspect)
	assert.InDelta(t, 0.1, float64(v.Agreements[1].Off), 1e-9)
	assert.InDelta(t, 0.1/0.03, float64(v.Agreements[1].Strain), 1e-6)
	// One contradiction: seen from each of the three it weighs about the same.
	for _, a := range v.Agreements {
		assert.InDelta(t, math.Abs(float64(v.Agreements[1].Joint)), math.Abs(float64(a.Joint)), 0.5)
	}

	_, err = c.Consistency([3]Known{ta, ph, PartialPressure(400)}, Nutrients{}, ConstantUncertainty{})
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = c.Consistency([3]Known{ta, ph, ph}, Nutrients{}, ConstantUncertainty{})
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = c.Uncertainty(ta, Carbonate(200).PlusMinus(5), Nutrients{}, ConstantUncertainty{})
	assert.ErrorIs(t, err, ErrTwoSolutions)
}

// Alkalinity and carbonate go with two waters: the pH tells which.
func TestThirdMeasurementTellsTwoWatersApart(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	ta, co3 := Alkalinity(2300).PlusMinus(10), Carbonate(200).PlusMinus(5)
	acid, basic, err := c.SolveBoth(ta, co3, Nutrients{})
	require.NoError(t, err)
	for _, s := range []System{acid, basic} {
		v, err := c.Consistency([3]Known{ta, co3, PH(PHTotal(s.PH().Value() + 0.001)).PlusMinus(0.01)}, Nutrients{}, ConstantUncertainty{})
		require.NoError(t, err)
		assert.True(t, v.Consistent)
		assert.InDelta(t, s.PH().Value(), v.Agreements[2].Expected.Value(), 1e-12)
		u := v.Agreements[2].Expected.Uncertainty()
		assert.True(t, u > 0 && u < 0.05, "of one water, not of the way from one to the other: %v", u)
	}
}
