package carbonate

import "example.org/wellmixed/units"

// Options says which published constants to use and which totals of the water
// are known. The zero value is the recommended choice: K1 and K2 of Lueker et al.
// 2000, KS and KB of Dickson 1990 and boron by Uppström 1974 as [DSC] has them;
// KF of Dickson and Riley 1979, because its scale is unambiguous ([DSC] takes that
// of Perez and Fraga 1987); and what [DSC] does not have, ammonium of Clegg and
// Whitfield 1995 and magnesium of the reference composition [RC]. Boron, sulfate,
// fluoride, calcium and magnesium are in proportion to the salinity.
type Options struct {
	K1K2       K1K2
	KS         KS
	KF         KF
	KNH4       KNH4
	BoronRatio BoronRatio

	Boron Total
	// Sulfate enters the alkalinity, by HSO4, the free scale and gypsum. The other
	// constants stay what they are on the total scale, because that is the scale of
	// natural sulfate on which they were measured and electrodes are set. Saturation,
	// pCO2 and free ammonia then hardly depend on it. A water of salinity 35 and 25 °C
	// without sulfate, alkalinity 2300 and DIC 2000 µmol/kg has pH 8.046 here on either
	// scale; with constants that stay what they are on the free scale it would be
	// 8.154 on both, where natural water has 8.046 and 8.154. Aragonite is 3.39 in all
	// three. Take the pH on the free scale of a mix poor in sulfate from the same
	// water without this option.
	Sulfate   Total
	Fluoride  Total
	Calcium   Total
	Magnesium Total
}

// K1K2 names a published set of the two dissociation constants of carbonic
// acid.
type K1K2 uint8

// The sets of K1 and K2. Lueker2000 is for seawater; Waters2014 (or
// Millero2010) also for brackish water; Millero1979 for pure water only. Goyet
// and Poisson and Roy et al. measured in artificial seawater; Papadimitriou et
// al. in cold brines. Waters2014Total is the same work as Waters2014, fitted on
// the total scale. Cai and Wang's is an NBS set, so its step to the total scale
// is uncertain.
const (
	Lueker2000          K1K2 = iota
	MehrbachDickson1987      // Mehrbach et al. 1973, as refitted by Dickson and Millero
	HanssonDickson1987       // Hansson 1973, as refitted by Dickson and Millero
	HanssonMehrbach1987      // both, as refitted by Dickson and Millero
	Sulpis2020
	Roy1993
	GoyetPoisson1989
	Millero2006
	Millero2010
	Waters2014
	Waters2014Total
	MojicaMillero2002
	Millero2002
	CaiWang1998
	Millero1979
	SchockmanByrne2021 // K2; its K1 is that of Waters2014Total
	Papadimitriou2018
)

// KS names a published constant of hydrogen sulfate.
type KS uint8

// The fits of KS.
const (
	KSDickson1990 KS = iota
	KSKhoo1977
	KSWatersMillero2013
)

// KF names a published constant of hydrogen fluoride.
type KF uint8

// The fits of KF.
const (
	KFDicksonRiley1979 KF = iota
	KFPerezFraga1987
)

// KNH4 names a published constant of ammonium.
type KNH4 uint8

// The fits of KNH4. They disagree by up to 0.03 in pK once on one scale.
const (
	KNH4CleggWhitfield1995     KNH4 = iota // fitted on the total scale
	KNH4CleggWhitfield1995Free             // the same work, fitted on the free scale
	KNH4Bell2008
	KNH4YaoMillero1995
)

// BoronRatio names a published ratio of boron to salinity.
type BoronRatio uint8

// The ratios of boron to salinity. Lee's is 4.1 percent above Uppström's;
// Kuliński's is for the Baltic Sea.
const (
	BoronUppstrom1974 BoronRatio = iota
	BoronLee2010
	BoronKulinski2018
)

// domain is the name of a fit and the range in which it holds.
type domain struct {
	name       string
	tMin, tMax float64 // °C
	sMin, sMax float64
	unstated   bool // the source gives no range: nothing to check
}

