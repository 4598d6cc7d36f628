package titration

import (
	"math"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dickson is the synthetic seawater of Dickson 1981, whose constants are on the free
// scale.
func dickson(phosphate units.AmountPerKilogram) Vessel {
	c := carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{
		Boron: carbonate.Measured(420), Sulfate: carbonate.Measured(28240), Fluoride: carbonate.Measured(70),
	})
	c.KS, c.KF = 1/12.3, 1/408.
	z := float64(1 + 0.02824/c.KS)
	c.K1, c.K2 = units.Scalar(1e-6*z), units.Scalar(8.2e-10*z)
	c.KB, c.KW = units.Scalar(1.78e-9*z), units.Scalar(4.32e-14*z)
	c.KP1, c.KP2, c.KP3 = units.Scalar(1/56.8*z), units.Scalar(8e-7*z), units.Scalar(1.32e-15/8e-7*z)
	return Vessel{Sample: 200, Acid: 0.3 * units.MolePerKilogram, Constants: c, Nutrients: carbonate.Nutrients{Phosphate: phosphate}}
}

// The 51 points of table 1, to their last digit.
func TestDickson1981(t *testing.T) {
	v := dickson(0)
	largest := 0.
	for _, row := range checks.Table(t, "testdata/dickson1981_table1.csv") {
		m, err := v.Mixture(2450, Closed(2200), units.Mass(row.Float(t, "acid_g")))
		require.NoError(t, err)
		got := m.PH.Free(&v.Constants).Value()
		checks.Printed(t, "table 1, "+row["acid_g"]+" g", got, pad(row["pH_free"]))
		checks.Absolute(t, "the mixture says the same", m.System.PH().Free(&m.System.Constants).Value(), got, 1e-13)
		largest = math.Max(largest, math.Abs(got-row.Float(t, "pH_free")))
	}
	t.Logf("table 1: largest difference %.2g", largest)
}

// pad gives a number the six decimals that the table prints: trailing zeros are lost.
func pad(s string) string {
	for len(s) < len("8.065650") {
		s += "0"
	}
	return s
}

func dicksonPoints(t testing.TB, v *Vessel) []Point {
	var points []Point
	for _, row := range checks.Table(t, "testdata/dickson1981_table1.csv") {
		points = append(points, PH(units.Mass(row.Float(t, "acid_g")), carbonate.PHFree(row.Float(t, "pH_free")).Total(&v.Constants)))
	}
	return points
}

// How near the fit of the points of table 1 comes to what they were made of, µmol/kg.
const (
	dicksonAlkalinity = 5e-5
	dicksonDIC        = 2e-4
)

// The table has six decimals; the fit gets back what it was made of.
func TestDickson1981FitsBack(t *testing.T) {
	v := dickson(0)
	f, err := v.FitClosed(dicksonPoints(t, &v))
	require.NoError(t, err)
	t.Logf("TA %.5f ± %.5f, DIC %.5f ± %.5f, E0 %.6f mV, residual %.2g", f.Alkalinity, f.Standard.Alkalinity, f.DIC, f.Standard.DIC, f.E0, f.Residual)
	checks.Absolute(t, "alkalinity", float64(f.Alkalinity), 2450, dicksonAlkalinity)
	checks.Absolute(t, "DIC", float64(f.DIC), 2200, dicksonDIC)
	checks.Absolute(t, "E0", float64(f.E0), 0, 5e-6)

	// With phosphate, as in his table 4: known it does no harm, unknown it does.
	p := dickson(10)
	var acid []units.Mass
	for _, x := range dicksonPoints(t, &p) {
		acid = append(acid, x.Acid())
	}
	curve, err := p.Curve(2450, Closed(2200), acid)
	require.NoError(t, err)
	f, err = p.FitClosed(curve)
	require.NoError(t, err)
	checks.Absolute(t, "alkalinity with phosphate", float64(f.Alkalinity), 2450, 1e-6)
	f, err = v.FitClosed(curve)
	require.NoError(t, err)
	assert.Greater(t, math.Abs(float64(f.Alkalinity)-2450)+math.Abs(float64(f.DIC)-2200), 1.)
	t.Logf("10 µmol/kg of phosphate left out: TA %.2f, DIC %.2f, residual %.2f", f.Alkalinity, f.DIC, f.Residual)

	v.Constants.K1 *= 0.93 // a wrong K1 is found out
	f, err = v.FitClosedK1(dicksonPoints(t, &v))
	require.NoError(t, err)
	checks.Absolute(t, "alkalinity with K1", float64(f.Alkalinity), 2450, 2e-4)
	checks.Absolute(t, "DIC with K1", float64(f.DIC), 2200, 2e-3)
	checks.Relative(t, "K1", float64(f.K1), 1e-6*(1+0.02824*12.3), 1e-5)
}

