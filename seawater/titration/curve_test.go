package titration

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func seawater(s, t float64) Vessel {
	return Vessel{Sample: 100, Acid: 0.1 * units.MolePerKilogram, Constants: carbonate.At(units.Practical(s), units.Celsius(t), carbonate.Options{})}
}

// additions are so many grams of acid, evenly spread.
func additions(from, to float64, n int) []units.Mass {
	list := make([]units.Mass, n)
	for i := range list {
		list[i] = units.Mass(from + (to-from)*float64(i)/float64(n-1))
	}
	return list
}

// onCell returns what a cell of this E0 shows of a curve.
func onCell(v *Vessel, curve []Point, e0 float64) []Point {
	out := make([]Point, len(curve))
	for i, p := range curve {
		out[i] = EMF(p.Acid(), units.Voltage(e0-v.slope()*math.Ln10*p.PH().Value()))
	}
	return out
}

var rich = carbonate.Nutrients{Phosphate: 5, Silicate: 50, Ammonia: 10, Sulfide: 2}

// A sample made by package carbonate gives its alkalinity back, whatever it is.
func TestFitsGiveBackWhatWasMade(t *testing.T) {
	worst := map[string]float64{}
	for _, s := range []float64{10, 35, 42} {
		for _, temperature := range []float64{10, 25, 32} {
			for _, n := range []carbonate.Nutrients{{}, rich} {
				for _, ta := range []float64{1500, 2300, 4500} {
					v := seawater(s, temperature)
					v.Nutrients = n
					dic := ta * 0.88
					end := 100 * (ta/1e5 + 0.012) // grams of acid, to pH 3 or so
					curve, err := v.Curve(units.AmountPerKilogram(ta), Closed(units.AmountPerKilogram(dic)), additions(0, end, 41))
					require.NoError(t, err)
					for name, points := range map[string][]Point{"pH": curve, "mV": onCell(&v, curve, 401.5)} {
						f, err := v.FitClosed(points)
						require.NoError(t, err)
						checks.Absolute(t, name+" alkalinity", float64(f.Alkalinity), ta, 1e-6)
						checks.Absolute(t, name+" DIC", float64(f.DIC), dic, 1e-6)
						worst["TA closed"] = math.Max(worst["TA closed"], math.Abs(float64(f.Alkalinity)-ta))
						f, err = v.FitClosedK1(points)
						require.NoError(t, err)
						checks.Absolute(t, name+" alkalinity with K1", float64(f.Alkalinity), ta, 1e-5)
						checks.Relative(t, name+" K1", float64(f.K1), float64(v.Constants.K1), 1e-8)
						e0 := 0.
						if name == "mV" {
							e0 = 401.5
						}
						checks.Absolute(t, name+" E0", float64(f.E0), e0, 1e-6)
						worst["TA closed, K1"] = math.Max(worst["TA closed, K1"], math.Abs(float64(f.Alkalinity)-ta))
					}
					curve, err = v.Curve(units.AmountPerKilogram(ta), Degassed(), additions(end-1.0, end, 21))
					require.NoError(t, err)
					for name, points := range map[string][]Point{"pH": curve, "mV": onCell(&v, curve, 401.5)} {
						f, err := v.FitOpen(points, AcidWindow())
						require.NoError(t, err)
						checks.Absolute(t, name+" alkalinity, open", float64(f.Alkalinity), ta, 1e-6)
						worst["TA open"] = math.Max(worst["TA open"], math.Abs(float64(f.Alkalinity)-ta))
					}
				}
			}
		}
	}
	t.Logf("largest differences, µmol/kg: %v", worst)
}

// Whatever the electrode, and however little of the curve is left behind the
// equivalence point, at 2.3 g: the start does not matter.
func TestFitsFromAfar(t *testing.T) {
	v := seawater(35, 25)
	for _, end := range []float64{2.32, 2.4, 2.5, 2.8, 3.4, 5} {
		for _, n := range []int{6, 10, 20, 60} {
			curve, err := v.Curve(2300, Closed(2000), additions(0, end, n))
			require.NoError(t, err)
			for _, e0 := range []float64{400, -300, 1500} {
				f, err := v.FitClosed(onCell(&v, curve, e0))
				require.NoError(t, err)
				checks.Absolute(t, "alkalinity", float64(f.Alkalinity), 2300, 1e-6)
				f, err = v.FitClosedK1(onCell(&v, curve, e0))
				require.NoError(t, err)
				checks.Absolute(t, "alkalinity with K1", float64(f.Alkalinity), 2300, 1e-4)
			}
		}
	}
}

