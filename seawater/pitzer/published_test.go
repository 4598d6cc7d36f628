package pitzer

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// ofPublished is how near the model's value of the table is met, relative: the table was
// computed with the same parameters by another program.
const ofPublished = 2e-6

// TestPublished computes the 266 measured, tabulated and remembered values, and reports by
// how much the model differs from them. Nothing is tuned: what is asserted is that the
// model's own value is met, and that the differences are those that the package states.
func TestPublished(t *testing.T) {
	worst, n := map[string]float64{}, map[string]int{}
	found := map[string]float64{} // the largest difference for what the package states, as a share of it
	for i, row := range checks.Table(t, "testdata/published.csv") {
		if i%checks.Runs(1, 5) != 0 {
			continue
		}
		want := row.Float(t, "model_value")
		got, ok := publishedValue(t, row)
		id := row["topic"] + " " + row["quantity"] + " " + row["conditions"]
		if !ok {
			assert.Fail(t, "not computed", id)
			continue
		}
		checks.Relative(t, id, got, want, ofPublished)
		if row["value"] == "" {
			continue
		}
		difference := math.Abs(got/row.Float(t, "value") - 1)
		if within := stated(t, row); within > 0 {
			assert.LessOrEqual(t, difference, within+0.00051, "%s: more than the package states", id)
			key := fmt.Sprint(row["topic"], " ", row["quantity"], " ", within)
			found[key] = math.Max(found[key], difference/within)
		}
		origin := "read"
		if strings.HasPrefix(row["provenance"], "memory") {
			origin = "from memory"
		}
		key := row["topic"] + " " + row["quantity"] + ", " + origin
		worst[key] = math.Max(worst[key], difference)
		n[key]++
	}
	for key, share := range found {
		if testing.Short() {
			break // not all rows were looked at
		}
		assert.Greater(t, share, 0.9, "%s: less than the package states", key)
	}
	for key, w := range worst {
		t.Logf("%s: %d values, at most %.2f %%", key, n[key], 100*w)
	}
}

// stated is the difference that the package states for what a row is about; 0 for none. The tables
// of activity coefficients of magnesium sulfate are relative to an assumed one.
func stated(t *testing.T, row checks.Row) float64 {
	at := conditions(row["conditions"])
	switch row["topic"] {
	case "solubility":
		return solidOf(t, row["quantity"]).Deviation(units.Celsius(at["t"])).Value()
	case "gamma_mean":
		f, err := parseFormula(row["quantity"])
		require.NoError(t, err)
		for _, x := range compared {
			cation, anion := saltIons(&f)
			if x.cation == cation && x.anion == anion && at["m"] <= x.to && row["quantity"] != "MgSO4" {
				return x.within
			}
		}
	}
	return 0
}

// saltIons are the two ions of a salt, an acid or a base.
func saltIons(f *compound) (cation, anion Species) {
	cation, anion = Hydrogen, Hydroxide
	for i, x := range counted {
		if f.n[i] > 0 && x < firstAnion {
			cation = x
		} else if f.n[i] > 0 {
			anion = x
		}
	}
	return cation, anion
}

// publishedValue computes a row.
func publishedValue(t *testing.T, row checks.Row) (float64, bool) {
	at := conditions(row["conditions"])
	c := units.Celsius(at["t"])
	switch row["topic"] {
	case "gamma_mean", "osmotic_coefficient":
		f, err := parseFormula(row["quantity"])
		require.NoError(t, err)
		for i := range f.n {
			f.n[i] *= at["m"]
		}
		s, err := Solve(f.brine(), c)
		require.NoError(t, err)
		if row["topic"] == "osmotic_coefficient" {
			return s.Osmotic(), true
		}
		cation, anion := saltIons(&f)
		return s.MeanActivityCoefficient(cation, anion), true
	case "seawater":
		_, factor, _ := strings.Cut(row["conditions"], "seawater x")
		x, err := strconv.ParseFloat(strings.TrimSuffix(factor, ")"), 64)
		require.NoError(t, err)
		s, err := Solve(sea.Scale(x), c)
		require.NoError(t, err)
		if row["quantity"] == "osmotic_coefficient" {
			return s.Osmotic(), true
		}
		return s.WaterActivity(), true
	case "saturated_solution":
		name, _, _ := strings.Cut(row["conditions"], " ")
		y := saturated(t, map[string][]Solid{
			"NaCl": {Halite}, "KCl": {Sylvite}, "K2SO4": {Arcanite}, "MgCl2": {Bischofite},
		}[name], totals{}, at["t"])
		return math.Exp(y.state.water), true
	case "solubility":
		solid := solidOf(t, row["quantity"])
		y := saturated(t, []Solid{solid}, totals{}, at["t"])
		return y.dissolved(solids[solid].of[0].of) / solids[solid].of[0].n, true
	case "joint_solubility":
		return joint(t, row, at)
	case "evaporation":
		return evaporation(t, row["quantity"], at["t"]), true
	}
	return 0, false
}

