package teos10

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// The functions of this file are the 75-term polynomial for specific volume
// [RMMB15] with its derivatives and its integral, of Conservative Temperature.

// SpecificVolume returns the volume of a kilogram of seawater, in m³/kg.
//
//	symbol   v = Σ v_ijk sⁱ yʲ zᵏ
//	source   [RMMB15], table of coefficients
//	units    SA g/kg, CT °C, p dbar; result m³/kg
//	range    0 <= SA <= 42, freezing <= CT <= 40, 0 <= p <= 8000, narrower in the deep;
//	         within 1.4e-6 of SpecificVolumeExact up to 1000 dbar, relative
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func SpecificVolume(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) float64 {
	w, y, z := reduceConservative(sa, ct, p)
	c0, c1, c2, c3, c4, c5, c6 := volumeTerms(y, z)
	return c0 + w*(c2+w*(c4+w*c6)) + math.Sqrt(w)*(c1+w*(c3+w*c5))
}

// Density returns the density of seawater.
//
//	symbol   ρ = 1/v
//	source   [RMMB15], table of coefficients
//	units    SA g/kg, CT °C, p dbar
//	range    0 <= SA <= 42, freezing <= CT <= 40, 0 <= p <= 8000, narrower in the deep;
//	         within 0.0014 kg/m³ of DensityExact up to 1000 dbar, 0.0007 in a tank
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func Density(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) units.Density {
	w, y, z := reduceConservative(sa, ct, p)
	c0, c1, c2, c3, c4, c5, c6 := volumeTerms(y, z)
	return units.Density(1 / (c0 + w*(c2+w*(c4+w*c6)) + math.Sqrt(w)*(c1+w*(c3+w*c5))))
}

// SurfaceDensity returns the density of seawater at the surface: Density with
// p = 0, of which 28 terms remain.
//
//	symbol   ρ = 1/v(p = 0)
//	source   [RMMB15], table of coefficients
//	units    SA g/kg, CT °C
//	range    0 <= SA <= 42, freezing <= CT <= 40;
//	         within 0.0014 kg/m³ of DensityExact, 0.0007 from 5 g/kg and 10 °C up
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func SurfaceDensity(sa units.AbsoluteSalinity, ct ConservativeTemperature) units.Density {
	w, y, _ := reduceConservative(sa, ct, 0)
	c0 := polyP6(y, &v00)
	c1 := poly.P5(y, &v10)
	c2 := poly.P4(y, &v20)
	c3 := poly.P3(y, &v30)
	c4 := poly.P2(y, &v40)
	c5 := polyP1(y, &v50)
	return units.Density(1 / (c0 + w*(c2+w*(c4+w*v60[0])) + math.Sqrt(w)*(c1+w*(c3+w*c5))))
}

// SurfaceDensities is SurfaceDensity for a log: it sets dst[i] to the density at sa[i]
// and ct[i]. It stops at the end of the shortest of the three and returns how many it
// set, as copy does. It allocates nothing.
func SurfaceDensities(dst []units.Density, sa []units.AbsoluteSalinity, ct []ConservativeTemperature) int {
	n := min(len(dst), len(sa), len(ct))
	dst, sa, ct = dst[:n], sa[:n], ct[:n] // spares the loop its bounds checks
	for i := range dst {
		dst[i] = SurfaceDensity(sa[i], ct[i])
	}
	return n
}

// ThermalExpansion returns the thermal expansion coefficient with respect to
// Conservative Temperature.
//
//	symbol   α = (1/v) ∂v/∂CT
//	source   [RMMB15]
//	units    SA g/kg, CT °C, p dbar; result 1/K
//	range    0 <= SA <= 42, freezing <= CT <= 40, 0 <= p <= 8000, narrower in the deep
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func ThermalExpansion(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) float64 {
	v, vY := volumeAndExpansion(reduceConservative(sa, ct, p))
	return vY / (kelvinUnit * v)
}

// HalineContraction returns the saline contraction coefficient at constant
// Conservative Temperature: by what share water gets denser with a gram more
// of salt per kilogram.
//
//	symbol   β = -(1/v) ∂v/∂SA
//	source   [RMMB15]
//	units    SA g/kg, CT °C, p dbar; result kg/g
//	range    0 <= SA <= 42, freezing <= CT <= 40, 0 <= p <= 8000, narrower in the deep
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func HalineContraction(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) float64 {
	w, y, z := reduceConservative(sa, ct, p)
	c0, c1, c2, c3, c4, c5, c6 := volumeTerms(y, z)
	s := math.Sqrt(w)
	v := c0 + w*(c2+w*(c4+w*c6)) + s*(c1+w*(c3+w*c5))
	vS := c1 + w*(3*c3+w*5*c5) + s*(2*c2+w*(4*c4+w*6*c6))
	return -vS / (2 * salinityUnit * s * v)
}

