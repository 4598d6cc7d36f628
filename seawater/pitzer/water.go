package pitzer

import "math"

// The constants of the limiting law, as the parameters were fitted with them: newer ones
// would put the activities off by what the fits have taken up.
//
//	source   [PHREEQC]; the universal constant of [P73], R in kJ/(mol K)
const (
	debye         = 1.2      // b, (kg/mol)^½
	molesOfWater  = 55.50837 // in a kilogram
	avogadro      = 6.02252e23
	bjerrum       = 1.671008e-3 // e²/k in electrostatic units, cm K
	gasConstant   = 8.3147e-3
	reference     = 298.15 // K
	ln10          = math.Ln10
	atmosphereBar = 1.01325
)

// debyeHuckel returns A-phi, the slope of the limiting law, at one atmosphere.
//
//	symbol   A = (1/3) (2π N ρ/1000)^½ (e²/εkT)^(3/2)
//	source   [P73] with ε of [BP79] and ρ of [WP02]
//	units    T in K; (kg/mol)^½
func debyeHuckel(t float64) float64 {
	e := bjerrum / (permittivity(t) * t)
	return math.Sqrt(2*math.Pi*avogadro*waterDensity(t)/1000) * e * math.Sqrt(e) / 3
}

// permittivity returns the relative permittivity of water at one atmosphere.
//
//	symbol   ε = D + C ln((B+p)/(B+1000))
//	source   [BP79] equations 1 to 4; T in K, p in bar
func permittivity(t float64) float64 {
	d := 342.79 * math.Exp(t*(-5.0866e-3+9.469e-7*t))
	c := -2.0525 + 3115.9/(-182.89+t)
	b := -8032.5 + 4214200/t + 2.1417*t
	return d + c*math.Log((b+atmosphereBar)/(b+1000))
}

// saturatedCoef is the density of saturated liquid water: the exponents of the sixth
// roots below go with them.
//
//	source   [WP02] equation 2.6
var saturatedCoef = [...]float64{1.99274064, 1.09965342, -0.510839303, -1.75493479, -45.5170352, -674694.45}

// waterDensity returns the density of water at one atmosphere in g/cm³.
//
//	source   [WP02] at saturation; the compression up to one atmosphere as in [PHREEQC]
func waterDensity(t float64) float64 {
	const critical, criticalDensity = 647.096, 322
	root := math.Cbrt(1 - t/critical)
	square := root * root
	fifth := square * square * root
	sixteenth := fifth * fifth * fifth * root
	forty := sixteenth * sixteenth * fifth * fifth * root    // 43
	far := forty * forty * sixteenth * fifth * square * root // 110
	a := &saturatedCoef
	saturated := criticalDensity * (1 + a[0]*root + a[1]*square + a[2]*fifth + a[3]*sixteenth + a[4]*forty + a[5]*far)
	over := 1 - math.Exp(11.6702-3816.44/(t-46.13)) + 1e-6 // atm
	c := t - 273.15
	q0 := 0.05188 + c*(-4.1885519e-4+c*(6.6780748e-6+c*(-3.6648699e-8+c*8.3501912e-11)))
	q1 := -6.0251348e-6 + c*(3.6696407e-7+c*(-9.2056269e-9+c*(6.7024182e-11+c*-1.5947241e-13)))
	q2 := -2.2983596e-9 + c*(-4.0133819e-10+c*(1.2619821e-11+c*(-9.8952363e-14+c*2.3363281e-16)))
	q3 := 7.0517647e-11 + c*(6.8566831e-12+c*(-2.282975e-13+c*(1.8113313e-15+c*-4.2475324e-18)))
	return (saturated + over*(q0+over*(q1+over*(q2+q3*math.Sqrt(over))))) / 1000
}

// mixing returns J(x) of the electrostatic mixing of two charges of one sign, x dJ/dx and
// x d/dx of that.
//
//	symbol   J = x/4 - 1 + (b0-b2)/2, b_k = z b_(k+1) - b_(k+2) + a_k
//	source   [H81], Chebyshev series up to x = 1 and above
func mixing(x float64) (j, first, second float64) {
	a, z, half, slope := &mixingAbove, 0., 0., -0.1 // half is half of dz/d(ln x), slope is d(ln half)/d(ln x)
	if x <= 1 {
		root := math.Pow(x, 0.2)
		a, z, half, slope = &mixingBelow, 4*root-2, 0.4*root, 0.2
	} else {
		root := math.Pow(x, -0.1)
		z, half = (40*root-22)/9, -2./9*root
	}
	var b, b1, b2, d, d1, d2, e, e1, e2 float64
	for k := len(a) - 1; k >= 0; k-- {
		e2, e1 = e1, e
		e = 2*d + z*e1 - e2
		d2, d1 = d1, d
		d = b + z*d1 - d2
		b2, b1 = b1, b
		b = z*b1 - b2 + a[k]
	}
	first = half * (d - d2)
	return x/4 - 1 + (b-b2)/2, x/4 + first, x/4 + slope*first + 2*half*half*(e-e2)
}

// The series of [H81], read in [PHREEQC].
var (
	mixingBelow = [21]float64{
		1.925154014814667,
		-0.060076477753119,
		-0.029779077456514,
		-0.007299499690937,
		0.000388260636404,
		0.000636874599598,
		3.6583601823e-05,
		-4.5036975204e-05,
		-4.53789571e-06,
		2.937706971e-06,
		3.96566462e-07,
		-2.02099617e-07,
		-2.5267769e-08,
		1.352261e-08,
		1.229405e-09,
		-8.21969e-10,
		-5.0847e-11,
		4.6333e-11,
		1.943e-12,
		-2.563e-12,
		-1.0991e-11,
	}
	mixingAbove = [21]float64{
		0.628023320520852,
		0.462762985338493,
		0.150044637187895,
		-0.028796057604906,
		-0.036552745910311,
		-0.001668087945272,
		0.006519840398744,
		0.001130378079086,
		-0.000887171310131,
		-0.000242107641309,
		8.7294451594e-05,
		3.4682122751e-05,
		-4.583768938e-06,
		-3.548684306e-06,
		-2.5045388e-07,
		2.16991779e-07,
		8.077957e-08,
		4.558555e-09,
		-6.944757e-09,
		-2.849257e-09,
		2.37816e-10,
	}
)
