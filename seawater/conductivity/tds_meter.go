package conductivity

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// TDSMeter is a meter that shows "total dissolved solids": a conductivity,
// usually referred to 25 °C, times a fixed factor. Without the factor, so the zero
// value too, it is refused.
//
//	TDSMeter{
//		Meter: Meter{Compensation: Compensation{Scheme: Linear, Reference: units.Celsius(25), PerKelvin: units.Percent(2)}},
//		Scale: 0.5,
//	}
type TDSMeter struct {
	Meter Meter          // what it does before it multiplies: Raw, or referred to 25 °C
	Scale units.TDSScale // ppm per µS/cm; of a hand-held meter 0.5 or 0.7 (common practice)
}

// Shows returns what the meter shows in any water, salt or pure, of the
// conductivity c at its temperature t.
func (m TDSMeter) Shows(c units.Conductivity, t units.Temperature) (units.TDS, error) {
	err := m.check()
	if err == nil {
		c, err = m.Meter.Shows(c, t)
	}
	if err != nil {
		return units.TDSReading(math.NaN(), m.Scale), err
	}
	return units.TDSReading(c.MicrosiemensPerCentimetre()*float64(m.Scale), m.Scale), nil
}

// Measured returns the conductivity, at its temperature t, of the water in which
// the meter shows reading. It is the inverse of Shows.
func (m TDSMeter) Measured(reading units.TDS, t units.Temperature) (units.Conductivity, error) {
	if err := m.checkReading(reading); err != nil {
		return input.NaN[units.Conductivity](), err
	}
	return m.Meter.Measured(reading.Conductivity(), t)
}

// Between returns the least and the most conductivity, at its temperature t, of
// the water for which a display of the given step in ppm shows reading, rounded
// to the nearest. Zero is nothing to half a step. A display that drops digits
// instead of rounding leaves room for a whole step above: ask with twice the step.
func (m TDSMeter) Between(reading units.TDS, step float64,
	t units.Temperature) (least, most units.Conductivity, err error) {
	err = m.checkReading(reading)
	if err == nil {
		err = input.Positive("step", step, "ppm")
	}
	if err == nil {
		least, err = m.Measured(units.TDSReading(math.Max(0, reading.PPM()-step/2), m.Scale), t)
	}
	if err == nil {
		most, err = m.Measured(units.TDSReading(reading.PPM()+step/2, m.Scale), t)
	}
	if err != nil {
		return input.NaN[units.Conductivity](), input.NaN[units.Conductivity](), err
	}
	return least, most, nil
}

// Reading returns what the meter shows in seawater of salinity sa and
// temperature t.
func (m TDSMeter) Reading(sa units.AbsoluteSalinity, t units.Temperature) (units.TDS, error) {
	if err := CheckRange(sa, t); err != nil {
		return units.TDSReading(math.NaN(), m.Scale), err
	}
	return m.Shows(seawater(sa, t), t)
}

// Salinity returns the salinity of the seawater of temperature t in which the
// meter shows reading. It is the inverse of Reading.
func (m TDSMeter) Salinity(reading units.TDS, t units.Temperature) (units.AbsoluteSalinity, error) {
	c, err := m.Measured(reading, t)
	if err != nil {
		return noSalinity(), err
	}
	return salinity(c, t)
}

// Estimate is Salinity with its standard uncertainty.
func (m TDSMeter) Estimate(reading units.TDS, t units.Temperature,
	u Uncertainty) (sa, uncertainty units.AbsoluteSalinity, err error) {
	err = m.checkReading(reading)
	if err != nil {
		return noSalinity(), noSalinity(), err
	}
	u.Reading = units.TDSReading(u.Reading, m.Scale).Conductivity().MillisiemensPerCentimetre()
	return m.Meter.Estimate(reading.Conductivity(), t, u)
}

// Calibrated returns the meter with the cell offset that makes it show reading in
// a water whose conductivity at the temperature t is truth.
func (m TDSMeter) Calibrated(reading units.TDS, truth units.Conductivity, t units.Temperature) (TDSMeter, error) {
	err := m.checkReading(reading)
	if err != nil {
		m.Meter.CellOffset = units.Share(math.NaN())
		return m, err
	}
	m.Meter, err = m.Meter.Calibrated(reading.Conductivity(), truth, t)
	return m, err
}

func (m TDSMeter) check() error {
	if !(m.Scale > 0 && m.Scale <= largestScale) {
		return input.Bad("scale", input.Number(float64(m.Scale)), "the factor of the meter in ppm per µS/cm, such as "+
			"0.5 or 0.7")
	}
	return checkAt25(m.Meter.Compensation)
}

