package pitzer

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// stockShelf is what random batches are made of.
var stockShelf = []string{
	"NaCl", "KCl", "MgCl2·6H2O", "MgSO4·7H2O", "CaCl2·2H2O", "Na2SO4", "NaHCO3", "Na2CO3", "KHCO3", "SrCl2·6H2O", "KBr",
	"H3BO3", "Na2B4O7·10H2O", "K2SO4", "CaCO3", "NaOH", "HCl", "LiCl", "BaCl2", "NaNO3", "NH4Cl", "KI", "NaF",
}

func randomBatch(r *rand.Rand) Batch {
	b := Batch{Water: units.Kilogram, Temperature: units.Celsius(50 * r.Float64())}
	for range 1 + r.IntN(6) {
		most := []float64{200, 20, 1}[r.IntN(3)]
		b.Add = append(b.Add, Addition{stockShelf[r.IntN(len(stockShelf))], units.Mass(most*r.Float64()) * units.Gram})
	}
	if r.IntN(3) == 0 {
		b.Present = sea.Scale(3 * r.Float64())
	}
	return b
}

// Whatever is put together comes to equilibrium: no solid is above saturation, those that lie
// there are at it, and nothing is lost.
func TestDissolveEndsAtEquilibrium(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range checks.Runs(2000, 30) {
		b := randomBatch(r)
		m, err := Dissolve(b)
		require.NoError(t, err, "%+v", b)
		assert.Less(t, m.Residual, 1e-9, "%+v", b)
		for _, s := range usual(b.Temperature) {
			assert.LessOrEqual(t, m.Solution.index(s), 1e-9, s.String())
		}
		dissolved := m.Solution.Brine()
		n := dissolved.totals()
		before, _, _, err := b.matter(&modelAt(b.Temperature).model)
		require.NoError(t, err)
		for i, of := range counted {
			sum := n.n[i] * m.Water.Kilograms()
			for _, d := range m.Solids {
				sum += inSolid(&solids[d.Solid], of) * d.Mass.Grams() / d.Solid.MolarMass().GramsPerMole()
			}
			assert.InDelta(t, before.n[i], sum, 1e-9*(1+before.n[i]), of.String())
		}
		for _, d := range m.Solids {
			assert.InDelta(t, 0, m.Solution.index(d.Solid), 1e-9, d.Solid.String())
		}
	}
}

func modelAt(t units.Temperature) *system {
	y := new(system)
	y.set(t.Kelvin())
	return y
}

// The order in which salts go in does not matter, and what the brine that is found holds is
// in equilibrium by Solve as well.
func TestDissolveDoesNotKnowTheOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 6))
	for range checks.Runs(100, 10) {
		b := randomBatch(r)
		m, err := Dissolve(b)
		require.NoError(t, err)
		list, err := b.InOrder()
		require.NoError(t, err)
		require.Len(t, list, len(b.Add))
		last := list[len(list)-1]
		assert.Equal(t, m.Solids, last.Solids)
		slices.Reverse(b.Add)
		back, err := Dissolve(b)
		require.NoError(t, err)
		for _, d := range m.Solids {
			assert.InDelta(t, d.Mass.Grams(), back.Found(d.Solid).Grams(), 1e-7)
		}
		s, err := Solve(m.Solution.Brine(), b.Temperature)
		require.NoError(t, err)
		assert.InDelta(t, m.Solution.Osmotic(), s.Osmotic(), 1e-8)
	}
}

func TestDepositTellsWhatStayedFromWhatFell(t *testing.T) {
	m, err := Dissolve(Batch{
		Water: units.Kilogram, Temperature: units.Celsius(20),
		Add: []Addition{{"NaCl", 500 * units.Gram}, {"CaCl2", 20 * units.Gram}, {"Na2SO4", 20 * units.Gram}},
	})
	require.NoError(t, err)
	for _, d := range m.Solids {
		switch d.Solid {
		case Halite:
			assert.Equal(t, 500*units.Gram, d.Added)
			assert.Zero(t, d.FellOut())
			assert.Less(t, d.Mass, 170*units.Gram)
		default:
			assert.Zero(t, d.Added)
			assert.Equal(t, d.Mass, d.FellOut())
		}
	}
	assert.Greater(t, m.Found(Gypsum)+m.Found(Glauberite)+m.Found(Anhydrite), 10*units.Gram)
	assert.Zero(t, m.Found(Calcite))
}