// conditions reads "t=25 NaCl 3 m".
func conditions(text string) map[string]float64 {
	at := map[string]float64{}
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ';' }) {
		name, number, ok := strings.Cut(word, "=")
		if x, err := strconv.ParseFloat(number, 64); ok && err == nil {
			at[name] = x
		}
	}
	return at
}

// saturated is a start in a kilogram of water with so much of the solids that they stay.
func saturated(t *testing.T, list []Solid, start totals, celsius float64) *system {
	y := new(system)
	y.set(celsius + 273.15)
	y.perKg = sourceWater
	water := y.perKg
	for _, s := range list {
		r := &solids[s]
		water += 20 * r.water
		for i, c := range counted {
			start.n[i] += 20 * inSolid(r, c)
		}
	}
	require.True(t, y.start(start, -start.excess(), water, list))
	require.True(t, y.settle())
	return y
}

// dissolved is all of a counted species in the solution, mol per kg of water.
func (y *system) dissolved(of Species) float64 {
	sum := y.m[of]
	for r := range reactions {
		sum += reactions[r].number(of) * y.m[reactions[r].gives]
	}
	return sum
}

func joint(t *testing.T, row checks.Row, at map[string]float64) (float64, bool) {
	if strings.HasPrefix(row["quantity"], "gypsum") {
		_, amount, _ := strings.Cut(row["conditions"], "NaCl ")
		m, err := strconv.ParseFloat(strings.TrimSuffix(amount, " m"), 64)
		require.NoError(t, err)
		f, err := parseFormula("NaCl")
		require.NoError(t, err)
		for i := range f.n {
			f.n[i] *= m
		}
		return saturated(t, []Solid{Gypsum}, f.totals, at["t"]).dissolved(Calcium), true
	}
	y := saturated(t, []Solid{Halite, Sylvite}, totals{}, at["t"])
	if strings.HasPrefix(row["quantity"], "NaCl") {
		return y.dissolved(Sodium), true
	}
	return y.dissolved(Potassium), true
}

// evaporation is the factor by which seawater is concentrated when a solid is first
// saturated, by bisection: what does not fall out, such as chloride, per kilogram of the
// water that is left, also after gypsum has taken its share.
func evaporation(t *testing.T, quantity string, celsius float64) float64 {
	solid := Halite
	if strings.Contains(quantity, "gypsum saturation") {
		solid = Gypsum
	} else if strings.Contains(quantity, "anhydrite") {
		solid = Anhydrite
	}
	left := 1.
	index := func(x float64) float64 {
		scaled := sea.Scale(x)
		if !strings.Contains(quantity, "gypsum removed") {
			s, err := Solve(scaled, units.Celsius(celsius))
			require.NoError(t, err)
			return s.index(solid)
		}
		y := new(system)
		y.set(celsius + 273.15)
		y.perKg = sourceWater
		n := scaled.totals()
		require.True(t, y.start(n, -n.excess(), y.perKg, []Solid{Gypsum}))
		require.True(t, y.settle())
		left = y.kg
		return (y.product(&solids[solid]) - solids[solid].lnK(&y.warmth, &y.k)) / ln10
	}
	lo, hi := 1., 15.
	for range 60 {
		if x := (lo + hi) / 2; index(x) < 0 {
			lo = x
		} else {
			hi = x
		}
	}
	return lo / left
}
