package carbonate

import (
	"math"

	"example.org/wellmixed/units"
)

// System is the whole CO2 system of one water: what it was solved with, and
// every species on request. Solve and its kin make it; the zero value is no
// water, and every number asked of it is NaN.
//
// Constants.Options tells which constants were used and which totals were
// measured; what was not was taken from the salinity.
type System struct {
	Constants Constants
	Nutrients Nutrients

	h          float64 // [H] on the total scale, mol/kg
	alkalinity float64 // µmol/kg
	dic        float64 // µmol/kg
}

// noSystem stands beside an error: every number asked of it is NaN.
func noSystem(c *Constants, n *Nutrients) System {
	nan := math.NaN()
	return System{Constants: *c, Nutrients: *n, h: nan, alkalinity: nan, dic: nan}
}

// solved returns a number of the system, or NaN of one that nobody solved.
func (s *System) solved(x float64) float64 {
	if s.h == 0 {
		return math.NaN()
	}
	return x
}

func phOf(h float64) TotalPH { return PHTotal(math.Log(h) * (-1 / math.Ln10)) }

// Alkalinity returns the total alkalinity.
func (s *System) Alkalinity() units.AmountPerKilogram {
	return units.AmountPerKilogram(s.solved(s.alkalinity))
}

// DIC returns the dissolved inorganic carbon.
func (s *System) DIC() units.AmountPerKilogram { return units.AmountPerKilogram(s.solved(s.dic)) }

// PH returns the pH on the total scale. Its methods give it on the others.
func (s *System) PH() TotalPH { return phOf(s.solved(s.h)) }

// CO2 returns the content of dissolved CO2, with the little H2CO3 that there is.
func (s *System) CO2() units.AmountPerKilogram {
	return units.AmountPerKilogram(s.dic / (1 + (float64(s.Constants.K1)+float64(s.Constants.K1*s.Constants.K2)/s.h)/s.h))
}

// Bicarbonate returns the content of HCO3-.
func (s *System) Bicarbonate() units.AmountPerKilogram {
	return units.AmountPerKilogram(s.dic / (1 + s.h/float64(s.Constants.K1) + float64(s.Constants.K2)/s.h))
}

// Carbonate returns the content of CO3--.
func (s *System) Carbonate() units.AmountPerKilogram {
	return units.AmountPerKilogram(s.dic / (1 + s.h/float64(s.Constants.K2)*(1+s.h/float64(s.Constants.K1))))
}

// FCO2 returns the fugacity of CO2.
func (s *System) FCO2() FCO2 { return FCO2(float64(s.CO2()) / float64(s.Constants.K0)) }

// PCO2 returns the partial pressure of CO2 of air in equilibrium with the water.
func (s *System) PCO2() PCO2 { return s.FCO2().PCO2(&s.Constants) }

// Calcite returns the saturation state of calcite, [Ca][CO3] over the
// solubility product: above 1 it can form, below 1 it dissolves.
func (s *System) Calcite() float64 { return s.ionProduct() / float64(s.Constants.Calcite) }

// Aragonite returns the saturation state of aragonite, of which corals build.
func (s *System) Aragonite() float64 { return s.ionProduct() / float64(s.Constants.Aragonite) }

// ionProduct returns [Ca][CO3] in (mol/kg)².
func (s *System) ionProduct() float64 {
	return float64(s.Constants.Totals.Calcium) * float64(s.Carbonate()) / (perMole * perMole)
}

// FreeAmmonia returns the share of the total ammonia that is NH3.
func (s *System) FreeAmmonia() units.Fraction {
	return units.Share(float64(s.Constants.KNH4) / (float64(s.Constants.KNH4) + s.h))
}

// Species are the contents of all that takes part in the alkalinity.
type Species struct {
	H, OH                   units.AmountPerKilogram // H is the free ion
	CO2, HCO3, CO3          units.AmountPerKilogram
	BOH3, BOH4              units.AmountPerKilogram // boric acid, borate
	HSO4, SO4               units.AmountPerKilogram
	HF, F                   units.AmountPerKilogram
	H3PO4, H2PO4, HPO4, PO4 units.AmountPerKilogram
	SiOH4, SiOOH3           units.AmountPerKilogram // silicic acid, its ion
	NH4, NH3                units.AmountPerKilogram
	H2S, HS                 units.AmountPerKilogram
}

// Species returns the whole speciation.
func (s *System) Species() Species {
	c, h := &s.Constants, s.h
	free := h / c.freeFactor()
	sp := Species{
		H: units.AmountPerKilogram(perMole * free), OH: units.AmountPerKilogram(float64(perMole*c.KW) / h),
		CO2: s.CO2(), HCO3: s.Bicarbonate(), CO3: s.Carbonate(),
	}
	sp.BOH3, sp.BOH4 = split(c.Totals.Boron, float64(c.KB), h)
	sp.HSO4, sp.SO4 = split(c.Totals.Sulfate, float64(c.KS), free)
	sp.HF, sp.F = split(c.Totals.Fluoride, float64(c.KF), free)
	sp.SiOH4, sp.SiOOH3 = split(s.Nutrients.Silicate, float64(c.KSi), h)
	sp.NH4, sp.NH3 = split(s.Nutrients.Ammonia, float64(c.KNH4), h)
	sp.H2S, sp.HS = split(s.Nutrients.Sulfide, float64(c.KH2S), h)

	p1 := float64(c.KP1) / h
	p2 := p1 * (float64(c.KP2) / h)
	p3 := p2 * (float64(c.KP3) / h)
	sp.H3PO4 = s.Nutrients.Phosphate / units.AmountPerKilogram(1+p1+p2+p3)
	sp.H2PO4 = sp.H3PO4 * units.AmountPerKilogram(p1)
	sp.HPO4 = sp.H3PO4 * units.AmountPerKilogram(p2)
	sp.PO4 = sp.H3PO4 * units.AmountPerKilogram(p3)
	return sp
}

// split divides a total between an acid and its base.
func split(total units.AmountPerKilogram, k, h float64) (acid, base units.AmountPerKilogram) {
	return total * units.AmountPerKilogram(h/(k+h)), total * units.AmountPerKilogram(k/(k+h))
}

// balance returns the balance that the water keeps, with its DIC held.
func (s *System) balance() balance {
	var b balance
	b.of(&s.Constants, &s.Nutrients)
	b.carbonKind, b.carbon, b.alkalinity = dic, s.dic, s.alkalinity
	return b
}
