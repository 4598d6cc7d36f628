package home

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.org/wellmixed/examples/paper"
)

// Command is one of the commands that answer from a file.
type Command struct {
	Name    string
	Example []byte   // an invented home, of which it answers without a file
	Start   []byte   // what -example prints, if that is to be shorter
	Flags   []string // keys that have a flag: "mix.target" is -target, "tank=tank.volume" is -tank
	Args    func(*Home, []string) error
	More    func(*flag.FlagSet) // flags of its own
	Shows   map[string][]byte   // flags that print an invented file of another kind, and stop

	// Answer works out what to say: a report for people, and for programs whatever is to be
	// written as JSON.
	Answer func(*Home) (*paper.Report, any, error)

	// Instead writes the answer in a form of its own, such as CSV, and tells whether it
	// did; nil if there is none.
	Instead func(w io.Writer, numbers any) (done bool, err error)
}

// Main runs a command and ends the program.
func (c *Command) Main() {
	err := c.Run(os.Args[1:], os.Stdout, os.Stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
	case err != nil:
		for line := range strings.Lines(err.Error()) {
			fmt.Fprintf(os.Stderr, "%s: %s\n", c.Name, strings.TrimSuffix(line, "\n"))
		}
		os.Exit(1)
	}
}

// Run runs a command. Beside an error nothing is written.
func (c *Command) Run(args []string, stdout, stderr io.Writer) error {
	set := flag.NewFlagSet(c.Name, flag.ContinueOnError)
	set.SetOutput(stderr)
	var o paper.Options
	file := set.String("file", "", "a JSON `file` about your home (default: an invented one)")
	page := set.String("html", "", "write one page with drawings to a `file`")
	asJSON := set.Bool("json", false, "write the numbers as JSON, for programs")
	set.BoolVar(&o.Short, "short", false, "write the first screen alone, to hang on the wall")
	set.BoolVar(&o.Cautions, "cautions", false, "write all cautions")
	set.BoolVar(&o.Assumptions, "assumptions", false, "write what was assumed")
	set.BoolVar(&o.Plain, "plain", false, "write nothing but ASCII where lines are drawn")
	show := set.Bool("example", false, "print the invented home, as a start for your own file")
	full := set.Bool("example-full", false, "print an invented home that says all that can be said")
	keys := set.Bool("keys", false, "print all that a file can say")
	over := map[string]string{}
	say := func(path string) func(string) error {
		return func(text string) error { over[path] = text; return nil }
	}
	for _, path := range c.Flags {
		name, path, named := strings.Cut(path, "=")
		if !named {
			name, path = last(name), name
		}
		k := keyOf(path)
		set.Func(name, k.Meaning+fmt.Sprintf(", such as %q", k.Example), say(path))
	}
	set.Func("set", "any `key=text` of the file, such as \"tank.nitrate=20 mg/L\"", func(text string) error {
		path, text, found := strings.Cut(text, "=")
		if !found {
			return errors.New("want key=text")
		}
		over[strings.TrimSpace(path)] = strings.TrimSpace(text)
		return nil
	})
	printed := map[string]*bool{}
	for name := range c.Shows {
		printed[name] = set.Bool(name, false, "print an invented one, as a start for your own")
	}
	if c.More != nil {
		c.More(set)
	}
	if err := c.parse(set, args); err != nil {
		return err
	}
	switch {
	case *show:
		if len(c.Start) > 0 {
			_, err := stdout.Write(c.Start)
			return err
		}
		_, err := stdout.Write(c.Example)
		return err
	case *full:
		_, err := stdout.Write(Full())
		return err
	case *keys:
		return WriteKeys(stdout)
	}
	for name, wanted := range printed {
		if *wanted {
			_, err := stdout.Write(c.Shows[name])
			return err
		}
	}
	h, err := c.home(*file, over, set.Args())
	if err != nil {
		return err
	}
	r, numbers, err := c.Answer(h)
	if err != nil {
		return err
	}
	for _, g := range h.guesses {
		r.Hides(g[0], g[1])
	}
	r.Assume(h.Notes...)
	r.Verdict = append(r.Verdict, h.odd()...)
	return c.write(r, numbers, stdout, *page, *asJSON, o)
}

// parse reads the flags. Of one that there is not it says which is near.
func (c *Command) parse(set *flag.FlagSet, args []string) error {
	var names []string
	set.VisitAll(func(f *flag.Flag) { names = append(names, f.Name) })
	for _, a := range args {
		name, _, _ := strings.Cut(strings.TrimLeft(a, "-"), "=")
		if strings.HasPrefix(a, "-") && len(name) > 1 && !slices.Contains(names, name) && name != "help" && !isNumber(name) {
			if near := nearest(name, names); near != "" {
				return fmt.Errorf("no flag -%s; -%s is near (-h lists them all)", name, near)
			}
		}
	}
	if err := set.Parse(args); err != nil {
		return err
	}
	if set.NArg() > 0 && c.Args == nil {
		return fmt.Errorf("%q: want flags only", set.Arg(0))
	}
	return nil
}

func isNumber(text string) bool {
	return strings.Trim(text, "0123456789.") == "" || text[0] >= '0' && text[0] <= '9'
}

// home reads the file, and what flags lay over it.
func (c *Command) home(file string, over map[string]string, args []string) (*Home, error) {
	data := c.Example
	if file != "" {
		var err error
		if data, err = os.ReadFile(file); err != nil {
			return nil, err
		}
	}
	h, err := Read(data, over)
	if err != nil {
		return nil, err
	}
	if c.Args != nil {
		err = c.Args(h, args)
	}
	return h, err
}

