package ions

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Property is what an instrument feels of the salt in a water.
type Property uint8

// The properties. Hydrometers, swing arms, densitometers and filled flasks feel
// the density; conductivity meters the conductivity; refractometers the index.
const (
	Density Property = iota
	Conductivity
	Index

	properties
)

// String returns "density", "conductivity" or "refractive index".
func (p Property) String() string {
	switch p {
	case Density:
		return "density"
	case Conductivity:
		return "conductivity"
	case Index:
		return "refractive index"
	}
	return "no property"
}

// highestShown is the practical salinity at which the search for the reference
// water ends.
const highestShown = 60

// of returns the modelled property. The index takes the density of the water
// from where it is known better than by the volumes alone.
func (p Property) of(c *Composition, t units.Temperature, rho units.Density) float64 {
	m := c.at(t)
	switch p {
	case Density:
		return m.density()
	case Conductivity:
		return m.conductivity()
	case Index:
		return m.index(t, rho)
	}
	return math.NaN()
}

// ofReference returns the modelled property of the reference composition with
// s g/kg.
func (p Property) ofReference(s float64, t units.Temperature) float64 {
	r := referenceScaled(s)
	var rho units.Density
	if p == Index {
		rho = teos10.DensityExact(units.Absolute(s), t, 0)
	}
	return p.of(&r, t, rho)
}

// Shown returns the salinity of the reference seawater that has the same
// property: what an instrument that feels this property shows, if it is
// without fault. Give it to the instruments of the packages hydrometer,
// refractometer and conductivity to see the number on their scale.
//
//	symbol   S* such that f(S* Reference, t) = f(c, t), f the modelled property
//	source   the model of this package: additive volumes [APP14], binary salts [RW69, MC11],
//	         molar refractions [CRC]; as a difference from seawater, so that its own
//	         error cancels and the reference composition is exact
//	units    t °C ITS-90, result g/kg on the reference scale
//	range    CheckRange; uncertainty as [Composition.Readings] gives it
//	outside  extrapolates; a property that no reference water up to S 60 has, a
//	         composition that is no water, NaN or Inf: NaN
func (c Composition) Shown(p Property, t units.Temperature) units.AbsoluteSalinity {
	if !c.sound() {
		return units.Absolute(math.NaN())
	}
	var rho units.Density
	if p == Index {
		rho = c.Density(t)
	}
	return units.Absolute(p.reference(p.of(&c, t, rho), c.grams(), t))
}

// reference returns the g/kg of reference water of which the modelled property is
// want, or NaN. The search starts with the mass that is dissolved and with pure
// water. As the properties are almost straight lines, three or four secants are
// enough; where they are not, the search between the ends always comes to one.
func (p Property) reference(want, dissolved float64, t units.Temperature) float64 {
	const most = highestShown * referenceUnit
	off := func(s float64) float64 { return p.ofReference(s, t) - want }
	last, s := 0., math.Min(dissolved, most)
	offLast, offS := off(last), off(s)
	const enough, secants = 1e-9, 8 // what is left after a step of 1e-9 g/kg is below the last bits
	for range secants {
		step := offS * (s - last) / (offS - offLast)
		last, offLast = s, offS
		s -= step
		if !(s >= 0 && s <= most) {
			break
		}
		if math.Abs(step) <= enough {
			return s
		}
		offS = off(s)
	}
	s, ok := solve.Brent(off, 0, most, 0)
	if !ok {
		return math.NaN()
	}
	return s
}

// sound tells whether the contents can be those of a water.
func (c *Composition) sound() bool {
	for _, amount := range c.content {
		if !(amount >= 0) {
			return false
		}
	}
	return c.waterShare() > 0
}

// PracticalSalinity returns the practical salinity of the water, which by
// definition is what its conductivity tells.
//
//	source   Shown(Conductivity, t); [MFWM08] for the scale
//	range    CheckRange
//	outside  as Shown
func (c Composition) PracticalSalinity(t units.Temperature) units.PracticalSalinity {
	return practicalOf(c.Shown(Conductivity, t).GramsPerKilogram())
}

