package checks_test

import (
	"bytes"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/printer"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

// The public surface, one line an exported name, is written down in
// testdata/api.txt, so that it changes on purpose only. After a wanted change:
// go test ./internal/checks -update, and a line in DEVELOPERS.md under Changes.
func TestPublicSurface(t *testing.T) {
	var listing strings.Builder
	for _, dir := range publicPackages(t) {
		listing.WriteString(surface(t, filepath.Join(root, dir)))
	}
	path := filepath.Join("testdata", "api.txt")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(listing.String()), 0o644))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(listing.String(), "\n")); diff != "" {
		t.Errorf("the exported names are no longer those of %s: %s", path, diff)
	}
}

// surface lists the exported names of a package, with their types.
func surface(t *testing.T, dir string) string {
	set := token.NewFileSet()
	parsed, err := parser.ParseDir(set, dir, func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
	require.NoError(t, err)
	name, err := filepath.Rel(root, dir)
	require.NoError(t, err)
	var lines []string
	for _, p := range parsed {
		d := doc.New(p, name, 0)
		line := func(node any) string {
			var b bytes.Buffer
			require.NoError(t, printer.Fprint(&b, set, node))
			return strings.Join(strings.Fields(b.String()), " ")
		}
		add := func(what string) { lines = append(lines, name+": "+what) }
		values := func(list []*doc.Value) {
			for _, v := range list {
				for _, n := range v.Names {
					if ast.IsExported(n) {
						add(v.Decl.Tok.String() + " " + n)
					}
				}
			}
		}
		functions := func(list []*doc.Func) {
			for _, f := range list {
				f.Decl.Doc, f.Decl.Body = nil, nil
				add(line(f.Decl))
			}
		}
		values(d.Consts)
		values(d.Vars)
		functions(d.Funcs)
		for _, typ := range d.Types {
			values(typ.Consts)
			values(typ.Vars)
			functions(typ.Funcs)
			functions(typ.Methods)
			for _, spec := range typ.Decl.Specs {
				s := spec.(*ast.TypeSpec)
				if s.Name.Name != typ.Name {
					continue
				}
				fields, isStruct := s.Type.(*ast.StructType)
				if !isStruct {
					add("type " + line(s))
					continue
				}
				add("type " + s.Name.Name + " struct")
				for _, f := range fields.Fields.List {
					for _, n := range f.Names {
						if n.IsExported() {
							add("field " + s.Name.Name + "." + n.Name + " " + line(f.Type))
						}
					}
					if len(f.Names) == 0 {
						add("field " + s.Name.Name + " embeds " + line(f.Type))
					}
				}
			}
		}
	}
	slices.Sort(lines)
	return strings.Join(slices.Compact(lines), "\n") + "\n"
}