// The table of doc.go.
func TestEndPointsOfTheDocumentation(t *testing.T) {
	v := seawater(35, 25)
	total := func(x float64) carbonate.TotalPH { return carbonate.PHTotal(x) }
	nbs := func(x float64) carbonate.TotalPH { return carbonate.PHNBS(x).Total(&v.Constants) }
	for _, c := range []struct {
		ph   float64
		want [4]float64
	}{
		{4.5, [4]float64{-53, -18, 32, 45}},
		{4.2, [4]float64{22, 58, 65, 90}},
		{3.0, [4]float64{1038, 1427, 1041, 1429}},
	} {
		for i, want := range c.want {
			scale, carbon := total, Closed(2000)
			if i%2 == 1 {
				scale = nbs
			}
			if i >= 2 {
				carbon = Open(420)
			}
			p, err := v.EndPoint(scale(c.ph), 2300, carbon)
			require.NoError(t, err)
			checks.Absolute(t, "end point", float64(p.Error), want, 0.5)
		}
	}
	p, err := v.EndPoint(total(4.5), 3500, Closed(3100))
	require.NoError(t, err)
	checks.Absolute(t, "rich water", float64(p.Error), -100, 0.5)
	d := dickson(0)
	g, err := d.Gran(dicksonPoints(t, &d), AcidWindow())
	require.NoError(t, err)
	checks.Absolute(t, "Gran's line on table 1 of Dickson 1981, total scale of the sample", float64(g.Alkalinity)-2450, -7.7, 0.05)
}

// What an end point finds, its inverse undoes; the mixture at it has that pH.
func TestEndPointProperties(t *testing.T) {
	for _, carbon := range []Carbon{Closed(2000), Open(420), Degassed()} {
		for _, ph := range []float64{3, 3.7, 4.2, 4.5, 5, 6} {
			v := seawater(35, 25)
			v.Nutrients = rich
			last := math.Inf(-1)
			for _, ta := range []units.AmountPerKilogram{2200, 2300, 3000} {
				p, err := v.EndPoint(carbonate.PHTotal(ph), ta, carbon)
				require.NoError(t, err)
				m, err := v.Mixture(ta, carbon, p.Acid)
				require.NoError(t, err)
				checks.Absolute(t, "pH of the mixture", m.PH.Value(), ph, 1e-9)
				back, err := v.Alkalinity(carbonate.PHTotal(ph), p.Acid, carbon)
				require.NoError(t, err)
				checks.Absolute(t, "back", float64(back), float64(ta), 1e-9)
				checks.Absolute(t, "apparent", float64(p.Apparent), 0.1e6*float64(p.Acid)/100, 1e-9)
				assert.Greater(t, float64(p.Apparent), last)
				last = float64(p.Apparent)
			}
		}
	}
}

// pH falls with every drop, and alkalinity and the contents are those of the balance
// of masses.
func TestCurve(t *testing.T) {
	v := seawater(35, 25)
	v.Nutrients = rich
	last := math.Inf(1)
	for _, m := range additions(0, 5, 101) {
		x, err := v.Mixture(2300, Closed(2000), m)
		require.NoError(t, err)
		assert.Less(t, x.PH.Value(), last)
		last = x.PH.Value()
		share := 100 / (100 + float64(m))
		checks.Relative(t, "alkalinity", float64(x.System.Alkalinity())+1e5, (2300-1e3*float64(m))*share+1e5, 1e-12)
		checks.Relative(t, "DIC", float64(x.System.DIC()), 2000*share, 1e-14)
		checks.Relative(t, "sulfate", float64(x.System.Constants.Totals.Sulfate), float64(v.Constants.Totals.Sulfate)*share, 1e-14)
		checks.Relative(t, "phosphate", float64(x.System.Nutrients.Phosphate), 5*share, 1e-14)
		// K1 on the free scale is what it was.
		free := func(c *carbonate.Constants) float64 {
			return float64(c.K1) / (1 + c.Totals.Sulfate.MolesPerKilogram()/float64(c.KS))
		}
		checks.Relative(t, "K1", free(&x.System.Constants), free(&v.Constants), 1e-14)
	}
	x, err := v.Mixture(2300, Closed(2000), 0)
	require.NoError(t, err)
	s, err := v.Constants.FromAlkalinityDIC(2300, 2000, rich)
	require.NoError(t, err)
	checks.Absolute(t, "without acid", x.PH.Value(), s.PH().Value(), 1e-14)
}

// The pH of the sample instead of its DIC: there and back, for waters of all kinds.
func TestClosedAt(t *testing.T) {
	for _, salinity := range []float64{5, 35} {
		v := seawater(salinity, 22)
		v.Nutrients = carbonate.Nutrients{Phosphate: 5, Silicate: 20, Ammonia: 10}
		for _, ta := range []units.AmountPerKilogram{800, 2300, 4000} {
			for _, first := range []float64{7.4, 8.1, 8.6} {
				ph := carbonate.PHTotal(first)
				s, err := v.Constants.Solve(carbonate.Alkalinity(ta), carbonate.PH(ph), v.Nutrients)
				require.NoError(t, err)
				for _, end := range []float64{6, 4.5, 4.2, 3} {
					by, err := v.EndPoint(carbonate.PHTotal(end), ta, Closed(s.DIC()))
					require.NoError(t, err)
					p, err := v.EndPoint(carbonate.PHTotal(end), ta, ClosedAt(ph))
					require.NoError(t, err)
					checks.Relative(t, "acid", float64(p.Acid), float64(by.Acid), 1e-12)
					back, err := v.Alkalinity(carbonate.PHTotal(end), p.Acid, ClosedAt(ph))
					require.NoError(t, err)
					checks.Relative(t, "alkalinity", float64(back), float64(ta), 1e-9)
				}
				m, err := v.Mixture(ta, ClosedAt(ph), 0)
				require.NoError(t, err)
				checks.Absolute(t, "pH without acid", m.PH.Value(), first, 1e-9)
			}
		}
	}
}