// Gran's line on the exact curve of Dickson 1981, whose alkalinity is 2450: computed
// values, of an independent straight line.
func TestGranOfDickson1981(t *testing.T) {
	v := dickson(0)
	z := func(m float64) float64 { return 1 + 0.02824*12.3*200/(200+m) }
	for _, c := range []struct {
		name  string
		high  float64
		total bool
		want  float64
		n     int
	}{
		{"free scale, pH 3 to 3.5", 3.5, false, 2447.282941865732, 12},
		{"free scale, pH 3 to 4", 4, false, 2440.6505452856454, 16},
		{"total scale of the mixture, pH 3 to 3.5", 3.5, true, 2441.9292087738354, 10},
		{"total scale of the mixture, pH 3 to 4", 4, true, 2433.4914459937318, 13},
	} {
		var points []Point
		for _, row := range checks.Table(t, "testdata/dickson1981_table1.csv") {
			m, ph := row.Float(t, "acid_g"), row.Float(t, "pH_free")
			if c.total {
				ph -= math.Log10(z(m))
			}
			points = append(points, PH(units.Mass(m), carbonate.PHTotal(ph)))
		}
		g, err := v.Gran(points, Window{carbonate.PHTotal(3), carbonate.PHTotal(c.high)})
		require.NoError(t, err)
		checks.Absolute(t, c.name, float64(g.Alkalinity), c.want, 1e-6)
		assert.Equal(t, c.n, g.Points, c.name)
	}
}

// sop3b is the worked example of SOP 3b.
func sop3b(t testing.TB, kf carbonate.KF) (Vessel, []Point) {
	v := Vessel{
		Sample: 140.32, Acid: 0.10046 * units.MolePerKilogram,
		Constants: carbonate.At(units.Practical(33.923), units.Celsius(24.25), carbonate.Options{KF: kf}),
	}
	const density = 1.02393 * units.GramPerMillilitre
	var points []Point
	for _, row := range checks.Table(t, "testdata/sop3b.csv") {
		volume := units.Volume(row.Float(t, "acid_cm3")) * units.Millilitre
		points = append(points, EMF(density.Mass(volume), units.Voltage(row.Float(t, "E_V"))*units.Volt))
	}
	return v, points
}

// asFree takes KF of Perez and Fraga, a fit on the total scale, for one on the free
// scale, as some programs do.
func asFree(c *carbonate.Constants) {
	c.KF *= units.Scalar(1 + c.Totals.Sulfate.MolesPerKilogram()/float64(c.KS))
}

