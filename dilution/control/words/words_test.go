package words_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/dilution/control"
	"example.org/wellmixed/dilution/control/words"
	"example.org/wellmixed/units"
)

// Every value has a text, of its own, and what is beyond the last has none.
func TestEveryValueHasItsText(t *testing.T) {
	for name, c := range map[string]struct {
		text func(int) string
		last int
	}{
		"quality": {func(i int) string { return words.Quality(control.Quality(i)) }, int(control.Good)},
		"reason":  {func(i int) string { return words.Reason(control.Reason(i)) }, int(control.Outvoted)},
		"code":    {func(i int) string { return words.Code(control.Code(i)) }, int(control.DosedLess)},
		"fault":   {func(i int) string { return words.Fault(control.Fault(i)) }, int(control.SaltyReservoir)},
		"setting": {func(i int) string { return words.Setting(control.Setting(i)) }, int(control.SetSalinityUncertainty)},
	} {
		seen := map[string]bool{}
		for i := range c.last + 1 {
			text := c.text(i)
			assert.False(t, seen[text] || text == "" || text == "unknown", "%s %d: %q", name, i, text)
			seen[text] = true
		}
		for _, i := range []int{c.last + 1, 255} {
			assert.Equal(t, "unknown", c.text(i), name)
		}
	}
	assert.Equal(t, "mm", words.Unit(control.NotRising))
	assert.Empty(t, words.Unit(control.SalinityLow))
	assert.Empty(t, words.Unit(200))
}

func TestTextsWithNumbers(t *testing.T) {
	r := control.Refusal{Setting: control.SetPHMost, Value: 19, Least: 0, Most: 14}
	assert.Equal(t, "highest pH: got 19, want 0 to 14", string(words.AppendRefusal(nil, r)))
	w := control.Worst{Fault: control.LevelFalls, Volume: 4.14, From: units.Practical(35), To: units.Practical(34.29), PerDay: true, Spill: 1}
	assert.Equal(t, "4.1 L a day, 35.0 to 34.3, 1.0 L of it on the floor (level reads ever lower)", string(words.AppendWorst(nil, w)))
	for want, a := range map[string]control.Alarm{
		"pump ran too long! 255, limit 240 s":   {Code: control.LongRun, Latched: true, Value: 255, Limit: 240},
		"salinity low! 33.91, limit 34":         {Code: control.SalinityLow, Latched: true, Value: 33.912, Limit: 34},
		"level doubtful":                        {Code: control.LevelDoubtful, Value: -6},
		"leak!":                                 {Code: control.Leak, Latched: true},
		"reservoir empty!":                      {Code: control.ReservoirEmpty, Latched: true, Value: math.NaN(), Limit: 0.1},
		"unknown 0":                             {Code: 63},
		"unknown":                               {Code: 200},
		"heater or cooler without effect 0.1 K": {Code: control.NoEffect, Value: 0.1},
	} {
		assert.Equal(t, want, string(words.AppendAlarm(nil, a)))
	}
	room := make([]byte, 0, 400)
	assert.Zero(t, testing.AllocsPerRun(10, func() { words.AppendWorst(words.AppendRefusal(room, r), w) }))
}
