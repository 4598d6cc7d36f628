package paper

import (
	"encoding/xml"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Chart is one parameter over time: a line, the band of its uncertainty, its limits, what
// was measured, and what happens on the way.
type Chart struct {
	Name, Unit string
	Decimals   int
	Start      time.Time // of day zero; the zero value: days are counted
	At         []time.Duration
	Value      []float64
	Doubt      []float64 // standard uncertainties of the values, if they are known
	Low, High  float64   // limits; NaN: none
	Events     []Event
	Measured   []Measured
}

// Event is something that happens at a time.
type Event struct {
	At   time.Duration
	What string
}

// Measured is a test with its standard uncertainty, zero if that is not known.
type Measured struct {
	At           time.Duration
	Value, Doubt float64
}

// NoLimit is the limit of a chart that has none.
var noLimit = math.NaN()

// NewChart is a chart without limits.
func NewChart(name, unit string, decimals int) *Chart {
	return &Chart{Name: name, Unit: unit, Decimals: decimals, Low: noLimit, High: noLimit}
}

// Add appends a point of the line.
func (c *Chart) Add(at time.Duration, value float64) {
	c.At, c.Value = append(c.At, at), append(c.Value, value)
}

// ends are those of time and of the values that are numbers, of line and tests, with their
// doubts or without.
func (c *Chart) ends(doubts bool) (from, to time.Duration, least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	from, to = math.MaxInt64, math.MinInt64
	see := func(at time.Duration, x, u float64) {
		if !doubts {
			u = 0
		}
		if !math.IsNaN(x) {
			least, most = min(least, x-u), max(most, x+u)
			from, to = min(from, at), max(to, at)
		}
	}
	for i, x := range c.Value {
		u := 0.
		if i < len(c.Doubt) && !math.IsNaN(c.Doubt[i]) && !math.IsInf(c.Doubt[i], 0) {
			u = c.Doubt[i]
		}
		see(c.At[i], x, u)
	}
	for _, m := range c.Measured {
		see(m.At, m.Value, m.Doubt)
	}
	return from, to, least, most
}

func (c *Chart) unit() string { return strings.TrimSpace(c.Name + " " + c.Unit) }

func (c *Chart) number(x float64) string { return Fixed(x, c.Decimals) }

// Words says what the picture shows.
func (c *Chart) Words() string {
	from, to, least, most := c.ends(false)
	if from > to {
		return c.unit() + ": nothing is known of it"
	}
	text := fmt.Sprintf("%s over %s, ", c.unit(), Span(to-from))
	if c.number(least) == c.number(most) {
		text += "at " + c.number(least) + " throughout"
	} else if text += "between " + c.number(least) + " and " + c.number(most); len(c.Value) > 0 {
		n := len(c.Value)
		text += fmt.Sprintf(", from %s to %s", c.number(c.Value[0]), c.number(c.Value[n-1]))
	}
	if !math.IsNaN(c.Low) {
		text += "; lower limit " + c.number(c.Low)
	}
	if !math.IsNaN(c.High) {
		text += "; upper limit " + c.number(c.High)
	}
	if n := len(c.Measured); n > 0 {
		text += "; " + count(n, "test")
	}
	return text
}

// Caption says what the eye does not see.
func (c *Chart) Caption() string {
	from, to, _, _ := c.ends(false)
	text := "Over " + Span(to-from)
	if c.hasBand() {
		text += "; the band is one standard uncertainty to either side"
	}
	if len(c.Measured) > 0 {
		text += "; the dots are tests"
	}
	return text + "."
}

func (c *Chart) hasBand() bool { return len(c.Doubt) == len(c.Value) && len(c.Value) > 0 }

// Strip draws the line in one row of characters.
func (c *Chart) Strip(plain bool) []string {
	const columns = 32
	steps := []rune("▁▂▃▄▅▆▇█")
	if plain {
		steps = []rune("_.-=+*#@")
	}
	from, to, least, most := c.ends(false)
	if from >= to {
		return nil
	}
	var row strings.Builder
	for k := range columns {
		at := from + time.Duration(float64(to-from)*(float64(k)+0.5)/columns)
		x := c.at(at)
		if math.IsNaN(x) {
			row.WriteByte(' ')
			continue
		}
		step := 0.
		if c.number(most) != c.number(least) {
			step = (x - least) / (most - least) * float64(len(steps))
		}
		row.WriteRune(steps[min(max(int(step), 0), len(steps)-1)])
	}
	note := fmt.Sprintf("%s to %s", c.number(least), c.number(most))
	for _, limit := range []struct {
		sign string
		x    float64
	}{{">", c.Low}, {"<", c.High}} {
		if !math.IsNaN(limit.x) {
			note += " " + limit.sign + c.number(limit.x)
		}
	}
	return []string{strings.TrimRight(fmt.Sprintf("  %-18s %s  %s", c.unit(), row.String(), note), " ")}
}

// at is the value of the line at a time.
func (c *Chart) at(at time.Duration) float64 {
	i, _ := slices.BinarySearch(c.At, at+1)
	switch {
	case len(c.At) == 0:
		return math.NaN()
	case i == 0:
		return c.Value[0]
	case i == len(c.At):
		return c.Value[i-1]
	}
	share := float64(at-c.At[i-1]) / float64(c.At[i]-c.At[i-1])
	return c.Value[i-1] + float64(share*(c.Value[i]-c.Value[i-1]))
}

// The measures of a chart, in the units of its own drawing.
const (
	chartWidth, chartHeight = 460., 210.
	left, top, underneath   = 50., 26., 32.
)

// right is the margin at the right: what the limits are stands there, beside the lines.
func (c *Chart) right() float64 {
	if math.IsNaN(c.Low) && math.IsNaN(c.High) {
		return 10
	}
	return 66
}

// SVG draws the chart.
func (c *Chart) SVG() string {
	from, to, least, most := c.ends(true)
	if from >= to {
		return ""
	}
	for _, limit := range []float64{c.Low, c.High} {
		if !math.IsNaN(limit) {
			least, most = min(least, limit), max(most, limit)
		}
	}
	if pad := (most - least) * 0.06; c.number(most) != c.number(least) {
		least, most = least-pad, most+pad
	} else {
		least, most = least-1, most+1
	}
	d := newDrawing(chartWidth, chartHeight, c.Words())
	edge := chartWidth - c.right()
	x := func(at time.Duration) float64 { return left + (edge-left)*float64(at-from)/float64(to-from) }
	y := func(v float64) float64 {
		return chartHeight - underneath - (chartHeight-top-underneath)*(v-least)/(most-least)
	}
	d.text(left, 16, "start", "name", c.unit())
	c.band(d, x, y)
	c.limits(d, edge, y(most), y(least), y)
	for _, v := range marks(least, most, 4) {
		d.line(left-4, y(v), left, y(v), "axis")
		d.text(left-7, y(v)+4, "end", "small", strconv.FormatFloat(v, 'f', -1, 64))
	}
	d.line(left, top, left, chartHeight-underneath, "axis")
	d.line(left, chartHeight-underneath, edge, chartHeight-underneath, "axis")
	c.times(d, from, to, x)
	c.drawn(d, x, y)
	return d.end()
}

// limits shades what is beyond them, over the band, and names them in the margin.
func (c *Chart) limits(d *drawing, edge, highest, lowest float64, y func(float64) float64) {
	const line = 15. // of text
	name := func(at float64, what string, x float64) {
		d.text(edge+5, at, "start", "small", what)
		d.text(edge+5, at+line, "start", "small", trimmed(c.number(x)))
	}
	from := -math.MaxFloat64 // where there is room for the next name
	if !math.IsNaN(c.High) {
		d.rect(left, highest, edge-left, y(c.High)-highest, "beyond")
		d.line(left, y(c.High), edge+2, y(c.High), "limit")
		at := max(y(c.High)-2, line)
		name(at, "at most", c.High)
		from = at + 2*line + 2
	}
	if !math.IsNaN(c.Low) {
		d.rect(left, y(c.Low), edge-left, lowest-y(c.Low), "beyond")
		d.line(left, y(c.Low), edge+2, y(c.Low), "limit")
		name(max(y(c.Low)-2, from), "at least", c.Low)
	}
}

// trimmed leaves out the zeros behind the point.
func trimmed(number string) string {
	if !strings.Contains(number, ".") {
		return number
	}
	return strings.TrimSuffix(strings.TrimRight(number, "0"), ".")
}

// times writes what time it is below the axis, and marks events.
func (c *Chart) times(d *drawing, from, to time.Duration, x func(time.Duration) float64) {
	const labels = 4
	for k := range labels + 1 {
		at := from + (to-from)*time.Duration(k)/labels
		text, anchor := Fixed(at.Hours()/24, 0)+" d", "middle"
		if !c.Start.IsZero() {
			text = c.Start.Add(at).Format("2 Jan")
		}
		switch k {
		case 0:
			anchor = "start"
		case labels:
			anchor = "end"
		}
		d.line(x(at), chartHeight-underneath, x(at), chartHeight-underneath+4, "axis")
		d.text(x(at), chartHeight-underneath+18, anchor, "small", text)
	}
	for _, e := range c.Events {
		if e.At >= from && e.At <= to {
			d.triangle(x(e.At), chartHeight-underneath-1, e.What)
		}
	}
}

// band draws how sure the line is.
func (c *Chart) band(d *drawing, x func(time.Duration) float64, y func(float64) float64) {
	if c.hasBand() {
		var up, down []string
		for i, at := range c.At {
			if u := c.Doubt[i]; !math.IsNaN(c.Value[i]) && !math.IsNaN(u) && !math.IsInf(u, 0) {
				up = append(up, point(x(at), y(c.Value[i]+u)))
				down = append(down, point(x(at), y(c.Value[i]-u)))
			}
		}
		slices.Reverse(down)
		d.put(`<polygon class="band" points="%s"/>`, strings.Join(append(up, down...), " "))
	}
}

// drawn draws the line and the tests.
func (c *Chart) drawn(d *drawing, x func(time.Duration) float64, y func(float64) float64) {
	var line []string
	for i, at := range c.At {
		if !math.IsNaN(c.Value[i]) {
			line = append(line, point(x(at), y(c.Value[i])))
		}
	}
	if len(line) > 0 {
		d.put(`<polyline class="line" points="%s"/>`, strings.Join(line, " "))
	}
	for _, m := range c.Measured {
		if m.Doubt > 0 {
			d.line(x(m.At), y(m.Value-m.Doubt), x(m.At), y(m.Value+m.Doubt), "error")
		}
		d.put(`<circle class="test" cx="%.1f" cy="%.1f" r="3.5"/>`, x(m.At), y(m.Value))
	}
}

func point(x, y float64) string { return fmt.Sprintf("%.1f,%.1f", x, y) }

// marks are round numbers between two ends.
func marks(from, to float64, about int) []float64 {
	if !(to > from) || math.IsInf(to-from, 0) {
		return nil
	}
	step := math.Pow(10, math.Floor(math.Log10((to-from)/float64(about))))
	for _, n := range []float64{1, 2, 5, 10} {
		if (to-from)/(step*n) <= float64(about)+0.5 {
			step *= n
			break
		}
	}
	var list []float64
	for k := math.Ceil(from / step); k*step <= to && len(list) < 20; k++ {
		x, _ := strconv.ParseFloat(strconv.FormatFloat(k*step, 'g', 10, 64), 64)
		list = append(list, x)
	}
	return list
}

// drawing is an SVG picture in the making, to stand in a page.
type drawing struct{ b strings.Builder }

func newDrawing(width, height float64, words string) *drawing {
	d := &drawing{}
	d.put(`<svg viewBox="0 0 %.0f %.0f" role="img"><title>%s</title>`, width, height,
		escaped(words))
	return d
}

func (d *drawing) put(format string, args ...any) { fmt.Fprintf(&d.b, format+"\n", args...) }

func (d *drawing) line(x1, y1, x2, y2 float64, class string) {
	d.put(`<line class="%s" x1="%.1f" y1="%.1f" x2="%.1f" y2="%.1f"/>`, class, x1, y1, x2, y2)
}

func (d *drawing) rect(x, y, width, height float64, class string) {
	if width > 0 && height > 0 {
		d.put(`<rect class="%s" x="%.1f" y="%.1f" width="%.1f" height="%.1f"/>`, class, x, y, width, height)
	}
}

func (d *drawing) text(x, y float64, anchor, class, text string) {
	d.put(`<text class="%s" x="%.1f" y="%.1f" text-anchor="%s">%s</text>`, class, x, y, anchor, escaped(text))
}

func (d *drawing) triangle(x, y float64, words string) {
	d.put(`<path class="event" d="M%.1f %.1f l4 7 h-8 z"><title>%s</title></path>`, x, y, escaped(words))
}

func (d *drawing) end() string {
	d.put(`</svg>`)
	return d.b.String()
}

func escaped(text string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(text)) // a Builder never fails
	return b.String()
}