// The guide prints 2260.06 µmol/kg and 0.394401 V. The rows are computed values of
// two independent programs, which leave borate out; KF decides which of the printed
// numbers is met. Free: KF of Perez and Fraga taken for one on the free scale.
func TestSOP3b(t *testing.T) {
	for _, c := range []struct {
		name      string
		kf        carbonate.KF
		free      bool
		window    Window
		ta, taTol float64
		e0, e0Tol float64
		points    int
	}{
		{"Dickson and Riley, all points", carbonate.KFDicksonRiley1979, false, WholeCurve(), 2260.078576239142, 0.01, 0.394391, 1e-6, 21},
		{"Perez and Fraga for free, all points", carbonate.KFPerezFraga1987, true, WholeCurve(), 2259.9488771349847, 0.01, 0.3944009042596696, 1e-6, 21},
		{"Dickson and Riley, pH 3 to 3.5", carbonate.KFDicksonRiley1979, false, AcidWindow(), 2260.442, 1e-3, 0.394402, 1e-6, 20},
		{"Perez and Fraga for free, pH 3 to 3.5", carbonate.KFPerezFraga1987, true, AcidWindow(), 2260.305, 1e-3, 0.394412, 1e-6, 20},
	} {
		v, points := sop3b(t, c.kf)
		if c.free {
			asFree(&v.Constants)
		}
		v.Constants.Totals.Boron = 0
		f, err := v.FitOpen(points, c.window)
		require.NoError(t, err, c.name)
		t.Logf("%s: TA %.4f ± %.3f, %+.3f of the printed one; E0 %.7f ± %.7f V, %+.6f; residual %.4f, %d points", c.name, f.Alkalinity, f.Standard.Alkalinity,
			f.Alkalinity-2260.06, f.E0.Volts(), f.Standard.E0.Volts(), f.E0.Volts()-0.394401, f.Residual, f.Points)
		checks.Absolute(t, c.name+": alkalinity", float64(f.Alkalinity), c.ta, c.taTol)
		checks.Absolute(t, c.name+": E0", f.E0.Volts(), c.e0, c.e0Tol)
		assert.Equal(t, c.points, f.Points, c.name)
	}
	v, points := sop3b(t, carbonate.KFDicksonRiley1979)
	g, err := v.Gran(points, WholeCurve())
	require.NoError(t, err)
	checks.Absolute(t, "Gran's line", float64(g.Alkalinity), 2263.3761493010284, 0.01)

	v, points = sop3b(t, carbonate.KFPerezFraga1987) // and on the scale that it is on
	f, err := v.FitOpen(points, WholeCurve())
	require.NoError(t, err)
	t.Logf("Perez and Fraga on the total scale, all points: TA %.4f, E0 %.7f V", f.Alkalinity, f.E0.Volts())
	checks.Absolute(t, "what the documentation says of it", float64(f.Alkalinity), 2259.04, 0.005)
}

// With the recommended constants the printed alkalinity is met within what rounding
// of the printed inputs leaves open (the mass to 0.005 g, the strength to 5e-6 mol/kg,
// the density to 5e-6 g/cm³), and the printed E0 within its standard uncertainty.
func TestSOP3bWithinRounding(t *testing.T) {
	v, points := sop3b(t, carbonate.KFDicksonRiley1979)
	f, err := v.FitOpen(points, WholeCurve())
	require.NoError(t, err)
	open := float64(f.Alkalinity) * (0.005/140.32 + 5e-6/0.10046 + 5e-6/1.02393)
	checks.Absolute(t, "alkalinity", float64(f.Alkalinity), 2260.06, open)
	t.Logf("TA %.4f, rounding of the inputs leaves ± %.3f open; E0 %.7f ± %.7f", f.Alkalinity, open, f.E0.Volts(), f.Standard.E0.Volts())
	checks.Absolute(t, "E0", f.E0.Volts(), 0.394401, f.Standard.E0.Volts())
	v.Acid *= 1 - 1e-5 // 0.100459 is printed as 0.10046
	f, err = v.FitOpen(points, WholeCurve())
	require.NoError(t, err)
	checks.Printed(t, "alkalinity with acid of 0.100459", float64(f.Alkalinity), "2260.06")
}

// The residual as SOP 3b writes it, and that of the fit: without borate the same.
func TestResidualOfSOP3b(t *testing.T) {
	v, points := sop3b(t, carbonate.KFPerezFraga1987)
	v.Constants.Totals.Boron = 0
	list, err := v.samples(points, 3)
	require.NoError(t, err)
	m := model{list: list, p: 2, r: make([]float64, len(list)), j: make([]float64, 2*len(list))}
	for i := range list {
		m.mixtures = append(m.mixtures, v.diluted(list[i].acid))
	}
	const ta, e0 = 2260e-6, 394.4
	_, err = m.at(&theta{ofAlkalinity: ta * 1e6, ofE0: e0 / v.slope()})
	require.NoError(t, err)
	c := &v.Constants
	st, ft := c.Totals.Sulfate.MolesPerKilogram(), c.Totals.Fluoride.MolesPerKilogram()
	z := 1 + st/float64(c.KS)
	for i, p := range points {
		h := math.Exp((p.EMF().Millivolts() - e0) / v.slope())
		m0, mass := v.Sample.Grams(), p.Acid().Grams()
		want := ta + st/(1+float64(c.KS)*z/h) + ft/(1+float64(c.KF)*z/h) + (m0+mass)/m0*(h/z-float64(c.KW)/h) - mass/m0*v.Acid.MolesPerKilogram()
		checks.Absolute(t, "residual", m.r[i], want*1e6, 1e-9)
	}
}