func TestSolidsMayBeNamedTwice(t *testing.T) {
	b := Batch{Water: units.Kilogram, Add: []Addition{{"NaCl", 500 * units.Gram}}, Temperature: units.Celsius(20)}
	once, err := Dissolve(b)
	require.NoError(t, err)
	for range 100 {
		b.Solids = append(b.Solids, Halite)
	}
	m, err := Dissolve(b)
	require.NoError(t, err)
	assert.InDelta(t, once.Found(Halite).Grams(), m.Found(Halite).Grams(), 1e-9)
}

func TestDissolveRefuses(t *testing.T) {
	_, err := Dissolve(Batch{
		Water: -1, Add: []Addition{{"CuSO4", units.Gram}, {"NaCl", -1}}, Temperature: units.Celsius(60), Present: Brine{Sodium: -1},
	})
	for _, field := range []string{"water", "add[0].formula", "add[1].mass", "temperature", "present.sodium"} {
		assert.ErrorContains(t, err, field)
	}
	_, err = Dissolve(Batch{Water: units.Kilogram, Temperature: units.Celsius(10), Solids: []Solid{Halite, Natron, Portlandite}})
	assert.ErrorContains(t, err, "solids[1]")
	assert.ErrorContains(t, err, "solids[2]")
	_, err = Dissolve(Batch{
		Water: units.Kilogram, Temperature: units.Celsius(20), Add: []Addition{{"MgCl2", 900 * units.Gram}},
	})
	assert.ErrorIs(t, err, units.ErrRange, "more than all water as bischofite: the model has a solution, of ionic strength 38")
	_, err = Dissolve(Batch{
		Water: units.Kilogram, Temperature: units.Celsius(20), Add: []Addition{{"MgCl2", 1500 * units.Gram}},
	})
	assert.ErrorContains(t, err, "water")
	assert.ErrorIs(t, err, units.ErrInput)
}

// Soda at 10 °C: natron is not judged, and the result says so.
func TestDissolveSaysWhatItDidNotJudge(t *testing.T) {
	m, err := Dissolve(Batch{
		Water: units.Kilogram, Temperature: units.Celsius(10), Add: []Addition{{"Na2CO3", 450 * units.Gram}},
	})
	require.NoError(t, err)
	assert.Empty(t, m.Solids)
	assert.True(t, slices.ContainsFunc(m.NotJudged, func(s Saturated) bool { return s.Solid == Natron && s.Index > 0 }))
}

// Ten stock solutions of the trade beside handbook solubilities, mol per kg of water.
//
//	source   testdata/published.csv: CRC Handbook, 98th edition, or general solubility tables;
//	         from memory where it says so
func TestTenStocksBesideTheHandbook(t *testing.T) {
	for _, x := range []struct {
		formula        string
		celsius        float64
		handbook, near float64
	}{
		{"NaCl", 25, 6.153, 0.005},
		{"KCl", 20, 4.5875, 0.004},
		{"MgCl2·6H2O", 20, 5.7346, 0.009},
		{"MgSO4·7H2O", 30, 3.2983, 0.03},
		{"Na2SO4", 20, 1.3728, 0.004},
		{"K2SO4", 20, 0.637, 0.08},
		{"CaSO4·2H2O", 20, 0.01481, 0.004},
		{"SrSO4", 25, 0.00064, 0.06}, // from memory
		{"H3BO3", 25, 0.93, 0.005},   // from memory
		{"NaHCO3", 25, 1.23, 0.06},   // from memory
		{"Na2CO3", 25, 2.77, 0.02},   // from memory
	} {
		at := units.Celsius(x.celsius)
		limit, err := Stock{Salts: []Addition{{x.formula, units.Gram}}, Cold: at, Warm: at}.Strongest()
		require.NoError(t, err, x.formula)
		require.False(t, limit.Open, x.formula)
		f, err := parseFormula(x.formula)
		require.NoError(t, err)
		mol := limit.Salts[0].Mass.Grams() / f.mass
		perKg := mol / (1 + mol*f.water/molesOfWater)
		t.Logf("%s at %v °C: %.4g mol/kg, handbook %.4g, %+.1f %%", x.formula, x.celsius, perKg, x.handbook, 100*(perKg/x.handbook-1))
		checks.Relative(t, x.formula, perKg, x.handbook, x.near)
	}
}

