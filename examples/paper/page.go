package paper

import (
	"html/template"
	"io"
	"slices"

	"example.org/wellmixed/mix/advice"
)

// WritePage writes the report as one page that needs nothing else: no network, no script.
// All cautions and assumptions are on it.
func (r *Report) WritePage(w io.Writer) error {
	type part struct {
		Text  string
		Table *Table
		SVG   template.HTML
		Below string // the caption
	}
	type section struct {
		Title string
		Parts []part
	}
	type care struct {
		Doing string
		List  []advice.Caution
	}
	data := struct {
		*Report
		Here    []advice.Caution
		Details []section
		Care    []care
		Assumed []string
		Hidden  []hidden
	}{Report: r, Here: r.ofThisJob(), Assumed: r.assumed, Hidden: r.unknown}
	for _, s := range r.Sections {
		out := section{Title: s.Title}
		for _, b := range s.Body {
			switch b := b.(type) {
			case string:
				out.Parts = append(out.Parts, part{Text: b})
			case *Table:
				out.Parts = append(out.Parts, part{Table: b})
			case Drawing:
				if svg := b.SVG(); svg != "" {
					out.Parts = append(out.Parts, part{SVG: template.HTML(svg), Below: b.Caption()})
				}
			}
		}
		data.Details = append(data.Details, out)
	}
	groups, _ := r.general(true)
	for _, g := range groups {
		data.Care = append(data.Care, care{g.doing, g.list})
	}
	return page.Execute(w, data)
}

var page = template.Must(template.New("page").Funcs(template.FuncMap{
	"words": words,
	"class": func(t *Table, i int, text string) string {
		switch {
		case words(t, i) && i > 0 && len(text) > 24:
			return "words long"
		case words(t, i):
			return "words"
		}
		return "number"
	},
	"danger": func(c advice.Caution) bool { return c.Severity == advice.Danger },
}).Parse(pageText))

// words tells which columns are words: the first, and the last if it is Left.
func words(t *Table, i int) bool { return i == 0 || t.Left && i == t.columns()-1 }

func (t *Table) columns() int {
	n := len(t.Head)
	for _, r := range t.Rows {
		n = max(n, len(r))
	}
	return n
}

// Named returns the section of a title, nil if there is none.
func (r *Report) Named(title string) *Section {
	i := slices.IndexFunc(r.Sections, func(s Section) bool { return s.Title == title })
	if i < 0 {
		return nil
	}
	return &r.Sections[i]
}

const pageText = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<title>{{.Title}}</title>
<style>
:root { --ink: #1c2430; --soft: #5a6675; --rule: #c9d1da; --sea: #1f6f8b; --warm: #a8451f; --paper: #ffffff; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 44rem; color: var(--ink); background: var(--paper);
  font: 1rem/1.45 Georgia, "Times New Roman", serif; }
h1 { font-size: 1.35rem; line-height: 1.25; margin: 0 0 .6rem; }
h2 { font-size: 1.05rem; margin: 1.6rem 0 .4rem; padding-top: .5rem; border-top: 1px solid var(--rule); }
p { margin: .35rem 0; }
ol { padding-left: 1.5rem; margin: .5rem 0; }
ol li { padding: .12rem 0; }
.verdict { font-size: 1.1rem; }
.danger { border-left: .35rem double var(--warm); padding: .3rem 0 .3rem .7rem; margin: .5rem 0; }
.danger strong { color: var(--warm); }
.small { color: var(--soft); font-size: .92rem; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; font-size: .92rem; margin: .4rem 0; font-variant-numeric: tabular-nums; }
th, td { padding: .16rem .55rem; text-align: right; border-bottom: 1px solid var(--rule); white-space: nowrap; }
th { font-weight: normal; color: var(--soft); }
th.words, td.words { text-align: left; }
td.long { white-space: normal; }
figure { margin: .6rem 0; }
figcaption { color: var(--soft); font-size: .85rem; }
svg { width: 100%; height: auto; font-family: inherit; }
svg text { fill: var(--ink); font-size: 11px; }
svg text.small { fill: var(--soft); font-size: 10.5px; }
svg text.name { font-weight: bold; }
svg text.to { fill: var(--warm); }
.axis { stroke: var(--soft); stroke-width: 1; }
.line { fill: none; stroke: var(--sea); stroke-width: 2; }
.band { fill: var(--sea); fill-opacity: .18; stroke: none; }
.limit { stroke: var(--warm); stroke-width: 1.2; stroke-dasharray: 6 4; }
.beyond { fill: var(--warm); fill-opacity: .09; }
.event { fill: var(--ink); }
.test { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
.error { stroke: var(--ink); stroke-width: 1; }
.before { fill: var(--paper); stroke: var(--ink); stroke-width: 2; }
.new { fill: var(--soft); }
.after { fill: var(--sea); }
.goal { stroke: var(--warm); stroke-width: 2.5; }
.wall { fill: none; stroke: var(--ink); stroke-width: 3; stroke-linejoin: round; }
.mix { fill: var(--sea); fill-opacity: .22; }
.water { fill: var(--sea); fill-opacity: .22; }
@media (max-width: 30rem) {
  th, td { padding: .16rem .2rem; font-size: .8rem; }
  th, td.words { white-space: normal; }
  svg text { font-size: 16px; }
  svg text.small { font-size: 15px; }
}
@media print {
  body { max-width: none; font-size: 10.5pt; }
  h2 { break-after: avoid; }
  figure, tr, li { break-inside: avoid; }
}
</style>
</head>
<body>
<h1>{{.Title}}</h1>
{{range .Verdict}}<p class="verdict">{{.}}</p>
{{end}}{{if .Steps}}<ol>
{{range .Steps}}<li>{{.}}</li>
{{end}}</ol>
{{end}}{{range .Here}}<p class="danger"><strong>{{if danger .}}Danger:{{else}}Take care:{{end}}</strong> {{.Text}}</p>
{{end}}{{with .Glance}}{{template "table" .}}{{end}}{{range .Details}}<h2>{{.Title}}</h2>
{{range .Parts}}{{if .Table}}{{template "table" .Table}}{{else if .SVG}}<figure>
{{.SVG}}<figcaption>{{.Below}}</figcaption>
</figure>
{{else}}<p>{{.Text}}</p>
{{end}}{{end}}{{end}}{{if .Hidden}}<h2>Not told, and what is left out for it</h2>
<ul class="small">
{{range .Hidden}}<li>{{.Key}}: {{.What}}</li>
{{end}}</ul>
{{end}}{{range .Care}}<h2>Before {{.Doing}}</h2>
<ul>
{{range .List}}<li>{{if danger .}}<strong>Danger:</strong> {{end}}{{.Text}}</li>
{{end}}</ul>
{{end}}{{if .Assumed}}<h2>Assumed</h2>
<ul class="small">
{{range .Assumed}}<li>{{.}}</li>
{{end}}</ul>
{{end}}</body>
</html>
{{define "table"}}<div class="scroll"><table>{{$t := .}}
{{if .Head}}<tr>{{range $i, $c := .Head}}<th{{if words $t $i}} class="words"{{end}}>{{$c}}</th>{{end}}</tr>
{{end}}{{range .Rows}}<tr>{{range $i, $c := .}}<td class="{{class $t $i $c}}">{{$c}}</td>{{end}}</tr>
{{end}}</table></div>
{{end}}`
