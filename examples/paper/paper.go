// Package paper writes what a command has to say: on a screen, or as one page to read on a
// phone or to print.
//
// The answer comes first: what to do, how much, until when, and what is dangerous about
// this job, !! for what can kill. The first screen ends with what nobody told; details follow. What always
// holds, cautions and assumptions, stands once at the end, by what one is about to do.
package paper

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"example.org/wellmixed/mix/advice"
)

// Report is what a command has to say.
type Report struct {
	Title    string
	Verdict  []string // what it comes to
	Steps    []string // what to do, in order
	Glance   *Table   // the numbers of the first screen
	Sections []Section

	unknown []hidden
	groups  []group
	assumed []string
}

// hidden is a key that says nothing, and what is left out because of it.
type hidden struct{ Key, What string }

// Section is a part of the details.
type Section struct {
	Title string
	Body  []any // string: a paragraph; *Table; Drawing
}

// Table has a first column to the left, and the others to the right but for the last if it
// is Left.
type Table struct {
	Head []string
	Rows [][]string
	Left bool // the last column is words
}

// Row adds a row.
func (t *Table) Row(cells ...string) { t.Rows = append(t.Rows, cells) }

// Drawing is a picture, which has a caption, words for those who do not see it and a strip
// for a terminal.
type Drawing interface {
	SVG() string
	Caption() string
	Words() string
	Strip(plain bool) []string
}

type group struct {
	doing string
	list  []advice.Caution
}

// Add appends a section.
func (r *Report) Add(title string, body ...any) {
	r.Sections = append(r.Sections, Section{title, body})
}

// Hides notes what is left out because a key says nothing.
func (r *Report) Hides(key, what string) {
	if h := (hidden{key, what}); !slices.Contains(r.unknown, h) {
		r.unknown = append(r.unknown, h)
	}
}

// keys are those that say nothing.
func (r *Report) keys() []string {
	var list []string
	for _, h := range r.unknown {
		if !slices.Contains(list, h.Key) {
			list = append(list, h.Key)
		}
	}
	return list
}

// Care files cautions under what one is about to do. Equal ones are told once; two with
// different numbers are two.
func (r *Report) Care(doing string, list ...advice.Caution) {
	for _, c := range list {
		if !slices.ContainsFunc(r.groups, func(g group) bool { return slices.Contains(g.list, c) }) {
			i := slices.IndexFunc(r.groups, func(g group) bool { return g.doing == doing })
			if i < 0 {
				i = len(r.groups)
				r.groups = append(r.groups, group{doing: doing})
			}
			r.groups[i].list = append(r.groups[i].list, c)
		}
	}
}

// Assume notes what was assumed, once.
func (r *Report) Assume(list ...string) {
	for _, a := range list {
		if !slices.Contains(r.assumed, a) {
			r.assumed = append(r.assumed, a)
		}
	}
}

// ofThisJob are the cautions that speak of the numbers of this job and the dangers, the
// gravest first.
func (r *Report) ofThisJob() []advice.Caution {
	var list []advice.Caution
	for severity := advice.Danger; severity > advice.Note; severity-- {
		for _, g := range r.groups {
			for _, c := range g.list {
				if c.Severity == severity && c.Here {
					if strings.HasPrefix(g.doing, "dosing ") { // which is not what is done first
						c.Text = Capital(g.doing) + ": " + lower(c.Text)
					}
					list = append(list, c)
				}
			}
		}
	}
	return list
}

// lower begins a sentence with a small letter.
func lower(text string) string {
	if len(text) > 1 && text[0] >= 'A' && text[0] <= 'Z' && text[1] >= 'a' && text[1] <= 'z' {
		return string(text[0]+'a'-'A') + text[1:]
	}
	return text
}

// general are the cautions that hold always, by what one does; of those that may wait
// only how many there are.
func (r *Report) general(all bool) (groups []group, waiting int) {
	for _, g := range r.groups {
		kept := group{doing: g.doing}
		for _, c := range g.list {
			switch {
			case c.Here && c.Severity > advice.Note:
			case all || c.Severity == advice.Danger:
				kept.list = append(kept.list, c)
			default:
				waiting++
			}
		}
		if len(kept.list) > 0 {
			slices.SortStableFunc(kept.list, func(a, b advice.Caution) int { return int(b.Severity) - int(a.Severity) })
			groups = append(groups, kept)
		}
	}
	return groups, waiting
}

