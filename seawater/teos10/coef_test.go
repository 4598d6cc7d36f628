package teos10

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
)

// literals reads the numbers of a file of this package as they are written:
// constants by name, arrays by name and place, as in "v00[3]", imaginary
// parts with an i, as in "iceT1i".
func literals(t *testing.T, file string) map[string]float64 {
	t.Helper()
	tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	require.NoError(t, err)
	number := func(e ast.Expr) (float64, bool) {
		sign := 1.0
		if u, ok := e.(*ast.UnaryExpr); ok && u.Op == token.SUB {
			sign, e = -1, u.X
		}
		lit, ok := e.(*ast.BasicLit)
		if !ok {
			return 0, false
		}
		x, err := strconv.ParseFloat(strings.TrimSuffix(lit.Value, "i"), 64)
		return sign * x, err == nil
	}
	found := map[string]float64{}
	ast.Inspect(tree, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if !ok {
			return true
		}
		for i, name := range spec.Names {
			if list, ok := spec.Values[i].(*ast.CompositeLit); ok {
				for j, e := range list.Elts {
					x, ok := number(e)
					require.True(t, ok, name.Name)
					found[name.Name+"["+strconv.Itoa(j)+"]"] = x
				}
			} else if x, ok := number(spec.Values[i]); ok {
				found[name.Name] = x
			} else if sum, ok := spec.Values[i].(*ast.BinaryExpr); ok {
				re, _ := number(sum.X)
				im, _ := number(sum.Y)
				if sum.Op == token.SUB {
					im = -im
				}
				found[name.Name], found[name.Name+"i"] = re, im
			}
		}
		return true
	})
	return found
}

// Each coefficient is the printed one, to the last digit, and none is missing.
func TestCoefficientsAreThePublishedOnes(t *testing.T) {
	tables := []struct {
		file, table, coef string
		count             int
		name              func(r checks.Row) string
	}{
		{"specvol_coef.go", "specvol75", "coef", 75, func(r checks.Row) string {
			return "v" + r["i_salinity"] + r["k_pressure"] + "[" + r["j_temperature"] + "]"
		}},
		{"gibbs_coef.go", "water_gibbs", "coef_J_per_kg", 41, func(r checks.Row) string {
			return "w" + r["j_temperature"] + r["k_pressure"]
		}},
		{"gibbs_coef.go", "saline_gibbs", "coef_J_per_kg", 64, func(r checks.Row) string {
			return "s" + r["i"] + r["j_temperature"] + r["k_pressure"]
		}},
		{"temperature_coef.go", "toolbox_polynomials", "coef", 39, func(r checks.Row) string {
			switch r["set"] {
			case "pot_enthalpy":
				return "h" + r["i"] + r["j"]
			case "pt_guess_a":
				return "ptA" + r["i"]
			case "pt_guess_b":
				return "ptB" + r["i"]
			}
			return ""
		}},
		{"evaporation_coef.go", "toolbox_polynomials", "coef", 28, func(r checks.Row) string {
			if r["set"] != "latentheat_evap" {
				return ""
			}
			return "evaporation" + r["i"] + "[" + r["j"] + "]"
		}},
		{"freezing_coef.go", "toolbox_polynomials", "coef", 46, func(r checks.Row) string {
			switch r["set"] {
			case "CT_freezing_poly":
				return "freezingCT" + r["i"] + "[" + r["k"] + "]"
			case "t_freezing_poly":
				return "freezingT" + r["i"] + "[" + r["k"] + "]"
			}
			return ""
		}},
	}
	for _, tb := range tables {
		have := literals(t, tb.file)
		count := 0
		for _, r := range checks.Table(t, "testdata/"+tb.table+".csv") {
			name := tb.name(r)
			if name == "" {
				continue
			}
			count++
			x, ok := have[name]
			assert.True(t, ok, "%s: no %s", tb.file, name)
			assert.Equal(t, r.Float(t, tb.coef), x, "%s: %s", tb.file, name)
		}
		assert.Equal(t, tb.count, count, tb.table)
	}
}

func TestIceCoefficientsAreThePublishedOnes(t *testing.T) {
	have := literals(t, "ice_coef.go")
	for _, r := range checks.Table(t, "testdata/ice.csv") {
		x, ok := have[r["name"]]
		assert.True(t, ok, r["name"])
		assert.Equal(t, r.Float(t, "re"), x, r["name"])
		assert.Equal(t, r.Float(t, "im"), have[r["name"]+"i"], r["name"])
	}
}

// term is one term c xⁱ yʲ zᵏ of a published sum.
type term struct {
	i, j, k int
	c       float64
}

func terms(t *testing.T, table, set, i, j, k, c string) []term {
	var list []term
	for _, r := range checks.Table(t, "testdata/"+table+".csv") {
		if set != "" && r["set"] != set {
			continue
		}
		n := term{c: r.Float(t, c)}
		if i != "" {
			n.i = int(r.Float(t, i))
		}
		n.j = int(r.Float(t, j))
		if k != "" {
			n.k = int(r.Float(t, k))
		}
		list = append(list, n)
	}
	return list
}

