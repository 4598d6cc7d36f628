package mix

import (
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Reads is what the instruments must show in the finished mix.
type Reads struct {
	SpecificGravity units.SpecificGravity // 25/25 °C
	Density         units.Density         // at the temperature of the mix
	Conductivity    units.Conductivity    // at the temperature of the mix, not compensated
	Conductivity25  units.Conductivity    // at 25 °C, as a compensating meter shows it

	// The practical salinity that each kind of instrument makes of it at 25 °C, the
	// refractometer one graduated for seawater. With sea salt they agree.
	Hydrometer, Meter, Refractometer units.PracticalSalinity
}

func reads(mix seawater.Sample) Reads {
	at25, err := mix.At(units.Celsius(25))
	if err != nil { // 25 °C is within the range of every salinity
		at25 = mix
	}
	return Reads{
		SpecificGravity: mix.SpecificGravity(units.SG25C()),
		Density:         mix.Density(),
		Conductivity:    mix.Conductivity(),
		Conductivity25:  at25.Conductivity(),
		Hydrometer:      mix.Practical(),
		Meter:           mix.Practical(),
		Refractometer:   mix.Practical(),
	}
}