func TestStrongestIsWhatDissolves(t *testing.T) {
	at := units.Celsius(20)
	for _, salts := range [][]Addition{
		{{"NaCl", 100 * units.Gram}},
		{{"MgSO4·7H2O", 100 * units.Gram}, {"NaCl", 10 * units.Gram}},
		{{"KCl", 50 * units.Gram}, {"NaCl", 50 * units.Gram}},
	} {
		limit, err := Stock{Salts: salts, Cold: at, Warm: at}.Strongest()
		require.NoError(t, err)
		for _, x := range []float64{0.999, 1.001} {
			m, err := Dissolve(Batch{Water: units.Kilogram, Temperature: at, Add: scaled(limit.Salts, x)})
			require.NoError(t, err)
			assert.Equal(t, x > 1, m.Found(limit.By) > 0, "%v at %v", limit, x)
		}
	}
}

// The cold limits what grows more soluble with warmth, the warmth what does not.
func TestStockIsLimitedAtItsEnds(t *testing.T) {
	cold, warm := units.Celsius(5), units.Celsius(35)
	for formula, end := range map[string]units.Temperature{"KCl": cold, "MgSO4·7H2O": cold, "SrSO4": warm} {
		salts := []Addition{{formula, units.Gram}}
		both, err := Stock{Salts: salts, Cold: cold, Warm: warm}.Strongest()
		require.NoError(t, err)
		one, err := Stock{Salts: salts, Cold: end, Warm: end}.Strongest()
		require.NoError(t, err)
		assert.Equal(t, end, both.At, formula)
		assert.InEpsilon(t, one.Salts[0].Mass.Grams(), both.Salts[0].Mass.Grams(), 1e-7)
		assert.InDelta(t, both.By.Deviation(end).Value(), both.Within.Value(), 0)
	}
}

// Without a solid that limits it, a stock is clear as far as has been compared, or to
// ionic strength 18.
func TestOpenStocks(t *testing.T) {
	at := units.Celsius(25)
	for formula, most := range map[string]float64{"LiCl": 18, "CaCl2": 5, "CaCl2·2H2O": 5, "KBr": 5, "SrCl2·6H2O": 2} {
		limit, err := Stock{Salts: []Addition{{formula, units.Gram}}, Cold: at, Warm: at}.Strongest()
		require.NoError(t, err)
		assert.True(t, limit.Open, formula)
		assert.Zero(t, limit.By)
		assert.True(t, math.IsNaN(limit.Within.Value()))
		f, err := parseFormula(formula)
		require.NoError(t, err)
		mol := limit.Salts[0].Mass.Grams() / f.mass
		checks.Relative(t, formula, mol/(1+mol*f.water/molesOfWater), most, 1e-6)
	}
}

func TestStockRefuses(t *testing.T) {
	at := units.Celsius(20)
	for _, s := range []Stock{
		{},
		{Cold: at, Warm: at},
		{Salts: []Addition{{"NaCl", 0}}, Cold: at, Warm: at},
		{Salts: []Addition{{"NaCl", 1}}, Cold: at, Warm: units.Celsius(10)},
		{Salts: []Addition{{"NaCl", 1}}, Cold: at, Warm: units.Celsius(60)},
		{Salts: []Addition{{"sugar", 1}}, Cold: at, Warm: at},
		{Salts: []Addition{{"Na2CO3", 1}}, Cold: at, Warm: at},
		{Salts: []Addition{{"Ca(OH)2", 1}}, Cold: units.Celsius(25), Warm: units.Celsius(25)},
	} {
		l, err := s.Strongest()
		assert.Error(t, err, "%+v", s)
		assert.Equal(t, Limit{}, l)
	}
}