// falling returns the factor and the power left after d derivatives of xⁿ.
func falling(x float64, n, d int) float64 {
	f := 1.0
	for a := range d {
		f *= float64(n - a)
	}
	if f == 0 {
		return 0
	}
	return f * math.Pow(x, float64(n-d))
}

// total sums terms one by one, differentiated (a, b, c) times; size is the
// sum of their magnitudes, which sets what rounding may do.
func total(list []term, x, y, z float64, a, b, c int) (sum, size float64) {
	for _, n := range list {
		v := n.c * falling(x, n.i, a) * falling(y, n.j, b) * falling(z, n.k, c)
		sum += v
		size += math.Abs(v)
	}
	return sum, size
}

// within asserts agreement to rounding.
func within(t *testing.T, what string, got, want, size float64) {
	t.Helper()
	assert.InDelta(t, want, got, 1e-14*size, what)
}

// The nested products give the published sums, term by term, at points where
// every power counts.
func TestVolumeIsThePublishedSum(t *testing.T) {
	list := terms(t, "specvol75", "", "i_salinity", "j_temperature", "k_pressure", "coef")
	r := rand.New(rand.NewPCG(3, 4))
	for n := range checks.Runs(200, 40) {
		s, y, z := 0.7+0.8*r.Float64(), 2*r.Float64()-0.5, 1.5*r.Float64()
		if n%4 == 0 {
			z = 0
		}
		w := s * s
		c0, c1, c2, c3, c4, c5, c6 := volumeTerms(y, z)
		want, size := total(list, s, y, z, 0, 0, 0)
		within(t, "v", c0+s*(c1+s*(c2+s*(c3+s*(c4+s*(c5+s*c6))))), want, size)
		want, size = total(list, s, y, z, 0, 0, 1)
		v1, vZ := volumeAndCompression(w, y, z)
		within(t, "v_z", vZ, want, size)
		v2, vY1 := volumeAndExpansion(w, y, z)
		want, size = total(list, s, y, z, 0, 1, 0)
		within(t, "v_y", vY1, want, size)
		want, size = total(list, s, y, z, 0, 0, 0)
		within(t, "v", v1, want, size)
		within(t, "v", v2, want, size)

		integral := 0.0
		size = 0
		for _, m := range list {
			v := m.c * math.Pow(s, float64(m.i)) * math.Pow(y, float64(m.j)) * math.Pow(z, float64(m.k+1)) / float64(m.k+1)
			integral += v
			size += math.Abs(v)
		}
		within(t, "∫v", volumeIntegral(w, y, z), integral, size)

		sa, ct, p := absolute(w*salinityUnit-specvolOffset), Conservative(y*kelvinUnit), pressure(z*dbarUnit)
		if sa.GramsPerKilogram() < 0 {
			continue
		}
		v, vSize := total(list, s, y, z, 0, 0, 0)
		checks.Relative(t, "SpecificVolume", SpecificVolume(sa, ct, p), v, 1e-13*vSize/v)
		checks.Relative(t, "Density", float64(Density(sa, ct, p)), 1/v, 1e-13*vSize/v)
		v0, _ := total(list, s, y, 0, 0, 0, 0)
		checks.Relative(t, "SurfaceDensity", float64(SurfaceDensity(sa, ct)), 1/v0, 1e-13*vSize/v0)
		vS, size := total(list, s, y, z, 1, 0, 0)
		checks.Absolute(t, "β", HalineContraction(sa, ct, p), -vS/(2*salinityUnit*s*v), 1e-13*size/(2*salinityUnit*s*v))
		vY, size := total(list, s, y, z, 0, 1, 0)
		checks.Absolute(t, "α", ThermalExpansion(sa, ct, p), vY/(kelvinUnit*v), 1e-13*size/(kelvinUnit*v))
	}
}

