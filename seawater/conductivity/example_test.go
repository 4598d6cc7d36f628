package conductivity_test

import (
	"fmt"

	"example.org/wellmixed/seawater/conductivity"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// A meter that compensates by 2 % per kelvin shows 53.0 mS/cm in water of 22 °C. Its
// display has steps of 0.1 mS/cm, its calibration is good to 1 %, its thermometer to
// 0.3 °C.
func ExampleMeter_Estimate() {
	m := conductivity.Meter{Compensation: conductivity.Compensation{
		Scheme: conductivity.Linear, Reference: units.Celsius(25), PerKelvin: units.Percent(2),
	}}
	sa, u, err := m.Estimate(53.0, units.Celsius(22), conductivity.Uncertainty{Reading: 0.03, Thermometer: 0.3, Cell: units.Percent(1)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("practical %.1f ± %.1f\n", teos10.PracticalFromAbsolute(sa).Value(), teos10.PracticalFromAbsolute(u).Value())
	// Output: practical 34.9 ± 0.5
}

// What does a meter without compensation show in water of salinity 35 at 25 °C?
func ExampleMeter_Reading() {
	sa := teos10.AbsoluteFromPractical(units.Practical(35))
	c, _ := conductivity.Meter{}.Reading(sa, units.Celsius(25))
	fmt.Printf("%.2f mS/cm\n", c.MillisiemensPerCentimetre())
	// Output: 53.07 mS/cm
}

// A meter shows 1450 µS/cm in the 1413 µS/cm standard at 22 °C, and then 54.5 mS/cm
// in the tank at 25.5 °C.
func ExampleMeter_Calibrated() {
	m := conductivity.Meter{Compensation: conductivity.Compensation{
		Scheme: conductivity.Linear, Reference: units.Celsius(25), PerKelvin: units.Percent(2),
	}}
	at := units.Celsius(22)
	m, err := m.Calibrated(1450*units.MicrosiemensPerCentimetre, conductivity.KCl1413.Conductivity(at), at)
	if err != nil {
		fmt.Println(err)
		return
	}
	sa, _ := m.Salinity(54.5, units.Celsius(25.5))
	fmt.Printf("reads %.1f %% high; practical %.1f\n", m.CellOffset.Percent(), teos10.PracticalFromAbsolute(sa).Value())
	// Output: reads 2.4 % high; practical 35.1
}

// A hand-held meter with the factor 0.5 shows 0 ppm after the resin. What may be
// left in the water, and what will the meter show once the water has stood in air?
func ExampleTDSMeter_Between() {
	m := conductivity.TDSMeter{
		Meter: conductivity.Meter{Compensation: conductivity.Compensation{
			Scheme: conductivity.Linear, Reference: units.Celsius(25), PerKelvin: units.Percent(2),
		}},
		Scale: 0.5,
	}
	at := units.Celsius(25)
	_, most, _ := m.Between(units.TDSReading(0, 0.5), 1, at)
	fmt.Printf("less than %.1f µS/cm, %.1f mg/L\n", most.MicrosiemensPerCentimetre(),
		conductivity.Residue(most, at, conductivity.SodiumChloride).MilligramsPerLitre())
	later, _ := m.Shows(conductivity.AeratedWater(at), at)
	fmt.Printf("%.2f ppm by carbon dioxide alone\n", later.PPM())
	// Output:
	// less than 1.0 µS/cm, 0.4 mg/L
	// 0.55 ppm by carbon dioxide alone
}

// A meter with a display in ppt of sodium chloride shows 33.0 in the tank at 25 °C.
func ExampleSaltMeter_Salinity() {
	m := conductivity.SaltMeter{
		Meter: conductivity.Meter{Compensation: conductivity.Compensation{
			Scheme: conductivity.Linear, Reference: units.Celsius(25), PerKelvin: units.Percent(2),
		}},
		Solution: conductivity.SodiumChloride,
	}
	sa, err := m.Salinity(33*units.GramPerLitre, units.Celsius(25))
	fmt.Printf("practical %.1f, error %v\n", teos10.PracticalFromAbsolute(sa).Value(), err)
	// Output: practical 34.4, error <nil>
}

// The thermometer of a salinity meter is 0.8 °C high. What does it show in water
// of salinity 35?
func ExampleSalinityMeter_Reading() {
	m := conductivity.SalinityMeter{ThermometerOffset: 0.8}
	s, _ := m.Reading(teos10.AbsoluteFromPractical(units.Practical(35)), units.Celsius(25))
	fmt.Printf("%.1f\n", s.Value())
	// Output: 34.4
}

// How pure can water be at 25 and at 15 °C?
func ExamplePureWater() {
	for _, t := range []float64{25, 15} {
		c := conductivity.PureWater(units.Celsius(t))
		fmt.Printf("%.4f µS/cm, %.1f MΩ·cm\n", c.MicrosiemensPerCentimetre(), c.Resistivity().MegohmCentimetres())
	}
	// Output:
	// 0.0550 µS/cm, 18.2 MΩ·cm
	// 0.0315 µS/cm, 31.8 MΩ·cm
}

// Tap water has 520 µS/cm at 12 °C. What would the water works report, and what is
// that on a meter graduated with the 40/40/20 mixture?
func ExampleNaturalWater25() {
	c := conductivity.NaturalWater25(520*units.MicrosiemensPerCentimetre, units.Celsius(12))
	fmt.Printf("%.0f µS/cm, %.0f mg/L\n", c.MicrosiemensPerCentimetre(), conductivity.SulfateBicarbonateChloride.Content(c).MilligramsPerLitre())
	// Output: 704 µS/cm, 472 mg/L
}
