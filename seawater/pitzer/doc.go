// Package pitzer answers for strong solutions: which of these salts falls out of a stock,
// how far a water is from brucite or gypsum, what happens when water is poured onto dry
// salt, how strong a stock may be that stays clear.
//
// It is the ion-interaction model of Pitzer and of Harvie, Møller and Weare, from fresh
// water to saturation:
//
//	m, err := pitzer.Dissolve(pitzer.Batch{
//		Water: units.Kilogram, Temperature: units.Celsius(25),
//		Add: []pitzer.Addition{{"CaCl2·2H2O", 150 * units.Gram}, {"MgSO4·7H2O", 120 * units.Gram}},
//	})
//	m.Solids                              // 82 g of gypsum
//
//	sea, without := pitzer.From(ions.Reference(units.Practical(35)).All())
//	s, err := pitzer.Solve(sea, units.Celsius(25))
//	s.Saturation(pitzer.Gypsum)           // -0.64: a quarter of saturation
//	s.WaterActivity()                     // 0.981
//
// A [Brine] is what is dissolved in a kilogram of water; [Solve] makes a [Solution] of it,
// with its species, activities, pH by the balance of charges, water activity, freezing
// point and saturation indices. [Dissolve] brings compounds, water and pure solids to
// equilibrium; [Batch.WaterOntoSalt] shows the way there when salt is dry at first, and
// [Stock] how strong a solution can be kept and which salts may share a bottle.
//
// # What equilibrium tells, and what not
//
// It tells where everything ends if one waits long enough, and how far from there a water
// is. It knows no rates and no nuclei: seawater has been above saturation with calcite,
// aragonite and dolomite for ever, and gypsum can stay dissolved for days above it. A
// solid below saturation cannot come; one above it may. Calcite is what [Dissolve] lets
// fall out of the two calcium carbonates; where there is magnesium it is aragonite that
// comes.
//
// It knows no heat either: every temperature here is that of the end. Calcium chloride,
// caustic and acids heat the water they are dissolved in, up to boiling and spitting:
// add them to water in small portions, never water to them, with goggles and gloves, and
// by what the label and local rules say.
//
// # What it does not know
//
// No parameters: phosphate, nitrite, iodate, acetate, copper, zinc and whatever else
// [From] lists; ammonium keeps its proton at any pH; of ammonium, nitrate, fluoride and
// iodide those of single salts at 25 °C. Pairs without parameters are marked in
// [Solution.Known]. Not among the solids: hydrates of calcium and strontium chloride,
// bromides, hydrohalite, ikaite, and fluorite, of which the source has no sound constant.
// Portlandite and magnesite are refused as unsound: the constant of portlandite has no
// function of temperature, its solubility is 21 % low at 0 °C and 8 % high at 40. Natron, nahcolite,
// trona, borax and boric acid are known at 25 °C only. The constants of borate keep their
// value of 25 °C.
//
// # How good
//
// The model meets its source within 1e-8 in all that was compared. Beside measurements
// (testdata/published.csv): osmotic coefficient of seawater of salinity 5 to 42, 0 to 40
// °C, within 0.29 % of TEOS-10; activity coefficients of NaCl and KCl within 0.4 %, of
// MgCl2 5 %, of CaCl2 2.2 % to 5 mol/kg and 12 % at 6; solubility of halite 0.5 %, gypsum
// 1.5 %, epsomite 3 %, bischofite 0.8 %, sylvite 0.9 % from 20 °C and 4.4 % at 0 °C,
// mirabilite 4 % from 10 °C, arcanite 9 % low, celestite 5 %. Seawater becomes saturated
// with gypsum when concentrated 3.34 times and with halite 10.7 times at 25 °C; 3.3 to 3.8
// and 10.6 to 11 are known (from memory).
//
// Beside package carbonate, seawater of salinity 35 with an alkalinity of 2300 and a DIC
// of 2000 µmol/kg has a pH on the total scale that is higher by 0.017 at 25 °C and by
// 0.036 at 30, lower by 0.003 at 20 and by 0.041 at 10; its aragonite index is 0.03
// higher, by the other constant, see [Solution.Saturation], 0.15; calcite 0.07. For the
// CO2 system of seawater take package carbonate, whose constants were measured in it.
//
// Brucite is where the sources agree least: seawater of salinity 35 at 25 °C reaches
// saturation at pH 9.31 on the total scale here, which is 9.29 of package carbonate, and at 8.8
// to 9.4 by others.
//
// # Symbols
//
//	m      molality, mol per kg of water
//	γ, a   activity coefficient, activity
//	φ      osmotic coefficient
//	I      ionic strength, ½ Σ m z², over all species
//	Z      Σ m |z|
//	A      slope of the limiting law, A-phi
//	β, C   parameters of a cation and an anion; θ of two ions of one sign; ψ of three; λ, ζ
//	       with a neutral species
//	E      electrostatic mixing of a single and a double charge
//	SI     saturation index, log10 of the product of activities over K
//	d      shift of the scale of single ions
//
// # Sources
//
//	[PHREEQC] PHREEQC 3, commit 8176af0c, data bases pitzer.dat and phreeqc.dat.
//	[A15]     Appelo 2015, Principles, caveats and improvements in databases for calculating
//	          hydrogeochemical reactions in saline waters from 0 to 200 °C and 1 to 1000 atm,
//	          Appl. Geochem. 55, 62-71.
//	[HMW84]   Harvie, Møller and Weare 1984, The prediction of mineral solubilities in natural
//	          waters, Geochim. Cosmochim. Acta 48, 723-751.
//	[PRDC88]  Plummer, Parkhurst, Fleming and Dunkle 1988, A computer program incorporating
//	          Pitzer's equations, USGS Water-Resources Investigations Report 88-4153.
//	[MRHK11]  May, Rowland, Hefter and Königsberger 2011, A generic and updatable Pitzer
//	          characterization of aqueous binary electrolyte solutions at 1 bar and 25 °C,
//	          J. Chem. Eng. Data 56, 5066; second-hand.
//	[P73]     Pitzer 1973, Thermodynamics of electrolytes I, J. Phys. Chem. 77, 268-277.
//	[P75]     Pitzer 1975, Thermodynamics of electrolytes V, effects of higher-order
//	          electrostatic terms, J. Solution Chem. 4, 249-265.
//	[P91]     Pitzer 1991, Activity Coefficients in Electrolyte Solutions, 2nd edition.
//	[H81]     Harvie 1981, Chebyshev series of J, as printed by Pitzer 1991.
//	[BP79]    Bradley and Pitzer 1979, Dielectric properties of water and Debye-Hückel
//	          parameters, J. Phys. Chem. 83, 1599-1603.
//	[WP02]    Wagner, Pruss 2002, J. Phys. Chem. Ref. Data 31, 387-535.
package pitzer
