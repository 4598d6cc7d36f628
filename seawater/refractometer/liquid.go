package refractometer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Liquid is something to set an instrument with, or for which it compensates.
// It is made by PureWater, SeawaterStandard, SaltSolution, SugarSolution or
// IndexStandard; the zero value is no liquid.
type Liquid struct {
	solute  solute
	content float64 // in the measure of the solute
}

// PureWater is what most instruments are zeroed with, and compensate for. Its
// index is that of seawater without salt by Millard and Seaver, not that of
// Water, so that water and the thinnest seawater lie on one line.
func PureWater() Liquid { return Liquid{solute: seaSalt} }

// SeawaterStandard is seawater of a known salinity.
func SeawaterStandard(s units.PracticalSalinity) Liquid { return Liquid{seaSalt, s.Value()} }

// SaltSolution is so much sodium chloride per mass of solution, the usual
// calibration fluid. A fluid that is labelled 35 ppt and made of sodium
// chloride is SaltSolution(units.Percent(3.5)), and bends light as seawater of
// 33.6 does.
func SaltSolution(w units.Fraction) Liquid { return Liquid{sodiumChloride, w.Value()} }

// SugarSolution is so much sucrose per mass of solution.
func SugarSolution(w units.Fraction) Liquid { return Liquid{sugar, w.Value()} }

// IndexStandard is a liquid whose index, at the temperature at which the
// instrument is set with it, is known. How it drifts is not, so no instrument
// compensates for it.
func IndexStandard(n AirIndex) Liquid { return Liquid{bare, n.Value()} }

// check tells whether the liquid is one, and its index known at t.
func (l Liquid) check(t units.Temperature) error {
	switch l.solute {
	case seaSalt:
		return CheckRange(units.Practical(l.content), t)
	case sodiumChloride:
		return CheckRangeSodiumChloride(units.Share(l.content), t)
	case sugar:
		return CheckRangeSucrose(units.Share(l.content), t)
	case bare:
		return first(prismIndex.Check(l.content), msTemperature.Check(t.Celsius()))
	}
	return input.Bad("liquid", "none", "pure water, a standard or a solution of this package")
}

// prismIndex is what a prism of glass can tell.
var prismIndex = units.Range{Quantity: "refractive index", Min: 1.3, Max: 1.7, Source: "common practice"}

func (l Liquid) index(t units.Temperature) float64 { return l.solute.index(l.content, t) }

// solute is what an index is read as: the content of something in water, or
// itself.
type solute uint8

const (
	nothing        solute = iota
	seaSalt               // content is practical salinity
	sodiumChloride        // mass fraction
	sugar                 // mass fraction
	bare                  // the index
)

// index returns the index, relative to air, of water with so much of the
// solute. Around zero it goes on smoothly to negative contents, so that a
// scale can be followed to and past its end.
func (s solute) index(content float64, t units.Temperature) float64 {
	switch s {
	case seaSalt:
		fresh, slope := millardSeaver(t, 0, SodiumD)
		return fresh + content*slope
	case sodiumChloride:
		fresh, perSalt := saltScale(t)
		return fresh + perSalt*saltIndex(100*content)
	case sugar:
		return sucrose(content, t)
	case bare:
		return content
	}
	return math.NaN()
}
