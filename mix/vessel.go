package mix

import (
	"math"

	"example.org/wellmixed/internal/input"

	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// Vessel turns heights into volumes: a box, a cylinder, a tapered bucket, or
// anything with marks on its side. It is made by [Box], [Cylinder], [Bucket]
// or [Marked] from inside measures. The zero Vessel holds nothing and stands
// for "no vessel given".
type Vessel struct {
	// The volume in litres below height h in decimetres is
	// c[0] h + c[1] h² + c[2] h³, unless there are marks.
	c        [3]float64
	marks    []Mark
	shape    string          // "box", "bucket" or "marks": how it is written
	measures [3]units.Length // what Box or Bucket was given
	brim     units.Length
	safe     units.Length
}

// Mark is a line on the side of a vessel.
type Mark struct {
	Height units.Length
	Volume units.Volume
}

// The shapes.
const box, bucket, marked = "box", "bucket", "marks"

const decimetre = 100 * units.Millimetre

// Box returns a rectangular vessel of the given inside measures.
func Box(length, width, height units.Length) (Vessel, error) {
	if err := positiveLengths("box", length, width, height); err != nil {
		return Vessel{}, err
	}
	area := float64(length/decimetre) * float64(width/decimetre)
	v := Vessel{
		c:        [3]float64{area},
		shape:    box,
		measures: [3]units.Length{length, width, height},
		brim:     height,
		safe:     height,
	}
	return v.ofOrdinarySize()
}

// Cylinder returns an upright round vessel of the given inside measures.
func Cylinder(diameter, height units.Length) (Vessel, error) {
	return Bucket(diameter, diameter, height)
}

// Bucket returns a round vessel that widens or narrows evenly from the bottom
// diameter to the top diameter: a frustum of a cone.
//
//	V(h) = π (r² h + r k h² + k² h³/3),   radius r + k h at height h
func Bucket(bottom, top, height units.Length) (Vessel, error) {
	if err := positiveLengths("bucket", bottom, top, height); err != nil {
		return Vessel{}, err
	}
	r := float64(bottom/decimetre) / 2
	k := (float64(top/decimetre)/2 - r) / float64(height/decimetre)
	v := Vessel{
		c:     [3]float64{math.Pi * r * r, math.Pi * r * k, math.Pi * k * k / 3},
		shape: bucket, measures: [3]units.Length{bottom, top, height}, brim: height, safe: height,
	}
	return v.ofOrdinarySize()
}

// ofOrdinarySize refuses measures whose product no number holds.
func (v Vessel) ofOrdinarySize() (Vessel, error) {
	if brim := v.Brim(); !(brim > 0 && brim <= math.MaxFloat64) {
		return Vessel{}, input.Bad(v.shape, v.measures[0].String()+", "+v.measures[1].String()+", "+v.measures[2].String(),
			"measures of a vessel")
	}
	return v, nil
}

// Marked returns a vessel known by its marks, lowest first, the last of them
// the brim. Between marks, and from the empty bottom to the first, the sides
// are taken as straight up, so volume goes evenly with height.
func Marked(marks ...Mark) (Vessel, error) {
	if len(marks) == 0 {
		return Vessel{}, input.Bad("vessel.marks", "none", "at least one mark")
	}
	last := Mark{}
	for _, m := range marks {
		if !(m.Height > last.Height && m.Volume > last.Volume) || math.IsInf(float64(m.Height), 0) ||
			math.IsInf(float64(m.Volume), 0) {
			return Vessel{}, input.Bad("vessel.marks", m.Height.String()+" at "+m.Volume.String(),
				"marks above "+last.Height.String()+" and "+last.Volume.String()+": each higher than the one before")
		}
		last = m
	}
	return Vessel{marks: append([]Mark(nil), marks...), shape: marked, brim: last.Height, safe: last.Height}, nil
}

// SafeFillTo returns the vessel with a height up to which it may be filled:
// below the brim, so that it can be stirred and moved.
func (v Vessel) SafeFillTo(height units.Length) (Vessel, error) {
	if !(height > 0 && height <= v.brim) {
		return Vessel{}, input.Bad("vessel.safeFill", height.String(),
			"above zero and no higher than the brim at "+v.brim.String())
	}
	v.safe = height
	return v, nil
}

// Exists tells whether the vessel was made by a constructor.
func (v Vessel) Exists() bool { return v.brim > 0 }

// Brim returns the volume that fills the vessel to the brim.
func (v Vessel) Brim() units.Volume { return v.below(v.brim) }

// SafeFill returns the volume up to which the vessel may be filled; it is the
// brim if SafeFillTo was not used.
func (v Vessel) SafeFill() units.Volume { return v.below(v.safe) }

// VolumeAt returns the volume that stands up to a height.
func (v Vessel) VolumeAt(height units.Length) (units.Volume, error) {
	if !(height >= 0 && height <= v.brim) {
		return input.NaN[units.Volume](), input.Bad("height", height.String(), "0 to the brim at "+v.brim.String())
	}
	return v.below(height), nil
}

// LevelOf returns the height to which a volume fills the vessel.
func (v Vessel) LevelOf(volume units.Volume) (units.Length, error) {
	brim := v.Brim()
	if !(volume >= 0 && volume <= brim) {
		return input.NaN[units.Length](), input.Bad("volume", volume.String(),
			"0 to "+brim.String()+", the brim of the vessel")
	}
	if v.c[1] == 0 && v.c[2] == 0 && v.c[0] > 0 { // straight sides
		return min(units.Length(float64(volume)/v.c[0])*decimetre, v.brim), nil // a rounding above the brim is the brim
	}
	h, ok := solve.Brent(func(h float64) float64 { return float64(v.below(units.Length(h)) - volume) }, 0, float64(v.brim),
		1e-12)
	if !ok { // volume is within an ulp of the brim
		return v.brim, nil
	}
	return units.Length(h), nil
}

// below returns the volume up to height, which is within the vessel.
func (v Vessel) below(height units.Length) units.Volume {
	if len(v.marks) == 0 {
		h := float64(height / decimetre)
		return units.Volume(h * (v.c[0] + h*(v.c[1]+h*v.c[2])))
	}
	last := Mark{}
	for _, m := range v.marks {
		if height <= m.Height {
			return last.Volume + units.Volume(float64((height-last.Height)/(m.Height-last.Height)))*(m.Volume-last.Volume)
		}
		last = m
	}
	return last.Volume
}

func positiveLengths(what string, lengths ...units.Length) error {
	for _, l := range lengths {
		if err := input.Positive(what, float64(l), "mm"); err != nil {
			return err
		}
	}
	return nil
}
