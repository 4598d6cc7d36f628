package seawater

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Melt returns what becomes of a water in which ice of pure water melts, ice that had
// a temperature such as the -18 °C of a freezer. Mass adds up, salt stays, and heat
// adds up as enthalpy at the pressure of the air; heat from the room and the vessel is
// not in it. If there is more ice than the water can melt, the error says how much it can.
func Melt(water Portion, ice units.Mass, iceTemperature units.Temperature) (Portion, error) {
	err := input.Join(
		input.Set("water.temperature", water.temperature), input.Positive("water", float64(water.Mass), "g"),
		input.Positive("water.density", float64(water.Density()), "kg/m³"),
		input.NotNegative("ice", float64(ice), "g"),
		input.Set("iceTemperature", iceTemperature),
		input.As("iceTemperature", teos10.CheckRangeIce(iceTemperature, 0)))
	if err != nil {
		return Blend(invalid().OfMass(-1)), err
	}
	if ice == 0 {
		return water, nil
	}
	melted := water.melt(ice, iceTemperature)
	if !(float64(melted.Mass) <= math.MaxFloat64 && melted.temperature.Celsius() >= melted.FreezingPoint().Celsius()) {
		return Blend(invalid().OfMass(-1)), input.Bad("ice", ice.String(), "at most the "+
			input.Fixed(water.mostIce(iceTemperature).Kilograms(), 3)+" kg that this water can melt")
	}
	return melted, nil
}

// melt is the balance of Melt, even if it ends below the freezing point.
func (p Portion) melt(ice units.Mass, iceTemperature units.Temperature) Portion {
	all := p.Mass + ice
	share := float64(p.Mass / all) // of the water in all
	heat := share*p.heat() + (1-share)*teos10.IceEnthalpy(iceTemperature, 0)/conservativeHeat
	return Portion{ofHeat(units.Absolute(share*p.salinity.GramsPerKilogram()), heat), all}
}

// mostIce returns the ice that brings a water to the freezing point that it then has.
func (p Portion) mostIce(iceTemperature units.Temperature) units.Mass {
	above := func(x float64) float64 { // per mass of the water
		melted := p.OfMass(1).melt(units.Mass(x), iceTemperature)
		return melted.temperature.Celsius() - melted.FreezingPoint().Celsius()
	}
	// Enough to cool it to -3 °C or so, wherever it starts.
	x, ok := solve.Brent(above, 0, (p.temperature.Celsius()+5)*4200/330e3, 1e-9)
	if !ok {
		return 0
	}
	return units.Mass(x) * p.Mass
}
