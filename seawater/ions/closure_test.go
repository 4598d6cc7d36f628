package ions

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// reportOf writes down what a faultless laboratory would find, per kilogram, but
// for what is left out.
func reportOf(c Composition, without ...Ion) Report {
	var r Report
	for i, a := range c.All() {
		switch i {
		case Bicarbonate, Carbonate, CarbonDioxide, Hydroxide, Borate, BoricAcid:
			continue
		}
		skip := false
		for _, w := range without {
			skip = skip || w == i
		}
		if !skip {
			r = append(r, Measurement{Quantity: i.Symbol(), Value: float64(a), Unit: "umol/kg"})
		}
	}
	return append(r,
		Measurement{Quantity: "B", Value: float64(c.Boron()), Unit: "umol/kg"},
		Measurement{Quantity: "alkalinity", Value: float64(c.Alkalinity()), Unit: "umol/kg"},
		Measurement{Quantity: "DIC", Value: float64(c.Carbon()), Unit: "umol/kg"},
		Measurement{Quantity: "temperature", Value: 25, Unit: "°C"},
	)
}

// odd is a water of odd composition.
func odd(t testing.TB) Composition {
	c, err := seawater35.Add(Calcium, 1000).Add(Sulfate, -5000).Add(Chloride, 12000).Add(Nitrate, 100).Add(Sodium, 90).Settled(warm)
	require.NoError(t, err)
	return c
}

// wholes are all measurements of the water as a whole.
func wholes(c Composition) []Measurement {
	return []Measurement{
		{Quantity: "salinity", Value: c.SolutionSalinity().GramsPerKilogram(), Unit: "g/kg"},
		{Quantity: "salinity", Value: c.PracticalSalinity(warm).Value(), Unit: "PSS-78"},
		{Quantity: "density", Value: float64(c.Density(warm)), Unit: "kg/m3"},
		{Quantity: "conductivity", Value: float64(c.Conductivity(warm)), Unit: "mS/cm"},
		{Quantity: "chlorinity", Value: c.Chlorinity().GramsPerKilogram(), Unit: "g/kg"},
		{Quantity: "refractive index", Value: c.Index(warm).Value()},
	}
}

// Sodium and chloride taken out of a report come back from any one property.
func TestCloseRecoversSodiumAndChloride(t *testing.T) {
	c := odd(t)
	for _, m := range wholes(c) {
		got, err := append(reportOf(c, Sodium, Chloride), m).Close()
		require.NoError(t, err, m)
		assert.True(t, got.Composition.Equal(c, 1e-9*units.MolePerKilogram), m)
		checks.Absolute(t, "charge", got.Composition.Charge().MolesPerKilogram(), 0, 1e-9)
		assert.Equal(t, Inferred, got.Origin(Sodium))
		assert.Equal(t, Inferred, got.Origin(Chloride))
		assert.Equal(t, Measured, got.Origin(Calcium))
		assert.Equal(t, Measured, got.Origin(Bicarbonate))
		assert.Equal(t, Absent, got.Origin(Lithium))
		assert.Contains(t, got.Assumed, "sodium and chloride are inferred from the balance of charge and the "+m.Quantity)
		assert.True(t, math.IsNaN(float64(got.Imbalance)))
		assert.Empty(t, got.Suspect)
	}
	for _, one := range []Ion{Sodium, Chloride} {
		got, err := reportOf(c, one).Close()
		require.NoError(t, err)
		assert.True(t, got.Composition.Equal(c, 1e-9*units.MolePerKilogram))
		assert.Contains(t, got.Assumed, one.Name()+" is inferred from the balance of charge")
	}
}

// A second property of the water is worth something even then.
func TestCloseWithTwoProperties(t *testing.T) {
	c := odd(t)
	w := wholes(c)
	got, err := append(reportOf(c, Sodium, Chloride), w[2], w[3]).Close()
	require.NoError(t, err)
	assert.True(t, got.Composition.Equal(c, 1e-6*units.MolePerKilogram), "they agree")

	w[2].Value += 0.1 // kg/m³
	w[2].Uncertainty, w[3].Uncertainty = 0.02, 0.02
	got, err = append(reportOf(c, Sodium, Chloride), w[2], w[3]).Close()
	require.NoError(t, err)
	checks.Absolute(t, "charge", got.Composition.Charge().MolesPerKilogram(), 0, 1e-9)
	more := got.Composition.SolutionSalinity().GramsPerKilogram() - c.SolutionSalinity().GramsPerKilogram()
	assert.Greater(t, more, 0.02)
	assert.Less(t, more, 0.13)
}

