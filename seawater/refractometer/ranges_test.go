package refractometer

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

// The ranges of the sources, written a second time: just inside is no error, just
// outside is.
func TestRangesOfTheSources(t *testing.T) {
	sea := func(s, celsius, dbar, nm float64) error {
		return CheckRangeMillardSeaver(units.Practical(s), units.Celsius(celsius), units.SeaPressure(dbar), Wavelength(nm))
	}
	quan := func(s, celsius, nm float64) error {
		return CheckRangeQuanFry(units.Practical(s), units.Celsius(celsius), Wavelength(nm))
	}
	water := func(celsius, rho, nm float64) error {
		return CheckRangeWater(units.Celsius(celsius), units.Density(rho), Wavelength(nm))
	}
	salt := func(percent, celsius float64) error {
		return CheckRangeSodiumChloride(units.Percent(percent), units.Celsius(celsius))
	}
	sugar := func(percent, celsius float64) error {
		return CheckRangeSucrose(units.Percent(percent), units.Celsius(celsius))
	}
	air := func(nm float64) error { return CheckRangeStandardAir(Wavelength(nm)) }
	for _, r := range []struct {
		source    string
		low, high float64
		check     func(x float64) error
	}{
		{"Millard and Seaver 1990: salinity", 0, 40, func(x float64) error { return sea(x, 20, 0, 589) }},
		{"Millard and Seaver 1990: °C", 0, 30, func(x float64) error { return sea(35, x, 0, 589) }},
		{"Millard and Seaver 1990: dbar", 0, 11000, func(x float64) error { return sea(35, 20, x, 589) }},
		{"Millard and Seaver 1990: nm", 500, 700, func(x float64) error { return sea(35, 20, 0, x) }},
		{"Quan and Fry 1995: salinity", 0, 35, func(x float64) error { return quan(x, 20, 589) }},
		{"Quan and Fry 1995: °C", 0, 30, func(x float64) error { return quan(30, x, 589) }},
		{"Quan and Fry 1995: nm", 400, 700, func(x float64) error { return quan(30, 20, x) }},
		{"IAPWS R9-97: °C", -12, 500, func(x float64) error { return water(x, 900, 589) }},
		{"IAPWS R9-97: kg/m³", 0, 1060, func(x float64) error { return water(20, x, 589) }},
		{"IAPWS R9-97: nm", 200, 1100, func(x float64) error { return water(20, 998, x) }},
		{"Ciddor 1996: nm", 300, 1690, air},
		{"CRC Handbook, sodium chloride: %", 0, 26, func(x float64) error { return salt(x, 20) }},
		{"Millard and Seaver 1990, moved to sodium chloride: °C", 0, 30, func(x float64) error { return salt(10, x) }},
		{"ICUMSA 1974: %", 0, 30, func(x float64) error { return sugar(x, 20) }},
		{"ICUMSA 1974: °C", 15, 30, func(x float64) error { return sugar(10, x) }},
	} {
		slip := 1e-4 * (r.high - r.low)
		assert.NoError(t, r.check(r.low+slip), r.source)
		assert.NoError(t, r.check(r.high-slip), r.source)
		assert.ErrorIs(t, r.check(r.low-slip), units.ErrRange, r.source)
		assert.ErrorIs(t, r.check(r.high+slip), units.ErrRange, r.source)
	}
}
