package seawater_test

import (
	"encoding"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

func sample(t testing.TB, sp, celsius float64) seawater.Sample {
	t.Helper()
	s, err := seawater.FromPractical(units.Practical(sp), units.Celsius(celsius))
	require.NoError(t, err)
	return s
}

// Every way in leads to the same water.
// A literal that was meant in µS/cm is refused with a hint at it.
func TestMicrosiemensForMillisiemens(t *testing.T) {
	for _, c := range []units.Conductivity{413, 4000, 53000, 1e308} {
		_, err := seawater.FromConductivity(c, units.Celsius(25))
		assert.ErrorIs(t, err, units.ErrRange)
		assert.ErrorContains(t, err, "units.MicrosiemensPerCentimetre")
	}
}

func TestEveryWayIn(t *testing.T) {
	for sp := 0.0; sp <= 42; sp += 3 {
		for c := -2.0; c <= 40; c += 3 {
			want := sample(t, sp, c)
			a := want.Absolute().GramsPerKilogram()
			assert.InDelta(t, sp*35.16504/35, a, 1e-13, "Millero et al. 2008, eq. 6.5")
			for name, make := range map[string]func() (seawater.Sample, error){
				"absolute": func() (seawater.Sample, error) { return seawater.FromAbsolute(want.Absolute(), want.Temperature()) },
				"conductivity": func() (seawater.Sample, error) {
					return seawater.FromConductivity(want.Conductivity(), want.Temperature())
				},
				"density": func() (seawater.Sample, error) { return seawater.FromDensity(want.Density(), want.Temperature()) },
				"gravity": func() (seawater.Sample, error) {
					return seawater.FromSpecificGravity(want.SpecificGravity(units.GravityPair{Liquid: units.Celsius(c), Water: units.Celsius(20)}))
				},
			} {
				got, err := make()
				require.NoError(t, err, "%s %v %v", name, sp, c)
				assert.InDelta(t, a, got.Absolute().GramsPerKilogram(), 1e-9, "%s %v %v", name, sp, c)
				assert.InDelta(t, c, got.Temperature().Celsius(), 1e-12, name)
			}
		}
	}
}

// Specific gravities of seawater of practical salinity 35, from TEOS-10
// densities over CIPM 2001 water densities (Tanaka et al. 2001); computed with
// iapws 1.5 and rounded. The CIPM formula and TEOS-10 water differ by 1e-6.
func TestSpecificGravity(t *testing.T) {
	s := sample(t, 35, 10) // its own temperature must not matter
	for _, r := range []struct {
		pair units.GravityPair
		want float64
	}{{units.SG60F(), 1.02686}, {units.SG20C(), 1.02661}, {units.SG25C(), 1.02637}, {units.SG20C4C(), 1.02479}} {
		checks.Absolute(t, r.pair.String(), s.SpecificGravity(r.pair).Ratio(), r.want, 0.6e-5)
	}
	assert.InDelta(t, 1, sample(t, 0, 20).SpecificGravity(units.SG25C()).Ratio(), 1e-15)
}

func TestZeroValueIsPureWaterAtZero(t *testing.T) {
	var s seawater.Sample
	// IAPWS-95 density of water at 0 °C and 101325 Pa, 999.843 kg/m³.
	checks.Printed(t, "density", s.Density().KilogramsPerCubicMetre(), "999.843")
	pure, err := seawater.PureWater(units.Celsius(0))
	require.NoError(t, err)
	assert.Equal(t, pure, s)
	assert.Zero(t, s.Conductivity())
	assert.Zero(t, s.Practical().Value())
}

func TestRanges(t *testing.T) {
	nan := math.NaN()
	for _, bad := range []struct{ s, c float64 }{{-0.001, 20}, {42.001, 20}, {nan, 20}, {35, -2.001}, {35, 40.001}, {35, nan}, {35, math.Inf(1)}, {math.Inf(1), 20}} {
		s, err := seawater.FromPractical(units.Practical(bad.s), units.Celsius(bad.c))
		assert.ErrorIs(t, err, units.ErrRange)
		assert.True(t, math.IsNaN(s.Density().KilogramsPerCubicMetre()))
		assert.True(t, math.IsNaN(s.OfVolume(1).Mass.Grams()))
	}
	_, err := seawater.FromAbsolute(units.Absolute(120), units.Celsius(25))
	assert.NoError(t, err)
	_, err = seawater.FromAbsolute(units.Absolute(120.01), units.Celsius(25))
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = seawater.FromConductivity(-1, units.Celsius(25))
	assert.ErrorContains(t, err, "conductivity in mS/cm: -1 is outside 0 to 62.")
	_, err = seawater.FromConductivity(units.Conductivity(nan), units.Celsius(25))
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = seawater.FromConductivity(50, units.Celsius(41))
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = seawater.FromPractical(units.Practical(35), units.Temperature{})
	assert.ErrorIs(t, err, units.ErrInput)
	for _, limit := range []float64{-2, 40} { // each limit is in, the next number is out
		_, err = seawater.PureWater(units.Celsius(limit))
		assert.NoError(t, err)
		_, err = seawater.PureWater(units.Celsius(math.Nextafter(limit, limit*2)))
		assert.ErrorIs(t, err, units.ErrRange)
	}
	_, err = seawater.FromConductivity(200, units.Celsius(25))
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = seawater.FromDensity(1.023, units.Celsius(25)) // g/mL for kg/m³
	assert.ErrorContains(t, err, "density in kg/m³: 1.023 is outside 997.04")
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = seawater.FromSpecificGravity(units.Gravity(0.999, units.SG25C()))
	assert.ErrorContains(t, err, "specific gravity: 0.999 is outside 0.99")
	_, err = seawater.FromSpecificGravity(units.Gravity(1.026, units.GravityPair{}))
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = seawater.FromDensity(1023, units.Celsius(250))
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = seawater.FromSpecificGravity(units.Gravity(1.026, units.GravityPair{Liquid: units.Celsius(25), Water: units.Celsius(99)}))
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = sample(t, 35, 25).At(units.Celsius(41))
	assert.ErrorIs(t, err, units.ErrRange)
	brine, err := seawater.FromAbsolute(units.Absolute(80), units.Celsius(25))
	require.NoError(t, err)
	assert.True(t, math.IsNaN(float64(brine.Conductivity())), "the scale ends at 42")
}

func TestPortions(t *testing.T) {
	s := sample(t, 35, 25)
	p := s.OfVolume(40 * units.Litre)
	assert.InDelta(t, 40, p.Volume().Litres(), 1e-13)
	assert.InEpsilon(t, 0.03516504, float64(p.Salt()/p.Mass), 1e-14)
	assert.InEpsilon(t, float64(p.Mass), float64(p.Salt()+p.Water()), 1e-15)
	assert.Equal(t, p.Mass, s.OfMass(p.Mass).Mass)
	assert.Zero(t, seawater.Portion{}.Volume())
}

// Blending keeps mass, salt and heat, whatever the portions.
func TestBlendConserves(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 2000 {
		a := sample(t, 42*r.Float64(), 40*r.Float64()).OfMass(units.Mass(1e4 * r.Float64()))
		b := sample(t, 42*r.Float64(), 40*r.Float64()).OfMass(units.Mass(1e4 * r.Float64()))
		c := sample(t, 42*r.Float64(), 40*r.Float64()).OfMass(units.Mass(1e4 * r.Float64()))
		all := seawater.Blend(a, b, c)
		assert.InEpsilon(t, float64(a.Mass+b.Mass+c.Mass), float64(all.Mass), 1e-14)
		assert.InEpsilon(t, float64(a.Salt()+b.Salt()+c.Salt()), float64(all.Salt()), 1e-13)
		// the order does not matter, nor do steps
		steps := seawater.Blend(seawater.Blend(c, a), b)
		assert.InDelta(t, all.Temperature().Celsius(), steps.Temperature().Celsius(), 1e-10)
		assert.InDelta(t, all.Practical().Value(), steps.Practical().Value(), 1e-12)
		lo := min(a.Temperature().Celsius(), b.Temperature().Celsius(), c.Temperature().Celsius())
		hi := max(a.Temperature().Celsius(), b.Temperature().Celsius(), c.Temperature().Celsius())
		got := all.Temperature().Celsius()
		assert.True(t, got > lo-0.5 && got < hi+0.5, "%v not in %v..%v", got, lo, hi)
	}
}

func TestBlendEdges(t *testing.T) {
	p := sample(t, 35, 25).OfMass(1000)
	assert.Equal(t, p, seawater.Blend(p), "no digit is lost where nothing is blended")
	assert.Equal(t, p, seawater.Blend(seawater.Portion{}, p, sample(t, 0, 10).OfMass(0)))
	assert.Equal(t, seawater.Portion{}, seawater.Blend())
	assert.InDelta(t, 25, seawater.Blend(p, p).Temperature().Celsius(), 1e-12)
	for _, m := range []units.Mass{-1, units.Mass(math.NaN()), units.Mass(math.Inf(1))} {
		bad := seawater.Blend(p, p.OfMass(m))
		assert.True(t, math.IsNaN(float64(bad.Mass)))
		assert.True(t, math.IsNaN(float64(bad.Density())))
	}
}

// Heat capacity and temperature of a blend, by hand: equal masses of water of
// 20 and 30 °C give 25 °C, as the heat capacity of water hardly changes (CRC
// Handbook: 4.182 and 4.178 kJ/(kg K)).
func TestBlendOfWarmAndCold(t *testing.T) {
	b := seawater.Blend(sample(t, 0, 20).OfMass(500), sample(t, 0, 30).OfMass(500))
	assert.InDelta(t, 25, b.Temperature().Celsius(), 0.003)
}

func TestNothingAllocates(t *testing.T) {
	s := sample(t, 35, 25)
	p := s.OfVolume(40)
	var sink float64
	for name, f := range map[string]func(){
		"from practical":    func() { s, _ = seawater.FromPractical(units.Practical(35), units.Celsius(25)) },
		"from conductivity": func() { s, _ = seawater.FromConductivity(50, units.Celsius(25)) },
		"from density":      func() { s, _ = seawater.FromDensity(1023, units.Celsius(25)) },
		"from gravity":      func() { s, _ = seawater.FromSpecificGravity(units.Gravity(1.026, units.SG60F())) },
		"density":           func() { sink = float64(s.Density()) },
		"gravity":           func() { sink = s.SpecificGravity(units.SG25C()).Ratio() },
		"conductivity":      func() { sink = float64(s.Conductivity()) },
		"heat capacity":     func() { sink = float64(s.HeatCapacity()) },
		"freezing":          func() { sink = s.FreezingPoint().Celsius() },
		"osmotic":           func() { sink = float64(s.OsmoticPressure()) },
		"evaporation":       func() { sink = s.EvaporationHeat() },
		"blend":             func() { sink = float64(seawater.Blend(p, p).Mass) },
	} {
		checks.NoAllocations(t, name, f)
	}
	_ = sink
}

func BenchmarkSampleDensity(b *testing.B) {
	s := sample(b, 35, 25)
	b.ReportAllocs()
	for range b.N {
		s.Density()
	}
}

func BenchmarkFromDensity(b *testing.B) {
	b.ReportAllocs()
	for range b.N {
		if _, err := seawater.FromDensity(1023, units.Celsius(25)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBlend(b *testing.B) {
	p, q := sample(b, 35, 25).OfVolume(40), sample(b, 0, 18).OfVolume(4)
	b.ReportAllocs()
	for range b.N {
		seawater.Blend(p, q)
	}
}

func TestText(t *testing.T) {
	for in, want := range map[string]string{
		"35 ppt at 25 °C":         "35.16504 g/kg at 25 °C",
		"35.16504 g/kg at 77 °F":  "35.16504 g/kg at 25 °C",
		"2 kg of 35 ppt at 25 °C": "2000 g of 35.16504 g/kg at 25 °C",
		"0 L of 0 ppt at 0 °C":    "0 g of 0 g/kg at 0 °C",
		"20 g of 0 g/kg at -1 °C": "20 g of 0 g/kg at -1 °C",
	} {
		if strings.Contains(in, " of ") {
			p, err := units.Parse[seawater.Portion](in)
			require.NoError(t, err, in)
			assert.Equal(t, want, p.String())
			again, err := units.Parse[seawater.Portion](p.String())
			require.NoError(t, err)
			assert.Equal(t, p, again)
			continue
		}
		s, err := units.Parse[seawater.Sample](in)
		require.NoError(t, err, in)
		text, err := s.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, want, string(text))
	}
	p, err := units.Parse[seawater.Portion]("40 L of 35 ppt at 25 °C")
	require.NoError(t, err)
	assert.InDelta(t, 40, p.Volume().Litres(), 1e-12)
	for _, bad := range []string{"  ", "35 ppt", "35 ppt at 25", "35 ppt at ", "35 at 99 °C", "x at 25 °C", "1.025 at 25 °C", "x g/kg at 25 °C", "200 g/kg at 25 °C"} {
		s, err := units.Parse[seawater.Sample](bad)
		assert.Error(t, err, bad)
		assert.True(t, math.IsNaN(float64(s.Density())), bad)
		q, err := units.Parse[seawater.Portion]("2 L of " + bad)
		assert.Error(t, err, bad)
		assert.True(t, math.IsNaN(float64(q.Mass)), bad)
	}
	for _, bad := range []string{"40 of 35 ppt at 25 °C", "40 gal of 35 ppt at 25 °C", "35 ppt at 25 °C"} {
		_, err := units.Parse[seawater.Portion](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
	}
	_, err = seawater.Blend(seawater.Sample{}.OfMass(-1)).MarshalText()
	assert.Error(t, err)

	// What nobody set comes back as that, and no water at 0 °C is made of it.
	for _, unset := range []encoding.TextMarshaler{seawater.Sample{}, seawater.Portion{}} {
		text, err := unset.MarshalText()
		assert.NoError(t, err)
		assert.Empty(t, text)
	}
	s, err := units.Parse[seawater.Sample]("")
	assert.NoError(t, err)
	assert.False(t, s.Temperature().IsSet())
	p, err = units.Parse[seawater.Portion]("")
	assert.NoError(t, err)
	assert.False(t, p.Temperature().IsSet())
	_, err = units.Parse[seawater.Portion]("2 L of ")
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = seawater.Sample{}.OfMass(2).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	ice, err := seawater.PureWater(units.Celsius(0))
	require.NoError(t, err)
	text, err := ice.MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "0 g/kg at 0 °C", string(text))
	s, err = units.Parse[seawater.Sample](string(text))
	require.NoError(t, err)
	assert.True(t, s.Temperature().IsSet())
}

// Sample asks the right formula of teos10 the right way: every property against
// the same 400 points as teos10 (gsw 3.6.16) and the transport points
// (Sharqawy et al. 2010).
func TestSamplePropertiesAgainstTheGrids(t *testing.T) {
	tested := 0
	for _, r := range checks.Table(t, "teos10/testdata/gsw_grid.csv") {
		if r.Float(t, "p_dbar") != 0 || r.Float(t, "t_C") > 40 || r.Float(t, "SP") > 42 {
			continue
		}
		s := sample(t, r.Float(t, "SP"), r.Float(t, "t_C"))
		for column, got := range map[string]float64{
			"rho_t_exact_kg_m3":       float64(s.Density()),
			"alpha_wrt_t_exact_1_K":   s.ThermalExpansion(),
			"beta_const_t_exact_kg_g": s.HalineContraction(),
			"cp_t_exact_J_kgK":        float64(s.HeatCapacity()),
			"sound_speed_t_exact_m_s": float64(s.SoundSpeed()),
			"latentheat_evap_t_J_kg":  s.EvaporationHeat(),
			"t_freezing_airsat_C":     s.FreezingPoint().Celsius(),
			"osmotic_pressure_dbar":   float64(s.OsmoticPressure()),
			"SR_g_kg":                 s.Absolute().GramsPerKilogram(),
		} {
			want := r.Float(t, column)
			// What passes through zero has an absolute tolerance as well.
			zero := map[string]float64{"t_freezing_airsat_C": 1e-12, "osmotic_pressure_dbar": 1e-9}[column]
			checks.Absolute(t, column+" SP="+r["SP"]+" t="+r["t_C"], got, want, math.Max(1e-12*math.Abs(want), 1e-17+zero))
		}
		assert.Equal(t, pss78.Conductivity(s.Practical(), s.Temperature(), 0), s.Conductivity())
		tested++
	}
	assert.Greater(t, tested, 50)
	for _, r := range checks.Table(t, "teos10/testdata/transport_grid.csv") {
		if r.Float(t, "SP") <= 42 && r.Float(t, "t_C") <= 40 {
			s := sample(t, r.Float(t, "SP"), r.Float(t, "t_C"))
			checks.Relative(t, "viscosity", s.Viscosity(), r.Float(t, "mu_sharqawy"), 1e-14)
		}
	}
}

// At the ends of the scales a blend stays on them.
func TestBlendStaysOnTheScale(t *testing.T) {
	r := rand.New(rand.NewPCG(42, 42))
	brine, err := seawater.FromAbsolute(units.Absolute(120), units.Celsius(20))
	require.NoError(t, err)
	for range 10000 {
		a, b := units.Mass(1e4*r.Float64()), units.Mass(1e4*r.Float64())
		top := seawater.Blend(sample(t, 42, 25).OfMass(a), sample(t, 42, 20).OfMass(b))
		require.False(t, math.IsNaN(float64(top.Conductivity())))
		back, err := seawater.FromConductivity(top.Conductivity(), top.Temperature())
		require.NoError(t, err)
		require.InDelta(t, 42, back.Practical().Value(), 1e-10)
		_, err = seawater.Blend(brine.OfMass(a), brine.OfMass(b)).MarshalText()
		require.NoError(t, err)
	}
}
