// Package eos80 is the set of seawater equations that UNESCO published in 1983:
// the equation of state EOS-80 and its companions for heat capacity, speed of
// sound, freezing point, adiabatic lapse rate, potential temperature and depth.
// How heavy is a litre of this water, how much heat does it hold, when does it
// freeze?
//
// TEOS-10 has superseded these equations; instruments, tables and a great
// deal of older work still rest on them.
//
// Temperatures come and go on ITS-90 and are turned into the IPTS-68 of the
// equations inside. What is counted per kelvin (heat capacity, lapse rate) is
// the published number, per kelvin of IPTS-68; per kelvin of ITS-90 a heat
// capacity is 0.024 % larger and a lapse rate as much smaller.
//
// # Symbols
//
//	S     practical salinity, a pure number
//	T     temperature on IPTS-68, °C; T = 1.00024 t [S90]
//	t     temperature on ITS-90, °C, the one that the functions take
//	p     sea pressure, dbar in the functions; P is the same in bar, P = p/10
//	rho   density, kg/m³
//	K     secant bulk modulus, bar
//	cp    heat capacity at constant pressure, J/(kg K)
//	U     speed of sound, m/s
//
// # Sources
//
//	[U44]   Fofonoff and Millard (1983), Algorithms for computation of
//	        fundamental properties of seawater, UNESCO Technical Papers in
//	        Marine Science 44. It prints all that follow.
//	[MP81]  Millero and Poisson (1981), International one-atmosphere equation
//	        of state of seawater, Deep-Sea Res. 28A, 625-629.
//	[MCBS]  Millero, Chen, Bradshaw and Schleicher (1980), A new high pressure
//	        equation of state for seawater, Deep-Sea Res. 27A, 255-264.
//	[MPD]   Millero, Perron and Desnoyers (1973), Heat capacity of seawater
//	        solutions from 5° to 35 °C and 0.5 to 22 ‰ chlorinity, J. Geophys.
//	        Res. 78, 4499-4507.
//	[CM77]  Chen and Millero (1977), Speed of sound in seawater at high
//	        pressures, J. Acoust. Soc. Am. 62, 1129-1135.
//	[M78]   Millero (1978), Freezing point of sea water, in the eighth report
//	        of the Joint Panel on Oceanographic Tables and Standards, UNESCO
//	        Technical Papers in Marine Science 28, annex 6.
//	[B73]   Bryden (1973), New polynomials for thermal expansion, adiabatic
//	        temperature gradient and potential temperature of sea water,
//	        Deep-Sea Res. 20, 401-408.
//	[F77]   Fofonoff (1977), Computation of potential temperature of seawater
//	        for an arbitrary reference pressure, Deep-Sea Res. 24, 489-491.
//	[SF76]  Saunders and Fofonoff (1976), Conversion of pressure to depth in
//	        the ocean, Deep-Sea Res. 23, 109-111.
//	[S90]   Saunders (1990), The International Temperature Scale of 1990,
//	        ITS-90, WOCE Newsletter 10.
package eos80
