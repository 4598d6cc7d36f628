package teos10

// Viscosity of seawater [SLZ10, eqs. 22 and 23], the constants that the
// authors distribute; the paper prints four digits of them.
const (
	viscosityA1  = 1.5700386464e-01
	viscosityA2  = 6.4992620050e+01 // °C
	viscosityA3  = -9.1296496657e+01
	viscosityA4  = 4.2844324477e-05 // Pa s
	viscosityA5  = 1.5409136040e+00
	viscosityA6  = 1.9981117208e-02
	viscosityA7  = -9.5203865864e-05
	viscosityA8  = 7.9739318223e+00
	viscosityA9  = -7.5614568881e-02
	viscosityA10 = 4.7237011074e-04
)

// Thermal conductivity of water at 0.1 MPa [SR6, eq. 8], W/(m K).
const (
	conductivityC1 = 1.6630
	conductivityD1 = -1.15
	conductivityC2 = -1.7781
	conductivityD2 = -3.4
	conductivityC3 = 1.1567
	conductivityD3 = -6.0
	conductivityC4 = -0.432115
	conductivityD4 = -7.6
)

// What salt adds to the thermal conductivity [G10], W/(m K), t °C, P MPa.
const (
	conductivityA10 = -7.180891e-5
	conductivityA11 = 1.831971e-7
	conductivityA20 = 1.048077e-3
	conductivityA21 = -4.494722e-6
	conductivityB10 = 1.463375e-1
	conductivityB11 = 9.208586e-4
	conductivityB20 = -3.086908e-3
	conductivityB21 = 1.798489e-5
)

// Surface tension of water [R1] and of seawater [R14], N/m.
const (
	tensionB      = 235.8e-3
	tensionSmallB = -0.625
	tensionMu     = 1.256
	tensionS1     = 3.766e-1
	tensionS2     = 2.347e-3 // 1/°C
)
