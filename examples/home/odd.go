package home

import (
	"fmt"
	"time"

	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// odd asks about what can hardly be meant: a tank may be so, but a slip is likelier. The
// bounds are far outside what keepers have (common practice).
func (h *Home) odd() []string {
	var list []string
	ask := func(odd bool, key, text string) {
		if odd && len(list) < 4 {
			list = append(list, fmt.Sprintf("Is it right that %s is %s?", key, text))
		}
	}
	t := h.Tank
	v := t.Volume.Litres()
	ask(v > 0 && (v < 2 || v > 100_000), "tank.volume", h.Style.Of(t.Volume))
	if s := t.Salinity; s != nil {
		ask(s.Value() < 5, "tank.salinity", s.String())
	}
	for _, l := range t.Levels {
		x, _ := l.Counted()
		most, known := hardly[l.Parameter()]
		ask(known && x > most, "tank."+string(l.Parameter()), l.String())
	}
	for _, d := range []struct {
		key   string
		share units.Fraction
	}{{"doubts.tank", h.Doubts.Tank}, {"doubts.swap", h.Doubts.Swap}, {"doubts.evaporation", h.Doubts.Evaporation}} {
		ask(d.share.Percent() > 50, d.key, d.share.String())
	}
	every := h.Change.Every
	ask(every > 0 && every < 2*time.Hour, "change.every", units.Duration(every).String())
	daily := h.Routine.Evaporation.Volume(24 * time.Hour)
	ask(v > 0 && daily > t.Volume/5, "evaporation", h.Style.Of(daily)+" a day, of a tank of "+h.Style.Of(t.Volume))
	ask(v > 0 && h.Change.Swap.Of(t.Volume) > t.Volume, "change.swap", h.Style.Of(h.Change.Swap.Of(t.Volume)))
	return list
}

// hardly are levels that hardly any tank has, as they are counted by the trade (common
// practice): dKH and mg/L.
var hardly = map[tested.Parameter]float64{
	tested.Alkalinity: 30, tested.Calcium: 1000, tested.Magnesium: 3000, tested.Potassium: 1000, tested.Nitrate: 500,
	tested.Phosphate: 20, tested.Ammonia: 20,
}
