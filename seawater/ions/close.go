package ions

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Origin says where the content of a species in a [Closure] comes from.
type Origin uint8

// The origins.
const (
	Absent   Origin = iota // not reported, and taken as none
	Measured               // reported, perhaps adjusted
	Inferred               // from the balance of charge, and a property of the water as a whole
	Assumed                // not reported, and taken in proportion to chloride as in the sea
)

// String returns "measured", "inferred", "assumed" or "absent".
func (o Origin) String() string {
	switch o {
	case Measured:
		return "measured"
	case Inferred:
		return "inferred"
	case Assumed:
		return "assumed"
	}
	return "absent"
}

// Fit is how one measurement fits the closed composition. Contents are in
// µmol/kg. What tells of the water as a whole is in g/kg: the salinity of the
// reference seawater in which the instrument would show the same.
type Fit struct {
	Quantity    string
	Unit        string
	Measured    float64
	Closed      float64
	Uncertainty float64 // standard, of Measured; for a property, that of the model counted in
}

// Sigmas returns by how many standard uncertainties the closed composition
// departs from the measurement. Above 3 the measurement is suspect.
func (f Fit) Sigmas() float64 {
	if f.Closed == f.Measured {
		return 0
	}
	return (f.Closed - f.Measured) / f.Uncertainty
}

// Closure is a composition whose charges balance, made from a [Report], and
// all that had to be decided on the way.
type Closure struct {
	Composition Composition
	Temperature units.Temperature // of the litres, pH and properties of the report

	// Imbalance is by how much more positive charge was measured than negative,
	// before anything was adjusted, and its standard uncertainty. Both are NaN
	// if sodium or chloride was not measured, as there is nothing to compare then.
	Imbalance            units.AmountPerKilogram
	ImbalanceUncertainty units.AmountPerKilogram

	Fits    []Fit    // every content and property that was measured, in the order of the report
	Suspect string   // that fits worst: by the charges, the sea, or by more than 3 standard uncertainties
	Doubts  []string // of measurements that differ from the sea by more than a factor of 2.4
	Assumed []string // everything that was inferred or assumed

	Origins [count]Origin // by Ion, as Origin tells them
}

// Origin tells where the content of a species comes from.
func (c *Closure) Origin(i Ion) Origin {
	if i >= count {
		return Absent
	}
	return c.Origins[i]
}

// Unbalanced tells whether the charges as measured differ by more than twice the
// standard uncertainty.
func (c *Closure) Unbalanced() bool {
	return math.Abs(float64(c.Imbalance)) > 2*float64(c.ImbalanceUncertainty)
}

// UnclosedError reports that no water fits a report. errors.Is(err,
// units.ErrInput) is true for it.
type UnclosedError struct {
	Reason    string
	Imbalance units.AmountPerKilogram // positive charge less negative charge, of what was measured
	Suspect   string                  // the content that alone would explain the imbalance, if there is one
}

// Error reads "composition: sodium and chloride are missing...".
func (e *UnclosedError) Error() string {
	suspect := ""
	if e.Suspect != "" {
		suspect = "; look at " + e.Suspect + " first, which alone would explain it"
	}
	return "composition cannot be closed: " + e.Reason + " (imbalance " +
		input.Fixed(e.Imbalance.MillimolesPerKilogram(), 2) + " mmol/kg of charge)" + suspect
}

// Is makes errors.Is(err, units.ErrInput) true.
func (e *UnclosedError) Is(target error) bool { return target == units.ErrInput }

// What a report that does not say is taken to mean.
const (
	usualUncertainty  = 0.02  // of a content
	bulkUncertainty   = 0.003 // of a property, as a part of the salinity
	proportionScatter = 0.05  // of an ion of sea salt that was not measured
	alkalinityScatter = 0.20  // of an alkalinity that was not measured
	freely            = 1e7   // µmol/kg: of an ion about which nothing is known

	worst = 10 // standard uncertainties of imbalance at which to give up
)