// What a keeper has who forgets the window gets that of SOP 3b, not the whole
// curve, whose alkalinity is half.
func TestForgottenWindow(t *testing.T) {
	v := seawater(35, 25)
	curve, err := v.Curve(2300, Closed(2000), additions(0, 3.6, 73))
	require.NoError(t, err)
	for _, points := range [][]Point{curve, onCell(&v, curve, 400)} {
		none, err := v.FitOpen(points, Window{})
		require.NoError(t, err)
		acid, err := v.FitOpen(points, AcidWindow())
		require.NoError(t, err)
		assert.Equal(t, acid, none)
		whole, err := v.FitOpen(points, WholeCurve())
		require.NoError(t, err)
		assert.Less(t, float64(whole.Alkalinity), 1300., "what would have been found")
		g, err := v.Gran(points, Window{})
		require.NoError(t, err)
		checks.Absolute(t, "Gran", float64(g.Alkalinity), 2290, 5)
	}
	_, err = v.FitOpen(curve[:20], Window{})
	assert.EqualError(t, err, "too few points: 0 in pH 3 to 3.5, 3 needed")
	_, err = v.FitClosed(curve[:2])
	assert.EqualError(t, err, "too few points: 2 in the curve, 4 needed")
	assert.Equal(t, "pH 3 to 3.5", Window{}.String())
}

// What the documentation says of CO2 that stayed: the residual hardly tells.
func TestCarbonThatStayed(t *testing.T) {
	v := seawater(35, 25)
	for _, c := range []struct{ dic, low, residual float64 }{{2000, 10, 0.5}, {200, 1, 0.05}} {
		curve, err := v.Curve(2300, Closed(units.AmountPerKilogram(c.dic)), additions(0, 3.6, 73))
		require.NoError(t, err)
		f, err := v.FitOpen(curve, AcidWindow())
		require.NoError(t, err)
		checks.Relative(t, "low by", 2300-float64(f.Alkalinity), c.low, 0.03)
		checks.Relative(t, "residual", float64(f.Residual), c.residual, 0.1)
		f, err = v.FitClosed(curve)
		require.NoError(t, err)
		checks.Absolute(t, "DIC", float64(f.DIC), c.dic, 1e-6)
		checks.Absolute(t, "alkalinity", float64(f.Alkalinity), 2300, 1e-6)
	}
}

// A straight line is what Gran's function is without sulfate, fluoride and
// carbon; there it finds everything.
func TestGranWhereItIsExact(t *testing.T) {
	v := seawater(35, 25)
	v.Constants.Totals = carbonate.Totals{}
	v.Constants.KW = 1e-30 // hydroxide too: it is 4e-4 µmol/kg
	curve, err := v.Curve(2300, Degassed(), additions(2.4, 3.4, 11))
	require.NoError(t, err)
	for _, w := range []Window{WholeCurve(), AcidWindow(), {}} {
		g, err := v.Gran(curve, w)
		require.NoError(t, err)
		checks.Absolute(t, "alkalinity", float64(g.Alkalinity), 2300, 1e-6)
		checks.Absolute(t, "E0", float64(g.E0), 0, 1e-6)
		g, err = v.Gran(onCell(&v, curve, 380), w)
		require.NoError(t, err)
		checks.Absolute(t, "alkalinity", float64(g.Alkalinity), 2300, 1e-6)
		checks.Absolute(t, "E0", float64(g.E0), 380, 1e-6)
	}
}

