package refractometer_test

import (
	"fmt"

	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// The usual hobby instrument: a scale of practical salinity, compensated for
// water, zeroed with purified water at 25 °C. It shows 34.5 in a drop of tank
// water that has come to 25 °C with it.
func ExampleInstrument_Salinity() {
	hobby := refractometer.Instrument{
		Graduation:   refractometer.PracticalScale(),
		Zero:         refractometer.Zeroing{Standard: refractometer.PureWater(), Temperature: units.Celsius(25), Mark: 0},
		Compensation: refractometer.Automatic(refractometer.PureWater()),
	}
	sa, err := hobby.Salinity(34.5, units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f g/kg, practical salinity %.2f\n", sa.GramsPerKilogram(), teos10.PracticalFromAbsolute(sa).Value())
	// Output: 35.01 g/kg, practical salinity 34.85
}

// What should that instrument show in a mix of 35 at 25 °C? Zeroed with pure
// water, it is right there and, because seawater drifts more than water, 0.35
// low at 35. Set in a standard of 35 instead, it is right where it matters.
func ExampleInstrument_Reading() {
	t := units.Celsius(25)
	mix := teos10.AbsoluteFromPractical(units.Practical(35))
	i := refractometer.Instrument{
		Graduation:   refractometer.PracticalScale(),
		Zero:         refractometer.Zeroing{Standard: refractometer.PureWater(), Temperature: t, Mark: 0},
		Compensation: refractometer.Automatic(refractometer.PureWater()),
	}
	zeroed, _ := i.Reading(mix, t)
	i.Zero = refractometer.Zeroing{Standard: refractometer.SeawaterStandard(units.Practical(35)), Temperature: t, Mark: 35}
	set, _ := i.Reading(mix, t)
	fmt.Printf("zeroed with water %.2f, set with a standard %.2f\n", zeroed, set)
	// Output: zeroed with water 34.65, set with a standard 35.00
}

// An instrument made for brine carries two scales, ppt and specific gravity,
// both drawn for sodium chloride. In seawater of 35 they err to opposite sides.
func ExampleInstrument_Reading_sodiumChloride() {
	t := units.Celsius(20)
	mix := teos10.AbsoluteFromPractical(units.Practical(35))
	show := func(scale refractometer.Graduation) refractometer.Reading {
		r, _ := refractometer.Instrument{Graduation: scale}.Reading(mix, t)
		return r
	}
	fmt.Printf("ppt scale %.1f\n", show(refractometer.SodiumChloridePermille()))
	fmt.Printf("gravity scale %.4f, of seawater it is %.4f\n",
		show(refractometer.GravityOfSodiumChloride(units.SG20C())), show(refractometer.GravityOfSeawater(units.SG20C())))
	// Output:
	// ppt scale 36.5
	// gravity scale 1.0259, of seawater it is 1.0266
}

// The calibration fluid is labelled 35 ppt, but the salt in it is sodium
// chloride: a scale made for seawater and set to 35 with it reads high.
func ExampleSaltSolution() {
	t := units.Celsius(20)
	i := refractometer.Instrument{
		Graduation: refractometer.PracticalScale(),
		Zero:       refractometer.Zeroing{Standard: refractometer.SaltSolution(units.Percent(3.5)), Temperature: t, Mark: 35},
	}
	r, _ := i.Reading(teos10.AbsoluteFromPractical(units.Practical(35)), t)
	fmt.Printf("%.1f\n", r)
	// Output: 36.4
}

// A drop out of a tank of 26 °C, read at once on a prism of 18 °C: the
// instrument compensates for a temperature that the drop does not have. Half a
// minute later the two agree.
func ExampleInstrument_ReadingUnsettled() {
	i := refractometer.Instrument{
		Graduation:   refractometer.PracticalScale(),
		Compensation: refractometer.Automatic(refractometer.PureWater()),
	}
	tank, prism := units.Celsius(26), units.Celsius(18)
	mix := teos10.AbsoluteFromPractical(units.Practical(35))
	early, _ := i.ReadingUnsettled(mix, tank, prism)
	settled, _ := i.Reading(mix, prism)
	fmt.Printf("at once %.1f, settled %.1f\n", early, settled)
	// Output: at once 30.4, settled 35.2
}

// How well is the salinity known, if the line can be read to 0.5, the room is
// 24 °C give or take 1 K, and the drop may still be 0.3 K off?
func ExampleInstrument_Estimate() {
	i := refractometer.Instrument{
		Graduation:   refractometer.PracticalScale(),
		Zero:         refractometer.Zeroing{Standard: refractometer.SeawaterStandard(units.Practical(35)), Temperature: units.Celsius(24), Mark: 35},
		Compensation: refractometer.Automatic(refractometer.PureWater()),
	}
	sa, u, _ := i.Estimate(34, units.Celsius(24), refractometer.Uncertainty{Reading: 0.5, Temperature: 1, Lag: 0.3})
	fmt.Printf("%.1f g/kg, standard uncertainty %.1f\n", sa.GramsPerKilogram(), u.GramsPerKilogram())
	// Output: 34.2 g/kg, standard uncertainty 0.5
}

// A drop that is still as warm as a hot tank is beyond the measurements of
// seawater.
func ExampleInstrument_Reading_tooWarm() {
	i := refractometer.Instrument{Graduation: refractometer.PracticalScale()}
	_, err := i.Reading(teos10.AbsoluteFromPractical(units.Practical(35)), units.Celsius(31))
	fmt.Println(err)
	// Output: sample.temperature: 31 °C is outside 0 to 30 °C (Millard and Seaver 1990)
}

// A laboratory refractometer shows nD = 1.3394 at 20 °C.
func ExampleSeawaterSalinity() {
	s := refractometer.SeawaterSalinity(refractometer.InAir(1.3394), units.Celsius(20))
	fmt.Printf("%.1f\n", s.Value())
	// Output: 35.1
}

// The index of pure water in tables of physics is relative to vacuum; on the
// scale of a refractometer it is relative to air.
func ExampleWater() {
	t := units.Celsius(20)
	n := refractometer.Water(t, teos10.DensityExact(units.Absolute(0), t, 0), refractometer.SodiumD)
	fmt.Printf("%.5f in vacuum, %.5f in air\n", n.Value(), n.Air(refractometer.SodiumD).Value())
	// Output: 1.33335 in vacuum, 1.33298 in air
}

// How much table salt in a kilogram of solution bends light as seawater of 35
// does?
func ExampleSodiumChlorideStrength() {
	t := units.Celsius(20)
	w := refractometer.SodiumChlorideStrength(refractometer.Seawater(units.Practical(35), t), t)
	fmt.Printf("%.1f g\n", 1000*w.Value())
	// Output: 36.5 g
}

// A Brix refractometer for wine shows 4.4 in a mix at 20 °C.
func ExampleBrixScale() {
	wine := refractometer.Instrument{Graduation: refractometer.BrixScale()}
	sa, _ := wine.Salinity(4.4, units.Celsius(20))
	fmt.Printf("%.1f g/kg\n", sa.GramsPerKilogram())
	// Output: 35.1 g/kg
}
