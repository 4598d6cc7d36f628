// Package form reads the scenario files of the example commands: a JSON object
// of objects, lists and texts, flattened to dotted names, so that every complaint
// can name its field.
package form

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Form is a filled-in form: "tank.volume" and "310 L". The first complaint is kept in
// Err; later reads return nothing of use.
type Form struct {
	Texts map[string]string
	Err   error
	used  map[string]bool
}

// Read flattens a JSON object. Everything in it has to be a text.
func Read(data []byte) (*Form, error) {
	var tree map[string]any
	if err := json.Unmarshal(data, &tree); err != nil {
		return nil, fmt.Errorf("the scenario is not a JSON object: %w", err)
	}
	f := &Form{Texts: map[string]string{}, used: map[string]bool{}}
	f.flatten("", tree)
	return f, f.Err
}

func (f *Form) flatten(name string, node any) {
	join := func(key string) string { return strings.TrimPrefix(name+"."+key, ".") }
	switch node := node.(type) {
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(node)) {
			f.flatten(join(key), node[key])
		}
	case []any:
		for i, child := range node {
			f.flatten(join(strconv.Itoa(i)), child)
		}
	case string:
		f.Texts[name] = node
	default:
		f.Fail(name, fmt.Sprint(node), `a text in quotes with its unit, such as "20 L"`)
	}
}

// Fail complains about a field.
func (f *Form) Fail(field, got, want string) {
	if f.Err == nil {
		f.Err = &units.InputError{Field: field, Got: got, Want: want}
	}
}

// Complain gives the error of a text the name of its field.
func (f *Form) Complain(field, text string, err error) {
	if bad, ok := err.(*units.InputError); ok {
		f.Fail(field, input.Quoted(text), bad.Want)
	}
}

// Set replaces a text, as flags do.
func (f *Form) Set(field, text string) { f.Texts[field] = text }

// Drop removes fields.
func (f *Form) Drop(fields ...string) {
	for _, field := range fields {
		delete(f.Texts, field)
	}
}

// Has tells whether a field, or any field below it, is given.
func (f *Form) Has(field string) bool {
	for name := range f.Texts {
		if name == field || strings.HasPrefix(name, field+".") {
			return true
		}
	}
	return false
}

// Each calls do with the name of every entry of a list.
func (f *Form) Each(list string, do func(entry string)) {
	for i := 0; f.Has(list + "." + strconv.Itoa(i)); i++ {
		do(list + "." + strconv.Itoa(i))
	}
}

// Text returns a field that must be given.
func (f *Form) Text(field, want string) string {
	f.used[field] = true
	text, ok := f.Texts[field]
	if !ok {
		f.Fail(field, "nothing", want)
	}
	return text
}

// Quantity is a type that reads text, by its pointer.
type Quantity[Q any] interface {
	*Q
	UnmarshalText([]byte) error
}

// Get reads a quantity that must be given.
func Get[Q any, P Quantity[Q]](f *Form, field string) Q {
	_, none := units.Parse[Q, P]("?") // what this quantity wants to see
	want := "a value"
	if bad, ok := none.(*units.InputError); ok {
		want = bad.Want
	}
	text := f.Text(field, want)
	q, err := units.Parse[Q, P](text)
	f.Complain(field, text, err)
	return q
}

// Optional reads a quantity that may be left out, and tells whether it is given.
func Optional[Q any, P Quantity[Q]](f *Form, field string) (Q, bool) {
	if !f.Has(field) {
		var none Q
		return none, false
	}
	return Get[Q, P](f, field), true
}

// Number reads a plain number of zero or more.
func (f *Form) Number(field string) float64 {
	const want = `a number such as "3"`
	text := f.Text(field, want)
	x, err := strconv.ParseFloat(text, 64)
	if !(err == nil && x >= 0 && x < 1e6) {
		f.Fail(field, input.Quoted(text), want)
	}
	return x
}

// Days reads a time such as "14 days", "2 weeks" or "36h".
func (f *Form) Days(field string) time.Duration {
	const want = `a time such as "14 days", "2 weeks" or "36h"`
	text := f.Text(field, want)
	d, err := time.ParseDuration(text)
	for name, hours := range map[string]float64{"day": 24, "week": 168} {
		if count, ok := strings.CutSuffix(strings.TrimSuffix(text, "s"), name); ok {
			var n float64
			n, err = strconv.ParseFloat(strings.TrimSpace(count), 64)
			d = time.Duration(math.Round(n * hours * float64(time.Hour)))
		}
	}
	if err != nil || d <= 0 || d > 3650*24*time.Hour {
		f.Fail(field, input.Quoted(text), want)
	}
	return d
}

// Rest complains about the first field that nothing read.
func (f *Form) Rest() {
	for _, name := range slices.Sorted(maps.Keys(f.Texts)) {
		if !f.used[name] {
			f.Fail(name, input.Quoted(f.Texts[name]), "no such field: it is misspelt, or does not go with the others")
			return
		}
	}
}
