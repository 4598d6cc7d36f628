package carbonate

// The coefficients of K1 and K2: two rows a set, that of K1 and that of K2, in
// the order in which the formula of their family in k1k2.go takes them.
// T is in kelvin, log is the decimal and ln the natural logarithm.

// [LDK] eqs 16 and 17; total scale, mol/kg. Mehrbach's data.
var luekerCoef = [2][5]float64{
	{3633.86, -61.2172, 9.6777, -0.011555, 0.0001152},
	{471.78, 25.929, -3.16967, -0.01781, 0.0001122},
}

// [DM87] table 4; seawater scale, mol/kg. Mehrbach's data.
var mehrbachCoef = [2][5]float64{
	{3670.7, -62.008, 9.7944, -0.0118, 0.000116},
	{1394.7, 4.777, 0, -0.0184, 0.000118},
}

// [DM87] table 4, with e of K2 as mended since (the paper misprints 0.000116);
// seawater scale, mol/kg. Hansson's data.
var hanssonCoef = [2][5]float64{
	{851.4, 3.237, 0, -0.0106, 0.000105},
	{-3885.4, 125.844, -18.141, -0.0192, 0.000132},
}

// [DM87] table 5; seawater scale, mol/kg. Both together.
var hanssonMehrbachCoef = [2][5]float64{
	{845, 3.248, 0, -0.0098, 8.7e-5},
	{1377.3, 4.824, 0, -0.0185, 0.000122},
}

// [SLH] table 1; total scale, mol/kg.
var sulpisCoef = [2][5]float64{
	{8510.63, -172.4493, 26.32996, -0.011555, 0.0001152},
	{4226.23, -59.4636, 9.60817, -0.01781, 0.0001122},
}

// [R93] eqs 29 and 30 with their errata; total scale, mol per kg of water.
var royCoef = [2][7]float64{
	{2.83655, -2307.1266, -1.5529413, -0.20760841, -4.0484, 0.08468345, -0.00654208},
	{-9.226508, -3351.6106, -0.2005743, -0.106901773, -23.9722, 0.1130822, -0.00846934},
}

// [GP] table 5; seawater scale, mol/kg.
var goyetPoissonCoef = [2][4]float64{
	{812.27, 3.356, -0.00171, 9.1e-5},
	{1450.87, 4.604, -0.00385, 0.000182},
}

// [M06]; seawater scale, mol/kg. The first three are those of fresh water.
var millero2006Coef = [2][9]float64{
	{-126.34048, 6320.813, 19.568224, 13.4191, 0.0331, -5.33e-5, -530.123, -6.103, -2.0695},
	{-90.18333, 5143.692, 14.613358, 21.0894, 0.1248, -0.0003687, -772.483, -20.051, -3.3336},
}

// [M10] tables 2 and 3, columns of the seawater scale; mol/kg.
var millero2010Coef = [2][9]float64{
	{-126.34048, 6320.813, 19.568224, 13.4038, 0.03206, -5.242e-5, -530.659, -5.821, -2.0664},
	{-90.18333, 5143.692, 14.613358, 21.3728, 0.1218, -0.0003688, -788.289, -19.189, -3.374},
}

// [WMW], columns of the seawater scale; mol/kg.
var waters2014Coef = [2][9]float64{
	{-126.34048, 6320.813, 19.568224, 13.40916, 0.031646, -5.1895e-5, -531.3642, -5.713, -2.0669166},
	{-90.18333, 5143.692, 14.613358, 21.22589, 0.1245087, -0.00037243, -779.3444, -19.91739, -3.3534679},
}

// [WMW], columns of the total scale; mol/kg.
var waters2014TotalCoef = [2][9]float64{
	{-126.34048, 6320.813, 19.568224, 13.568513, 0.031645, -5.3834e-5, -539.2304, -5.635, -2.0901396},
	{-90.18333, 5143.692, 14.613358, 21.389248, 0.12452358, -0.00037447, -787.3736, -19.84233, -3.3773006},
}

// [MPM] K1; seawater scale, mol/kg.
var mojicaK1Coef = [...]float64{-43.6977, -0.0129037, 0.0001364, 2885.378, 7.045159}

// [MPM] K2; seawater scale, mol/kg.
var mojicaK2Coef = [...]float64{-452.094, 13.142162, -0.0008101, 21263.61, 68.483143, -581.4428, 0.259601, -1.967035}

// [M02] p. 1715; seawater scale, mol/kg. The only set in degrees Celsius.
var millero2002Coef = [2][4]float64{
	{6.359, -0.00664, -0.01322, 4.989e-5},
	{9.867, -0.01314, -0.01904, 2.448e-5},
}

// [CW]; NBS scale, mol/kg.
var caiWangCoef = [2][7]float64{
	{3404.71, 0.032786, -14.8435, -0.071692, 0.0021487, 200.1, 0.322},
	{2902.39, 0.02379, -6.498, -0.3191, 0.0198, -129.24, 1.4381},
}

// [M79]; pure water, where all scales are one; mol per kg.
var millero1979Coef = [2][3]float64{
	{290.9097, -14554.21, -45.0575},
	{207.6548, -11843.79, -33.6485},
}

// [SB] K2; total scale, mol/kg. Its K1 is that of [WMW] on the total scale.
var schockmanByrneK2Coef = [...]float64{116.8067, -3655.02, -16.45817, 0.04523, -0.615, -0.0002799, 4.969}

// [P18]; total scale, mol/kg.
var papadimitriouCoef = [2][9]float64{
	{-176.48, 6.14528, -0.127714, 7.396e-5, 9914.37, -622.886, 29.714, 26.05129, -0.666812},
	{-323.52692, 27.557655, 0.154922, -0.000248396, 14763.287, -1014.819, -14.35223, 50.385807, -4.4630415},
}
