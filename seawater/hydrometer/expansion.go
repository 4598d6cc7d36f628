package hydrometer

// Expansion is the part by which a body grows in volume per kelvin, three times
// its expansion in length.
type Expansion float64

// What hydrometers are made of.
const (
	Glass   Expansion = 25e-6      // the conventional value for glass hydrometers [I1768]
	Acrylic Expansion = 3 * 7.5e-5 // clear plastic; 75e-6 per kelvin in length (handbook value; grades vary by a third)
)
