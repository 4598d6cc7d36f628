package control

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
)

// A sound tank of a year keeps its level, its temperature and its salinity, additives stay
// apart, and no alarm is raised: not one false alarm in 3,150,000 steps. The year is run
// with -update, half of it otherwise.
func TestYearWithoutFault(t *testing.T) {
	r := newRig(1)
	weeks := checks.Runs(46, 2)
	if *update {
		weeks = 91
	}
	for week := range weeks {
		r.goOn(checks.Step(4*24-0.5, 10))
		r.person()
		assert.Equal(t, NoAlarm, r.found, "week %d: part %d after %.1f h", week, r.foundPart, r.foundAt/3600)
	}
	r.dosed = 0 // of many containers
	r.never(t, "sound", false)
	assert.InDelta(t, 0, r.mostLitres-200, slack)
	assert.InDelta(t, 0, r.least-200, 5*0.12+slack, "the band")
	assert.InDelta(t, 35, r.lowS, swing)
	assert.InDelta(t, 35, r.highS, swing)
	assert.InDelta(t, 25, r.lowT, 0.3)
	assert.InDelta(t, 25, r.highT, 0.3)
	if weeks == 91 {
		perDay, deviation, known := r.top.Evaporation()
		assert.True(t, known)
		assert.InDelta(t, 2.8, perDay.LitresPerDay(), 0.3, "3 L, less what a fortnight ago winter took")
		assert.InDelta(t, 0.35, deviation.LitresPerDay(), 0.2)
	}
	t.Logf("%.2f years, litres %.2f to %.2f, salinity %.2f to %.2f, %.2f to %.2f °C, %d saves",
		r.seconds/365/86400, r.least, r.mostLitres, r.lowS, r.highS, r.lowT, r.highT, r.saves)
}
