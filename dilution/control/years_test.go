package control

import (
	"testing"
	"time"
)

// A sound tank of three years keeps its level, its temperature and its salinity, and no
// alarm is raised.
func TestYearsWithoutFault(t *testing.T) {
	begun := time.Now()
	r := newRig(1)
	for week := range 365 / 5 {
		r.goOn(4*24 - 0.5)
		r.person()
		if r.found != NoAlarm {
			t.Errorf("week %d: alarm %d of part %d at %v %+v", week, r.found, r.foundPart, r.foundAt/3600, r.top.alarms.list[0])
			break
		}
	}
	m, u, ok := r.top.learned.perDay()
	t.Logf("%v; litres %.2f to %.2f, S %.2f to %.2f, T %.2f to %.2f; evap %.2f±%.2f %v; saves %d; dosed %.4f most pumped %.2f nearest %.0f",
		time.Since(begun), r.least, r.mostLitres, r.lowS, r.highS, r.lowT, r.highT, m, u, ok, r.saves, r.mostDosed, r.mostPumped, r.nearest)
}
