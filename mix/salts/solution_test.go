package salts

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// grams is the solubility of the anhydrous compound in 100 g of water.
func grams(t testing.TB, c Compound, celsius float64) float64 {
	t.Helper()
	s, err := Saturated(c, units.Celsius(celsius))
	require.NoError(t, err, "%s at %v", c, celsius)
	w := s.Content.GramsPerKilogram() / 1000 / c.dilution()
	return 100 * w / (1 - w)
}

// The curves go through every value that is printed; a value of the second
// table beside one of the first, and what the table leaves out, differs by no
// more than the tables do among themselves.
func TestSolubilityAgainstTables(t *testing.T) {
	const overlap, rough, computed = 0.02, 0.10, 0.075
	known := map[string]bool{}
	rows := checks.Table(t, "testdata/solubility.csv")
	for _, r := range rows {
		if r["kind"] == "molality" {
			known[r["formula"]+r["celsius"]] = true
		}
	}
	first, last := map[string]float64{}, map[string]float64{}
	for _, r := range rows {
		if x := r.Float(t, "celsius"); r["kind"] == "molality" {
			if _, ok := first[r["formula"]]; !ok {
				first[r["formula"]] = x
			}
			last[r["formula"]] = x
		}
	}
	var n, worst = 0, 0.
	for _, r := range rows {
		c, x := must(t, r["formula"]), r.Float(t, "celsius")
		if r["formula"] == "LiCl" && x == 0 { // breaks its series by 9 %
			continue
		}
		if r["kind"] == "phreeqc" && (x > 70 || x < 0) {
			continue
		}
		got := grams(t, c.Anhydrous(), x)
		if c != c.Anhydrous() { // as grams of the hydrate with its water counted as salt
			s, err := Saturated(c, units.Celsius(x))
			require.NoError(t, err)
			got = s.Into(100 * units.Gram).Grams()
		}
		lo, both := first[r["formula"]]
		switch {
		case r["kind"] == "molality":
			checks.Printed(t, r["formula"]+" at "+r["celsius"], got*10/c.MolarMass().GramsPerMole(), r["value"])
		case r["kind"] == "phreeqc":
			checks.Relative(t, r["formula"]+" at "+r["celsius"], got, r.Float(t, "value"), computed)
		case both && x >= lo && x <= last[r["formula"]], r["formula"] == "KIO3" && x == 50: // the other table has priority
			off := math.Abs(got/r.Float(t, "value") - 1)
			worst = max(worst, off)
			limit := overlap
			if r["formula"] == "LiCl" || r["formula"] == "KIO3" || r["formula"] == "ZnSO4" { // known to be worse
				limit = rough
			}
			assert.LessOrEqual(t, off, limit, "%s at %v: %v, other table %s", c, x, got, r["value"])
		default:
			checks.Printed(t, r["formula"]+" at "+r["celsius"], got, r["value"])
		}
		n++
	}
	t.Logf("%d values; the tables differ by up to %.1f %% where they overlap", n, 100*worst)
	assert.Greater(t, n, 250)
}

// Between the printed values: leave one inner point of a branch out and see how
// far the curve through the others misses it; the same with 1/T in the place of t, by
// which ln s of a constant heat of solution is a straight line.
func TestSolubilityInterpolation(t *testing.T) {
	inverse := func(celsius float64) float64 { return -1e5 / (celsius + 273.15) }
	var all, inverseAll, n float64
	worst, where := 0., ""
	for _, b := range solubilities {
		m := must(t, b.formula).MolarMass().GramsPerMole()
		for i := 1; i < len(b.points)-1; i++ {
			without := append(append([]point{}, b.points[:i]...), b.points[i+1:]...)
			off := math.Abs(logAt(without, m, b.points[i].celsius) - b.points[i].log(m))
			all, n = all+off, n+1
			if off > worst {
				worst, where = off, b.formula
			}
			for j := range without {
				without[j].celsius = inverse(without[j].celsius)
			}
			inverseAll += math.Abs(logAt(without, m, inverse(b.points[i].celsius)) - b.points[i].log(m))
		}
	}
	t.Logf("mean miss %.2f %%, in 1/T %.2f %%, worst %.1f %% (%s), of %v points", 100*all/n, 100*inverseAll/n, 100*worst, where, n)
	assert.Less(t, all/n, 0.011, "no more than the tables' own 2 to 3 %%, with gaps twice as wide")
	assert.InDelta(t, inverseAll/n, all/n, 0.001, "1/T is no better and no worse")
}