// The standard uncertainties against a simulation (JCGM 101). Least squares takes all
// residuals to be equally good; a noise of so many millivolts at all points makes the
// acid ones worse, and what is stated of the alkalinity up to a quarter too large.
func TestFitUncertainty(t *testing.T) {
	v := seawater(35, 25)
	closed, err := v.Curve(2300, Closed(2000), additions(0, 3.4, 35))
	require.NoError(t, err)
	open, err := v.Curve(2300, Degassed(), additions(2.7, 3.5, 17))
	require.NoError(t, err)
	r := rand.New(rand.NewSource(1))
	millivolts := func(curve []Point, _ float64) []Point {
		points := onCell(&v, curve, 400)
		for i := range points {
			points[i].x += 0.1 * r.NormFloat64()
		}
		return points
	}
	// residuals makes a noise of 0.3 µmol/kg in every residual.
	residuals := func(curve []Point, dic float64) []Point {
		points := append([]Point(nil), curve...)
		for i := range points {
			d := v.diluted(points[i].Acid())
			m := model{list: []sample{{points[i].Acid(), -points[i].x * math.Ln10}}, mixtures: []dilution{d}, p: 3, r: make([]float64, 1), j: make([]float64, 3)}
			_, err := m.at(&theta{ofAlkalinity: 2300, ofDIC: dic})
			require.NoError(t, err)
			points[i].x += 0.3 * r.NormFloat64() / (m.j[ofE0] * math.Ln10)
		}
		return points
	}
	closedFit := v.FitClosed
	openFit := func(p []Point) (Fit, error) { return v.FitOpen(p, WholeCurve()) }
	for _, c := range []struct {
		name     string
		curve    []Point
		dic      float64
		noise    func([]Point, float64) []Point
		fit      func([]Point) (Fit, error)
		from, to float64 // stated over scatter
	}{
		{"open", open, 0, residuals, openFit, 0.95, 1.05},
		{"closed", closed, 2000, residuals, closedFit, 0.95, 1.05},
		{"open, noise in mV", open, 0, millivolts, openFit, 1, 1.25},
		{"closed, noise in mV", closed, 2000, millivolts, closedFit, 1, 1.25},
	} {
		draws, wider := checks.Draws(2000)
		n := float64(draws)
		var mean, square, stated [3]float64
		for range draws {
			f, err := c.fit(c.noise(c.curve, c.dic))
			require.NoError(t, err)
			for i, x := range [3]float64{float64(f.Alkalinity) - 2300, float64(f.DIC) - c.dic, float64(f.E0)} {
				mean[i] += x / n
				square[i] += x * x / n
			}
			for i, x := range [3]float64{float64(f.Standard.Alkalinity), float64(f.Standard.DIC), float64(f.Standard.E0)} {
				stated[i] += x / n
			}
		}
		for i, what := range [3]string{"alkalinity", "DIC", "E0"} {
			if what == "DIC" && c.dic == 0 {
				continue
			}
			scatter := math.Sqrt(square[i] - mean[i]*mean[i])
			t.Logf("%s, %s: scatter %.4f, stated %.4f", c.name, what, scatter, stated[i])
			if strings.Contains(c.name, "mV") && what != "alkalinity" {
				continue // of which FitUncertainty says that they are not good then
			}
			assert.Greater(t, stated[i]/scatter, c.from-0.05*(wider-1), c.name+" "+what)
			assert.Less(t, stated[i]/scatter, c.to+0.05*(wider-1), c.name+" "+what)
		}
	}
	f, err := v.FitClosedK1(millivolts(closed, 0))
	require.NoError(t, err)
	for i := range 4 {
		assert.Positive(t, f.Covariance[i][i])
		for j := range 4 {
			assert.InDelta(t, f.Covariance[i][j], f.Covariance[j][i], 1e-12*math.Abs(f.Covariance[i][j]))
			assert.LessOrEqual(t, math.Abs(f.Covariance[i][j]), math.Sqrt(f.Covariance[i][i]*f.Covariance[j][j]))
		}
	}
	assert.InDelta(t, float64(f.Standard.E0), math.Sqrt(f.Covariance[2][2]), 1e-15)
}

// Least squares knows its covariances by what happens when one parameter is held off its
// best value: the others follow by their covariance with it over its variance, and the
// sum of squares grows by s² times the square of its way over its variance.
func TestCovarianceOfK1(t *testing.T) {
	v := seawater(35, 25)
	curve, err := v.Curve(2300, Closed(2000), additions(0, 3.4, 35))
	require.NoError(t, err)
	r := rand.New(rand.NewSource(6))
	for i := range curve {
		curve[i].x += 1e-4 * r.NormFloat64()
	}
	free, err := v.FitClosedK1(onCell(&v, curve, 400))
	require.NoError(t, err)
	const off = 1e-3 // in pK1
	held := v
	held.Constants.K1 = units.Scalar(float64(free.K1) * math.Pow(10, -off))
	f, err := held.FitClosed(onCell(&v, curve, 400))
	require.NoError(t, err)
	variance := free.Covariance[3][3]
	checks.Relative(t, "alkalinity follows", float64(f.Alkalinity-free.Alkalinity)/off, free.Covariance[0][3]/variance, 0.05)
	checks.Relative(t, "DIC follows", float64(f.DIC-free.DIC)/off, free.Covariance[1][3]/variance, 0.05)
	checks.Relative(t, "E0 follows", float64(f.E0-free.E0)/off, free.Covariance[2][3]/variance, 0.05)
	squares := func(f Fit, parameters int) float64 {
		return float64(f.Points-parameters) * float64(f.Residual) * float64(f.Residual)
	}
	grows := (squares(f, 3) - squares(free, 4)) / float64(free.Residual) / float64(free.Residual)
	checks.Relative(t, "sum of squares", grows, off*off/variance, 0.05)
	checks.Relative(t, "standard uncertainty", float64(free.Standard.PK1), math.Sqrt(variance), 1e-12)
}

