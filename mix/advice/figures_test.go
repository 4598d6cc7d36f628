package advice_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

// Every figure against a second table, written down number by number: a slip of
// the pen in either is seen. Where no source is named it is common practice.
func TestFigures(t *testing.T) {
	mgL := func(m units.MassPerLitre) float64 { return m.MilligramsPerLitre() }
	for _, c := range []struct {
		figure    string
		got, want float64
		source    string
	}{
		{"temperature in an hour, K", float64(advice.TemperaturePerHour), 1, ""},
		{"temperature in a day, K", float64(advice.TemperaturePerDay), 2, ""},
		{"pH in an hour", advice.PHPerHour, 0.2, ""},
		{"pH in a day", advice.PHPerDay, 0.3, ""},
		{"salinity in a day", advice.SalinityPerDay, 1, ""},
		{"lasting salinity", advice.LastingSalinity, 0.5, ""},
		{"new water in a day", advice.SharePerDay, 0.5, ""},
		{"alkalinity in a day, dKH", advice.DKHPerDay, 1, ""},
		{"calcium in a day, mg/L", mgL(advice.CalciumPerDay), 20, ""},
		{"magnesium in a day, mg/L", mgL(advice.MagnesiumPerDay), 50, ""},
		{"potassium in a day, mg/L", mgL(advice.PotassiumPerDay), 10, ""},
		{"strontium in a day, mg/L", mgL(advice.StrontiumPerDay), 1, ""},
		{"bromide in a day, mg/L", mgL(advice.BromidePerDay), 5, ""},
		{"boron in a day, mg/L", mgL(advice.BoronPerDay), 0.5, ""},
		{"fluoride in a day, mg/L", mgL(advice.FluoridePerDay), 0.2, ""},
		{"iodine in a day, mg/L", mgL(advice.IodinePerDay), 0.01, ""},
		{"iron in a day, mg/L", mgL(advice.IronPerDay), 0.002, ""},
		{"nitrate in a day, mg/L NO3", mgL(advice.NitratePerDay), 2, ""},
		{"phosphate in a day, mg/L PO4", mgL(advice.PhosphatePerDay), 0.02, ""},
		{"free ammonia, mg/L NH3", mgL(advice.FreeAmmonia), 0.02, ""},
		{"lowest salinity", advice.LowestReefSalinity, 30, ""},
		{"highest salinity", advice.HighestReefSalinity, 38, ""},
		{"lowest pH", advice.LowestReefPH, 7, ""},
		{"low pH", advice.LowPH, 7.8, ""},
		{"highest pH", advice.HighestReefPH, 9, ""},
		{"brucite, pH", advice.BrucitePH, 9, "carbonate.System.BruciteOnset"},
		{"aragonite, sustained", advice.SustainedAragonite, 5, "Moras et al. 2022, from memory"},
		{"aragonite, spontaneous", advice.SpontaneousAragonite, 12.3, "Marion et al. 2009, from memory"},
		{"most of the sea", advice.MostOfTheSea, 1.5, ""},
		{"most alkalinity of the sea", advice.MostAlkalinityOfTheSea, 2, ""},
		{"most nitrate, mg/L NO3", mgL(advice.MostNitrate), 50, ""},
		{"most phosphate, mg/L PO4", mgL(advice.MostPhosphate), 0.5, ""},
		{"most iodine, mg/L", mgL(advice.MostIodine), 0.09, ""},
		{"most iron, mg/L", mgL(advice.MostIron), 0.01, ""},
		{"scalding, °C", advice.ScaldingCelsius, 48, "Moritz and Henriques 1947, from memory"},
		{"warm mix, °C", advice.WarmMixCelsius, 40, ""},
		{"lift, kg", units.Mass(advice.LiftLimit).Kilograms(), 23, "NIOSH 94-110"},
	} {
		assert.InDelta(t, c.want, c.got, 1e-12*c.want, "%s (%s)", c.figure, c.source)
	}
}
