package teos10

// Liquid water at 0.1 MPa, IAPWS SR6-08(2011) [SR6] tables 1 and 2, from memory of the
// printed tables; the digits are held against values of other origin, see the
// tests. With T in kelvin, τ = T/10 K, α = 10 K/(593 K - T), β = 10 K/(T - 232 K),
//
//	g/(R T_R) = c1 + c2 τ + c3 τ ln τ + Σ a_i α^n_i + Σ b_i β^m_i
//	v p0/(R T_R) = a5 + Σ a_i α^n_i + Σ b_i β^m_i
//	∂v/∂p p0²/(R T_R) = Σ a_i α^n_i + Σ b_i β^m_i
//
// The numbers of a name count as in the tables. c1 and c2 only set where energy
// and entropy are counted from, and c2 is in neither of what is asked of it here.
const (
	hotR  = 461.51805 // J/(kg K)
	hotTR = 10        // K
	hotP0 = 1e5       // Pa

	hotPoleA = 593 // K
	hotPoleB = 232

	hotC1 = -2.452093414e2
	hotC3 = -8.983025854

	hotA1 = -1.661470539e5  // n = 4
	hotA2 = 2.708781640e6   // 5
	hotA3 = -1.557191544e8  // 7
	hotB1 = -8.237426256e-1 // m = 2
	hotB2 = 1.908956353     // 3
	hotB3 = -2.017597384    // 4
	hotB4 = 8.546361348e-1  // 5

	hotA5  = 1.93763157e-2
	hotA6  = 6.74458446e3   // n = 4
	hotA7  = -2.22521604e5  // 5
	hotA8  = 1.00231247e8   // 7
	hotA9  = -1.63552118e9  // 8
	hotA10 = 8.32299658e9   // 9
	hotB5  = 5.78545292e-3  // m = 1
	hotB6  = -1.53195665e-2 // 2
	hotB7  = 3.11337859e-2  // 3
	hotB8  = -4.23546241e-2 // 4
	hotB9  = 3.38713507e-2  // 5
	hotB10 = -1.19946761e-2 // 6

	hotA11 = -7.5245878e-6 // n = 1
	hotA12 = -1.3767418e-2 // 3
	hotA13 = 1.0627293e1   // 5
	hotA14 = -2.0457795e2  // 6
	hotA15 = 1.2037414e3   // 7
	hotB11 = -3.1091470e-6 // m = 1
	hotB12 = 2.8964919e-5  // 3
	hotB13 = -1.3112763e-4 // 4
	hotB14 = 3.0410453e-4  // 5
	hotB15 = -3.9034594e-4 // 6
	hotB16 = 2.3403117e-4  // 7
	hotB17 = -4.8510101e-5 // 9
)

// What salt adds to the density of hot water [SLZ10] eq. 8, kg/m³ with s in kg/kg
// and t in °C, from memory:
//
//	Δρ = s (b1 + b2 t + b3 t² + b4 t³ + b5 s t²)
const (
	hotSaltB1 = 8.020e2
	hotSaltB2 = -2.001
	hotSaltB3 = 1.677e-2
	hotSaltB4 = -3.060e-5
	hotSaltB5 = -1.613e-5
)