// Gran's line has nothing but scatter to go by where it is exact; its uncertainty
// against a simulation (JCGM 101), with a noise of F that is the same all along.
func TestGranUncertainty(t *testing.T) {
	v := seawater(35, 25)
	v.Constants.Totals = carbonate.Totals{}
	v.Constants.KW = 1e-30
	curve, err := v.Curve(2300, Degassed(), additions(2.7, 3.4, 15))
	require.NoError(t, err)
	r := rand.New(rand.NewSource(4))
	draws, wider := checks.Draws(4000)
	n := float64(draws)
	var mean, square, stated float64
	for range draws {
		points := append([]Point(nil), curve...)
		for i, p := range curve {
			f := (100 + float64(p.Acid())) * math.Pow(10, -p.x)
			points[i].x = -math.Log10((f + 1e-4*r.NormFloat64()) / (100 + float64(p.Acid())))
		}
		g, err := v.Gran(points, WholeCurve())
		require.NoError(t, err)
		x := float64(g.Alkalinity) - 2300
		mean, square, stated = mean+x/n, square+float64(x*x)/n, stated+float64(g.Uncertainty)/n
	}
	scatter := math.Sqrt(square - mean*mean)
	t.Logf("scatter %.4f, stated %.4f", scatter, stated)
	assert.InEpsilon(t, scatter, stated, 0.05*wider)
	assert.Greater(t, scatter, 0.1)
}

// A closed cell whose K1 and K2 are off by 0.03 in pK: all points put the alkalinity 7
// too high, more than their scatter about the fit says; its acid end with the DIC
// known, 1. What is stated covers both.
func TestClosedCellWithOtherConstants(t *testing.T) {
	v := seawater(35, 25)
	curve, err := v.Curve(2300, Closed(2000), additions(0, 3.4, 35))
	require.NoError(t, err)
	v.Constants.K1 *= units.Scalar(math.Pow(10, 0.03))
	v.Constants.K2 *= units.Scalar(math.Pow(10, 0.03))
	whole, err := v.FitClosed(curve)
	require.NoError(t, err)
	off := math.Abs(float64(whole.Alkalinity) - 2300)
	assert.InDelta(t, 7, off, 0.1)
	assert.Less(t, math.Sqrt(whole.Covariance[0][0]), off, "scatter alone")
	assert.Greater(t, float64(whole.Standard.Alkalinity), off)
	for _, dic := range []units.AmountPerKilogram{2000, whole.DIC} {
		f, err := v.FitClosedDIC(curve, dic, Window{})
		require.NoError(t, err)
		assert.InDelta(t, 1.2, math.Abs(float64(f.Alkalinity)-2300), 0.2)
		assert.Equal(t, dic, f.DIC)
		assert.Zero(t, f.Standard.DIC)
		assert.Zero(t, f.Covariance[1])
		assert.Equal(t, float64(v.Constants.K1), float64(f.K1))
	}
	k1, err := v.FitClosedK1(curve)
	require.NoError(t, err)
	assert.Greater(t, 3*float64(k1.Standard.Alkalinity), math.Abs(float64(k1.Alkalinity)-2300))
}

// With a DIC that is right it gives back what was made, in any window and on any
// electrode; with one that is 100 off, what the documentation says.
func TestFitClosedDIC(t *testing.T) {
	v := seawater(35, 25)
	v.Nutrients = rich
	curve, err := v.Curve(2300, Closed(2000), additions(0, 3.4, 69))
	require.NoError(t, err)
	for _, w := range []Window{{}, AcidWindow(), WholeCurve()} {
		for _, points := range [][]Point{curve, onCell(&v, curve, -210)} {
			f, err := v.FitClosedDIC(points, 2000, w)
			require.NoError(t, err)
			checks.Absolute(t, "alkalinity", float64(f.Alkalinity), 2300, 1e-6)
		}
	}
	zero, err := v.FitClosedDIC(curve, 2000, Window{})
	require.NoError(t, err)
	named, err := v.FitClosedDIC(curve, 2000, Window{carbonate.PHTotal(3), carbonate.PHTotal(4)})
	require.NoError(t, err)
	assert.Equal(t, named, zero)
	f, err := v.FitClosedDIC(curve, 2100, Window{})
	require.NoError(t, err)
	checks.Absolute(t, "100 too much DIC", float64(f.Alkalinity)-2300, 1, 0.2)
	onBad := onCell(&v, curve, 0)
	for i := range onBad {
		onBad[i].x *= 0.99
	}
	f, err = v.FitClosedDIC(onBad, 2000, Window{})
	require.NoError(t, err)
	checks.Absolute(t, "99 % slope", float64(f.Alkalinity)-2300, -5, 0.5)

	open, err := v.Curve(2300, Degassed(), additions(2.4, 3.4, 21))
	require.NoError(t, err)
	a, err := v.FitClosedDIC(open, 0, AcidWindow())
	require.NoError(t, err)
	b, err := v.FitOpen(open, AcidWindow())
	require.NoError(t, err)
	assert.Equal(t, b, a, "without DIC it is the open cell")

	for _, dic := range []float64{-1, math.NaN(), math.Inf(1)} {
		f, err := v.FitClosedDIC(curve, units.AmountPerKilogram(dic), Window{})
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(f.Alkalinity)))
	}
	_, err = v.FitClosedDIC(curve[:30], 2000, Window{})
	assert.EqualError(t, err, "too few points: 0 in pH 3 to 4, 3 needed")
	_, err = v.FitClosedDIC(curve[:2], 2000, Window{})
	assert.ErrorIs(t, err, ErrTooFewPoints)
}