// Close makes a composition with balanced charges from the report.
//
// Elements are taken for the species that seawater holds them in. Ions of sea
// salt that the report leaves out are taken in proportion to chloride, other
// things as absent. Sodium and chloride, which laboratories often leave out or
// measure badly, are inferred if they are missing: one of them from the balance of
// charge; both from that and one property of the water as a whole, salinity,
// density, specific gravity, conductivity, chlorinity or refractive index. What is measured
// beyond that is adjusted by least squares, each value by its uncertainty, so
// that charges balance and properties fit:
//
//	minimise  Σ (d_i/u_i)² + Σ (e_k/u_k)²
//	such that Σ z_i (n_i + d_i) = TA + d_TA and g_k(n + d) = y_k + e_k
//	source    [GUM1] section 6, least squares with constraints (JCGM 102); [WG07] for the alkalinity
//
// Alkalinity and pH or DIC settle the forms of carbon and boron. A report per
// litre is turned to kilograms with the density of the composition itself.
//
// The error is a *units.InputError for a line that cannot be used or could mean
// two things, naming it, joined if there are several, and an *UnclosedError if no water fits;
// beside it all is NaN or empty.
func (r Report) Close() (Closure, error) {
	none := Closure{
		Composition: invalid(),
		Temperature: units.Celsius(math.NaN()),
		Imbalance:   input.NaN[units.AmountPerKilogram](), ImbalanceUncertainty: input.NaN[units.AmountPerKilogram](),
	}
	var c closing
	if err := c.read(r); err != nil {
		return none, err
	}
	rho := units.Density(1023)
	for round := 0; round < 10; round++ {
		if err := c.round(rho); err != nil {
			return none, err
		}
		if !c.litres {
			break
		}
		next := c.made.Density(c.t)
		if !(next > 0) {
			return none, &UnclosedError{"no seawater is like it, so its litre has no known mass", c.imbalance(), ""}
		}
		if math.Abs(float64(next-rho)) < 1e-9 {
			break
		}
		rho = next
	}
	return c.closure(), nil
}

// line is a measurement that counts, read.
type line struct {
	Measurement
	quantity
	scale scale
	read  func(float64) float64 // of a bulk measurement
	at    units.Temperature     // of a bulk measurement
	value float64               // µmol/kg or g/kg
	u     float64
}

// closing is the work on one report.
type closing struct {
	t      units.Temperature
	litres bool // some contents are per litre

	lines []line // contents, alkalinity, carbon and bulk, as reported
	ph    *Measurement

	reported [count]bool // contents; boron stands at BoricAcid

	// the unknowns, in µmol/kg: the contents with carbon at Bicarbonate and boron
	// at BoricAcid, and the alkalinity
	total      Composition
	alkalinity float64
	hasTA      bool
	hasCarbon  bool

	start    Composition // total before any adjustment
	startTA  float64
	followed units.AmountPerKilogram // the chloride by which start is in proportion
	u        [count + 1]float64      // standard uncertainties of the unknowns, the alkalinity last

	q, uq float64 // imbalance as measured
	made  Composition

	assumed []string
}

func (c *closing) assume(text string) {
	for _, a := range c.assumed {
		if a == text {
			return
		}
	}
	c.assumed = append(c.assumed, text)
}

// read understands the lines of the report.
func (c *closing) read(r Report) error {
	if len(r) == 0 || len(r) > mostLines {
		return input.Bad("report", input.Number(float64(len(r)))+" measurements", "1 to 200")
	}
	var wrong []error
	for i := range r {
		wrong = append(wrong, c.readLine(&r[i]))
	}
	if err := input.Join(wrong...); err != nil {
		return err
	}
	return c.readWhole()
}

// readLine understands one line, as far as the temperature does not matter.
func (c *closing) readLine(m *Measurement) error {
	q, err := meaning(m.Quantity) // which bounds the length of what is echoed below
	if err != nil {
		return err
	}
	if len(m.Unit) > mostText {
		return input.Bad(m.Quantity+".unit", input.Quoted(m.Unit), "the unit alone")
	}
	if err := checkNumbers(*m); err != nil {
		return err
	}
	switch q.kind {
	case temperature:
		return c.readTemperature(m)
	case acidity:
		if c.ph != nil {
			return twice(*m)
		}
		c.ph = m
		return nil
	}
	l := line{Measurement: *m, quantity: q}
	if err := l.readUnit(); err != nil {
		return err
	}
	if q.kind == trace {
		return c.readTrace(l)
	}
	for i := range c.lines {
		if l.repeats(&c.lines[i]) {
			return twice(*m)
		}
	}
	if l.assumed != "" {
		c.assume(l.assumed)
	}
	c.litres = c.litres || l.scale.litre
	c.lines = append(c.lines, l)
	switch q.kind {
	case content:
		c.reported[q.ion] = true
	case alkalinity:
		c.hasTA = true
	case carbon:
		c.hasCarbon = true
	}
	return nil
}