// The charge alone: d = -c u² q/Σ c² u².
func TestCloseSharesTheImbalance(t *testing.T) {
	c := odd(t)
	r := reportOf(c)
	var sum, q float64
	for i := range r {
		if r[i].Quantity == "SO4--" {
			r[i].Value *= 1.1
			q = -2 * 0.1 * float64(c.Amount(Sulfate))
		}
	}
	got, err := r.Close()
	require.NoError(t, err)
	checks.Absolute(t, "imbalance", float64(got.Imbalance), q, 1e-6)
	for _, f := range got.Fits {
		sum += math.Pow(chargeOf(f.Quantity)*f.Uncertainty, 2)
	}
	checks.Relative(t, "its uncertainty", float64(got.ImbalanceUncertainty), math.Sqrt(sum), 1e-9)
	for _, f := range got.Fits {
		want := -chargeOf(f.Quantity) * f.Uncertainty * f.Uncertainty * q / sum
		checks.Absolute(t, f.Quantity, f.Closed-f.Measured, want, 1e-6)
	}
	checks.Absolute(t, "charge", got.Composition.Charge().MolesPerKilogram(), 0, 1e-9)
	assert.False(t, got.Unbalanced())
	assert.Empty(t, got.Suspect)
}

// chargeOf is the coefficient of a line in the imbalance.
func chargeOf(quantity string) float64 {
	if quantity == "alkalinity" {
		return -1
	}
	if i, ok := Lookup(quantity); ok {
		return float64(species[i].protons)
	}
	return 0
}

// Everything measured, per litre, and every property besides: least squares
// leaves alone what agrees.
func TestCloseWithEverything(t *testing.T) {
	c := odd(t)
	r := append(reportOf(c), wholes(c)...)
	rho := c.Density(warm).GramsPerMillilitre()
	for i := range r {
		if r[i].Unit == "umol/kg" {
			r[i].Value *= rho
			r[i].Unit = "umol/L"
		}
	}
	got, err := r.Close()
	require.NoError(t, err)
	assert.True(t, got.Composition.Equal(c, 1e-9*units.MolePerKilogram))
	assert.False(t, got.Unbalanced())
	assert.Len(t, got.Fits, len(r)-1, "all but the temperature")
	for _, f := range got.Fits {
		checks.Absolute(t, f.Quantity, f.Sigmas(), 0, 1e-6)
	}
}

// A wrong chloride that the properties contradict is named.
func TestCloseNamesTheSuspect(t *testing.T) {
	c := odd(t)
	r := reportOf(c)
	for i := range r {
		r[i].Uncertainty = 0.01 * r[i].Value
		if r[i].Quantity == "Cl-" {
			r[i].Value *= 0.92
		}
	}
	got, err := r.Close()
	require.NoError(t, err)
	assert.True(t, got.Unbalanced())
	assert.Equal(t, "Cl-", got.Suspect)
	checks.Absolute(t, "charge", got.Composition.Charge().MolesPerKilogram(), 0, 1e-9)

	w := wholes(c)
	w[1].Uncertainty = 0.05
	with, err := append(r, w[1]).Close()
	require.NoError(t, err)
	assert.Equal(t, "Cl-", with.Suspect)
	off := func(g Closure) float64 {
		return math.Abs(float64(g.Composition.Amount(Chloride) - c.Amount(Chloride)))
	}
	assert.Less(t, off(with), off(got), "the conductivity helps")

	for i := range r {
		if r[i].Quantity == "Cl-" {
			r[i].Value /= 10 // a unit slipped
		}
	}
	_, err = r.Close()
	var unclosed *UnclosedError
	require.ErrorAs(t, err, &unclosed)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.Greater(t, unclosed.Imbalance.MillimolesPerKilogram(), 400.0)
	assert.ErrorContains(t, err, "imbalance 506.")
	assert.Equal(t, "Cl-", unclosed.Suspect)
	assert.True(t, strings.HasSuffix(err.Error(), "mmol/kg of charge); look at Cl- first, which alone would explain it"), err)
	_, err = Report{{Quantity: "Ca", Value: 400, Unit: "mg/L"}}.Close()
	assert.True(t, strings.HasSuffix(err.Error(), "mmol/kg of charge)"), err)

	// The smaller ions too, where the charges are off but can still be closed.
	for slip, by := range map[string]float64{"K+": 10, "Mg++": 0.1, "Na+": 0.8, "Cl-": 0.8} {
		r := reportOf(Reference(units.Practical(35)))
		for i := range r {
			r[i].Uncertainty = 0.02 * r[i].Value
			if r[i].Quantity == slip {
				r[i].Value *= by
			}
		}
		got, err := r.Close()
		require.NoError(t, err, slip)
		assert.True(t, got.Unbalanced(), slip)
		assert.Equal(t, slip, got.Suspect)
	}

	// A slipped decimal point of any large ion is named.
	for _, slip := range []string{"Na+", "Mg++", "Ca++", "SO4--", "Cl-"} {
		r := reportOf(c)
		for i := range r {
			if r[i].Quantity == slip {
				r[i].Value *= 10
			}
		}
		_, err := r.Close()
		require.ErrorAs(t, err, &unclosed, slip)
		assert.Equal(t, slip, unclosed.Suspect)
	}
}

