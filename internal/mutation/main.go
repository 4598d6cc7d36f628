// Command mutation asks whether the tests would notice a wrong coefficient. In every
// table of numbers of the packages it is given, it changes one number by
// a hundredth, runs the tests of the package on the changed file, and reports
// the tables whose change nothing noticed:
//
//	go run ./internal/mutation ./seawater/...
//	go run ./internal/mutation -all ./seawater/pss78      # every number, not one a table
//
// No file is touched: the go command overlays the changed one. A table is a
// variable or constant at the level of the package whose value holds a number with
// a fraction or an exponent.
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"hash/fnv"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

func main() {
	all := flag.Bool("all", false, "change every number, not one of each table")
	by := flag.Float64("by", 1e-2, "how far, as a part of the number")
	list := flag.Bool("list", false, "list the tables and run nothing")
	flag.Parse()
	survivors, err := run(flag.Args(), *all, *list, *by)
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutation:", err)
		os.Exit(2)
	}
	if survivors > 0 {
		os.Exit(1)
	}
}

// number is a literal in a table.
type number struct {
	file, table  string
	offset, size int
	line         int
	value        float64
}

// run changes numbers in the packages and returns how many changes survived.
func run(patterns []string, all, list bool, by float64) (survivors int, err error) {
	dirs, err := exec.Command("go", append([]string{"list", "-f", "{{.Dir}}"}, patterns...)...).Output()
	if err != nil {
		return 0, fmt.Errorf("go list: %w", err)
	}
	tried := 0
	for _, dir := range strings.Fields(string(dirs)) {
		tables, err := tablesOf(dir)
		if err != nil {
			return survivors, err
		}
		for _, t := range tables {
			if !all {
				t = t[pick(t[0].table, len(t)):][:1]
			}
			for _, n := range t {
				tried++
				if list {
					fmt.Printf("%s:%d %s %g\n", n.file, n.line, n.table, n.value)
					continue
				}
				noticed, err := noticed(dir, n, by)
				if err != nil {
					return survivors, err
				}
				if !noticed {
					survivors++
					fmt.Printf("not noticed: %s:%d %s: %g changed by %g of it\n", n.file, n.line, n.table, n.value, by)
				}
			}
		}
	}
	fmt.Printf("%d changes tried, %d not noticed\n", tried, survivors)
	return survivors, nil
}

// pick chooses one of n by the name of the table, the same each time.
func pick(table string, n int) int {
	h := fnv.New32a()
	h.Write([]byte(table))
	return int(h.Sum32() % uint32(n))
}

// tablesOf returns the numbers of each table in the files of a package.
func tablesOf(dir string) ([][]number, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	var tables [][]number
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		set := token.NewFileSet()
		parsed, err := parser.ParseFile(set, file, nil, 0)
		if err != nil {
			return nil, err
		}
		for _, d := range parsed.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.VAR && g.Tok != token.CONST {
				continue
			}
			for _, spec := range g.Specs {
				v := spec.(*ast.ValueSpec)
				var found []number
				for _, value := range v.Values {
					ast.Inspect(value, func(node ast.Node) bool {
						lit, ok := node.(*ast.BasicLit)
						if !ok || lit.Kind != token.FLOAT {
							return true
						}
						x, err := strconv.ParseFloat(lit.Value, 64)
						if err != nil || x == 0 {
							return true
						}
						at := set.Position(lit.Pos())
						found = append(found, number{file, v.Names[0].Name, at.Offset, len(lit.Value), at.Line, x})
						return true
					})
				}
				if len(found) > 0 {
					tables = append(tables, found)
				}
			}
		}
	}
	return tables, nil
}

// noticed runs the tests of the package with one number changed and tells
// whether they fail.
func noticed(dir string, n number, by float64) (bool, error) {
	source, err := os.ReadFile(n.file)
	if err != nil {
		return false, err
	}
	changed := strconv.FormatFloat(n.value*(1+by), 'g', 17, 64)
	if !strings.ContainsAny(changed, ".e") {
		changed += ".0"
	}
	temp, err := os.MkdirTemp("", "mutation")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(temp)
	instead := filepath.Join(temp, "changed.go")
	text := string(source[:n.offset]) + changed + string(source[n.offset+n.size:])
	if err := os.WriteFile(instead, []byte(text), 0o600); err != nil {
		return false, err
	}
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": {n.file: instead}})
	if err != nil {
		return false, err
	}
	table := filepath.Join(temp, "overlay.json")
	if err := os.WriteFile(table, overlay, 0o600); err != nil {
		return false, err
	}
	vet := exec.Command("go", "build", "-overlay", table, ".")
	vet.Dir = dir
	if out, err := vet.CombinedOutput(); err != nil {
		return false, fmt.Errorf("%s: the changed file does not build: %s", n.table, out)
	}
	test := exec.Command("go", "test", "-vet=off", "-failfast", "-overlay", table, ".")
	test.Dir = dir
	return test.Run() != nil, nil
}
