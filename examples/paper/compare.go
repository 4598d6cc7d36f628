package paper

import (
	"math"
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

// Strip is nothing: a table has these numbers.
func (c *Compare) Strip(bool) []string { return nil }

// SVG draws the axes one below the other.
func (c *Compare) SVG() string {
	const rowHeight, from, to = 42., 116., 420.
	height := 30 + rowHeight*float64(len(c.Rows))
	d := newDrawing(460, height, c.Words())
	d.put(`<circle class="before" cx="122" cy="12" r="5"/>`)
	d.text(131, 16, "start", "small", "tank now")
	d.put(`<rect class="new" x="195" y="7.5" width="9" height="9"/>`)
	d.text(209, 16, "start", "small", "new water")
	d.put(`<path class="after" d="M283 6 l6 6 l-6 6 l-6 -6 z"/>`)
	d.text(293, 16, "start", "small", "after")
	d.line(342, 5, 342, 19, "goal")
	d.text(349, 16, "start", "small", "goal")
	for i, r := range c.Rows {
		y := 30 + rowHeight*float64(i) + 16
		c.row(d, r, y, from, to)
	}
	return d.end()
}

func (c *Compare) row(d *drawing, r Compared, y, from, to float64) {
	d.text(108, y+1, "end", "name", r.Name)
	d.text(108, y+14, "end", "small", r.Unit)
	least, most := math.Inf(1), math.Inf(-1)
	for _, x := range []float64{r.Before, r.New, r.After, r.Goal, r.Low, r.High} {
		if !math.IsNaN(x) {
			least, most = min(least, x), max(most, x)
		}
	}
	if least > most {
		d.text(from, y+4, "start", "small", "not known")
		return
	}
	if most == least {
		least, most = least-1, most+1
	}
	at := func(x float64) float64 { return from + 12 + (to-from-24)*(x-least)/(most-least) }
	if !math.IsNaN(r.Low) {
		d.rect(from, y-7, at(r.Low)-from, 14, "beyond")
	}
	if !math.IsNaN(r.High) {
		d.rect(at(r.High), y-7, to-at(r.High), 14, "beyond")
	}
	d.line(from, y, to, y, "axis")
	digits := Decimals(r.Name)
	if x := r.Goal; !math.IsNaN(x) {
		d.line(at(x), y-10, at(x), y+10, "goal")
	}
	if x := r.Before; !math.IsNaN(x) {
		d.put(`<circle class="before" cx="%.1f" cy="%.1f" r="5"/>`, at(x), y)
		d.text(at(x), y+20, "middle", "small", Fixed(x, digits))
	}
	if x := r.New; !math.IsNaN(x) {
		d.put(`<rect class="new" x="%.1f" y="%.1f" width="9" height="9"/>`, at(x)-4.5, y-4.5)
	}
	if x := r.After; !math.IsNaN(x) {
		d.put(`<path class="after" d="M%.1f %.1f l6 6 l-6 6 l-6 -6 z"/>`, at(x), y-6)
		if math.IsNaN(r.Before) || math.Abs(at(x)-at(r.Before)) > 34 {
			d.text(at(x), y+20, "middle", "small", Fixed(x, digits))
		} else {
			d.text(to+4, y+4, "start", "small", Fixed(x, digits))
		}
	}
}
