package weighing

import (
	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/units"
)

// Z returns the volume of pure water of the temperature t for which a balance
// shows one gram, in mL/g: the factor by which laboratories turn the reading of
// their balance into a volume.
//
//	symbol   Z = 1/ρb (ρb - ρa)/(ρw - ρa)
//	source   [I4787] with ρw of [T01] and ρa of [P08]
//	units    t °C ITS-90, result mL/g, also µL/mg
//	range    0 <= t <= 40 °C and that of Air.Density
//	outside  extrapolates (hydrometer.CheckRangeWaterDensity and Air.CheckRange tell); meaningless input: NaN
func Z(t units.Temperature, air Air) float64 {
	return Volume(units.Gram, hydrometer.WaterDensity(t), air.Density()).Millilitres()
}