// A meter that shows 5.2 too much: from there a whole step of Gauss and Newton leads
// out of the world, and half of it does not.
func TestStepsAreHalved(t *testing.T) {
	v := seawater(35, 25)
	curve, err := v.Curve(2300, Closed(2000), additions(0, 3.4, 35))
	require.NoError(t, err)
	for i := range curve {
		curve[i].x += 12 / math.Ln10
	}
	f, err := v.FitClosed(curve)
	require.NoError(t, err)
	checks.Absolute(t, "alkalinity", float64(f.Alkalinity), 2300, 1e-6)
	checks.Absolute(t, "DIC", float64(f.DIC), 2000, 1e-6)
	checks.Absolute(t, "E0", float64(f.E0), -12*v.slope(), 1e-6)
}

// The derivatives against difference quotients.
func TestDerivatives(t *testing.T) {
	v := seawater(35, 25)
	v.Nutrients = rich
	curve, err := v.Curve(2300, Closed(2000), additions(0, 3.4, 9))
	require.NoError(t, err)
	list, err := v.samples(curve, 3)
	require.NoError(t, err)
	m := model{list: list, p: parameters, r: make([]float64, len(list)), j: make([]float64, len(list)*parameters)}
	for i := range list {
		m.mixtures = append(m.mixtures, v.diluted(list[i].acid))
	}
	x := theta{ofAlkalinity: 2290, ofE0: 0.03, ofDIC: 1980, ofK1: 0.05}
	_, err = m.at(&x)
	require.NoError(t, err)
	j := append([]float64(nil), m.j...)
	for p, step := range [parameters]float64{ofAlkalinity: 1e-2, ofE0: 1e-5, ofDIC: 1e-2, ofK1: 1e-5} {
		lo, hi := x, x
		lo[p] -= step
		hi[p] += step
		_, err = m.at(&lo)
		require.NoError(t, err)
		low := append([]float64(nil), m.r...)
		_, err = m.at(&hi)
		require.NoError(t, err)
		for i := range list {
			quotient := (m.r[i] - low[i]) / (2 * step)
			checks.Absolute(t, "derivative", j[i*parameters+p], quotient, 1e-7*(1+math.Abs(quotient)))
		}
	}
}

