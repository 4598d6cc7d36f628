package ions

// refractionCoef holds the molar refractions of the species in water.
//
//	units    cm³/mol, sodium D line, index relative to air, 20 °C; only sums
//	         without charge mean anything
//	source   least squares, computed here, over the salts of [CRC] at 3 percent, each
//	         R = M/w (L(n)/ρ - (1 - w) L(1.33299)/0.9982067); sodium fixed at the value
//	         of Tang 1997 (from memory of a second source). They add up to the
//	         salts within 0.13, for MgCl2 and MgSO4 0.22.
var refractionCoef = [count]float64{
	Sodium:        0.8600000000000003,
	Potassium:     2.9599904658389953,
	Magnesium:     0.07913129999302981,
	Calcium:       2.0894881298607038,
	Strontium:     2.8508282826858293,
	Barium:        6.046362085190361,
	Lithium:       0.3064978158333726,
	Ammonium:      4.915438442253308,
	Chloride:      8.401861637558927,
	Bromide:       11.970073038542004,
	Iodide:        18.432293306440727,
	Nitrate:       10.295587334996403,
	Sulfate:       13.620615202067203,
	Bicarbonate:   10.614743961858645,
	Carbonate:     10.944236915885845,
	Hydroxide:     4.506296084326114,
	Phosphate:     13.91886416148429,
	Fluoride:      4.506296084326114,   // rough: as hydroxide
	Borate:        10.614743961858645,  // rough: as bicarbonate
	BoricAcid:     12.0,                // rough, from memory
	CarbonDioxide: 9.0,                 // rough, from memory
	Silicate:      15.0,                // rough, from memory
	Manganese:     0.07913129999302981, // these traces rough: as magnesium
	Zinc:          0.07913129999302981,
	Copper:        0.07913129999302981,
	Iodate:        10.295587334996403, // as nitrate
	Nitrite:       10.295587334996403,
	Molybdate:     13.620615202067203, // as sulfate
	Acetate:       10.614743961858645, // as bicarbonate
}
