package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Rows shows several values on one axis, one below the other, beside a value that they are
// held against: ions beside the sea, instruments beside their mean.
type Rows struct {
	What, Unit string
	Log        bool    // the axis counts factors
	Mark       float64 // what the values are held against; NaN: nothing
	MarkName   string
	Band       float64 // what is usual about the mark: a factor of a Log axis, else a difference; 0: not said
	Rows       []Rowed
}

// Rowed is one value with its standard uncertainty, 0 if that is not known. A value that is
// not known is NaN, and its row says Note.
type Rowed struct {
	Name, Note   string
	Value, Doubt float64
}

// Words says what the picture shows.
func (r *Rows) Words() string {
	var list []string
	for _, row := range r.Rows {
		text := row.Name + " " + row.number()
		switch {
		case math.IsNaN(row.Value):
			text = row.Name + " " + row.Note
		case row.Doubt > 0:
			text += " ± " + Fixed(row.Doubt, row.decimals())
		}
		list = append(list, strings.TrimSpace(text))
	}
	text := r.What
	if !r.Log && !math.IsNaN(r.Mark) {
		text += ", beside " + r.MarkName + " at " + strings.TrimSpace(Digits(r.Mark)+" "+r.Unit)
	}
	return text + ": " + strings.Join(list, "; ")
}

// Caption says what the picture shows, without its numbers.
func (r *Rows) Caption() string { return r.What + "." }

// decimals are those that the uncertainty leaves room for.
func (r *Rowed) decimals() int {
	return int(min(max(-math.Floor(math.Log10(r.Doubt)), 0), 5))
}

// number is the value to as many digits as are known of it.
func (r *Rowed) number() string {
	if r.Doubt > 0 {
		return Fixed(r.Value, r.decimals())
	}
	return Digits(r.Value)
}

// scale makes lengths of values: from 0 to 1 over what is shown.
func (r *Rows) scale() (at func(float64) float64, least, most float64) {
	to := func(x float64) float64 { return x }
	if r.Log {
		to = math.Log
	}
	least, most = math.Inf(1), math.Inf(-1)
	see := func(x float64) {
		if y := to(x); !math.IsNaN(y) && !math.IsInf(y, 0) {
			least, most = min(least, y), max(most, y)
		}
	}
	see(r.Mark)
	for _, end := range r.band() {
		see(end)
	}
	for _, row := range r.Rows {
		see(row.Value - row.Doubt)
		see(row.Value)
		see(row.Value + row.Doubt)
	}
	if !(most > least) {
		least, most = least-1, most+1
	}
	pad := 0.05 * (most - least)
	low, span := least-pad, most-least+2*pad
	at = func(x float64) float64 {
		y := to(x)
		if math.IsNaN(y) { // below nothing, on a scale of factors
			return 0
		}
		return min(max((y-low)/span, 0), 1)
	}
	return at, low, low + span
}

// band are the ends of what is usual.
func (r *Rows) band() []float64 {
	switch {
	case !(r.Band > 0):
		return nil
	case r.Log:
		return []float64{r.Mark / r.Band, r.Mark * r.Band}
	}
	return []float64{r.Mark - r.Band, r.Mark + r.Band}
}

// Strip draws a dot for each value in a row of characters.
func (r *Rows) Strip(plain bool) []string {
	const columns = 41
	dot, mark, blank := "●", "│", "·"
	if plain {
		dot, mark, blank = "o", "|", "."
	}
	at, _, _ := r.scale()
	column := func(x float64) int { return int(math.Round(at(x) * (columns - 1))) }
	names := 0
	for _, row := range r.Rows {
		names = max(names, utf8.RuneCountInString(row.Name))
	}
	var list []string
	for _, row := range r.Rows {
		var b strings.Builder
		for k := range columns {
			switch {
			case !math.IsNaN(row.Value) && k == column(row.Value):
				b.WriteString(dot)
			case !math.IsNaN(r.Mark) && k == column(r.Mark):
				b.WriteString(mark)
			default:
				b.WriteString(blank)
			}
		}
		value := row.number()
		if math.IsNaN(row.Value) {
			value = row.Note
		}
		name := row.Name + strings.Repeat(" ", names-utf8.RuneCountInString(row.Name))
		list = append(list, "  "+name+" "+b.String()+"  "+value)
	}
	return list
}

// SVG draws the rows over their axis.
func (r *Rows) SVG() string {
	const rowHeight, from, to, top = 24., 150., 364., 26.
	if len(r.Rows) == 0 {
		return ""
	}
	at, least, most := r.scale()
	x := func(v float64) float64 { return from + (to-from)*at(v) }
	bottom := top + rowHeight*float64(len(r.Rows))
	d := newDrawing(460, bottom+44, r.Words())
	if ends := r.band(); ends != nil {
		d.rect(x(ends[0]), top, x(ends[1])-x(ends[0]), bottom-top, "band")
	}
	if !math.IsNaN(r.Mark) {
		d.line(x(r.Mark), top-4, x(r.Mark), bottom, "goal")
		d.text(x(r.Mark), top-9, "middle", "small", r.MarkName)
	}
	for i, row := range r.Rows {
		y := top + rowHeight*(float64(i)+0.5)
		d.text(from-8, y+4, "end", "name", row.Name)
		if math.IsNaN(row.Value) {
			d.text(from+4, y+4, "start", "small", row.Note)
			continue
		}
		if row.Doubt > 0 {
			d.line(x(row.Value-row.Doubt), y, x(row.Value+row.Doubt), y, "error")
		}
		d.put(`<circle class="test" cx="%.1f" cy="%.1f" r="4"/>`, x(row.Value), y)
		d.text(to+8, y+4, "start", "small", strings.TrimSpace(row.number()+" "+row.Note))
	}
	d.line(from, bottom, to, bottom, "axis")
	for _, v := range r.marks(least, most) {
		d.line(x(v), bottom, x(v), bottom+4, "axis")
		d.text(x(v), bottom+19, "middle", "small", strconv.FormatFloat(v, 'g', 6, 64))
	}
	d.text((from+to)/2, bottom+38, "middle", "small", r.Unit)
	return d.end()
}

// marks are round numbers between the ends of the axis.
func (r *Rows) marks(least, most float64) []float64 {
	if !r.Log {
		return marks(least, most, 5)
	}
	var list []float64
	few := most-least > math.Log(50)
	for n := math.Floor(least / math.Ln10); n <= most/math.Ln10; n++ {
		for _, digit := range []float64{1, 2, 5} {
			v, _ := strconv.ParseFloat(fmt.Sprintf("%.0fe%.0f", digit, n), 64)
			if y := math.Log(v); y >= least && y <= most && (digit == 1 || !few) {
				list = append(list, v)
			}
		}
	}
	return list
}
