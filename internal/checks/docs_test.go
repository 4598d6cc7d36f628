package checks_test

import (
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
)

var update = flag.Bool("update", false, "rewrite the README's table of checks and seawater/REFERENCES.md")

const root = "../.."

// check is one row of the README's table: a source, what of the library is held against
// it, of what kind its values are, how near the library has to come, and the tests that
// say so.
//
// What a row says in numbers is taken from the tests. {name} is the constant of that name
// in one of the tests, which has to use it; {n} counts the rows of the tables, and
// {n column=text} or {n column~pattern} those whose column is so. A test that is renamed
// or removed, a tolerance that is changed, a table that gains or loses rows fails TestREADME.
type check struct {
	source, what, kind, near string
	tests                    []string // folder and name of the test: "seawater/pss78 TestUNESCO44"
	tables                   []string // whose rows are counted
}

// Kinds of values. Where a row has several it says how many of each.
const (
	printed  = "published"
	handed   = "second-hand" // published, but read elsewhere than in the original
	computed = "computed"    // with another implementation, named, or with the formula evaluated apart from the library
)

// published lists the checks.
var published = []check{
	{"UNESCO Technical Papers in Marine Science 44 (Fofonoff and Millard 1983)",
		"practical salinity and conductivity ratio, density, specific volume anomaly, heat capacity, sound speed, freezing point, lapse rate, potential temperature, depth: {n} values", printed,
		"every printed digit, but for {n tolerance=2.5} of single precision: 2.5 units of the last digit, and every digit of the same in double precision; one handed-down R is a slip and left out",
		[]string{"seawater/pss78 TestUNESCO44", "seawater/eos80 TestUNESCO44"},
		[]string{"seawater/pss78/testdata/unesco44.csv", "seawater/eos80/testdata/unesco44.csv"}},
	{"IAPWS R13-08 table 8, SR7-09 table 6, G10-15, R14-19, R1-76, SR6-08",
		"Gibbs function of seawater and its derivatives, thermal conductivity, surface tension: {n} values", printed,
		"every printed digit of {n usable=yes}; {n usable=approx} rest on another equation for pure water: {approximation} relative; {n usable=no} above 40 °C are only finite",
		[]string{"seawater/teos10 TestIAPWSReleases"}, []string{"seawater/teos10/testdata/iapws_releases.csv"}},
	{"IAPWS R10-06 table 6", "Gibbs function of ice, its derivatives, enthalpy, heat capacity, density: {n} values", handed + ", from memory", "every printed digit",
		[]string{"seawater/teos10 TestIceRelease"}, []string{"seawater/teos10/testdata/ice_release.csv"}},
	{"IAPWS R13-08 table 8 at 353 K; Kell 1975", "hot water of `teos10`, by SR6-08 from memory: volume, heat capacity, enthalpy at 80 °C; density from 40 to 100 °C",
		printed + "; density computed with Kell's formula", "2e-8, {release}, 6 J/kg: the two equations for water differ by so much; 0.017 kg/m³, half of which is the older temperature scale",
		[]string{"seawater/teos10 TestHotWaterAgainstOthers"}, nil},
	{"TEOS-10, documented examples of its toolbox 3.06", "functions of `teos10`: {n} values", printed + ", computed with the toolbox",
		"half of the last digit; where all 16 are printed {lastBits} relative, up to {lastBitsOfADifference} of a difference",
		[]string{"seawater/teos10 TestDocumentedExamples"}, []string{"seawater/teos10/testdata/teos10_examples.csv"}},
	{"TEOS-10, check values of its toolbox 3.06", "functions of `teos10`: {n} values", computed + " with the toolbox", "what the toolbox asks of itself; {lastBits} where it names nothing",
		[]string{"seawater/teos10 TestToolboxCheckValues"}, []string{"seawater/teos10/testdata/teos10_toolbox.csv"}},
	{"TEOS-10", "29 quantities at {n} points", computed + " with gsw 3.6.16", "{relative} relative; what passes through zero has an absolute tolerance beside it, named in the test",
		[]string{"seawater/teos10 TestReferenceGrid"}, []string{"seawater/teos10/testdata/gsw_grid.csv"}},
	{"PSS-78 and Hill et al. 1986", "conductivity to salinity and back, salinity 0 to 42: {n} points", computed + " with gsw 3.6.16",
		"salinity {gridSalinity} (1+S); conductivity {gridConductivity}, at salinity 0 {gridConductivityZero} relative",
		[]string{"seawater/pss78 TestGrid"}, []string{"seawater/pss78/testdata/gsw_grid.csv"}},
	{"IAPWS R9-97 table 3", "`refractometer.Water`: {n} indices", printed, "every printed digit",
		[]string{"seawater/refractometer TestIAPWS"}, []string{"seawater/refractometer/testdata/iapws97.csv"}},
	{"Austin and Halikas 1976, as tabulated by Mobley 2010", "indices of seawater by Quan and Fry 1995 and by Millard and Seaver 1990: {n} of 5 decimals", handed,
		"the misfits of the two formulas, {austinHalikasQF95} and {austinHalikasMS90}, are pinned",
		[]string{"seawater/refractometer TestAustinHalikas"}, []string{"seawater/refractometer/testdata/austin_halikas1976.csv"}},
	{"CRC Handbook", "`refractometer.SodiumChloride`: {n} indices of 4 decimals", printed, "every printed digit",
		[]string{"seawater/refractometer TestSodiumChloride"}, []string{"seawater/refractometer/testdata/crc_sodium_chloride.csv"}},
	{"ISO 7888", "compensation of natural water: {n} values, whole degrees and some tenths of the table", printed, "every printed digit",
		[]string{"seawater/conductivity TestNaturalWater"}, []string{"seawater/conductivity/testdata/iso7888.csv"}},
	{"OIML R 56 and IAPWS/NIST", "conductivity of KCl standards and aerated water: {n} values", printed, "every printed digit",
		[]string{"seawater/conductivity TestPotassiumChloride"}, []string{"seawater/conductivity/testdata/kcl.csv"}},
	{"Tanaka et al. 2001 (CIPM)", "density of water: {n} values", "{n origin=published} second-hand, {n origin=computed} computed with the formula", "every printed digit; {lastBits} relative",
		[]string{"seawater/hydrometer TestWaterDensity"}, []string{"seawater/hydrometer/testdata/water_density.csv"}},
	{"Picard et al. 2008 (CIPM-2007), ISO 8655, pipette certificates", "air density and factors Z: {n} values",
		"{n origin=handbook} published, {n origin=certificate} of certificates, {n origin=table} second-hand, {n origin=computed} computed with the formula",
		"the tolerance that stands in each row: of the printed digits, of a certificate's input",
		[]string{"seawater/weighing TestTable"}, []string{"seawater/weighing/testdata/weighing.csv"}},
	{"Light et al. 2005", "pure water at 25 °C, 0.05501 µS/cm and 18.18 MΩ·cm", printed, "{ofConductivity} µS/cm and {ofResistivity} MΩ·cm, the source's uncertainty",
		[]string{"seawater/conductivity TestPureWaterPublished"}, nil},
	{"Dickson, Sabine and Christian 2007 and DOE 1994; Orr et al. 2015; Zeebe and Wolf-Gladrow 2001", "constants of `carbonate` at 35 and 25 °C: {n} values", "{n source~chapter 5} published, {n source~Orr|Zeebe} second-hand",
		"printed digits, but for pK of fluoride (2.627 printed, 2.626 by its formula) and of silicate (9.39; 9.384), whose printed values were rounded twice",
		[]string{"seawater/carbonate TestPrintedConstants"}, []string{"seawater/carbonate/testdata/dickson2007.csv"}},
	{"CO2 systems", "{n} systems: pH on four scales; pCO2, concentrations, saturation, Revelle factor", computed + " with PyCO2SYS 1.8.3 (Humphreys et al. 2022)", "{ofPH}; {ofTheRest} relative",
		[]string{"seawater/carbonate TestGrid"}, []string{"seawater/carbonate/testdata/carbonate_grid.csv"}},
	{"NIST SP 260-53 and IUPAC 2002; a manual of 2005", "buffers of `electrode`, 0 to 50 °C: {n} values", `{n pH~^\d+\.\d{3}$} published, {n pH~^\d+\.\d\d$} of technical buffers from an instrument's manual`, "every printed digit",
		[]string{"seawater/electrode TestBuffersArePrinted"}, []string{"seawater/electrode/testdata/buffers.csv"}},
	{"DelValls and Dickson 1998, Müller et al. 2018, Dickson et al. 2007", "Nernst slope, tris and aminopyridine in seawater: {n} values", "{n kind=printed} published, {n kind=computed} computed with the formulas", "every printed digit; {ofBuffers} relative, slope {ofSlope}",
		[]string{"seawater/electrode TestNernstAndSeawaterBuffers"}, []string{"seawater/electrode/testdata/checks.csv"}},
	{"Dickson 1981, table 1", "a titration of {n} points by `titration.Vessel.Mixture`; the fit of the same points", printed, "every printed digit of pH; alkalinity {dicksonAlkalinity}, DIC {dicksonDIC} µmol/kg",
		[]string{"seawater/titration TestDickson1981", "seawater/titration TestDickson1981FitsBack"}, []string{"seawater/titration/testdata/dickson1981_table1.csv"}},
	{"Dickson, Sabine and Christian 2007, SOP 3b: 2260.06 µmol/kg", "`titration.Vessel.FitOpen`", printed, "within what the rounding of the printed data leaves open; the printed digits with an acid of 0.100459, printed as 0.10046",
		[]string{"seawater/titration TestSOP3bWithinRounding"}, nil},
	{"Garcia and Gordon 1992, Hamme and Emerson 2004, Weiss 1970 and 1974", "solubility of gases: {n} values",
		"{n source~check value$|table II$} published; {n source~OCMIP|documentation|Sarmiento} second-hand: the documentation of two packages, a textbook; {n source~^computed} computed with gsw and mocsy",
		"every printed digit; {double} relative, and {single} of what was computed in single precision",
		[]string{"seawater/gas TestPublishedSolubility"}, []string{"seawater/gas/testdata/solubility_published.csv"}},
	{"Shah's evaporation, VDI 2089, ASHRAE 2017, US Standard Atmosphere, Wanninkhof 2014", "`gas`: {n} values",
		"{n source~^ASHRAE|; \\d+ printed} published; {n source~second-hand|worked} second-hand; {n source~^computed(, | with|$|; IAPWS| \\()} computed", "the tolerance that stands in each row",
		[]string{"seawater/gas TestExchangeTable"}, []string{"seawater/gas/testdata/exchange.csv"}},
	{"IUPAC atomic weights 2021", "ratios of reported masses, NO3 to NO3-N and the like", computed + " from the weights", "{relative} relative", []string{"units TestMolarMass"}, nil},
	{"IUPAC atomic weights 2021", "molar masses of {n} compounds", computed + " from the weights", "every digit of three decimals",
		[]string{"mix/salts TestCompoundsAgainstTable"}, []string{"mix/salts/testdata/compounds.csv"}},
	{"Millero et al. 2008, reference composition", "`ions.Reference`: {n} species, ionic strength 0.7226, chlorinity 19.373945", printed, "every printed digit",
		[]string{"seawater/ions TestReferenceAgainstTheTable"}, []string{"seawater/ions/testdata/reference_composition.csv"}},
	{"TEOS-10 (McDougall et al. 2012), salinity anomaly", "of alkalinity, nitrate, silicate by the density of `ions`", "published coefficients", "the tolerance that stands in each row of the test: the two are different models",
		[]string{"seawater/ions TestAnomalyCoefficients"}, nil},
	{"PHREEQC 3, pitzer.dat", "{n} solutions by `pitzer.Solve`, 0 to 50 °C, to ionic strength 18: activity coefficients, water, species, saturation, pH", computed + " with PHREEQC 3.8.9",
		"ln γ, φ and activity of water {ofGamma}, saturation and pH {ofSaturation}", []string{"seawater/pitzer TestSolutions"}, []string{"seawater/pitzer/testdata/solutions.csv"}},
	{"PHREEQC 3, pitzer.dat", "{n} solutions with Li, Ba, Mn, Fe and silica: activity and osmotic coefficients of `pitzer`", computed + " from the parameters apart from the library", "{ofFurther}",
		[]string{"seawater/pitzer TestFurtherIons"}, []string{"seawater/pitzer/testdata/further_ions.csv"}},
	{"PHREEQC 3, pitzer.dat", "log K of {n} solids of `pitzer` at 0, 25 and 40 °C", computed + " with the source's functions", "every printed digit",
		[]string{"seawater/pitzer TestSolubilityProducts"}, []string{"seawater/pitzer/testdata/constants.csv"}},
	{"PHREEQC 3, pitzer.dat", "{n} equilibria with solids, by the solver of `pitzer.Dissolve`", computed + " with PHREEQC 3.8.9",
		"what dissolves {ofAmount} relative, φ and activity of water {ofEquilibria}, pH {ofEquilibriaPH}; the source books hydrate water at 18.016 g/mol, and so does the test", []string{"seawater/pitzer TestEquilibria"}, []string{"seawater/pitzer/testdata/equilibria.csv"}},
	{"PHREEQC 3, pitzer.dat", "lime, lye or soda that saturates seawater with brucite by `carbonate.System.Brucite`: 11 doses and the pH", computed + " with PHREEQC 3",
		"2 µmol/kg, pH 0.002", []string{"seawater/carbonate TestBrucite"}, nil},
	{"Handbooks, Greenspan 1977, TEOS-10 and others", "{n} activity coefficients, vapour pressures and solubilities beside `pitzer`", "{n provenance~^read|^ read} second-hand, {n provenance~^computed: } computed with TEOS-10, {n provenance~^memory} from memory, {n provenance=computed only} of the model only",
		"the model's own values {ofPublished} relative; how far they are from the measured ones, up to 46 %, is logged and stated in the package, and nothing is tuned", []string{"seawater/pitzer TestPublished"}, []string{"seawater/pitzer/testdata/published.csv"}},
	{"ESAW (Berges et al. 2001), Aquil (Price et al. 1989)", "molarities of `recipe`: {n} values", "{n recipe=ESAW} published, {n recipe=Aquil} from memory", "the papers' rounding; one of ESAW contradicts itself by 0.1 %",
		[]string{"mix/recipe TestPublishedMolarities"}, []string{"mix/recipe/testdata/molarities.csv"}},
	{"Artificial seawaters: ASTM D1141, Kester et al. 1967, Lyman and Fleming 1940, DOE 1994, ESAW and others", "the solver finds each from its ions alone", "published recipes; the way back is the library's own", "each mass but for rounding",
		[]string{"mix/recipe TestSolveFindsRecipesBack"}, nil},
	{"CRC Handbook and others", "solubility of `salts`: {n} values", "{n kind~grams|molality} published, {n kind=phreeqc} computed with PHREEQC 3",
		"printed digits of what is used; {overlap} where two tables overlap, {rough} for three salts; computed {computed}",
		[]string{"mix/salts TestSolubilityAgainstTables"}, []string{"mix/salts/testdata/solubility.csv"}},
	{"CRC Handbook and others", "13 stock solutions of the trade, their solubility beside that by the ion-interaction model", "second-hand tables",
		"none: both numbers are printed, up to 7.8 % apart", []string{"mix/salts TestModelBesideHandbooks"}, nil},
	{"CRC Handbook", "density of solutions, {n} values, up to the end of the formula", printed, "{usual} kg/m³; more for seven solutes, named in the test with their misfit",
		[]string{"mix/salts TestDensityAgainstCRC"}, []string{"mix/salts/testdata/crc_density.csv"}},
	{"Wolf-Gladrow et al. 2007", "alkalinity of {n kind=process} processes in `replenish`", "5 published; the others from the balance of elements and charge", "{equivalents} equivalents",
		[]string{"mix/replenish TestProcesses"}, []string{"mix/replenish/testdata/stoichiometry.csv"}},
	{"CRC Handbook", "refractive index of solutions of KCl, MgCl2, CaCl2, MgSO4, NaHCO3, {n} values, by `ions` as far as its range goes", printed, "{known}; the rest is refused",
		[]string{"seawater/ions TestIndexOfSingleSalts"}, []string{"seawater/ions/testdata/crc_index.csv"}},
	{"US EPA 1993, Metcalf and Eddy 2003", "oxygen and alkalinity of nitrification, denitrification and respiration in `replenish`", "from memory", "the digits usually printed; {ofNitrification} mg/mg in the alkalinity of nitrification",
		[]string{"mix/replenish TestTurnover"}, nil},
	{"NIST/SEMATECH table of χ²", "`seawater.Agree`", printed, "probability {ofProbability}", []string{"seawater TestProbabilityAgainstTheTable"}, nil},
	{"NIST/SEMATECH table of χ²", "points of χ² at which `control.Agree` tells sensors apart", printed, "probability {ofTheTable}", []string{"dilution/control TestPointsOfChiSquare"}, nil},
	{"NIST SP 811, DIN 38409, UK Weights and Measures Act", "every unit constant", printed + " definitions", "{relative}: the last bit", []string{"units TestConstantsMeetTheirDefinitions"}, nil},
	{"Stirred tank (Levenspiel 1999)", "what a continuous change leaves after one volume, 1/e", "by hand", "{byHand}", []string{"dilution TestRemainingByHand"}, nil},
	{"Periodic changes", "levels and resting point against the process done step by step", "the library's own steps; no printed number", "{stepByStep} relative", []string{"dilution TestPeriodicAgainstTheProcess"}, nil},
	{"Periodic changes with a loss by a rate constant", "levels and mean against Runge-Kutta steps and Simpson's rule", "the tests' own steps; no printed number", "levels {ofLevels}, mean {ofMean} relative", []string{"dilution TestPeriodicWithARate"}, nil},
	{"Millero et al. 2008", "absolute from practical salinity, 35.16504 g/kg at 35", "published definition", "exact; there and back {thereAndBack} (1+S)", []string{"seawater/teos10 TestReferenceSalinity"}, nil},
}

