package main

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

type options struct {
	all, list bool
	by        float64
	kinds     []string
}

// checked is a package with its syntax and types.
type checked struct {
	path, dir, name string
	set             *token.FileSet
	paths           []string
	sources         [][]byte
	files           []*ast.File
	types           *types.Package
	info            *types.Info
	names           map[string]string // of all packages, by path
}

// run makes the changes in the packages and returns how many nothing noticed.
func run(o options, patterns []string, out io.Writer) (survivors int, err error) {
	packages, err := load(patterns)
	if err != nil {
		return 0, err
	}
	tried := map[string]int{}
	for _, pkg := range packages {
		changes := slices.DeleteFunc(changesOf(pkg, o.by), func(c change) bool { return !slices.Contains(o.kinds, c.kind) })
		if !o.all {
			changes = sample(changes)
		}
		if o.list {
			for _, c := range changes {
				fmt.Fprintln(out, c)
			}
			continue
		}
		left, err := pkg.unnoticed(changes, tried, out)
		if err != nil {
			return survivors, fmt.Errorf("%s: %w", pkg.path, err)
		}
		survivors += left
	}
	for _, k := range allKinds {
		if tried[k] > 0 {
			fmt.Fprintf(out, "%s: %d changes, %d not noticed\n", k, tried[k], tried[k+" left"])
		}
	}
	return survivors, nil
}

func (c change) String() string {
	short := func(s string) string {
		s = strings.Join(strings.Fields(s), " ")
		if r := []rune(s); len(r) > 70 {
			s = string(r[:70]) + "..."
		}
		return s
	}
	return fmt.Sprintf("%s:%d %s, %s: %s -> %s", c.file, c.line, c.place, c.kind, short(c.was), short(c.is))
}

// load lists, parses and checks the packages.
func load(patterns []string) ([]*checked, error) {
	list := func(args ...string) ([]string, error) {
		out, err := exec.Command("go", append([]string{"list"}, append(args, patterns...)...)...).Output()
		if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
			return nil, fmt.Errorf("go list: %s", exit.Stderr)
		}
		return strings.Split(strings.TrimSpace(string(out)), "\n"), err
	}
	lines, err := list("-export", "-deps", "-f", "{{.ImportPath}}\t{{.Name}}\t{{.Export}}")
	if err != nil {
		return nil, err
	}
	names, exports := map[string]string{}, map[string]string{}
	for _, line := range lines {
		if part := strings.Split(line, "\t"); len(part) == 3 {
			names[part[0]], exports[part[0]] = part[1], part[2]
		}
	}
	if lines, err = list("-f", "{{.ImportPath}}\t{{.Dir}}\t{{.Name}}\t{{join .GoFiles \",\"}}"); err != nil {
		return nil, err
	}
	var packages []*checked
	for _, line := range lines {
		part := strings.Split(line, "\t")
		pkg := &checked{path: part[0], dir: part[1], name: part[2], set: token.NewFileSet(), names: names}
		for _, name := range strings.Split(part[3], ",") {
			path := filepath.Join(pkg.dir, name)
			source, err := os.ReadFile(path)
			if err != nil {
				return nil, err
			}
			file, err := parser.ParseFile(pkg.set, path, source, 0)
			if err != nil {
				return nil, err
			}
			pkg.paths, pkg.sources, pkg.files = append(pkg.paths, path), append(pkg.sources, source), append(pkg.files, file)
		}
		pkg.info = &types.Info{
			Types: map[ast.Expr]types.TypeAndValue{},
			Defs:  map[*ast.Ident]types.Object{},
			Uses:  map[*ast.Ident]types.Object{},
		}
		config := types.Config{
			Importer: importer.ForCompiler(pkg.set, "gc",
				func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) }),
		}
		if pkg.types, err = config.Check(pkg.path, pkg.set, pkg.files, pkg.info); err != nil {
			return nil, err
		}
		packages = append(packages, pkg)
	}
	return packages, nil
}

// helpers stand in every changed package.
const helpers = `
import "os"

var mutant = func() (n int) {
	for _, digit := range os.Getenv("MUTANT") {
		n = 10*n + int(digit-'0')
	}
	return n
}()

type mutantNumeric interface {
	~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64 | ~float32 | ~float64
}

func mutantNumber[T mutantNumeric](n int, x, other T) T {
	if mutant == n {
		return other
	}
	return x
}

func mutantSign[T mutantNumeric](n int) (sign T) {
	if mutant == n {
		return sign - 1
	}
	return 1
}

func mutantMinus[T mutantNumeric](n int, x T) T {
	if mutant == n {
		return x
	}
	return -x
}

func mutantSum[T mutantNumeric](n int, x, y T) T {
	if mutant == n {
		return x - y
	}
	return x + y
}

func mutantDifference[T mutantNumeric](n int, x, y T) T {
	if mutant == n {
		return x + y
	}
	return x - y
}

func mutantProduct[T mutantNumeric](n int, x, y T) T {
	if mutant == n {
		return x / y
	}
	return x * y
}
`

