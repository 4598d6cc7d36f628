package units

// The kinds of quantities: their places in readers.
const (
	absoluteSalinityKind kind = iota
	airPressureKind
	alkalinityKind
	amountPerKilogramKind
	amountPerLitreKind
	areaKind
	bareGravityKind
	conductivityKind
	conductivityAtKind
	densityKind
	durationKind
	energyKind
	flowKind
	fractionKind
	gaugePressureKind
	lengthKind
	massKind
	massPerKilogramKind
	massPerLitreKind
	molarMassKind
	moneyKind
	powerKind
	practicalSalinityKind
	ratioKind
	resistivityKind
	seaPressureKind
	specificGravityKind
	specificHeatKind
	speedKind
	tdsKind
	temperatureKind
	temperatureDifferenceKind
	thermalConductanceKind
	voltageKind
	volumeKind
	numberOfKinds
)

func (AbsoluteSalinity) kind() kind      { return absoluteSalinityKind }
func (AirPressure) kind() kind           { return airPressureKind }
func (Alkalinity) kind() kind            { return alkalinityKind }
func (AmountPerKilogram) kind() kind     { return amountPerKilogramKind }
func (AmountPerLitre) kind() kind        { return amountPerLitreKind }
func (Area) kind() kind                  { return areaKind }
func (BareGravity) kind() kind           { return bareGravityKind }
func (Conductivity) kind() kind          { return conductivityKind }
func (ConductivityAt) kind() kind        { return conductivityAtKind }
func (Density) kind() kind               { return densityKind }
func (Duration) kind() kind              { return durationKind }
func (Energy) kind() kind                { return energyKind }
func (Flow) kind() kind                  { return flowKind }
func (Fraction) kind() kind              { return fractionKind }
func (GaugePressure) kind() kind         { return gaugePressureKind }
func (Length) kind() kind                { return lengthKind }
func (Mass) kind() kind                  { return massKind }
func (MassPerKilogram) kind() kind       { return massPerKilogramKind }
func (MassPerLitre) kind() kind          { return massPerLitreKind }
func (MolarMass) kind() kind             { return molarMassKind }
func (Money) kind() kind                 { return moneyKind }
func (Power) kind() kind                 { return powerKind }
func (PracticalSalinity) kind() kind     { return practicalSalinityKind }
func (Ratio) kind() kind                 { return ratioKind }
func (Resistivity) kind() kind           { return resistivityKind }
func (SeaPressure) kind() kind           { return seaPressureKind }
func (SpecificGravity) kind() kind       { return specificGravityKind }
func (SpecificHeat) kind() kind          { return specificHeatKind }
func (Speed) kind() kind                 { return speedKind }
func (TDS) kind() kind                   { return tdsKind }
func (Temperature) kind() kind           { return temperatureKind }
func (TemperatureDifference) kind() kind { return temperatureDifferenceKind }
func (ThermalConductance) kind() kind    { return thermalConductanceKind }
func (Voltage) kind() kind               { return voltageKind }
func (Volume) kind() kind                { return volumeKind }

