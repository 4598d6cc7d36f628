package electrode

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Buffer is a dilute solution in which electrodes are calibrated on the NBS scale:
// a primary buffer of NIST and IUPAC, to be made up by weight, or the content of a
// bottle.
//
// The bottles are the technical buffers that most of them hold. One with a table of
// its own, or with another pH at 25 °C, is better entered as a Point with the pH
// that is printed on it.
type Buffer uint8

// The buffers, with their pH at 25 °C. An older series has 4.008 for Phthalate; the
// 7.00 of the trade is not the primary 6.865.
const (
	Phthalate              Buffer = iota + 1 // 4.005: 0.05 mol potassium hydrogen phthalate per kg of water
	Phosphate                                // 6.865: 0.025 mol KH2PO4 and 0.025 mol Na2HPO4
	PhysiologicalPhosphate                   // 7.413: 0.008695 mol KH2PO4 and 0.03043 mol Na2HPO4 (from memory)
	Borax                                    // 9.180: 0.01 mol Na2B4O7
	Carbonate                                // 10.012: 0.025 mol NaHCO3 and 0.025 mol Na2CO3
	TrisInWater                              // 7.699: 0.01667 mol tris, 0.05 mol its hydrochloride (from memory)
	TechnicalPhosphate                       // 7.000: 0.026 mol KH2PO4 and 0.041 mol Na2HPO4 per litre, to three decimals
	Bottle4                                  // 4.00, two decimals
	Bottle7                                  // 7.00, two decimals; up to 0.015 above TechnicalPhosphate, at 45 °C
	Bottle10                                 // 10.01, two decimals
)

// bufferStep is the distance of the columns of bufferTable, °C, the first being of
// 0 °C.
const bufferStep = 5

// bufferTable is the pH on the NBS scale at 0, 5 ... 50 °C. Three decimals:
// [NIST, IUPAC], as tabulated; two decimals: technical buffers, as an instrument
// manual of 2005 prints them.
var bufferTable = [...][11]float64{
	Phthalate:              {4.000, 3.998, 3.997, 3.998, 4.001, 4.005, 4.011, 4.018, 4.027, 4.038, 4.050},
	Phosphate:              {6.984, 6.951, 6.923, 6.900, 6.881, 6.865, 6.853, 6.844, 6.838, 6.834, 6.833},
	PhysiologicalPhosphate: {7.534, 7.500, 7.472, 7.448, 7.429, 7.413, 7.400, 7.389, 7.380, 7.373, 7.367},
	Borax:                  {9.464, 9.395, 9.332, 9.276, 9.225, 9.180, 9.139, 9.102, 9.068, 9.038, 9.010},
	Carbonate:              {10.317, 10.245, 10.179, 10.118, 10.062, 10.012, 9.966, 9.925, 9.889, 9.857, 9.828},
	TrisInWater:            {8.471, 8.303, 8.142, 7.988, 7.840, 7.699, 7.563, 7.433, 7.307, 7.186, 7.070},
	TechnicalPhosphate:     {7.118, 7.087, 7.059, 7.036, 7.016, 7.000, 6.987, 6.977, 6.970, 6.965, 6.964},
	Bottle4:                {4.00, 4.00, 4.00, 4.00, 4.00, 4.00, 4.01, 4.02, 4.03, 4.04, 4.06},
	Bottle7:                {7.12, 7.09, 7.06, 7.04, 7.02, 7.00, 6.99, 6.99, 6.98, 6.98, 6.97},
	Bottle10:               {10.32, 10.25, 10.18, 10.12, 10.06, 10.01, 9.97, 9.93, 9.89, 9.86, 9.83},
}

// Standard uncertainties of the pH of fresh buffers. Bottles are sold with ±0.02,
// taken as the bounds of a rectangle [GUM, 4.3.7].
const (
	primaryUncertainty = 0.005 // made up with care; common practice
	bottleUncertainty  = 0.012 // 0.02/√3; common practice
)

// PH returns the pH of the fresh buffer at a temperature.
//
//	symbol   cubic through the two printed values around t with the slopes of their neighbours
//	source   [NIST, IUPAC], technical buffers: as printed
//	units    t °C ITS-90
//	range    0 <= t <= 50 °C; every printed value is met
//	outside  extrapolates (CheckRange tells); t < -10 °C, t > 60 °C or NaN, no such buffer: NaN
func (b Buffer) PH(t units.Temperature) carbonate.NBSPH {
	c := t.Celsius()
	if !b.exists() || !(c >= -10 && c <= 60) {
		return carbonate.PHNBS(math.NaN())
	}
	return carbonate.PHNBS(interpolate(&bufferTable[b], c/bufferStep))
}

// interpolate returns the value of a table at the place x, counted in columns, by
// cubics that meet with one slope, and beyond the ends by straight lines.
func interpolate(table *[11]float64, x float64) float64 {
	const last = len(table) - 1
	slope := func(i int) float64 {
		switch i {
		case 0: // of the parabola through three values
			return 2*table[1] - 1.5*table[0] - 0.5*table[2]
		case last:
			return 1.5*table[last] - 2*table[last-1] + 0.5*table[last-2]
		}
		return (table[i+1] - table[i-1]) / 2
	}
	if x <= 0 {
		return table[0] + x*slope(0)
	}
	if x >= float64(last) {
		return table[last] + (x-float64(last))*slope(last)
	}
	i := int(x)
	w := x - float64(i)
	v := 1 - w
	return v*v*((1+2*w)*table[i]+w*slope(i)) + w*w*((1+2*v)*table[i+1]-v*slope(i+1))
}

// CheckRange returns a *units.RangeError for a temperature outside the table of
// the buffer, an *units.InputError for a Buffer that is none, and otherwise nil.
func (b Buffer) CheckRange(t units.Temperature) error {
	if !b.exists() {
		return input.Bad("buffer", input.Number(float64(b)), "one of the buffers of package electrode")
	}
	return dilutePH.Check(t.Celsius())
}

// Point returns the calibration point of an electrode that gives reading in the
// fresh buffer at the temperature t of the buffer. A temperature outside the table
// makes Calibrate fail.
func (b Buffer) Point(reading units.Voltage, t units.Temperature) Point[carbonate.NBSPH] {
	u := primaryUncertainty
	if b >= Bottle4 {
		u = bottleUncertainty
	}
	return Point[carbonate.NBSPH]{
		PH: b.PH(t), PHUncertainty: u, PerKelvin: perKelvin(b.PH, t),
		Reading: reading, Temperature: t,
		refused: firstError(input.Set("temperature of the buffer", t), b.CheckRange(t)),
	}
}

func (b Buffer) exists() bool { return b >= Phthalate && b <= Bottle10 }

// perKelvin returns the change of the pH of a buffer over one kelvin.
func perKelvin[S Scale](ph func(units.Temperature) S, t units.Temperature) float64 {
	return ph(t.Add(0.5)).Value() - ph(t.Add(-0.5)).Value()
}

// firstError returns the first of some errors that is one.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
