package titration

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Kit is a titration of a volume of water to a change of colour or to a fixed pH,
// by drops or by burette. The zero value is refused.
type Kit struct {
	// Sample is the volume of water.
	Sample units.Volume
	// Titrant is the strength: moles of H+, of EDTA or of silver per litre. Sulfuric
	// acid has two H+ a mole. A strength per kilogram comes here by PerLitre with the
	// density of the titrant; a weighed sample by Density.Volume.
	Titrant units.AmountPerLitre
	// Step is what one drop, or the smallest amount that one reads or adds, holds.
	// Zero is a burette read without error.
	Step units.Volume
	// Blank is the titrant that pure water takes to the same colour.
	Blank units.Volume
}

// Uncertainty holds standard uncertainties, of zero where something is known
// exactly, and no more than 1 as a share. Counting needs none: the end point lies anywhere
// within half a step of the volume, which is step/√12 [GUM, 4.3.7], for the blank as
// well. Of a count that holds for Counted, not for Drops.
type Uncertainty struct {
	Delivered units.Fraction // of the size of a drop, or of the calibration of the burette
	Strength  units.Fraction // of the titrant
	Sample    units.Volume
}

// Drops returns the volume of so many drops. Half a drop is 0.5.
func (k Kit) Drops(n float64) units.Volume { return units.Volume(n) * k.Step }

// Counted returns the volume to the end point where drop n is the first that turns the
// colour: it lies anywhere within that drop, half a drop below the count on average.
//
//	symbol   V = (n - 1/2) step; V lies in (n - 1, n] steps
//	outside  fewer than one drop: below zero, which Amount refuses
//
// A titrant of stated strength goes with Counted, and so does a Blank that was counted. A
// maker who only says what one drop is worth may have allowed for the half drop, by a
// titrant of which a drop is worth more: a Titrant reckoned back from that goes with
// Drops. A solution of known alkalinity near that of the water tells which is right.
func (k Kit) Counted(n int) units.Volume { return k.Drops(float64(n) - 0.5) }

// Worth returns what one step is worth.
//
//	units.Alkalinity(worth).DKH()          // of an acid
//	units.AsCalcium.MassPerLitre(worth)    // of EDTA
func (k Kit) Worth() (units.AmountPerLitre, error) {
	if err := k.check(); err != nil {
		return input.NaN[units.AmountPerLitre](), err
	}
	return k.found(k.Step)
}

// Amount returns what the titrant has found per litre of sample, and its standard
// uncertainty.
//
//	symbol   c = T (V - Vblank)/Vsample
//	source   [GUM] for the uncertainty, by first-order differences
//	units    mmol/L, at the temperature of the sample
//	outside  an error, and NaN, for anything negative or without meaning, and for a
//	         volume below the blank
//
// It does not know how far the end point is from the equivalence point:
// Vessel.EndPoint does for alkalinity.
func (k Kit) Amount(v units.Volume, u Uncertainty) (c, uncertainty units.AmountPerLitre, err error) {
	if err = k.check(); err == nil {
		err = u.check()
	}
	if err == nil {
		err = input.NotNegative("volume of titrant", v.Millilitres(), "mL")
	}
	if err == nil && v > most*k.Sample {
		err = input.Bad("volume of titrant", v.String(), "a volume, such as 0.4 mL or kit.Drops(8), of no more than "+
			"100 samples")
	}
	if err == nil && v < k.Blank {
		err = input.Bad("volume of titrant", v.String(), "no less than the blank")
	}
	if err == nil {
		c, err = k.found(v - k.Blank)
	}
	if err != nil {
		return input.NaN[units.AmountPerLitre](), input.NaN[units.AmountPerLitre](), err
	}
	counted, err := k.found(k.Step / sqrt12)
	if err != nil {
		return input.NaN[units.AmountPerLitre](), input.NaN[units.AmountPerLitre](), err
	}
	if k.Blank > 0 {
		counted *= math.Sqrt2
	}
	relative := math.Hypot(math.Hypot(u.Delivered.Value(), u.Strength.Value()), float64(u.Sample/k.Sample))
	uncertainty = units.AmountPerLitre(math.Hypot(float64(counted), float64(c)*relative))
	if !(uncertainty <= math.MaxFloat64) {
		return input.NaN[units.AmountPerLitre](), input.NaN[units.AmountPerLitre](), input.Bad("uncertainty",
			uncertainty.String(), "uncertainties of this world")
	}
	return c, uncertainty, nil
}

// most is how many samples of titrant one sample may take: 8 for eight drops is 8 L.
const most = 100

// sqrt12 is the width of a rectangle over its standard deviation.
const sqrt12 = 2 * 1.73205080756887729352744634150587236694280525381038

// Alkalinity returns the alkalinity that v of acid has found, as the kit means it:
// all the acid to the end point. See Amount.
func (k Kit) Alkalinity(v units.Volume, u Uncertainty) (a, uncertainty units.Alkalinity, err error) {
	c, s, err := k.Amount(v, u)
	return units.MilliequivalentsPerLitre(float64(c)), units.MilliequivalentsPerLitre(float64(s)), err
}