// readTemperature takes that of the sample.
func (c *closing) readTemperature(m *Measurement) (err error) {
	if c.t.IsSet() {
		return twice(*m)
	}
	c.t, err = units.Parse[units.Temperature](strconv.FormatFloat(m.Value, 'g', -1, 64) + " " + m.Unit)
	if err != nil {
		return input.Bad(m.Quantity+".unit", input.Quoted(m.Unit), `"°C" or "°F"`)
	}
	return nil
}

// readUnit finds the scale of a content or an alkalinity.
func (l *line) readUnit() (err error) {
	switch l.kind {
	case bulk:
		return nil
	case alkalinity:
		l.scale, err = alkalinityUnit(l.Quantity, l.Unit)
		return err
	}
	l.scale, err = contentUnit(l.Quantity, l.Unit)
	if err == nil && l.scale.mass && l.counted == 0 && l.kind == content {
		return input.Bad("quantity", input.Quoted(l.Quantity), "to know as what a mass of it is counted: "+choices(l.ion))
	}
	return err
}

// repeats tells whether two lines are of one thing. Properties are told apart once
// the temperature is known.
func (l *line) repeats(before *line) bool {
	switch {
	case l.kind != before.kind:
		return false
	case l.kind == content:
		return l.ion == before.ion
	}
	return l.kind == alkalinity || l.kind == carbon
}

// checkNumbers refuses numbers that no measurement has.
func checkNumbers(m Measurement) error {
	if math.IsNaN(m.Value) || math.IsInf(m.Value, 0) {
		return input.Bad(m.Quantity, input.Number(m.Value), "a number")
	}
	if err := input.NotNegative(m.Quantity+".uncertainty", m.Uncertainty, m.Unit); err != nil {
		return err
	}
	return nil
}

func twice(m Measurement) error {
	return input.Bad(m.Quantity, "it a second time", "each quantity once")
}

// readTrace lets a trace pass.
func (c *closing) readTrace(l line) error {
	if !l.scale.mass || l.Value*l.scale.size > mostTrace.MilligramsPerLitre() {
		return input.Bad(l.Quantity, input.Number(l.Value)+" "+
			l.Unit, "less than 1 mg/L of an element that the sums leave out")
	}
	c.assume("traces of elements that are not among the ions are left out")
	return nil
}

// readWhole understands the measurements that depend on temperature, once that is
// known.
func (c *closing) readWhole() error {
	if !c.t.IsSet() {
		if needs := c.needsTemperature(); needs != "" {
			return input.Bad("temperature", "nothing", `the temperature of the sample for its `+needs+
				`, such as "temperature, 25, °C"`)
		}
		c.t = units.Celsius(20)
		if c.litres {
			c.assume("a litre is measured at 20 °C")
		}
	}
	if err := (units.Range{Quantity: "temperature", Min: 0, Max: 40, Unit: "°C"}).Check(c.t.Celsius()); err != nil {
		return err
	}
	for i := range c.lines {
		if c.lines[i].kind != bulk {
			continue
		}
		if err := c.readProperty(i); err != nil {
			return err
		}
	}
	return c.checkPH()
}

// needsTemperature names a measurement that means nothing without it.
func (c *closing) needsTemperature() string {
	needs := ""
	if c.ph != nil {
		needs = c.ph.Quantity
	}
	for _, l := range c.lines {
		if l.kind == bulk && (l.whole == byDensity || l.whole == byConductivity || l.whole == byIndex) {
			needs = l.Quantity
		}
	}
	return needs
}

