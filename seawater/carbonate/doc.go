// Package carbonate answers for the CO2 system of seawater: what is the pH of
// water of a known alkalinity and dissolved inorganic carbon, can a coral
// build in it, what will it be after aeration, a dose or a water change, how
// much of the ammonia is poisonous.
//
// Any two of alkalinity, DIC, pH, CO2 (dissolved, as fugacity or as partial
// pressure), bicarbonate and carbonate settle all the rest:
//
//	c := carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{})
//	s, err := c.Solve(carbonate.Alkalinity(2300), carbonate.PartialPressure(420), carbonate.Nutrients{})
//	s.PH().Value() // 8.026 on the total scale
//	s.Aragonite()  // 3.27
//
// Constants hold for one salinity and temperature; keep them and solve with
// them again. A [System] is the whole speciation of one water and carries its
// constants. A [Water] is what mixing and dosing conserve.
//
// Everything is at the surface, under one atmosphere: ten metres of water
// would change K1 by 0.1 percent. Contents are per kilogram of water. A test
// kit shows alkalinity per litre, 2 to 3 percent more in number:
// units.Alkalinity.PerKilogram takes it here with the density. A pH is on the
// total scale unless its type says otherwise; an electrode set in dilute
// buffers shows an NBSPH.
//
// The solver ends for every input. Alkalinity with DIC, CO2 or bicarbonate is
// a falling function of [H] with one root, which a bracket from the limits of
// its acids holds [M13, M21]. Alkalinity with carbonate, and DIC with
// bicarbonate, can have two solutions or none, which Solve says.
//
// # Symbols
//
//	S, t, T  practical salinity; temperature in °C and in kelvin, ITS-90
//	TA       total alkalinity [D81]
//	DIC      [CO2] + [HCO3] + [CO3]
//	h        [H] on the total scale, mol/kg
//	K0 ...   equilibrium constants, see the fields of Constants
//	TS, TF   total sulfate and fluoride
//	Omega    saturation state: ion product over solubility product
//	I        ionic strength, mol per kg of water
//
// # Sources
//
//	[B08]  Bell, Johnson, Jickells and Liss (2007, 2008), Environ. Chem. 4,
//	       183-186, and corrigendum 5, 258.
//	[CW]   Cai and Wang (1998), Limnol. Oceanogr. 43, 657-668.
//	[CW95] Clegg and Whitfield (1995), Geochim. Cosmochim. Acta 59, 2403-2421.
//	[D81]  Dickson (1981), Deep-Sea Res. 28A, 609-623.
//	[D90a] Dickson (1990), Deep-Sea Res. 37, 755-766.
//	[D90b] Dickson (1990), J. Chem. Thermodyn. 22, 113-127.
//	[BMB]  Bischoff, Mackenzie and Bishop (1987), Geochim. Cosmochim. Acta 51, 1413-1423.
//	[DM87] Dickson and Millero (1987), Deep-Sea Res. 34, 1733-1743.
//	[DR]   Dickson and Riley (1979), Mar. Chem. 7, 89-99.
//	[DSC]  Dickson, Sabine and Christian (2007), Guide to best practices for
//	       ocean CO2 measurements, PICES Special Publication 3.
//	[E10]  Egleston, Sabine and Morel (2010), Global Biogeochem. Cycles 24,
//	       GB1002.
//	[GP]   Goyet and Poisson (1989), Deep-Sea Res. 36, 1635-1654.
//	[GUM]  JCGM 100:2008, Guide to the expression of uncertainty in measurement.
//	[K77]  Khoo, Ramette, Culberson and Bates (1977), Anal. Chem. 49, 29-34.
//	[KUL]  Kuliński et al. (2018), total boron of the Baltic Sea.
//	[LDK]  Lueker, Dickson and Keeling (2000), Mar. Chem. 70, 105-119.
//	[LEE]  Lee et al. (2010), Geochim. Cosmochim. Acta 74, 1801-1811.
//	[M02]  Millero et al. (2002), Deep-Sea Res. I 49, 1705-1723.
//	[M06]  Millero et al. (2006), Mar. Chem. 100, 80-94.
//	[M10]  Millero (2010), Mar. Freshw. Res. 61, 139-142.
//	[M13]  Munhoven (2013), Geosci. Model Dev. 6, 1367-1388.
//	[M21]  Munhoven (2021), Geosci. Model Dev. 14, 4225-4240.
//	[M79]  Millero (1979), Geochim. Cosmochim. Acta 43, 1651-1661.
//	[M95]  Millero (1995), Geochim. Cosmochim. Acta 59, 661-677.
//	[MP98] Millero and Pierrot (1998), Aquat. Geochem. 4, 153-199.
//	[MPF]  Millero, Plese and Fernandez (1988), Limnol. Oceanogr. 33, 269-274.
//	[MPM]  Mojica Prieto and Millero (2002), Geochim. Cosmochim. Acta 66,
//	       2529-2540.
//	[MR]   Morris and Riley (1966), Deep-Sea Res. 13, 699-705.
//	[MUC]  Mucci (1983), Am. J. Sci. 283, 780-799.
//	[P18]  Papadimitriou et al. (2018), Geochim. Cosmochim. Acta 220, 55-70.
//	[PF]   Perez and Fraga (1987), Mar. Chem. 21, 161-168.
//	[PM74] Plummer and Mackenzie (1974), Am. J. Sci. 274, 61-83.
//	[R93]  Roy et al. (1993), Mar. Chem. 44, 249-267; errata 45, 337 and 52, 183.
//	[RC]   Millero, Feistel, Wright and McDougall (2008), Deep-Sea Res. I 55,
//	       50-72: the reference composition.
//	[RIL]  Riley (1965), Deep-Sea Res. 12, 219-220.
//	[RT]   Riley and Tongudai (1967), Chem. Geol. 2, 263-269.
//	[SB]   Schockman and Byrne (2021), Geochim. Cosmochim. Acta.
//	[SJF]  Sverdrup, Johnson and Fleming (1942), The Oceans.
//	[SLH]  Sulpis, Lauvset and Hagens (2020), Ocean Sci. 16, 847-862.
//	[T82]  Takahashi et al. (1982), GEOSECS Pacific Expedition 3, p. 80.
//	[UPP]  Uppström (1974), Deep-Sea Res. 21, 161-162.
//	[W74]  Weiss (1974), Mar. Chem. 2, 203-215.
//	[WM]   Waters and Millero (2013), Mar. Chem. 149, 8-22.
//	[WMW]  Waters, Millero and Woosley (2014), Mar. Chem. 165, 66-67.
//	[WP]   Weiss and Price (1980), Mar. Chem. 8, 347-359.
//	[YM]   Yao and Millero (1995), Aquat. Geochem. 1, 53-88.
package carbonate
