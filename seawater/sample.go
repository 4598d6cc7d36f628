package seawater

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Sample is water of a salinity and a temperature at the surface: tank water,
// a mix, pure water. It is made by one of the From functions or [PureWater],
// which refuse what is outside the standard, and asked for whatever one wants
// to know of it. Only [HotWater] makes it hotter than 40 °C. Copy it freely;
// comparing with == compares the exact numbers.
//
// The zero value is pure water at 0 °C.
type Sample struct {
	salinity    units.AbsoluteSalinity
	temperature units.Temperature
}

// The range of a Sample at atmospheric pressure.
var (
	salinityRange = units.Range{
		Quantity: "absolute salinity",
		Min:      0,
		Max:      120,
		Unit:     "g/kg",
		Source:   "IAPWS R13-08, at atmospheric pressure",
	}
	temperatureRange = units.Range{
		Quantity: "temperature",
		Min:      -2,
		Max:      40,
		Unit:     "°C",
		Source:   "IAPWS SR7-09; kettle water is made by HotWater",
	}
)

// FromAbsolute returns water of an absolute salinity. A temperature that
// nobody set is refused, as it is by all functions that make a Sample.
func FromAbsolute(s units.AbsoluteSalinity, t units.Temperature) (Sample, error) {
	if err := input.Set("temperature", t); err != nil {
		return invalid(), err
	}
	made := Sample{units.Absolute(unrounded(s.GramsPerKilogram(), salinityRange)), t}
	if err := made.check(); err != nil {
		return invalid(), err
	}
	return made, nil
}

// check returns the error of a sample outside the standard.
func (s Sample) check() error {
	if err := salinityRange.Check(s.salinity.GramsPerKilogram()); err != nil {
		return err
	}
	return temperatureRange.Check(s.temperature.Celsius())
}

// unrounded takes what lies above a range by rounding alone for its end.
func unrounded(x float64, r units.Range) float64 {
	if x > r.Max && x <= r.Max*(1+1e-12) {
		return r.Max
	}
	return x
}

// FromPractical returns water of a practical salinity and of the reference
// composition of sea salt: practical 35 is 35.16504 g/kg.
func FromPractical(s units.PracticalSalinity, t units.Temperature) (Sample, error) {
	s = units.Practical(unrounded(s.Value(), practicalRange))
	if err := practicalRange.Check(s.Value()); err != nil {
		return invalid(), err
	}
	return FromAbsolute(teos10.AbsoluteFromPractical(s), t)
}

var practicalRange = units.Range{Quantity: "practical salinity", Min: 0, Max: 42, Source: "PSS-78 and Hill et al. 1986"}

// PureWater returns pure water.
func PureWater(t units.Temperature) (Sample, error) {
	return FromAbsolute(units.Absolute(0), t)
}

// FromConductivity returns the water that has this conductivity at this
// temperature, as measured and not compensated to 25 °C. From 35 °C, where the
// measurements of PSS-78 end, to 40 it extrapolates the scale.
func FromConductivity(c units.Conductivity, t units.Temperature) (Sample, error) {
	if err := temperatureRange.Check(t.Celsius()); err != nil {
		return invalid(), err
	}
	saltiest := units.Range{
		Quantity: "conductivity in mS/cm",
		Max:      pss78.Conductivity(units.Practical(practicalRange.Max), t, 0).MillisiemensPerCentimetre() * (1 + 1e-12),
		Source: "practical salinity 0 to 42 at this temperature, PSS-78; " +
			"a bare number counts mS/cm, 53000 µS/cm are 53000 * units.MicrosiemensPerCentimetre",
	}
	if err := saltiest.Check(c.MillisiemensPerCentimetre()); err != nil {
		return invalid(), err
	}
	return FromPractical(pss78.Salinity(c, t, 0), t)
}

// FromDensity returns the water that has this density at this temperature.
func FromDensity(d units.Density, t units.Temperature) (Sample, error) {
	if err := temperatureRange.Check(t.Celsius()); err != nil {
		return invalid(), err
	}
	if err := lightestToHeaviest("density in kg/m³", t, 1).Check(float64(d)); err != nil {
		return invalid(), err
	}
	return fromDensity(d, t), nil
}

// fromDensity is for densities that are in range. A density that is that of
// pure water but for rounding is that of pure water.
func fromDensity(d units.Density, t units.Temperature) Sample {
	s := teos10.SalinityFromDensityExact(d, t, 0)
	if !(s.GramsPerKilogram() > 0) {
		s = units.Absolute(0)
	}
	return Sample{s, t}
}

// lightestToHeaviest is the range of densities from pure water to the saltiest
// that a Sample can be, each divided by a scale.
func lightestToHeaviest(quantity string, t units.Temperature, scale units.Density) units.Range {
	return units.Range{
		Quantity: quantity,
		Min:      float64(teos10.DensityExact(units.Absolute(salinityRange.Min), t, 0) / scale * (1 - rounding)),
		Max:      float64(teos10.DensityExact(units.Absolute(salinityRange.Max), t, 0) / scale),
		Source:   "pure water to 120 g/kg at this temperature, IAPWS R13-08",
	}
}

// rounding is what a computed density may differ by from the same density
// computed on another way.
const rounding = 1e-14