func TestGibbsIsThePublishedSum(t *testing.T) {
	water := terms(t, "water_gibbs", "", "", "j_temperature", "k_pressure", "coef_J_per_kg")
	var saline, logs []term
	for _, n := range terms(t, "saline_gibbs", "", "i", "j_temperature", "k_pressure", "coef_J_per_kg") {
		if n.i == 1 {
			logs = append(logs, n)
		} else {
			saline = append(saline, n)
		}
	}
	r := rand.New(rand.NewPCG(5, 6))
	for n := range checks.Runs(200, 40) {
		x, y, z := 0.05+1.6*r.Float64(), 2.5*r.Float64()-0.5, 1.2*r.Float64()
		if n%4 == 0 {
			z = 0
		}
		sum := func(b, c int) (float64, float64) {
			a, aSize := total(water, 0, y, z, 0, b, c)
			s, sSize := total(saline, x, y, z, 0, b, c)
			return a + s, aSize + sSize
		}
		var c column
		for k, f := range []func(x, z float64){c.seawater, c.seawaterP, c.seawaterPP} {
			f(x, z)
			want, size := sum(0, k)
			within(t, "g", c.value(y), want, size)
			want, size = sum(1, k)
			within(t, "g_T", c.slope(y), want, size)
			want, size = sum(2, k)
			within(t, "g_TT", c.curvature(y), want, size)
		}
		want, size := sum(2, 0)
		within(t, "g_TT", -kelvinUnit*kelvinUnit/(y*kelvinUnit+zeroCelsius)*heatCapacity(absolute(x*x*salinityUnit), y*kelvinUnit, z*dbarUnit), want, size)
		want, size = sum(0, 1)
		within(t, "g_P", gibbsP(absolute(x*x*salinityUnit), y*kelvinUnit, z*dbarUnit), want, size)

		// The derivatives in salinity, with the factors that the column comments state.
		l := logs[0].c + logs[1].c*y
		for k, f := range []func(x, z float64){c.salineS, c.salineSP} {
			f(x, z)
			for b := range 2 {
				want, size := total(saline, x, y, z, 1, b, k)
				want, size = want/x, size/x
				got := c.value(y)
				if b == 1 {
					got = c.slope(y)
				}
				if k == 0 { // ξ² ln ξ gives 2 ln ξ + 1
					want += map[int]float64{0: l, 1: logs[1].c}[b]
				}
				within(t, "g_S", got, want, size+math.Abs(l))
			}
		}
		c.salineSS(x, z)
		second, size2 := total(saline, x, y, z, 2, 0, 0)
		slope, size1 := total(saline, x, y, z, 1, 0, 0)
		within(t, "g_SS", c.value(y), second-slope/x+2*l, size2+size1/x+2*math.Abs(l))
		for k, f := range []func(x, z float64){c.salineW, c.salineWP} {
			f(x, z)
			g, gSize := total(saline, x, y, z, 0, 0, k)
			gx, gxSize := total(saline, x, y, z, 1, 0, k)
			want := -2 / (x * x) * (g - 0.5*x*gx)
			if k == 0 {
				want += l
			}
			within(t, "µ", c.value(y), want, 2/(x*x)*(gSize+x*gxSize)+math.Abs(l))
		}
	}
}

func TestToolboxPolynomialsAreThePublishedSums(t *testing.T) {
	enthalpy := terms(t, "toolbox_polynomials", "pot_enthalpy", "i", "j", "k", "coef")
	evaporation := terms(t, "toolbox_polynomials", "latentheat_evap", "i", "j", "k", "coef")
	freezeCT := terms(t, "toolbox_polynomials", "CT_freezing_poly", "i", "j", "k", "coef")
	freezeT := terms(t, "toolbox_polynomials", "t_freezing_poly", "i", "j", "k", "coef")
	osmotic := terms(t, "toolbox_polynomials", "osmotic_coefficient", "i", "j", "k", "coef")
	r := rand.New(rand.NewPCG(7, 8))
	for range checks.Runs(200, 40) {
		x, y, z := 1.5*r.Float64(), 1.5*r.Float64(), r.Float64()
		sa := absolute(x * x * salinityUnit)
		var c column
		c.potentialEnthalpy(x)
		want, size := total(enthalpy, x, y, 0, 0, 0, 0)
		within(t, "h0", c.value(y), want, size)
		within(t, "h0", potentialEnthalpy(sa, y*kelvinUnit), want, size)
		want, size = total(evaporation, x, y, 0, 0, 0, 0)
		within(t, "evaporation", EvaporationHeat(sa, Conservative(y*kelvinUnit)), want, 10*size)
		want, size = total(freezeCT, x, 0, z, 0, 0, 0)
		within(t, "CT_f", freezingSeries(x, z, &freezingCT0, &freezingCT2, &freezingCT3, &freezingCT4,
			&freezingCT5, &freezingCT6, &freezingCT7), want, size)
		want, size = total(freezeT, x, 0, z, 0, 0, 0)
		within(t, "t_f", freezingSeries(x, z, &freezingT0, &freezingT2, &freezingT3, &freezingT4,
			&freezingT5, &freezingT6, &freezingT7), want, size)

		// The toolbox's polynomial for the osmotic coefficient is another way to
		// write the saline table; its factor is M_S/R as printed there.
		phi, size := total(osmotic, x, y, z, 0, 0, 0)
		factor := 3.777007343340624e-3 * (1000 - sa.GramsPerKilogram()) / (zeroCelsius + y*kelvinUnit)
		checks.Absolute(t, "φ", OsmoticCoefficient(sa, celsius(y*kelvinUnit), pressure(z*dbarUnit)), phi*factor, 1e-14*size*factor)
	}
}