// TestREADME keeps the README's table to the list above, and the list to the tests.
func TestREADME(t *testing.T) {
	var table strings.Builder
	table.WriteString("| source | what | values | how near |\n|---|---|---|---|\n")
	for _, c := range published {
		tests := map[string]string{} // constants that the tests of the row use
		for _, test := range c.tests {
			folder, name, _ := strings.Cut(test, " ")
			assert.True(t, constantsOf(t, folder, name, tests), "no such test: %s", test)
		}
		var rows []checks.Row
		for _, path := range c.tables {
			rows = append(rows, checks.Table(t, filepath.Join(root, path))...)
		}
		row := fmt.Sprintf("| %s | %s | %s | %s |\n", c.source, c.what, c.kind, c.near)
		assert.Equal(t, len(c.tables) > 0, strings.Contains(row, "{n"), c.source)
		table.WriteString(placeholder.ReplaceAllStringFunc(row, func(text string) string {
			name := text[1 : len(text)-1]
			if name == "n" {
				return fmt.Sprint(len(rows))
			}
			if condition, ok := strings.CutPrefix(name, "n "); ok {
				n := count(rows, condition)
				assert.NotZero(t, n, "%s: no rows with %s", c.source, condition)
				return fmt.Sprint(n)
			}
			assert.Contains(t, tests, name, "%s: no test of the row uses such a constant", c.source)
			return tests[name]
		}))
	}
	const begin, end = "<!-- checks: go test ./internal/checks -update -->\n", "<!-- end of checks -->\n"
	path := filepath.Join(root, "README.md")
	readme, err := os.ReadFile(path)
	require.NoError(t, err)
	before, rest, found := strings.Cut(string(readme), begin)
	require.True(t, found, "README.md has no place for the table")
	_, after, found := strings.Cut(rest, end)
	require.True(t, found)
	want := before + begin + table.String() + end + after
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(want), 0o666))
		return
	}
	assert.Empty(t, cmp.Diff(want, string(readme)), "run go test ./internal/checks -update")
}