// unnoticed makes the changes one at a time and reports those that no test notices.
func (pkg *checked) unnoticed(changes []change, tried map[string]int, out io.Writer) (left int, err error) {
	temp, err := os.MkdirTemp("", "mutation")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(temp)
	together := slices.DeleteFunc(slices.Clone(changes), func(c change) bool { return c.alone })
	alone := slices.DeleteFunc(slices.Clone(changes), func(c change) bool { return !c.alone })

	var program string
	for {
		if program, err = pkg.compile(temp, together); err == nil {
			break
		}
		// What does not compile, such as a product of constants, is left out.
		var refused []string
		for _, m := range complaint.FindAllStringSubmatch(err.Error(), -1) {
			refused = append(refused, filepath.Base(m[1])+":"+m[2])
		}
		before := len(together)
		together = slices.DeleteFunc(together, func(c change) bool {
			return slices.Contains(refused, fmt.Sprintf("%s:%d", filepath.Base(c.file), c.line))
		})
		if len(together) == before {
			return 0, err
		}
		fmt.Fprintf(out, "# %s: %d changes do not compile\n", pkg.path, before-len(together))
	}
	if program == "" {
		fmt.Fprintf(out, "# %s: no tests\n", pkg.path)
		return 0, nil
	}
	// A test may fail by the changes standing in the program, such as one that counts
	// allocations; it is left out.
	skip := "^$"
	if failed := pkg.fails(program, 0, skip, 10*time.Minute); failed != "" {
		var names []string
		for _, m := range failure.FindAllStringSubmatch(failed, -1) {
			names = append(names, m[1])
		}
		skip = "^(" + strings.Join(names, "|") + ")$"
		fmt.Fprintf(out, "# %s: without %s\n", pkg.path, strings.Join(names, ", "))
	}
	begun := time.Now()
	if failed := pkg.fails(program, 0, skip, 10*time.Minute); failed != "" {
		return 0, fmt.Errorf("the tests fail with no change made:\n%s", failed)
	}
	limit := 10*time.Since(begun) + 2*time.Second
	report := func(c change, noticed bool) {
		tried[c.kind]++
		if !noticed {
			left++
			tried[c.kind+" left"]++
			fmt.Fprintln(out, c)
		}
	}
	for i, c := range together {
		report(c, pkg.fails(program, i+1, skip, limit) != "")
	}
	for _, c := range alone {
		program, err := pkg.compile(temp, []change{c})
		report(c, err != nil || pkg.fails(program, 0, "^$", limit) != "") // what does not compile is noticed
	}
	return left, nil
}

var failure = regexp.MustCompile(`(?m)^--- FAIL: (\w+)`)

var complaint = regexp.MustCompile(`(?m)^(?:vet: )?(\S+\.go):(\d+):`)

// compile builds the tests of the package with the changes in it.
func (pkg *checked) compile(temp string, changes []change) (program string, err error) {
	replace := map[string]string{}
	for i, path := range pkg.paths {
		var here []numbered
		for n, c := range changes {
			if c.file == path {
				here = append(here, numbered{c, n + 1})
			}
		}
		replace[path] = filepath.Join(temp, filepath.Base(path))
		text := rewrite(pkg.sources[i], 0, len(pkg.sources[i]), here)
		if err := os.WriteFile(replace[path], []byte(text), 0o600); err != nil {
			return "", err
		}
	}
	added := filepath.Join(temp, "mutant.go")
	replace[filepath.Join(pkg.dir, "mutant_helpers.go")] = added
	if err := os.WriteFile(added, []byte("package "+pkg.name+"\n"+helpers), 0o600); err != nil {
		return "", err
	}
	overlay, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	table := filepath.Join(temp, "overlay.json")
	if err := os.WriteFile(table, overlay, 0o600); err != nil {
		return "", err
	}
	program = filepath.Join(temp, "tests")
	build := exec.Command("go", "test", "-c", "-vet=off", "-gcflags=-e", "-overlay", table, "-o", program, ".")
	build.Dir = pkg.dir
	text, err := build.CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%w:\n%s", err, text)
	}
	if strings.Contains(string(text), "[no test files]") {
		return "", nil
	}
	return program, nil
}

type numbered struct {
	change
	n int
}

// rewrite returns the source from one offset to another with the changes in it: of
// those at one place each holds the next.
func rewrite(source []byte, from, to int, changes []numbered) string {
	within := slices.DeleteFunc(slices.Clone(changes), func(c numbered) bool { return c.from < from || c.to > to })
	slices.SortStableFunc(within, func(a, b numbered) int {
		return cmp.Or(cmp.Compare(a.from, b.from),
			cmp.Compare(b.to, a.to))
	})
	var text strings.Builder
	at := from
	for i, c := range within {
		if c.from < at {
			continue // inside the one before
		}
		text.Write(source[at:c.from])
		// Complaints of the compiler name the line of the source.
		line := fmt.Sprintf("/*line :%d:1*/", 1+bytes.Count(source[:c.to], []byte("\n")))
		for j, part := range strings.Split(strings.ReplaceAll(c.with, number, strconv.Itoa(c.n)), mark) {
			if j%2 == 0 {
				text.WriteString(part)
				continue
			}
			first, last, _ := strings.Cut(part, ":")
			a, _ := strconv.Atoi(first)
			b, _ := strconv.Atoi(last)
			text.WriteString(rewrite(source, a, b, within[i+1:]))
		}
		if strings.Contains(c.with, "\n") {
			text.WriteString(line)
		}
		at = c.to
	}
	text.Write(source[at:to])
	return text.String()
}

// fails runs the tests but for some with one change made, 0 for none, and returns what
// they say if they fail or do not end.
func (pkg *checked) fails(program string, n int, skip string, limit time.Duration) string {
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	tests := exec.CommandContext(ctx, program, "-test.short", "-test.skip", skip)
	if n > 0 {
		tests.Args = append(tests.Args, "-test.failfast")
	}
	tests.Dir = pkg.dir
	tests.Env = append(os.Environ(), "MUTANT="+strconv.Itoa(n))
	if text, err := tests.CombinedOutput(); err != nil {
		return err.Error() + "\n" + string(text)
	}
	return ""
}
