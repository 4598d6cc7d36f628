package salts

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/internal/formula"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

func must(t testing.TB, text string) Compound {
	t.Helper()
	c, err := Find(text)
	require.NoError(t, err)
	return c
}

func TestCompoundsAgainstTable(t *testing.T) {
	rows := checks.Table(t, "testdata/compounds.csv")
	require.Len(t, rows, len(compounds)-1)
	for _, r := range rows {
		c := must(t, r["formula"])
		assert.Equal(t, c, must(t, strings.ToUpper(r["name"])))
		assert.Equal(t, c, must(t, r["cas"]))
		assert.Equal(t, r["formula"], c.String())
		checks.Printed(t, r["formula"], c.MolarMass().GramsPerMole(), r["molar_mass"])
		assert.Equal(t, r.Float(t, "waters"), float64(c.Waters()), r["formula"])
		checks.Absolute(t, r["formula"]+" alkalinity", c.Alkalinity(), r.Float(t, "alkalinity"), 0)
		parent := r["anhydrous"]
		if parent == "" {
			parent = r["formula"]
		}
		assert.Equal(t, must(t, parent), c.Anhydrous())
		checks.Relative(t, r["formula"]+" anhydrous", 1/c.dilution(), r.Float(t, "anhydrous_fraction"), 1e-12)
	}
}

// Every entry is electrically neutral, weighs what its species weigh, and has
// a CAS number whose check digit is right.
func TestTableIsSound(t *testing.T) {
	for c := range All() {
		f, err := ParseFormula(c.Formula())
		require.NoError(t, err, c.Formula())
		assert.Positive(t, f.MolarMass().GramsPerMole())
		assert.Zero(t, float64(c.Dose(1).Charge()), c.Formula())
		assert.NotEmpty(t, c.Cautions())

		digits, sum := strings.ReplaceAll(c.CAS(), "-", ""), 0
		for i := 0; i < len(digits)-1; i++ {
			sum += int(digits[len(digits)-2-i]-'0') * (i + 1)
		}
		assert.Equal(t, int(digits[len(digits)-1]-'0'), sum%10, c.CAS())

		if p := compounds[c.index].parent; p != "" {
			assert.True(t, must(t, p).index < c.index, c.Formula())
			assert.Equal(t, f.dry().counts.Atoms, must(t, p).parsed().counts.Atoms, c.Formula())
		}
		text, err := c.MarshalText()
		require.NoError(t, err)
		var back Compound
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, c, back)
	}
}

// The elements that a compound releases are those of its formula, so that no
// release is misspelt: here for every metal and halogen.
func TestReleaseKeepsElements(t *testing.T) {
	of := map[string]map[ions.Ion]int{
		"Na": {ions.Sodium: 1}, "Mg": {ions.Magnesium: 1}, "Ca": {ions.Calcium: 1}, "K": {ions.Potassium: 1},
		"Sr": {ions.Strontium: 1}, "Li": {ions.Lithium: 1}, "Ba": {ions.Barium: 1}, "Mn": {ions.Manganese: 1},
		"Zn": {ions.Zinc: 1}, "Fe": {ions.Iron: 1}, "Cl": {ions.Chloride: 1}, "Br": {ions.Bromide: 1}, "F": {ions.Fluoride: 1},
		"I": {ions.Iodide: 1, ions.Iodate: 1}, "S": {ions.Sulfate: 1}, "P": {ions.Phosphate: 1},
		"B": {ions.BoricAcid: 1, ions.Borate: 1}, "N": {ions.Nitrate: 1, ions.Ammonium: 1},
		"C": {ions.Bicarbonate: 1, ions.Carbonate: 1, ions.Acetate: 2},
	}
	for c := range All() {
		if len(compounds[c.index].release) == 0 { // alcohol and sugars
			continue
		}
		for element, holders := range of {
			sum := 0
			for r := range c.Releases() {
				sum += int(r.Moles) * holders[r.Ion]
			}
			assert.Equal(t, c.parsed().Atoms(element), sum, "%s of %s", element, c)
		}
	}
}

// Every element of the table, as Prohaska et al. 2022 print it.
func TestAtomicWeights(t *testing.T) {
	rows := checks.Table(t, "testdata/atomic_weights.csv")
	require.Len(t, rows, len(formula.Elements))
	for _, r := range rows {
		assert.Equal(t, r.Float(t, "weight"), float64(formula.Elements[formula.Index(r["symbol"])].Weight), r["symbol"])
	}
}

