package home

import (
	"fmt"

	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// AnyTank is TankWater for an answer that goes on without salinity and temperature: where
// nobody measured them, others are taken, and the report says so.
func (h *Home) AnyTank(r *paper.Report) (tested.Water, error) {
	h.AnySalinity(r)
	h.AnyTemperature(r)
	return h.TankWater()
}

// AnySalinity is TankSalinity, and where nothing tells it that of the sea.
func (h *Home) AnySalinity(r *paper.Report) units.PracticalSalinity {
	switch {
	case h.Tank.Salinity != nil:
	case h.Mix.Target != nil:
		r.Hides("tank.salinity", "taken as that of the mix, "+h.Style.Of(*h.Mix.Target))
	default:
		sea := units.Practical(35)
		h.Tank.Salinity = &sea
		r.Hides("tank.salinity", "taken as "+h.Style.Of(sea))
	}
	s, _ := h.TankSalinity()
	return s
}

// AnyTemperature is Temperature, and the report says so where nobody measured it.
func (h *Home) AnyTemperature(r *paper.Report) units.Temperature {
	t := h.Temperature()
	switch {
	case h.Tank.Temperature.IsSet():
	case h.Mix.Temperature.IsSet():
		r.Hides("tank.temperature", "taken as that of the mix, "+h.Style.Of(t))
	default:
		r.Hides("tank.temperature", "taken as "+h.Style.Of(t))
	}
	return t
}

// Outdoors is the CO2 of outdoor air, to 10 ppm: its mean over the year 2023 was 419 ppm
// (NOAA Global Monitoring Laboratory, from memory).
const Outdoors carbonate.XCO2 = 420

// AnyAir is the CO2 of the air that the tank is at rest with, for dosing. Where neither the
// air nor a pH was measured, that of outdoors is taken, and the report says so.
func (h *Home) AnyAir(r *paper.Report) carbonate.XCO2 {
	if h.Air > 0 || h.Tank.PH.Given() {
		return h.Air
	}
	h.Note("tank.ph", fmt.Sprintf("not said, nor room.co2: the tank is taken as aired with outdoor air, %.0f "+
		"ppm of CO2", Outdoors.PPM()))
	r.Hides("tank.ph", "by how much a dose of alkalinity may move it, but for a guess from outdoor air")
	return Outdoors
}