// The closed composition is the best there is: a step in any direction that
// keeps the charges balanced makes the sum of squares larger.
func TestCloseIsLeastSquares(t *testing.T) {
	c := odd(t)
	w := wholes(c)
	r := append(reportOf(c), w[2], w[3])
	for i := range r {
		r[i].Uncertainty = 0.01 * math.Abs(r[i].Value)
		switch r[i].Quantity {
		case "Cl-":
			r[i].Value *= 0.97
		case "SO4--":
			r[i].Value *= 1.05
		case "K+":
			r[i].Value *= 0.99
		case "density":
			r[i].Value, r[i].Uncertainty = r[i].Value+0.1, 0.1
		}
	}
	got, err := r.Close()
	require.NoError(t, err)
	sum := func(c Composition) (s float64) {
		for _, f := range got.Fits {
			switch i, ok := Lookup(f.Quantity); {
			case f.Quantity == "density":
				f.Closed = c.Shown(Density, warm).GramsPerKilogram()
			case f.Quantity == "conductivity":
				f.Closed = c.Shown(Conductivity, warm).GramsPerKilogram()
			case ok:
				f.Closed = float64(c.Amount(i))
			}
			s += f.Sigmas() * f.Sigmas()
		}
		return s
	}
	least := sum(got.Composition)
	for _, d := range []Composition{
		Composition{}.With(Sodium, 1).With(Chloride, 1),
		Composition{}.With(Magnesium, 1).With(Sodium, -2),
		Composition{}.With(Calcium, 1).With(Chloride, 2),
		Composition{}.With(Potassium, 1).With(Sodium, -1),
		Composition{}.With(Sulfate, 1).With(Chloride, -2),
		Composition{}.With(Sulfate, 1).With(Magnesium, 1),
	} {
		for _, step := range []float64{-100, -30, 30, 100} {
			assert.Greater(t, sum(got.Composition.Plus(d.Scale(step))), least, d.content)
		}
	}
}

// What is not reported follows the chloride that is found, not a wrong one; and
// if it had to bear the imbalance, that is said.
func TestAssumedFollowsChloride(t *testing.T) {
	r := Report{
		{Quantity: "Na", Value: 10750, Unit: "mg/L", Uncertainty: 100},
		{Quantity: "Cl", Value: 17900, Unit: "mg/L", Uncertainty: 180},
		{Quantity: "Mg", Value: 1290, Unit: "mg/L", Uncertainty: 20},
		{Quantity: "density", Value: 1023.3, Unit: "kg/m3", Uncertainty: 0.05},
		{Quantity: "temperature", Value: 25, Unit: "°C"},
	}
	got, err := r.Close()
	require.NoError(t, err)
	assert.Equal(t, "Cl", got.Suspect)
	ratio := func(c Composition, i Ion) float64 { return float64(c.Amount(i) / c.Amount(Chloride)) }
	checks.Relative(t, "strontium", ratio(got.Composition, Strontium), ratio(seawater35, Strontium), 0.005)
	checks.Relative(t, "boron", float64(got.Composition.Boron()/got.Composition.Amount(Chloride)), float64(seawater35.Boron()/seawater35.Amount(Chloride)), 0.005)
	assert.Greater(t, ratio(got.Composition, Sulfate), 1.1*ratio(seawater35, Sulfate))
	assert.Contains(t, strings.Join(got.Assumed, "\n"), "sulfate was not reported and would have to be 1")
	checks.Absolute(t, "charge", got.Composition.Charge().MolesPerKilogram(), 0, 1e-9)
}

const typical = `quantity, value, unit, uncertainty
# sample of a tank
Ca, 412, mg/L, 4
Mg; 1290; mg/L
K	399	mg/L
S, 900, mg/L, 2 %
"Li", <0.2, mg/L
NO3 as N, 1.2, mg/L
PO4-P, 0.02, mg/L, ± 0.01
Al, 3, ug/L

alkalinity, 7.6, dKH, 0.2
pH, 8.1, NBS
conductivity, 53.1, mS/cm, 0.2
temperature, 25, °C,
`