// A compound weighs what its ions weigh and whole molecules of water: the atomic
// weights of package ions and of this one are one set. Iron is counted without the three
// hydroxides that it takes.
func TestOneSetOfWeights(t *testing.T) {
	const water, hydroxide = 18.015, 17.007
	for c := range All() {
		if len(compounds[c.index].release) == 0 {
			continue
		}
		rest := c.MolarMass().GramsPerMole()
		for r := range c.Releases() {
			rest -= float64(r.Moles) * r.Ion.MolarMass().GramsPerMole()
		}
		rest -= 3 * hydroxide * c.Gives(ions.Iron)
		checks.Absolute(t, c.Formula(), rest, water*math.Round(rest/water), 1e-9)
	}
	for _, e := range []struct {
		symbol string
		as     units.MolarMass
	}{
		{"N", units.AsNitrogen}, {"P", units.AsPhosphorus}, {"Si", units.AsSilicon}, {"S", units.AsSulfur}, {"B", units.AsBoron},
		{"C", units.AsCarbon}, {"Ca", units.AsCalcium}, {"Mg", units.AsMagnesium}, {"K", units.AsPotassium}, {"Sr", units.AsStrontium},
		{"Na", units.AsSodium}, {"Cl", units.AsChloride}, {"Br", units.AsBromide}, {"F", units.AsFluoride}, {"I", units.AsIodine},
		{"Fe", units.AsIron}, {"O2", units.AsOxygen}, {"N2", units.AsDinitrogen}, {"CO2", units.AsCarbonDioxide}, {"NO3", units.AsNitrate},
		{"NO2", units.AsNitrite}, {"NH3", units.AsAmmonia}, {"NH4", units.AsAmmonium}, {"PO4", units.AsPhosphate}, {"SiO2", units.AsSilica},
		{"SO4", units.AsSulfate}, {"H3BO3", units.AsBoricAcid}, {"CaCO3", units.AsCalciumCarbonate}, {"IO3", units.AsIodate},
	} {
		f, err := ParseFormula(e.symbol)
		require.NoError(t, err)
		checks.Absolute(t, e.symbol, float64(e.as), float64(f.MolarMass()), 1e-9)
	}
}

func TestFormulas(t *testing.T) {
	for _, r := range []struct {
		text   string
		mass   string
		waters int
	}{
		{"CaCl2.2H2O", "147.008", 2},
		{"CaCl₂·2H₂O", "147.008", 2},
		{" CaCl2 * 2 H2O ", "147.008", 2},
		{"CaCl2(H2O)2", "147.008", 0},
		{"CaCl2.(H2O)2", "147.008", 2},
		{"CaCl2·2(H2O)", "147.008", 2},
		{"MgSO4.(H2O)2.5H2O", "246.466", 7},
		{"H2O.HCl", "54.473", 0},
		{"CaO2.H2O2", "106.090", 0},
		{"2CaSO4.H2O", "290.283", 1},
		{"[Cu(NH3)4]SO4.H2O", "245.741", 1},
		{"H3BO3", "61.831", 0},
		{"B(OH)3", "61.831", 0},
		{"H2O", "18.015", 0},
		{"C12H22O11", "342.297", 0},
		{"KAl(SO4)2.12H2O", "474.372", 12},
	} {
		f, err := ParseFormula(r.text)
		if assert.NoError(t, err) {
			checks.Printed(t, r.text, f.MolarMass().GramsPerMole(), r.mass)
		}
		assert.Equal(t, r.waters, f.Waters(), r.text)
	}
	for _, r := range []struct{ text, want string }{
		{"", `formula: got "", want an element`},
		{"CaCl2.", `formula: got "CaCl2.", want an element`},
		{"CaCl2.2", `formula: got "CaCl2.2", want an element after the 2`},
		{"Xx2", `formula: got "Xx2", want a known element instead of "Xx"`},
		{"NaXx2", `formula: got "NaXx2" at "Xx2", want a known element instead of "Xx"`},
		{"Ca(OH", `want a group with its closing bracket`},
		{"Ca()2", `want a group with its closing bracket`},
		{"Ca(OH]2", `want a group with its closing bracket`},
		{"Ca)2", `formula: got "Ca)2" at ")2", want an element, a count, a bracket or a dot`},
		{"Na0Cl", `want counts from 1`},
		{"Na10000", `want counts up to 9999`},
		{"(Na999)999", `want counts up to 9999`},
		{"nacl", `want an element`},
		{"Na+", `formula: got "Na+" at "+", want an element, a count, a bracket or a dot`},
		{"CaSO4.0.5H2O", `want counts from 1`},
		{strings.Repeat("(", 9) + "H" + strings.Repeat(")", 9), `want fewer brackets in brackets`},
		{strings.Repeat("(", 100000), `want fewer brackets in brackets`},
	} {
		f, err := ParseFormula(r.text)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.ErrorContains(t, err, r.want)
		assert.Equal(t, Formula{}, f)
	}
	assert.Zero(t, Formula{}.MolarMass())
	f, _ := ParseFormula("MgSO4.7H2O")
	assert.Equal(t, 11, f.Atoms("O"))
	assert.Equal(t, 0, f.Atoms("Q"))
}