// placeholder is a number that a row takes from its tests.
var placeholder = regexp.MustCompile(`\{(?:n [a-z A-Z]+[=~](?:[^{}]|\{\d\})+|[A-Za-z][A-Za-z0-9]*)\}`)

// count counts the rows of which a column is a text, "kind=printed", or matches a
// pattern, "source~^ASHRAE".
func count(rows []checks.Row, condition string) (n int) {
	i := strings.IndexAny(condition, "=~")
	column, text := condition[:i], condition[i+1:]
	for _, r := range rows {
		value, ok := r[column]
		switch {
		case condition[i] == '=' && value == text, condition[i] == '~' && ok && regexp.MustCompile(text).MatchString(value):
			n++
		}
	}
	return n
}

// constantsOf adds the constants that a test uses, its own or of its file, by name with
// their values as written; false if there is no such test.
func constantsOf(t *testing.T, folder, test string, used map[string]string) (found bool) {
	files, err := filepath.Glob(filepath.Join(root, folder, "*_test.go"))
	require.NoError(t, err)
	for _, path := range files {
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		require.NoError(t, err)
		for _, d := range f.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || fn.Recv != nil || fn.Name.Name != test {
				continue
			}
			found = true
			values, uses := map[string]string{}, map[string]int{}
			ast.Inspect(f, func(n ast.Node) bool {
				if other, ok := n.(*ast.FuncDecl); ok && other != fn {
					return false // constants of other functions
				}
				if spec, ok := n.(*ast.ValueSpec); ok {
					for i, name := range spec.Names {
						if i < len(spec.Values) {
							if lit, ok := spec.Values[i].(*ast.BasicLit); ok {
								values[name.Name] = lit.Value
							}
						}
					}
				}
				return true
			})
			ast.Inspect(fn, func(n ast.Node) bool {
				if id, ok := n.(*ast.Ident); ok {
					uses[id.Name]++
				}
				return true
			})
			for _, other := range f.Decls { // and of the functions that it calls
				if h, ok := other.(*ast.FuncDecl); ok && h != fn && h.Recv == nil && uses[h.Name.Name] > 0 {
					ast.Inspect(h, func(n ast.Node) bool {
						if id, ok := n.(*ast.Ident); ok {
							uses[id.Name]++
						}
						return true
					})
				}
			}
			declared := map[string]int{} // inside the test: a mention that is no use
			ast.Inspect(fn, func(n ast.Node) bool {
				if spec, ok := n.(*ast.ValueSpec); ok {
					for _, name := range spec.Names {
						declared[name.Name]++
					}
				}
				return true
			})
			for name, value := range values {
				if uses[name] > declared[name] {
					used[name] = value
				}
			}
		}
	}
	return found
}

