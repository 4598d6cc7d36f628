package units_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// A main of 60 psi in the mountains, and what a heater of 300 W draws in a day.
func ExampleGaugePressure_Absolute() {
	const barometer = 840 * units.Hectopascal
	main := 60 * units.PSIGauge
	fmt.Printf("%.1f psi absolute, %.1f dbar of sea pressure\n", main.Absolute(barometer).PSI(), main.Sea(barometer).Decibars())
	fmt.Printf("%.1f kWh\n", (300 * units.Watt).Energy(24*time.Hour).KilowattHours())
	// Output:
	// 72.2 psi absolute, 39.6 dbar of sea pressure
	// 7.2 kWh
}

// Tap water of 12 grains per US gallon, hardness as calcium carbonate: how much charge?
func ExampleMassPerLitre_GrainsPerUSGallon() {
	hardness := 12 * units.GrainPerUSGallon
	charge := (units.AsCalciumCarbonate / 2).AmountPerLitre(hardness)
	fmt.Printf("%.0f mg/L, %.2f meq/L\n", hardness.MilligramsPerLitre(), charge.MillimolesPerLitre())
	// Output: 205 mg/L, 4.10 meq/L
}

// NIST SP 811: an atmosphere is 14.695 95 psi and 1.013 25 bar. TEOS-10: sea pressure is absolute
// pressure less 10.1325 dbar.
func TestPressuresOfThreeKinds(t *testing.T) {
	assert.InDelta(t, 14.69595, units.Atmosphere.PSI(), 5e-6)
	assert.Zero(t, units.Atmosphere.Sea())
	assert.InEpsilon(t, 10, (2013.25 * units.Hectopascal).Sea().Decibars(), 1e-12)
	assert.InEpsilon(t, 2013.25, (10 * units.Decibar).Absolute().Hectopascals(), 1e-12)
	assert.InEpsilon(t, 4, (4 * units.BarGauge).Absolute(units.Atmosphere).Gauge(units.Atmosphere).Bars(), 1e-12)
	assert.InEpsilon(t, 40, (4 * units.BarGauge).Sea(units.Atmosphere).Decibars(), 1e-12)
	assert.InEpsilon(t, -0.2, (800 * units.Hectopascal).Gauge(1000*units.Hectopascal).Bars(), 1e-12, "a vacuum")
	var p units.AirPressure
	require.NoError(t, p.UnmarshalText([]byte("74.69595 psia")))
	assert.InDelta(t, 60, p.Gauge(units.Atmosphere).PSI(), 1e-5)
}

func TestPowerByTime(t *testing.T) {
	e := (300 * units.Watt).Energy(24 * time.Hour)
	assert.InEpsilon(t, 7.2, e.KilowattHours(), 1e-12)
	assert.InEpsilon(t, 300, e.Power(24*time.Hour).Watts(), 1e-12)
	assert.InEpsilon(t, 3.6e6, (1 * units.Kilowatt).Energy(time.Hour).Joules(), 1e-12)
}

// NIST SP 811, B.8: grain per gallon (U.S.) 1.711 806 E-02 kg/m3.
func TestGrainPerGallon(t *testing.T) {
	var c units.MassPerLitre
	for _, text := range []string{"12 gpg", "12 grains/gal", "12 grain/US gal"} {
		require.NoError(t, c.UnmarshalText([]byte(text)), text)
		assert.InDelta(t, 12*17.11806, c.MilligramsPerLitre(), 12*5e-6)
		assert.InEpsilon(t, 12, c.GrainsPerUSGallon(), 1e-12)
	}
	var m units.Mass
	require.NoError(t, m.UnmarshalText([]byte("7000 grains")))
	assert.InEpsilon(t, 1, m.Pounds(), 1e-12)
	assert.ErrorContains(t, m.UnmarshalText([]byte("5 gr")), `"g" for grams or "grain"`)
}