func TestTypicalReport(t *testing.T) {
	r, err := ReadReport(typical)
	require.NoError(t, err)
	require.Len(t, r, 12)
	assert.Equal(t, Measurement{Quantity: "Ca", Value: 412, Unit: "mg/L", Uncertainty: 4}, r[0])
	assert.Equal(t, Measurement{Quantity: "S", Value: 900, Unit: "mg/L", Uncertainty: 18}, r[3])
	assert.Equal(t, Measurement{Quantity: "Li", Value: 0.2, Unit: "mg/L", Below: true}, r[4])
	got, err := r.Close()
	require.NoError(t, err)
	rho := got.Composition.Density(warm).GramsPerMillilitre()
	checks.Relative(t, "calcium", got.Composition.Amount(Calcium).MillimolesPerKilogram(), 412/40.078/rho, 1e-10)
	checks.Relative(t, "sulfate", got.Composition.Amount(Sulfate).MillimolesPerKilogram(), 900/32.06/rho, 1e-10)
	checks.Relative(t, "nitrate", got.Composition.Amount(Nitrate).MillimolesPerKilogram(), 1.2/14.007/rho, 1e-10)
	checks.Relative(t, "lithium", got.Composition.Amount(Lithium).MillimolesPerKilogram(), 0.1/6.94/rho, 1e-10)
	checks.Relative(t, "alkalinity", got.Composition.Alkalinity().MillimolesPerKilogram(), float64(units.DKH(7.6).MilliequivalentsPerLitre())/rho, 1e-10)
	checks.Absolute(t, "conductivity", float64(got.Composition.Conductivity(warm)), 53.1, 1e-9)
	checks.Absolute(t, "charge", got.Composition.Charge().MolesPerKilogram(), 0, 1e-9)
	checks.Relative(t, "strontium to chloride", float64(got.Composition.Amount(Strontium)/got.Composition.Amount(Chloride)),
		float64(seawater35.Amount(Strontium)/seawater35.Amount(Chloride)), 1e-12)
	assert.Equal(t, []string{
		"all sulfur is sulfate",
		"traces of elements that are not among the ions are left out",
		"contents reported without an uncertainty have one of 2 %",
		"what is below a limit of detection is taken as half of it",
		"sodium and chloride are inferred from the balance of charge and the conductivity",
		"strontium, bromide, fluoride, boron: not reported, taken in proportion to chloride as in the sea",
	}, got.Assumed)
	assert.Equal(t, Assumed, got.Origin(Strontium))
	assert.Equal(t, Absent, got.Origin(255))
	assert.Equal(t, Absent, got.Origin(count))
	assert.Equal(t, "assumed inferred measured absent", Assumed.String()+" "+Inferred.String()+" "+Measured.String()+" "+Absent.String())
}

// With nothing but a salinity the result is the sea.
func TestSalinityAlone(t *testing.T) {
	got, err := Report{{Quantity: "salinity", Value: 35, Unit: "PSU"}}.Close()
	require.NoError(t, err)
	want, err := seawater35.Settled(units.Celsius(20))
	require.NoError(t, err)
	assert.True(t, got.Composition.Equal(want, 20), "but for the equilibrium at another temperature")
	assert.Contains(t, strings.Join(got.Assumed, "; "), "magnesium, calcium, potassium, strontium, sulfate, bromide, fluoride, boron: not reported")
	ppt, err := Report{{Quantity: "salinity", Value: 35, Unit: "ppt"}}.Close()
	require.NoError(t, err)
	assert.Equal(t, got.Composition, ppt.Composition)
	assert.Contains(t, ppt.Assumed, "a salinity of 35 ppt is read as practical salinity")
	assert.Contains(t, strings.Join(got.Assumed, "; "), "alkalinity: not reported")
	assert.Contains(t, strings.Join(got.Assumed, "; "), "neither pH nor DIC is reported")
}

