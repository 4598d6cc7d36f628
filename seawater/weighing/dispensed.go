package weighing

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Dispensed returns the volume, and its standard uncertainty, of water of salinity
// sa and temperature t for which a balance in this air shows reading: what a pump
// has delivered, what a jug has poured. Of the uncertainties those of a vessel are
// not used and have to be zero.
//
//	symbol   V = W/ρb (ρb - ρa)/(ρ - ρa)
//	source   [I4787], ρ [R13]
//	units    result at the temperature t
func Dispensed(reading units.Mass, sa units.AbsoluteSalinity, t units.Temperature, air Air,
	u Uncertainty) (v, uncertainty units.Volume, err error) {
	err = input.Positive("reading", reading.Grams(), "g")
	if err == nil {
		err = checkWater(sa, t)
	}
	if err == nil {
		err = air.check()
	}
	if err == nil {
		err = u.check()
	}
	if err == nil && (u.Capacity != 0 || u.Expansion != 0) {
		err = input.Bad("uncertainty: capacity, expansion",
			u.Capacity.String()+", "+input.Number(float64(u.Expansion))+" 1/K", "zero: no vessel takes part")
	}
	if err != nil {
		return input.NaN[units.Volume](), input.NaN[units.Volume](), err
	}
	rho, a := teos10.DensityExact(sa, t, 0), air.Density()
	v = Volume(reading, rho, a)
	net := float64(rho - a)
	relative := root(
		float64(u.Reading/reading),
		float64(rho)/net*teos10.ThermalExpansionExact(sa, t, 0)*u.Temperature.CelsiusDegrees(),
		(1/net-1/(steel-float64(a)))*float64(u.Air))
	uncertainty = v * units.Volume(relative)
	if err := input.NotNegative("uncertainty", (v + uncertainty).Litres(), "L"); err != nil {
		return input.NaN[units.Volume](), input.NaN[units.Volume](), err
	}
	return v, uncertainty, nil
}
