package electrode_test

import (
	"fmt"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/electrode"
	"example.org/wellmixed/units"
)

// A controller is calibrated in the bottles 7 and 10 at 24 °C; in the tank, 25.5 °C, it
// measures -68 mV. What is the pH, and is the electrode still good?
func ExampleCalibrate() {
	room := units.Celsius(24)
	c, err := electrode.Calibrate(carbonate.PHNBS(7),
		electrode.Bottle7.Point(4*units.Millivolt, room),
		electrode.Bottle10.Point(-167*units.Millivolt, room))
	if err != nil {
		fmt.Println(err)
		return
	}
	ph, err := c.PH(-68*units.Millivolt, units.Celsius(25.5))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("pH %.2f NBS\n", ph.Value())
	fmt.Printf("slope %.1f %%, offset %.1f mV\n%s\n", c.Slope.Percent(), c.Offset.Millivolts(), c.Findings().Slope.Text)
	// Output:
	// pH 8.27 NBS
	// slope 96.2 %, offset 4.2 mV
	// The slope is that of a sound electrode.
}

// The same electrode, with its slope from the bottles, gives -71.0 mV in tris buffer
// of salinity 35 at 25.5 °C and -68 mV in the tank: the pH is on the total scale, and
// nothing has to be said of junctions.
func ExampleOnePoint() {
	at := units.Celsius(25.5)
	c, err := electrode.OnePoint(carbonate.PHTotal(7),
		electrode.Tris(units.Practical(35)).Point(-71*units.Millivolt, at), units.Percent(96.2), units.Percent(1))
	if err != nil {
		fmt.Println(err)
		return
	}
	ph, u, err := c.Estimate(-68*units.Millivolt, at, electrode.Uncertainty{Reading: 0.3 * units.Millivolt})
	fmt.Printf("%.3f ± %.3f total, error %v\n", ph.Value(), u, err)
	// Output: 8.025 ± 0.007 total, error <nil>
}

// Bottles good to 0.02, a display of 1 mV, a thermometer good to 0.5 °C: how well does
// the controller know the pH of the tank on the total scale?
func ExampleTotalFromNBS() {
	u := electrode.Uncertainty{Reading: 0.3 * units.Millivolt, Temperature: 0.5 * units.CelsiusDegree}
	room, tank := units.Celsius(24), units.Celsius(25.5)
	c, err := electrode.Calibrate(carbonate.PHNBS(7),
		electrode.Bottle7.Point(4*units.Millivolt, room).PlusMinus(u),
		electrode.Bottle10.Point(-167*units.Millivolt, room).PlusMinus(u))
	if err != nil {
		fmt.Println(err)
		return
	}
	ph, uncertainty, err := c.Estimate(-68*units.Millivolt, tank, u)
	if err != nil {
		fmt.Println(err)
		return
	}
	water := carbonate.At(units.Practical(35), tank, carbonate.Options{})
	total, doubt, err := electrode.TotalFromNBS(ph, uncertainty, &water)
	fmt.Printf("%.2f ± %.3f NBS\n", ph.Value(), uncertainty)
	fmt.Printf("%.2f ± %.2f total, error %v\n", total.Value(), doubt, err)
	// Output:
	// 8.27 ± 0.011 NBS
	// 8.13 ± 0.05 total, error <nil>
}

// The controller was left at 25 °C, without a temperature probe, and the water has
// 20 °C. By how much is it wrong at pH 8.2, and at pH 4?
func ExampleCalibration_Reading() {
	e := electrode.Calibration[carbonate.NBSPH]{Isopotential: carbonate.PHNBS(7), Slope: units.Percent(100)}
	for _, truth := range []float64{8.2, 4} {
		v, _ := e.Reading(carbonate.PHNBS(truth), units.Celsius(20))
		shown, _ := e.PH(v, units.Celsius(25))
		fmt.Printf("%.1f mV, shown as %.2f\n", v.Millivolts(), shown.Value())
	}
	// Output:
	// -69.8 mV, shown as 8.18
	// 174.5 mV, shown as 4.05
}

// Never calibrated: the controller takes an old electrode, with 92 % of the slope
// and 18 mV of offset, for an ideal one.
func ExampleCalibration_PH() {
	ideal := electrode.Calibration[carbonate.NBSPH]{Isopotential: carbonate.PHNBS(7), Slope: units.Percent(100)}
	old := ideal
	old.Slope, old.Offset = units.Percent(92), 18*units.Millivolt
	at := units.Celsius(25)
	v, _ := old.Reading(carbonate.PHNBS(8.2), at)
	shown, _ := ideal.PH(v, at)
	f := old.Findings()
	fmt.Printf("8.20 is shown as %.2f\n%s\n%s\n", shown.Value(), f.Slope.Text, f.Offset.Text)
	// Output:
	// 8.20 is shown as 7.80
	// The slope is low: clean and soak the electrode as its maker says, and calibrate again in fresh buffers.
	// The offset is large: clean the junction and refill the electrode, if it can be, and calibrate again.
}

// Three bottles, and the 7 has stood open for months. Slope and offset look sound.
func ExampleCalibration_Findings() {
	at := units.Celsius(25)
	c, err := electrode.Calibrate(carbonate.PHNBS(7),
		electrode.Bottle4.Point(175*units.Millivolt, at),
		electrode.Bottle7.Point(20*units.Millivolt, at),
		electrode.Bottle10.Point(-176*units.Millivolt, at))
	if err != nil {
		fmt.Println(err)
		return
	}
	f := c.Findings()
	fmt.Printf("slope %v, offset %v, points %v (%.0f mV)\n%s\n", f.Slope.Condition, f.Offset.Condition,
		f.Points.Condition, c.Residual.Millivolts(), f.Points.Text)
	_, u, err := c.Estimate(-70*units.Millivolt, at, electrode.Uncertainty{})
	fmt.Printf("± %.2f, error %v\n", u, err)
	// Output:
	// slope good, offset good, points doubtful (13 mV)
	// The points do not lie on one line: a buffer is not what it is taken for, or was not read until it was steady. Calibrate again in fresh buffers.
	// ± 0.18, error <nil>
}

// What is the pH of the bottles in a warm room?
func ExampleBuffer_PH() {
	for _, b := range []electrode.Buffer{electrode.Bottle4, electrode.Bottle7, electrode.Bottle10} {
		fmt.Printf("%.2f ", b.PH(units.Celsius(30)).Value())
	}
	// Output: 4.01 6.99 9.97
}

// A bottle with a table of its own says 7.03 at 20 °C; the electrode gives 2 mV.
func ExamplePoint() {
	at := units.Celsius(20)
	_, err := electrode.Calibrate(carbonate.PHNBS(7),
		electrode.Point[carbonate.NBSPH]{PH: carbonate.PHNBS(7.03), PHUncertainty: 0.01, Reading: 2 * units.Millivolt, Temperature: at},
		electrode.Bottle10.Point(1*units.Millivolt, at))
	fmt.Println(err)
	// Output: slope of 0.6 %: not the slope of a pH electrode: all buffers give nearly the same voltage: the electrode is broken, its lead shorted, or its cap on
}

// A sample was read in the lab at 21 °C: pH 8.12. What is it in the tank, at 26 °C?
func ExampleAtTemperature() {
	lab := carbonate.At(units.Practical(35), units.Celsius(21), carbonate.Options{})
	ph, err := electrode.AtTemperature(carbonate.PHTotal(8.12), 2400, carbonate.Nutrients{}, &lab, units.Celsius(26))
	fmt.Printf("%.2f, error %v\n", ph.Value(), err)
	// Output: 8.04, error <nil>
}
