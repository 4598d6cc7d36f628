package carbonate

import (
	"math"

	"example.org/wellmixed/units"
)

// calciteCoef and aragoniteCoef [MUC]:
//
//	log Ksp = a + b T + c/T + d log T + (e + f T + g/T) S^(1/2) + h S + i S^(3/2)
//
// in (mol/kg)².
var (
	calciteCoef = [...]float64{
		-171.9065, -0.077993, 2839.319, 71.595,
		-0.77712, 0.0028426, 178.34, -0.07711, 0.0041249,
	}
	aragoniteCoef = [...]float64{
		-171.945, -0.077993, 2903.293, 71.595,
		-0.068393, 0.0017276, 88.135, -0.10018, 0.0059415,
	}
)

// solubilityProduct returns ln Ksp of the one or the other.
func solubilityProduct(c *conditions, a *[9]float64) float64 {
	return math.Ln10*(a[0]+a[1]*c.k+a[2]*c.inverse+
		c.root*(a[4]+a[5]*c.k+a[6]*c.inverse+a[8]*c.s)+a[7]*c.s) + a[3]*c.ln
}

// Band is a saturation state on which the sources disagree: the lowest and the
// highest that they give, and the likeliest.
type Band struct{ Low, Likely, High units.Scalar }

// The stoichiometric solubility product of brucite, [Mg][OH]² with total
// magnesium and [OH] = KW/[H] on the total scale, in (mol/kg)³. Computed with
// PHREEQC 3 and its Pitzer database pitzer.dat (USGS), at the point where
// seawater becomes saturated, and with KW of [M95].
const (
	bruciteAt35And20 = 6.02148261996961e-10
	bruciteAt35And25 = 7.168570391535262e-10
	bruciteAt35And30 = 8.387122808734496e-10
	bruciteAt30And25 = 5.989686708582589e-10
	bruciteAt40And25 = 8.401634298248969e-10
)

// The pH at which seawater of salinity 35 and 25 °C becomes saturated with
// brucite, less that by pitzer.dat, by other databases of PHREEQC 3: sit.dat is
// the highest and llnl.dat the lowest of five. And the same for the product
// that was measured in 1938, 5e-11 (mol/L)³ at 20 °C (Wattenberg and
// Timmermann 1938 by [SJF] table 42), which is lower still; 1.0248 kg/L is the
// density of that water.
const (
	bruciteSIT  = 9.389561391428737 - 9.286745355398722
	brucite1938 = 5e-11 / (1.0248 * 1.0248 * 1.0248)
)

// bruciteProduct returns the product by pitzer.dat: ln Ksp as a parabola of t
// through the three points at salinity 35, and one of S through those at 25 °C.
func bruciteProduct(s, t float64) float64 {
	warm, cold := math.Log(bruciteAt35And30/bruciteAt35And25), math.Log(bruciteAt35And20/bruciteAt35And25)
	salt, fresh := math.Log(bruciteAt40And25/bruciteAt35And25), math.Log(bruciteAt30And25/bruciteAt35And25)
	x, y := (t-25)/5, (s-35)/5
	return bruciteAt35And25 * math.Exp(x*((warm-cold)+x*(warm+cold))/2+y*((salt-fresh)+y*(salt+fresh))/2)
}

// Brucite returns the saturation state of brucite, Mg(OH)2, which lime water
// and other strong bases throw out of seawater.
//
//	symbol   Omega = [Mg][OH]²/Ksp
//	source   Likely: Pitzer model (PHREEQC 3, pitzer.dat); Low: sit.dat, High: product
//	         measured in 1938 [SJF]
//	range    30 <= S <= 40 at 25 °C, 20 <= t <= 30 °C at S = 35
//	outside  extrapolates
//
// No stoichiometric product has been measured since 1938, and the sources
// differ by a factor of 15, half a unit of pH and more. A fresh precipitate is
// more soluble than the mineral, so nothing may show for a while above 1.
func (s *System) Brucite() Band {
	oh := float64(s.Constants.KW) / s.h
	product := float64(s.Constants.Totals.Magnesium) / perMole * oh * oh
	likely := product / bruciteProduct(s.Constants.Salinity.Value(), s.Constants.Temperature.Celsius())
	return Band{
		Low:    units.Scalar(likely * math.Exp(-2*bruciteSIT*math.Ln10)),
		Likely: units.Scalar(likely),
		High:   units.Scalar(likely * (bruciteAt35And20 / brucite1938)),
	}
}

// BruciteOnset returns the pH at which the water becomes saturated with
// brucite: the lowest, the likeliest and the highest that the sources give. Of
// seawater of salinity 35 at 25 °C they are 8.7, 9.3 and 9.4; 9.0 is a sensible
// level to warn at.
func (s *System) BruciteOnset() (low, likely, high TotalPH) {
	b := s.Brucite()
	at := func(omega float64) TotalPH { return PHTotal(s.PH().value - math.Log10(omega)/2) }
	return at(float64(b.High)), at(float64(b.Likely)), at(float64(b.Low))
}

// The saturation index log Omega of gypsum in natural seawater of salinity 35
// and 25 °C, by two databases of PHREEQC 3.
const (
	gypsumPitzer = -0.639
	gypsumMinteq = -0.485
)

// gypsumCoef: log K = A1 + A2 T + A3/T + A4 log T of CaSO4·2H2O in pitzer.dat.
var gypsumCoef = [...]float64{82.381, 0, -3804.5, -29.9952}

// Gypsum returns the saturation state of gypsum, which a concentrated calcium
// and sulfate solution may reach and seawater does not.
//
//	symbol   Omega = [Ca][SO4]/K*, K* = [Ca][SO4]/10^SI of seawater at S = 35, 25 °C
//	         times K(t)/K(25)
//	source   SI: PHREEQC 3, Low and Likely by pitzer.dat, High by minteq.v4.dat; K(t): pitzer.dat
//	range    S = 35
//	outside  activity coefficients stay those of S = 35: a rough guide, too low a
//	         saturation state in dilute water and too high a one in strong solutions
func (s *System) Gypsum() Band {
	c := &s.Constants
	t := c.Temperature.Kelvin()
	a := &gypsumCoef
	warmth := math.Pow(10, a[1]*(t-298.15)+a[2]*(1/t-1/298.15)+a[3]*math.Log10(t/298.15))
	natural := (&Options{}).totals(35)
	ratio := float64(c.Totals.Calcium) * float64(c.Totals.Sulfate) /
		(float64(natural.Calcium) * float64(natural.Sulfate)) / warmth
	ratio = s.solved(ratio)
	low := ratio * math.Pow(10, gypsumPitzer)
	return Band{Low: units.Scalar(low), Likely: units.Scalar(low), High: units.Scalar(ratio * math.Pow(10, gypsumMinteq))}
}

// calciumCarbonateMass is the molar mass of CaCO3 in g/mol (IUPAC 2021: Ca
// 40.078, C 12.011, O 15.999).
const calciumCarbonateMass = 100.086

// CalciumCarbonate returns the content that a mass of calcium carbonate makes
// in a mass of water: what a growing coral takes from the tank. No water: NaN.
func CalciumCarbonate(solid, water units.Mass) units.AmountPerKilogram {
	if !(water > 0 && water <= math.MaxFloat64) {
		return units.AmountPerKilogram(math.NaN())
	}
	return units.AmountPerKilogram(solid.Grams()/calciumCarbonateMass/water.Kilograms()) * units.MolePerKilogram
}
