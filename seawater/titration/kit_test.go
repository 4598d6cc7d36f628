package titration

import (
	"math"
	"math/rand"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Arithmetic by hand, with the IUPAC abridged weights of 2021.
func TestKitByHand(t *testing.T) {
	edta := Kit{Sample: 10 * units.Millilitre, Titrant: 0.01 * units.MolePerLitre}
	c, u, err := edta.CalciumHardness(10.30*units.Millilitre, Uncertainty{})
	require.NoError(t, err)
	checks.Absolute(t, "10.30 mL of 0.01 mol/L in 10 mL", float64(units.AsCalcium.MassPerLitre(c)), 412.8034, 1e-9)
	assert.Zero(t, u, "all is exact")

	c, _, err = Kit{Sample: 5 * units.Millilitre, Titrant: 0.05 * units.MolePerLitre}.TotalHardness(6.4*units.Millilitre, Uncertainty{})
	require.NoError(t, err)
	checks.Absolute(t, "6.4 mL of 0.05 mol/L in 5 mL", c.MillimolesPerLitre(), 64, 1e-12)

	for _, w := range []struct {
		name string
		mass units.MolarMass
		want float64
	}{
		{"calcium", units.AsCalcium, 0.40078},
		{"magnesium", units.AsMagnesium, 0.24305},
		{"calcium carbonate", units.AsCalciumCarbonate, 1.00086},
	} {
		// one millilitre of 0.01 mol/L in a litre
		worth, err := Kit{Sample: units.Litre, Titrant: 0.01 * units.MolePerLitre, Step: units.Millilitre}.Worth()
		require.NoError(t, err)
		checks.Absolute(t, w.name, float64(w.mass.MassPerLitre(worth)), w.want, 1e-12)
	}

	a, _, err := Kit{Sample: 10 * units.Millilitre, Titrant: 0.1 * units.MolePerLitre}.Alkalinity(0.25*units.Millilitre, Uncertainty{})
	require.NoError(t, err)
	checks.Absolute(t, "0.25 mL of 0.1 mol/L in 10 mL", a.MilliequivalentsPerLitre(), 2.5, 1e-15)

	// By mass: strength per kilogram and a weighed sample, through the densities.
	const acid, water = 1.02393 * units.GramPerMillilitre, 1.0236 * units.GramPerMillilitre
	byMass := Kit{Sample: water.Volume(140.32), Titrant: (0.10046 * units.MolePerKilogram).PerLitre(acid)}
	a, _, err = byMass.Alkalinity(3.1*units.Millilitre, Uncertainty{})
	require.NoError(t, err)
	checks.Relative(t, "per kilogram", float64(a.PerKilogram(water)), 0.10046e6*3.1*1.02393/140.32, 1e-14)
	v := byMass.Vessel(water, acid, carbonate.Constants{}, carbonate.Nutrients{})
	checks.Relative(t, "the vessel", float64(v.Apparent(acid.Mass(3.1*units.Millilitre))), 0.10046e6*3.1*1.02393/140.32, 1e-14)
	checks.Relative(t, "its sample", float64(v.Sample), 140.32, 1e-14)
}

func TestSilver(t *testing.T) {
	// Standard seawater of chlorinity 19.374: 328.5234 g of it take 19.374 g of silver.
	kit := Kit{Sample: 10 * units.Millilitre, Titrant: 0.1 * units.MolePerLitre}
	perKilogram := 19.374 / silverMass / 0.3285234 // mol of silver
	const rho20 = 1.02476
	volume := units.Volume(perKilogram * rho20 * 0.010 / 0.1)
	cl, _, err := kit.Chlorosity(volume, Uncertainty{})
	require.NoError(t, err)
	checks.Absolute(t, "chlorosity", cl.GramsPerLitre(), 19.374*rho20, 1e-12)
	checks.Absolute(t, "chlorinity", teos10.ChlorinityFromChlorosity(cl, rho20*units.GramPerMillilitre).GramsPerKilogram(), 19.374, 1e-12)
	checks.Printed(t, "salinity", teos10.PracticalFromChlorosity(cl).Value(), "35.000")
	// A mole of silver finds 35.437 g of chlorinity: chloride with its share of bromide,
	// as chlorine.
	checks.Absolute(t, "per mole", silverMass*silverRatio, 35.437, 5e-4)
}

// [MFWM] table 4; 3.72 mg/L counted as calcium, computed.
func TestStrontium(t *testing.T) {
	sr := Strontium(units.Practical(35))
	checks.Relative(t, "mol/kg at salinity 35", sr.MolesPerKilogram(), 9.0701324766783627e-05, 1e-15)
	checks.Absolute(t, "as calcium", float64(units.AsCalcium.MassPerLitre(sr.PerLitre(1023.343))), 3.71977, 5e-4)
	checks.Absolute(t, "fresh", float64(Strontium(units.Practical(0))), 0, 0)
	for _, s := range []float64{-1, math.NaN(), math.Inf(1), math.MaxFloat64} {
		assert.True(t, math.IsNaN(float64(Strontium(units.Practical(s)))), "%v", s)
	}
}

// The formula of the guide, with moles per kilogram of water (computed); the guide's
// own check value, 1.02056, is from memory and 2e-4 off.
func TestAcidDensity(t *testing.T) {
	of := func(hcl, nacl float64) float64 { // per kilogram of water
		per := units.AmountPerKilogram(1e6 / (1 + hcl*0.03646 + nacl*0.05844))
		return AcidDensity(units.AmountPerKilogram(hcl)*per, units.AmountPerKilogram(nacl)*per).GramsPerMillilitre()
	}
	checks.Absolute(t, "0.1 HCl, 0.6 NaCl", of(0.1, 0.6), 1.0225825995353746, 1e-14)
	checks.Printed(t, "0.2 HCl, 0.5 NaCl", of(0.2, 0.5), "1.02035")
	checks.Printed(t, "water", of(0, 0), "0.99704")
	for _, x := range []float64{-1e-9, math.NaN(), math.Inf(1), 1e9} {
		assert.True(t, math.IsNaN(float64(AcidDensity(units.AmountPerKilogram(x), 0))), "%v", x)
		assert.True(t, math.IsNaN(float64(AcidDensity(0, units.AmountPerKilogram(x)))), "%v", x)
	}
	checks.NoAllocations(t, "AcidDensity", func() { sink = float64(AcidDensity(1e5, 6e5)) })
}

// The propagated uncertainty against a simulation (JCGM 101).
func TestKitUncertainty(t *testing.T) {
	kit := Kit{Sample: 5 * units.Millilitre, Titrant: 0.036 * units.MolePerLitre, Step: 0.05 * units.Millilitre, Blank: 0.05 * units.Millilitre}
	u := Uncertainty{Delivered: units.Share(0.03), Strength: units.Share(0.01), Sample: 0.1 * units.Millilitre}
	c, s, err := kit.Amount(kit.Drops(9), u)
	require.NoError(t, err)
	r := rand.New(rand.NewSource(1))
	const n = 200000
	var mean, square float64
	for range n {
		delivered := float64(kit.Drops(9)-kit.Blank) + (r.Float64()-r.Float64())*float64(kit.Step)
		x := float64(kit.Titrant) * (1 + 0.01*r.NormFloat64()) * delivered * (1 + 0.03*r.NormFloat64()) / (0.005 + 0.0001*r.NormFloat64())
		mean += x / n
		square += x * x / n
	}
	checks.Relative(t, "mean", mean, float64(c), 2e-3)
	checks.Relative(t, "standard uncertainty", float64(s), math.Sqrt(square-mean*mean), 0.01)

	// Half a drop either way, and nothing else.
	kit.Blank = 0
	_, s, err = kit.Amount(kit.Drops(9), Uncertainty{})
	require.NoError(t, err)
	worth, err := kit.Worth()
	require.NoError(t, err)
	checks.Relative(t, "the count", float64(s), float64(worth)/math.Sqrt(12), 1e-15)
}

// The first drop that turns: counted by a keeper who does not know where within it
// the end point lay. Without a blank, and with one that was counted too.
func TestCounted(t *testing.T) {
	kit := Kit{Sample: 5 * units.Millilitre, Titrant: 0.036 * units.MolePerLitre, Step: 0.05 * units.Millilitre}
	worth, err := kit.Worth()
	require.NoError(t, err)
	r := rand.New(rand.NewSource(1))
	const n = 100000
	var mean, square, high, blanked float64
	for range n {
		truth := 6 + 6*r.Float64() // in drops
		blank := 1 + r.Float64()
		count := int(math.Ceil(truth))
		of := func(k Kit, v units.Volume) float64 {
			c, _, err := k.Amount(v, Uncertainty{})
			require.NoError(t, err)
			return float64(c) / float64(worth)
		}
		x := of(kit, kit.Counted(count)) - truth
		mean += x / n
		square += x * x / n
		high += (of(kit, kit.Drops(float64(count))) - truth) / n
		k := kit
		k.Blank = kit.Counted(int(math.Ceil(blank)))
		blanked += (of(k, kit.Counted(int(math.Ceil(truth+blank)))) - truth) / n
	}
	checks.Absolute(t, "mean error, drops", mean, 0, 4e-3)
	checks.Absolute(t, "mean error with a blank, drops", blanked, 0, 6e-3)
	checks.Absolute(t, "mean error of Drops", high, 0.5, 4e-3)
	_, u, err := kit.Amount(kit.Counted(8), Uncertainty{})
	require.NoError(t, err)
	checks.Relative(t, "scatter", math.Sqrt(square), float64(u/worth), 0.01)
	for _, count := range []int{0, -1, math.MinInt} {
		_, _, err := kit.Amount(kit.Counted(count), Uncertainty{})
		assert.ErrorIs(t, err, units.ErrInput, "%d", count)
	}
}

func TestKitRefuses(t *testing.T) {
	good := Kit{Sample: 0.005, Titrant: 36, Step: 5e-5, Blank: 5e-5}
	for name, k := range map[string]Kit{
		"nothing":         {},
		"sample":          {Sample: -1, Titrant: 36},
		"sample NaN":      {Sample: units.Volume(math.NaN()), Titrant: 36},
		"titrant":         {Sample: 1, Titrant: 0},
		"titrant Inf":     {Sample: 1, Titrant: units.AmountPerLitre(math.Inf(1))},
		"step":            {Sample: 1, Titrant: 1, Step: -1},
		"blank":           {Sample: 1, Titrant: 1, Blank: -1},
		"out of the size": {Sample: 1e-300, Titrant: 1e300, Step: 1e300},
	} {
		c, s, err := k.Amount(1, Uncertainty{})
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.True(t, math.IsNaN(float64(c)) && math.IsNaN(float64(s)), name)
		w, err := k.Worth()
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.True(t, math.IsNaN(float64(w)), name)
	}
	for _, v := range []float64{-1e-9, 4e-5, math.NaN(), math.Inf(1)} { // 4e-5 is below the blank
		a, s, err := good.Alkalinity(units.Volume(v), Uncertainty{})
		assert.ErrorIs(t, err, units.ErrInput, "%v", v)
		assert.True(t, math.IsNaN(a.MilliequivalentsPerLitre()) && math.IsNaN(s.MilliequivalentsPerLitre()), "%v", v)
		cl, _, err := good.Chlorosity(units.Volume(v), Uncertainty{})
		assert.ErrorIs(t, err, units.ErrInput, "%v", v)
		assert.True(t, math.IsNaN(cl.GramsPerLitre()), "%v", v)
	}
	_, _, err := good.Alkalinity(8, Uncertainty{}) // eight drops, meant as such
	assert.EqualError(t, err, "volume of titrant: got 8 L, want a volume, such as 0.4 mL or kit.Drops(8), of no more than 100 samples")
	_, _, err = good.Alkalinity(100*good.Sample, Uncertainty{})
	assert.NoError(t, err)
	_, _, err = good.Amount(1e-3, Uncertainty{Delivered: units.Share(1), Strength: units.Share(1)})
	assert.NoError(t, err)
	for _, u := range []Uncertainty{{Delivered: units.Share(1.01)}, {Strength: units.Share(3)}, {Sample: 1e306}, {Delivered: units.Share(-1)}, {Strength: units.Share(math.NaN())}, {Sample: -1}, {Sample: units.Volume(math.Inf(1))}} {
		_, _, err := good.Amount(1e-3, u)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	a, _, err := good.Amount(5e-5, Uncertainty{})
	assert.NoError(t, err)
	assert.Zero(t, a, "the blank alone")
}

func FuzzKit(f *testing.F) {
	f.Add(0.005, 36.0, 5e-5, 0.0, 4e-4, 0.03, 0.01, 1e-4)
	f.Add(0.01, 100.0, 2e-5, 2e-5, 0.028, 0.0, 1e-3, 0.0)
	f.Fuzz(func(t *testing.T, sample, titrant, step, blank, volume, delivered, strength, filled float64) {
		k := Kit{units.Volume(sample), units.AmountPerLitre(titrant), units.Volume(step), units.Volume(blank)}
		c, s, err := k.Amount(units.Volume(volume), Uncertainty{units.Share(delivered), units.Share(strength), units.Volume(filled)})
		if err != nil {
			assert.True(t, math.IsNaN(float64(c)) && math.IsNaN(float64(s)))
			return
		}
		assert.True(t, c >= 0 && s >= 0, "%v %v", c, s)
	})
}

var sink float64

func BenchmarkKitAlkalinity(b *testing.B) {
	b.ReportAllocs()
	kit := Kit{Sample: 0.005, Titrant: 36, Step: 5e-5}
	for i := 0; i < b.N; i++ {
		a, _, _ := kit.Alkalinity(kit.Drops(8), Uncertainty{Delivered: units.Share(0.03)})
		sink = a.MilliequivalentsPerLitre()
	}
}
