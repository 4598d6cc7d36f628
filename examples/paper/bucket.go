package paper

import (
	"fmt"
	"math"
	"strings"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/units"
)

// Bucket is the mixing vessel from the side, to scale, with the marks to fill it by.
type Bucket struct {
	Vessel mix.Vessel
	Water  units.Length // pure water, before the salt
	Full   units.Length // the finished mix
	Scoops float64      // of salt; 0 if they are not known
	Style  Style
}

// Words says what the picture shows.
func (b *Bucket) Words() string {
	text := fmt.Sprintf("The mixing vessel, filled with pure water to %s, and to %s with the salt in it",
		b.Style.Of(b.Water), b.Style.Of(b.Full))
	if b.Scoops > 0 {
		text += fmt.Sprintf(", about %s scoops", Digits(b.Scoops))
	}
	return text
}

// Caption says what the picture is.
func (b *Bucket) Caption() string { return "The mixing vessel, to scale." }

// Strip is nothing: the steps have these numbers.
func (b *Bucket) Strip(bool) []string { return nil }

// height finds the brim.
func (b *Bucket) height() float64 {
	brim := b.Vessel.Brim()
	h, err := b.Vessel.LevelOf(brim * (1 - 1e-12))
	if err != nil {
		return math.NaN()
	}
	return h.Centimetres()
}

// SVG draws the vessel. Its half width at a height is that of a round one with the same
// volume there: a box is drawn as a cylinder of its area.
func (b *Bucket) SVG() string {
	height := b.height()
	if !(height > 0) {
		return ""
	}
	half := func(h float64) float64 {
		const d = 0.01
		low, high := max(h-d, 0), min(h+d, height*(1-1e-9))
		v1, err1 := b.Vessel.VolumeAt(units.Length(low) * units.Centimetre)
		v2, err2 := b.Vessel.VolumeAt(units.Length(high) * units.Centimetre)
		if err1 != nil || err2 != nil || !(high > low) {
			return math.NaN()
		}
		return math.Sqrt(max(0, (v2.Litres()-v1.Litres())*1000/(high-low)/math.Pi)) // cm
	}
	widest := 0.
	for k := range 21 {
		if w := half(height * float64(k) / 20); w > widest {
			widest = w
		}
	}
	scale := min(240/height, 80/widest)
	const middle, top = 138., 16.
	bottom := top + height*scale
	y := func(h float64) float64 { return bottom - h*scale }
	side := func(from, to, sign float64) string {
		var list []string
		for k := range 25 {
			h := from + (to-from)*float64(k)/24
			list = append(list, point(middle+sign*half(h)*scale, y(h)))
		}
		return strings.Join(list, " ")
	}
	water, full := b.Water.Centimetres(), b.Full.Centimetres()
	edge := middle + widest*scale
	names, end := b.names(edge, y(full), y(water), bottom)
	d := newDrawing(460, max(bottom, end)+10, b.Words())
	fill := func(h float64, class string) {
		d.put(`<polygon class="%s" points="%s %s"/>`, class, side(0, h, -1), side(h, 0, 1))
	}
	fill(full, "mix")
	fill(water, "water")
	d.put(`<polyline class="wall" points="%s %s"/>`, side(height, 0, -1), side(0, height, 1))
	b.scale(d, height, widest*scale, middle, y)
	d.line(middle-widest*scale-8, y(full), edge+8, y(full), "limit")
	d.line(middle-widest*scale-8, y(water), edge+8, y(water), "goal")
	for _, n := range names {
		d.text(n.x, n.y, "start", n.class, n.text)
	}
	return d.end()
}

// written is a text at a place of the drawing.
type written struct {
	x, y        float64
	class, text string
}

// names are those of the marks, each with its height below it, one under the other where
// the marks are near, and the scoops at the bottom. They end at end.
func (b *Bucket) names(edge, full, water, bottom float64) (list []written, end float64) {
	const line = 16. // of text
	x := edge + 24
	if b.Style.Units != units.Metric {
		x += 74 // the scale of gallons stands between
	}
	put := func(y float64, class string, texts ...string) {
		for _, text := range texts {
			list = append(list, written{x, y, class, text})
			y += line
		}
		end = y - line
	}
	put(max(full-4, 14), "name", "with the salt")
	put(end+line, "small", b.Style.Of(b.Full))
	put(max(water-4, end+line+8), "name", "pure water")
	put(end+line, "small", b.Style.Of(b.Water))
	if b.Scoops > 0 {
		put(max(bottom-line, end+line+8), "small", "about "+Digits(b.Scoops)+" level", "scoops of salt")
	}
	return list, end
}

// scale writes litres on the left and gallons on the right, or those alone that are wanted.
func (b *Bucket) scale(d *drawing, height, side, middle float64, y func(float64) float64) {
	brim := b.Vessel.Brim()
	at := func(v units.Volume, left bool, text string) {
		h, err := b.Vessel.LevelOf(v)
		if err != nil || h.Centimetres() > height {
			return
		}
		sign, anchor := 1., "start"
		if left {
			sign, anchor = -1, "end"
		}
		d.line(middle+sign*(side+10), y(h.Centimetres()), middle+sign*(side+18), y(h.Centimetres()), "axis")
		d.text(middle+sign*(side+22), y(h.Centimetres())+4, anchor, "small", text)
	}
	if b.Style.Units != units.US {
		for _, v := range marks(0, brim.Litres(), 6) {
			if v > 0 && v < brim.Litres() {
				at(units.Volume(v)*units.Litre, true, Digits(v)+" L")
			}
		}
	}
	if b.Style.Units != units.Metric {
		for _, v := range marks(0, brim.USGallons(), 6) {
			if v > 0 && v < brim.USGallons() {
				at(units.Volume(v)*units.USGallon, false, Digits(v)+" US gal")
			}
		}
	}
}