// Compressibility returns the compressibility of seawater without exchange of
// heat or salt.
//
//	symbol   κ = -(1/v) ∂v/∂P
//	source   [RMMB15]
//	units    SA g/kg, CT °C, p dbar; result 1/Pa
//	range    0 <= SA <= 42, freezing <= CT <= 40, 0 <= p <= 8000, narrower in the deep
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func Compressibility(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) float64 {
	v, vZ := volumeAndCompression(reduceConservative(sa, ct, p))
	return -vZ / (pascalUnit * v)
}

// SoundSpeed returns the speed of sound.
//
//	symbol   c = v sqrt(-1/(∂v/∂P))
//	source   [RMMB15]
//	units    SA g/kg, CT °C, p dbar
//	range    0 <= SA <= 42, freezing <= CT <= 40, 0 <= p <= 8000, narrower in the deep
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func SoundSpeed(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) units.Speed {
	v, vZ := volumeAndCompression(reduceConservative(sa, ct, p))
	return units.Speed(v * math.Sqrt(-pascalUnit/vZ))
}

// Enthalpy returns the specific enthalpy: heat content by definition of
// Conservative Temperature, and the work of pressing the water.
//
//	symbol   h = 3991.86795711963 J/(kg K) · CT + ∫ v dP
//	source   [RMMB15]; [TEOS10] section 3.3
//	units    SA g/kg, CT °C, p dbar; result J/kg
//	range    0 <= SA <= 42, freezing <= CT <= 40, 0 <= p <= 8000, narrower in the deep
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func Enthalpy(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) float64 {
	return heatCapacity0*ct.celsius + pascalUnit*volumeIntegral(reduceConservative(sa, ct, p))
}

// InternalEnergy returns the specific internal energy.
//
//	symbol   u = h - P v
//	source   [RMMB15]
//	units    SA g/kg, CT °C, p dbar; result J/kg
//	range    0 <= SA <= 42, freezing <= CT <= 40, 0 <= p <= 8000, narrower in the deep
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func InternalEnergy(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) float64 {
	return Enthalpy(sa, ct, p) - (p.Decibars()*pascalDbar+atmosphere)*SpecificVolume(sa, ct, p)
}

// reduceConservative returns the variables of the polynomial: s², y and z. s²
// is NaN, and with it every sum, if water cannot be like that.
func reduceConservative(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) (w, y, z float64) {
	s := sa.GramsPerKilogram()
	w = (s + specvolOffset) * (1 / salinityUnit)
	if !possible(s, ct.celsius, p.Decibars()) {
		w = math.NaN()
	}
	return w, ct.celsius * (1. / kelvinUnit), p.Decibars() * (1 / dbarUnit)
}

// volumeTerms returns v as a polynomial in s. The salinity and its root come
// in last, so the processor can work on the rest meanwhile.
func volumeTerms(y, z float64) (c0, c1, c2, c3, c4, c5, c6 float64) {
	c0 = polyP6(y, &v00)
	c1 = poly.P5(y, &v10)
	c2 = poly.P4(y, &v20)
	c3 = poly.P3(y, &v30)
	c4 = poly.P2(y, &v40)
	c5 = polyP1(y, &v50)
	if z != 0 {
		c0 += z * (poly.P5(y, &v01) + z*(poly.P4(y, &v02)+z*(poly.P2(y, &v03)+z*(polyP1(y, &v04)+z*(v05[0]+z*v06[0])))))
		c1 += z * (poly.P4(y, &v11) + z*(poly.P3(y, &v12)+z*(polyP1(y, &v13)+z*v14[0])))
		c2 += z * (poly.P3(y, &v21) + z*(poly.P2(y, &v22)+z*v23[0]))
		c3 += z * (poly.P2(y, &v31) + z*polyP1(y, &v32))
		c4 += z * (polyP1(y, &v41) + z*v42[0])
		c5 += z * v51[0]
	}
	return c0, c1, c2, c3, c4, c5, v60[0]
}

