package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"hash/fnv"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

var allKinds = []string{"number", "bound", "comparison", "sign", "return", "boolean"}

// change is one thing that is made wrong.
type change struct {
	kind  string
	place string // the function, the table or the constant in which it stands
	file  string
	line  int
	was   string // as the source has it
	is    string

	// Where it stands in the file, and what stands there when all changes are compiled
	// in. In with, number stands for the number of the change, and between two marks
	// stand the offsets of source in which further changes may stand.
	from, to int
	with     string

	alone bool // a constant: compiled by itself, with is what stands there instead
}

const (
	mark   = "\x00"
	number = "\x01"
)

// finder collects the changes of one file.
type finder struct {
	pkg      *checked
	file     *ast.File
	path     string
	source   []byte
	imported map[string]string // by path, the name in this file
	by       float64
	place    string
	results  []*ast.FieldList // of the functions around
	found    []change
}

// changesOf finds all changes of a package that was type-checked.
func changesOf(pkg *checked, by float64) []change {
	var all []change
	for i, file := range pkg.files {
		f := &finder{pkg: pkg, file: file, path: pkg.paths[i], source: pkg.sources[i], by: by, imported: map[string]string{}}
		for _, s := range file.Imports {
			path, _ := strconv.Unquote(s.Path.Value)
			f.imported[path] = pkg.names[path]
			if s.Name != nil {
				f.imported[path] = s.Name.Name
			}
		}
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				f.place = d.Name.Name
				if d.Recv != nil {
					f.place = f.text(d.Recv.List[0].Type) + "." + f.place
				}
				if d.Body != nil {
					f.results = []*ast.FieldList{d.Type.Results}
					f.walk(d.Body)
				}
			case *ast.GenDecl:
				for _, spec := range d.Specs {
					if v, ok := spec.(*ast.ValueSpec); ok && (d.Tok == token.VAR || d.Tok == token.CONST) {
						f.place, f.results = v.Names[0].Name, nil
						for _, value := range v.Values {
							if d.Tok == token.CONST {
								f.constant(value)
							} else {
								f.walk(value)
							}
						}
					}
				}
			}
		}
		all = append(all, f.found...)
	}
	return all
}

// sample keeps one change of each kind in a place, the same each time.
func sample(all []change) []change {
	groups, order := map[string][]change{}, []string{}
	for _, c := range all {
		key := c.file + " " + c.place + " " + c.kind
		if groups[key] == nil {
			order = append(order, key)
		}
		groups[key] = append(groups[key], c)
	}
	var some []change
	for _, key := range order {
		h := fnv.New32a()
		h.Write([]byte(key[strings.LastIndexByte(key, filepath.Separator)+1:]))
		some = append(some, groups[key][int(h.Sum32()%uint32(len(groups[key])))])
	}
	return some
}

// walk finds the changes of what runs.
func (f *finder) walk(root ast.Node) {
	ast.Inspect(root, func(n ast.Node) bool {
		if e, ok := n.(ast.Expr); ok && f.pkg.info.Types[e].Value != nil {
			f.number(e)
			return false
		}
		switch n := n.(type) {
		case *ast.ArrayType, *ast.GenDecl:
			if d, ok := n.(*ast.GenDecl); ok && d.Tok == token.VAR {
				return true
			}
			return false // lengths, constants
		case *ast.KeyValueExpr:
			f.walk(n.Value)
			return false // keys of arrays are constants
		case *ast.IndexExpr:
			f.walk(n.X)
			return false
		case *ast.FuncLit:
			f.results = append(f.results, n.Type.Results)
			f.walk(n.Body)
			f.results = f.results[:len(f.results)-1]
			return false
		case *ast.BinaryExpr:
			f.binary(n)
		case *ast.UnaryExpr:
			f.unary(n)
		case *ast.AssignStmt:
			f.assign(n)
		case *ast.ReturnStmt:
			f.returned(n)
		}
		return true
	})
}

