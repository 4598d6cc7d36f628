// Package form reads the scenario files of the example commands: a JSON object
// of objects, lists and texts, flattened to dotted names, so that every complaint
// can name its field.
package form

import (
	"bytes"
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

// Read flattens a JSON object. Everything in it has to be a text, and no field may
// be given twice: JSON would let the last one win.
func Read(data []byte) (*Form, error) {
	var object map[string]json.RawMessage
	if err := json.Unmarshal(data, &object); err != nil {
		return nil, fmt.Errorf("the scenario is not a JSON object: %w", err)
	}
	f := &Form{Texts: map[string]string{}, used: map[string]bool{}}
	tokens := json.NewDecoder(bytes.NewReader(data))
	tokens.UseNumber()
	f.flatten("", tokens, 0)
	return f, f.Err
}

// deepest is how many names a field may have: no scenario comes near.
const deepest = 8

// flatten reads one value. The text is known to be sound JSON.
func (f *Form) flatten(name string, tokens *json.Decoder, depth int) {
	token, err := tokens.Token()
	if err != nil {
		f.Fail(name, err.Error(), textWant)
	}
	switch token := token.(type) {
	case json.Delim:
		if depth == deepest {
			f.Fail(name, "fields below it", textWant)
		}
		seen := map[string]bool{}
		for i := 0; f.Err == nil && tokens.More(); i++ {
			key := strconv.Itoa(i)
			if token == '{' {
				key = f.key(name, tokens, seen)
			}
			f.flatten(strings.TrimPrefix(name+"."+key, "."), tokens, depth+1)
		}
		tokens.Token() // the closing bracket
	case string:
		f.Texts[name] = token
	case nil:
		f.Fail(name, "null", textWant)
	default:
		f.Fail(name, short(fmt.Sprint(token)), textWant)
	}
}

const textWant = `a text in quotes with its unit, such as "20 L"`

// key reads the name of a field of an object.
func (f *Form) key(object string, tokens *json.Decoder, seen map[string]bool) string {
	token, _ := tokens.Token()
	key := fmt.Sprint(token)
	switch {
	case key == "" || strings.Contains(key, "."):
		if object == "" {
			object = "scenario"
		}
		f.Fail(object, "a field named "+input.Quoted(key), `names without a point, as in "tank": {"volume": "20 L"}`)
	case seen[key]:
		f.Fail(strings.TrimPrefix(object+"."+key, "."), "two of it", "each field once")
	}
	seen[key] = true
	return key
}

// short cuts what is too long for a message.
func short(text string) string {
	text = input.Quoted(text)
	return text[1 : len(text)-1]
}

// Fail complains about a field.
func (f *Form) Fail(field, got, want string) {
	if f.Err == nil {
		f.Err = input.Bad(short(field), got, want)
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
	x, ok := decimal(text)
	if !(ok && x >= 0 && x < 1e6) {
		f.Fail(field, input.Quoted(text), want)
		return math.NaN()
	}
	return x
}

// decimal reads a decimal number, and not what else Go takes for one, such as 0x10.
func decimal(text string) (float64, bool) {
	if len(text) > 60 || strings.Trim(text, "0123456789.+-eE") != "" {
		return math.NaN(), false
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil
}

// Days reads a time such as "14 days", "2 weeks" or "36h".
func (f *Form) Days(field string) time.Duration {
	const want = `a time such as "14 days", "2 weeks" or "36h"`
	text := f.Text(field, want)
	hours, ok := hoursOf(text)
	if !(ok && hours >= 1./3600 && hours <= 3650*24) {
		f.Fail(field, input.Quoted(text), want)
		return 0
	}
	return time.Duration(math.Round(hours * float64(time.Hour)))
}

func hoursOf(text string) (float64, bool) {
	for _, unit := range [...]struct {
		name  string
		hours float64
	}{{"day", 24}, {"week", 7 * 24}} {
		if count, found := strings.CutSuffix(strings.TrimSuffix(text, "s"), unit.name); found {
			n, ok := decimal(strings.TrimSpace(count))
			return n * unit.hours, ok
		}
	}
	d, err := time.ParseDuration(text)
	return d.Hours(), err == nil
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