// readProperty understands a property of the water as a whole.
func (c *closing) readProperty(i int) (err error) {
	l := &c.lines[i]
	l.at = c.t
	if l.whole == byGravity {
		pair, assumed, err := gravityPair(l.Measurement)
		if err != nil {
			return err
		}
		if assumed != "" {
			c.assume(assumed)
		}
		l.at = pair.Liquid
	}
	if l.whole, l.read, err = l.reader(l.Measurement, l.at); err != nil {
		return err
	}
	if l.whole == byPractical && !strings.EqualFold(l.Unit, "PSS-78") && !strings.EqualFold(l.Unit, "PSU") {
		c.assume("a salinity of " + input.Number(l.Value) + " " + l.Unit + " is read as practical salinity")
	}
	if l.Below {
		return input.Bad(l.Quantity, "less than "+input.Number(l.Value), "a value")
	}
	for _, before := range c.lines[:i] {
		if before.kind == bulk && before.whole == l.whole {
			return twice(l.Measurement)
		}
	}
	return nil
}

// checkPH refuses a pH that no seawater has, and one that says more or less than
// goes with what else was measured.
func (c *closing) checkPH() error {
	switch {
	case c.ph == nil:
		return nil
	case !(c.ph.Value >= 6 && c.ph.Value <= 10) || c.ph.Below:
		return input.Bad(c.ph.Quantity, input.Number(c.ph.Value), "6 to 10, as seawater has")
	case c.hasCarbon && c.hasTA:
		return input.Bad(c.ph.Quantity, "pH, DIC and alkalinity", "two of the three: the third follows")
	case c.hasCarbon:
		return input.Bad(c.ph.Quantity, "pH and DIC without alkalinity", "the alkalinity")
	}
	var k carbonate.Constants
	_, err := totalPH(*c.ph, &k)
	return err
}

// round closes the composition once, for a density of the litres.
func (c *closing) round(rho units.Density) error {
	if err := c.convert(rho); err != nil {
		return err
	}
	if err := c.complete(); err != nil {
		return err
	}
	return c.adjust()
}

// convert takes the measurements to µmol/kg and g/kg.
func (c *closing) convert(rho units.Density) error {
	c.total, c.alkalinity, c.followed = Composition{}, 0, 0
	c.u = [count + 1]float64{}
	for i := range c.lines {
		l := &c.lines[i]
		if l.kind == bulk {
			if err := l.convertWhole(c); err != nil {
				return err
			}
			continue
		}
		one := l.scale.perKilogram(l.counted, rho)
		l.value, l.u = l.Value*one, l.Uncertainty*one
		if l.Below { // anything from nothing to the limit is as likely
			l.u = l.value / math.Sqrt(12)
			l.value /= 2
			c.assume("what is below a limit of detection is taken as half of it")
		}
		if l.u == 0 {
			l.u = usualUncertainty * math.Abs(l.value)
			c.assume("contents reported without an uncertainty have one of 2 %")
		}
		if l.kind != alkalinity && !(l.value >= 0 && l.value < 1e7) {
			return input.Bad(l.Quantity, input.Number(l.Value)+" "+l.Unit, "a content that seawater can have")
		}
		switch l.kind {
		case content:
			c.total.content[l.ion] = units.AmountPerKilogram(l.value)
			c.u[l.ion] = l.u
		case alkalinity:
			c.alkalinity = l.value
			c.u[count] = l.u
		case carbon:
			c.total.content[Bicarbonate] = units.AmountPerKilogram(l.value)
		}
	}
	return nil
}

// convertWhole takes a bulk measurement to g/kg.
func (l *line) convertWhole(c *closing) error {
	l.value = l.read(l.Value)
	l.u = math.Abs(l.read(l.Value+l.Uncertainty) - l.value)
	most := highestShown * referenceUnit
	if !(l.value > 0 && l.value < most) {
		return input.Bad(l.Quantity, input.Number(l.Value)+" "+
			l.Unit, "what seawater up to salinity 60 has at this temperature")
	}
	if l.Uncertainty == 0 || math.IsNaN(l.u) {
		l.u = bulkUncertainty * l.value
		c.assume("salinity, density and the like reported without an uncertainty have one of 0.3 % in salinity")
	}
	return nil
}