// The reference rows were computed on the total scale of the mixture, with the
// constants kept on it, and with KF of Perez and Fraga taken for one on the free
// scale, which it is not. The vessel keeps constants on the free scale and the pH on
// the scale of the sample; told otherwise, it gives the same numbers.
func TestEndPoints(t *testing.T) {
	const strength = 0.1 * units.MolePerKilogram
	whole := carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{})
	// on returns constants and end point as the reference has them for a mixture.
	on := func(share float64, scale string, x float64) (carbonate.Constants, float64) {
		y := units.AmountPerKilogram(share)
		c := carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{
			KF:    carbonate.KFPerezFraga1987,
			Boron: carbonate.Measured(whole.Totals.Boron * y), Sulfate: carbonate.Measured(whole.Totals.Sulfate * y),
			Fluoride: carbonate.Measured(whole.Totals.Fluoride * y),
		})
		c.KF *= units.Scalar(1 + c.Totals.Sulfate.MolesPerKilogram()/float64(c.KS)) // taken for free
		if scale == "nbs" {
			x = carbonate.PHNBS(x).Total(&c).Value()
		}
		return c, x
	}
	largest, apart := 0., 0.
	for _, row := range checks.Table(t, "testdata/end_points.csv") {
		what := row["TA"] + " " + row["scale"] + " " + row["vessel"] + " " + row["pH"]
		ta, dic := units.AmountPerKilogram(row.Float(t, "TA")), units.AmountPerKilogram(row.Float(t, "DIC"))
		carbon := Open(carbonate.FCO2(420).PCO2(&whole)) // the reference has 420 µatm of fugacity
		if row["vessel"] == "closed" {
			carbon = Closed(dic)
		}
		// The share of the sample in the mixture at the end point is found by repetition.
		var p EndPoint
		share, x := 1., 0.
		for range 20 {
			c, ph := on(share, row["scale"], row.Float(t, "pH"))
			v := Vessel{Sample: 100, Acid: strength, Constants: whole}
			d := v.diluted(v.Sample * units.Mass(1/share-1))
			v.Constants = undiluted(c, whole.Totals, d.move)
			var err error
			p, err = v.EndPoint(carbonate.PHTotal(ph+math.Log10(d.move)), ta, carbon)
			require.NoError(t, err)
			share, x = float64(100/(100+p.Acid)), ph
		}
		free := units.AmountPerKilogram(0)
		if row["vessel"] == "corrected" {
			free = units.MolePerKilogram * units.AmountPerKilogram(math.Pow(10, -x)/share)
		}
		checks.Absolute(t, what, float64(p.Error-free), row.Float(t, "error"), 2e-5)
		largest = math.Max(largest, math.Abs(float64(p.Error-free)-row.Float(t, "error")))

		v := Vessel{Sample: 100, Acid: strength, Constants: whole}
		ph := carbonate.PHTotal(row.Float(t, "pH"))
		if row["scale"] == "nbs" {
			ph = carbonate.PHNBS(row.Float(t, "pH")).Total(&whole)
		}
		own, err := v.EndPoint(ph, ta, carbon)
		require.NoError(t, err)
		if row["vessel"] != "corrected" {
			apart = math.Max(apart, math.Abs(float64(own.Error-p.Error)))
			t.Logf("%s: %.2f with constants on the free scale, reference %.2f", what, own.Error, row.Float(t, "error"))
		}
		back, err := v.Alkalinity(ph, own.Acid, carbon)
		require.NoError(t, err)
		checks.Absolute(t, what+": true alkalinity from the apparent", float64(back), float64(ta), 1e-9)
	}
	t.Logf("largest difference from the reference on its terms %.2g; of the terms %.3g", largest, apart)
}

// undiluted takes constants of a mixture back to the sample, so that the vessel
// dilutes them to what they were.
func undiluted(c carbonate.Constants, whole carbonate.Totals, move float64) carbonate.Constants {
	c.Totals = whole
	for _, k := range []*units.Scalar{&c.K1, &c.K2, &c.KB, &c.KW} {
		*k /= units.Scalar(move)
	}
	return c
}