func TestRefusals(t *testing.T) {
	for text, want := range map[string]string{
		"":                                     `report: got no measurement`,
		"# nothing":                            `report: got no measurement`,
		"a heading, value":                     `report: got no measurement`,
		"Ca":                                   `line 1: measurement: got "Ca", want quantity, value, unit`,
		", 5, mg/L":                            `line 1: measurement: got ", 5, mg/L", want a quantity first`,
		"Ca, five, mg/L":                       `line 1: Ca: got "five", want a number such as "412.5" or "<0.01"`,
		"Ca, NaN, mg/L":                        `line 1: Ca: got "NaN", want a number`,
		"Ca, 0x10, mg/L":                       `line 1: Ca: got "0x10", want a number`,
		"Ca, 1e999, mg/L":                      `line 1: Ca: got "1e999", want a number`,
		"Ca; 420,5; mg/L":                      `line 1: Ca: got "420,5", want a point for decimals and no mark for thousands`,
		"\nCa, 420,5, mg/L":                    `line 2: Ca: got "420,5", want a point for decimals, or semicolons`,
		"Ca, 420, mg/L, some":                  `line 1: Ca.uncertainty: got "some", want a standard uncertainty`,
		"Ca, 420, mg/L, -3":                    `line 1: Ca.uncertainty: got "-3"`,
		"Ca, 420, mg/L, 3, 4":                  `line 1: measurement: got "Ca, 420, mg/L, 3, 4"`,
		"Xx, 5, mg/L":                          `quantity: got "Xx", want an element or ion such as "Ca" or "SO4", alkalinity`,
		"Ca, 5, mg":                            `Ca.unit: got "mg", want a unit such as "mg/L"`,
		"Ca, 5":                                `Ca.unit: got "", want a unit such as "mg/L"`,
		"Ca, 5, ppm":                           `Ca.unit: got "ppm", want "mg/L" or "mg/kg"`,
		"NO3, 5, mg/L":                         `quantity: got "NO3", want to know as what a mass of it is counted: "nitrate as N" or "nitrate as NO3"`,
		"NO2, 5, mg/L":                         `"nitrite as N" or "nitrite as NO2"`,
		"ammonia, 5, mg/L":                     `"ammonium as N" or "ammonium as NH4" or "ammonium as NH3"`,
		"PO4, 5, mg/L":                         `"phosphate as P" or "phosphate as PO4"`,
		"silicate, 5, mg/L":                    `"silicate as Si" or "silicate as SiO2"`,
		"borate, 5, mg/L":                      `"boric acid as B" or`,
		"N, 5, mg/L":                           `quantity: got "N", want the ion that holds it`,
		"NO3 as P, 5, mg/L":                    `quantity: got "NO3 as P", want "nitrate as N" or "nitrate as NO3"`,
		"Na as Cl, 5, mg/L":                    `quantity: got "Na as Cl", want "sodium"`,
		"HCO3, 140, mg/L":                      `quantity: got "HCO3", want alkalinity together with pH or DIC`,
		"Al|Ag, 5, ug/L":                       `quantity: got "Al|Ag"`,
		", ,":                                  `report: got no measurement`,
		"Al, 5000, ug/L":                       `Al: got 5000 ug/L, want less than 1 mg/L`,
		"Ca, -5, mg/L\nCl,1,g/L":               `Ca: got -5 mg/L, want a content that seawater can have`,
		"Ca, 5, mg/L\nCa, 6, mg/L":             `Ca: got it a second time, want each quantity once`,
		"S, 900, mg/L\nSO4, 2700, mg/L":        `SO4: got it a second time`,
		"salinity, 35, PSU\nsalinity, 35, ppt": `salinity: got it a second time`,
		"temperature,20,°C\ntemperature,20,°C": `temperature: got it a second time`,
		"pH,8,NBS\npH,8,NBS":                   `pH: got it a second time`,
		"temperature, 25, x":                   `temperature.unit: got "x", want "°C" or "°F"`,
		"temperature, 55, °C":                  `temperature: 55 °C is outside 0 to 40 °C`,
		"alkalinity, 5, ppm":                   `alkalinity.unit: got "ppm", want a unit such as "meq/L", "dKH"`,
		"pH, 8.1":                              `temperature: got nothing, want the temperature of the sample for its pH`,
		"density, 1023, kg/m3":                 `temperature: got nothing, want the temperature of the sample for its density`,
		"pH, 8.1\ntemperature, 25, °C":         `pH.unit: got "", want the scale: "total"`,
		"pH, 4, NBS\ntemperature, 25, °C":      `pH: got 4, want 6 to 10`,
		"salinity, 35, x":                      `salinity.unit: got "x", want "PSS-78"`,
		"density, 1, x\ntemperature, 25, °C":   `density.unit: got "x", want "kg/m3"`,
		"conductivity, 53, mS\ntemperature, 25, °C": `conductivity.unit: got "mS", want "mS/cm"`,
		"chlorinity, 19, x":                         `chlorinity.unit: got "x", want "g/kg"`,
		"index, 1.339, x\ntemperature, 25, °C":      `index.unit: got "x", want none`,
		"salinity, 90, PSU":                         `salinity: got 90 PSU, want what seawater up to salinity 60 has`,
		"salinity, <3, PSU":                         `salinity: got less than 3, want a value`,
		"DIC, 2000, umol/kg\nalkalinity, 2300, umol/kg\npH, 8.1, total\ntemperature, 25, °C": `pH: got pH, DIC and alkalinity, want two of the three`,
		"DIC, 2000, umol/kg\npH, 8.1, total\ntemperature, 25, °C":                            `pH: got pH and DIC without alkalinity`,
		"Ca, 400, mg/L":                                           `composition cannot be closed: sodium and chloride are missing; it takes one of them, or salinity, density`,
		"Ca, 3, mol/kg\nsalinity, 35, PSU":                        `no sodium and chloride give the salinity that was measured`,
		"Na, 10780, mg/L\nCl, 1935, mg/L":                         `more than ten times their uncertainty`,
		"Na, 10, mg/L\nSO4, 9000, mg/L":                           `sodium or chloride would have to be negative`,
		"Na, 10780, mg/L\nCl, 19350, mg/L\nalkalinity, -5, meq/L": `bicarbonate would have to be negative`,
	} {
		r, err := ReadReport(text)
		if err == nil {
			_, err = r.Close()
		}
		require.Error(t, err, text)
		assert.ErrorContains(t, err, want, text)
		assert.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange), text)
	}
	_, err := ReadReport(strings.Repeat("Ca, 1, mg/L\n", 201))
	assert.ErrorContains(t, err, "more than 200 measurements")
	_, err = Report(make([]Measurement, 201)).Close()
	assert.ErrorIs(t, err, units.ErrInput)
	for _, m := range []Measurement{{Quantity: "Ca", Value: math.NaN(), Unit: "mg/L"}, {Quantity: "Ca", Value: 1, Unit: "mg/L", Uncertainty: -1}, {Quantity: "Ca", Value: 1, Unit: "mg/L", Uncertainty: math.NaN()}, {Quantity: "Ca", Value: math.Inf(1), Unit: "mg/L"}} {
		got, err := Report{m}.Close()
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(got.Composition.Amount(Sodium))))
	}
}

