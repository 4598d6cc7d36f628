package home

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Key is one thing that a file can say.
type Key struct {
	Path    string // "tank.volume"; of a list "tests[].at"
	Meaning string
	Example string
	Instead bool // another way to say what the full example says by another key
}

// file is what a file says, by path, and what is wrong with it. It is read by a walk
// over the schema, which asks for each key once. Of an empty file the walk is the list of
// all keys.
type file struct {
	texts    map[string]string
	asked    map[string]bool
	known    []string // all keys that were asked for, as paths
	keys     []Key
	example  string // of the key that was asked for last
	listing  bool   // the keys are listed: a list has one entry
	problems []error
}

func newFile() *file { return &file{texts: map[string]string{}, asked: map[string]bool{}} }

// parse takes a JSON object apart. Everything in it is a text, and no key stands twice:
// JSON would let the last one win.
func parse(data []byte) *file {
	f := newFile()
	if bad := encodedAs(data); bad != "" {
		f.problems = append(f.problems, fmt.Errorf("the file: %s: save it as UTF-8 (plain text)", bad))
		return f
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	var object map[string]json.RawMessage
	if err := json.Unmarshal(data, &object); err != nil {
		f.problems = append(f.problems,
			fmt.Errorf("the file is not a JSON object, { \"tank\": ... }: %s", whereIn(data, err)))
		return f
	}
	tokens := json.NewDecoder(bytes.NewReader(data))
	tokens.UseNumber()
	f.flatten("", tokens, 0)
	if _, err := tokens.Token(); err != io.EOF {
		f.problems = append(f.problems, errors.New("the file: more than one JSON object"))
	}
	return f
}

// whereIn says in which line of a file JSON is broken.
func whereIn(data []byte, err error) string {
	var bad *json.SyntaxError
	if !errors.As(err, &bad) {
		return err.Error()
	}
	read := data[:min(int(bad.Offset), len(data))]
	line := 1 + bytes.Count(read, []byte("\n"))
	rest, _ := utf8.DecodeRune(data[max(len(read)-1, 0):])
	if strings.ContainsRune("“”„‟‘’‚‛«»″′`", rest) {
		return fmt.Sprintf("line %d: %q is no quotation mark here: want straight quotes, \"", line, rest)
	}
	return fmt.Sprintf("line %d: %v", line, err)
}

// encodedAs says of a text that is not UTF-8 what it is and, if that can be told, where.
func encodedAs(data []byte) string {
	for _, mark := range []string{"\xff\xfe", "\xfe\xff"} { // of byte order
		if bytes.HasPrefix(data, []byte(mark)) {
			return "it is UTF-16"
		}
	}
	if bytes.IndexByte(data[:min(len(data), 4)], 0) >= 0 {
		return "it is UTF-16"
	}
	for i, line := range bytes.Split(data, []byte("\n")) {
		if !utf8.Valid(line) {
			return fmt.Sprintf("line %d has a character, such as °, in an old code", i+1)
		}
	}
	return ""
}

// deepest is how many names a path may have: no file comes near.
const deepest = 8

// flatten reads one value. The text is known to be sound JSON.
func (f *file) flatten(path string, tokens *json.Decoder, depth int) {
	token, err := tokens.Token()
	if err != nil {
		f.fail(path, err.Error(), textWant)
		return
	}
	delim, opens := token.(json.Delim)
	switch {
	case opens:
		seen := map[string]bool{}
		if depth >= deepest {
			f.fail(path, "keys below it", textWant)
		}
		for i := 0; tokens.More() && len(f.problems) < most; i++ {
			below := path + "[" + strconv.Itoa(i) + "]"
			if delim == '{' {
				below = f.key(path, tokens, seen)
			}
			f.flatten(below, tokens, depth+1)
		}
		tokens.Token() // the closing bracket
	case token == nil: // null is nothing said
	default:
		if text, ok := token.(string); ok {
			f.texts[path] = text
		} else {
			f.fail(path, fmt.Sprint(token), textWant)
		}
	}
}

const textWant = `a text in quotes with its unit, such as "20 L"`

// key reads the name of a key of an object, and returns its path.
func (f *file) key(object string, tokens *json.Decoder, seen map[string]bool) string {
	token, _ := tokens.Token()
	name := fmt.Sprint(token)
	path := strings.TrimPrefix(object+"."+name, ".")
	switch {
	case name == "" || strings.ContainsAny(name, ".[]"):
		f.fail(path, "a key named "+units.Quoted(name), `names without a point, as in "tank": {"volume": "20 L"}`)
	case seen[name]:
		f.fail(path, "two of it", "each key once")
	}
	seen[name] = true
	return path
}

// most is how many problems are told of one file.
const most = 20

// fail notes a problem.
func (f *file) fail(path, got, want string) {
	f.problem(&units.InputError{Field: path, Got: got, Want: want})
}

func (f *file) problem(err error) {
	if len(f.problems) < most {
		f.problems = append(f.problems, err)
	}
}

// has tells whether something is said at a path, or below it.
func (f *file) has(path string) bool {
	if _, said := f.texts[path]; said {
		return true
	}
	for name := range f.texts {
		if rest, below := strings.CutPrefix(name, path); below && (rest[0] == '.' || rest[0] == '[') {
			return true
		}
	}
	return false
}

// ask lists a key and returns what is said of it.
func (f *file) ask(path, meaning, example string) (text string, said bool) {
	instead := strings.HasPrefix(example, "or ")
	if meaning != "" {
		f.keys = append(f.keys, Key{path, meaning, strings.TrimPrefix(example, "or "), instead})
	}
	f.known = append(f.known, path)
	f.asked[path] = true
	f.example = strings.TrimPrefix(example, "or ")
	text, said = f.texts[path]
	if said && strings.TrimSpace(text) == "" {
		f.fail(path, `""`, "a text such as "+units.Quoted(strings.TrimPrefix(example, "or "))+", or the key left out")
		return "", false
	}
	return text, said
}

// text reads a text.
func (f *file) text(path string, into *string, meaning, example string) {
	if text, said := f.ask(path, meaning, example); said {
		*into = text
	}
}

// get reads anything that has a text, and tells whether it was said.
func (f *file) get(path string, into encoding.TextUnmarshaler, meaning, example string) bool {
	text, said := f.ask(path, meaning, example)
	if !said {
		return false
	}
	if !f.complain(path, text, into.UnmarshalText([]byte(text))) {
		return false
	}
	want := "zero or more"
	switch into.(type) {
	case *units.Duration:
		want = `a time above zero, such as "14 days", "2 weeks" or "36 h"`
	case *Swap:
		want = `above zero, or the key left out for a usual change`
	}
	if negative(into) {
		f.fail(path, units.Quoted(text), want)
		return false
	}
	return true
}

// negative tells of what nothing can have less than none of.
func negative(q any) bool {
	switch q := q.(type) {
	case *units.Volume:
		return *q < 0
	case *units.Flow:
		return *q < 0
	case *units.Mass:
		return *q < 0
	case *units.Length:
		return *q < 0
	case *units.Power:
		return *q < 0
	case *units.ThermalConductance:
		return *q < 0
	case *units.MassPerLitre:
		return *q < 0
	case *carbonate.XCO2:
		return *q < 0
	case *units.Duration: // nothing comes back at once
		return *q <= 0
	case *Swap:
		return q.Volume < 0 || q.Share.Value() < 0 || *q == Swap{}
	}
	return false
}

// maybe reads a quantity of which zero is not "not said".
func maybe[Q any, P interface {
	*Q
	encoding.TextUnmarshaler
}](f *file, path string, into **Q, meaning, example string) {
	var q Q
	if f.get(path, P(&q), meaning, example) {
		*into = &q
	}
}

// by reads what a function makes of the text.
func (f *file) by(path string, read func(text string) error, meaning, example string) {
	if text, said := f.ask(path, meaning, example); said {
		f.complain(path, text, read(text))
	}
}

// complain gives an error the path and the text as they stand in the file, and tells
// whether there was none.
func (f *file) complain(path, text string, err error) bool {
	var bad *units.InputError
	switch {
	case err == nil:
		return true
	case errors.As(err, &bad):
		want := bad.Want
		if f.example != "" && !strings.Contains(want, f.example) {
			want += "; here such as " + units.Quoted(f.example)
		}
		f.fail(path, units.Quoted(text), want)
	default:
		f.problem(fmt.Errorf("%s: %w", path, err))
	}
	return false
}

// choice reads one of a few words.
func (f *file) choice(path string, into *string, words []string, meaning string) {
	want := `"` + strings.Join(words, `", "`) + `"`
	text, said := f.ask(path, meaning+": "+strings.ReplaceAll(want, `"`, ""), words[0])
	if !said {
		return
	}
	for _, w := range words {
		if strings.EqualFold(w, strings.TrimSpace(text)) {
			*into = w
			return
		}
	}
	f.fail(path, units.Quoted(text), "one of "+want)
}

// each walks over the entries of a list.
func (f *file) each(list string, entry func(i int, path string)) {
	if f.listing {
		entry(0, list+"[]")
		return
	}
	for i := 0; ; i++ {
		path := list + "[" + strconv.Itoa(i) + "]"
		if !f.has(path) {
			return
		}
		entry(i, path)
	}
}

// rest complains about what nothing asked for, with the nearest key.
func (f *file) rest() {
	for _, path := range slices.Sorted(maps.Keys(f.texts)) {
		if f.asked[path] {
			continue
		}
		if f.below(path) {
			f.fail(path, units.Quoted(f.texts[path]), "an object with keys of its own, such as \""+path+`": {"`+
				f.firstBelow(path)+`": ...}`)
			continue
		}
		want := "no such key"
		if strings.Contains(path, "[]") {
			f.fail(path, units.Quoted(f.texts[path]), "the number of the entry, "+strings.ReplaceAll(path, "[]", "[0]"))
			continue
		}
		if near := nearest(index.ReplaceAllString(path, "[]"), f.known); near != "" {
			want += "; " + near + " is near"
		}
		f.fail(path, units.Quoted(f.texts[path]), want+" (-keys lists them all)")
	}
}

// below tells whether there are keys below a path.
func (f *file) below(path string) bool { return f.firstBelow(path) != "" }

// firstBelow is the name of the first key below a path.
func (f *file) firstBelow(path string) string {
	for _, k := range f.known {
		if rest, found := strings.CutPrefix(k, path+"."); found {
			return rest
		}
	}
	return ""
}

// index is the place in a list, which the list of keys leaves open: "tests[].at".
var index = regexp.MustCompile(`\[\d+\]`)

// nearest returns the key that is the fewest changes of letters away, or has the same
// last name; nothing if none is near.
func nearest(path string, known []string) string {
	best, least := "", 4
	for _, k := range known {
		k = index.ReplaceAllString(k, "[]")
		d := distance(path, k)
		if d > 2 && last(path) == last(k) {
			d = 3
		}
		if d < least {
			best, least = k, d
		}
	}
	return best
}

func last(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }

// distance counts the letters to insert, delete or change [Levenshtein 1966].
func distance(a, b string) int {
	if len(a) > 100 {
		return len(a)
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