// The names and ranges as the sources give them.
var k1k2Domains = [...]domain{
	Lueker2000:          {name: "Lueker et al. 2000", tMin: 2, tMax: 35, sMin: 19, sMax: 43},
	MehrbachDickson1987: {name: "Mehrbach et al. 1973 by Dickson and Millero 1987", tMin: 2, tMax: 35, sMin: 20, sMax: 40},
	HanssonDickson1987:  {name: "Hansson 1973 by Dickson and Millero 1987", tMin: 2, tMax: 35, sMin: 20, sMax: 40},
	HanssonMehrbach1987: {name: "Hansson and Mehrbach by Dickson and Millero 1987", tMin: 2, tMax: 35, sMin: 20, sMax: 40},
	Sulpis2020:          {name: "Sulpis et al. 2020", tMin: -1.67, tMax: 31.8, sMin: 30.73, sMax: 37.57},
	Roy1993:             {name: "Roy et al. 1993", tMin: 0, tMax: 45, sMin: 5, sMax: 45},
	GoyetPoisson1989:    {name: "Goyet and Poisson 1989", tMin: -1, tMax: 40, sMin: 10, sMax: 50},
	Millero2006:         {name: "Millero et al. 2006", tMin: 0, tMax: 50, sMin: 1, sMax: 50},
	Millero2010:         {name: "Millero 2010", tMin: 0, tMax: 50, sMin: 1, sMax: 50},
	Waters2014:          {name: "Waters et al. 2014", tMin: 0, tMax: 50, sMin: 1, sMax: 50},
	Waters2014Total:     {name: "Waters et al. 2014, total scale", tMin: 0, tMax: 50, sMin: 1, sMax: 50},
	MojicaMillero2002:   {name: "Mojica Prieto and Millero 2002", tMin: 0, tMax: 45, sMin: 5, sMax: 42},
	Millero2002:         {name: "Millero et al. 2002", tMin: -1.6, tMax: 35, sMin: 34, sMax: 37},
	CaiWang1998:         {name: "Cai and Wang 1998", tMin: 2, tMax: 30, sMin: 0, sMax: 40},
	Millero1979:         {name: "Millero 1979", tMin: 0, tMax: 50, sMin: 0, sMax: 0},
	SchockmanByrne2021:  {name: "Schockman and Byrne 2021", tMin: 15, tMax: 35, sMin: 19.6, sMax: 41},
	Papadimitriou2018:   {name: "Papadimitriou et al. 2018", tMin: -6, tMax: 25, sMin: 33, sMax: 100},
}

var ksDomains = [...]domain{
	KSDickson1990:       {name: "Dickson 1990", tMin: 0, tMax: 45, sMin: 5, sMax: 45},
	KSKhoo1977:          {name: "Khoo et al. 1977", tMin: 5, tMax: 40, sMin: 20, sMax: 45},
	KSWatersMillero2013: {name: "Waters and Millero 2013", unstated: true},
}

var kfDomains = [...]domain{
	KFDicksonRiley1979: {name: "Dickson and Riley 1979", tMin: 0, tMax: 45, sMin: 0, sMax: 45},
	KFPerezFraga1987:   {name: "Perez and Fraga 1987", tMin: 9, tMax: 33, sMin: 10, sMax: 40},
}

var knh4Domains = [...]domain{
	KNH4CleggWhitfield1995:     {name: "Clegg and Whitfield 1995", tMin: -2, tMax: 40, sMin: 0, sMax: 40},
	KNH4CleggWhitfield1995Free: {name: "Clegg and Whitfield 1995, free scale", tMin: -2, tMax: 40, sMin: 0, sMax: 40},
	KNH4Bell2008:               {name: "Bell et al. 2008", tMin: 5, tMax: 40, sMin: 0, sMax: 44.55},
	KNH4YaoMillero1995:         {name: "Yao and Millero 1995", tMin: 0, tMax: 45, sMin: 0, sMax: 45},
}

var (
	kbDomain    = domain{name: "KB: Dickson 1990", tMin: 0, tMax: 45, sMin: 5, sMax: 45}
	kwDomain    = domain{name: "KW: Millero 1995", tMin: 0, tMax: 45, sMin: 0, sMax: 45}
	k0Domain    = domain{name: "K0: Weiss 1974", tMin: -1, tMax: 45, sMin: 0, sMax: 45}
	kpDomain    = domain{name: "KP: Yao and Millero 1995", tMin: 0, tMax: 45, sMin: 0, sMax: 45}
	ksiDomain   = domain{name: "KSi: Yao and Millero 1995", tMin: 0, tMax: 45, sMin: 0, sMax: 45}
	kh2sDomain  = domain{name: "KH2S: Millero et al. 1988", tMin: 0, tMax: 45, sMin: 0, sMax: 45}
	mucciDomain = domain{name: "Mucci 1983", tMin: 5, tMax: 40, sMin: 5, sMax: 44}

	vapourDomain = domain{name: "vapour pressure: Weiss and Price 1980", tMin: 0, tMax: 40, sMin: 0, sMax: 40}
)

// kulinskiSalinity ends where the line of the Baltic Sea meets that of seawater:
// the rivers bring it boron, so it cannot have less than diluted seawater. The
// range of the measurements is within, but not known here.
var kulinskiSalinity = units.Range{Quantity: "practical salinity", Min: 0, Max: 13.3,
	Source: "boron: Kuliński et al. 2018, until it meets Uppström 1974"}

