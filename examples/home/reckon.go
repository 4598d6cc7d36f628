package home

import (
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// AnyTank is TankWater for an answer that goes on without a salinity: where nobody
// measured one, that of the sea is taken, and the report says so.
func (h *Home) AnyTank(r *paper.Report) (tested.Water, error) {
	if h.Tank.Salinity == nil && h.Mix.Target == nil {
		sea := units.Practical(35)
		h.Tank.Salinity = &sea
		r.Hides("tank.salinity", "taken as "+sea.String())
	}
	return h.TankWater()
}
