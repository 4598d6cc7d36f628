package main

import (
	"fmt"
	"strconv"
	"strings"

	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/conductivity"
	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/weighing"
	"example.org/wellmixed/units"
)

// meter is one instrument of the house.
type meter struct {
	short, scale, name string
	shows              func(seawater.Sample) (string, error)
	estimate           func(reading float64, t units.Temperature) (sa, u units.AbsoluteSalinity, err error)
}

// The standard uncertainties are those of good hand-held instruments, read with
// care (common practice): half a division of a scale, half a kelvin.
const halfKelvin = 0.5 * units.CelsiusDegree

// house holds one instrument of each common kind.
var house = []meter{
	refraction("refractometer", "ppt NaCl", "refractometer, scale in ppt drawn for sodium chloride, zeroed on pure water",
		"%.1f", 0.3, refractometer.SodiumChloridePermille(), 0),
	refraction("refractometer-sw", "ppt", "refractometer, scale in ppt drawn for seawater, zeroed on pure water",
		"%.1f", 0.3, refractometer.PracticalScale(), 0),
	refraction("refractometer-sg", "SG 20/20 °C", "refractometer, specific gravity 20/20 °C drawn for sodium chloride, "+
		"zeroed on pure water", "%.4f", 0.0003, refractometer.GravityOfSodiumChloride(units.SG20C()), 1),
	refraction("index", "nD", "refractometer, refractive index, zeroed on pure water", "%.5f", 0.00005,
		refractometer.IndexScale(), 1.33299),
	floating("hydrometer60", "SG 60/60 °F", "glass hydrometer, 60/60 °F", 0.0003,
		hydrometer.Hydrometer{Pair: units.SG60F(), Expansion: hydrometer.Glass}),
	floating("hydrometer25", "SG 25/25 °C", "glass hydrometer, 25/25 °C", 0.0003,
		hydrometer.Hydrometer{Pair: units.SG25C(), Expansion: hydrometer.Glass}),
	floating("swingarm", "SG 25/25 °C", "plastic swing arm, 25/25 °C", 0.0010,
		hydrometer.Hydrometer{Pair: units.SG25C(), Expansion: hydrometer.Acrylic}),
	conducting("conductivity", "mS/cm", "conductivity meter, not compensated", conductivity.Compensation{}),
	conducting("conductivity25", "mS/cm", "conductivity meter, compensated to 25 °C by 2 % a degree",
		conductivity.Compensation{
			Scheme:    conductivity.Linear,
			Reference: units.Celsius(25),
			PerKelvin: units.Percent(2),
		}),
	salinityMeter(),
	flask(),
}

// of makes a meter of an instrument of the library, whose readings are numbers in the unit of its
// scale.
func of[R ~float64](short, scale, name, format string,
	show func(units.AbsoluteSalinity, units.Temperature) (R, error),
	estimate func(R, units.Temperature) (sa, u units.AbsoluteSalinity, err error)) meter {
	return meter{short, scale, name,
		func(s seawater.Sample) (string, error) {
			r, err := show(s.Absolute(), s.Temperature())
			return fmt.Sprintf(format, float64(r)), err
		},
		func(reading float64, t units.Temperature) (sa, u units.AbsoluteSalinity, err error) {
			return estimate(R(reading), t)
		}}
}

func refraction(short, scale, name, format string, division float64, drawn refractometer.Graduation,
	pureWater refractometer.Reading) meter {
	i := refractometer.Instrument{
		Graduation: drawn,
		Zero: refractometer.Zeroing{
			Standard:    refractometer.PureWater(),
			Temperature: units.Celsius(20),
			Mark:        pureWater,
		},
		Compensation: refractometer.Automatic(refractometer.PureWater()),
	}
	u := refractometer.Uncertainty{Reading: refractometer.Reading(division), Temperature: halfKelvin}
	return of(short, scale, name, format, i.Reading,
		func(r refractometer.Reading, t units.Temperature) (sa, us units.AbsoluteSalinity, err error) {
			return i.Estimate(r, t, u)
		})
}

func floating(short, scale, name string, division float64, h hydrometer.Hydrometer) meter {
	u := hydrometer.Uncertainty{Reading: division, Temperature: halfKelvin, Expansion: h.Expansion / 5}
	return of(short, scale, name, "%.4f", h.Reading,
		func(r float64, t units.Temperature) (sa, us units.AbsoluteSalinity, err error) {
			return h.Estimate(r, t, u)
		})
}

func conducting(short, scale, name string, c conductivity.Compensation) meter {
	m := conductivity.Meter{Compensation: c}
	u := conductivity.Uncertainty{Reading: 0.1, Temperature: 0.2, Cell: units.Percent(0.5)}
	return of(short, scale, name, "%.1f", m.Reading,
		func(r units.Conductivity, t units.Temperature) (sa, us units.AbsoluteSalinity, err error) {
			return m.Estimate(r, t, u)
		})
}

func salinityMeter() meter {
	var m conductivity.SalinityMeter
	u := conductivity.Uncertainty{Reading: 0.1, Thermometer: 0.2, Cell: units.Percent(0.5)}
	return of("salinity", "ppt", "conductivity meter that shows salinity (PSS-78)", "%.1f",
		func(s units.AbsoluteSalinity, t units.Temperature) (float64, error) {
			r, err := m.Reading(s, t)
			return r.Value(), err
		},
		func(r float64, t units.Temperature) (sa, us units.AbsoluteSalinity, err error) {
			return m.Estimate(units.Practical(r), t, u)
		})
}

func flask() meter {
	f := weighing.Flask{
		Vessel: weighing.Vessel{Capacity: 1 * units.Litre, At: units.Celsius(20), Expansion: weighing.Borosilicate},
		Air:    weighing.StandardAir(),
	}
	u := weighing.Uncertainty{Reading: 0.1, Temperature: halfKelvin, Capacity: 0.0004, Air: 0.02}
	return of("flask", "g", "litre flask of glass (20 °C) filled to its line, weighed, the balance tared with it empty",
		"%.1f", f.Reading,
		func(r units.Mass, t units.Temperature) (sa, us units.AbsoluteSalinity, err error) {
			return f.Estimate(r, t, u)
		})
}

// reading is what one meter showed.
type reading struct {
	of    *meter
	shown string
	seawater.Reading
}

// read takes "hydrometer60=1.0262" for what it says of the water.
func read(field, text string, t units.Temperature) (reading, error) {
	short, shown, found := strings.Cut(text, "=")
	short, shown = strings.TrimSpace(short), strings.TrimSpace(shown)
	bad := func(want string) error {
		return &units.InputError{Field: field, Got: units.Quoted(text), Want: want}
	}
	if !found {
		return reading{}, bad(`a meter and what it shows, such as "hydrometer60=1.0262"; flags stand before the readings`)
	}
	number, err := strconv.ParseFloat(shown, 64)
	if err != nil || strings.Trim(shown, "0123456789.+-") != "" {
		return reading{}, bad(`a number alone behind the =, with a point for decimals, such as "hydrometer60=1.0262"`)
	}
	var names []string
	for i := range house {
		m := &house[i]
		if m.short == short {
			sa, u, err := m.estimate(number, t)
			if err != nil {
				return reading{}, fmt.Errorf("%s %s: %w", field, text, err)
			}
			return reading{m, shown, seawater.Reading{Name: short, Salinity: sa, Uncertainty: u}}, nil
		}
		names = append(names, m.short)
	}
	return reading{}, bad("one of the meters " + strings.Join(names, ", "))
}