var boronNames = [...]string{
	BoronUppstrom1974: "Uppström 1974",
	BoronLee2010:      "Lee et al. 2010",
	BoronKulinski2018: "Kuliński et al. 2018",
}

func nameOf(table []domain, i uint8) string {
	if int(i) < len(table) {
		return table[i].name
	}
	return "unknown"
}

// String names the authors.
func (k K1K2) String() string { return nameOf(k1k2Domains[:], uint8(k)) }

// String names the authors.
func (k KS) String() string { return nameOf(ksDomains[:], uint8(k)) }

// String names the authors.
func (k KF) String() string { return nameOf(kfDomains[:], uint8(k)) }

// String names the authors.
func (k KNH4) String() string { return nameOf(knh4Domains[:], uint8(k)) }

// String names the authors.
func (r BoronRatio) String() string {
	if int(r) < len(boronNames) {
		return boronNames[r]
	}
	return "unknown"
}

// known tells whether every choice is one of those above.
func (o *Options) known() bool {
	return int(o.K1K2) < len(k1k2Domains) && int(o.KS) < len(ksDomains) && int(o.KF) < len(kfDomains) &&
		int(o.KNH4) < len(knh4Domains) && int(o.BoronRatio) < len(boronNames)
}

// check returns nil or the *units.RangeError of the first limit passed.
func (d *domain) check(prefix string, s units.PracticalSalinity, t units.Temperature) error {
	if d.unstated {
		return nil
	}
	source := prefix + d.name
	if err := (units.Range{
		Quantity: "practical salinity",
		Min:      d.sMin,
		Max:      d.sMax,
		Source:   source,
	}).Check(s.Value()); err != nil {
		return err
	}
	return (units.Range{Quantity: "temperature", Min: d.tMin, Max: d.tMax, Unit: "°C", Source: source}).Check(t.Celsius())
}

// CheckRange returns a *units.RangeError, naming the source, if one of the fits
// that o chooses for the CO2 system was not made for water of this salinity and
// temperature, and nil otherwise. Constants extrapolate there. Of several it
// returns the first; System.CheckRange returns them all.
//
// KB, KS and KF are asked only if there is boron, sulfate or fluoride in the
// water. Saturation states, ammonia and the mole fraction of CO2 in air have
// ranges of their own: CheckRangeSaturation, CheckRangeAmmonia and
// CheckRangeVapour.
func CheckRange(s units.PracticalSalinity, t units.Temperature, o Options) error {
	if !o.known() {
		return badOptions()
	}
	for _, err := range o.left(s, t, o.totals(s.Value())) {
		if err != nil {
			return err
		}
	}
	return nil
}

func badOptions() error {
	return &units.InputError{
		Field: "options",
		Got:   "an unknown set of constants",
		Want:  "one of those that the package names",
	}
}

// left asks each fit of the CO2 system that something in the water needs, and
// returns what they say.
func (o *Options) left(s units.PracticalSalinity, t units.Temperature, has Totals) [7]error {
	list := [7]error{k1k2Domains[o.K1K2].check("K1 and K2: ", s, t)}
	if o.BoronRatio == BoronKulinski2018 && !o.Boron.IsMeasured() {
		list[1] = kulinskiSalinity.Check(s.Value())
	}
	if has.Boron != 0 {
		list[2] = kbDomain.check("", s, t)
	}
	if has.Sulfate != 0 {
		list[3] = ksDomains[o.KS].check("KS: ", s, t)
	}
	if has.Fluoride != 0 {
		list[4] = kfDomains[o.KF].check("KF: ", s, t)
	}
	list[5] = kwDomain.check("", s, t)
	list[6] = k0Domain.check("", s, t)
	return list
}

// CheckRangeSaturation is CheckRange for the solubility of calcite and
// aragonite [MUC].
func CheckRangeSaturation(s units.PracticalSalinity, t units.Temperature) error {
	return mucciDomain.check("calcite and aragonite: ", s, t)
}

// CheckRangeVapour is CheckRange for the pressure of water vapour [WP], between
// PCO2 and XCO2.
func CheckRangeVapour(s units.PracticalSalinity, t units.Temperature) error {
	return vapourDomain.check("", s, t)
}

// CheckRangeAmmonia is CheckRange for a fit of the constant of ammonium.
func CheckRangeAmmonia(s units.PracticalSalinity, t units.Temperature, k KNH4) error {
	if int(k) >= len(knh4Domains) {
		return &units.InputError{
			Field: "options",
			Got:   "an unknown fit of ammonium",
			Want:  "one of those that the package names",
		}
	}
	return knh4Domains[k].check("ammonium: ", s, t)
}