// Where a straight line of ln s in 1/T and the printed value of sodium carbonate at
// 10 °C agree, the curve goes: by hand, 7·(21.5/7)^0.5177 = 12.5.
func TestSodiumCarbonate(t *testing.T) {
	share := (1/273.15 - 1/283.15) / (1/273.15 - 1/293.15)
	checks.Printed(t, "van 't Hoff", 7*math.Pow(21.5/7, share), "12.5")
	checks.Printed(t, "curve", grams(t, must(t, "Na2CO3"), 10), "12.5")
}

func TestSolubilityIsSmooth(t *testing.T) {
	for c := range All() {
		curve, tabled := c.curve()
		if len(curve) == 0 {
			continue
		}
		m := tabled.MolarMass().GramsPerMole()
		lo, hi := curve[0].points[0].celsius, curve[len(curve)-1].points[len(curve[len(curve)-1].points)-1].celsius
		before := gramsAt(curve, m, lo)
		for x := lo + 0.01; x <= hi; x += 0.01 {
			s := gramsAt(curve, m, x)
			if !assert.InEpsilon(t, before, s, 0.002, "%s jumps at %v", c, x) {
				break
			}
			before = s
		}
		// monotone where the tables are: no wiggle inside a branch
		for _, b := range curve {
			for i := 1; i < len(b.points); i++ {
				p, q := b.points[i-1], b.points[i]
				for x := p.celsius; x < q.celsius; x += 0.5 {
					y := logAt(b.points, m, x)
					assert.True(t, y >= min(p.log(m), q.log(m))-1e-12 && y <= max(p.log(m), q.log(m))+1e-12, "%s at %v", c, x)
				}
			}
		}
	}
}

// The kinks lie where the hydrates change: sodium sulfate at 32.4 °C with
// 49.7 g in 100 g (from memory), with a maximum there.
func TestKinks(t *testing.T) {
	for _, r := range []struct {
		formula  string
		at, most float64
		within   float64
	}{
		{"Na2SO4", 32.4, 49.7, 1},
		{"MgSO4", 70, 59.2, 0.01},
	} {
		c, best, where := must(t, r.formula), 0., 0.
		for x := 0.; x <= 100; x += 0.05 {
			if s := grams(t, c, x); s > best {
				best, where = s, x
			}
		}
		assert.InDelta(t, r.at, where, r.within, r.formula)
		assert.InDelta(t, r.most, best, r.within, r.formula)
		below, above := grams(t, c, where)-grams(t, c, where-0.1), grams(t, c, where+0.1)-grams(t, c, where)
		assert.Greater(t, below-above, 0.05, "a kink of %s", r.formula)
	}
	lime, before := must(t, "Ca(OH)2"), math.Inf(1)
	for x := 0.; x <= 70; x++ { // retrograde
		s := grams(t, lime, x)
		assert.Less(t, s, before)
		before = s
	}
}

func TestHydrateSolubility(t *testing.T) {
	// 100 s r/(100 - s (r - 1)) with s = 74.5 g in 100 g of water and r = 147.008/110.978
	s, err := Saturated(must(t, "CaCl2.2H2O"), units.Celsius(20))
	require.NoError(t, err)
	r := 147.008 / 110.978
	checks.Relative(t, "dihydrate", s.Into(100*units.Gram).Grams(), 100*74.5*r/(100-74.5*(r-1)), 1e-12)
	_, err = Saturated(must(t, "CaCl2.6H2O"), units.Celsius(35))
	assert.EqualError(t, err, "temperature: got 35 °C, want a lower one: CaCl2.6H2O melts in its own water of crystallisation")
}

// Handbooks: 2.5 g of anhydrous borax in 100 g of water at 20 °C (from memory),
// which are 2.5·381.363/201.213 g of the decahydrate in 100 - 2.5·0.8953 g.
func TestBoraxIsCountedAnhydrous(t *testing.T) {
	s, err := Saturated(must(t, "Na2B4O7"), units.Celsius(20))
	require.NoError(t, err)
	checks.Relative(t, "anhydrous", s.Into(100*units.Gram).Grams(), 2.5, 1e-12)
	s, err = Saturated(must(t, "Na2B4O7.10H2O"), units.Celsius(20))
	require.NoError(t, err)
	hydrate := 2.5 * 381.363 / 201.213
	checks.Relative(t, "decahydrate", s.Into(100*units.Gram).Grams(), 100*hydrate/(100-(hydrate-2.5)), 1e-9)
}