// A message is not as long as what it complains of.
func TestMessagesAreShort(t *testing.T) {
	for _, text := range []string{
		strings.Repeat("x", 1<<20), strings.Repeat("H", 1<<20), "X" + strings.Repeat("x", 1<<20), "Na" + strings.Repeat(" ", 1<<20) + "+",
		strings.Repeat("(", 1<<20), strings.Repeat("9", 1<<20), "H" + strings.Repeat(".H", 1<<16) + "?",
	} {
		_, err := ParseFormula(text)
		require.ErrorIs(t, err, units.ErrInput)
		assert.Less(t, len(err.Error()), 500)
		_, err = Find(text)
		require.ErrorIs(t, err, units.ErrInput)
		assert.Less(t, len(err.Error()), 500)
	}
}

func FuzzParseFormula(f *testing.F) {
	for c := range All() {
		f.Add(c.Formula())
	}
	f.Add("[Cu(NH3)4]SO4·H2O")
	f.Add("((((((((H))))))))9999")
	f.Add("9999H9999")
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ParseFormula(text)
		if err != nil {
			require.ErrorIs(t, err, units.ErrInput)
			require.Equal(t, Formula{}, got)
			return
		}
		m := got.MolarMass().GramsPerMole()
		require.True(t, m > 0 && m < 1e8, "%q weighs %v", text, m)
		require.LessOrEqual(t, 2*got.Waters(), got.Atoms("H"))
		twice, err := ParseFormula(text + "." + text)
		if err == nil { // the second part may begin with a count that joins nothing
			require.GreaterOrEqual(t, twice.MolarMass().GramsPerMole(), m)
		}
		if c, err := Find(text); err == nil {
			require.InEpsilon(t, m, c.MolarMass().GramsPerMole(), 1e-12)
		}
	})
}

func TestFind(t *testing.T) {
	assert.Equal(t, must(t, "H3BO3"), must(t, "B(OH)3"))
	assert.Equal(t, must(t, "Na2B4O7.10H2O"), must(t, "Na2B4O5(OH)4.8H2O"))
	assert.NotEqual(t, must(t, "MgCl2"), must(t, "MgCl2.6H2O"))
	for _, r := range []struct{ text, want string }{
		{"", `compound: got "", want a formula, name or CAS number such as "MgSO4.7H2O"`},
		{"sea salt", `compound: got "sea salt", want a formula`},
		{"potash", `compound: got "potash", want a formula`},
		{"Epsom", `compound: got "Epsom", want a formula`},
		{"MgSO4.5H2O", `compound: got "MgSO4.5H2O", want MgSO4 or MgSO4.7H2O`},
		{"CuSO4", `compound: got "CuSO4", want one of the compounds of this package`},
	} {
		c, err := Find(r.text)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.ErrorContains(t, err, r.want)
		assert.False(t, c.Exists())
	}
}

