package pitzer

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
)

// What the computed equilibria are met to.
const (
	ofAmount       = 1e-6 // mol of a solid, relative; the table has eight digits
	ofEquilibria   = 1e-8 // φ, activity of water; the table has ten digits
	ofEquilibriaPH = 2e-5 // where a base or a buffer fixes it; the source's convergence
)

// sourceWater is the number of moles in a kilogram by which the source of the table books
// water that a hydrate sets free, 18.016 g/mol. For the activity of water it takes 18.0153
// g/mol, as the package does for both: what dissolves of bischofite comes out 7e-5 less.
const sourceWater = 1000 / 18.016

// startOf reads "seawater x2 + CaCl2 0.2".
func startOf(t testing.TB, text string) totals {
	var sum totals
	if text == "pure water" {
		return sum
	}
	for _, part := range strings.Split(text, " + ") {
		name, amount, ok := strings.Cut(part, " ")
		require.True(t, ok, text)
		if name == "seawater" {
			x, err := strconv.ParseFloat(amount[1:], 64)
			require.NoError(t, err)
			scaled := sea.Scale(x)
			n := scaled.totals()
			for i := range sum.n {
				sum.n[i] += n.n[i]
			}
			continue
		}
		x, err := strconv.ParseFloat(amount, 64)
		require.NoError(t, err)
		f, err := parseFormula(name)
		require.NoError(t, err)
		for i := range sum.n {
			sum.n[i] += x * f.n[i]
		}
	}
	return sum
}

// equilibrate is a row of the table: a start in one kilogram of water and an excess of the
// solids.
func equilibrate(t testing.TB, row checks.Row) (y *system, names []Solid, before map[Solid]float64, ok bool) {
	var first system
	first.set(row.Float(t, "T_degC") + 273.15)
	start := startOf(t, row["start"])
	require.True(t, first.speciate(&start, &first.state))
	water := sourceWater
	for r := range reactions {
		water += reactions[r].water * first.m[reactions[r].gives]
	}
	before = map[Solid]float64{}
	n, acid := start, -start.excess()
	for _, name := range strings.Split(row["solids"], ";") {
		s := solidOf(t, name)
		names = append(names, s)
		if row["mode"] == "precipitate_only" {
			continue
		}
		before[s] = 20
		r := &solids[s]
		water += 20 * r.water
		acid += 20 * r.hydrogen
		for i, c := range counted {
			n.n[i] += 20 * inSolid(r, c)
		}
	}
	y = new(system)
	y.model, y.perKg = first.model, sourceWater
	if !y.start(n, acid, water, names) {
		return y, names, before, false
	}
	return y, names, before, y.settle()
}

func TestEquilibria(t *testing.T) {
	var steps, most int
	worst := 0.
	for i, row := range checks.Table(t, "testdata/equilibria.csv") {
		if i%checks.Runs(1, 4) != 0 {
			continue
		}
		id := row["id"] + " " + row["T_degC"] + " " + row["start"] + " " + row["solids"] + " " + row["mode"]
		y, names, before, ok := equilibrate(t, row)
		steps += y.rounds
		most = max(most, y.rounds)
		if !assert.True(t, ok, "%s rounds %d", id, y.rounds) {
			continue
		}
		worst = math.Max(worst, y.residual())
		for _, part := range strings.Split(row["moles_dissolved"], ";") {
			name, text, _ := strings.Cut(part, ":")
			if strings.HasPrefix(part, "Boric_acid") {
				name = "Boric_acid,s"
			}
			want, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			s := solidOf(t, name)
			got := before[s]
			for i := range y.solids {
				if y.solids[i].solid == s {
					got -= y.solids[i].n
				}
			}
			assert.InDelta(t, want, got, ofAmount*math.Max(math.Abs(want), 1e-3), "%s %s", id, name)
		}
		checks.Relative(t, id+" water", y.kg, row.Float(t, "water_kg"), 1e-8)
		checks.Absolute(t, id+" phi", y.osmotic, row.Float(t, "phi"), ofEquilibria)
		checks.Absolute(t, id+" aw", math.Exp(y.state.water), row.Float(t, "aw"), ofEquilibria)
		if strings.Contains(row["solids"], "Brucite") || row["C"] != "" || row["B"] != "" {
			pmh := -math.Log10(y.m[Hydrogen])
			checks.Absolute(t, id+" pmH", pmh, row.Float(t, "pmH"), ofEquilibriaPH)
		}
		_ = names
	}
	t.Log("steps", steps, "most", most, "residual", worst)
}