// A report has 1 to 200 lines.
func TestReportLength(t *testing.T) {
	lines := make(Report, mostLines+1)
	for i := range lines {
		lines[i] = Measurement{Quantity: "Al", Value: 1, Unit: "ug/L"}
	}
	assert.Equal(t, 200, mostLines)
	for _, r := range []Report{nil, {}, lines} {
		_, err := r.Close()
		assert.ErrorContains(t, err, "measurements, want 1 to 200")
	}
	_, err := lines[:mostLines].Close()
	assert.ErrorContains(t, err, "sodium and chloride are missing", "as many as may be")
	for n, ok := range map[int]bool{mostLines: true, mostLines + 1: false} {
		_, err := ReadReport(strings.Repeat("Al, 1, ug/L\n", n))
		assert.Equal(t, ok, err == nil, n)
	}
}

// A message is not as long as what it complains of.
func TestMessagesAreShort(t *testing.T) {
	long := strings.Repeat("x", 1<<20)
	for _, text := range []string{long, long + ", 5, mg/L", "Ca, " + long + ", mg/L", "Ca, 5, mg/L, " + long, "Ca, 5, mg/L, 3, " + long, "Ca," + long + ",\n"} {
		_, err := ReadReport(text)
		require.ErrorIs(t, err, units.ErrInput)
		assert.Less(t, len(err.Error()), 500)
	}
	for _, m := range []Measurement{
		{Quantity: long, Value: 5, Unit: "mg/L"}, {Quantity: long, Value: math.NaN(), Unit: "mg/L"}, {Quantity: "Ca", Value: 5, Unit: long},
		{Quantity: "Ca", Value: 5, Unit: "mg/L" + strings.Repeat(" ", 1<<20)}, {Quantity: "Ca", Value: 5, Unit: long, Uncertainty: -1},
		{Quantity: "pH", Value: 8, Unit: long}, {Quantity: "temperature", Value: 8, Unit: long}, {Quantity: "density", Value: 8, Unit: long},
		{Quantity: strings.Repeat(" ", 1<<20) + "Ca", Value: 5, Unit: "mg/L"},
	} {
		_, err := Report{m}.Close()
		require.ErrorIs(t, err, units.ErrInput)
		assert.Less(t, len(err.Error()), 500)
	}
	var i Ion
	err := i.UnmarshalText([]byte(long))
	require.ErrorIs(t, err, units.ErrInput)
	assert.Less(t, len(err.Error()), 500)
}