// What packages say, by the registry number that is printed beside it: CRC Handbook,
// "Common Names of Chemical Substances" and "Physical Constants of Inorganic Compounds",
// from memory.
func TestCommonNames(t *testing.T) {
	tried := map[string]bool{}
	for name, cas := range map[string]string{
		"baking soda": "144-55-8", "bicarbonate of soda": "144-55-8", "sodium bicarbonate": "144-55-8",
		"potassium bicarbonate": "298-14-6", "soda ash": "497-19-8", "washing soda": "6132-02-1",
		"Epsom salt": "10034-99-8", "Epsom salts": "10034-99-8", "Glauber's salt": "7727-73-3",
		"Glauber salt": "7727-73-3", "table salt": "7647-14-5", "common salt": "7647-14-5",
		"slaked lime": "1305-62-0", "hydrated lime": "1305-62-0", "quicklime": "1305-78-8",
		"caustic soda": "1310-73-2", "lye": "1310-73-2", "borax": "1303-96-4", "gypsum": "10101-41-4",
		"sal ammoniac": "12125-02-9",
	} {
		assert.Equal(t, cas, must(t, name).CAS(), name)
		assert.Equal(t, cas, must(t, " "+strings.ToUpper(name)).CAS(), name)
		tried[name] = true
	}
	for _, c := range commonNames {
		assert.True(t, tried[c.name], c.name)
		assert.Equal(t, c.formula, must(t, c.name).Formula())
	}
	assert.Equal(t, must(t, "Na2SO4.10H2O"), must(t, "glauber’s salt"))
}

// Worked by hand from the atomic weights: 1000 mg · 40.078/147.008 in 100 L; 1000/84.006
// mmol in 100 L, and one dKH is 20/56.077 meq/L.
func TestWorkedStoichiometry(t *testing.T) {
	calcium := must(t, "CaCl2.2H2O").Raises(ions.Calcium, units.Gram, 100*units.Litre)
	checks.Printed(t, "Ca", units.AsCalcium.MassPerLitre(calcium).MilligramsPerLitre(), "2.726")
	alkalinity := must(t, "NaHCO3").RaisesAlkalinity(units.Gram, 100*units.Litre)
	checks.Printed(t, "meq/L", alkalinity.MilliequivalentsPerLitre(), "0.1190")
	checks.Printed(t, "dKH", alkalinity.DKH(), "0.334")
	acid := must(t, "HCl").RaisesAlkalinity(36.458*units.Gram, 1000*units.Litre)
	checks.Printed(t, "HCl", acid.MilliequivalentsPerLitre(), "-1.000")

	for c := range All() {
		for r := range c.Releases() {
			up := c.Raises(r.Ion, 3*units.Gram, 70*units.Litre)
			back, err := c.ToRaise(r.Ion, up, 70*units.Litre)
			require.NoError(t, err)
			checks.Relative(t, c.Formula(), back.Grams(), 3, 1e-12)
		}
		if c.Alkalinity() != 0 {
			back, err := c.ToRaiseAlkalinity(c.RaisesAlkalinity(2*units.Gram, units.Litre), units.Litre)
			require.NoError(t, err)
			checks.Relative(t, c.Formula(), back.Grams(), 2, 1e-12)
		}
	}
}

