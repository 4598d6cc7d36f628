package checks_test

import (
	"bufio"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	widest       = 120 // columns
	mostBranches = 25  // of a function: each if, for, case, && and ||, and the way through
)

// Programs can be read: no line is wider than a screen but rows of tables, and no
// function has more branches than one can hold in mind.
func TestSourcesCanBeRead(t *testing.T) {
	files := 0
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		files++
		for n, line := range lines(t, path) {
			if !isTable(path) && utf8.RuneCountInString(line) > widest {
				assert.Fail(t, "too wide", "%s:%d has %d columns", path, n+1, utf8.RuneCountInString(line))
			}
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		require.NoError(t, err)
		for _, decl := range file.Decls {
			if f, ok := decl.(*ast.FuncDecl); ok && f.Body != nil {
				assert.LessOrEqual(t, branches(f), mostBranches, "%s: %s", path, f.Name.Name)
			}
		}
		return nil
	})
	require.NoError(t, err)
	assert.Greater(t, files, 200)
}

// isTable tells files of numbers, whose rows stay whole, and generated sums.
func isTable(path string) bool {
	name := filepath.Base(path)
	return strings.Contains(name, "table") || strings.Contains(name, "_coef") || strings.HasPrefix(name, "gibbs_")
}

func lines(t *testing.T, path string) []string {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer func() { assert.NoError(t, f.Close()) }()
	var list []string
	s := bufio.NewScanner(f)
	s.Buffer(nil, 1<<20)
	for s.Scan() {
		list = append(list, s.Text())
	}
	require.NoError(t, s.Err())
	return list
}

func branches(f *ast.FuncDecl) int {
	n := 1
	ast.Inspect(f.Body, func(node ast.Node) bool {
		switch x := node.(type) {
		case *ast.IfStmt, *ast.ForStmt, *ast.RangeStmt:
			n++
		case *ast.CaseClause:
			if x.List != nil {
				n++
			}
		case *ast.BinaryExpr:
			if x.Op == token.LAND || x.Op == token.LOR {
				n++
			}
		}
		return true
	})
	return n
}