// CalciumHardness returns what v of EDTA has found at pH 12 to 13, where magnesium
// has fallen out as hydroxide: calcium and most of the strontium. Take Strontium
// off to get calcium. See Amount.
//
//	calcium := hardness - titration.Strontium(salinity).PerLitre(density)
func (k Kit) CalciumHardness(v units.Volume, u Uncertainty) (c, uncertainty units.AmountPerLitre, err error) {
	return k.Amount(v, u)
}

// TotalHardness returns what v of EDTA has found at pH 10: calcium, magnesium and
// strontium. Less the calcium hardness of the same water it is magnesium, of which
// the strength of the titrant makes its own share uncertain and no more: it is off
// the same way in both. See Amount.
func (k Kit) TotalHardness(v units.Volume, u Uncertainty) (c, uncertainty units.AmountPerLitre, err error) {
	return k.Amount(v, u)
}

// Strontium returns the strontium of seawater of standard composition, which EDTA
// counts as calcium: 3.72 mg/L of it at salinity 35 and 25 °C.
//
//	symbol   c = 0.0000810 · 35.16504/31.4038218 · S/35
//	source   [MFWM] table 4
//	units    S PSS-78, result µmol/kg
//	range    seawater; an artificial salt has its own
//	outside  S < 0, NaN or infinite: NaN
func Strontium(s units.PracticalSalinity) units.AmountPerKilogram {
	c := strontiumFraction * seaSaltAt35 / seaSaltMass / 35 * 1e6 * s.Value()
	if !(c >= 0 && c <= math.MaxFloat64) {
		return input.NaN[units.AmountPerKilogram]()
	}
	return units.AmountPerKilogram(c)
}

const (
	strontiumFraction        = 0.0000810            // [MFWM] table 4, mole fraction of the sea salt
	seaSaltAt35, seaSaltMass = 35.16504, 31.4038218 // [MFWM] g/kg at salinity 35, g/mol
)

// Chlorosity returns what v of silver nitrate has found (Mohr, with chromate), in a
// sample and with a titrant measured at 20 °C: chloride, bromide and iodide, counted
// as chlorinity counts them. teos10.PracticalFromChlorosity makes a salinity of it,
// teos10.ChlorinityFromChlorosity a chlorinity. See Amount.
//
//	symbol   Cl/L = 0.3285234 M(Ag) c
//	source   [JK40], M(Ag) = 107.8682 g/mol (IUPAC 2021)
//	units    c mol/L, Cl/L g/L at 20 °C
func (k Kit) Chlorosity(v units.Volume, u Uncertainty) (c, uncertainty teos10.Chlorosity, err error) {
	x, s, err := k.Amount(v, u)
	c, uncertainty = chlorosity(x), chlorosity(s)
	if err == nil {
		err = input.NotNegative("chlorosity", (c.GramsPerLitre() + uncertainty.GramsPerLitre()), "g/L")
	}
	if err != nil {
		return teos10.ClPerLitre(math.NaN()), teos10.ClPerLitre(math.NaN()), err
	}
	return c, uncertainty, nil
}

func chlorosity(c units.AmountPerLitre) teos10.Chlorosity {
	return teos10.ClPerLitre(silverRatio * silverMass * c.MillimolesPerLitre() / 1000)
}

const (
	silverRatio = 0.3285234 // chlorinity over the mass of silver [JK40]
	silverMass  = 107.8682  // g/mol, IUPAC 2021
)

// Vessel returns the kit as a weighed titration of alkalinity, of which the end
// point can be computed: with the densities of water and acid, and the water's
// constants. The blank has no part in it.
func (k Kit) Vessel(water, acid units.Density, c carbonate.Constants, n carbonate.Nutrients) Vessel {
	return Vessel{Sample: water.Mass(k.Sample), Acid: k.Titrant.PerKilogram(acid), Constants: c, Nutrients: n}
}

// found is Amount without questions but one: whether the result is a number.
func (k Kit) found(v units.Volume) (units.AmountPerLitre, error) {
	c := float64(k.Titrant) * float64(v/k.Sample)
	if !(math.Abs(c) <= math.MaxFloat64) {
		return input.NaN[units.AmountPerLitre](), input.Bad("titrant",
			k.Titrant.String()+", "+v.String()+" for "+k.Sample.String(), "amounts of this world")
	}
	return units.AmountPerLitre(c), nil
}

func (k Kit) check() error {
	if err := input.Positive("sample", k.Sample.Millilitres(), "mL"); err != nil {
		return err
	}
	if err := input.Positive("titrant", k.Titrant.MillimolesPerLitre(), "mmol/L"); err != nil {
		return err
	}
	if err := input.NotNegative("step", k.Step.Millilitres(), "mL"); err != nil {
		return err
	}
	return input.NotNegative("blank", k.Blank.Millilitres(), "mL")
}

func (u Uncertainty) check() error {
	if err := share("uncertainty.delivered", u.Delivered); err != nil {
		return err
	}
	if err := share("uncertainty.strength", u.Strength); err != nil {
		return err
	}
	return input.NotNegative("uncertainty.sample", u.Sample.Millilitres(), "mL")
}

func share(field string, f units.Fraction) error {
	if f.Value() >= 0 && f.Value() <= 1 {
		return nil
	}
	return input.Bad(field, f.String(), "0 to 100 %")
}
