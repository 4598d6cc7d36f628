package gas

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Surface is the open surface of a water.
type Surface struct {
	Salinity    units.PracticalSalinity
	Temperature units.Temperature
	Area        units.Area  // of the surface, and of all wet surfaces that the air reaches
	Draught     units.Speed // of the air over it; 0 for a still room
}

// Evaporating is what a surface gives to the air, or takes from it if it is colder
// than the dew point: everything is then negative.
type Evaporating struct {
	TopOff units.Flow  // fresh water of room temperature that replaces it; the salt stays
	Heat   units.Power // that it takes from the water
}

// Evaporation is an estimate. No formula knows the pump, the lamp and the rim of a
// tank: the scatter of the measurements on pools is 20 %, of small open tanks a
// factor of two.
type Evaporation struct {
	Low, Likely, High Evaporating
}

// Evaporate estimates how much water a surface loses to the air of a room. Likely
// is Shah's formula, in a draught increased as that of Carrier is; Low is the
// lowest, and High the highest, of all formulas of this package and of half and
// double of that.
//
//	symbol   E = ESHAH (1 + (b/a) v); Q = E L
//	source   ESHAH [SHAH]; b/a [CARRIER]; L [TEOS10]
//	units    see ShahRate
//	range    CheckRange tells
//
// The heat is what a heater has to bring beside the losses through the walls, less
// what pumps and lamps give. A cover that lies on the water of a pool saves nine tenths of
// it by [VDI], VDICovered over VDIStill; a lid above the water with gaps saves less. Let air
// reach the animals.
func (w Surface) Evaporate(a Air) (Evaporation, error) {
	if err := w.check(); err != nil {
		return noEvaporation(), err
	}
	if err := a.check(); err != nil {
		return noEvaporation(), err
	}
	s, t, v := w.Salinity, w.Temperature, w.Draught
	shah := ShahRate(s, t, a) * (1 + carrierDraught/carrierStill*v.MetresPerSecond())
	low, high := min(shah/2, shah*2), max(shah/2, shah*2)
	for _, e := range [...]float64{
		VDIRate(s, t, a, VDIStill),
		CarrierRate(s, t, a, v, CarrierQuiet),
		CarrierRate(s, t, a, v, CarrierActive),
		blunt(s, t, a, v),
	} {
		low, high = min(low, e), max(high, e)
	}
	// Fresh water of the room, kg/L, and the heat of one kg in Wh.
	rho := teos10.DensityExact(units.Absolute(0), a.Temperature, 0).GramsPerMillilitre()
	heat := latent(s, t) / 3600
	of := func(rate float64) Evaporating {
		kilograms := rate * w.Area.SquareMetres()
		return Evaporating{TopOff: units.Flow(kilograms / rho), Heat: units.Power(kilograms * heat)}
	}
	e := Evaporation{Low: of(low), Likely: of(shah), High: of(high)}
	if !(math.Abs(float64(e.High.Heat)) <= math.MaxFloat64 && math.Abs(float64(e.Low.Heat)) <= math.MaxFloat64) {
		return noEvaporation(), input.Bad("surface", w.Area.String()+" in a draught of "+v.String(),
			"an area and a speed of a room")
	}
	return e, nil
}

// CheckRange returns nil where the measurements behind Shah's formula cover the
// surface and the air, and otherwise a *units.RangeError: Evaporate then
// extrapolates. They were made in still air over fresh water.
func (w Surface) CheckRange(a Air) error {
	if err := poolWater.Check(w.Temperature.Celsius()); err != nil {
		return err
	}
	if err := poolAir.Check(a.Temperature.Celsius()); err != nil {
		return err
	}
	if err := poolHumidity.Check(a.Humidity.Value()); err != nil {
		return err
	}
	return poolArea.Check(w.Area.SquareMetres())
}

func (w Surface) check() error {
	if err := waterSalinity.Check(w.Salinity.Value()); err != nil {
		return err
	}
	if err := input.Set("water temperature", w.Temperature); err != nil {
		return err
	}
	if err := waterTemperature.Check(w.Temperature.Celsius()); err != nil {
		return err
	}
	if err := input.Positive("area", w.Area.SquareMetres(), "m²"); err != nil {
		return err
	}
	return input.NotNegative("draught", w.Draught.MetresPerSecond(), "m/s")
}

func (a Air) check() error {
	if err := input.Set("air temperature", a.Temperature); err != nil {
		return err
	}
	if err := roomTemperature.Check(a.Temperature.Celsius()); err != nil {
		return err
	}
	if err := barometer.Check(a.Pressure.Hectopascals()); err != nil {
		return err
	}
	if !(a.Humidity.Value() >= 0 && a.Humidity.Value() <= 1) {
		return input.Bad("relative humidity", a.Humidity.String(), "0 to 100 %")
	}
	return nil
}

// Constants of Shah's formula [SHAH]: the first and the power are confirmed by the
// look-up table that he published, the last, kg/(m² h Pa), is from memory.
const (
	shahFactor = 35
	shahPower  = 1. / 3
	shahForced = 5e-5
)