func TestCurvesAreRefused(t *testing.T) {
	v := seawater(35, 25)
	good, err := v.Curve(2300, Closed(2000), additions(0, 3.4, 18))
	require.NoError(t, err)
	edited := func(i int, p Point) []Point {
		out := append([]Point(nil), good...)
		out[i] = p
		return out
	}
	nan, inf := math.NaN(), math.Inf(1)
	ph := carbonate.PHTotal(5)
	for name, points := range map[string][]Point{
		"none":                   nil,
		"two":                    good[:2],
		"negative acid":          edited(0, PH(-1, good[0].PH())),
		"acid NaN":               edited(3, PH(units.Mass(nan), good[3].PH())),
		"acid infinite":          edited(17, PH(units.Mass(inf), good[17].PH())),
		"acid twice":             edited(4, PH(good[3].Acid(), good[4].PH())),
		"acid falls":             edited(4, PH(good[2].Acid(), good[4].PH())),
		"pH rises":               edited(10, PH(good[10].Acid(), carbonate.PHTotal(8))),
		"pH NaN":                 edited(5, PH(good[5].Acid(), carbonate.PHTotal(nan))),
		"pH infinite":            edited(5, PH(good[5].Acid(), carbonate.PHTotal(-inf))),
		"a voltage among pH":     edited(5, EMF(good[5].Acid(), 100)),
		"a point made by nobody": edited(5, Point{}),
		"voltage falls":          {EMF(0, 200), EMF(1, 150), EMF(2, 100), EMF(3, 50), EMF(4, 0)},
		"nonsense":               {PH(1, ph), PH(2, ph), PH(3, ph), PH(4, ph), PH(5, ph)},
	} {
		fits := map[string]func() (Fit, error){
			"open":   func() (Fit, error) { return v.FitOpen(points, AcidWindow()) },
			"closed": func() (Fit, error) { return v.FitClosed(points) },
			"K1":     func() (Fit, error) { return v.FitClosedK1(points) },
		}
		for kind, fit := range fits {
			if name == "nonsense" && kind != "open" {
				continue
			}
			f, err := fit()
			require.Error(t, err, name+" "+kind)
			assert.ErrorIs(t, err, units.ErrInput, name+" "+kind)
			assert.True(t, math.IsNaN(float64(f.Alkalinity)) && math.IsNaN(float64(f.E0)), name+" "+kind)
		}
		g, err := v.Gran(points, AcidWindow())
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.True(t, math.IsNaN(float64(g.Alkalinity)), name)
	}

	_, err = v.FitOpen(good[:10], AcidWindow())
	var few *TooFewPointsError
	require.ErrorAs(t, err, &few)
	assert.Equal(t, TooFewPointsError{Got: 0, Need: 3, Window: AcidWindow()}, *few)
	assert.ErrorIs(t, err, ErrTooFewPoints)
	assert.Equal(t, "too few points: 0 in pH 3 to 3.5, 3 needed", err.Error())
	_, err = v.FitClosedK1(good[:4])
	assert.EqualError(t, err, "too few points: 4 in the curve, 5 needed")

	for name, bad := range map[string]Vessel{
		"nothing":    {},
		"sample":     {Sample: -1, Acid: v.Acid, Constants: v.Constants},
		"sample NaN": {Sample: units.Mass(nan), Acid: v.Acid, Constants: v.Constants},
		"acid":       {Sample: 100, Acid: 0, Constants: v.Constants},
		"constants":  {Sample: 100, Acid: v.Acid},
		"no warmth":  {Sample: 100, Acid: v.Acid, Constants: carbonate.At(units.Practical(35), units.Temperature{}, carbonate.Options{})},
		"nutrients":  {Sample: 100, Acid: v.Acid, Constants: v.Constants, Nutrients: carbonate.Nutrients{Phosphate: -1}},
	} {
		_, err := bad.FitClosed(good)
		assert.ErrorIs(t, err, units.ErrInput, name)
		m, err := bad.Mixture(2300, Closed(2000), 1)
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.True(t, math.IsNaN(m.PH.Value()) && math.IsNaN(m.System.PH().Value()), name)
		p, err := bad.EndPoint(ph, 2300, Closed(2000))
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.True(t, math.IsNaN(float64(p.Apparent)), name)
		_, err = bad.Alkalinity(ph, 1, Closed(2000))
		assert.ErrorIs(t, err, units.ErrInput, name)
		_, err = bad.Curve(2300, Closed(2000), []units.Mass{1})
		assert.ErrorIs(t, err, units.ErrInput, name)
	}
	for name, f := range map[string]func() (EndPoint, error){
		"past it already":   func() (EndPoint, error) { return v.EndPoint(carbonate.PHTotal(9), 2300, Closed(2000)) },
		"no pH":             func() (EndPoint, error) { return v.EndPoint(carbonate.PHTotal(nan), 2300, Closed(2000)) },
		"no alkalinity":     func() (EndPoint, error) { return v.EndPoint(ph, units.AmountPerKilogram(nan), Closed(2000)) },
		"no carbon":         func() (EndPoint, error) { return v.EndPoint(ph, 2300, Closed(-1)) },
		"zero carbon":       func() (EndPoint, error) { return v.EndPoint(ph, 2300, Closed(0)) },
		"no pH to close at": func() (EndPoint, error) { return v.EndPoint(ph, 2300, ClosedAt(carbonate.PHTotal(nan))) },
		"no air":            func() (EndPoint, error) { return v.EndPoint(ph, 2300, Open(-1)) },
		"more acid than it": func() (EndPoint, error) { return v.EndPoint(carbonate.PHTotal(0.5), 2300, Closed(2000)) },
	} {
		p, err := f()
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.True(t, math.IsNaN(float64(p.Acid)), name)
	}
	for _, c := range []Carbon{Closed(0), Closed(units.AmountPerKilogram(inf)), ClosedAt(carbonate.PHTotal(nan)), ClosedAt(carbonate.PHTotal(13))} {
		m, err := v.Mixture(2300, c, 1)
		assert.Error(t, err)
		assert.True(t, math.IsNaN(m.PH.Value()))
		a, err := v.Alkalinity(ph, 1, c)
		assert.Error(t, err)
		assert.True(t, math.IsNaN(float64(a)))
	}
	for _, low := range []float64{ph.Value(), 4, 3} { // the sample is no more alkaline than its end point
		a, err := v.Alkalinity(ph, 2.3, ClosedAt(carbonate.PHTotal(low)))
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(a)))
	}
	large, err := v.Alkalinity(ph, math.MaxFloat64, Closed(2000))
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(float64(large)))
	_, err = v.Mixture(2300, Closed(2000), -1)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(EMF(1, 2).PH().Value()) && math.IsNaN(float64(PH(1, ph).EMF())))
}