// complete gives the ions of sea salt that the report leaves out their usual
// proportion, and solves for sodium and chloride if they are missing.
func (c *closing) complete() error {
	if c.reported[Sodium] && c.reported[Chloride] {
		c.proportion()
		c.start, c.startTA = c.total, c.alkalinity
		return c.compare()
	}
	c.q, c.uq = math.NaN(), math.NaN()
	if c.reported[Chloride] { // sodium from the balance
		c.proportion()
		c.infer("sodium is inferred from the balance of charge")
	} else if c.reported[Sodium] { // chloride from the balance, with what goes along with it
		c.u[Chloride] = freely
		imbalance := func(chloride float64) float64 { return c.sodiumFor(chloride) - float64(c.total.content[Sodium]) }
		const far = 1e6 // it is linear, so any two points do
		none, some := imbalance(0), imbalance(far)
		c.sodiumFor(-none * far / (some - none))
		c.assume("chloride is inferred from the balance of charge")
	} else if err := c.inferBoth(); err != nil {
		return err
	}
	if !(c.total.content[Sodium] >= 0 && c.total.content[Chloride] >= 0) {
		return &UnclosedError{"sodium or chloride would have to be negative", c.imbalance(), ""}
	}
	c.start, c.startTA = c.total, c.alkalinity
	return nil
}

// proportion fills in the ions of sea salt that were not reported, in proportion
// to chloride.
func (c *closing) proportion() {
	sea := referenceScaled(1)
	share := c.total.content[Chloride] / sea.content[Chloride]
	for _, x := range referenceFraction {
		switch x.ion {
		case Sodium, Chloride, Bicarbonate, Carbonate, CarbonDioxide, Hydroxide, Borate:
			continue
		}
		if c.reported[x.ion] {
			continue
		}
		usual := sea.content[x.ion] * share
		if x.ion == BoricAcid {
			usual = sea.Boron() * share
		}
		c.total.content[x.ion] = usual
		c.u[x.ion] = proportionScatter * math.Abs(float64(usual))
	}
	if !c.hasTA {
		c.alkalinity = float64(sea.Alkalinity() * share)
		c.u[count] = alkalinityScatter * math.Abs(c.alkalinity)
	}
	if !c.hasCarbon {
		c.total.content[Bicarbonate] = c.usualCarbon()
	}
}

// usualCarbon is the carbon that goes along with the alkalinity in the sea.
func (c *closing) usualCarbon() units.AmountPerKilogram {
	sea := referenceScaled(1)
	return units.AmountPerKilogram(c.alkalinity) * sea.Carbon() / sea.Alkalinity()
}

// infer puts sodium to where the charges balance.
func (c *closing) infer(how string) {
	c.total.content[Sodium] = 0
	c.total.content[Sodium] = units.AmountPerKilogram(c.alkalinity) - c.total.Alkalinity()
	c.u[Sodium] = freely
	if how != "" {
		c.assume(how)
	}
}

// sodiumFor sets chloride, and what goes along with it, and returns the sodium
// that the charges then ask for. It leaves sodium as it is.
func (c *closing) sodiumFor(chloride float64) float64 {
	c.total.content[Chloride] = units.AmountPerKilogram(chloride)
	c.proportion()
	return c.alkalinity - float64(c.total.Alkalinity()-c.total.content[Sodium])
}