// Units and ways of counting that mean the same give the same. Molar masses are sums of
// the IUPAC 2021 weights.
func TestWaysOfCounting(t *testing.T) {
	base := Report{{Quantity: "salinity", Value: 35, Unit: "PSU"}, {Quantity: "temperature", Value: 25, Unit: "°C"}}
	content := func(quantity, unit string, value float64, i Ion) float64 {
		got, err := append(base[:2:2], Measurement{Quantity: quantity, Value: value, Unit: unit}).Close()
		require.NoError(t, err, quantity)
		if i == BoricAcid {
			return float64(got.Composition.Boron())
		}
		return float64(got.Composition.Amount(i))
	}
	for _, r := range []struct {
		quantity, unit string
		value          float64
		ion            Ion
		want           float64 // µmol/kg
	}{
		{"nitrate as N", "mg/kg", 1.4007, Nitrate, 100},
		{"NO3-N", "ug/kg", 1400.7, Nitrate, 100},
		{"NO3 as NO3", "mg/kg", 6.2004, Nitrate, 100},
		{"NO3-", "umol/kg", 100, Nitrate, 100},
		{"NH4-N", "mg/kg", 1.4007, Ammonium, 100},
		{"phosphate as PO4", "mg/kg", 9.4970, Phosphate, 100},
		{"P", "mg/kg", 3.0974, Phosphate, 100},
		{"SO4", "g/kg", 2.7, Sulfate, 2.7 / 96.056 * 1e6},
		{"SO4 as S", "mg/kg", 900, Sulfate, 900 / 32.06 * 1e3},
		{"sulphur", "mg/kg", 900, Sulfate, 900 / 32.06 * 1e3},
		{"B", "mg/kg", 4.5, BoricAcid, 4.5 / 10.81 * 1e3},
		{"boric acid", "mg/kg", 25, BoricAcid, 25 / 61.831 * 1e3},
		{"H3BO3", "mg/kg", 25, BoricAcid, 25 / 61.831 * 1e3},
		{"H3BO3 as B", "mg/kg", 4.5, BoricAcid, 4.5 / 10.81 * 1e3},
		{"Si", "mg/kg", 2.8085, Silicate, 100},
		{"silica", "mg/kg", 6.0083, Silicate, 100},
		{"SiO2", "mg/kg", 6.0083, Silicate, 100},
		{"Calcium as CaCO3", "mg/kg", 1000, Calcium, 1000 / 100.086 * 1e3},
		{"iodine", "ug/kg", 60, Iodide, 60 / 126.90},
		{"Mo", "ug/kg", 9.595, Molybdate, 0.1},
		{"Fe", "ug/kg", 5.5845, Iron, 0.1},
	} {
		checks.Relative(t, r.quantity, content(r.quantity, r.unit, r.value, r.ion), r.want, 1e-9)
	}
	perLitre := content("K", "mg/L", 400, Potassium)
	checks.Relative(t, "per litre", perLitre, 400/39.098/1.02334*1e3, 1e-4)
}

// A factor between a report and the sea is named: slipped points and units, and
// masses counted as something else. The sea is that of [MFWM08] in mg/L.
func TestCloseDoubtsWhatNoSeaHas(t *testing.T) {
	report := func(changed string, value, u float64) Report {
		r := Report{
			{Quantity: "Mg", Value: 1313, Unit: "mg/L"}, {Quantity: "Ca", Value: 421, Unit: "mg/L"},
			{Quantity: "K", Value: 408, Unit: "mg/L"}, {Quantity: "SO4", Value: 2775, Unit: "mg/L"},
			{Quantity: "Sr", Value: 8.1, Unit: "mg/L"}, {Quantity: "B", Value: 4.6, Unit: "mg/L"},
			{Quantity: "Br", Value: 69, Unit: "mg/L"}, {Quantity: "F", Value: 1.3, Unit: "mg/L"},
			{Quantity: "alkalinity", Value: 2.35, Unit: "meq/L"},
			{Quantity: "conductivity", Value: 53.07, Unit: "mS/cm"}, {Quantity: "temperature", Value: 25, Unit: "°C"},
		}
		for i := range r {
			if r[i].Quantity == changed {
				r[i].Value, r[i].Uncertainty = value, u
			}
		}
		return r
	}
	for _, r := range []struct {
		what     string
		value, u float64
		says     string
	}{
		{"Ca", 0.412, 0, "Ca: 0.412 mg/L is 0.00098"}, // g/L written as mg/L
		{"Ca", 42.1, 0, "Ca: 42.1 mg/L is 0.1"},
		{"Ca", 1051, 0, "Ca: 1051 mg/L is 2.5"},  // as CaCO3
		{"SO4", 926, 0, "SO4: 926 mg/L is 0.33"}, // as S
		{"Sr", 81, 0, "Sr: 81 mg/L is 10"},
		{"Sr", 0.81, 0.1, "Sr: 0.81 mg/L is 0.1"},
		{"K", 40.8, 0, "K: 40.8 mg/L is 0.1"},
		{"Mg", 131.3, 0, "Mg: 131.3 mg/L is 0.1"},
		{"B", 46, 0, "B: 46 mg/L is 10"},
		{"Br", 6.9, 0, "Br: 6.9 mg/L is 0.1"},
		{"F", 13, 0, "F: 13 mg/L is 9.8"},
		{"alkalinity", 6.58, 0, "alkalinity: 6.58 meq/L is 2.8"}, // dKH
		{"Br", 0, 0, "Br: 0 mg/L is 0 times"},
		// what a tank may have, or the uncertainty allows
		{"Ca", 520, 0, ""}, {"Sr", 16, 0, ""}, {"B", 10, 0, ""}, {"alkalinity", 4.5, 0, ""}, {"SO4", 1400, 0, ""},
		{"F", 5, 2, ""}, {"Sr", 81, 30, ""},
	} {
		got, err := report(r.what, r.value, r.u).Close()
		require.NoError(t, err, r.says)
		if r.says == "" {
			assert.Empty(t, got.Doubts)
			assert.Empty(t, got.Suspect)
			continue
		}
		require.Len(t, got.Doubts, 1, r.says)
		assert.True(t, strings.HasPrefix(got.Doubts[0], r.says), got.Doubts[0])
		assert.Equal(t, r.what, got.Suspect, r.says)
	}

	// Two lines that contradict each other: the dissolved mass decides.
	got, err := Report{{Quantity: "Ca", Value: 0.412, Unit: "mg/L"}, {Quantity: "salinity", Value: 35, Unit: "PSU"}}.Close()
	require.NoError(t, err)
	assert.Equal(t, "Ca", got.Suspect)
	got, err = Report{{Quantity: "Na", Value: 10780, Unit: "mg/L"}, {Quantity: "Ca", Value: 41.2, Unit: "mg/L"}}.Close()
	require.NoError(t, err)
	assert.Equal(t, "Ca", got.Suspect)

	// A limit of detection above the sea says nothing, one far below does.
	got, err = report("", 0, 0).withBelow("Sr", 100).Close()
	require.NoError(t, err)
	assert.Empty(t, got.Doubts)
	got, err = report("", 0, 0).withBelow("Br", 5).Close()
	require.NoError(t, err)
	assert.Equal(t, "Br", got.Suspect)

	// Brackish water keeps the alkalinity of the river.
	brackish, err := Report{
		{Quantity: "Ca", Value: 60, Unit: "mg/L"}, {Quantity: "Mg", Value: 190, Unit: "mg/L"},
		{Quantity: "alkalinity", Value: 2.3, Unit: "meq/L"}, {Quantity: "salinity", Value: 5, Unit: "PSU"},
	}.Close()
	require.NoError(t, err)
	assert.Empty(t, brackish.Doubts)
}

