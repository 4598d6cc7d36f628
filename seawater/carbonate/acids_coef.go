package carbonate

// The coefficients of the other acids, in the order in which their formulas in
// acids.go take them. T is in kelvin.

// [D90a] ln KB; total scale, mol/kg.
var kbCoef = [...]float64{
	-8966.9,  // a
	-2890.53, // b
	-77.942,  // c
	1.728,    // d
	-0.0996,  // e
	148.0248, // f
	137.1942, // g
	1.62142,  // h
	-24.4344, // i
	-25.085,  // j
	-0.2474,  // k
	0.053105, // l
}

// [M95] eq. 63, ln KW; seawater scale, (mol/kg)².
var kwCoef = [...]float64{
	148.9802,  // a
	-13847.26, // b
	-23.6521,  // c
	-5.977,    // d
	118.67,    // e
	1.0495,    // f
	-0.01615,  // g
}

// [D90b] eqs 22 and 23 with table 4, ln KS; free scale, mol per kg of water.
var ksDicksonCoef = [...]float64{
	-4276.1, // a
	141.328, // b
	-23.093, // c
	-13856,  // d
	324.57,  // e
	-47.986, // f
	35474,   // g
	-771.54, // h
	114.723, // i
	-2698,   // j
	1776,    // k
}

// [K77] eq. 20, pKS; free scale, mol per kg of water.
var ksKhooCoef = [...]float64{
	647.59,   // a
	-6.3451,  // b
	0.019085, // c
	-0.5208,  // d
}

// [WM] with the corrigendum [WMW], log KS; free scale, mol per kg of water.
var ksWatersMilleroCoef = [...]float64{
	562.69486,     // a
	-102.5154,     // b
	-0.0001117033, // c
	0.2477538,     // d
	-13273.76,     // e
	4.24666,       // f
	-0.152671,     // g
	0.0267059,     // h
	-4.2128e-5,    // i
	0.2542181,     // j
	-0.00509534,   // k
	0.00071589,    // l
	-0.00291179,   // m
	2.09968e-5,    // n
	-4.03724e-5,   // o
}

// [DR] ln KF; free scale, mol per kg of water.
var kfDicksonRileyCoef = [...]float64{
	1590.2,  // a
	-12.641, // b
	1.525,   // c
}

// [PF] as given by [DSC], ln KF; total scale, mol/kg.
var kfPerezFragaCoef = [...]float64{
	874,   // a
	-9.68, // b
	0.111, // c
}

// [YM] KP1, KP2, KP3 of phosphoric acid; seawater scale, mol/kg.
var kpCoef = [3][7]float64{
	{115.54, -4576.752, -18.453, 0.69171, -106.736, -0.01844, -0.65643},
	{172.1033, -8814.715, -27.927, 1.3566, -160.34, -0.05778, 0.37335},
	{-18.126, -3070.75, 0, 2.81197, 17.27039, -0.09984, -44.99486},
}

// [YM], [M95] eq. 72, ln KSi; seawater scale, mol per kg of water.
var ksiCoef = [...]float64{
	117.4,    // a
	-8904.2,  // b
	-19.334,  // c
	3.5913,   // d
	-458.79,  // e
	-1.5998,  // f
	188.74,   // g
	0.07871,  // h
	-12.1652, // i
}

// [MPF] ln KH2S; total scale, mol/kg.
var kh2sCoef = [...]float64{
	225.838,  // a
	-13275.3, // b
	-34.6435, // c
	0.3449,   // d
	-0.0274,  // e
}

// [CW95] eq. 18, pK of ammonium; total scale, mol per kg of water.
var cleggWhitfieldCoef = [...]float64{
	9.244605,      // a
	-2729.33,      // b
	0.04203362,    // c
	-11.24742,     // d
	-13.6416,      // e
	1.176949,      // f
	-0.02860785,   // g
	545.4834,      // h
	-0.1462507,    // i
	0.0090226468,  // j
	-0.0001471361, // k
	10.5425,       // l
	0.004669309,   // m
	-0.0001691742, // n
	-0.5677934,    // o
	-2.354039e-5,  // p
	0.009698623,   // q
}

// [CW95] pK of ammonium; free scale, mol per kg of water. Copies of the paper
// disagree on a7: 7.1047e-5 instead moves pK by 4e-4 at salinity 35.
var cleggWhitfieldFreeCoef = [...]float64{
	9.244605,     // a
	-2729.33,     // b
	0.0500616,    // a1
	-9.412696,    // a2
	-2.029559e-7, // a3
	-0.0142372,   // a4
	1.46041e-5,   // a5
	3.730005,     // a6
	7.14045e-5,   // a7
	-0.0229021,   // a8
	-5.521278e-7, // a9
	0.000195413,  // a10
}

// [B08] pK of ammonium, t in °C; mol per kg of water. The paper names no scale;
// its data are those of Khoo et al. 1977, which are on the free scale.
var bellCoef = [...]float64{
	10.0423,    // a
	-0.0315536, // b
	0.003071,   // c
}

// [YM] ln K of ammonium; seawater scale, mol/kg.
var yaoMilleroCoef = [...]float64{
	-0.25444,  // a
	-6285.33,  // b
	0.0001635, // c
	0.46532,   // d
	-123.7184, // e
	-0.01992,  // f
	3.17556,   // g
}
