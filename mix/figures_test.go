package mix_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// The figures of this package that a keeper acts on, each written here a second time.
func TestFiguresOfABatch(t *testing.T) {
	plan := func(target, celsius float64, scoop mix.Scoop, bulk units.Density) (mix.BatchPlan, error) {
		return mix.Plan(mix.Batch{
			Target: units.Practical(target), Temperature: units.Celsius(celsius), WaterTemperature: units.Celsius(celsius),
			Amount: mix.FinalVolume(10), Salt: mix.Salt{SeaSalt: units.Percent(95), BulkDensity: bulk}, Scoop: scoop,
		})
	}
	warned := func(p mix.BatchPlan, id string) bool {
		for _, c := range p.Cautions {
			if c.ID == id {
				return true
			}
		}
		return false
	}
	// A specific gravity in the place of a salinity lies between 1 and 1.1.
	almost, err := plan(1.026, 25, mix.Scoop{}, 0)
	require.NoError(t, err)
	little, err := plan(1.2, 25, mix.Scoop{}, 0)
	require.NoError(t, err)
	assert.Len(t, almost.Cautions, len(little.Cautions)+1)
	assert.True(t, warned(almost, "almost-fresh"))
	// PSS-78 was measured up to 35 °C (UNESCO 1981).
	said := func(celsius float64) bool {
		p, err := plan(35, celsius, mix.Scoop{}, 0)
		require.NoError(t, err)
		return strings.Contains(strings.Join(p.Assumptions, " "), "above 35 °C is extrapolated")
	}
	assert.False(t, said(34.9))
	assert.True(t, said(35.1))
	// Solid sodium chloride weighs 2165 kg/m³ (CRC Handbook): nothing heavier is scooped.
	scoop := mix.Scoop{Volume: 0.25}
	_, err = plan(35, 25, scoop, 2199)
	assert.NoError(t, err)
	_, err = plan(35, 25, scoop, 2201)
	assert.ErrorContains(t, err, "salt.bulkDensity")
	_, err = plan(35, 25, scoop, 299)
	assert.ErrorContains(t, err, "salt.bulkDensity")
	// What a compensating meter shows is the conductivity at 25 °C, whatever the mix has:
	// 53.09 mS/cm at 35 (PSS-78, 42.914 mS/cm at 15 °C by the ratio r at 25 °C, 1.2371).
	for _, celsius := range []float64{18, 25, 30} {
		p, err := plan(35, celsius, mix.Scoop{}, 0)
		require.NoError(t, err)
		assert.InDelta(t, 53.09, p.Reads.Conductivity25.MillisiemensPerCentimetre(), 0.02, celsius)
	}
}

// Nobody is where a heater would have to work below -60 or above 60 °C.
func TestRoomsOfHeaters(t *testing.T) {
	cool, err := seawater.FromPractical(units.Practical(35), units.Celsius(20))
	require.NoError(t, err)
	heat := func(room float64) error {
		_, err := mix.Heat(mix.Heating{
			Water: cool.OfVolume(40), To: units.Celsius(25), Heater: 3000, Loss: 5, Room: units.Celsius(room),
		})
		return err
	}
	assert.NoError(t, heat(59))
	assert.NoError(t, heat(-59))
	assert.ErrorContains(t, heat(61), "room")
	assert.ErrorContains(t, heat(-61), "room")
}
