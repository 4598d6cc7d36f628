package pss78

import (
	"math"

	"example.org/wellmixed/units"
)

// Salinity returns the practical salinity of water of a conductivity.
//
//	symbol   S = sum a_n x^n + ft sum b_n x^n, n = 0..5; below 2 the extension of [HDW]
//	source   [PL80], [U44]; [HDW] scaled as in [T10] to meet at 2
//	units    C mS/cm at the temperature of the water, p dbar above the surface
//	range    2 <= S <= 42 (0 to 2 by the extension), -2 <= t <= 35 °C, 0 <= p <= 10000 dbar
//	outside  extrapolates (CheckRange tells); C < 0, t <= -46.7 °C, NaN or Inf: NaN
//
// The extension crosses zero at 0.7 to 2.2 µS/cm, the conductivity of purified
// water in contact with air, and dips 0.0003 below it; from there down the
// salinity is 0.
func Salinity(c units.Conductivity, t units.Temperature, p units.SeaPressure) units.PracticalSalinity {
	const standard = float64(StandardConductivity)
	return salinity(float64(c), standard, float64(c)*(1/standard), t, p)
}

// Salinities is Salinity for a log: it sets dst[i] to the salinity of c[i] and
// t[i], all at one pressure. It stops at the end of the shortest of the three and
// returns how many it set, as copy does, so that no log can make it panic. It
// allocates nothing.
func Salinities(dst []units.PracticalSalinity, c []units.Conductivity, t []units.Temperature, p units.SeaPressure) int {
	n := min(len(dst), len(c), len(t))
	dst, c, t = dst[:n], c[:n], t[:n] // spares the loop its bounds checks
	for i := range dst {
		dst[i] = Salinity(c[i], t[i], p)
	}
	return n
}

// Salinity returns the practical salinity of water of this conductivity
// ratio. It is the function Salinity with C = R C(35,15,0).
func (r Ratio) Salinity(t units.Temperature, p units.SeaPressure) units.PracticalSalinity {
	return salinity(float64(r), 1, float64(r), t, p)
}

// salinity returns the salinity of water of conductivity c, in a unit of which
// C(35,15,0) is standard, and of ratio r = c/standard. That the division by
// standard joins the one by rt and Rp saves its time.
func salinity(c, standard, r float64, t units.Temperature, p units.SeaPressure) units.PracticalSalinity {
	if !possible(r, t, p) {
		return units.Practical(math.NaN())
	}
	t68 := t68PerT90 * t.Celsius()
	top, bottom := c, standard*rt(t68)
	if p != 0 { // at the surface, where tanks are, Rp is 1
		over, under := rp(r, t68, float64(p))
		top, bottom = top*under, bottom*over
	}
	bath := top / bottom
	x := math.Sqrt(bath)
	ft := temperatureTerm(t68)
	s := evenPowers(bath, ft) + x*oddPowers(bath, ft)
	if s < dilute {
		s = diluteSalinity(s, x, ft)
	}
	return units.Practical(s)
}

// The scale itself: a_n and b_n, powers 0 to 5 of x [PL80, U44]. The sum of
// the a_n is 35 and that of the b_n is 0, so Rt = 1 is salinity 35 at every
// temperature.
var (
	aCoef = [...]float64{0.0080, -0.1692, 25.3851, 14.0941, -7.0261, 2.7081}
	bCoef = [...]float64{0.0005, -0.0056, -0.0066, -0.0375, 0.0636, -0.0144}
)

// The scale is evenPowers + x oddPowers: both are free of x itself, so they
// need not wait for the square root of bath, which is Rt.
func evenPowers(bath, ft float64) float64 {
	return aCoef[0] + bath*(aCoef[2]+bath*aCoef[4]) +
		ft*(bCoef[0]+bath*(bCoef[2]+bath*bCoef[4]))
}

func oddPowers(bath, ft float64) float64 {
	return aCoef[1] + bath*(aCoef[3]+bath*aCoef[5]) +
		ft*(bCoef[1]+bath*(bCoef[3]+bath*bCoef[5]))
}

// k of ft, 1/°C [PL80, U44].
const k = 0.0162

// temperatureTerm returns ft.
func temperatureTerm(t68 float64) float64 { return (t68 - 15) / (1 + k*(t68-15)) }

// coldest is the pole of ft, -46.7 °C. At and below it no formula of this
// package means anything.
const coldest = (15 - 1/k) / t68PerT90

// vacuum is the sea pressure of no pressure at all, in dbar.
const vacuum = -10.1325

// possible tells whether an amount (a salinity or a conductivity ratio), a
// temperature and a pressure can be those of any water. NaN and Inf cannot;
// as nothing here is far below zero, one infinity makes the sum infinite.
func possible(amount float64, t units.Temperature, p units.SeaPressure) bool {
	return amount >= 0 && t.Celsius() > coldest && p >= vacuum &&
		amount+t.Celsius()+float64(p) <= math.MaxFloat64
}
