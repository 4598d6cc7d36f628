package carbonate

import (
	"math"

	"example.org/wellmixed/units"
)

// mostMagnesium is the share of magnesium up to which the two series were measured.
const mostMagnesium = 0.25

// uncleanedCoef and cleanedCoef: log IAP = Σ ci X^i at which biogenic magnesian calcite neither
// grows nor dissolves, X in mol % of MgCO3: curves through the series of [PM74],
// of skeletons as they were, and of [BMB], of skeletons that were cleaned and annealed; read
// second-hand.
var (
	uncleanedCoef = [...]float64{-8.45022726020772, -0.0363899891218405, 0.0107168547236804, -0.000307011230719308, 0, 0}
	cleanedCoef   = [...]float64{
		-8.34594750694325, -0.0492826022095371, 0.0125595815829352, -0.0010724925092009,
		4.33859823603212e-05, -6.69727692992637e-07,
	}
)

// Total activity coefficients in seawater of salinity 35 at 25 °C [MP98].
const (
	activityOfCarbonate = 0.037
	activityOfCalcium   = 0.191
	activityOfMagnesium = 0.2029
)

// Band is a saturation state on which the sources disagree: the lowest and the
// highest that they give, and the likeliest.
type Band struct{ Low, Likely, High units.Scalar }

// MagnesianCalcite returns the saturation state of calcite with a share of magnesium in the
// place of calcium, of which coralline algae, urchins and some sponges build: Omega below 1
// dissolves it, and of 15 mol % and more it does so before aragonite.
//
//	symbol   Omega = aMg^x aCa^(1-x) aCO3/IAP(x)
//	source   Low: [PM74]; Likely and High: [BMB] and Bischoff et al. 1993; curves through their
//	         series, read second-hand; activities [MP98]
//	range    0 <= x <= 0.25; S = 35, 25 °C
//	outside  x beyond it, NaN: NaN; activity coefficients stay those of S = 35 at 25 °C: a rough
//	         guide
//
// The two series lie a factor of 4 apart at 15 mol %: what was measured depends on how the
// skeletons were cleaned, and none of it is an equilibrium in the strict sense.
func (s *System) MagnesianCalcite(x units.Fraction) Band {
	share := x.Value()
	nan := units.Scalar(math.NaN())
	if !(share >= 0 && share <= mostMagnesium) {
		return Band{nan, nan, nan}
	}
	magnesium := activityOfMagnesium * float64(s.Constants.Totals.Magnesium) / perMole
	calcium := activityOfCalcium * float64(s.Constants.Totals.Calcium) / perMole
	carbonate := activityOfCarbonate * float64(s.Carbonate()) / perMole
	ions := math.Pow(magnesium, share) * math.Pow(calcium, 1-share) * carbonate
	of := func(c *[6]float64) units.Scalar {
		p := 100 * share
		return units.Scalar(ions / math.Pow(10, c[0]+p*(c[1]+p*(c[2]+p*(c[3]+p*(c[4]+p*c[5]))))))
	}
	uncleaned, cleaned := of(&uncleanedCoef), of(&cleanedCoef)
	return Band{Low: min(uncleaned, cleaned), Likely: cleaned, High: max(uncleaned, cleaned)}
}