func TestSolubilityLimits(t *testing.T) {
	c := must(t, "NaHCO3")
	for _, x := range []float64{0, 60} {
		_, err := c.Solubility(units.Celsius(x))
		assert.NoError(t, err)
	}
	for _, x := range []float64{-0.01, 60.01, -300, math.NaN(), math.Inf(1)} {
		s, err := c.Solubility(units.Celsius(x))
		assert.ErrorIs(t, err, units.ErrRange, "%v", x)
		assert.True(t, math.IsNaN(float64(s)))
	}
	_, err := c.Solubility(units.Celsius(61))
	assert.EqualError(t, err, "temperature: 61 °C is outside 0 to 60 °C (solubility of NaHCO3)")
	_, err = c.Solubility(units.Temperature{})
	assert.EqualError(t, err, "temperature: got nothing, want a temperature")
	_, err = must(t, "MgCO3").Solubility(units.Celsius(20))
	assert.EqualError(t, err, "compound: got MgCO3, want one with known solubility")
}

// Worked values that the documentation of the open-source library thermo
// prints for its Laliberté density.
func TestDensityWorkedExample(t *testing.T) {
	s := Solution{must(t, "NaCl"), 3783.8838, units.Celsius(0)}
	d, err := s.Density()
	require.NoError(t, err)
	checks.Printed(t, "NaCl 0 °C", d.KilogramsPerCubicMetre(), "1002.625012")
}

// misfit is what the doc comment of Density states beside 1.1 kg/m³.
var misfit = map[string]float64{"MgCl2": 1.7, "NaOH": 2, "LiCl": 1.4, "FeCl3": 1.5, "KHCO3": 3.3, "CH3COONa": 2.4, "C2H5OH": 3.8}

func TestDensityAgainstCRC(t *testing.T) {
	const usual = 1.1 // kg/m³
	worst := map[string]float64{}
	n := 0
	for _, r := range checks.Table(t, "testdata/crc_density.csv") {
		s := Solution{must(t, r["solute"]), units.MassPerKilogram(r.Float(t, "mass_percent")*10) * units.GramPerKilogram, units.Celsius(20)}
		d, err := s.Density()
		if err != nil { // outside the measurements behind the coefficients
			assert.True(t, math.IsNaN(float64(d)))
			continue
		}
		off := math.Abs(d.GramsPerMillilitre()-r.Float(t, "density")) * 1000
		worst[r["solute"]] = max(worst[r["solute"]], off)
		limit := usual
		if m, ok := misfit[r["solute"]]; ok {
			limit = m
		}
		assert.LessOrEqual(t, off, limit+0.05, // as printed there, rounded
			"%s %s %%", r["solute"], r["mass_percent"])
		c, err := s.AmountPerLitre()
		require.NoError(t, err)
		// the molarity of the same table, within its own density and rounding
		assert.InDelta(t, r.Float(t, "molarity"), c.MillimolesPerLitre()/1000, 0.0005+0.004*r.Float(t, "molarity"), r["solute"])
		n++
	}
	t.Logf("%d values, worst misfits in kg/m³: %v", n, worst)
	assert.Greater(t, n, 400)
}

