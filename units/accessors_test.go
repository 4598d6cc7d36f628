package units_test

import (
	"encoding"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// What a quantity is in each of its units, from the size of the unit in the base unit as
// NIST SP 811 (2008) defines it, written out a second time and not by the constants.
func TestEachUnitIsRead(t *testing.T) {
	for _, r := range []struct {
		name string
		got  float64 // one of the unit, given in the base unit
	}{
		{"L", units.Volume(1).Litres()}, {"mL", units.Volume(0.001).Millilitres()}, {"m³", units.Volume(1000).CubicMetres()},
		{"US gal", units.Volume(3.785411784).USGallons()}, {"US cup", units.Volume(0.2365882365).USCups()},
		{"US fl oz", units.Volume(0.0295735295625).USFluidOunces()}, {"imp gal", units.Volume(4.54609).ImperialGallons()},
		{"g", units.Mass(1).Grams()}, {"mg", units.Mass(0.001).Milligrams()}, {"kg", units.Mass(1000).Kilograms()},
		{"lb", units.Mass(453.59237).Pounds()}, {"oz", units.Mass(28.349523125).Ounces()},
		{"mm", units.Length(1).Millimetres()}, {"cm", units.Length(10).Centimetres()}, {"m", units.Length(1000).Metres()},
		{"in", units.Length(25.4).Inches()}, {"ft", units.Length(304.8).Feet()},
		{"m²", units.Area(1).SquareMetres()},
		{"hPa", units.AirPressure(1).Hectopascals()}, {"mmHg", units.AirPressure(1.33322387415).MillimetresOfMercury()},
		{"bar gauge", units.GaugePressure(1).Bars()}, {"kPa gauge", units.GaugePressure(0.01).Kilopascals()}, {"psi", units.GaugePressure(0.0689475729316836).PSI()},
		{"dbar", units.SeaPressure(1).Decibars()}, {"bar", units.SeaPressure(10).Bars()}, {"kPa", units.SeaPressure(0.1).Kilopascals()},
		{"L/h", units.Flow(1).LitresPerHour()}, {"L/d", units.Flow(1. / 24).LitresPerDay()}, {"L/min", units.Flow(60).LitresPerMinute()},
		{"mL/min", units.Flow(0.06).MillilitresPerMinute()}, {"US gal/d", units.Flow(3.785411784 / 24).USGallonsPerDay()}, {"US gal/h", units.Flow(3.785411784).USGallonsPerHour()},
		{"meq/L", units.MilliequivalentsPerLitre(1).MilliequivalentsPerLitre()},
		{"µmol/kg", units.AmountPerKilogram(1).MicromolesPerKilogram()}, {"mmol/kg", units.AmountPerKilogram(1e3).MillimolesPerKilogram()}, {"mol/kg", units.AmountPerKilogram(1e6).MolesPerKilogram()},
		{"mmol/L", units.AmountPerLitre(1).MillimolesPerLitre()}, {"µmol/L", units.AmountPerLitre(1e-3).MicromolesPerLitre()},
		{"mS/cm", units.Conductivity(1).MillisiemensPerCentimetre()}, {"µS/cm", units.Conductivity(1e-3).MicrosiemensPerCentimetre()}, {"S/m", units.Conductivity(10).SiemensPerMetre()},
		{"MΩ·cm", units.Resistivity(1).MegohmCentimetres()}, {"kΩ·cm", units.Resistivity(1e-3).KilohmCentimetres()},
		{"kg/m³", units.Density(1).KilogramsPerCubicMetre()}, {"g/mL", units.Density(1000).GramsPerMillilitre()},
		{"J", units.Energy(1).Joules()}, {"kWh", units.Energy(3.6e6).KilowattHours()},
		{"W", units.Power(1).Watts()}, {"kW", units.Power(1000).Kilowatts()}, {"%", units.Share(0.01).Percent()},
		{"mg/kg", units.MassPerKilogram(1).MilligramsPerKilogram()}, {"µg/kg", units.MassPerKilogram(1e-3).MicrogramsPerKilogram()}, {"g/kg", units.MassPerKilogram(1e3).GramsPerKilogram()},
		{"mg/L", units.MassPerLitre(1).MilligramsPerLitre()}, {"µg/L", units.MassPerLitre(1e-3).MicrogramsPerLitre()}, {"g/L", units.MassPerLitre(1e3).GramsPerLitre()},
		{"g/mol", units.MolarMass(1).GramsPerMole()}, {"J/(kg K)", units.SpecificHeat(1).JoulesPerKilogramKelvin()},
		{"m/s", units.Speed(1).MetresPerSecond()}, {"W/K", units.ThermalConductance(1).WattsPerKelvin()},
		{"mV", units.Voltage(1).Millivolts()}, {"V", units.Voltage(1000).Volts()},
		{"K", units.TemperatureDifference(1).CelsiusDegrees()}, {"°F difference", units.TemperatureDifference(5. / 9).FahrenheitDegrees()},
		{"2 m by 0.5 m", units.Rectangle(2000, 500).SquareMetres()},
	} {
		assert.InEpsilon(t, 1, r.got, 1e-11, r.name)
	}
	assert.Equal(t, units.Money{Amount: 7.5, Currency: "EUR"}, units.Money{Amount: 2.5, Currency: "EUR"}.Times(3))
	assert.EqualValues(t, 0.7, units.TDSReading(350, 0.7).Scale())
	// The pairs that hydrometers are marked with, ASTM E100.
	for pair, want := range map[units.GravityPair][2]float64{
		units.SG20C(): {20, 20}, units.SG25C(): {25, 25}, units.SG20C4C(): {20, 4}, units.SG60F(): {(60 - 32) / 1.8, (60 - 32) / 1.8},
	} {
		assert.InDelta(t, want[0], pair.Liquid.Celsius(), 1e-12)
		assert.InDelta(t, want[1], pair.Water.Celsius(), 1e-12)
		assert.Equal(t, pair, units.Gravity(1.02, pair).Pair())
	}
}

// An infinite quantity is not written, and an unknown one, NaN, is written as nothing: a
// reader would take either for a number. What was written as nothing is read without an
// error, as NaN or as unset, and is written as nothing again.
func TestNotANumberIsNotWritten(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, q := range []encoding.TextMarshaler{
			units.AirPressure(x), units.MilliequivalentsPerLitre(x), units.AmountPerKilogram(x), units.AmountPerLitre(x), units.Area(x), units.Conductivity(x),
			units.Density(x), units.Energy(x), units.Flow(x), units.Share(x), units.GaugePressure(x), units.Length(x), units.Mass(x),
			units.MassPerKilogram(x), units.MassPerLitre(x), units.MolarMass(x), units.Power(x), units.Resistivity(x), units.SeaPressure(x),
			units.SpecificHeat(x), units.Speed(x), units.TemperatureDifference(x), units.ThermalConductance(x), units.Voltage(x), units.Volume(x),
			units.Practical(x), units.Absolute(x), units.Celsius(x), units.Gravity(x, units.SG25C()), units.TDSReading(x, 0.5), units.Money{Amount: x, Currency: "EUR"},
		} {
			text, err := q.MarshalText()
			assert.Empty(t, text, "%T", q)
			if !math.IsNaN(x) {
				assert.ErrorIs(t, err, units.ErrInput, "%T", q)
				continue
			}
			assert.NoError(t, err, "%T", q)
			back := reflect.New(reflect.TypeOf(q))
			require.NoError(t, back.Interface().(encoding.TextUnmarshaler).UnmarshalText(text), "%T", q)
			text, err = back.Elem().Interface().(encoding.TextMarshaler).MarshalText()
			assert.NoError(t, err, "%T", q)
			assert.Empty(t, text, "%T", q)
		}
	}
}