// FromSpecificGravity returns the water that has this specific gravity. The
// sample gets the temperature of the liquid in the pair of the reading: use
// [Sample.At] for the same water at another one.
func FromSpecificGravity(g units.SpecificGravity) (Sample, error) {
	liquid := g.Pair().Liquid
	for _, t := range [...]units.Temperature{liquid, g.Pair().Water} {
		if !t.IsSet() {
			return invalid(), input.Bad("specific gravity", g.String(),
				"the pair of temperatures that is marked on the instrument")
		}
		if err := temperatureRange.Check(t.Celsius()); err != nil {
			return invalid(), err
		}
	}
	water := teos10.DensityExact(units.Absolute(0), g.Pair().Water, 0)
	if err := lightestToHeaviest("specific gravity", liquid, water).Check(g.Ratio()); err != nil {
		return invalid(), err
	}
	return fromDensity(units.Density(g.Ratio())*water, liquid), nil
}

// CheckTank returns nil for water that may be in a tank, and a *units.RangeError for
// hot water, above 40 °C.
func (s Sample) CheckTank() error {
	if !s.hot() {
		return nil
	}
	return temperatureRange.Check(s.temperature.Celsius())
}

// invalid stands beside an error: every number asked of it is NaN.
func invalid() Sample {
	return Sample{units.Absolute(math.NaN()), units.Celsius(math.NaN())}
}

// At returns the same water at another temperature, up to 40 °C.
func (s Sample) At(t units.Temperature) (Sample, error) { return FromAbsolute(s.salinity, t) }

// Absolute returns the absolute salinity.
func (s Sample) Absolute() units.AbsoluteSalinity { return s.salinity }

// Practical returns the practical salinity of water of reference composition
// with this absolute salinity. Above 42 it is that number and no more: the scale
// ends there.
func (s Sample) Practical() units.PracticalSalinity { return teos10.PracticalFromAbsolute(s.salinity) }

// Temperature returns the temperature.
func (s Sample) Temperature() units.Temperature { return s.temperature }

// Density returns the density.
func (s Sample) Density() units.Density {
	if s.hot() {
		return teos10.HotDensity(s.salinity, s.temperature)
	}
	return teos10.DensityExact(s.salinity, s.temperature, 0)
}

// SpecificGravity returns the specific gravity of the water for a pair of
// temperatures: its density at the one, divided by that of pure water at the
// other. Its own temperature does not matter.
func (s Sample) SpecificGravity(pair units.GravityPair) units.SpecificGravity {
	liquid := teos10.DensityExact(s.salinity, pair.Liquid, 0)
	water := teos10.DensityExact(units.Absolute(0), pair.Water, 0)
	return units.Gravity(float64(liquid/water), pair)
}

// Conductivity returns the conductivity at the temperature of the water. It is
// NaN above practical salinity 42, where the scale ends, and in hot water, and
// extrapolates the scale from 35 to 40 °C.
func (s Sample) Conductivity() units.Conductivity {
	sp := units.Practical(unrounded(s.Practical().Value(), practicalRange))
	if !(sp.Value() <= practicalRange.Max) || s.hot() {
		return units.Conductivity(math.NaN())
	}
	return pss78.Conductivity(sp, s.temperature, 0)
}

// HeatCapacity returns the heat capacity per mass at constant pressure.
func (s Sample) HeatCapacity() units.SpecificHeat {
	if s.hot() {
		return teos10.HotHeatCapacity(s.salinity, s.temperature)
	}
	return teos10.HeatCapacityExact(s.salinity, s.temperature, 0)
}

// Enthalpy returns the specific enthalpy at the pressure of the air, in J/kg: what it
// rises by is the heat that went in. It counts from standard seawater at 0 °C.
func (s Sample) Enthalpy() float64 { return s.heat() * conservativeHeat }

// ThermalExpansion returns by what part the volume grows per kelvin of what the
// thermometer shows, in 1/K: teos10.ThermalExpansionExact.
func (s Sample) ThermalExpansion() float64 {
	return teos10.ThermalExpansionExact(s.salinity, s.tepid(), 0)
}

// HalineContraction returns by what part the density grows per g/kg of
// absolute salinity at constant in-situ temperature, in kg/g:
// teos10.HalineContractionExact.
func (s Sample) HalineContraction() float64 {
	return teos10.HalineContractionExact(s.salinity, s.tepid(), 0)
}

// FreezingPoint returns the temperature at which ice forms in the water, which
// is taken as saturated with air.
func (s Sample) FreezingPoint() units.Temperature {
	return teos10.FreezingTemperature(s.salinity, 0, units.Share(1))
}

// OsmoticPressure returns the excess of pressure that has to be put on the water to stop
// pure water at the surface from passing into it through a membrane.
func (s Sample) OsmoticPressure() units.SeaPressure {
	return teos10.OsmoticPressure(s.salinity, s.tepid(), 0)
}

// SoundSpeed returns the speed of sound.
func (s Sample) SoundSpeed() units.Speed {
	return teos10.SoundSpeedExact(s.salinity, s.tepid(), 0)
}

// EvaporationHeat returns the heat that evaporating the water takes, in J/kg of
// vapour. The fit ends at 42 g/kg and is extrapolated above.
func (s Sample) EvaporationHeat() float64 {
	return teos10.EvaporationHeat(s.salinity, teos10.ConservativeFromInSitu(s.salinity, s.tepid(), 0))
}

// Viscosity returns the dynamic viscosity, in Pa·s.
func (s Sample) Viscosity() float64 { return teos10.Viscosity(s.salinity, s.temperature) }
