// Package gas is about what goes between a water and the air above it: how much
// oxygen it should hold, whether so much gas in it is dangerous, how long a batch
// has to be aerated until its pH is steady, how long the oxygen lasts when the pump
// stops, and how much evaporates.
//
//	p := gas.PressureAtAltitude(1609 * units.Metre)
//	c := gas.Oxygen.Saturation(units.Practical(35), units.Celsius(26), p) // 166 µmol/kg
//
// Saturation is balance with air that is itself saturated with water vapour, at the
// pressure that a barometer shows beside the tank. Weather reports give one
// reduced to sea level; StationPressure undoes that.
//
// A log of oxygen on its way to saturation gives a TransferRate (FitDeficit,
// FitCurve), and that of oxygen gives that of carbon dioxide (TransferRate.Of). The
// pH still takes ten to thirty times as long as oxygen, because the carbon dioxide
// that leaves is made again from bicarbonate: Aeration counts that.
//
// Evaporation is an estimate with a low and a high end at least a factor of four
// apart. The best formula is the bucket from which the tank is topped up.
//
// # Symbols
//
//	S, t, T   practical salinity; temperature in °C and in kelvin
//	p         pressure of the air; pH2O of the vapour over the water
//	C, Cs     content of a gas, and at saturation
//	x         share of a gas in dry air
//	θ         deviation of oxygen from Henry's law, per atm
//	kLa       transfer rate, per hour
//	Sc, D     Schmidt number; diffusivity
//	DIC       dissolved inorganic carbon
//	E, L, Q   evaporation, kg/(m² h); heat of evaporation, J/kg; heat, W
//	pa, pw    vapour pressure of the room, and at the water
//	W, φ      humidity ratio, kg of vapour per kg of dry air; relative humidity
//	ΔP        total gas pressure less that of the barometer
//
// # Temperature
//
// All temperatures are ITS-90. The fits of oxygen and of Weiss 1970 stand on
// IPTS-68, and turn it inside (0.01 % of the oxygen at 25 °C); carbon dioxide
// and water vapour are read on ITS-90 as package carbonate reads them.
//
// # Sources
//
// Numbers of equations and pages are from memory, except those of [GG92].
//
//	[ASCE]    ASCE/EWRI 2-06, Measurement of oxygen transfer in clean water.
//	[ASHRAE]  ASHRAE Handbook, Fundamentals (2017), chapter 1, Psychrometrics.
//	[BK84]    Benson and Krause (1984), Limnol. Oceanogr. 29, 620-632.
//	[CARRIER] Carrier (1918), Trans. ASHVE 24; as in the ASHRAE Handbook, HVAC
//	          Applications, natatoriums.
//	[FH67]    Ferrell and Himmelblau (1967), J. Chem. Eng. Data 12, 111-115.
//	[GG92]    Garcia and Gordon (1992), Limnol. Oceanogr. 37, 1307-1312; erratum
//	          (1993) 38, 656.
//	[GUM]     JCGM 100:2008, Guide to the expression of uncertainty in measurement.
//	[HE04]    Hamme and Emerson (2004), Deep-Sea Res. I 51, 1517-1528.
//	[HW83]    Hyland and Wexler (1983), ASHRAE Trans. 89, 500-519.
//	[J87]     Jähne, Heinz and Dietrich (1987), J. Geophys. Res. 92, 10767-10776, and
//	          Jähne et al. (1987), J. Geophys. Res. 92, 1937-1949.
//	[SHAH]    Shah (2002), Energy and Buildings; (2014), ASHRAE Trans. 120.
//	[TEOS10]  see package teos10.
//	[US76]    US Standard Atmosphere 1976.
//	[VDI]     VDI 2089 part 1, Building services in swimming baths.
//	[W14]     Wanninkhof (2014), Limnol. Oceanogr. Methods 12, 351-362.
//	[W70]     Weiss (1970), Deep-Sea Res. 17, 721-735.
//	[W74]     Weiss (1974), Mar. Chem. 2, 203-215.
//	[W92]     Wanninkhof (1992), J. Geophys. Res. 97, 7373-7382.
//	[WP80]    Weiss and Price (1980), Mar. Chem. 8, 347-359.
package gas