// TestExportedNamesAreDocumented: a comment on every exported function, method and
// type, and on every exported constant, variable and field itself, on its line, or on
// its group.
func TestExportedNamesAreDocumented(t *testing.T) {
	for _, top := range []string{"units", "seawater", "mix", "dilution", "internal"} {
		require.NoError(t, filepath.WalkDir(filepath.Join(root, top), func(path string, d os.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments)
			require.NoError(t, err)
			for _, d := range f.Decls {
				switch d := d.(type) {
				case *ast.FuncDecl:
					if d.Name.IsExported() && receiverIsExported(d) {
						assert.NotNil(t, d.Doc, "%s: %s has no comment", path, d.Name.Name)
					}
				case *ast.GenDecl:
					for _, spec := range d.Specs {
						switch s := spec.(type) {
						case *ast.TypeSpec:
							if s.Name.IsExported() {
								assert.True(t, d.Doc != nil || s.Doc != nil || s.Comment != nil, "%s: %s has no comment", path, s.Name.Name)
							}
						case *ast.ValueSpec:
							for _, name := range s.Names {
								if name.IsExported() {
									assert.True(t, d.Doc != nil || s.Doc != nil || s.Comment != nil, "%s: %s has no comment", path, name.Name)
								}
							}
						}
					}
				}
			}
			return nil
		}))
	}
}

