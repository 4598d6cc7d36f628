package carbonate

import (
	"math"

	"example.org/wellmixed/units"
)

// Buffers tells how the water answers to a little alkalinity or DIC. The six
// factors of Egleston et al. 2010 are how much it takes to change something by
// a factor e, if it went on as it begins; one over a factor is a derivative:
//
//	GammaDIC        1/(d ln CO2/d DIC)      at constant alkalinity
//	BetaDIC         1/(d ln [H]/d DIC)
//	OmegaDIC        1/(d ln Omega/d DIC)
//	GammaAlkalinity 1/(d ln CO2/d TA)       at constant DIC
//	BetaAlkalinity  1/(d ln [H]/d TA)
//	OmegaAlkalinity 1/(d ln Omega/d TA)
//
// A negative factor is of something that falls. CO2 stands for pCO2 and fCO2 as
// well, Omega for both saturation states and for CO3.
type Buffers struct {
	// Revelle is d ln pCO2/d ln DIC at constant alkalinity, about 9 in seawater.
	Revelle units.Scalar

	GammaDIC, BetaDIC, OmegaDIC                      units.AmountPerKilogram
	GammaAlkalinity, BetaAlkalinity, OmegaAlkalinity units.AmountPerKilogram

	PHPerDIC        units.Scalar // change of pH by 1 µmol/kg of DIC
	PHPerAlkalinity units.Scalar // change of pH by 1 µmol/kg of alkalinity
}

// Buffers returns the buffer factors, exactly and with every species counted.
//
//	symbol   V = -(d TA/d ln [H]) at constant DIC; m = ([HCO3] + 2[CO3])/DIC,
//	         w = (2[CO2] + [HCO3])/DIC
//	         d ln [H]/d DIC = m/V, d ln CO2/d DIC = 1/DIC + m²/V, d ln CO3/d DIC = 1/DIC - w m/V
//	         d ln [H]/d TA = -1/V, d ln CO2/d TA = -m/V, d ln CO3/d TA = w/V
//	source   [E10], whose formulas are these for carbonate, borate and water alone
//	units    µmol/kg
func (s *System) Buffers() Buffers {
	b := s.balance()
	mean, _, _ := b.charge(s.h)
	v := -b.residual(s.h).r1
	w := 2 - mean
	revelle := 1 + s.dic*mean*mean/v
	return Buffers{
		Revelle:         units.Scalar(revelle),
		GammaDIC:        units.AmountPerKilogram(s.dic / revelle),
		BetaDIC:         units.AmountPerKilogram(v / mean),
		OmegaDIC:        units.AmountPerKilogram(s.dic / (1 - s.dic*w*mean/v)),
		GammaAlkalinity: units.AmountPerKilogram(-v / mean),
		BetaAlkalinity:  units.AmountPerKilogram(-v),
		OmegaAlkalinity: units.AmountPerKilogram(v / w),
		PHPerDIC:        units.Scalar(-mean / v / math.Ln10),
		PHPerAlkalinity: units.Scalar(1 / v / math.Ln10),
	}
}
