package carbonate

import "example.org/wellmixed/units"

// Known is one thing known about the CO2 system of a water: its alkalinity, its
// pH and so on, with a standard uncertainty if there is one. Any two of
// different kind settle all the rest.
type Known struct {
	kind        kind
	value       float64 // µmol/kg, µatm or pH
	uncertainty float64 // in the same unit
}

// kind is what is known. The order is that in which solve takes a pair apart.
type kind uint8

const (
	nothing kind = iota
	alkalinity
	dic
	acidity
	dissolved
	bicarbonate
	carbonate
	partialPressure
	fugacityOfCO2
)

var kindNames = [...]string{
	"nothing", "alkalinity", "DIC", "pH", "dissolved CO2", "bicarbonate", "carbonate", "pCO2", "fCO2",
}

// Alkalinity is a known total alkalinity. One per litre, from a test kit, comes
// here by units.Alkalinity.PerKilogram, which asks for the density.
func Alkalinity(x units.AmountPerKilogram) Known { return Known{kind: alkalinity, value: float64(x)} }

// DIC is a known dissolved inorganic carbon: CO2, bicarbonate and carbonate
// together.
func DIC(x units.AmountPerKilogram) Known { return Known{kind: dic, value: float64(x)} }

// PH is a known pH. One that nobody set is refused.
func PH(x TotalPH) Known { return Known{kind: acidity, value: x.value} }

// DissolvedCO2 is a known content of CO2 (with H2CO3).
func DissolvedCO2(x units.AmountPerKilogram) Known { return Known{kind: dissolved, value: float64(x)} }

// Bicarbonate is a known content of bicarbonate.
func Bicarbonate(x units.AmountPerKilogram) Known { return Known{kind: bicarbonate, value: float64(x)} }

// Carbonate is a known content of carbonate.
func Carbonate(x units.AmountPerKilogram) Known { return Known{kind: carbonate, value: float64(x)} }

// PartialPressure is a known partial pressure of CO2.
func PartialPressure(x PCO2) Known { return Known{kind: partialPressure, value: float64(x)} }

// Fugacity is a known fugacity of CO2.
func Fugacity(x FCO2) Known { return Known{kind: fugacityOfCO2, value: float64(x)} }

// PlusMinus returns the same with a standard uncertainty, in the unit in which
// it was given: µmol/kg, µatm, or units of pH. The solver does not look at it;
// Uncertainty and Consistency do.
func (k Known) PlusMinus(standard float64) Known {
	k.uncertainty = standard
	return k
}

// Value returns the number in µmol/kg, µatm or units of pH.
func (k Known) Value() float64 { return k.value + 0 } // minus zero becomes zero

// Uncertainty returns the standard uncertainty, in the unit of Value.
func (k Known) Uncertainty() float64 { return k.uncertainty }

// String writes "alkalinity 2300 µmol/kg".
func (k Known) String() string {
	if int(k.kind) >= len(kindNames) || k.kind == nothing {
		return kindNames[nothing]
	}
	return kindNames[k.kind] + " " + k.number()
}

// number writes "2300 µmol/kg".
func (k Known) number() string {
	switch k.kind {
	case acidity:
		if !isSet(k.value) {
			return "nothing"
		}
		return number(k.Value())
	case partialPressure, fugacityOfCO2:
		return number(k.value) + " µatm"
	}
	return number(k.value) + " µmol/kg"
}

// lowestPH and highestPH are beyond any water: 10^5 mol/kg of acid or base.
const lowestPH, highestPH = -5, 20

// check refuses what no water can have.
func (k Known) check() error {
	x, want := k.value, "0 to 1e9 µmol/kg"
	sound := false
	switch k.kind {
	case alkalinity:
		sound = x >= -float64(mostAmount) && x <= float64(mostAmount)
		want = "-1e9 to 1e9 µmol/kg"
	case dic:
		sound = amount(units.AmountPerKilogram(x))
	case acidity:
		sound = x >= lowestPH && x <= highestPH && isSet(x)
		want = "-5 to 20"
	case dissolved, bicarbonate, carbonate:
		sound = x > 0 && amount(units.AmountPerKilogram(x))
		want = "above 0 and up to 1e9 µmol/kg"
	case partialPressure, fugacityOfCO2:
		sound = x > 0 && x <= mostPressure
		want = "above 0 and up to 1e12 µatm"
	default:
		want = "one of the quantities that the package names"
	}
	if sound {
		return nil
	}
	return &units.InputError{Field: kindNames[k.kind], Got: k.number(), Want: want}
}

// mostPressure, a million atmospheres, is far beyond what K0 could mean.
const mostPressure = 1e12

// chemistry turns pressures into contents of dissolved CO2, so that six kinds
// remain.
func (k Known) chemistry(c *Constants) Known {
	switch k.kind {
	case partialPressure:
		return Known{kind: dissolved, value: k.value * float64(c.FugacityRatio) * float64(c.K0)}
	case fugacityOfCO2:
		return Known{kind: dissolved, value: k.value * float64(c.K0)}
	}
	return k
}

// DIC returns the dissolved inorganic carbon if that is what is known.
func (k Known) DIC() (x units.AmountPerKilogram, known bool) {
	return units.AmountPerKilogram(k.value), k.kind == dic
}