func TestRaiseRefuses(t *testing.T) {
	c, nan := must(t, "CaCl2"), math.NaN()
	for _, v := range []units.Volume{0, -1, units.Volume(nan), units.Volume(math.Inf(1))} {
		_, err := c.ToRaise(ions.Calcium, 1, v)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	for _, v := range []units.Volume{0, -1, units.Volume(nan)} {
		assert.True(t, math.IsNaN(float64(c.Raises(ions.Calcium, 1, v))))
	}
	assert.True(t, math.IsNaN(float64(Compound{}.Raises(ions.Calcium, 1, 1))))
	assert.Zero(t, c.Raises(ions.Sodium, 1, 1))
	for _, r := range []struct {
		err  error
		want string
	}{
		{second(c.ToRaise(ions.Sodium, 1, 1)), "compound: got CaCl2, want one that changes sodium"},
		{second(Compound{}.ToRaise(ions.Sodium, 1, 1)), "compound: got no compound, want one that changes sodium"},
		{second(c.ToRaise(ions.Calcium, -1, 1)), "calcium: got -1, want one that CaCl2 can bring"},
		{second(c.ToRaise(ions.Calcium, units.AmountPerLitre(nan), 1)), "calcium: got NaN, want one that CaCl2 can bring"},
		{second(c.ToRaiseAlkalinity(units.MilliequivalentsPerLitre(1), 1)), "compound: got CaCl2, want one that changes alkalinity"},
		{second(Exchange(1, c, must(t, "MgCl2"))), "to: got MgCl2, want another hydrate of the same salt"},
		{second(Exchange(1, Compound{}, Compound{})), "to: got no compound, want another hydrate of the same salt"},
		{second(Exchange(-1, c, c)), "mass: got -1 g, want zero or more"},
		{second(Reagent{c, units.Share(0)}.Weigh(1)), "CaCl2.purity: got 0 %, want above 0 and up to 100 %"},
		{second(Reagent{c, units.Share(1.2)}.Pure(1)), "CaCl2.purity: got 120 %, want above 0 and up to 100 %"},
		{second(Reagent{}.Pure(1)), "compound: got none, want a compound"},
		{second(Reagent{c, units.Share(1)}.Weigh(-3)), "mass: got -3 g, want zero or more"},
		{second(Reagent{c, units.Share(1)}.Weigh(units.Mass(nan))), "mass: got NaN g, want zero or more"},
		{second(Reagent{c, units.Share(1)}.Pure(-3)), "mass: got -3 g, want zero or more"},
	} {
		assert.EqualError(t, r.err, r.want)
	}
}

// second drops the number beside an error, having seen that it is NaN.
func second(m units.Mass, err error) error {
	if !math.IsNaN(float64(m)) {
		return nil
	}
	return err
}

func TestHydrates(t *testing.T) {
	m, err := Exchange(100*units.Gram, must(t, "MgCl2"), must(t, "MgCl2.6H2O"))
	require.NoError(t, err)
	checks.Printed(t, "MgCl2.6H2O", m.Grams(), "213.534") // 100 · 203.295/95.205
	for c := range All() {
		for d := range All() {
			m, err := Exchange(5*units.Gram, c, d)
			if c.Anhydrous() != d.Anhydrous() {
				assert.ErrorIs(t, err, units.ErrInput)
				continue
			}
			back, err2 := Exchange(m, d, c)
			require.NoError(t, err)
			require.NoError(t, err2)
			checks.Relative(t, c.Formula()+d.Formula(), back.Grams(), 5, 1e-12)
			for r := range c.Releases() {
				checks.Relative(t, "same ions", d.Gives(r.Ion)*d.Moles(m), c.Gives(r.Ion)*c.Moles(5*units.Gram), 1e-12)
			}
		}
	}
	r := Reagent{must(t, "CaCl2.2H2O"), units.Percent(80)}
	w, err := r.Weigh(10 * units.Gram)
	require.NoError(t, err)
	checks.Relative(t, "weigh", w.Grams(), 12.5, 1e-12)
	p, err := r.Pure(w)
	require.NoError(t, err)
	checks.Relative(t, "pure", p.Grams(), 10, 1e-12)
}

func TestZeroCompound(t *testing.T) {
	var none Compound
	assert.False(t, none.Exists())
	assert.Equal(t, "no compound", none.String())
	assert.True(t, math.IsNaN(float64(none.MolarMass())))
	assert.Equal(t, none, none.Anhydrous())
	assert.Zero(t, none.Alkalinity())
	assert.Empty(t, none.Cautions())
	_, err := none.MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = none.Solubility(units.Celsius(20))
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = Solution{}.Density()
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = Saturated(none, units.Celsius(20))
	assert.ErrorIs(t, err, units.ErrInput)
	for range none.Releases() {
		t.Fatal("releases something")
	}
}

func TestCautions(t *testing.T) {
	worst := func(text string) (s advice.Severity) {
		for _, c := range must(t, text).Cautions() {
			assert.NotEmpty(t, c.ID)
			assert.NotEmpty(t, c.Text)
			s = max(s, c.Severity)
		}
		return s
	}
	for _, text := range []string{"NaOH", "HCl", "CaO", "Ca(OH)2", "CaCl2", "MgCl2", "BaCl2", "NaF", "H3BO3", "Na2B4O7.10H2O", "C2H5OH", "KNO3"} {
		assert.Equal(t, advice.Danger, worst(text), text)
	}
	for _, text := range []string{"KI", "KIO3", "ZnSO4.7H2O", "SrCl2.6H2O"} {
		assert.Equal(t, advice.Danger, worst(text), text)
	}
	assert.Equal(t, advice.Care, worst("NaCl"))
	ids := func(text string) (list []string) {
		for _, c := range must(t, text).Cautions() {
			list = append(list, c.ID)
		}
		return list
	}
	assert.Contains(t, ids("MgSO4"), "warms-in-water")
	assert.NotContains(t, ids("MgSO4.7H2O"), "warms-in-water")
	assert.Contains(t, ids("CaCl2"), "heats-in-water")
	assert.Equal(t, []string{"reagent-grade", "warms-in-water", "irritates-eyes"}, ids("CaCl2.2H2O"))
	assert.Contains(t, ids("CaCl2.6H2O"), "irritates-eyes")
	assert.Contains(t, ids("CH3COOH"), "flammable")
	assert.Contains(t, ids("ZnSO4"), "eye-damage")
	assert.Equal(t, "reagent-grade", must(t, "NaCl").Cautions()[0].ID)
	must(t, "NaOH").Cautions()[0].ID = "changed"
	assert.Equal(t, "reagent-grade", must(t, "NaOH").Cautions()[0].ID)
}

// Hazards by the classification of suppliers (GHS hazard statements, Regulation (EC)
// 1272/2008; from memory), each with the cautions of which one has to be there. The
// heat of dissolving, the dose and the bacteria are common practice.
func TestHazards(t *testing.T) {
	statement := map[string][]string{
		"H225 catches fire":       {"flammable"},
		"H226 catches fire":       {"flammable"},
		"H272 feeds fire":         {"oxidising"},
		"H301 poisonous":          {"poisonous"},
		"H302 harmful":            {"poisonous", "thyroid", "trace-dose"},
		"H314 burns skin":         {"caustic", "strong-acid"},
		"H318 damages eyes":       {"eye-damage", "caustic"},
		"H319 irritates eyes":     {"irritates-eyes", "boron-compound", "poisonous"},
		"H332 harmful as dust":    {"poisonous"},
		"H360 fertility":          {"boron-compound"},
		"H372 thyroid":            {"thyroid"},
		"heats":                   {"heats-in-water"},
		"warms":                   {"warms-in-water"},
		"a trace":                 {"trace-dose"},
		"feeds bacteria":          {"feeds-bacteria"},
		"ammonia":                 {"ammonia"},
		"raises pH":               {"raises-ph", "caustic"},
		"liberates iodine vapour": {"thyroid"},
	}
	classified := map[string][]string{
		"MgCl2": {"heats"}, "MgSO4": {"warms"}, "CaCl2": {"heats", "H319"}, "CaCl2.2H2O": {"warms", "H319"}, "CaCl2.6H2O": {"H319"},
		"Na2CO3": {"H319", "raises"}, "Na2CO3.10H2O": {"H319", "raises"}, "Ca(OH)2": {"H318", "raises"}, "CaO": {"H318", "heats", "raises"},
		"NaOH": {"H314", "heats", "raises"}, "HCl": {"H314"}, "KBr": {"H319"}, "NaBr": {"H319"}, "SrCl2": {"H318"}, "SrCl2.6H2O": {"H318"},
		"H3BO3": {"H360"}, "Na2B4O7": {"H360", "H319"}, "Na2B4O7.10H2O": {"H360", "H319"}, "NaF": {"H301", "H319"},
		"KI": {"H372", "a trace", "liberates"}, "KIO3": {"H272", "H302", "H318", "a trace"}, "LiCl": {"H302", "H319"},
		"BaCl2": {"H301", "H332"}, "BaCl2.2H2O": {"H301", "H332"}, "FeCl3": {"H302", "H318", "H314", "a trace"}, "FeCl3.6H2O": {"H302", "H318", "H314", "a trace"},
		"MnCl2": {"H301", "H318", "a trace"}, "MnCl2.4H2O": {"H301", "H318", "a trace"},
		"ZnSO4": {"H302", "H318", "a trace"}, "ZnSO4.7H2O": {"H302", "H318", "a trace"},
		"NaNO3": {"H272", "H319"}, "KNO3": {"H272"}, "NH4Cl": {"H302", "H319", "ammonia"},
		"CH3COOH": {"H226", "H314", "feeds"}, "C2H5OH": {"H225", "H319", "feeds"},
		"CH3COONa": {"feeds"}, "CH3COONa.3H2O": {"feeds"}, "C6H12O6": {"feeds"}, "C12H22O11": {"feeds"},
		// nothing beside the grade
		"NaCl": {}, "MgCl2.6H2O": {}, "MgSO4.7H2O": {}, "KCl": {}, "NaHCO3": {}, "KHCO3": {}, "Na2SO4": {}, "Na2SO4.10H2O": {}, "K2SO4": {},
		"CaCO3": {}, "MgCO3": {}, "CaSO4": {}, "CaSO4.2H2O": {}, "KH2PO4": {}, "Na2HPO4": {},
	}
	severity := map[string]advice.Severity{
		"reagent-grade": advice.Care, "caustic": advice.Danger, "heats-in-water": advice.Danger, "warms-in-water": advice.Care,
		"irritates-eyes": advice.Care, "eye-damage": advice.Danger, "thyroid": advice.Danger, "strong-acid": advice.Danger,
		"poisonous": advice.Danger, "boron-compound": advice.Danger, "oxidising": advice.Danger, "flammable": advice.Danger,
		"irritating-dust": advice.Note, "raises-ph": advice.Care, "ammonia": advice.Care, "trace-dose": advice.Care, "feeds-bacteria": advice.Care,
	}
	for c := range All() {
		has := map[string]bool{}
		for _, k := range c.Cautions() {
			has[k.ID] = true
			assert.Equal(t, severity[k.ID], k.Severity, k.ID)
		}
		hazards, known := classified[c.Formula()]
		require.True(t, known, c.Formula())
		if len(hazards) == 0 {
			assert.Len(t, has, 1, c.Formula())
		}
		for _, h := range hazards {
			met, found := false, false
			for text, ids := range statement {
				if strings.HasPrefix(text, h) {
					found = true
					for _, id := range ids {
						met = met || has[id]
					}
				}
			}
			assert.True(t, found && met, "%s: %s", c.Formula(), h)
		}
	}
}

// Figures that bound a stock, number by number: the density that no brine reaches (NaOH
// and ZnSO4 near 1.55 kg/L, from memory), and the mass fraction up to which a solution may
// be taken for almost water.
func TestStockFigures(t *testing.T) {
	assert.Equal(t, 1.6, heaviest)
	assert.Equal(t, 0.005, unmeasured.most)
	assert.Equal(t, 0., unmeasured.coldest)
	assert.Equal(t, 100., unmeasured.hottest)
}

func TestNoAllocations(t *testing.T) {
	c := must(t, "CaCl2.2H2O")
	checks.NoAllocations(t, "MolarMass", func() { sink = float64(c.MolarMass()) })
	checks.NoAllocations(t, "Raises", func() { sink = float64(c.Raises(ions.Calcium, 1, 1)) })
	s := Solution{c, 100000, units.Celsius(20)}
	checks.NoAllocations(t, "Density", func() { d, _ := s.Density(); sink = float64(d) })
	checks.NoAllocations(t, "Solubility", func() { d, _ := c.Solubility(units.Celsius(21)); sink = float64(d) })
}

var sink float64

func BenchmarkMolarMass(b *testing.B) {
	b.ReportAllocs()
	c := must(b, "CaCl2.2H2O")
	for b.Loop() {
		sink = float64(c.MolarMass())
	}
}

func BenchmarkSolubility(b *testing.B) {
	b.ReportAllocs()
	c := must(b, "CaCl2.2H2O")
	for b.Loop() {
		d, _ := c.Solubility(units.Celsius(21))
		sink = float64(d)
	}
}

func BenchmarkDensity(b *testing.B) {
	b.ReportAllocs()
	s := Solution{must(b, "CaCl2.2H2O"), 100000, units.Celsius(20)}
	for b.Loop() {
		d, _ := s.Density()
		sink = float64(d)
	}
}

// 1 g of borax in 100 L: 1/381.363 mol with four of boron of 10.81 g/mol, 1.134 mg/L, of which the
// borate alone would be a half. Boric acid, 61.83 g/mol, has one.
func TestRaisesBoron(t *testing.T) {
	borax := must(t, "Na2B4O7.10H2O")
	rise := borax.RaisesBoron(units.Gram, 100*units.Litre)
	assert.InEpsilon(t, 4/381.363*10, rise.MillimolesPerLitre(), 1e-4)
	assert.InEpsilon(t, 1.134, units.AsBoron.MassPerLitre(rise).MilligramsPerLitre(), 1e-3)
	assert.InEpsilon(t, 1/61.833*10, must(t, "H3BO3").RaisesBoron(units.Gram, 100*units.Litre).MillimolesPerLitre(), 1e-4)
	m, err := borax.ToRaiseBoron(rise, 100*units.Litre)
	require.NoError(t, err)
	assert.InEpsilon(t, 1, m.Grams(), 1e-12)
	_, err = must(t, "NaCl").ToRaiseBoron(rise, 100*units.Litre)
	assert.ErrorContains(t, err, "one that changes boron")
	assert.True(t, math.IsNaN(float64(borax.RaisesBoron(units.Gram, 0))))
}