// constant finds the number of a constant.
func (f *finder) constant(value ast.Expr) {
	other, ok := f.another(value)
	if !ok || strings.Contains(f.text(value), "iota") {
		return
	}
	c := f.at(value, "number", f.text(value), other)
	c.alone = true
	if basic := f.pkg.info.TypeOf(value).Underlying().(*types.Basic); basic.Info()&types.IsFloat != 0 {
		c.with = fmt.Sprintf("(%s) * %g", c.was, 1+f.by)
	} else {
		x, _ := constant.Int64Val(constant.ToInt(f.pkg.info.Types[value].Value))
		y, _ := strconv.ParseInt(other, 10, 64)
		c.with = fmt.Sprintf("(%s) + (%d)", c.was, y-x)
	}
	f.found = append(f.found, c)
}

// another is a number changed; false if none is written there, or it is zero, or counts
// one thing.
func (f *finder) another(e ast.Expr) (string, bool) {
	written := false
	ast.Inspect(e, func(n ast.Node) bool {
		lit, ok := n.(*ast.BasicLit)
		written = written || ok && (lit.Kind == token.INT || lit.Kind == token.FLOAT)
		return true
	})
	basic, ok := f.pkg.info.TypeOf(e).Underlying().(*types.Basic)
	if !ok || !written {
		return "", false
	}
	x, _ := constant.Float64Val(constant.ToFloat(f.pkg.info.Types[e].Value))
	switch {
	case x == 0:
		return "", false
	case basic.Info()&types.IsFloat != 0:
		text := strconv.FormatFloat(x+float64(x*f.by), 'g', 17, 64)
		if !strings.ContainsAny(text, ".e") {
			text += ".0"
		}
		return text, true
	case basic.Info()&types.IsInteger != 0 && (x > 1 || x < -1):
		return strconv.FormatInt(int64(x)+max(1, int64(math.Abs(x*f.by))), 10), true
	}
	return "", false
}

// number finds a number in what runs.
func (f *finder) number(e ast.Expr) {
	other, ok := f.another(e)
	if !ok {
		return
	}
	if name, ok := f.typeName(e); ok {
		f.add(f.at(e, "number", f.text(e), other), "mutantNumber["+name+"]("+number+", "+f.text(e)+", "+other+")")
	}
}

var (
	bounds    = map[token.Token]string{token.LSS: "<=", token.LEQ: "<", token.GTR: ">=", token.GEQ: ">"}
	opposites = map[token.Token]string{
		token.LSS: ">=",
		token.LEQ: ">",
		token.GTR: "<=",
		token.GEQ: "<",
		token.EQL: "!=",
		token.NEQ: "==",
	}
	booleans = map[token.Token]string{token.LAND: "||", token.LOR: "&&"}
	signs    = map[token.Token][2]string{
		token.ADD: {"-", "mutantSum"},
		token.SUB: {"+", "mutantDifference"},
		token.MUL: {"/", "mutantProduct"},
	}
)

func (f *finder) binary(n *ast.BinaryExpr) {
	x, y := f.text(n.X), f.text(n.Y)
	choose := func(kind, op string) {
		other := x + " " + op + " " + y
		f.add(f.at(n, kind, f.text(n), other), "(mutant == "+number+" && ("+other+") || mutant != "+number+" && ("+
			f.inside(n)+"))")
	}
	if op, ok := bounds[n.Op]; ok {
		choose("bound", op)
	}
	if op, ok := opposites[n.Op]; ok {
		choose("comparison", op)
	}
	if op, ok := booleans[n.Op]; ok {
		choose("boolean", op)
	}
	if s, ok := signs[n.Op]; ok && f.isNumber(n) {
		if name, ok := f.typeName(n); ok {
			f.add(f.at(n, "sign", f.text(n), x+" "+s[0]+" "+y), s[1]+"["+name+"]("+number+", "+f.inside(n.X)+", "+f.inside(n.Y)+
				")")
		}
	}
}

func (f *finder) unary(n *ast.UnaryExpr) {
	x := f.text(n.X)
	switch n.Op {
	case token.NOT:
		f.add(f.at(n, "boolean", f.text(n), x), "((mutant == "+number+") == ("+f.inside(n.X)+"))")
	case token.SUB:
		if name, ok := f.typeName(n); ok {
			f.add(f.at(n, "sign", f.text(n), x), "mutantMinus["+name+"]("+number+", "+f.inside(n.X)+")")
		}
	}
}