func (c *Command) write(r *paper.Report, numbers any, stdout io.Writer, page string, asJSON bool,
	o paper.Options) error {
	if page != "" {
		var b strings.Builder
		if err := r.WritePage(&b); err != nil {
			return err
		}
		if err := os.WriteFile(page, []byte(b.String()), 0o666); err != nil {
			return err
		}
	}
	if c.Instead != nil {
		if done, err := c.Instead(stdout, numbers); done || err != nil {
			return err
		}
	}
	if asJSON {
		e := json.NewEncoder(stdout)
		e.SetEscapeHTML(false)
		e.SetIndent("", "  ")
		return e.Encode(numbers)
	}
	return r.WriteText(stdout, o)
}

func keyOf(path string) Key {
	group := path[:strings.LastIndexByte(path, '.')+1] + "LEVEL"
	for _, k := range Keys() {
		switch k.Path {
		case path:
			return k
		case group:
			return Key{path, k.Meaning + ", " + last(path), levelExample(last(path)), false}
		}
	}
	return Key{Path: path}
}

// WriteKeys writes the table of keys.
func WriteKeys(w io.Writer) error {
	var b strings.Builder
	b.WriteString("# What a file can say\n\n" +
		"A JSON object of texts; a point stands between the names of one object in another, [] after a list.\n" +
		"LEVEL is one of " + strings.Join(levelNames(), ", ") + ".\n" +
		"What is not said is left out of an answer, and named there.\n\n" +
		"| key | meaning | example |\n|---|---|---|\n")
	for _, k := range Keys() {
		fmt.Fprintf(&b, "| %s | %s | %s |\n", k.Path, k.Meaning, k.Example)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// Full is an example that says all that can be said, and each thing in one way.
func Full() []byte {
	root := &node{}
	for _, k := range Keys() {
		if k.Instead {
			continue
		}
		if prefix, level := strings.CutSuffix(k.Path, "LEVEL"); level {
			for _, l := range fullLevels(strings.TrimSuffix(prefix, "."), k.Example) {
				root.put(prefix+l[0], l[1])
			}
			continue
		}
		root.put(k.Path, k.Example)
	}
	var b strings.Builder
	root.write(&b, "")
	b.WriteByte('\n')
	return []byte(b.String())
}

// fullLevels are the levels of the full example, where the table of keys has one.
func fullLevels(of, alkalinity string) [][2]string {
	list := map[string][][2]string{
		"tank": {{"calcium", "405 mg/L"}, {"magnesium", "1270 mg/L"}, {"nitrate", "24 mg/L NO3"},
			{"phosphate", "0.12 mg/L PO4"},
			{"ammonia", "0.03 mg/L NH3-N"}},
		"mix": {{"calcium", "430 mg/L"}, {"magnesium", "1310 mg/L"}, {"nitrate", "0 mg/L NO3"}, {"phosphate", "0 mg/L PO4"},
			{"ammonia", "0 mg/L NH3-N"}},
		"goal":           {{"nitrate", "10 mg/L NO3"}},
		"limits.low":     {{"calcium", "380 mg/L"}},
		"limits.high":    {{"calcium", "470 mg/L"}, {"nitrate", "25 mg/L NO3"}, {"phosphate", "0.15 mg/L PO4"}},
		"per_day":        {{"calcium", "-3.6 mg/L"}, {"nitrate", "0.4 mg/L NO3"}, {"phosphate", "0.004 mg/L PO4"}},
		"doubts":         {{"calcium", "10 mg/L"}, {"nitrate", "3 mg/L NO3"}},
		"doubts.per_day": {{"nitrate", "0.05 mg/L NO3"}},
		"top_off":        {{"calcium", "0 mg/L"}, {"nitrate", "0 mg/L NO3"}, {"phosphate", "0 mg/L PO4"}},
		"tests[]":        {{"calcium", "415 mg/L"}},
		"lowest":         {{"calcium", "380 mg/L"}},
		"changed[]":      {{"calcium", "425 mg/L"}},
	}
	if of == "loss_per_day" {
		return [][2]string{{"nitrate", alkalinity}}
	}
	return append([][2]string{{"alkalinity", alkalinity}}, list[of]...)
}

// node is a part of an example: a text, or keys in their order.
type node struct {
	text  string
	names []string
	below []*node
	list  bool
}

func (n *node) put(path, text string) {
	if path == "" {
		n.text = text
		return
	}
	name, rest, _ := strings.Cut(path, ".")
	name, list := strings.CutSuffix(name, "[]")
	i := slices.Index(n.names, name)
	if i < 0 {
		i = len(n.names)
		n.names = append(n.names, name)
		n.below = append(n.below, &node{list: list})
	}
	n.below[i].put(rest, text)
}

func (n *node) write(b *strings.Builder, indent string) {
	if n.list {
		b.WriteString("[")
		defer b.WriteString("]")
	}
	if len(n.names) == 0 {
		fmt.Fprintf(b, "%q", n.text)
		return
	}
	b.WriteString("{\n")
	for i, name := range n.names {
		fmt.Fprintf(b, "%s  %q: ", indent, name)
		n.below[i].write(b, indent+"  ")
		if i < len(n.names)-1 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
	}
	b.WriteString(indent + "}")
}
