package ions

import (
	"iter"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Composition is what is dissolved in a water: the content of each [Ion] per
// kilogram of solution. Copy it freely; comparing with == compares the exact
// numbers. The methods return another Composition and leave this one alone.
//
// It need not be a water that can exist: a difference of two waters, or what a
// dose adds, is a Composition too. [Composition.Check] tells.
//
// The zero value is pure water.
type Composition struct {
	content [count]units.AmountPerKilogram
}

// Amount returns the content of one species.
func (c Composition) Amount(i Ion) units.AmountPerKilogram {
	if i >= count {
		return input.NaN[units.AmountPerKilogram]()
	}
	return c.content[i]
}

// With returns the composition with the content of one species replaced.
func (c Composition) With(i Ion, amount units.AmountPerKilogram) Composition {
	if i >= count {
		return invalid()
	}
	c.content[i] = amount
	return c
}

// Add returns the composition with so much more of one species.
func (c Composition) Add(i Ion, amount units.AmountPerKilogram) Composition {
	return c.With(i, c.Amount(i)+amount)
}

// Plus returns the sum of the contents, such as a water and a dose per kilogram
// of it. The mass that comes along is not counted; Blend counts it.
func (c Composition) Plus(other Composition) Composition {
	for i := range c.content {
		c.content[i] += other.content[i]
	}
	return c
}

// Minus returns the difference of the contents.
func (c Composition) Minus(other Composition) Composition { return c.Plus(other.Scale(-1)) }

// Scale returns x times the contents: at x below one, what pure water makes of
// it when a mass grows to 1/x.
func (c Composition) Scale(x float64) Composition {
	for i := range c.content {
		c.content[i] *= units.AmountPerKilogram(x)
	}
	return c
}

// Blend pours a mass m of this water and a mass m2 of another together. Masses
// that are negative or together nothing give NaN.
func (c Composition) Blend(m units.Mass, other Composition, m2 units.Mass) Composition {
	total := float64(m + m2)
	if !(m >= 0 && m2 >= 0 && total > 0) || math.IsInf(total, 0) {
		return invalid()
	}
	return c.Scale(float64(m) / total).Plus(other.Scale(float64(m2) / total))
}

// Calcify returns the water after so much calcium carbonate has been laid
// down: Ca + 2 HCO3 -> CaCO3 + CO2 + H2O. A negative amount dissolves it. How
// carbon and boron then share the acid, [Composition.Settled] says.
func (c Composition) Calcify(amount units.AmountPerKilogram) Composition {
	return c.Add(Calcium, -amount).Add(Bicarbonate, -2*amount).Add(CarbonDioxide, amount)
}

// All returns the species that the composition holds, in the order of the
// constants, with their contents.
func (c Composition) All() iter.Seq2[Ion, units.AmountPerKilogram] {
	return func(yield func(Ion, units.AmountPerKilogram) bool) {
		for i, amount := range c.content {
			if amount != 0 && !yield(Ion(i), amount) {
				return
			}
		}
	}
}

// Equal tells whether no content differs from that of another composition by
// more than the tolerance.
func (c Composition) Equal(other Composition, tolerance units.AmountPerKilogram) bool {
	for i := range c.content {
		if !(math.Abs(float64(c.content[i]-other.content[i])) <= float64(tolerance)) {
			return false
		}
	}
	return true
}

// Check returns an error if this cannot be a water: a content that is negative
// or not a finite number, or no water left between the solutes. It does not ask
// whether the charges balance.
func (c Composition) Check() error {
	for i, amount := range c.content {
		if err := input.NotNegative(Ion(i).Name(), float64(amount), "µmol/kg"); err != nil {
			return err
		}
	}
	if solutes := 1 - c.waterShare(); !(solutes < 1) {
		return input.Bad("composition", input.Number(1000*solutes)+" g/kg of solutes", "some water left")
	}
	return nil
}

// Charge returns the sum of all charges, zero for any water that exists.
//
//	symbol   Q = Σ z n
//	units    µeq per kg of solution, as an amount of charge
func (c Composition) Charge() units.AmountPerKilogram {
	var sum float64
	for i, amount := range c.content {
		sum += float64(species[i].charge) * float64(amount)
	}
	return units.AmountPerKilogram(sum)
}

// Alkalinity returns the total alkalinity that the strong ions leave to the
// weak acids: the charge balance, without any need of pH.
//
//	symbol   TA = Na + K + Li + NH4 + 2 (Mg + Ca + Sr + Ba + Mn + Zn + Cu)
//	              - Cl - Br - F - I - IO3 - NO3 - NO2 - HPO4 - 2 (SO4 + MoO4)
//	source   [WG07]; iron and silicate are neutral, phosphate counts as total
//	units    µeq per kg of solution
//
// If the composition is balanced it is HCO3 + 2 CO3 + B(OH)4 + OH + HPO4 + acetate.
func (c Composition) Alkalinity() units.AmountPerKilogram {
	var sum float64
	for i, amount := range c.content {
		sum += float64(species[i].protons) * float64(amount)
	}
	return units.AmountPerKilogram(sum)
}

// Carbon returns the dissolved inorganic carbon, HCO3 + CO3 + CO2.
func (c Composition) Carbon() units.AmountPerKilogram {
	return c.content[Bicarbonate] + c.content[Carbonate] + c.content[CarbonDioxide]
}

// Boron returns all boron, B(OH)3 + B(OH)4.
func (c Composition) Boron() units.AmountPerKilogram {
	return c.content[BoricAcid] + c.content[Borate]
}

// SolutionSalinity returns the mass of all that is dissolved, the solution
// absolute salinity of TEOS-10: what would be left if the water alone were taken
// away. Instruments show it for water of the reference composition only, and the
// formulas of package teos10 want what [Composition.Shown] tells of the density.
//
//	symbol   S_soln = Σ n M
//	source   [MFWM08], [WPMFW11]
//	units    g per kg of solution
//
// It is on the Reference-Composition Salinity Scale, which counts its ions with
// the atomic weights of 2005: so it can be compared with what instruments show, and
// is 35.16504 g/kg at practical salinity 35. A balance, counting with those of 2021 as
// [Composition.Water] does, finds 0.005 % less: 35.1633 g/kg. Sodium chloride alone
// weighs 58.44 g/mol for the balance and 58.44277 g/mol on the scale.
func (c Composition) SolutionSalinity() units.AbsoluteSalinity {
	return units.Absolute(c.grams())
}

// grams is Σ n M in g/kg on the reference scale.
func (c *Composition) grams() float64 {
	var sum float64
	for i, amount := range c.content {
		sum += float64(amount) * 1e-6 * scaleMass[i]
	}
	return sum
}

// Water returns the mass of water in a mass of solution: one less all that is
// dissolved, as a balance finds it, with the atomic weights of 2021 [AW21].
func (c Composition) Water() units.Fraction { return units.Share(c.waterShare()) }

func (c *Composition) waterShare() float64 {
	var solutes float64 // kg/kg
	for i, amount := range c.content {
		solutes += float64(amount) * 1e-9 * species[i].molarMass
	}
	return 1 - solutes
}

// IonicStrength returns the ionic strength, all ions counted as free.
//
//	symbol   I = ½ Σ m z², m = n/w
//	units    mol per kg of water
func (c Composition) IonicStrength() float64 { return c.ionicStrength(c.waterShare()) }

func (c *Composition) ionicStrength(water float64) float64 {
	var sum float64
	for i, amount := range c.content {
		z := float64(species[i].charge)
		sum += z * z * float64(amount)
	}
	return sum * 1e-6 / (2 * water)
}

// Chlorinity returns the mass of silver that precipitates all halides, times
// 0.3285234: what a titration with silver nitrate finds.
//
//	symbol   Cl = 0.3285234 M(Ag) (Cl + Br + I)
//	source   Jacobsen and Knudsen 1940; [MFWM08]; M(Ag) = 107.8682 g/mol [AW21]
//	units    g of chlorinity per kg of solution
func (c Composition) Chlorinity() units.MassPerKilogram {
	halides := c.content[Chloride] + c.content[Bromide] + c.content[Iodide]
	return units.MassPerKilogram(silverFactor*massAg*float64(halides)*1e-6) * units.GramPerKilogram
}

const (
	silverFactor = 0.3285234
	massAg       = 107.8682
)

// invalid stands for the composition of a water that cannot be.
func invalid() Composition {
	var c Composition
	for i := range c.content {
		c.content[i] = input.NaN[units.AmountPerKilogram]()
	}
	return c
}