func (f *finder) assign(n *ast.AssignStmt) {
	if n.Tok != token.ADD_ASSIGN && n.Tok != token.SUB_ASSIGN || !f.isNumber(n.Lhs[0]) {
		return
	}
	if name, ok := f.typeName(n.Lhs[0]); ok {
		other := map[token.Token]string{token.ADD_ASSIGN: "-=", token.SUB_ASSIGN: "+="}[n.Tok]
		f.add(f.at(n, "sign", f.text(n), f.text(n.Lhs[0])+" "+other+" "+f.text(n.Rhs[0])),
			f.inside(n.Lhs[0])+" "+n.Tok.String()+" mutantSign["+name+"]("+number+") * ("+f.inside(n.Rhs[0])+")")
	}
}

// returned finds a return of an error to be nil, or of values to be zero.
func (f *finder) returned(n *ast.ReturnStmt) {
	list := f.results[len(f.results)-1]
	if list == nil || len(n.Results) == 0 {
		return
	}
	var want []string // the types of the results, as written
	for _, field := range list.List {
		for range max(1, len(field.Names)) {
			want = append(want, f.text(field.Type))
		}
	}
	last := len(want) - 1
	whole := len(n.Results) == len(want) // else one call returns them all
	var values, names []string
	for i := range want {
		names = append(names, fmt.Sprintf("mutant%d", i))
		if whole {
			values = append(values, f.text(n.Results[i]))
		}
	}
	instead := func(is, with string) {
		c := f.at(n, "return", f.text(n), is)
		f.add(c, "if mutant == "+number+" { "+with+" }; "+f.inside(n))
	}
	if want[last] == "error" {
		switch {
		case whole && values[last] != "nil":
			others := append(slices.Clone(values[:last]), "nil")
			instead("return "+strings.Join(others, ", "), "return "+strings.Join(others, ", "))
			return
		case !whole:
			names[last] = "_"
			instead(f.text(n)+", its error nil", strings.Join(names, ", ")+" := "+f.text(n.Results[0])+"; return "+
				strings.Join(append(slices.Clone(names[:last]), "nil"), ", "))
			return
		case last == 0:
			return // nil already
		}
	}
	if !whole {
		return
	}
	var zero []string
	for i, typ := range want {
		if i == last && typ == "error" {
			zero = append(zero, values[i])
		} else {
			zero = append(zero, "*new("+typ+")")
		}
	}
	if f.isZero(n.Results) {
		return
	}
	instead("return zero", "return "+strings.Join(zero, ", "))
}

// isZero tells whether zero values are returned already.
func (f *finder) isZero(results []ast.Expr) bool {
	return !slices.ContainsFunc(results, func(e ast.Expr) bool {
		text := f.text(e)
		return text != "nil" && text != "0" && text != "false" && text != `""` && !strings.HasSuffix(text, "{}")
	})
}

func (f *finder) isNumber(e ast.Expr) bool {
	basic, ok := f.pkg.info.TypeOf(e).Underlying().(*types.Basic)
	return ok && basic.Info()&types.IsNumeric != 0
}

// typeName writes the type of an expression as this file can; false if it cannot.
func (f *finder) typeName(e ast.Expr) (string, bool) {
	typ, ok := f.pkg.info.TypeOf(e), true
	if basic, isBasic := typ.(*types.Basic); isBasic && basic.Info()&types.IsUntyped != 0 {
		return "", false
	}
	name := types.TypeString(typ, func(p *types.Package) string {
		if p == f.pkg.types {
			return ""
		}
		name := f.imported[p.Path()]
		ok = ok && name != ""
		return name
	})
	return name, ok
}

func (f *finder) text(n ast.Node) string {
	from, to := f.offsets(n)
	return string(f.source[from:to])
}

// inside marks source in which other changes may stand.
func (f *finder) inside(n ast.Node) string {
	from, to := f.offsets(n)
	return fmt.Sprintf("%s%d:%d%s", mark, from, to, mark)
}

func (f *finder) offsets(n ast.Node) (from, to int) {
	return f.pkg.set.Position(n.Pos()).Offset, f.pkg.set.Position(n.End()).Offset
}

func (f *finder) at(n ast.Node, kind, was, is string) change {
	from, to := f.offsets(n)
	return change{
		kind:  kind,
		place: f.place,
		file:  f.path,
		line:  f.pkg.set.Position(n.Pos()).Line,
		was:   was,
		is:    is,
		from:  from,
		to:    to,
	}
}

func (f *finder) add(c change, with string) {
	c.with = with
	f.found = append(f.found, c)
}
