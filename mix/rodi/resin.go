package rodi

import (
	"cmp"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Resin is a stage of mixed-bed ion-exchange resin. Its capacity is counted in
// moles of charge, equivalents, per litre of the mixed bed, for the cations and
// again for the anions: 0.5 to 0.8 eq/L is usual (from 1.8 to 2.0 of cation and
// 1.0 to 1.4 of anion resin, the latter from memory), see [MixedBed].
//
// Where the box prints a number of litres and nothing else, Life takes it, and Volume,
// Capacity and Usable are left out.
type Resin struct {
	Volume   units.Volume
	Capacity units.AmountPerLitre
	Usable   units.Fraction // of the capacity until the reading rises
	Life     units.Volume   // of water that it makes, as the box prints it, if Capacity is not known
	Leak     units.Fraction // of the salt that gets through fresh resin; 0: none that a meter sees
	Price    units.Money    // of one filling
}

// KilograinPerCubicFoot is the unit in which the trade gives the capacity of
// resin, a thousand grains of calcium carbonate per cubic foot: 1 eq/L is
// 21.87 of it [MIC]. The grain is 64.79891 mg exactly, the equivalent half a
// mole of calcium carbonate.
const KilograinPerCubicFoot = units.MolePerLitre *
	units.AmountPerLitre(64.79891/(units.AsCalciumCarbonate/2)/units.MolarMass(units.CubicFoot))

// MixedBed returns the capacity of a mixed bed that holds as many equivalents of
// cation as of anion resin, and the share of cation resin in its volume.
//
//	symbol   x = a/(a + c); capacity a c/(a + c)
//	source   x c = (1 - x) a
//	units    capacities of the two resins, equivalents per litre
//	outside  zero or below, NaN or Inf: NaN
func MixedBed(cation, anion units.AmountPerLitre) (capacity units.AmountPerLitre, cationShare units.Fraction) {
	sum := cation + anion
	if !(cation > 0 && anion > 0 && sum <= math.MaxFloat64) {
		return input.NaN[units.AmountPerLitre](), units.Share(math.NaN())
	}
	return cation * (anion / sum), units.Share(float64(anion / sum))
}

// chargeConductivity is the conductivity of one equivalent of salt, in
// S cm²/eq: 100 (from memory, common practice of water analysis; 100 µS/cm is
// 1 meq/L). Sodium hydrogen carbonate has 95, sodium chloride 126 at infinite
// dilution.
const chargeConductivity = 100

// Equivalents returns how much charge a reading amounts to, of cations or of
// anions: what the resin has to take up of each.
//
//	symbol   N = κ25/Λ, Λ = 100 S cm²/eq
//	source   common practice of water analysis (from memory)
//	units    result in mmol of charge per litre, meq/L
//	range    natural and membrane-treated water, within 20 %
//	outside  meaningless reading: NaN
func Equivalents(r units.TDS) units.AmountPerLitre {
	c := r.Conductivity()
	if !(c >= 0 && c <= math.MaxFloat64) {
		return input.NaN[units.AmountPerLitre]()
	}
	return units.AmountPerLitre(c.MillisiemensPerCentimetre()/chargeConductivity) * units.MolePerLitre
}

// Lasts returns how much water the resin makes of what the membrane lets
// through. Carbon dioxide passes the membrane as a gas and takes a site of the
// anion resin per molecule, so the anions run out first.
//
//	symbol   V = f q V_r/(N + [CO2]), N = [Equivalents]
//	source   balance of charge
//
// Of water with nothing to take out it is 0, not known. N is known to 20 %, as any meter
// makes it; where the salt itself is known, [Resin.LastsFor] is exact. Resin of a printed
// Life lasts for that, whatever comes.
func (r Resin) Lasts(in units.TDS, carbonDioxide units.AmountPerLitre) (units.Volume, error) {
	if err := checkTDS("in", in); err != nil {
		return input.NaN[units.Volume](), cmp.Or(r.check(), err)
	}
	if err := input.NotNegative("carbonDioxide", float64(carbonDioxide), "mmol/L"); err != nil {
		return input.NaN[units.Volume](), cmp.Or(r.check(), err)
	}
	return r.LastsFor(Equivalents(in) + carbonDioxide)
}

// LastsFor returns how much water the resin makes that carries so much charge, in moles of
// it per litre: the anions, and with them a site per molecule of carbon dioxide.
//
//	symbol   V = f q V_r/N
//	source   balance of charge
//	units    N mmol of charge per litre, meq/L; 0 gives 0, not known
//
// Salt in mg/L becomes charge by its mass per charge: 58.44 g of sodium chloride, and
// 50.04 g of calcium carbonate, as which hardness is counted:
//
//	(units.AsSodium + units.AsChloride).AmountPerLitre(8 * units.MilligramPerLitre)
//	(units.AsCalciumCarbonate / 2).AmountPerLitre(8 * units.MilligramPerLitre)
func (r Resin) LastsFor(charge units.AmountPerLitre) (units.Volume, error) {
	if err := r.check(); err != nil {
		return input.NaN[units.Volume](), err
	}
	if err := input.NotNegative("charge", float64(charge), "mmol/L"); err != nil {
		return input.NaN[units.Volume](), err
	}
	if r.Life > 0 {
		return r.Life, nil
	}
	return finite(float64(r.Volume) * r.Usable.Value() * float64(r.Capacity/charge)), nil
}

// Used returns the share of what the resin can take that a volume of water of such a
// charge has used up: above 1, it is used up.
//
//	symbol   N V/(f q V_r)
//	source   balance of charge, see [Resin.LastsFor]
func (r Resin) Used(charge units.AmountPerLitre, passed units.Volume) (units.Fraction, error) {
	lasts, err := r.LastsFor(charge)
	err = input.Join(err, input.NotNegative("passed", float64(passed), "L"))
	switch {
	case err != nil:
		return units.Share(math.NaN()), err
	case lasts == 0:
		return units.Fraction{}, nil
	}
	return units.Share(float64(passed / lasts)), nil
}

func (r Resin) check() error {
	if r.Life != 0 {
		if r.Capacity != 0 {
			return input.Bad("life", r.Life.String(), "a life or a capacity, one of the two")
		}
		return input.Join(input.Positive("life", float64(r.Life), "L"), r.checkLeak(), checkPrice(r.Price))
	}
	list := []error{
		input.Positive("volume", float64(r.Volume), "L"),
		input.Share("usable", r.Usable),
		checkPrice(r.Price),
		r.checkLeak(),
	}
	if !(r.Capacity > 0 && r.Capacity <= 5*units.MolePerLitre) {
		list = append(list, input.Bad("capacity", r.Capacity.String(),
			"above 0 and up to 5000 mmol of charge per litre; 500 to 800 is usual in a mixed bed"))
	}
	return input.Join(list...)
}

func (r Resin) checkLeak() error {
	if r.Leak.Value() >= 0 && r.Leak.Value() < 1 {
		return nil
	}
	return input.Bad("leak", r.Leak.String(), "0 to below 100 %")
}

// FreeCarbonDioxide returns the dissolved gas in tap water of an alkalinity and
// a pH. The more of it, the sooner the resin is used up; stirring air through
// the membrane's product drives most of it out.
//
//	symbol   [CO2] = [HCO3] h/K1, [HCO3] = (TA - Kw/h + h)/(1 + 2 K2/h), h = 10^-pH
//	source   [M79] for K1 and K2 of pure water
//	range    0 <= t <= 50 °C; activities are left out, which in hard water makes it 10 % too much
//	outside  extrapolates; more hydroxide than alkalinity, or meaningless: NaN
func FreeCarbonDioxide(a units.Alkalinity, ph carbonate.NBSPH, t units.Temperature) units.AmountPerLitre {
	c := carbonate.At(units.Practical(0), t, carbonate.Options{K1K2: carbonate.Millero1979})
	h := math.Pow(10, -ph.Value())
	// mol/L, a kilogram to the litre
	hydrogenCarbonate := (a.MilliequivalentsPerLitre()/1000 - float64(c.KW)/h + h) / (1 + float64(2*c.K2)/h)
	gas := units.AmountPerLitre(hydrogenCarbonate*h/float64(c.K1)) * units.MolePerLitre
	if !(gas >= 0 && gas <= math.MaxFloat64) {
		return input.NaN[units.AmountPerLitre]()
	}
	return gas
}