func receiverIsExported(d *ast.FuncDecl) bool {
	if d.Recv == nil {
		return true
	}
	typ := d.Recv.List[0].Type
	for {
		switch t := typ.(type) {
		case *ast.StarExpr:
			typ = t.X
		case *ast.IndexExpr:
			typ = t.X
		case *ast.Ident:
			return t.IsExported()
		default:
			return true
		}
	}
}

// entry is one source in the package comment of a package.
var entry = regexp.MustCompile(`(?m)^\t\[([^\]]+)\]\s+((?:.+\n)(?:\t {2,}.+\n)*)`)

// year is what tells two papers of one author apart.
var year = regexp.MustCompile(`\b(1[89]|20)\d\d\b`)

// TestReferences keeps seawater/REFERENCES.md, every source of the package
// comments once, with the packages that rest on it.
func TestReferences(t *testing.T) {
	type source struct {
		text     string
		packages []string
	}
	sources := map[string]*source{}
	folders := []string{}
	require.NoError(t, filepath.WalkDir(root, func(path string, d os.DirEntry, err error) error {
		if err == nil && d.Name() == "doc.go" {
			folders = append(folders, path)
		}
		return err
	}))
	for _, path := range folders {
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments)
		require.NoError(t, err)
		_, text, found := strings.Cut(f.Doc.Text(), "# Sources\n")
		if !found {
			continue
		}
		folder, err := filepath.Rel(root, filepath.Dir(path))
		require.NoError(t, err)
		for _, m := range entry.FindAllStringSubmatch(text, -1) {
			words := strings.Join(strings.Fields(m[2]), " ")
			if strings.Contains(words, "see package") {
				continue // it stands there
			}
			key := identity(words)
			s := sources[key]
			if s == nil {
				s = &source{}
				sources[key] = s
			}
			if len(words) > len(s.text) {
				s.text = words
			}
			if p := filepath.ToSlash(folder); !slices.Contains(s.packages, p) {
				s.packages = append(s.packages, p)
			}
		}
	}
	var lines []string
	for _, s := range sources {
		slices.Sort(s.packages)
		lines = append(lines, fmt.Sprintf("- %s *(%s)*\n", strings.TrimSuffix(s.text, "."), strings.Join(s.packages, ", ")))
	}
	slices.Sort(lines)
	want := "# References\n\nEvery source that the package comments name, and the packages that rest on it. This\nfile is written by `go test ./internal/checks -update`. Sources of single constants stand\nbeside them.\n\n" + strings.Join(lines, "")
	path := filepath.Join(root, "seawater", "REFERENCES.md")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(want), 0o666))
		return
	}
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(want, string(got)), "run go test ./internal/checks -update")
}

// identity is the first author and the year, or the number of a standard: what
// one source has in common however it is cited.
func identity(text string) string {
	fields := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,(:", r) })
	if y := year.FindString(text); y != "" && !standard(fields[0]) {
		return fields[0] + " " + y + " " + pages.FindString(text)
	}
	return strings.Join(fields[:min(2, len(fields))], " ")
}

func standard(word string) bool {
	return slices.Contains([]string{"IAPWS", "ISO", "ASTM", "OIML", "JIS", "VDI", "JCGM", "ASCE/EWRI", "CODATA", "UNESCO"}, word)
}

// pages finds the volume and first page, which tell papers of one author and year
// apart.
var pages = regexp.MustCompile(`\b(\d+A?), (\d+)`)
