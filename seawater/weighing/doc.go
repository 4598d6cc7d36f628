// Package weighing gets salinity and volume from a balance: what salinity is the
// water that fills this flask and weighs so much, what does the line on this jug
// hold, what does one stroke of this dosing pump deliver?
//
// A kitchen balance and a jug are the cheapest check there is of a refractometer.
// A litre of salinity 35 is 26.3 g heavier than a litre of pure water at 25 °C, and
// a step of 1 g is 1.3 g/kg of salinity. The line of the jug is not good enough for
// that, but it need not be: [Flask.Calibrated] fills it with pure water on the same
// balance first, and the error of the line and of the balance fall out.
//
// The air carries a thousandth of the weight of water. A balance is set with weights
// of steel, which the air carries less, so it shows a litre of water 1.05 g too
// light; that too is undone here. Vessels grow with temperature: glass hardly,
// plastic by 0.1 to 0.3 % over 5 K.
//
// # Symbols
//
//	W    what the balance shows, g
//	ρ    density of the water, ρa of the air, kg/m³; ρb = 8000 of the weights of the balance
//	V    volume that the vessel holds at the temperature t; V0 at the temperature t0
//	g    cubic expansion of the vessel, 1/K
//	Z    volume that a balance reading of one gram of pure water stands for, mL/g
//	p    pressure of the air; h its relative humidity as a fraction
//
// # Sources
//
//	[P08]   Picard, Davis, Gläser and Fujii (2008), Revised formula for the density of
//	        moist air (CIPM-2007), Metrologia 45, 149-155.
//	[D28]   OIML D 28, Conventional value of the result of weighing in air.
//	[I4787] ISO 4787, Laboratory glass and plastic ware - Volumetric instruments -
//	        Methods for testing of capacity and for use; ISO 8655-6 has the same Z.
//	[T01]   Tanaka et al. (2001), see package hydrometer.
//	[R13]   IAPWS R13-08, the Gibbs function of seawater, see package teos10.
//	[GUM]   JCGM 100:2008, Guide to the expression of uncertainty in measurement.
package weighing
