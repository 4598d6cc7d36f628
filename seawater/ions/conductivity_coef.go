package ions

// saltCoef holds the equivalent conductivities of solutions of one salt.
//
//	symbol   Λ = (c1 t² + c2 t + c3) - (d1 t² + d2 t + d3) √m/(1 + B √m)
//	units    S cm²/eq, t °C, m mol of salt per kg of water
//	source   [MC11], 5 to 90 °C
var saltCoef = [...]struct {
	c, d [3]float64 // rising powers of t
	b    float64
	f    float64 // m/I of the salt: 1 for 1:1, 1/3 for 1:2 and 2:1
}{
	naCl:   {[3]float64{67.03, 2.196, 0.008967}, [3]float64{44.55, 1.762, 0.00726}, 1.3, 1},
	kCl:    {[3]float64{81.17, 2.533, 0.009385}, [3]float64{44.11, 1.886, 0.0139}, 1.7, 1},
	mgCl2:  {[3]float64{68.19, 2.247, 0.009534}, [3]float64{129.8, 4.374, 0.02469}, 3.1, 1. / 3},
	caCl2:  {[3]float64{72.36, 2.224, 0.01124}, [3]float64{137.7, 3.905, 0.03918}, 3.8, 1. / 3},
	srCl2:  {[3]float64{70.76, 2.279, 0.009597}, [3]float64{60.18, 1.833, 0.01668}, 0.8, 1. / 3},
	baCl2:  {[3]float64{75.51, 2.346, 0.01038}, [3]float64{111.8, 2.237, 0.04427}, 2.4, 1. / 3},
	liCl:   {[3]float64{59.9, 1.996, 0.008784}, [3]float64{42.79, 1.198, 0.01656}, 1.0, 1},
	nH4Cl:  {[3]float64{78.03, 2.684, 0.006575}, [3]float64{30.0, 1.423, 0.006133}, 0.7, 1},
	na2SO4: {[3]float64{66.58, 2.317, 0.009501}, [3]float64{135.5, 4.509, 0.02388}, 2.2, 1. / 3},
	k2SO4:  {[3]float64{83.72, 2.872, 0.008819}, [3]float64{247.1, 9.784, 0.03799}, 5.3, 1. / 3},
	kHCO3:  {[3]float64{63.03, 2.04, 0.007807}, [3]float64{38.58, 1.577, 0.00661}, 0.9, 1},
	k2CO3:  {[3]float64{68.62, 2.726, 0.01145}, [3]float64{81.12, 5.18, 0.02438}, 2.1, 1. / 3},
	kNO3:   {[3]float64{80.33, 2.309, 0.009117}, [3]float64{49.12, 1.099, 0.00909}, 0.7, 1},
}

const (
	naCl = iota
	kCl
	mgCl2
	caCl2
	srCl2
	baCl2
	liCl
	nH4Cl
	na2SO4
	k2SO4
	kHCO3
	k2CO3
	kNO3
)

// chlorideOf names the salt that stands for each cation. Manganese, zinc and
// copper, as traces, conduct as magnesium: limiting 53.5, 52.8, 53.6 for 53.0
// S cm²/eq [CRC].
var chlorideOf = [...]struct {
	ion  Ion
	salt int
}{
	{Sodium, naCl},
	{Magnesium, mgCl2},
	{Calcium, caCl2},
	{Potassium, kCl},
	{Strontium, srCl2},
	{Lithium, liCl},
	{Barium, baCl2},
	{Ammonium, nH4Cl},
	{Manganese, mgCl2},
	{Zinc, mgCl2},
	{Copper, mgCl2},
}

// insteadOfChloride says by what the equivalent conductivity of a salt rises
// when its chloride is replaced: Λ(with) - Λ(without), both of one cation.
var insteadOfChloride = [...]struct {
	ion           Ion
	with, without int
}{
	{Sulfate, na2SO4, naCl},
	{Bicarbonate, kHCO3, kCl}, // NaHCO3 of [MC11] lies 4 % above additivity
	{Carbonate, k2CO3, kCl},   // Na2CO3 of [MC11] is molar
	{Nitrate, kNO3, kCl},
}

// limiting are the equivalent conductivities at infinite dilution and 25 °C of
// the anions that are too rare to have a salt of their own.
//
//	units    S cm²/eq
//	source   [CRC]; acetate Marcus 1997; borate and molybdate from memory
var limiting = [...]struct {
	ion   Ion
	value float64
}{
	{Bromide, 78.1},
	{Fluoride, 55.4},
	{Hydroxide, 198.0},
	{Phosphate, 57.0},
	{Borate, 35.3},
	{Iodide, 76.8},
	{Iodate, 40.5},
	{Nitrite, 71.8},
	{Molybdate, 74.5},
	{Acetate, 40.9},
}

const (
	limitingChloride = 76.31 // S cm²/eq [CRC]
	limitingPerK     = 0.02  // part by which conductivities grow per kelvin from 25 °C
	pairConductivity = 12    // S cm²/mol of MgHCO3+ at 25 °C, estimated here
)

// pairing holds the ion pairs that the solutions of one salt do not account for.
//
//	symbol   [pair] = K [cation] [anion], free ions
//	units    kg of water per mol; none where there is no pair
//	source   calibrated here: Mg-SO4 on the conductivity of seawater of S 35 at 25 °C
//	         [PSS-78], Ca-SO4 and Sr-SO4 set equal; the others on the alkalinity and
//	         carbon coefficients of [PWM11]. They are smaller than measured
//	         association constants, since Λ of Na2SO4 and K2CO3 holds a part already.
var pairing = [...][3]float64{
	pairedMagnesium: {pairedSulfate: 3.4, pairedCarbonate: 10, pairedBicarbonate: 2.5},
	pairedCalcium:   {pairedSulfate: 3.4, pairedCarbonate: 15},
	pairedStrontium: {pairedSulfate: 3.4},
}

// The rows and columns of pairing.
const (
	pairedMagnesium = iota
	pairedCalcium
	pairedStrontium
)

const (
	pairedSulfate = iota
	pairedCarbonate
	pairedBicarbonate
)

var (
	pairedCations = [...]Ion{pairedMagnesium: Magnesium, pairedCalcium: Calcium, pairedStrontium: Strontium}
	pairedAnions  = [...]Ion{pairedSulfate: Sulfate, pairedCarbonate: Carbonate, pairedBicarbonate: Bicarbonate}
)
