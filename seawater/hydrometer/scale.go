package hydrometer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// scale is what all these instruments have in common. It shows
//
//	ρ(SA, t) (1 + expansion (t - at))/unit + offset
type scale struct {
	unit      float64 // density of one unit of the scale, kg/m³
	at        units.Temperature
	expansion float64 // 1/K
	offset    float64 // in units of the scale
}

// Uncertainty holds standard uncertainties, of zero where something is known
// exactly. That of a mark read to the nearest division d is d/√12 [GUM, 4.3.7].
type Uncertainty struct {
	Reading     float64                     // in units of the scale: a specific gravity, or kg/m³
	Temperature units.TemperatureDifference // of the water
	Expansion   Expansion                   // of the body
}

// growth returns the volume of the body over that at which the scale is right.
func (s scale) growth(t units.Temperature) float64 {
	return 1 + s.expansion*t.Sub(s.at).CelsiusDegrees()
}

// show is reading without questions.
func (s scale) show(sa units.AbsoluteSalinity, t units.Temperature) float64 {
	return float64(teos10.DensityExact(sa, t, 0))*s.growth(t)/s.unit + s.offset
}

func (s scale) reading(sa units.AbsoluteSalinity, t units.Temperature) (float64, error) {
	err := input.Set("temperature", t)
	if err == nil {
		err = CheckRange(sa, t)
	}
	if err != nil {
		return math.NaN(), err
	}
	return s.show(sa, t), nil
}

func (s scale) salinity(reading float64, t units.Temperature) (units.AbsoluteSalinity, error) {
	if err := input.Set("temperature", t); err != nil {
		return noSalinity(), err
	}
	if err := temperatureRange.Check(t.Celsius()); err != nil {
		return noSalinity(), err
	}
	rho := (reading - s.offset) * s.unit / s.growth(t)
	sa := teos10.SalinityFromDensityExact(units.Density(rho), t, 0)
	if g := sa.GramsPerKilogram(); g > 0 && g < saltiest { // which spares the ends of the scale
		return sa, nil
	}
	possible := units.Range{Quantity: "reading", Min: s.show(units.Absolute(0), t),
		Max:    s.show(units.Absolute(saltiest), t),
		Source: "from pure water to 120 g/kg at this temperature"}
	if err := possible.Check(reading); err != nil {
		return noSalinity(), err
	}
	if !(sa.GramsPerKilogram() >= 0) { // an offset so large that no digit of the density is left
		return noSalinity(), input.Bad("reading", input.Number(reading), "a reading that can be told from the offset")
	}
	return sa, nil
}

// estimate propagates to first order, with
//
//	∂SA/∂R = unit/(growth ρ β), ∂SA/∂t = (α - g/growth)/β, ∂SA/∂g = -(t - Ta)/(growth β)
func (s scale) estimate(reading float64, t units.Temperature,
	u Uncertainty) (sa, uncertainty units.AbsoluteSalinity, err error) {
	err = u.check()
	if err == nil {
		sa, err = s.salinity(reading, t)
	}
	if err != nil {
		return noSalinity(), noSalinity(), err
	}
	growth := s.growth(t)
	rho := float64(teos10.DensityExact(sa, t, 0))
	alpha := teos10.ThermalExpansionExact(sa, t, 0)
	beta := teos10.HalineContractionExact(sa, t, 0)
	byReading := s.unit / (growth * rho) * u.Reading
	byTemperature := (alpha - s.expansion/growth) * u.Temperature.CelsiusDegrees()
	byExpansion := t.Sub(s.at).CelsiusDegrees() / growth * float64(u.Expansion)
	uncertainty = units.Absolute(math.Hypot(math.Hypot(byReading, byTemperature), byExpansion) / beta)
	if err := input.NotNegative("uncertainty", uncertainty.GramsPerKilogram(), "g/kg"); err != nil {
		return noSalinity(), noSalinity(), err
	}
	return sa, uncertainty, nil
}

// offsetFor returns by how much the instrument is off that shows reading. On its
// scale pure water is about water.
func (s scale) offsetFor(reading, water float64, sa units.AbsoluteSalinity, t units.Temperature) (float64, error) {
	if err := input.Positive("reading", reading, ""); err != nil {
		return math.NaN(), err
	}
	truth, err := s.reading(sa, t)
	if err != nil {
		return math.NaN(), err
	}
	if offset := reading - truth; math.Abs(offset) <= mostOffset*water {
		return offset, nil
	}
	return math.NaN(), input.Bad("reading", input.Number(reading),
		"within 5 % of "+input.Number(truth)+", what a true instrument shows")
}

func (u Uncertainty) check() error {
	if err := input.NotNegative("uncertainty.reading", u.Reading, ""); err != nil {
		return err
	}
	if err := input.NotNegative("uncertainty.temperature", u.Temperature.CelsiusDegrees(), "K"); err != nil {
		return err
	}
	return input.NotNegative("uncertainty.expansion", float64(u.Expansion), "1/K")
}

// mostExpansion bounds the expansion of anything a hydrometer could be made of, 1/K.
const mostExpansion = 0.002

// mostOffset bounds an offset to 5 % of pure water: more is another unit, or another
// liquid, and not an instrument that is off. All salt of a sea is 3 %.
const mostOffset = 0.05

// What pure water is about on the two kinds of scale.
const (
	waterGravity = 1.
	waterDensity = 1000. // kg/m³
)

func checkBody(e Expansion, offset, water float64) error {
	if !(e > 0 && e <= mostExpansion) {
		return input.Bad("expansion", input.Number(float64(e))+" 1/K",
			"the cubic expansion of the body: hydrometer.Glass, hydrometer.Acrylic, or another above zero")
	}
	return checkOffset(offset, water)
}

func checkOffset(offset, water float64) error {
	if !(math.Abs(offset) <= mostOffset*water) {
		return input.Bad("offset", input.Number(offset),
			"within "+input.Number(mostOffset*water)+" of nothing, 5 % of pure water")
	}
	return nil
}

// noSalinity stands beside an error.
func noSalinity() units.AbsoluteSalinity { return units.Absolute(math.NaN()) }
