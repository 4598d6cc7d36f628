package gas

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Species is a gas of the air that dissolves in water.
type Species uint8

// The gases of this package.
const (
	Oxygen Species = iota
	Nitrogen
	Argon
	CarbonDioxide
)

// String returns "oxygen", "nitrogen", "argon" or "carbon dioxide".
func (g Species) String() string {
	if !g.known() {
		return "unknown gas"
	}
	return species[g].name
}

func (g Species) known() bool { return int(g) < len(species) }

// species holds what does not depend on the water.
//
// share is the mole fraction in dry air of the US Standard Atmosphere, rounded as
// oceanographers use it (0.20946, 0.78084, 0.00934). volume is that of one mole of
// the real gas at 0 °C and one atmosphere, mL: O2 as printed in [GG92]; N2, Ar and
// CO2 computed from 22413.97 mL of the ideal gas and second virial coefficients
// of -10.5, -21.5 (both from memory) and -149.65 cm³/mol ([W74] at 0 °C).
var species = [...]struct {
	name   string
	molar  units.MolarMass
	share  units.Fraction
	volume float64
}{
	Oxygen:        {"oxygen", units.AsOxygen, units.Share(0.20946), 22391.6},
	Nitrogen:      {"nitrogen", units.AsDinitrogen, units.Share(0.78084), 22403},
	Argon:         {"argon", 39.95, units.Share(0.00934), 22392},
	CarbonDioxide: {"carbon dioxide", units.AsCarbonDioxide, units.Share(0), 22263},
}

// MassPerLitre returns a content of water of density rho as a mass per litre, the mg/L
// that meters show. For a Species that is none it is NaN.
func (g Species) MassPerLitre(content units.AmountPerKilogram, rho units.Density) units.MassPerLitre {
	return g.MolarMass().MassPerLitre(content.PerLitre(rho))
}

// FromMassPerLitre is the inverse of MassPerLitre.
func (g Species) FromMassPerLitre(c units.MassPerLitre, rho units.Density) units.AmountPerKilogram {
	return g.MolarMass().AmountPerLitre(c).PerKilogram(rho)
}

// MolarMass returns the mass of a mole, by IUPAC 2021.
func (g Species) MolarMass() units.MolarMass {
	if !g.known() {
		return units.MolarMass(math.NaN())
	}
	return species[g].molar
}

// InDryAir returns the share of the molecules of dry air. It is NaN for carbon
// dioxide, of which a room can have three times as much as the garden.
func (g Species) InDryAir() units.Fraction {
	if !g.known() || g == CarbonDioxide {
		return units.Share(math.NaN())
	}
	return species[g].share
}

// MillilitresPerLitre returns an amount as oceanographers of the last century
// counted it, in millilitres of the gas at standard temperature and pressure (0
// °C, one atmosphere) per litre of water.
//
//	symbol   c V, V = 22391.6 (O2), 22403 (N2), 22392 (Ar), 22263 (CO2) mL/mol
//	source   O2 [GG92]; the others from virial coefficients, see species
//	units    result mL(STP)/L
func (g Species) MillilitresPerLitre(c units.AmountPerLitre) float64 {
	if !g.known() {
		return math.NaN()
	}
	return float64(c) * (species[g].volume / 1000)
}

// FromMillilitresPerLitre is the inverse of MillilitresPerLitre.
func (g Species) FromMillilitresPerLitre(x float64) units.AmountPerLitre {
	if !g.known() {
		return units.AmountPerLitre(math.NaN())
	}
	return units.AmountPerLitre(x * 1000 / species[g].volume)
}

// MarshalText writes what String returns.
func (g Species) MarshalText() ([]byte, error) {
	return input.WriteChoice("gas", g, 0, Species(len(species)))
}

// UnmarshalText reads what String returns.
func (g *Species) UnmarshalText(text []byte) (err error) {
	*g, err = input.ReadChoice("gas", text, 0, Species(len(species)))
	return err
}