// readers are the kinds and how each is read.
var readers = [numberOfKinds]reader{
	absoluteSalinityKind: {
		name: "absolute salinity", table: &absoluteUnits,
		make: func(x float64) Quantity { return Absolute(x) },
	},
	airPressureKind: {name: "air pressure", table: &airPressureUnits, make: of[AirPressure]},
	alkalinityKind: {
		name: "alkalinity", table: &alkalinityUnits,
		make: func(x float64) Quantity { return MilliequivalentsPerLitre(x) },
	},
	amountPerKilogramKind: {
		name: "amount per kilogram", table: &amountPerKilogramUnits,
		make: of[AmountPerKilogram],
	},
	amountPerLitreKind: {name: "amount per litre", table: &amountPerLitreUnits, make: of[AmountPerLitre]},
	areaKind:           {name: "area", table: &areaUnits, make: of[Area]},
	bareGravityKind: {
		name: "specific gravity without its pair of temperatures", table: &bareGravityUnits,
		make: of[BareGravity],
	},
	conductivityKind: {name: "conductivity", table: &conductivityUnits, make: of[Conductivity]},
	conductivityAtKind: {
		name: "conductivity at a temperature", example: `"53 mS/cm at 25 °C"`,
		looks: looksLikeConductivityAt, parse: parsed[ConductivityAt],
	},
	densityKind: {name: "density", table: &densityUnits, make: of[Density]},
	durationKind: {
		name: "time", example: `"36 h", "14 days" or "3 months"`,
		looks: looksLikeDuration, parse: parsed[Duration],
	},
	energyKind:          {name: "energy", table: &energyUnits, make: of[Energy]},
	flowKind:            {name: "flow", table: &flowUnits, make: of[Flow]},
	fractionKind:        {name: "fraction", example: `"10 %"`, looks: looksLikeFraction, parse: parsed[Fraction]},
	gaugePressureKind:   {name: "gauge pressure", table: &gaugePressureUnits, make: of[GaugePressure]},
	lengthKind:          {name: "length", table: &lengthUnits, make: of[Length]},
	massKind:            {name: "mass", table: &massUnits, make: of[Mass]},
	massPerKilogramKind: {name: "mass per kilogram", table: &massPerKilogramUnits, make: of[MassPerKilogram]},
	massPerLitreKind:    {name: "mass per litre", table: &massPerLitreUnits, make: of[MassPerLitre]},
	molarMassKind:       {name: "molar mass", table: &molarMassUnits, make: of[MolarMass]},
	moneyKind:           {name: "price", example: `"18.50 EUR"`, looks: looksLikeMoney, parse: parsed[Money]},
	powerKind:           {name: "power", table: &powerUnits, make: of[Power]},
	practicalSalinityKind: {
		name: "practical salinity", table: &practicalUnits,
		make: func(x float64) Quantity { return Practical(x) },
	},
	ratioKind:       {name: "ratio", example: `"3:1"`, looks: looksLikeRatio, parse: parsed[Ratio]},
	resistivityKind: {name: "resistivity", table: &resistivityUnits, make: of[Resistivity]},
	seaPressureKind: {name: "sea pressure", table: &seaPressureUnits, make: of[SeaPressure]},
	specificGravityKind: {
		name: "specific gravity", example: `"1.0264 25/25 °C"`,
		looks: looksLikeSpecificGravity, parse: parsed[SpecificGravity],
	},
	specificHeatKind: {name: "specific heat", table: &specificHeatUnits, make: of[SpecificHeat]},
	speedKind:        {name: "speed", table: &speedUnits, make: of[Speed]},
	tdsKind:          {name: "dissolved solids", example: `"2 ppm x0.5"`, looks: looksLikeTDS, parse: parsed[TDS]},
	temperatureKind: {
		name: "temperature", table: &temperatureUnits,
		make: func(x float64) Quantity { return Celsius(x) },
	},
	temperatureDifferenceKind: {
		name: "temperature difference", table: &temperatureDifferenceUnits,
		make: of[TemperatureDifference],
	},
	thermalConductanceKind: {name: "heat loss", table: &thermalConductanceUnits, make: of[ThermalConductance]},
	voltageKind:            {name: "voltage", table: &voltageUnits, make: of[Voltage]},
	volumeKind:             {name: "volume", table: &volumeUnits, make: of[Volume]},
}

// of makes a quantity that is so many times its base unit.
func of[Q interface {
	~float64
	Quantity
}](x float64) Quantity {
	return Q(x)
}

// parsed reads a quantity by its own reader.
func parsed[Q Quantity, P interface {
	*Q
	UnmarshalText([]byte) error
}](text string) (Quantity, error) {
	q, err := Parse[Q, P](text)
	if err != nil {
		return nil, err
	}
	return q, nil
}

// What has more to it than one number and one unit is known by its looks.

func looksLikeConductivityAt(t typed) bool {
	_, _, found := cutAt(t.rest)
	return t.sound && found
}

func looksLikeDuration(t typed) bool {
	if !t.sound {
		return false
	}
	var part typed
	text := tidy(t.text)
	part.take(text[:partLen(text)])
	_, known := durationUnits.find(part.unit())
	return known
}

func looksLikeFraction(t typed) bool { return t.sound && t.is(percents) }

func looksLikeMoney(t typed) bool { return t.sound && isCurrency(t.rest) }

func looksLikeRatio(t typed) bool {
	_, found := afterColon(t.rest)
	return t.sound && found
}

func looksLikeSpecificGravity(t typed) bool {
	_, _, ok := parseGravity(t.text)
	return ok
}

func looksLikeTDS(t typed) bool {
	ppm, _ := solids(t.rest)
	return t.sound && ppm > 0
}
