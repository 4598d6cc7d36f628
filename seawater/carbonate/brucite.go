package carbonate

import (
	"math"

	"example.org/wellmixed/seawater/pitzer"
	"example.org/wellmixed/units"
)

// Saturation is a saturation state that a model of activities gives, with the standard
// uncertainty of its logarithm: the constants of different sources differ by factors.
type Saturation struct {
	Omega       units.Scalar // ion product over solubility product: above 1 the solid can form
	Uncertainty units.Scalar // of log10 Omega
}

// Index returns log10 Omega.
func (s Saturation) Index() float64 { return math.Log10(float64(s.Omega)) }

// Minerals are the saturation states of what strong bases and strong salts throw out.
type Minerals struct{ Brucite, Gypsum Saturation }

// Where seawater of salinity 35 becomes saturated with brucite, as pH on the total scale
// above that by pitzer.dat, by other sources: sit.dat is the highest of five data bases of
// PHREEQC 3 at 25 °C, 9.390 against 9.287 (wateq4f.dat 9.224, minteq.v4.dat 9.262, llnl.dat
// 8.805), and the product of 5e-11 (mol/L)³ that was measured at 20 °C (Wattenberg and
// Timmermann 1938 by [SJF] table 42) is the lowest, 8.890 against 9.447.
const (
	bruciteHighest = 9.389561391428737 - 9.286745355398722
	bruciteLowest  = 8.890 - 9.446851030885341
)

// bruciteDoubt is the standard uncertainty of log10 Omega, which moves by two with pH, as of
// values that lie between unequal bounds, anywhere with equal probability.
//
//	symbol   u = (b+ + b-)/12^½
//	source   [GUM] 4.3.8
const bruciteDoubt = 2 * (bruciteHighest - bruciteLowest) / 3.4641016151377544

// gypsumDoubt is the standard uncertainty of log10 Omega of gypsum, [GUM] 4.3.8 again. The
// solubility in 3 to 5 mol/kg of NaCl is met within 4.1 %, which is 0.035 of log10 Omega, too
// high; and seawater in evaporation is saturated at 3.34 times, where 3.3 to 3.8 are known, of
// which the last is 0.085 (all from memory, see package pitzer). A data base that was not
// fitted in brines, minteq.v4.dat, is 0.154 above.
const gypsumDoubt = (0.035 + 0.085) / 3.4641016151377544

// Activities returns the water as the ion-interaction model of package pitzer has it, with
// the activities of all ions and the saturation of every solid of its table. It takes the
// same carbon and carbonate alkalinity; its pH is its own, within 0.04 of that of the
// System between 10 and 30 °C. For the CO2 system take the System.
//
//	symbol   sodium or chloride beyond that of the salinity makes the charge balance
//	source   package pitzer; the other ions by the reference composition [RC]
//	range    0 to 50 °C
//	outside  *units.RangeError
//	errors   water that nobody solved, or no solution: *units.InputError, units.ErrNoConvergence
//
// Fluoride is counted as chloride, the model has no parameters for it in mixtures.
func (s *System) Activities() (pitzer.Solution, error) {
	return pitzer.Solve(s.brine(), s.Constants.Temperature)
}

// brine is what is dissolved, per kilogram of water.
func (s *System) brine() pitzer.Brine {
	c := &s.Constants
	salinity := s.solved(c.Salinity.Value())
	salt := seaSaltAt35 / 35 * salinity // g/kg
	per := units.AmountPerKilogram(1 / (1 - salt/1000))
	of := func(fraction float64) units.AmountPerKilogram {
		return units.AmountPerKilogram(fraction*salt/seaSaltMass*perMole) * per
	}
	b := pitzer.Brine{
		Sodium: of(sodiumFraction), Potassium: of(potassiumFraction), Strontium: of(strontiumFraction),
		Magnesium: c.Totals.Magnesium * per, Calcium: c.Totals.Calcium * per,
		Chloride: of(chlorideFraction) + c.Totals.Fluoride*per, Bromide: of(bromideFraction),
		Sulfate: c.Totals.Sulfate * per, Boron: c.Totals.Boron * per, Carbon: units.AmountPerKilogram(s.dic) * per,
	}
	sp := s.Species()
	alkalinity := (sp.HCO3 + 2*sp.CO3 + sp.BOH4 + sp.OH - sp.H - sp.HSO4) * per
	charge := b.Sodium + b.Potassium + 2*(b.Magnesium+b.Calcium+b.Strontium) - b.Chloride - b.Bromide - 2*b.Sulfate
	if charge < alkalinity {
		b.Sodium += alkalinity - charge
	} else {
		b.Chloride += charge - alkalinity
	}
	return b
}

// Minerals returns the saturation states of brucite and of gypsum, of which each alone takes
// as long as both.
func (s *System) Minerals() Minerals {
	nan := units.Scalar(math.NaN())
	m := Minerals{Brucite: Saturation{nan, nan}, Gypsum: Saturation{nan, nan}}
	w, err := s.Activities()
	if err != nil {
		return m
	}
	if index, err := w.Saturation(pitzer.Brucite); err == nil {
		m.Brucite = Saturation{units.Scalar(math.Pow(10, index)), bruciteDoubt}
	}
	if index, err := w.Saturation(pitzer.Gypsum); err == nil {
		m.Gypsum = Saturation{units.Scalar(math.Pow(10, index)), gypsumDoubt}
	}
	return m
}

// Brucite returns the saturation state of brucite, Mg(OH)2, which lime water
// and other strong bases throw out of seawater.
//
//	symbol   Omega = a(Mg) a(OH)²/K
//	source   ion-interaction model, see [System.Activities]; K of pitzer.dat
//	range    0 to 50 °C
//	outside  NaN
//
// The uncertainty is what the published constants leave open: none has been measured in
// seawater since 1938, seawater of salinity 35 at 25 °C becomes saturated at pH 9.29 here and at 8.8
// to 9.4 by others, and at 20 °C at 9.45 here and 8.9 by the product of 1938. A fresh
// precipitate is more soluble than the mineral, so nothing may show for a while above 1.
func (s *System) Brucite() Saturation { return s.Minerals().Brucite }

// BruciteOnset returns the pH at which the water becomes saturated with brucite, and its
// standard uncertainty. Of seawater of salinity 35 at 25 °C it is 9.29 with 0.19, published
// ones reach from 8.8 to 9.4; 9.0 is a sensible level to warn at.
//
//	symbol   pH - log10 Omega/2
//	range    as [System.Brucite]; from pH 8 within 0.011 of where the base that is needed takes it
func (s *System) BruciteOnset() (at TotalPH, uncertainty float64) {
	b := s.Brucite()
	return PHTotal(s.PH().value - b.Index()/2), float64(b.Uncertainty) / 2
}

// Gypsum returns the saturation state of gypsum, which a concentrated calcium
// and sulfate solution may reach and seawater does not.
//
//	symbol   Omega = a(Ca) a(SO4) a(H2O)²/K
//	source   ion-interaction model, see [System.Activities]
//	range    0 to 50 °C
//	outside  NaN
func (s *System) Gypsum() Saturation { return s.Minerals().Gypsum }