// Options choose what is written besides the answer.
type Options struct {
	Cautions, Assumptions bool // all of them
	Short                 bool // the first screen alone
	Plain                 bool // ASCII alone in strips
}

const width = 78

// headline is what a caution begins with: the danger, before what to do about it.
func headline(text string) string {
	end := len(text)
	start := 0
	if i := strings.Index(text, ": "); i > 0 && strings.HasPrefix(text, "Dosing ") {
		start = i + 2
	}
	for _, mark := range []string{": ", ". ", "; ", " ("} {
		if i := strings.Index(text[start:], mark); i > 0 {
			end = min(end, start+i)
		}
	}
	line := []rune(strings.TrimSuffix(text[:end], "."))
	if len(line) > width-3 {
		return string(line[:width-4]) + "…"
	}
	return string(line)
}

// WriteText writes the report for a screen.
func (r *Report) WriteText(w io.Writer, o Options) error {
	p := &printer{w: w, plain: o.Plain}
	p.line("%s", r.Title)
	for _, v := range r.Verdict {
		p.fold("", v)
	}
	for i, s := range r.Steps {
		p.fold(fmt.Sprintf("%2d ", i+1), s)
	}
	here := r.ofThisJob()
	for _, c := range here {
		p.line("%-2s %s", strings.Repeat("!", int(c.Severity)), headline(c.Text))
	}
	if r.Glance != nil {
		p.table(r.Glance)
	}
	if len(r.unknown) > 0 {
		p.fold("?  ", "Not told: "+strings.Join(r.keys(), ", ")+".")
	}
	if o.Short {
		return p.err
	}
	if len(here) > 0 {
		p.line("\n%s", "Take care, with this job")
		for _, c := range here {
			p.fold(fmt.Sprintf("%-2s ", strings.Repeat("!", int(c.Severity))), c.Text)
		}
	}
	for _, s := range r.Sections {
		p.section(s)
	}
	if len(r.unknown) > 0 {
		p.line("\nNot told, and what is left out for it")
		for _, h := range r.unknown {
			p.fold("-  ", h.Key+": "+h.What)
		}
	}
	r.always(p, o)
	return p.err
}

// always writes what always holds.
func (r *Report) always(p *printer, o Options) {
	groups, waiting := r.general(o.Cautions)
	for _, g := range groups {
		p.line("\n%s", "Before "+g.doing)
		for _, c := range g.list {
			p.fold("-  ", c.Text)
		}
	}
	if o.Assumptions && len(r.assumed) > 0 {
		p.line("\nAssumed")
		for _, a := range r.assumed {
			p.fold("-  ", a)
		}
	}
	var more []string
	if waiting > 0 {
		hold := "hold"
		if waiting == 1 {
			hold = "holds"
		}
		more = append(more, fmt.Sprintf("%s that always %s: -cautions", count(waiting, "more caution"), hold))
	}
	if n := len(r.assumed); n > 0 && !o.Assumptions {
		more = append(more, fmt.Sprintf("%s: -assumptions", count(n, "assumption")))
	}
	if len(more) > 0 {
		p.line("")
		p.fold("", strings.Join(more, "; ")+".")
	}
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// printer writes lines until the first error.
type printer struct {
	w     io.Writer
	err   error
	plain bool
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

// fold writes a sentence behind a mark, folded at the width of a screen.
func (p *printer) fold(mark, text string) {
	line, indent := mark, strings.Repeat(" ", len(mark))
	empty := true
	for word := range strings.FieldsSeq(text) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			p.line("%s", line)
			line, empty = indent, true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	p.line("%s", line)
}

func (p *printer) section(s Section) {
	p.line("\n%s", s.Title)
	for _, b := range s.Body {
		switch b := b.(type) {
		case string:
			p.fold("", b)
		case *Table:
			p.table(b)
		case Drawing:
			for _, l := range b.Strip(p.plain) {
				p.line("%s", l)
			}
		}
	}
}

func (p *printer) table(t *Table) {
	rows := t.Rows
	if len(t.Head) > 0 {
		rows = append([][]string{t.Head}, rows...)
	}
	widths := make([]int, 0, 8)
	for _, row := range rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range rows {
		line := " "
		for i, cell := range row {
			pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if i == 0 || t.Left && i == len(widths)-1 {
				line += strings.Repeat(" ", min(i, 1)) + " " + cell + pad
			} else {
				line += "  " + pad + cell
			}
		}
		p.line("%s", strings.TrimRight(line, " "))
	}
}
