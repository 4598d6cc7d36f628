// Package teos10 is the Thermodynamic Equation of Seawater 2010: what a sample
// of pure water or seawater weighs, holds in heat, conducts and freezes at,
// from its absolute salinity, its temperature and its pressure.
//
// Two families answer the same questions, and the type of the temperature
// keeps them apart:
//
//   - [Density], [SoundSpeed], [Enthalpy] and whatever else takes a
//     [ConservativeTemperature] are the 75-term polynomial for specific volume
//     [RMMB15]. They hold up to 42 g/kg and pay where Conservative Temperature
//     is at hand already.
//   - [DensityExact], [HeatCapacityExact] and the other names with Exact are
//     derivatives of the Gibbs function of seawater [SR7] [R13]. They take the
//     in-situ temperature that a thermometer shows and hold up to 120 g/kg.
//     "Exact" is the word of TEOS-10 for them: nothing is fitted a second time.
//     So do [FreezingTemperature], the chemical potentials, [OsmoticPressure] and
//     the transport properties, of which there is one form only.
//
// Beside them stand ice, [GibbsIce] [R10], and water that is too hot for both, up to
// 100 °C, but only at the pressure of the air: [HotDensity] and the other names with Hot.
//
// From a thermometer take the exact form: at the surface it is as fast as the
// other with the conversion that it needs.
//
// Density of the two differs by at most 0.0014 kg/m³ up to 1000 dbar, by 0.0007
// in the warm salt water of a tank.
//
// Conservative Temperature is heat content in degrees: heat mixes with it as
// mass does. At the surface it lies within 0.04 K of what the thermometer shows
// at practical salinity 35, but up to 2 K above it in fresh water: taking the one
// for the other does no harm in seawater and costs 0.3 kg/m³ in pure water of 25
// °C. [ConservativeFromInSitu] and [InSituFromConservative] go from one to the
// other.
//
// Absolute salinity is in g/kg. [AbsoluteFromPractical] takes the salt to
// have the composition of standard seawater; [DensitySalinity] corrects for
// measured alkalinity, carbon, nitrate and silicate. The geographic atlas of
// salinity anomalies, which TEOS-10 needs for the open ocean, is left out: a
// tank has no longitude.
//
// For old books and silver titrations, [PracticalFromChlorinity], [PracticalFromKnudsen],
// [IPTS68] and [IPTS48] lead from the scales before 1978 and 1990 to those of today.
//
// # Symbols
//
//	SA  absolute salinity, g/kg           ξ  sqrt(SA/SA_u), SA_u = 40 g/kg · 35.16504/35
//	t   in-situ temperature, °C ITS-90    τ  t/40 °C
//	T   t + 273.15 K                      s  sqrt((SA + 24 g/kg)/SA_u)
//	CT  Conservative Temperature, °C      y  CT/40 °C
//	pt  potential temperature, °C         z  p/10⁴ dbar, also π
//	p   sea pressure, dbar                P  p + 101325 Pa
//	g   specific Gibbs energy, J/kg       v  specific volume, m³/kg
//
// A subscript is a derivative: g_TP = ∂²g/∂T∂P. Derivatives are per g/kg, per
// K and per Pa.
//
// # Meaningless input
//
// NaN, an infinity, a salinity below 0 or above 1000 g/kg and a temperature
// below absolute zero give NaN. Outside the published ranges the functions
// extrapolate, and each family has its CheckRange.
//
// # Sources
//
//	[TEOS10] IOC, SCOR, IAPSO 2010, The international thermodynamic equation of
//	         seawater 2010, UNESCO Manuals and Guides 56; McDougall and Barker
//	         2011, Getting started with TEOS-10 and the Gibbs Seawater (GSW)
//	         Oceanographic Toolbox
//	[RMMB15] Roquet, Madec, McDougall, Barker 2015, Ocean Modelling 90, 29-43
//	[SR7]    IAPWS SR7-09, Supplementary Release on a Computationally Efficient
//	         Thermodynamic Formulation for Liquid Water for Oceanographic Use
//	[R13]    IAPWS R13-08, Release on the Formulation 2008 for the Thermodynamic
//	         Properties of Seawater
//	[F03]    Feistel 2003, Progress in Oceanography 58, 43-114
//	[F08]    Feistel 2008, Deep-Sea Research I 55, 1639-1671
//	[R10]    IAPWS R10-06(2009), Revised Release on the Equation of State 2006
//	         for H2O Ice Ih
//	[FW06]   Feistel, Wagner 2006, J. Phys. Chem. Ref. Data 35, 1021-1047
//	[MFWM08] Millero, Feistel, Wright, McDougall 2008, Deep-Sea Research I 55, 50-72
//	[PWM11]  Pawlowicz, Wright, Millero 2011, Ocean Science 7, 363-387
//	[SLZ10]  Sharqawy, Lienhard, Zubair 2010, Desalination and Water Treatment 16,
//	         354-380
//	[SR6]    IAPWS SR6-08(2011), Revised Supplementary Release on Properties of
//	         Liquid Water at 0.1 MPa
//	[G10]    IAPWS G10-15, Guideline on the Thermal Conductivity of Seawater
//	[R1]     IAPWS R1-76(2014), Revised Release on Surface Tension of Ordinary
//	         Water Substance
//	[R14]    IAPWS R14-19, Release on the Surface Tension of Seawater
//	[WP02]   Wagner, Pruss 2002, J. Phys. Chem. Ref. Data 31, 387-535
//	[K01]    Knudsen 1901, Hydrographical tables, Copenhagen
//	[JK40]   Jacobsen, Knudsen 1940, Primary standard seawater 1937, Publication
//	         Scientifique 7, Association d'Océanographie Physique
//	[W69]    Wooster, Lee, Dietrich 1969, Limnology and Oceanography 14, 437-438
//	[S90]    Saunders 1990, WOCE Newsletter 10
package teos10