func TestWaterOntoSalt(t *testing.T) {
	b := Batch{Water: units.Kilogram, Temperature: units.Celsius(20), Add: []Addition{{"CaCl2·2H2O", 2 * units.Gram}, {"Na2SO4", 4 * units.Gram}, {"NaCl", 25 * units.Gram}}}
	n := 0
	var last Stage
	for stage, err := range b.WaterOntoSalt(50*units.Gram, 5) {
		require.NoError(t, err)
		assert.Greater(t, stage.Water, last.Water)
		last = stage
		n++
	}
	assert.Equal(t, 5, n)
	m, err := Dissolve(b)
	require.NoError(t, err)
	assert.Equal(t, m, last.Mixture)

	water, err := b.WaterToClear(Gypsum)
	require.NoError(t, err)
	for _, x := range []float64{0.99, 1.01} {
		less := b
		less.Water = water * units.Mass(x)
		m, err := Dissolve(less)
		require.NoError(t, err)
		assert.Equal(t, x < 1, m.Found(Gypsum)+m.Found(Glauberite)+m.Found(Anhydrite) > 0)
	}
	for _, bad := range []struct {
		least  units.Mass
		stages int
	}{{0, 3}, {2 * units.Kilogram, 3}, {units.Gram, 1}, {units.Gram, 1e6}, {units.Mass(math.NaN()), 3}} {
		for _, err := range b.WaterOntoSalt(bad.least, bad.stages) {
			assert.ErrorIs(t, err, units.ErrInput)
		}
	}
	for range b.WaterOntoSalt(50*units.Gram, 5) {
		break
	}
	_, err = b.WaterToClear(Brucite)
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = b.WaterToClear(Portlandite)
	assert.ErrorIs(t, err, units.ErrInput)
	b.Water = 100 * units.Gram
	_, err = b.WaterToClear(Gypsum)
	assert.ErrorIs(t, err, units.ErrInput)
}

func TestKnown(t *testing.T) {
	s, err := Solve(Brine{Calcium: 5.5e6, Chloride: 11e6}, units.Celsius(25))
	require.NoError(t, err)
	list := s.Known()
	require.Len(t, list, 1)
	assert.True(t, list[0].Beyond())
	assert.False(t, list[0].NoParameters)
	assert.InDelta(t, 0.022, list[0].Within.Value(), 1e-12)
	assert.InDelta(t, 5.5e6, float64(list[0].Content), 1)
	s, err = Solve(Brine{Ammonium: 1e6, Iodide: 5e5, Chloride: 5e5}, units.Celsius(25))
	require.NoError(t, err)
	for _, k := range s.Known() {
		assert.True(t, k.Single)
		assert.Equal(t, k.Anion == Iodide, k.NoParameters, "no parameters of ammonium iodide")
		assert.True(t, math.IsNaN(k.Within.Value()))
		assert.False(t, k.Beyond())
	}
	assert.InDelta(t, 0.0435, Sylvite.Deviation(units.Celsius(5)).Value(), 1e-12)
	assert.InDelta(t, 0.0085, Sylvite.Deviation(units.Celsius(25)).Value(), 1e-12)
	assert.True(t, math.IsNaN(Brucite.Deviation(units.Celsius(25)).Value()))
	assert.True(t, math.IsNaN(Natron.Deviation(units.Celsius(10)).Value()))
}

// The single salts of the supplement: osmotic coefficients at 1 mol/kg and 25 °C, computed
// from the parameters of May et al. 2011 apart from this package.
func TestSingleSalts(t *testing.T) {
	for formula, printed := range map[string]string{
		"NaF": "0.871698", "NH4Cl": "0.898142", "(NH4)2SO4": "0.637413", "NH4NO3": "0.817841", "NaNO3": "0.853533",
		"KNO3": "0.756947", "Ca(NO3)2": "0.839812", "NaI": "0.991326", "KI": "0.926731", "CaI2": "1.214646",
	} {
		f, err := parseFormula(formula)
		require.NoError(t, err)
		s, err := Solve(f.brine(), units.Celsius(25))
		require.NoError(t, err)
		checks.Absolute(t, formula, s.Osmotic(), mustFloat(t, printed), 2e-5)
	}
}

func mustFloat(t *testing.T, text string) float64 {
	return checks.Row{"x": text}.Float(t, "x")
}