// Density returns the density of the water at the surface.
//
//	symbol   ρ = ρ(S*, t), S* = Shown(Density, t)
//	source   [R13] at the salinity shown
//	range    CheckRange; standard uncertainty 0.005 kg/m³ or 1 % of the difference
//	         from seawater of the same mass of salt
//	outside  as Shown
func (c Composition) Density(t units.Temperature) units.Density {
	return teos10.DensityExact(c.Shown(Density, t), t, 0)
}

// Conductivity returns the conductivity of the water at its temperature.
//
//	symbol   C = C(S*, t), S* = Shown(Conductivity, t)
//	source   [PSS-78] at the salinity shown
//	range    CheckRange
//	outside  as Shown
func (c Composition) Conductivity(t units.Temperature) units.Conductivity {
	return pss78.Conductivity(c.PracticalSalinity(t), t, 0)
}

// Index returns the refractive index of the water, relative to air and at the
// sodium D line.
//
//	symbol   n = n(S*, t), S* = Shown(Index, t)
//	source   [MS90] at the salinity shown
//	range    CheckRange, and to 30 °C; of solutions of single salts CheckRangeIndex
//	outside  as Shown
func (c Composition) Index(t units.Temperature) refractometer.AirIndex {
	return refractometer.Seawater(practicalOf(c.Shown(Index, t).GramsPerKilogram()), t)
}

// Reading is what the instruments that feel one property make of a water.
type Reading struct {
	Shown       units.AbsoluteSalinity // on the reference scale, as Composition.Shown
	Uncertainty units.AbsoluteSalinity // standard uncertainty of Shown, of the model alone
	Correction  units.MassPerKilogram  // to be added to what is shown to get what is dissolved; may be negative
}

// Readings is what all instruments make of a water, and what they should.
type Readings struct {
	Temperature units.Temperature
	Dissolved   units.AbsoluteSalinity // the mass of all solutes, Composition.SolutionSalinity

	Density      units.Density
	Conductivity units.Conductivity
	Index        refractometer.AirIndex // sodium D line; extrapolated above 30 °C

	By [properties]Reading // by Property: r.By[ions.Density]
}

// Closest returns the property whose instruments come nearest to the mass that
// is dissolved, the uncertainty of the model counted in: the one to trust for
// how much salt there is. Of readings that stand beside an error it is none, "no
// property".
func (r Readings) Closest() Property {
	best, least := properties, math.Inf(1)
	for p, by := range r.By {
		off := math.Hypot(by.Correction.GramsPerKilogram(), by.Uncertainty.GramsPerKilogram())
		if off < least {
			best, least = Property(p), off
		}
	}
	return best
}

// Readings returns what every kind of instrument shows in this water, how far
// that is from what is dissolved, and how well it is known.
//
// The model was compared with two geochemical codes, with measured salts and
// with the composition coefficients of TEOS-10. The standard uncertainties are
// what remained: for density 0.005 kg/m³ or 1 % of the shift; for conductivity
// 0.01 in salinity or 5 % of the shift, and 10 % of what sulfate and alkalinity
// contribute; for the index 0.02 g/kg or 5 % of the shift, growing to 1 g/kg for
// a pure salt. The shift is the difference between what is shown and what is
// dissolved.
//
// Outside the range of the model, and where no reference water up to salinity 60
// has one of the properties, the error is a *units.RangeError; a composition that is
// no water, or in which positive and negative charges differ by more than half a
// percent, is a *units.InputError. All is NaN beside an error; whoever wants to
// extrapolate asks Shown and Density, and CheckRange how far that is from sound.
func (c Composition) Readings(t units.Temperature) (Readings, error) {
	if err := CheckRange(c, t); err != nil {
		return noReadings(), err
	}
	r := Readings{Temperature: t, Dissolved: c.SolutionSalinity()}
	for p := range r.By {
		shown := c.Shown(Property(p), t)
		if math.IsNaN(shown.GramsPerKilogram()) {
			return noReadings(), &units.RangeError{
				Range: units.Range{Quantity: Property(p).String() + " as salinity", Max: highestShown, Source: "reference waters"},
				Got:   units.Scalar(math.NaN()),
			}
		}
		correction := r.Dissolved.GramsPerKilogram() - shown.GramsPerKilogram()
		r.By[p] = Reading{
			Shown:       shown,
			Uncertainty: units.Absolute(Property(p).uncertainty(&c, t, shown.GramsPerKilogram(), -correction)),
			Correction:  units.MassPerKilogram(correction) * units.GramPerKilogram,
		}
	}
	r.Density = teos10.DensityExact(r.By[Density].Shown, t, 0)
	r.Conductivity = pss78.Conductivity(practicalOf(r.By[Conductivity].Shown.GramsPerKilogram()), t, 0)
	r.Index = refractometer.Seawater(practicalOf(r.By[Index].Shown.GramsPerKilogram()), t)
	return r, nil
}

