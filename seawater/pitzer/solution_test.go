package pitzer

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// What the computed solutions are met to.
const (
	ofGamma      = 1e-9 // ln γ, φ, activity of water, ionic strength
	ofSaturation = 1e-7 // index, pH
	ofMolality   = 1e-7 // relative
)

// columns are the totals of the tables.
var columns = map[string]Species{
	"Na": Sodium, "K": Potassium, "Mg": Magnesium, "Ca": Calcium, "Sr": Strontium, "Cl": Chloride, "Br": Bromide,
	"S": Sulfate, "C": Carbonate, "B": BoricAcid,
}

// brineOf reads the totals of a row.
func brineOf(t testing.TB, row checks.Row) Brine {
	var b Brine
	list := b.amounts()
	for column, species := range columns {
		if row[column] == "" {
			continue
		}
		for i, s := range counted {
			if s == species {
				*list[i] = units.AmountPerKilogram(row.Float(t, column) * perMole)
			}
		}
	}
	return b
}

// speciesOf finds the species of a column such as "Ca+2".
func speciesOf(t testing.TB, name string) Species {
	sign := strings.NewReplacer("+2", "++", "-2", "--").Replace(name)
	var s Species
	require.NoError(t, s.UnmarshalText([]byte(sign)))
	return s
}

// solidOf finds the solid of a name of the tables.
func solidOf(t testing.TB, name string) Solid {
	if name == "Boric_acid,s" {
		return Sassolite
	}
	var s Solid
	require.NoError(t, s.UnmarshalText([]byte(name)))
	return s
}

func TestSolutions(t *testing.T) {
	worst := map[string]float64{}
	see := func(what string, got, want, tolerance float64, id string) {
		d := math.Abs(got - want)
		worst[what] = math.Max(worst[what], d)
		assert.InDelta(t, want, got, tolerance, "%s %s", id, what)
	}
	for _, row := range checks.Table(t, "testdata/solutions.csv") {
		id := row["id"] + " " + row["description"]
		s, err := Solve(brineOf(t, row), units.Celsius(row.Float(t, "T_degC")))
		require.NoError(t, err, id)
		see("phi", s.Osmotic(), row.Float(t, "phi"), ofGamma, id)
		see("aw", s.WaterActivity(), row.Float(t, "aw"), ofGamma, id)
		see("I", s.IonicStrength()/row.Float(t, "I"), 1, ofGamma, id)
		see("d", s.shift, row.Float(t, "macinnes_shift"), ofGamma, id)
		see("pH", s.PH(), row.Float(t, "pH"), ofSaturation, id)
		see("pmH", s.MolalPH(), row.Float(t, "pmH"), ofSaturation, id)
		for column, text := range row {
			if text == "" {
				continue
			}
			kind, name, _ := strings.Cut(column, "_")
			switch kind {
			case "lng":
				see("ln gamma", math.Log(s.ActivityCoefficient(speciesOf(t, name))), row.Float(t, column), ofGamma, id+" "+column)
			case "m":
				want := row.Float(t, column)
				see("m", float64(s.Molality(speciesOf(t, name)))/perMole/want, 1, ofMolality, id+" "+column)
			case "SI":
				see("SI", s.index(solidOf(t, name)), row.Float(t, column), ofSaturation, id+" "+column)
			}
		}
	}
	t.Log(worst)
}

func TestSolubilityProducts(t *testing.T) {
	rows := checks.Table(t, "testdata/constants.csv")
	require.Len(t, rows, int(solidEnd)-1)
	for _, row := range rows {
		s := solidOf(t, row["solid"])
		for column, celsius := range map[string]float64{"k0": 0, "k25": 25, "k40": 40} {
			w := warmthAt(celsius + 273.15)
			checks.Printed(t, row["solid"]+" "+column, solids[s].k.ln(&w)/ln10, row[column])
		}
	}
}

// A solid that its source writes with hydroxide or bicarbonate has the same index by those.
func TestIndexByTheIonsOfTheSource(t *testing.T) {
	y, err := Solve(sea, units.Celsius(15))
	require.NoError(t, err)
	ln := func(s Species) float64 { return math.Log(y.m[s]) + y.gamma[s] }
	n := 0
	for s := Halite; s < solidEnd; s++ {
		r := &solids[s]
		if r.times == 0 {
			continue
		}
		n++
		product := r.times * ln(r.via)
		switch r.via {
		case Hydroxide:
			product += (r.hydrogen+r.times)*ln(Hydrogen) + (r.water-r.times)*y.state.water
		case Bicarbonate:
			product += (r.hydrogen-r.times)*ln(Hydrogen) + r.water*y.state.water - r.times*ln(Carbonate)
		}
		for _, x := range r.of {
			if x.n != 0 {
				product += x.n * ln(x.of)
			}
		}
		checks.Absolute(t, s.String(), y.index(s), (product-r.k.ln(&y.warmth))/ln10, 1e-9)
	}
	assert.Equal(t, 4, n, "brucite, portlandite, huntite, artinite")
}

// ofFurther is what the solutions with further ions are met to: the slope of the limiting law
// has ten digits there.
const ofFurther = 1e-8

func TestFurtherIons(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/further_ions.csv") {
		var k model
		k.set(row.Float(t, "celsius") + 273.15)
		var s state
		for name, m := range row.Inputs(t, "m") {
			s.m[speciesOf(t, name)] = m
		}
		k.activities(&s)
		id := row["m"] + " " + row["celsius"]
		checks.Absolute(t, id+" phi", s.osmotic, row.Float(t, "phi"), ofFurther)
		for name, ln := range row.Inputs(t, "ln_gamma") {
			checks.Absolute(t, id+" "+name, s.gamma[speciesOf(t, name)], ln, ofFurther)
		}
	}
}