// ShahRate returns what evaporates from an undisturbed surface in a room: warm moist
// air is light and rises from it.
//
//	symbol   E = C ρw (ρr - ρw)^(1/3) (Ww - Wr), or b (pw - pa) if that is more
//	source   [SHAH]; w air saturated at the temperature of the water, r air of the room; ρ kg
//	         of DRY air per m³; b from memory
//	units    result kg/(m² h)
//	range    7 <= water <= 94 °C, 6 <= air <= 35 °C, humidity 28 to 95 %, 0.07 to 425 m²; mean
//	         deviation from measurements 18 %; his own look-up table is met to 0.2 %
//	outside  extrapolates (Surface.CheckRange tells); no such water or air: NaN
//
// Salt lowers the vapour pressure of the water, by 1.9 % at salinity 35.
func ShahRate(s units.PracticalSalinity, t units.Temperature, a Air) float64 {
	if !possible(s, t) || !a.possible() {
		return math.NaN()
	}
	pa := a.VapourPressure()
	pw := surfacePressure(s, t)
	if !(pw < a.Pressure) {
		return math.NaN() // the water boils
	}
	rhoW := float64(a.Pressure-pw) * 100 / (dryGasConstant * t.Kelvin())
	rhoR := float64(a.Pressure-pa) * 100 / (dryGasConstant * a.Temperature.Kelvin())
	free := 0.
	if rhoR > rhoW {
		free = shahFactor * rhoW * math.Pow(rhoR-rhoW,
			shahPower) * (humidityRatio(pw, a.Pressure) - humidityRatio(pa, a.Pressure))
	}
	forced := shahForced * float64(pw-pa) * 100
	if math.Abs(forced) > math.Abs(free) {
		return forced
	}
	return free
}

// Constants of Carrier's formula, W/(m² Pa) and J/(m³ Pa) [CARRIER].
const (
	carrierStill   = 0.089
	carrierDraught = 0.0782
)

// The activity of the water in CarrierRate.
const (
	CarrierQuiet  = 0.5 // undisturbed
	CarrierActive = 1.0 // bathers, or a splashing return
)

// CarrierRate returns what evaporates from a surface in a draught.
//
//	symbol   E = F (a + b v) (pw - pa)/L
//	source   [CARRIER]; F 0.5 for a quiet pool and 1 for a busy one
//	units    v m/s, pa and pw Pa, L J/kg in the formula, result kg/(m² h)
//	range    room temperatures; 0 <= v <= 0.7 m/s (from memory)
//	outside  extrapolates; no such water, air or draught: NaN
func CarrierRate(s units.PracticalSalinity, t units.Temperature, a Air, v units.Speed, activity float64) float64 {
	if !possible(s, t) || !(v >= 0 && float64(v)+activity <= math.MaxFloat64) || math.IsInf(activity, 0) {
		return math.NaN()
	}
	return carrier(surfacePressure(s, t)-a.VapourPressure(), v, activity, latent(s, t))
}

func carrier(drive units.AirPressure, v units.Speed, activity, latent float64) float64 {
	return activity * (carrierStill + carrierDraught*v.MetresPerSecond()) * float64(drive) * 100 / latent * 3600
}

// Transfer coefficients of VDIRate, m/h [VDI].
const (
	VDICovered = 0.7
	VDIStill   = 7.0
	VDIInUse   = 21.0 // of a private pool
)

// vapourGasConstant is that of water vapour, J/(kg K) [VDI].
const vapourGasConstant = 461.52

// VDIRate returns what evaporates from a pool by the German guideline.
//
//	symbol   E = β/(Rv Tm) (pw - pa), Tm the mean of water and air
//	source   [VDI]
//	units    β m/h, pa and pw Pa, Tm K in the formula, result kg/(m² h)
//	range    indoor pools
//	outside  extrapolates; no such water or air: NaN
func VDIRate(s units.PracticalSalinity, t units.Temperature, a Air, beta float64) float64 {
	if !possible(s, t) {
		return math.NaN()
	}
	mean := (t.Kelvin() + a.Temperature.Kelvin()) / 2
	return beta / (vapourGasConstant * mean) * float64(surfacePressure(s, t)-a.VapourPressure()) * 100
}

// blunt is the rule of engineering handbooks, about twice Shah in still air: an upper
// limit.
//
//	symbol   E = (25 + 19 v) (Ws - W)
//	source   common practice
//	units    kg/(m² h), v m/s
func blunt(s units.PracticalSalinity, t units.Temperature, a Air, v units.Speed) float64 {
	return (25 + 19*v.MetresPerSecond()) * (humidityRatio(surfacePressure(s, t), a.Pressure) - a.HumidityRatio())
}

// surfacePressure returns the vapour pressure at the surface of the water: that of
// pure water, lowered by the salt.
func surfacePressure(s units.PracticalSalinity, t units.Temperature) units.AirPressure {
	sa := teos10.AbsoluteFromPractical(s)
	activity := math.Exp(-teos10.OsmoticCoefficient(sa, t, 0) * teos10.Molality(sa) * waterMolarMass)
	return SaturationPressure(t) * units.AirPressure(activity)
}

const waterMolarMass = 0.018015268 // kg/mol, IAPWS R13-08

// latent returns the heat of evaporation, J/kg.
func latent(s units.PracticalSalinity, t units.Temperature) float64 {
	sa := teos10.AbsoluteFromPractical(s)
	return teos10.EvaporationHeat(sa, teos10.ConservativeFromInSitu(sa, t, 0))
}

func noEvaporation() Evaporation {
	e := Evaporating{input.NaN[units.Flow](), input.NaN[units.Power]()}
	return Evaporation{e, e, e}
}
