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
	scale := min(240/height, 85/widest)
	const middle, bottom = 142., 262.
	y := func(h float64) float64 { return bottom - h*scale }
	side := func(from, to, sign float64) string {
		var list []string
		for k := range 25 {
			h := from + (to-from)*float64(k)/24
			list = append(list, point(middle+sign*half(h)*scale, y(h)))
		}
		return strings.Join(list, " ")
	}
	d := newDrawing(460, 276, b.Words())
	fill := func(h float64, class string) {
		d.put(`<polygon class="%s" points="%s %s"/>`, class, side(0, h, -1), side(h, 0, 1))
	}
	fill(b.Full.Centimetres(), "mix")
	fill(b.Water.Centimetres(), "water")
	d.put(`<polyline class="wall" points="%s %s"/>`, side(height, 0, -1), side(0, height, 1))
	b.scale(d, height, widest*scale, middle, y)
	mark := func(h float64, what string, class string) {
		d.line(middle-widest*scale-8, y(h), middle+widest*scale+8, y(h), class)
		d.text(middle+widest*scale+62, y(h)+4, "start", "name", what)
	}
	water, full := b.Water.Centimetres(), b.Full.Centimetres()
	mark(full, "with the salt, "+b.Style.Of(b.Full), "limit")
	gap := 0.
	if y(water)-y(full) < 15 {
		gap = 15 - (y(water) - y(full))
	}
	d.line(middle-widest*scale-8, y(water), middle+widest*scale+8, y(water), "goal")
	d.text(middle+widest*scale+62, y(water)+4+gap, "start", "name", "pure water to "+b.Style.Of(b.Water))
	if b.Scoops > 0 {
		d.text(middle+widest*scale+62, bottom, "start", "small", "about "+Digits(b.Scoops)+" level scoops of salt")
	}
	return d.end()
}

// scale writes litres on the left and gallons on the right.
func (b *Bucket) scale(d *drawing, height, side, middle float64, y func(float64) float64) {
	brim := b.Vessel.Brim()
	at := func(v units.Volume, x, to float64, anchor string, text string) {
		h, err := b.Vessel.LevelOf(v)
		if err == nil && h.Centimetres() <= height {
			d.line(x, y(h.Centimetres()), to, y(h.Centimetres()), "axis")
			shift := 4.
			if anchor == "end" {
				shift = -4
			}
			d.text(to+shift, y(h.Centimetres())+4, anchor, "small", text)
		}
	}
	for _, v := range marks(0, brim.Litres(), 6) {
		if v > 0 && v < brim.Litres() {
			at(units.Volume(v)*units.Litre, middle-side-10, middle-side-18, "end", Digits(v)+" L")
		}
	}
	for _, v := range marks(0, brim.USGallons(), 6) {
		if v > 0 && v < brim.USGallons() {
			at(units.Volume(v)*units.USGallon, middle+side+10, middle+side+18, "start", Digits(v)+" gal")
		}
	}
}
