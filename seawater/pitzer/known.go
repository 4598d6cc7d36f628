package pitzer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Known is what is known of how well the model holds for a cation and an anion of a
// solution.
type Known struct {
	Cation, Anion Species
	Content       units.AmountPerKilogram // of water, as their salt: what the scarcer ion makes
	Within        units.Fraction          // largest difference from measured mean activity coefficients; NaN: not compared
	To            units.AmountPerKilogram // up to which that holds; zero: not compared
	NoParameters  bool                    // of the pair: only charge and ionic strength act
	Single        bool                    // parameters of the salt alone at 25 °C
}

// Beyond tells whether there is more of the salt than has been compared.
func (k Known) Beyond() bool { return k.To > 0 && k.Content > k.To }

// compared are the salts whose mean activity coefficients have been compared with handbook
// values at 25 °C: the largest difference as a share, up to so many mol/kg. Up to saturation
// the solubilities of their solids have been, see [Solid.Deviation].
//
//	source   testdata/published.csv: handbook tables (Hamer and Wu, Staples, Goldberg; Robinson and
//	         Stokes, from memory). That of magnesium sulfate is of the osmotic coefficient: its
//	         tables of activity coefficients are relative to an assumed one, 14 % too low
var compared = [...]struct {
	cation, anion Species
	within, to    float64
}{
	{Sodium, Chloride, 0.004, 6.2},
	{Potassium, Chloride, 0.003, 4.8},
	{Magnesium, Chloride, 0.05, 6.1},
	{Calcium, Chloride, 0.022, 5},
	{Strontium, Chloride, 0.025, 2},
	{Sodium, Sulfate, 0.015, 3.4},
	{Potassium, Sulfate, 0.037, 0.85},
	{Magnesium, Sulfate, 0.017, 3.7},
	{Sodium, Bromide, 0.0022, 4},
	{Potassium, Bromide, 0.0033, 5},
	{Calcium, Bromide, 0.024, 2},
	{Sodium, Hydroxide, 0.015, 1},
	{Hydrogen, Chloride, 0.0045, 5},
}

// least is the share of all that is dissolved below which an ion is not listed.
const least = 0.01

// Known lists the salts that the solution can be thought of as holding, with what is known
// of how well the model holds for each. Only ions above a hundredth of all that is
// dissolved are listed.
func (s *Solution) Known() []Known {
	var list []Known
	for c := range firstAnion {
		for a := firstAnion; a < firstNeutral; a++ {
			if scarce := math.Min(s.m[c], s.m[a]); scarce < least*s.sum || scarce < 1e-6 {
				continue
			}
			list = append(list, s.known(c, a))
		}
	}
	return list
}

func (s *Solution) known(c, a Species) Known {
	content := saltOf(c, a, s.m[c], s.m[a])
	k := Known{
		Cation: c, Anion: a, Content: units.AmountPerKilogram(content * perMole), Within: units.Share(math.NaN()),
		NoParameters: true, Single: single(c, a),
	}
	for i := range compared {
		if x := &compared[i]; x.cation == c && x.anion == a {
			k.Within, k.To = units.Share(x.within), units.AmountPerKilogram(x.to*perMole)
		}
	}
	for _, rows := range [...][]pairRow{beta0[:], beta1[:], beta2[:], cPhi[:]} {
		for i := range rows {
			if rows[i].a == c && rows[i].b == a {
				k.NoParameters = false
			}
		}
	}
	return k
}

// saltOf is how much of a salt so much of a cation and of an anion make.
func saltOf(c, a Species, cation, anion float64) float64 {
	if speciesTable[c].charge == -speciesTable[a].charge {
		return math.Min(cation, anion)
	}
	return math.Min(cation/-speciesTable[a].charge, anion/speciesTable[c].charge)
}

// single tells whether a pair has parameters of the salt alone.
func single(c, a Species) bool {
	return c == Ammonium || a == Nitrate || a == Fluoride || a == Iodide
}

// deviations are the largest differences of computed solubilities from measured ones, as a
// share, from a temperature in °C upwards.
//
//	source   testdata/published.csv; borax, boric acid, celestite, nahcolite and natron against values
//	         from memory
var deviations = [...]struct {
	solid        Solid
	from, within float64
}{
	{Halite, 0, 0.0053},
	{Sylvite, 20, 0.0085},
	{Sylvite, 0, 0.0435},
	{Gypsum, 0, 0.0152},
	{Bischofite, 0, 0.0079},
	{Arcanite, 0, 0.0913},
	{Epsomite, 0, 0.0296},
	{Mirabilite, 10, 0.0362},
	{Mirabilite, 0, 0.1315},
	{Thenardite, 0, 0.0092},
	{Celestite, 0, 0.0502},
	{Borax, 0, 0.0208},
	{Sassolite, 0, 0.0042},
	{Nahcolite, 0, 0.0545},
	{Natron, 0, 0.0102},
}

// Deviation returns the largest known difference of the solubility by this model from
// measured ones near a temperature; NaN where none has been compared. Brucite is one of
// those: its published constants differ by a factor of 15, and a fresh precipitate is more
// soluble than the mineral.
func (s Solid) Deviation(t units.Temperature) units.Fraction {
	for i := range deviations {
		if x := &deviations[i]; x.solid == s && t.Celsius() >= x.from && s.judged(t) {
			return units.Share(x.within)
		}
	}
	return units.Share(input.NaN[float64]())
}
