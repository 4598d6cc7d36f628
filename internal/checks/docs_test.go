package checks_test

import (
	"bytes"
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
)

var update = flag.Bool("update", false, "rewrite the README's table of checks and seawater/REFERENCES.md")

const root = "../.."

// check is one row of the README's table: a published source, what of the
// library is held against it, how near it comes, and the test that says so. A
// test that is renamed or removed, and a table that gains or loses rows, fails
// TestREADME.
type check struct {
	source, what, near string
	tests              []string // folder and name of the test: "seawater/pss78 TestUNESCO44"
	tables             []string // whose rows are counted
}

// published lists the checks. Where "{n}" stands, the rows of the tables are
// counted.
var published = []check{
	{"UNESCO Technical Papers in Marine Science 44 (Fofonoff and Millard 1983)",
		"practical salinity and conductivity ratio, density, specific volume anomaly, heat capacity, sound speed, freezing point, lapse rate, potential temperature, depth: {n} values",
		"every printed digit, but for four single-precision roundings of 1983 (2.5 units of the last digit) and one misprint, R(25, 0 °C, 0), named in the test",
		[]string{"seawater/pss78 TestUNESCO44", "seawater/eos80 TestUNESCO44"},
		[]string{"seawater/pss78/testdata/unesco44.csv", "seawater/eos80/testdata/unesco44.csv"}},
	{"IAPWS R13-08 table 8, SR7-09 table 6, G10-15, R14-19, R1-76, SR6-08",
		"Gibbs function of seawater and its derivatives, thermal conductivity, surface tension: {n} values",
		"every printed digit of 90 values; 38 more rest on another equation for pure water and are met to 5e-4; 22 above 40 °C are only finite",
		[]string{"seawater/teos10 TestIAPWSReleases"}, []string{"seawater/teos10/testdata/iapws_releases.csv"}},
	{"TEOS-10, documented examples and check values of its toolbox 3.06", "all functions of `teos10` that have them: {n} values", "to their digits",
		[]string{"seawater/teos10 TestDocumentedExamples", "seawater/teos10 TestToolboxCheckValues"},
		[]string{"seawater/teos10/testdata/teos10_examples.csv", "seawater/teos10/testdata/teos10_toolbox.csv"}},
	{"TEOS-10, {n} points computed with gsw 3.6.16", "29 quantities", "1e-12; what passes through zero within 1e-13 K, 1e-9 J/kg",
		[]string{"seawater/teos10 TestReferenceGrid"}, []string{"seawater/teos10/testdata/gsw_grid.csv"}},
	{"PSS-78 and Hill et al. 1986, {n} points computed with gsw 3.6.16", "conductivity to salinity and back, salinity 0 to 42", "1e-12",
		[]string{"seawater/pss78 TestGrid"}, []string{"seawater/pss78/testdata/gsw_grid.csv"}},
	{"IAPWS R9-97 table 3 (refractive index of water, {n} values)", "`refractometer.Water`", "every printed digit",
		[]string{"seawater/refractometer TestIAPWS"}, []string{"seawater/refractometer/testdata/iapws97.csv"}},
	{"Austin and Halikas 1976 (seawater, {n} indices of 5 decimals)", "Millard and Seaver 1990; Quan and Fry 1995", "1.7e-5; 5.8e-5",
		[]string{"seawater/refractometer TestAustinHalikas"}, []string{"seawater/refractometer/testdata/austin_halikas1976.csv"}},
	{"CRC Handbook (sodium chloride, {n} indices of 4 decimals)", "`refractometer.SodiumChloride`", "every printed digit",
		[]string{"seawater/refractometer TestSodiumChloride"}, []string{"seawater/refractometer/testdata/crc_sodium_chloride.csv"}},
	{"ISO 7888, the whole table; KCl standards of OIML R 56 and IAPWS/NIST: {n} values", "compensation, standards", "every printed digit",
		[]string{"seawater/conductivity TestNaturalWater", "seawater/conductivity TestPotassiumChloride"},
		[]string{"seawater/conductivity/testdata/iso7888.csv", "seawater/conductivity/testdata/kcl.csv"}},
	{"Tanaka et al. 2001 (CIPM), Picard et al. 2008 (CIPM-2007), ISO 4787 factors: {n} values", "water and air density, weighing", "printed digits; three pipette certificates within 3e-5",
		[]string{"seawater/hydrometer TestWaterDensity", "seawater/weighing TestTable"},
		[]string{"seawater/hydrometer/testdata/water_density.csv", "seawater/weighing/testdata/weighing.csv"}},
	{"Pure water at 25 °C, 0.05501 µS/cm and 18.18 MΩ·cm (Light et al. 2005)", "`conductivity.PureWater`", "0.05499 and 18.18, within the source's uncertainty",
		[]string{"seawater/conductivity TestPureWaterPublished"}, nil},
	{"Dickson, Sabine and Christian 2007, printed constants and totals at 35 and 25 °C, and the printed values of the papers of the constants", "`carbonate`: {n} values",
		"printed digits, but for pK of fluoride (2.627 printed, 2.626 by its formula) and of silicate (9.39; 9.384), whose printed values were rounded twice",
		[]string{"seawater/carbonate TestPrintedConstants"}, []string{"seawater/carbonate/testdata/dickson2007.csv"}},
	{"{n} CO2 systems, computed with PyCO2SYS 1.8.3 (Humphreys et al. 2022)", "pH; pCO2, concentrations, saturation", "5e-14; 3e-13 relative",
		[]string{"seawater/carbonate TestGrid"}, []string{"seawater/carbonate/testdata/carbonate_grid.csv"}},
	{"IUPAC 2002 and NIST buffers, {n} printed pH from 0 to 50 °C; tris of DelValls and Dickson 1998, Müller et al. 2018", "`electrode`", "every printed digit",
		[]string{"seawater/electrode TestBuffersArePrinted", "seawater/electrode TestNernstAndSeawaterBuffers"}, []string{"seawater/electrode/testdata/buffers.csv"}},
	{"Dickson 1981, table 1, a titration of {n} points", "`titration.Vessel.Mixture`; the fit of the same points", "5e-7 in pH; alkalinity to 4e-5 µmol/kg",
		[]string{"seawater/titration TestDickson1981", "seawater/titration TestDickson1981FitsBack"}, []string{"seawater/titration/testdata/dickson1981_table1.csv"}},
	{"Dickson, Sabine and Christian 2007, SOP 3b: 2260.06 µmol/kg", "`titration.Vessel.FitOpen`", "2260.08; rounding of the printed data leaves 0.2 open",
		[]string{"seawater/titration TestSOP3b", "seawater/titration TestSOP3bWithinRounding"}, nil},
	{"Garcia and Gordon 1992, Hamme and Emerson 2004, Weiss 1974, Weiss and Price 1980, Wanninkhof 2014, US Standard Atmosphere 1976", "`gas`", "every printed digit of 49 values",
		[]string{"seawater/gas TestPublishedSolubility", "seawater/gas TestExchangeTable"}, nil},
	{"Shah's look-up values of evaporation; the example of VDI 2089", "`gas`", "0.2 % low in all nine; 0.07 %",
		[]string{"seawater/gas TestExchangeTable"}, nil},
	{"IUPAC atomic weights 2021", "ratios of reported masses, NO3 to NO3-N and the like; molar masses of {n} compounds", "last bit; every printed digit",
		[]string{"units TestMolarMass", "mix/salts TestCompoundsAgainstTable"}, []string{"mix/salts/testdata/compounds.csv"}},
	{"Millero et al. 2008, reference composition", "`ions.Reference`, ionic strength 0.7226, chlorinity 19.373945", "every printed digit",
		[]string{"seawater/ions TestReferenceAgainstTheTable"}, nil},
	{"McDougall et al. 2012, salinity anomaly of alkalinity, nitrate, silicate", "density of `ions`", "within 5 % (published 55.6, 38.9, 50.7; here 56.0, 37.0, 50.8 mg/mmol)",
		[]string{"seawater/ions TestAnomalyCoefficients"}, nil},
	{"Nine artificial seawaters: ASTM D1141, Kester et al. 1967, Lyman and Fleming 1940, DOE 1994, ESAW and others", "`recipe`; the solver finds each from its ions alone", "the papers' rounding (one printed amount of ESAW differs by 0.1 %); 1e-9",
		[]string{"mix/recipe TestPublishedMolarities", "mix/recipe TestSolveFindsRecipesBack"}, nil},
	{"Solubility and density of solutions, CRC Handbook and others", "`salts`", "every value used; density within 1 to 4 kg/m³ up to 30 %",
		[]string{"mix/salts TestSolubilityAgainstTables", "mix/salts TestDensityAgainstCRC"}, nil},
	{"Wolf-Gladrow et al. 2007, 24 processes", "stoichiometry of `replenish`", "1e-12",
		[]string{"mix/replenish TestProcesses"}, nil},
	{"NIST/SEMATECH table of χ²", "`seawater.Agree`", "printed digits", []string{"seawater TestProbabilityAgainstTheTable"}, nil},
	{"NIST SP 811, DIN 38409, UK Weights and Measures Act", "every unit constant", "last bit or the next", []string{"units TestConstantsMeetTheirDefinitions"}, nil},
	{"Levenspiel (stirred tank), Rowland and Tozer (periodic dosing)", "dilution, steady states", "1e-12",
		[]string{"dilution TestRemainingByHand", "dilution TestPeriodicAgainstTheProcess", "dilution TestCourseContinuously"}, nil},
	{"Millero et al. 2008", "absolute from practical salinity", "1e-14", []string{"seawater/teos10 TestReferenceSalinity"}, nil},
}

