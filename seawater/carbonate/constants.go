package carbonate

import (
	"math"

	"example.org/wellmixed/units"
)

// Constants holds the equilibrium constants of water of one salinity and
// temperature, and with them everything that was assumed about it. At makes
// it; keep it while salinity and temperature stay, and solve with it as often
// as you like. Contents are in moles per kilogram of water, so are the
// constants; those of acids are on the total scale, but KS and KF on the free
// one, where they belong.
//
// A constant may be replaced by one of your own. It serves whatever is asked of
// these Constants and of a System solved with them, but not of a Water, which
// carries Options and asks At again: a total of your own belongs in Options.
//
// The methods take a pointer, so the Constants need a name of their own: what At
// returns cannot be asked in the same breath.
type Constants struct {
	Salinity    units.PracticalSalinity
	Temperature units.Temperature
	Options     Options // the authors chosen, and which totals were measured
	Totals      Totals

	Gas // K0, FugacityRatio, VapourPressure

	K1 units.Scalar // [H][HCO3]/[CO2]
	K2 units.Scalar // [H][CO3]/[HCO3]
	KB units.Scalar // [H][B(OH)4]/[B(OH)3] [D90a]
	KW units.Scalar // [H][OH], (mol/kg)² [M95]
	KS units.Scalar // free scale, [H][SO4]/[HSO4]
	KF units.Scalar // free scale, [H][F]/[HF]

	KP1, KP2, KP3 units.Scalar // phosphoric acid [YM]
	KSi           units.Scalar // silicic acid [YM]
	KH2S          units.Scalar // hydrogen sulfide [MPF]
	KNH4          units.Scalar // ammonium

	Calcite   units.Scalar // solubility product [Ca][CO3], (mol/kg)² [MUC]
	Aragonite units.Scalar // solubility product [Ca][CO3], (mol/kg)² [MUC]

	FH units.Scalar // fH, from the seawater to the NBS scale [T82]
}

// At returns the constants of water of a salinity and a temperature, under one
// atmosphere. The zero Options are the recommended choice.
//
//	symbol   K = exp(f(S, T)), each moved to the total scale by the factors of scales.go
//	source   the authors that o names; see the fields of Constants
//	units    S PSS-78, t °C ITS-90, constants mol/kg
//	range    CheckRange, CheckRangeSaturation and CheckRangeAmmonia tell
//	outside  extrapolates; S < 0, S > 120, t < -100 °C, t > 400 °C, NaN, Inf, a temperature
//	         that nobody set or an unknown set: NaN
//
// The fits were made on IPTS-68 or ITS-90 thermometers; the difference, 0.006 K
// at 25 °C, is below what they were measured to.
func At(s units.PracticalSalinity, t units.Temperature, o Options) Constants {
	if !possible(s, t) || !o.known() {
		return noConstants(s, t, o)
	}
	c := conditionsAt(s.Value(), t.Celsius())
	totals := o.totals(c.s)

	ln1, ln2, scale := o.K1K2.logarithms(&c)
	k := [...]float64{
		ln1, ln2, boricAcid(&c), water(&c), o.KS.logarithm(&c), o.KF.logarithm(&c),
		phosphoricAcid(&c, &kpCoef[0]), phosphoricAcid(&c, &kpCoef[1]), phosphoricAcid(&c, &kpCoef[2]),
		silicicAcid(&c), hydrogenSulfide(&c), o.KNH4.logarithm(&c),
		solubilityProduct(&c, &calciteCoef), solubilityProduct(&c, &aragoniteCoef),
		solubility(&c), fugacity(&c), vapour(&c),
	}
	exponentials(k[:])

	ks := k[4] * c.water
	free := 1 + float64(totals.Sulfate)/(perMole*ks)
	kf := k[5] * o.KF.factor(&c, free)
	sea := free / (free + float64(totals.Fluoride)/(perMole*kf)) // from the seawater to the total scale
	fh := takahashi(&c)
	if o.K1K2 == Millero1979 {
		fh = 1 // pure water, where all scales are one
	}
	step := 1.
	switch scale {
	case totalPerWater:
		step = c.water
	case seawaterScale:
		step = sea
	case nbsScale:
		step = sea / fh
	}
	return Constants{
		Salinity: s, Temperature: t, Options: o, Totals: totals,
		K1: units.Scalar(step * k[0]), K2: units.Scalar(step * k[1]), KB: units.Scalar(k[2]), KW: units.Scalar(sea * k[3]),
		KS: units.Scalar(ks), KF: units.Scalar(kf),
		KP1: units.Scalar(sea * k[6]), KP2: units.Scalar(sea * k[7]), KP3: units.Scalar(sea * k[8]),
		KSi:  units.Scalar(sea * c.water * k[9]),
		KH2S: units.Scalar(k[10]), KNH4: units.Scalar(k[11] * o.KNH4.factor(&c, free, sea)),
		Calcite: units.Scalar(k[12]), Aragonite: units.Scalar(k[13]),
		Gas: Gas{K0: units.Scalar(k[14]), FugacityRatio: units.Scalar(k[15]), VapourPressure: units.Scalar(k[16])},
		FH:  units.Scalar(fh),
	}
}

// The limits of a question: more salt, and more heat or cold, than anyone has
// fitted. Inside, every constant is a positive number.
const (
	saltiest = 120
	coldest  = -100
	hottest  = 400
)

// possible tells whether a formula can be asked at all. NaN fails, and a
// temperature that was forgotten: constants of ice water look like any others.
func possible(s units.PracticalSalinity, t units.Temperature) bool {
	return s.Value() >= 0 && s.Value() <= saltiest && t.Celsius() >= coldest && t.Celsius() <= hottest && t.IsSet()
}

// noConstants is NaN in every constant.
func noConstants(s units.PracticalSalinity, t units.Temperature, o Options) Constants {
	nan := units.Scalar(math.NaN())
	x := units.AmountPerKilogram(nan)
	return Constants{
		Salinity: s, Temperature: t, Options: o, Totals: Totals{x, x, x, x, x},
		Gas: Gas{nan, nan, nan}, K1: nan, K2: nan, KB: nan, KW: nan, KS: nan, KF: nan,
		KP1: nan, KP2: nan, KP3: nan, KSi: nan, KH2S: nan, KNH4: nan,
		Calcite: nan, Aragonite: nan, FH: nan,
	}
}