func TestStock(t *testing.T) {
	cal, soda, lime := must(t, "CaCl2.2H2O"), must(t, "NaHCO3"), must(t, "Ca(OH)2")
	for c := range All() {
		most, err := Saturated(c, units.Celsius(25))
		if err != nil {
			continue
		}
		top, err := most.PerLitre()
		if err != nil {
			continue
		}
		for _, part := range []float64{0.01, 0.5, 0.9, 1} {
			want := top * units.MassPerLitre(part)
			s, err := Stock(c, want, units.Celsius(25))
			require.NoError(t, err, "%s %v", c, part)
			got, err := s.PerLitre()
			require.NoError(t, err)
			checks.Relative(t, c.Formula(), got.GramsPerLitre(), want.GramsPerLitre(), 1e-9)
			again, err := Dissolve(c, s.Into(units.Kilogram), units.Kilogram, units.Celsius(25))
			if part < 1 {
				require.NoError(t, err)
				checks.Relative(t, c.Formula(), again.Content.GramsPerKilogram(), s.Content.GramsPerKilogram(), 1e-12)
			}
		}
	}
	_, err := Stock(soda, 200*units.GramPerLitre, units.Celsius(20))
	assert.ErrorIs(t, err, units.ErrInput)
	assert.ErrorContains(t, err, "content: got 200 g/L of NaHCO3, want at most 91.99")
	_, err = Dissolve(soda, 200, 1000, units.Celsius(20))
	assert.ErrorContains(t, err, "solution.NaHCO3: got 200 g, want at most 94.98")
	_, err = Dissolve(soda, -1, 1000, units.Celsius(20))
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = Dissolve(soda, 1, 0, units.Celsius(20))
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = Stock(soda, 0, units.Celsius(20))
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = Stock(must(t, "H3BO3"), 40*units.GramPerLitre, units.Celsius(20))
	assert.ErrorIs(t, err, units.ErrInput)

	// MgCl2 dissolves beyond the measured densities: a stock within them is made
	s, err := Stock(must(t, "MgCl2.6H2O"), 500*units.GramPerLitre, units.Celsius(20))
	require.NoError(t, err)
	assert.InDelta(t, 0.426, s.Content.GramsPerKilogram()/1000, 0.005)
	// stronger it may dissolve, but nobody measured how much of it is in a litre
	_, err = Stock(must(t, "MgCl2.6H2O"), 950*units.GramPerLitre, units.Celsius(20))
	assert.EqualError(t, err, "content: 950 g/L is outside 0 to 897 g/L (density of stronger MgCl2.6H2O not measured)")
	_, err = Stock(must(t, "SrCl2.6H2O"), 250*units.GramPerLitre, units.Celsius(20))
	assert.ErrorIs(t, err, units.ErrRange, "10 % were measured, more than 50 % dissolve")
	// and what cannot dissolve whatever the density is refused for that
	for _, r := range []struct {
		formula string
		content units.MassPerLitre
		want    string
	}{
		{"H3BO3", 500, "content: got 500 g/L of H3BO3, want at most what dissolves, certainly below 72"},
		{"Na2B4O7.10H2O", 400, "content: got 400 g/L of Na2B4O7.10H2O, want at most what dissolves, certainly below 73"},
		{"SrCl2", 600, "content: got 600 g/L of SrCl2, want at most what dissolves, certainly below 55"},
	} {
		_, err = Stock(must(t, r.formula), r.content*units.GramPerLitre, units.Celsius(20))
		assert.ErrorIs(t, err, units.ErrInput, r.formula)
		assert.ErrorContains(t, err, r.want)
	}

	d, err := Solution{lime, 1500, units.Celsius(25)}.Density()
	require.NoError(t, err)
	assert.InDelta(t, 998.3, d.KilogramsPerCubicMetre(), 1)
	_, err = Solution{cal, 100000, units.Celsius(5)}.Density()
	assert.EqualError(t, err, "temperature: 5 °C is outside 15 to 126.7 °C (Laliberté 2009, measured densities)")
	_, err = Solution{cal, units.MassPerKilogram(math.NaN()), units.Celsius(25)}.Density()
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = Solution{cal, -1, units.Celsius(25)}.Density()
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = Solution{cal, 1, units.Temperature{}}.Density()
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = Solution{must(t, "H3BO3"), 40000, units.Celsius(25)}.Density()
	assert.EqualError(t, err, "solution.H3BO3: got 40000 mg/kg, want a solute with measured densities, or at most 5000 mg/kg")
}

// Whatever is asked, a stock holds what it was asked for, never more than dissolves, and
// beside an error nothing.
func FuzzStock(f *testing.F) {
	f.Add(uint8(1), 100., 20., 50., 1000.)
	f.Add(uint8(6), 800., 29.99, 1e308, 1e-308)
	f.Add(uint8(14), 1.6, 0., 5e-324, 1.)
	f.Add(uint8(200), math.Inf(1), math.NaN(), -1., math.Inf(1))
	f.Fuzz(func(t *testing.T, index uint8, perLitre, celsius, mass, water float64) {
		c := Compound{index % uint8(len(compounds))}
		at := units.Celsius(celsius)
		wellFormed := func(s Solution, err error) {
			if err != nil {
				require.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange) || errors.Is(err, units.ErrNoConvergence), err)
				require.Equal(t, Solution{}, s)
				return
			}
			most, err := c.Bound(at)
			require.NoError(t, err)
			g := s.Content.GramsPerKilogram()
			require.True(t, g >= 0 && g <= most.Content.GramsPerKilogram()*(1+1e-12), "%v of %v g/kg", g, most.Content.GramsPerKilogram())
			require.True(t, s.Into(units.Kilogram) >= 0)
		}
		s, err := Stock(c, units.MassPerLitre(perLitre)*units.GramPerLitre, at)
		wellFormed(s, err)
		if err == nil {
			back, err := s.PerLitre()
			require.NoError(t, err)
			require.InEpsilon(t, perLitre, back.GramsPerLitre(), 1e-9)
		}
		s, err = Dissolve(c, units.Mass(mass), units.Mass(water), at)
		wellFormed(s, err)
		if err == nil && s.Content > 1e-300 {
			require.InEpsilon(t, mass/water, float64(s.Into(1)), 1e-9)
		}
		wellFormed(Saturated(c, at))
	})
}