// inferBoth finds sodium and chloride from the balance of charge and the best
// known property of the water as a whole.
func (c *closing) inferBoth() error {
	var best *line
	for i := range c.lines {
		l := &c.lines[i]
		if l.kind == bulk && (best == nil || l.u < best.u) {
			best = l
		}
	}
	if best == nil {
		return &UnclosedError{
			"sodium and chloride are missing; it takes one of them, or salinity, density, specific gravity, " +
				"conductivity, chlorinity or refractive index",
			c.imbalance(),
			"",
		}
	}
	set := func(chloride float64) {
		c.total.content[Sodium] = units.AmountPerKilogram(c.sodiumFor(chloride))
	}
	// From where on sodium is positive: it is linear in chloride.
	const far = 1e6
	none, some := c.sodiumFor(0), c.sodiumFor(far)
	low := math.Max(0, -none*far/(some-none))
	reference := Reference(units.Practical(35))
	high := 2 * float64(reference.content[Chloride])
	p, felt := best.whole.property()
	target := best.value
	if felt { // the raw property is cheaper than the salinity that it stands for, and as good
		target = p.ofReference(best.value, best.at)
	}
	chloride, ok := solve.Brent(func(x float64) float64 {
		set(x)
		if float64(c.total.content[Sodium]) < 0 { // by rounding at the lower end
			c.total.content[Sodium] = 0
		}
		made, err := c.settle()
		if err != nil { // next to pure water: there is no need to be exact, so far from the root
			made = c.total
		}
		if felt {
			var rho units.Density
			if p == Index {
				if rho = made.Density(best.at); math.IsNaN(float64(rho)) {
					return 1 // saltier than any reference water
				}
			}
			return p.of(&made, best.at, rho) - target
		}
		return best.whole.of(&made, best.at) - target
	}, low*(1+1e-12), high, 0)
	if !ok {
		c.total.content[Sodium], c.total.content[Chloride] = 0, 0
		c.proportion()
		return &UnclosedError{"no sodium and chloride give the " + best.Quantity + " that was measured", c.imbalance(), ""}
	}
	set(chloride)
	c.u[Sodium], c.u[Chloride] = freely, freely
	c.assume("sodium and chloride are inferred from the balance of charge and the " + best.Quantity)
	return nil
}

// imbalance is the charge of the contents beyond the alkalinity.
func (c *closing) imbalance() units.AmountPerKilogram {
	return c.total.Alkalinity() - units.AmountPerKilogram(c.alkalinity)
}

// compare judges the balance of charge as measured.
func (c *closing) compare() error {
	c.q = float64(c.imbalance())
	c.uq = 0
	for i := range c.u {
		c.uq = math.Hypot(c.uq, coefficient(i)*c.u[i])
	}
	if !(math.Abs(c.q) <= worst*c.uq) {
		return &UnclosedError{
			"a value or a unit must be wrong, as the charges are off by more than ten times their uncertainty",
			c.imbalance(),
			c.suspect(),
		}
	}
	return nil
}

// suspect names the reported content that makes most of an imbalance by how far it
// is from the sea: seawater of the median strength of the large ions.
func (c *closing) suspect() string {
	sea := Reference(units.Practical(35))
	var strengths []float64
	for _, i := range [...]Ion{Sodium, Magnesium, Calcium, Potassium, Chloride, Sulfate} {
		if c.reported[i] {
			strengths = append(strengths, float64(c.start.content[i]/sea.content[i]))
		}
	}
	slices.Sort(strengths)
	if len(strengths) < 3 {
		return ""
	}
	strength := strengths[len(strengths)/2]
	name, nearest := "", math.Abs(c.q)/3
	for i := range Ion(count) {
		if !c.reported[i] {
			continue
		}
		off := coefficient(int(i)) * (float64(c.start.content[i]) - strength*float64(sea.content[i]))
		if left := math.Abs(c.q - off); left < nearest {
			name, nearest = c.word(i), left
		}
	}
	return name
}

// word is what the report calls an ion.
func (c *closing) word(i Ion) string {
	for _, l := range c.lines {
		if l.kind == content && l.ion == i {
			return l.Quantity
		}
	}
	return i.Symbol()
}

// coefficient is the change of the imbalance with an unknown, the alkalinity
// last.
func coefficient(i int) float64 {
	if i == int(count) {
		return -1
	}
	return float64(species[i].protons)
}

// settle distributes carbon and boron in the composition of the unknowns. Its
// charges have to balance.
func (c *closing) settle() (Composition, error) {
	if c.ph == nil {
		return c.total.Settled(c.t)
	}
	k := carbonate.At(c.total.saltiness(), c.t, carbonate.Options{})
	ph, err := totalPH(*c.ph, &k)
	if err != nil {
		return invalid(), err
	}
	return c.total.AtPH(ph, c.t)
}

// MarshalText writes what String returns.
func (o Origin) MarshalText() ([]byte, error) { return input.WriteChoice("origin", o, 0, Assumed+1) }

// UnmarshalText reads what String returns.
func (o *Origin) UnmarshalText(text []byte) (err error) {
	*o, err = input.ReadChoice("origin", text, 0, Assumed+1)
	return err
}