// largestScale bounds the factor; no salt of a natural water comes near it.
const largestScale = 2

func (m TDSMeter) checkReading(reading units.TDS) error {
	if err := m.check(); err != nil {
		return err
	}
	if reading.Scale() != m.Scale {
		return input.Bad("reading", reading.String(),
			"a reading on the scale of this meter, x"+input.Number(float64(m.Scale)))
	}
	return input.NotNegative("reading", reading.PPM(), "ppm")
}

// checkAt25 refuses what dissolved solids are not counted at.
func checkAt25(k Compensation) error {
	if k.Scheme != Raw && k.Reference != units.Celsius(25) {
		return input.Bad("compensation.reference", k.Reference.String(),
			"25 °C, to which the factors of dissolved solids belong")
	}
	return nil
}

// SaltMeter is a meter that shows how much of one salt the water would have to
// hold to conduct as it does, in mg/L (also called ppm) or g/L (also called ppt):
// a factor that rises with the reading. The zero value is refused.
type SaltMeter struct {
	Meter    Meter    // what it does before it looks up: Raw, or referred to 25 °C
	Solution Solution // the salt that it is graduated with
}

// Shows returns what the meter shows in any water, salt or pure, of the
// conductivity c at its temperature t.
func (m SaltMeter) Shows(c units.Conductivity, t units.Temperature) (units.MassPerLitre, error) {
	err := m.check()
	if err == nil {
		c, err = m.Meter.Shows(c, t)
	}
	var content units.MassPerLitre
	if err == nil {
		content = m.Solution.Content(c)
		err = m.Solution.CheckRange(content * (1 - beyond))
	}
	if err != nil {
		return input.NaN[units.MassPerLitre](), err
	}
	return content, nil
}

// Measured returns the conductivity, at its temperature t, of the water in which
// the meter shows reading. It is the inverse of Shows.
func (m SaltMeter) Measured(reading units.MassPerLitre, t units.Temperature) (units.Conductivity, error) {
	if err := m.check(); err != nil {
		return input.NaN[units.Conductivity](), err
	}
	if err := m.Solution.CheckRange(reading * (1 - beyond)); err != nil {
		return input.NaN[units.Conductivity](), input.In("reading", err)
	}
	return m.Meter.Measured(m.Solution.Conductivity(reading), t)
}

// Reading returns what the meter shows in seawater of salinity sa and
// temperature t.
func (m SaltMeter) Reading(sa units.AbsoluteSalinity, t units.Temperature) (units.MassPerLitre, error) {
	if err := CheckRange(sa, t); err != nil {
		return input.NaN[units.MassPerLitre](), err
	}
	return m.Shows(seawater(sa, t), t)
}

// Salinity returns the salinity of the seawater of temperature t in which the
// meter shows reading. It is the inverse of Reading.
func (m SaltMeter) Salinity(reading units.MassPerLitre, t units.Temperature) (units.AbsoluteSalinity, error) {
	c, err := m.Measured(reading, t)
	if err != nil {
		return noSalinity(), err
	}
	return salinity(c, t)
}

// Estimate is Salinity with its standard uncertainty, that of the reading being in
// mg/L. It does not hold that of the curve of the salt, which a meter graduated by
// another table of it may miss by a few per cent.
func (m SaltMeter) Estimate(reading units.MassPerLitre, t units.Temperature,
	u Uncertainty) (sa, uncertainty units.AbsoluteSalinity, err error) {
	err = u.check()
	if err == nil {
		sa, err = m.Salinity(reading, t)
	}
	if err != nil {
		return noSalinity(), noSalinity(), err
	}
	return propagate(sa, float64(reading), t, u,
		func(reading float64, t units.Temperature, thermometer units.TemperatureDifference, cell units.Fraction) float64 {
			c := m.Solution.Conductivity(units.MassPerLitre(reading))
			return plainSalinity(m.Meter.moved(thermometer, cell).measured(c, t), t)
		})
}

// Calibrated returns the meter with the cell offset that makes it show reading in
// a water whose conductivity at the temperature t is truth.
func (m SaltMeter) Calibrated(reading units.MassPerLitre, truth units.Conductivity,
	t units.Temperature) (SaltMeter, error) {
	err := m.check()
	if err == nil {
		err = input.In("reading", m.Solution.CheckRange(reading))
	}
	if err != nil {
		m.Meter.CellOffset = units.Share(math.NaN())
		return m, err
	}
	m.Meter, err = m.Meter.Calibrated(m.Solution.Conductivity(reading), truth, t)
	return m, err
}

func (m SaltMeter) check() error {
	if err := m.Solution.CheckRange(0); err != nil {
		return err
	}
	return checkAt25(m.Meter.Compensation)
}
