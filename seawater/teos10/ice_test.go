package teos10

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// IAPWS R10-06 table 6, every digit.
func TestIceRelease(t *testing.T) {
	for _, r := range checks.Table(t, "testdata/ice_release.csv") {
		temp := units.Celsius(r.Float(t, "T_K") - 273.15)
		p := units.SeaPressure((r.Float(t, "P_Pa") - 101325) / 1e4)
		d := GibbsIce(temp, p)
		got, ok := map[string]float64{
			"g": float64(d.G), "g_T": float64(d.T), "g_P": float64(d.P), "g_TT": float64(d.TT), "g_TP": float64(d.TP), "g_PP": float64(d.PP),
			"h": IceEnthalpy(temp, p), "s": -float64(d.T), "cp": float64(IceHeatCapacity(temp, p)), "rho": float64(IceDensity(temp, p)),
		}[r["quantity"]]
		assert.True(t, ok, r["quantity"])
		checks.Printed(t, r["quantity"]+" at "+r["T_K"]+" K", got, r["value"])
	}
}

// The ice point and the heat of melting at one atmosphere: Feistel and Wagner 2006, table 5, from
// memory; 333.4 to 333.6 kJ/kg stand in handbooks.
func TestMeltingOfPureIce(t *testing.T) {
	t0 := FreezingTemperature(absolute(0), 0, units.Share(0))
	checks.Printed(t, "ice point", t0.Kelvin(), "273.152519")
	checks.Absolute(t, "heat of melting", MeltingHeat(absolute(0), 0), 333426.5, 0.5)
	checks.Relative(t, "heat of melting from the enthalpies", EnthalpyExact(absolute(0), t0, 0)-IceEnthalpy(t0, 0),
		MeltingHeat(absolute(0), 0), 1e-9)
	// In seawater it takes less: the melting heat of TEOS-10 at standard seawater, from memory: 329 928.
	checks.Absolute(t, "in seawater", MeltingHeat(absolute(35.16504), 0), 329928, 1)
}

func TestGibbsIceIsItsSlopes(t *testing.T) {
	for _, c := range []float64{-200, -40, -18, -1} {
		for _, p := range []float64{0, 500, 9000} {
			g := func(c, p float64) Derivatives { return GibbsIce(celsius(c), pressure(p)) }
			d := g(c, p)
			inT := func(f func(Derivatives) float64) float64 {
				return slope(func(c float64) float64 { return f(g(c, p)) }, c, 0.1)
			}
			inP := func(f func(Derivatives) float64) float64 {
				return slope(func(p float64) float64 { return f(g(c, p)) }, p, 10) / 1e4
			}
			checks.Relative(t, "g_T", inT(func(d Derivatives) float64 { return float64(d.G) }), float64(d.T), 1e-8)
			checks.Relative(t, "g_P", inP(func(d Derivatives) float64 { return float64(d.G) }), float64(d.P), 1e-9)
			checks.Relative(t, "g_TT", inT(func(d Derivatives) float64 { return float64(d.T) }), float64(d.TT), 1e-8)
			checks.Relative(t, "g_TP", inT(func(d Derivatives) float64 { return float64(d.P) }), float64(d.TP), 1e-6)
			checks.Relative(t, "g_TP", inP(func(d Derivatives) float64 { return float64(d.T) }), float64(d.TP), 1e-6)
			checks.Relative(t, "g_PP", inP(func(d Derivatives) float64 { return float64(d.P) }), float64(d.PP), 1e-6)
		}
	}
}

func TestIceOfNonsense(t *testing.T) {
	for _, in := range [][2]float64{{nan, 0}, {inf, 0}, {-300, 0}, {-5, nan}, {-5, inf}} {
		c, p := celsius(in[0]), pressure(in[1])
		for _, x := range []float64{float64(GibbsIce(c, p).G), float64(GibbsIce(c, p).TP), IceEnthalpy(c, p), float64(IceHeatCapacity(c, p)),
			float64(IceDensity(c, p))} {
			assert.True(t, math.IsNaN(x), "%v", in)
		}
		assert.ErrorIs(t, CheckRangeIce(c, p), units.ErrRange)
	}
	assert.NoError(t, CheckRangeIce(celsius(0.01), 0))
	assert.NoError(t, CheckRangeIce(celsius(-18), pressure(20989)))
	assert.ErrorIs(t, CheckRangeIce(celsius(0.02), 0), units.ErrRange)
	assert.ErrorIs(t, CheckRangeIce(celsius(-18), pressure(20990)), units.ErrRange)
	assert.ErrorIs(t, CheckRangeIce(celsius(-18), pressure(-11)), units.ErrRange)
}

func TestIceAllocatesNothing(t *testing.T) {
	checks.NoAllocations(t, "the ice", func() {
		sink = float64(GibbsIce(celsius(-18), 0).G) + IceEnthalpy(celsius(-18), 0) + float64(IceHeatCapacity(celsius(-18), 0)) +
			float64(IceDensity(celsius(-18), 0))
	})
}