// The end corrects a wrong guess of which solids lie there, and the residual notices what is
// not in equilibrium.
func TestPolishCorrectsTheGuess(t *testing.T) {
	b := Batch{Water: units.Kilogram, Temperature: units.Celsius(25), Present: sea.Scale(14)}
	y := modelAt(b.Temperature)
	y.perKg = molesOfWater
	n, acid, water, err := b.matter(&y.model)
	require.NoError(t, err)
	require.True(t, y.start(n, acid, water, usual(b.Temperature)))
	require.True(t, y.settle())
	found := map[Solid]float64{}
	for i := range y.solids {
		h := &y.solids[i]
		if h.present {
			found[h.solid] = h.n
		}
		switch h.solid {
		case Gypsum: // lies there and is forgotten
			require.True(t, h.present)
			h.present, h.awake = false, false
		case Epsomite: // does not and is put there
			require.False(t, h.present)
			h.present, h.awake = true, true
		}
	}
	assert.Greater(t, y.residual(), 0.01)
	require.True(t, y.polish())
	assert.Less(t, y.residual(), 1e-12)
	for i := range y.solids {
		h := &y.solids[i]
		assert.InDelta(t, found[h.solid], h.n, 1e-9, h.solid.String())
	}
	y.m[Sodium] *= 1.001
	assert.Greater(t, y.residual(), 1e-4)
}

func TestKnownSalts(t *testing.T) {
	s, err := Solve(sea, units.Celsius(25))
	require.NoError(t, err)
	var names []string
	for _, k := range s.Known() {
		names = append(names, k.Cation.String()+k.Anion.String())
		assert.False(t, k.Beyond(), "seawater is thin")
		assert.False(t, k.NoParameters)
	}
	assert.Equal(t, []string{"Na+Cl-", "Na+SO4--", "Mg++Cl-", "Mg++SO4--"}, names, "calcium is less than a hundredth")
	for _, x := range []struct {
		cation, anion    Species
		m, n, salt, upTo float64
		single           bool
	}{
		{Potassium, Sulfate, 1, 2, 0.5, 0.85, false},
		{Magnesium, Sulfate, 1, 2, 1, 3.7, false},
		{Magnesium, Chloride, 1, 4, 1, 6.1, false},
		{Magnesium, Chloride, 1, 1, 0.5, 6.1, false},
		{Sodium, Nitrate, 1, 2, 1, 0, true},
		{Sodium, Fluoride, 2, 1, 1, 0, true},
		{Sodium, Iodide, 2, 1, 1, 0, true},
		{Ammonium, Chloride, 2, 1, 1, 0, true},
	} {
		assert.Equal(t, x.salt, saltOf(x.cation, x.anion, x.m, x.n))
		k := s.known(x.cation, x.anion)
		assert.InDelta(t, x.upTo*1e6, float64(k.To), 1e-3)
		assert.Equal(t, x.single, k.Single)
	}
}

func TestSameIons(t *testing.T) {
	assert.True(t, sameIons(Gypsum, Anhydrite))
	assert.True(t, sameIons(Calcite, Aragonite))
	assert.False(t, sameIons(Gypsum, Celestite))
	assert.False(t, sameIons(Magnesite, Brucite))
	assert.False(t, sameIons(Sassolite, SodiumPentaborate))
}

func TestScaleKeepsTheOtherCharge(t *testing.T) {
	b := Brine{Sodium: 100, Chloride: 90, OtherCharge: -10}
	assert.Equal(t, Brine{Sodium: 50, Chloride: 45, OtherCharge: -5}, b.Scale(0.5))
	m, err := Dissolve(Batch{Water: 2 * units.Kilogram, Present: Brine{Sodium: 1e5, Chloride: 9e4, OtherCharge: -1e4}, Temperature: units.Celsius(25)})
	require.NoError(t, err)
	brine := m.Solution.Brine()
	assert.InDelta(t, -1e4, float64(brine.OtherCharge), 1e-3)
	assert.InDelta(t, 1e5, float64(brine.Sodium), 1e-3)
	assert.InDelta(t, 2, m.Water.Kilograms(), 1e-6)
}