func TestNothingIsAllocated(t *testing.T) {
	v := seawater(35, 25)
	checks.NoAllocations(t, "ClosedAt", func() {
		a, _ := v.Alkalinity(carbonate.PHTotal(4.5), 2.3, ClosedAt(carbonate.PHTotal(8.1)))
		sink = float64(a)
	})
	checks.NoAllocations(t, "Mixture", func() { m, _ := v.Mixture(2300, Closed(2000), 2); sink = m.PH.Value() })
	checks.NoAllocations(t, "EndPoint", func() { p, _ := v.EndPoint(carbonate.PHTotal(4.5), 2300, Open(420)); sink = float64(p.Error) })
	checks.NoAllocations(t, "Kit", func() {
		k := Kit{Sample: 0.005, Titrant: 36, Step: 5e-5}
		a, _, _ := k.Alkalinity(k.Drops(8), Uncertainty{Delivered: units.Share(0.03)})
		sink = a.MilliequivalentsPerLitre()
	})
}

func FuzzCurve(f *testing.F) {
	f.Add(35.0, 25.0, 100.0, 1e5, 2300.0, 2000.0, 3.4, 0.0, int64(1))
	f.Add(10.0, 5.0, 10.0, 3e5, 500.0, 600.0, 0.1, 0.01, int64(2))
	f.Add(0.0, 40.0, 1.0, 1e6, 0.0, 0.0, 1.0, 1.0, int64(3))
	f.Fuzz(func(t *testing.T, s, temperature, mass, acid, ta, dic, end, noise float64, seed int64) {
		v := Vessel{Sample: units.Mass(mass), Acid: units.AmountPerKilogram(acid), Constants: carbonate.At(units.Practical(s), units.Celsius(temperature), carbonate.Options{})}
		curve, err := v.Curve(units.AmountPerKilogram(ta), Closed(units.AmountPerKilogram(dic)), additions(0, end, 12))
		if err != nil {
			assert.Nil(t, curve)
			return
		}
		r := rand.New(rand.NewSource(seed))
		for i := range curve {
			curve[i].x += noise * r.NormFloat64()
		}
		for _, fit := range []func([]Point) (Fit, error){
			v.FitClosed, v.FitClosedK1,
			func(p []Point) (Fit, error) { return v.FitOpen(p, AcidWindow()) },
			func(p []Point) (Fit, error) { return v.FitClosedDIC(p, units.AmountPerKilogram(dic), Window{}) },
		} {
			for _, points := range [][]Point{curve, onCell(&v, curve, 400)} {
				x, err := fit(points)
				numbers := []float64{float64(x.Alkalinity), float64(x.DIC), float64(x.E0), float64(x.K1), float64(x.Residual),
					float64(x.Standard.Alkalinity), float64(x.Standard.DIC), float64(x.Standard.E0), float64(x.Standard.PK1)}
				if err != nil {
					assert.True(t, math.IsNaN(float64(x.Alkalinity)) && x.Points == 0 && x.Covariance == [4][4]float64{})
					continue
				}
				for _, n := range numbers {
					assert.False(t, math.IsNaN(n) || math.IsInf(n, 0), "%+v", x)
				}
				for _, n := range numbers[4:] {
					assert.GreaterOrEqual(t, n, 0.)
				}
				assert.True(t, x.Points >= 3 && x.Points <= len(points))
				assert.GreaterOrEqual(t, float64(x.Standard.Alkalinity), math.Sqrt(x.Covariance[0][0]))
			}
		}
		g, err := v.Gran(onCell(&v, curve, 400), AcidWindow())
		assert.Equal(t, err != nil, math.IsNaN(float64(g.Alkalinity)))
		p, err := v.EndPoint(carbonate.PHTotal(4.5), units.AmountPerKilogram(ta), Closed(units.AmountPerKilogram(dic)))
		assert.Equal(t, err != nil, math.IsNaN(float64(p.Acid)))
	})
}

func BenchmarkMixture(b *testing.B) {
	b.ReportAllocs()
	v := seawater(35, 25)
	for i := 0; i < b.N; i++ {
		m, _ := v.Mixture(2300, Closed(2000), 2)
		sink = m.PH.Value()
	}
}

func BenchmarkEndPoint(b *testing.B) {
	b.ReportAllocs()
	v := seawater(35, 25)
	for i := 0; i < b.N; i++ {
		p, _ := v.EndPoint(carbonate.PHTotal(4.5), 2300, Closed(2000))
		sink = float64(p.Error)
	}
}

func BenchmarkGran(b *testing.B) {
	b.ReportAllocs()
	v, points := sop3b(b, carbonate.KFDicksonRiley1979)
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		g, _ := v.Gran(points, AcidWindow())
		sink = float64(g.Alkalinity)
	}
}

func BenchmarkFitOpen(b *testing.B) {
	b.ReportAllocs()
	v, points := sop3b(b, carbonate.KFDicksonRiley1979)
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		f, _ := v.FitOpen(points, AcidWindow())
		sink = float64(f.Alkalinity)
	}
}

func BenchmarkFitClosed(b *testing.B) {
	b.ReportAllocs()
	v := dickson(0)
	points := dicksonPoints(b, &v)
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		f, _ := v.FitClosed(points)
		sink = float64(f.Alkalinity)
	}
}