// volumeAndCompression returns v and ∂v/∂z. Ordered by powers of z both are sums of the
// same seven polynomials in s and y.
func volumeAndCompression(w, y, z float64) (v, vZ float64) {
	s := math.Sqrt(w)
	b0 := polyP6(y, &v00) + w*(poly.P4(y, &v20)+w*(poly.P2(y, &v40)+w*v60[0])) +
		s*(poly.P5(y, &v10)+w*(poly.P3(y, &v30)+w*polyP1(y, &v50)))
	b1 := poly.P5(y, &v01) + w*(poly.P3(y, &v21)+w*polyP1(y, &v41)) + s*(poly.P4(y, &v11)+w*(poly.P2(y, &v31)+w*v51[0]))
	b2 := poly.P4(y, &v02) + w*(poly.P2(y, &v22)+w*v42[0]) + s*(poly.P3(y, &v12)+w*polyP1(y, &v32))
	b3 := poly.P2(y, &v03) + w*v23[0] + s*polyP1(y, &v13)
	b4 := polyP1(y, &v04) + s*v14[0]
	b5, b6 := v05[0], v06[0]
	v = b0 + z*(b1+z*(b2+z*(b3+z*(b4+z*(b5+z*b6)))))
	vZ = b1 + z*(2*b2+z*(3*b3+z*(4*b4+z*(5*b5+z*(6*b6)))))
	return v, vZ
}

// volumeAndExpansion returns v and ∂v/∂y. Ordered by powers of y both are sums of the
// same seven polynomials in s and z.
func volumeAndExpansion(w, y, z float64) (v, vY float64) {
	s, zz := math.Sqrt(w), z*z
	a0 := v00[0] + z*v01[0] + zz*(v02[0]+z*v03[0]+zz*(v04[0]+z*v05[0]+zz*v06[0])) +
		w*(v20[0]+z*v21[0]+zz*(v22[0]+z*v23[0])+w*(v40[0]+z*v41[0]+zz*v42[0]+w*v60[0])) +
		s*(v10[0]+z*v11[0]+zz*(v12[0]+z*v13[0]+zz*v14[0])+w*(v30[0]+z*v31[0]+zz*v32[0]+w*(v50[0]+z*v51[0])))
	a1 := v00[1] + z*v01[1] + zz*(v02[1]+z*v03[1]+zz*v04[1]) +
		w*(v20[1]+z*v21[1]+zz*v22[1]+w*(v40[1]+z*v41[1])) +
		s*(v10[1]+z*v11[1]+zz*(v12[1]+z*v13[1])+w*(v30[1]+z*v31[1]+zz*v32[1]+w*v50[1]))
	a2 := v00[2] + z*v01[2] + zz*(v02[2]+z*v03[2]) + w*(v20[2]+z*v21[2]+zz*v22[2]+w*v40[2]) +
		s*(v10[2]+z*v11[2]+zz*v12[2]+w*(v30[2]+z*v31[2]))
	a3 := v00[3] + z*v01[3] + zz*v02[3] + w*(v20[3]+z*v21[3]) + s*(v10[3]+z*v11[3]+zz*v12[3]+w*v30[3])
	a4 := v00[4] + z*v01[4] + zz*v02[4] + w*v20[4] + s*(v10[4]+z*v11[4])
	a5 := v00[5] + z*v01[5] + s*v10[5]
	a6 := v00[6]
	v = a0 + y*(a1+y*(a2+y*(a3+y*(a4+y*(a5+y*a6)))))
	vY = a1 + y*(2*a2+y*(3*a3+y*(4*a4+y*(5*a5+y*(6*a6)))))
	return v, vY
}

// volumeIntegral returns the integral of v over z from the surface down.
func volumeIntegral(w, y, z float64) float64 {
	c0 := polyP6(y, &v00) + z*(poly.P5(y, &v01)*(1./2)+z*(poly.P4(y,
		&v02)*(1./3)+z*(poly.P2(y, &v03)*(1./4)+z*(polyP1(y, &v04)*(1./5)+z*(v05[0]*(1./6)+z*v06[0]*(1./7))))))
	c1 := poly.P5(y, &v10) + z*(poly.P4(y, &v11)*(1./2)+z*(poly.P3(y,
		&v12)*(1./3)+z*(polyP1(y, &v13)*(1./4)+z*v14[0]*(1./5))))
	c2 := poly.P4(y, &v20) + z*(poly.P3(y, &v21)*(1./2)+z*(poly.P2(y, &v22)*(1./3)+z*v23[0]*(1./4)))
	c3 := poly.P3(y, &v30) + z*(poly.P2(y, &v31)*(1./2)+z*polyP1(y, &v32)*(1./3))
	c4 := poly.P2(y, &v40) + z*(polyP1(y, &v41)*(1./2)+z*v42[0]*(1./3))
	c5 := polyP1(y, &v50) + z*v51[0]*(1./2)
	return z * (c0 + w*(c2+w*(c4+w*v60[0])) + math.Sqrt(w)*(c1+w*(c3+w*c5)))
}

// The polynomials that internal/poly does not hold.

func polyP1(x float64, c *[2]float64) float64 { return c[0] + x*c[1] }

func polyP6(x float64, c *[7]float64) float64 {
	return c[0] + x*(c[1]+x*(c[2]+x*(c[3]+x*(c[4]+x*(c[5]+x*c[6])))))
}