// noReadings stand beside an error.
func noReadings() Readings {
	nan := units.Absolute(math.NaN())
	r := Readings{
		Temperature: units.Celsius(math.NaN()), Dissolved: nan,
		Density: input.NaN[units.Density](), Conductivity: input.NaN[units.Conductivity](),
		Index: refractometer.InAir(math.NaN()),
	}
	for p := range r.By {
		r.By[p] = Reading{nan, nan, input.NaN[units.MassPerKilogram]()}
	}
	return r
}

// How well the model predicts, as found by comparison.
const (
	densityFloor      = 0.005 // kg/m³
	densityPart       = 0.01
	conductivityFloor = 0.01 * referenceUnit // g/kg
	conductivityPart  = 0.05
	sulfatePart       = 0.10
	indexFloor        = 0.02 // g/kg
	indexPart         = 0.05
	indexPureSalt     = 1.0 // g/kg

	// How far conductivity falls behind the mass dissolved, in g/kg per mmol/kg
	// of sulfate put for chloride and of sodium bicarbonate added, at S 35 and
	// 25 °C, by this model.
	sulfateShift    = 0.0766
	alkalinityShift = 0.0531
)

// uncertainty returns the standard uncertainty of the salinity shown, in g/kg.
func (p Property) uncertainty(c *Composition, t units.Temperature, shown, shift float64) float64 {
	shift = math.Abs(shift)
	ref := referenceScaled(c.grams())
	switch p {
	case Density:
		s := units.Absolute(shown)
		perGram := teos10.HalineContractionExact(s, t, 0) * float64(teos10.DensityExact(s, t, 0))
		return math.Max(densityFloor/perGram, densityPart*shift)
	case Conductivity:
		sulfate := (c.content[Sulfate] - ref.content[Sulfate]).MillimolesPerKilogram() * sulfateShift
		alkalinity := (c.Alkalinity() - ref.Alkalinity()).MillimolesPerKilogram() * alkalinityShift
		return math.Hypot(math.Max(conductivityFloor, conductivityPart*shift), sulfatePart*math.Hypot(sulfate, alkalinity))
	}
	near := math.Max(indexFloor, indexPart*shift)
	far := c.distance(&ref) / sodiumChlorideDistance
	return math.Hypot(near, indexPureSalt*math.Min(1, far*far))
}

// distance is the part of the charges that sits on other ions than in the
// reference: 0 to 1.
func (c *Composition) distance(ref *Composition) float64 {
	var moved, all float64
	for i := range c.content {
		z := math.Abs(float64(species[i].charge))
		moved += z * math.Abs(float64(c.content[i]-ref.content[i]))
		all += z * float64(c.content[i]+ref.content[i])
	}
	if all == 0 {
		return 0
	}
	return moved / all
}

// sodiumChlorideDistance is the distance of pure sodium chloride, with which the
// model was compared, from sea salt.
const sodiumChlorideDistance = 0.16

// CheckRange returns an error if the properties of this water are not known to
// the model: a *units.RangeError where it extrapolates, a *units.InputError for
// a composition that is no water or whose charges do not balance.
func CheckRange(c Composition, t units.Temperature) error {
	if err := c.usable(t); err != nil {
		return err
	}
	if err := temperatures.Check(t.Celsius()); err != nil {
		return err
	}
	if err := strengths.Check(c.IonicStrength()); err != nil {
		return err
	}
	salt := math.Min(float64(c.content[Sodium]), float64(c.content[Chloride]))
	return saltShares.Check(100 * (salt / c.cations())) // in this order, as a share of all must not round to more
}

