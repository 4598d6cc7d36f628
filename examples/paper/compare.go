package paper

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// Compare shows for each parameter, on an axis of its own, where the tank is, what the new
// water has, where the change leads, and the goal.
type Compare struct{ Rows []Compared }

// Compared is one parameter. What is not known is NaN.
type Compared struct {
	Name, Unit                          string
	Before, New, After, Goal, Low, High float64
}

// Words says what the picture shows.
func (c *Compare) Words() string {
	var list []string
	for _, r := range c.Rows {
		d := Decimals(r.Name)
		text := r.Name + " from " + Fixed(r.Before, d) + " to " + Fixed(r.After, d) + " " + r.Unit
		list = append(list, strings.TrimSpace(text))
	}
	return "Before and after the change: " + strings.Join(list, "; ")
}

// Caption says what the picture is.
func (c *Compare) Caption() string { return "Before and after the change, each on an axis of its own." }

// Strip is nothing: a table has these numbers.
func (c *Compare) Strip(bool) []string { return nil }

// SVG draws the axes one below the other.
func (c *Compare) SVG() string {
	const head, rowHeight = 30., 54.
	d := newDrawing(460, head+rowHeight*float64(len(c.Rows)), c.Words())
	d.put(`<circle class="before" cx="12" cy="12" r="5"/>`)
	d.text(22, 16, "start", "small", "tank now")
	d.put(`<rect class="new" x="98" y="7.5" width="9" height="9"/>`)
	d.text(112, 16, "start", "small", "new water")
	d.put(`<path class="after" d="M202 6 l6 6 l-6 6 l-6 -6 z"/>`)
	d.text(213, 16, "start", "small", "after")
	d.line(268, 5, 268, 19, "goal")
	d.text(275, 16, "start", "small", "goal")
	if slices.ContainsFunc(c.Rows, func(r Compared) bool { return !math.IsNaN(r.Low) || !math.IsNaN(r.High) }) {
		d.rect(334, 5, 16, 14, "beyond")
		d.text(355, 16, "start", "small", "beyond limits")
	}
	for i, r := range c.Rows {
		r.draw(d, head+rowHeight*float64(i)+24)
	}
	return d.end()
}

// The ends of an axis in the drawing, and how far from them the outermost marks are.
const compareFrom, compareTo, comparePad = 136., 452., 24.

// draw draws one row about its axis at y.
func (r Compared) draw(d *drawing, y float64) {
	digits := Decimals(r.Name)
	for _, x := range []*float64{&r.Before, &r.New, &r.After, &r.Goal, &r.Low, &r.High} {
		*x = asPrinted(*x, digits) // what reads the same is one point
	}
	words := strings.Fields(r.Name)
	below := y + 9 - 8*float64(len(words))
	for _, word := range words {
		d.text(compareFrom-10, below, "end", "name", word)
		below += 15
	}
	d.text(compareFrom-10, below, "end", "small", r.Unit)
	least, most := math.Inf(1), math.Inf(-1)
	for _, x := range []float64{r.Before, r.New, r.After, r.Goal, r.Low, r.High} {
		if !math.IsNaN(x) {
			least, most = min(least, x), max(most, x)
		}
	}
	if least > most {
		d.text(compareFrom, y+4, "start", "small", "not known")
		return
	}
	if most == least {
		least, most = least-1, most+1
	}
	at := func(x float64) float64 {
		return compareFrom + comparePad + (compareTo-compareFrom-2*comparePad)*(x-least)/(most-least)
	}
	if !math.IsNaN(r.Low) {
		d.rect(compareFrom, y-7, at(r.Low)-compareFrom, 14, "beyond")
	}
	if !math.IsNaN(r.High) {
		d.rect(at(r.High), y-7, compareTo-at(r.High), 14, "beyond")
	}
	d.line(compareFrom, y, compareTo, y, "axis")
	if x := r.Goal; !math.IsNaN(x) {
		d.line(at(x), y-9, at(x), y+9, "goal")
	}
	if x := r.New; !math.IsNaN(x) {
		d.put(`<rect class="new" x="%.1f" y="%.1f" width="9" height="9"/>`, at(x)-4.5, y-4.5)
	}
	if x := r.Before; !math.IsNaN(x) {
		d.put(`<circle class="before" cx="%.1f" cy="%.1f" r="5"/>`, at(x), y)
	}
	if x := r.After; !math.IsNaN(x) {
		d.put(`<path class="after" d="M%.1f %.1f l6 6 l-6 6 l-6 -6 z"/>`, at(x), y-6)
	}
	twoNumbers(d, at, digits, y-11, r.New, "small", r.Goal, "small to")
	twoNumbers(d, at, digits, y+22, r.Before, "small", r.After, "small")
}

// asPrinted is a number as it is read.
func asPrinted(x float64, decimals int) float64 {
	if math.IsNaN(x) {
		return x
	}
	x, _ = strconv.ParseFloat(Fixed(x, decimals), 64)
	return x
}

// twoNumbers writes two numbers each at its own mark, one if they are the same, and moves
// them apart where they would run into each other.
func twoNumbers(d *drawing, at func(float64) float64, digits int, y, a float64, classA string, b float64,
	classB string) {
	const letter, space = 7.8, 8. // the widest that a page has, on a phone
	texts := [2]string{Fixed(a, digits), Fixed(b, digits)}
	if a == b || math.IsNaN(b) {
		if !math.IsNaN(a) {
			d.text(at(a), y, "middle", classA, texts[0])
		}
		return
	}
	if math.IsNaN(a) {
		d.text(at(b), y, "middle", classB, texts[1])
		return
	}
	xa, xb := at(a), at(b)
	apart := letter*float64(len(texts[0])+len(texts[1]))/2 + space
	if gap := apart - math.Abs(xb-xa); gap > 0 {
		if xb > xa {
			gap = -gap
		}
		xa, xb = xa+gap/2, xb-gap/2
	}
	d.text(xa, y, "middle", classA, texts[0])
	d.text(xb, y, "middle", classB, texts[1])
}
