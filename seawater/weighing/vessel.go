package weighing

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/units"
)

// Expansion is the part by which a vessel grows in volume per kelvin.
type Expansion = hydrometer.Expansion

// What vessels are made of. Those of plastics are handbook values, of which grades
// vary by a third.
const (
	Borosilicate   Expansion = 9.9e-6     // glass 3.3, three times the 3.3e-6 of ISO 3585
	SodaLime       Expansion = 3 * 9.1e-6 // window and bottle glass
	StainlessSteel Expansion = 5.2e-5     // austenitic
	Acrylic        Expansion = 3 * 7.5e-5 // PMMA
	PVC            Expansion = 1.56e-4    // rigid
	Polypropylene  Expansion = 4.5e-4     // PP
	Polyethylene   Expansion = 3 * 2.0e-4 // HDPE, of canisters and bins
)

// Vessel is a flask, a jug, a bin with a line: what it holds to the line, at the
// temperature for which that is said. Glassware says 20 °C; without a temperature or
// an expansion, so the zero value too, a vessel is refused.
type Vessel struct {
	Capacity  units.Volume
	At        units.Temperature
	Expansion Expansion
}

// Volume returns what the vessel holds at the temperature t.
//
//	symbol   V = V0 (1 + g (t - t0))
//	source   [I4787]
//	outside  no such vessel (capacity or expansion not above zero), a temperature at which
//	         it would have shrunk to nothing, NaN or Inf: NaN
func (v Vessel) Volume(t units.Temperature) units.Volume {
	held := v.Capacity * v.growth(t)
	if !(v.Capacity > 0 && v.Expansion > 0 && held > 0 && held <= math.MaxFloat64) {
		return input.NaN[units.Volume]()
	}
	return held
}

func (v Vessel) growth(t units.Temperature) units.Volume {
	return 1 + units.Volume(v.Expansion)*units.Volume(t.Sub(v.At))
}

func (v Vessel) check() error {
	if err := input.Positive("capacity", v.Capacity.Litres(), "L"); err != nil {
		return err
	}
	return v.checkBody()
}

// checkBody is check but for the capacity.
func (v Vessel) checkBody() error {
	if !v.At.IsSet() {
		return input.Bad("at", "nothing", "the temperature for which the capacity is said, such as 20 °C")
	}
	if err := waterTemperature.Check(v.At.Celsius()); err != nil {
		return input.In("at", err)
	}
	if !(v.Expansion > 0 && v.Expansion <= mostExpansion) {
		return input.Bad("expansion", input.Number(float64(v.Expansion))+" 1/K",
			"the cubic expansion of the vessel: weighing.Borosilicate, weighing.Polypropylene, or another above zero")
	}
	return nil
}

// mostExpansion bounds the expansion of anything a vessel could be made of, 1/K.
const mostExpansion = 0.002