// What is no quantity is refused by each, and NaN stands beside the error.
func TestTextThatIsNoQuantity(t *testing.T) {
	for _, text := range []string{"many", "35 of something", "-", "."} {
		for _, q := range []encoding.TextUnmarshaler{
			new(units.Fraction), new(units.Money), new(units.PracticalSalinity), new(units.AbsoluteSalinity), new(units.SpecificGravity), new(units.TDS),
			new(units.Temperature), new(units.Volume), new(units.Voltage), new(units.Flow),
		} {
			assert.ErrorIs(t, q.UnmarshalText([]byte(text)), units.ErrInput, "%T %q", q, text)
		}
	}
}

// Firmware writes quantities into a buffer of its own, without an allocation.
func TestAppendTextAllocatesNothing(t *testing.T) {
	buffer := make([]byte, 0, 64)
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		buffer, _ = units.Volume(41.3).AppendText(buffer[:0])
		buffer, _ = units.Celsius(25.1).AppendText(buffer)
		buffer, _ = units.Practical(35.2).AppendText(buffer)
		buffer, _ = units.MilliequivalentsPerLitre(2.9).AppendText(buffer)
	}))
	assert.Equal(t, "41.3 L25.1 °C35.2 PSS-782.9 meq/L", string(buffer))
}