// TestREADME keeps the README's table to the list above.
func TestREADME(t *testing.T) {
	exists := map[string]bool{}
	var table strings.Builder
	table.WriteString("| source | what | how near |\n|---|---|---|\n")
	for _, c := range published {
		for _, test := range c.tests {
			folder, _, _ := strings.Cut(test, " ")
			if !exists[folder] {
				for _, f := range testsIn(t, folder) {
					exists[folder+" "+f] = true
				}
				exists[folder] = true
			}
			assert.True(t, exists[test], "no such test: %s", test)
		}
		n := 0
		for _, path := range c.tables {
			n += rowsOf(t, filepath.Join(root, path))
		}
		assert.Equal(t, len(c.tables) > 0, strings.Contains(c.source+c.what, "{n}"), c.source)
		row := fmt.Sprintf("| %s | %s | %s |\n", c.source, c.what, c.near)
		table.WriteString(strings.ReplaceAll(row, "{n}", fmt.Sprint(n)))
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

// testsIn lists the test functions of a folder.
func testsIn(t *testing.T, folder string) (names []string) {
	files, err := filepath.Glob(filepath.Join(root, folder, "*_test.go"))
	require.NoError(t, err)
	for _, path := range files {
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		require.NoError(t, err)
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && strings.HasPrefix(fn.Name.Name, "Test") {
				names = append(names, fn.Name.Name)
			}
		}
	}
	return names
}

// rowsOf counts the rows of a table without comments and head.
func rowsOf(t *testing.T, path string) int {
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	n := -1
	for line := range bytes.Lines(data) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			n++
		}
	}
	return n
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
