package electrode

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Junction is the standard uncertainty, in units of pH, that is left when an
// electrode calibrated in dilute buffers is read in seawater: the change of its
// liquid junction potential, and of fH from one electrode to the next. Sources
// speak of several hundredths; an electrode with a dirty junction is worse
// (common practice).
const Junction = 0.05

// TotalFromNBS returns the pH on the total scale of seawater in which an electrode,
// calibrated in dilute buffers, reads ph, and its standard uncertainty from
// that of the reading and Junction. The constants are those of the water at its
// salinity and the temperature of the reading.
//
//	symbol   pH(total) = pH(NBS) + lg(fH (1 + TS/KS + TF/KF)/(1 + TS/KS)), u² = u(NBS)² + Junction²
//	source   carbonate.NBSPH.Total, fH [T82]
//	range    20 <= S <= 42
//	outside  a *units.RangeError: nobody knows
func TotalFromNBS(ph carbonate.NBSPH, uncertainty float64,
	c *carbonate.Constants) (total carbonate.TotalPH, standard float64, err error) {
	nothing, nan := carbonate.PHTotal(math.NaN()), math.NaN()
	if err := checkConstants(c); err != nil {
		return nothing, nan, err
	}
	if err := glassPH.Check(ph.Value()); err != nil {
		return nothing, nan, err
	}
	if err := input.NotNegative("uncertainty of the pH", uncertainty, ""); err != nil {
		return nothing, nan, err
	}
	if err := nbsSalinity.Check(c.Salinity.Value()); err != nil {
		return nothing, nan, err
	}
	total = ph.Total(c)
	if math.IsNaN(total.Value()) {
		return nothing, nan, input.Bad("constants", "no number", "those of carbonate.At for the water")
	}
	return total, math.Hypot(uncertainty, Junction), nil
}

// AtTemperature returns the pH that a sample has at the temperature t, of which the
// electrode shows ph at the temperature of the constants c: what the water of a
// cold beaker has in the warm tank. Alkalinity and DIC stay, as in a closed
// bottle: no CO2 comes or goes on the way.
//
// Without the alkalinity it refuses, but a test kit's is good enough: at salinity 35
// and pH 7.6 to 8.4 a sample loses 0.0135 to 0.0160 for each kelvin, and of these
// less than 0.0005 is between alkalinities of 1500 and 3500 µmol/kg. The other way
// is to read the sample at the temperature of the tank.
//
// At t the constants are those of the same authors, in c.Options; constants of the
// caller's own serve the sample only. The error is that of carbonate.Constants.Solve.
func AtTemperature(ph carbonate.TotalPH, alkalinity units.AmountPerKilogram, n carbonate.Nutrients,
	c *carbonate.Constants, t units.Temperature) (carbonate.TotalPH, error) {
	nothing := carbonate.PHTotal(math.NaN())
	if err := checkConstants(c); err != nil {
		return nothing, err
	}
	if err := input.Positive("alkalinity", float64(alkalinity), "µmol/kg"); err != nil {
		return nothing, err
	}
	if err := input.Set("temperature", t); err != nil {
		return nothing, err
	}
	if err := glassTemperature.Check(t.Celsius()); err != nil {
		return nothing, err
	}
	sample, err := c.Solve(carbonate.PH(ph), carbonate.Alkalinity(alkalinity), n)
	if err != nil {
		return nothing, err
	}
	moved := carbonate.At(c.Salinity, t, c.Options)
	tank, err := moved.FromAlkalinityDIC(alkalinity, sample.DIC(), n)
	if err != nil {
		return nothing, err
	}
	return tank.PH(), nil
}

func checkConstants(c *carbonate.Constants) error {
	if c == nil {
		return input.Bad("constants", "nothing", "those of carbonate.At for the water")
	}
	if err := input.Set("temperature of the constants", c.Temperature); err != nil {
		return err
	}
	return nil
}