// CheckRangeIndex returns an error if the refractive index of this water is not known to the
// model. It holds for more than the other properties do: the refractions of ions add up in a
// solution of one salt as in a sea.
//
//	range    that of CheckRange; and solutions of KCl, MgCl2, MgSO4, CaCl2, NaHCO3 and of what
//	         their ions make together, of an ionic strength to 0.7 mol/kg, 18 to 22 °C
//	source   within 1.4e-4 of [CRC] at 20 °C, of which 0.5e-4 are its last digit
//
// Beyond 0.7 mol/kg sodium bicarbonate is the first that is further off, by 1.7e-4 at 6 %.
func CheckRangeIndex(c Composition, t units.Temperature) error {
	err := CheckRange(c, t)
	if err == nil {
		return nil
	}
	if err := c.usable(t); err != nil {
		return err
	}
	for i, amount := range c.content {
		if float64(species[i].charge) != 0 && amount > 0 && !refracts(Ion(i)) &&
			float64(amount)*math.Abs(float64(species[i].charge)) > strangers*c.cations() {
			return err // an ion of no single salt: what CheckRange says
		}
	}
	if err := indexTemperatures.Check(t.Celsius()); err != nil {
		return err
	}
	return indexStrengths.Check(c.IonicStrength())
}

// strangers is the part of the charges that may sit on ions of which no single salt was
// compared: the index tells nothing of it.
const strangers = 0.01

// refracts tells whether single salts of an ion were compared.
func refracts(i Ion) bool {
	switch i {
	case Sodium, Potassium, Magnesium, Calcium, Chloride, Sulfate, Bicarbonate:
		return true
	}
	return false
}

// usable refuses what is no water.
func (c *Composition) usable(t units.Temperature) error {
	if err := c.Check(); err != nil {
		return err
	}
	if q := float64(c.Charge()); !(math.Abs(q) <= unbalanced*c.cations()) {
		return input.Bad("charge", input.Number(q)+" µeq/kg", "positive and negative charges in balance")
	}
	return input.Set("temperature", t)
}

// cations is the sum of positive charges in µeq/kg.
func (c *Composition) cations() float64 {
	var sum float64
	for i, amount := range c.content {
		if z := float64(species[i].charge); z > 0 {
			sum += z * float64(amount)
		}
	}
	return sum
}

// unbalanced is the part of the charges that may be missing.
const unbalanced = 0.005

var (
	temperatures = units.Range{
		Quantity: "temperature",
		Min:      5,
		Max:      35,
		Unit:     "°C",
		Source:   "comparison with TEOS-10 and PSS-78",
	}
	strengths = units.Range{
		Quantity: "ionic strength",
		Min:      0.05,
		Max:      1.1,
		Unit:     "mol/kg of water",
		Source:   "fit of the volumes",
	}
	indexTemperatures = units.Range{
		Quantity: "temperature",
		Min:      18,
		Max:      22,
		Unit:     "°C",
		Source:   "comparison with single salts at 20 °C",
	}
	indexStrengths = units.Range{
		Quantity: "ionic strength",
		Min:      0,
		Max:      0.7,
		Unit:     "mol/kg of water",
		Source:   "comparison with single salts",
	}
	saltShares = units.Range{
		Quantity: "share of sodium chloride in the charge",
		Min:      50,
		Max:      100,
		Unit:     "%",
		Source:   "the model is one of waters in which sodium chloride prevails",
	}
)

// MarshalText writes what String returns.
func (p Property) MarshalText() ([]byte, error) {
	return input.WriteChoice("property", p, 0, properties)
}

// UnmarshalText reads what String returns.
func (p *Property) UnmarshalText(text []byte) (err error) {
	*p, err = input.ReadChoice("property", text, 0, properties)
	return err
}
