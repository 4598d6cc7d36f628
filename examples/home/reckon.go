package home

import (
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// AnyTank is TankWater for an answer that goes on without a salinity: where nobody
// measured one, that of the sea is taken, and the report says so.
func (h *Home) AnyTank(r *paper.Report) (tested.Water, error) {
	h.AnySalinity(r)
	return h.TankWater()
}

// AnySalinity is TankSalinity, where nobody measured one that of the sea.
func (h *Home) AnySalinity(r *paper.Report) units.PracticalSalinity {
	if h.Tank.Salinity == nil && h.Mix.Target == nil {
		sea := units.Practical(35)
		h.Tank.Salinity = &sea
		r.Hides("tank.salinity", "taken as "+h.Style.Of(sea))
	}
	s, _ := h.TankSalinity()
	return s
}