// What the screen takes for the sea: Millero et al. 2008, at salinity 35.
func TestSeaOf(t *testing.T) {
	for _, r := range []struct {
		what quantity
		want string
	}{
		{quantity{kind: bulk, whole: byChlorinity}, "19.373945"},
		{quantity{kind: bulk, whole: byMass}, "35.16504"},
		{quantity{kind: bulk, whole: byConductivity}, "35.16504"},
		{quantity{kind: alkalinity}, "2304"},
		{quantity{kind: carbon}, "1966"},
		{quantity{kind: content, ion: BoricAcid}, "415.1"},
		{quantity{kind: content, ion: Calcium}, "10282"},
		{quantity{kind: content, ion: Lithium}, "0"},
	} {
		checks.Printed(t, r.want, seaOf(&line{quantity: r.what}), r.want)
	}
	c := closing{lines: []line{
		{quantity: quantity{ion: Calcium}, value: 10282}, {quantity: quantity{ion: Magnesium}, value: 5281.7},
		{quantity: quantity{ion: Potassium}, value: 20415}, {quantity: quantity{ion: Strontium}, value: 9e9, Measurement: Measurement{Below: true}},
	}}
	checks.Relative(t, "the median of 1, 0.1 and 2", c.strength(), 1, 1e-4)
}

// withBelow is the report with one quantity below a limit.
func (r Report) withBelow(quantity string, limit float64) Report {
	for i := range r {
		if r[i].Quantity == quantity {
			r[i].Value, r[i].Below = limit, true
		}
	}
	return r
}

func FuzzReport(f *testing.F) {
	f.Add(typical)
	f.Add("Na, 10780, mg/L\nCl, 19350, mg/L\nsalinity, 35, PSU\ndensity, 1023, kg/m3\ntemperature, 77, °F")
	f.Add("Ca; <420,5; mg/L\n;;\n,,,")
	f.Add("\"Ca\", \"1e300\", mol/kg, 5 %")
	f.Add("pH, 8.1, total\ntemperature, 0, °C\nindex, 1.34\nMg, 1, mol/L")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ReadReport(text)
		if err != nil {
			assert.ErrorIs(t, err, units.ErrInput)
			return
		}
		got, err := r.Close()
		if err != nil {
			assert.True(t, math.IsNaN(float64(got.Composition.Amount(Sodium))), "an ignored error cannot pass for a water")
			return
		}
		assert.NoError(t, got.Composition.Check())
		assert.LessOrEqual(t, math.Abs(got.Composition.Charge().MolesPerKilogram()), 1e-9)
	})
}

func BenchmarkClose(b *testing.B) {
	b.ReportAllocs()
	r, err := ReadReport(typical)
	require.NoError(b, err)
	for range b.N {
		_, _ = r.Close()
	}
}
