package carbonate

import (
	"errors"

	"example.org/wellmixed/units"
)

// CheckRange returns nil if every fit that the numbers of the system rest on was
// made for water of its salinity and temperature, and otherwise the
// *units.RangeError of each that was not, joined (errors.Join): the constants of
// the CO2 system, those of phosphate, silicate, ammonia and sulfide if there is
// any, and the solubility of calcite and aragonite. Their numbers are extrapolated.
// The step to the content of CO2 in air has CheckRangeVapour, and brucite, gypsum
// and the NBS scale say themselves what they are good for.
//
// A system that nobody solved is refused by a *units.InputError.
func (s *System) CheckRange() error {
	c, n := &s.Constants, &s.Nutrients
	if err := c.check(n); err != nil {
		return err
	}
	if !c.Options.known() {
		return badOptions()
	}
	fits := c.Options.left(c.Salinity, c.Temperature, c.Totals)
	list := fits[:]
	ask := func(content units.AmountPerKilogram, d *domain, prefix string) {
		if content != 0 {
			list = append(list, d.check(prefix, c.Salinity, c.Temperature))
		}
	}
	ask(n.Phosphate, &kpDomain, "")
	ask(n.Silicate, &ksiDomain, "")
	ask(n.Ammonia, &knh4Domains[c.Options.KNH4], "ammonium: ")
	ask(n.Sulfide, &kh2sDomain, "")
	return errors.Join(append(list, CheckRangeSaturation(c.Salinity, c.Temperature))...)
}

// Suited returns the set of K1 and K2 that holds at a salinity and temperature:
// Lueker2000, the recommended one, from salinity 19 to 43 and 2 to 35 °C, and
// Waters2014Total outside, which reaches from 1 to 50 and 0 to 50 °C. Where none
// holds it returns the latter, and CheckRange tells.
//
// Where the one ends and the other begins, they are apart by up to 0.02 in pH from
// alkalinity and DIC, and by 6 % in saturation in balance with air (at salinity 43
// and 2 °C; 0.01 and 2 % elsewhere): choose once for all waters that are compared.
// At salinity 5 and 25 °C, alkalinity 2300 µmol/kg and
// 420 µatm of CO2, Lueker2000 gives pH 8.215 and aragonite 2.49, Waters2014Total 8.251
// and 2.02.
func Suited(s units.PracticalSalinity, t units.Temperature) K1K2 {
	if k1k2Domains[Lueker2000].check("", s, t) == nil {
		return Lueker2000
	}
	return Waters2014Total
}
