package conductivity

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

// Scheme is a rule by which a meter refers a conductivity to a reference
// temperature.
type Scheme uint8

const (
	Raw          Scheme = iota // none: the meter shows the conductivity as it is
	Linear                     // so many percent per kelvin
	NaturalWater               // the curve of natural fresh water, see NaturalWater25
	Seawater                   // by PSS-78: the conductivity of the same salinity at the reference temperature
)

// Compensation is what a meter does about temperature. The zero value is none.
//
//	Compensation{Scheme: Linear, Reference: units.Celsius(25), PerKelvin: units.Percent(2)}
//	Compensation{Scheme: Seawater, Reference: units.Celsius(25)}
//
// Of Linear, 1.9 to 2 % per kelvin is usual and 2.0 % fits seawater around 25 °C
// (common practice; PSS-78 has 1.97 %); the manual says. PerKelvin is a share of
// the conductivity at the reference temperature.
type Compensation struct {
	Scheme    Scheme
	Reference units.Temperature // 25 °C, in Europe also 20 °C
	PerKelvin units.Fraction    // of Linear alone
}

// NaturalWater25 returns the conductivity at 25 °C of natural fresh water that
// has the conductivity c at the temperature t.
//
//	symbol   κ25 = κ f25(t); 1/f25 = 1 + b1 (t - 25) + b2 (t - 25)² + b3 (t - 25)³
//	source   [I7888]; the polynomial is fitted here to its table and gives back
//	         each of its 51 three-decimal values
//	units    mS/cm, t °C ITS-90
//	range    0 <= t <= 35.9 °C; waters of about 60 to 1000 µS/cm, not seawater, not purified water
//	outside  extrapolates (CheckRangeNaturalWater tells); c < 0, t < -20 °C or > 60 °C, NaN or Inf: NaN
func NaturalWater25(c units.Conductivity, t units.Temperature) units.Conductivity {
	if !possible(c) {
		return units.Conductivity(math.NaN())
	}
	return units.Conductivity(float64(c) / naturalRatio(t))
}

// naturalCoef is b1, b2, b3 per powers of K, fitted to the table of [I7888].
var naturalCoef = [...]float64{2.1068e-2, 6.6922e-5, -3.9927e-7}

// naturalRatio returns κ(t)/κ25 of natural water.
func naturalRatio(t units.Temperature) float64 {
	x := t.Celsius() - 25
	if !(x >= -45 && x <= 35) { // where the cubic still behaves
		return math.NaN()
	}
	return 1 + x*(naturalCoef[0]+x*(naturalCoef[1]+x*naturalCoef[2]))
}

// refer returns what the scheme makes of the conductivity c of water of which
// the meter believes that it has the temperature t.
func (k Compensation) refer(c float64, t units.Temperature) float64 {
	switch k.Scheme {
	case Raw:
		return c
	case Seawater:
		return float64(pss78.Conductivity(pss78.Salinity(units.Conductivity(c), t, 0), k.Reference, 0))
	}
	return c / k.ratio(t)
}

// undo is the inverse of refer.
func (k Compensation) undo(c float64, t units.Temperature) float64 {
	switch k.Scheme {
	case Raw:
		return c
	case Seawater:
		return float64(pss78.Conductivity(pss78.Salinity(units.Conductivity(c), k.Reference, 0), t, 0))
	}
	return c * k.ratio(t)
}

// ratio returns κ(t)/κ(reference) by the rules that know no salinity.
func (k Compensation) ratio(t units.Temperature) float64 {
	if k.Scheme == NaturalWater {
		return naturalRatio(t) / naturalRatio(k.Reference)
	}
	return 1 + k.PerKelvin.Value()*t.Sub(k.Reference).CelsiusDegrees()
}

func (k Compensation) check() error {
	if k.Scheme > Seawater {
		return input.Bad("compensation.scheme", input.Number(float64(k.Scheme)), "Raw, Linear, NaturalWater or Seawater")
	}
	if k.Scheme == Linear {
		if !(k.PerKelvin.Value() > 0 && k.PerKelvin.Value() <= steepest) {
			return input.Bad("compensation.perKelvin", k.PerKelvin.String(), "above 0 and up to 10 %, such as 2 %")
		}
	} else if k.PerKelvin.Value() != 0 {
		return input.Bad("compensation.perKelvin", k.PerKelvin.String(), "nothing: only Linear has so much per kelvin")
	}
	if k.Scheme == Raw {
		if k.Reference.IsSet() {
			return input.Bad("compensation.reference", k.Reference.String(), "nothing: Raw refers to no temperature")
		}
		return nil
	}
	if err := referenceRange.Check(k.Reference.Celsius()); err != nil {
		return input.In("compensation", err)
	}
	return nil
}

// steepest bounds the linear rule; pure water, the steepest of all, has 5 %.
const steepest = 0.1

// checkTemperature refuses what the rule cannot handle.
func (k Compensation) checkTemperature(t units.Temperature) error {
	switch k.Scheme {
	case NaturalWater:
		return naturalRange.Check(t.Celsius())
	case Seawater:
		return pss78.CheckRange(units.Practical(0), t, 0)
	case Linear:
		if !(k.ratio(t) > 0) {
			return input.Bad("temperature", t.String(), "one at which the linear compensation leaves something")
		}
	}
	return waterRange.Check(t.Celsius())
}
