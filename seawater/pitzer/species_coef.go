package pitzer

// reactions: how the species that are not themselves counted come from those that are,
// Σ ν of them plus hydrogen ions and water, and the constant of it.
//
//	source   [PHREEQC]
//
// The constants of the borates have no heat of reaction in the source: they keep their
// value of 25 °C.
var reactions = [...]reaction{
	{gives: Hydroxide, of: [2]share{}, hydrogen: -1, water: 1, k: constant{a: [6]float64{293.29227, 0.1360833, -10576.913, -123.73158, 0, -6.996455e-05}}},
	{gives: Bicarbonate, of: [2]share{{Carbonate, 1}}, hydrogen: 1, water: 0, k: constant{a: [6]float64{107.8975, 0.03252849, -5151.79, -38.92561, 563713.9}}},
	{gives: CarbonDioxide, of: [2]share{{Carbonate, 1}}, hydrogen: 2, water: -1, k: constant{a: [6]float64{464.1965, 0.09344813, -26986.16, -165.75951, 2248628.9}}},
	{gives: Bisulfate, of: [2]share{{Sulfate, 1}}, hydrogen: 1, water: 0, k: constant{a: [6]float64{-56.889, 0.006473, 2307.9, 19.8858}}},
	{gives: Borate, of: [2]share{{BoricAcid, 1}}, hydrogen: -1, water: 1, k: constant{at25: -9.239}},
	{gives: Triborate, of: [2]share{{BoricAcid, 3}}, hydrogen: -1, water: -2, k: constant{at25: -7.528}},
	{gives: Tetraborate, of: [2]share{{BoricAcid, 4}}, hydrogen: -2, water: -3, k: constant{at25: -16.134}},
	{gives: CalciumBorate, of: [2]share{{Calcium, 1}, {BoricAcid, 1}}, hydrogen: -1, water: 1, k: constant{at25: -7.589}},
	{gives: MagnesiumBorate, of: [2]share{{Magnesium, 1}, {BoricAcid, 1}}, hydrogen: -1, water: 1, k: constant{at25: -7.84}},
	{gives: MagnesiumHydroxide, of: [2]share{{Magnesium, 1}}, hydrogen: -1, water: 1, k: constant{at25: -11.809, heat: 64.513096}},
	{gives: MagnesiumCarbonate, of: [2]share{{Magnesium, 1}, {Carbonate, 1}}, hydrogen: 0, water: 0, k: constant{a: [6]float64{-32.225, 0, 1093.486, 12.72433}}},
	{gives: TrihydrogenSilicate, of: [2]share{{SilicicAcid, 1}}, hydrogen: -1, water: 0, k: constant{a: [6]float64{-302.3724, -0.050698, 15669.69, 108.18466, -1119669}}},
	{gives: DihydrogenSilicate, of: [2]share{{SilicicAcid, 1}}, hydrogen: -2, water: 0, k: constant{a: [6]float64{-294.0184, -0.07265, 11204.49, 108.18466, -1119669}}},
}
