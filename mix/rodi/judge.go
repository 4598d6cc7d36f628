package rodi

import (
	"cmp"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

// Readings are what was measured at a running system, after some minutes. What
// was not measured is left at its zero value; the feed and the membrane's product
// are needed.
type Readings struct {
	Feed          units.TDS
	AfterMembrane units.TDS
	AfterResin    units.TDS
	Step          float64 // of the meter's display, ppm: 1 where it shows no decimals

	Before, Behind units.GaugePressure // sediment and carbon, while water flows
	GaugeStep      units.GaugePressure // of the gauge's scale; 0: not measured

	Chlorine     units.MassPerLitre // total, behind the carbon, as Cl₂
	ChlorineStep units.MassPerLitre // the least that the test tells from nothing; 0: not tested
}

// Limits are the values at which a stage is replaced.
type Limits struct {
	Rejection    units.Fraction // the membrane, below
	AfterResin   units.TDS      // the resin, above
	PressureDrop units.GaugePressure
	Chlorine     units.MassPerLitre
}

// UsualLimits returns the limits of common practice: a membrane below 90 %
// rejection, resin above 1 ppm of a meter with the factor 0.5, prefilters above 0.7
// bar (10 psi) of pressure drop, carbon above 0.1 mg/L of chlorine.
func UsualLimits() Limits {
	return Limits{
		Rejection: units.Percent(90), AfterResin: units.TDSReading(1, 0.5),
		PressureDrop: 0.7 * units.BarGauge, Chlorine: 0.1 * units.MilligramPerLitre,
	}
}

// Stage is a stage of a system.
type Stage uint8

// The stages in the order of the water.
const (
	StageSediment Stage = iota + 1
	StageCarbon
	StageMembrane
	StageResin

	stages
)

// String returns "sediment", "carbon", "membrane" or "resin".
func (s Stage) String() string {
	switch s {
	case StageSediment:
		return "sediment"
	case StageCarbon:
		return "carbon"
	case StageMembrane:
		return "membrane"
	case StageResin:
		return "resin"
	}
	return "unknown"
}

// MarshalText writes the name of the stage.
func (s Stage) MarshalText() ([]byte, error) {
	return input.WriteChoice("stage", s, StageSediment, stages)
}

// UnmarshalText reads what MarshalText writes.
func (s *Stage) UnmarshalText(text []byte) (err error) {
	*s, err = input.ReadChoice("stage", text, StageSediment, stages)
	return err
}

// Verdict says what to do about a stage.
type Verdict uint8

// The verdicts.
const (
	NotJudged Verdict = iota // nothing was measured there
	Keep                     // within its limit, beyond the doubt of the readings
	Unsure                   // too near to the limit for these readings
	Replace                  // outside its limit, beyond the doubt of the readings

	verdicts
)

// String returns "not judged", "keep", "unsure" or "replace".
func (v Verdict) String() string {
	switch v {
	case NotJudged:
		return "not judged"
	case Keep:
		return "keep"
	case Unsure:
		return "unsure"
	case Replace:
		return "replace"
	}
	return "unknown"
}

// MarshalText writes the verdict.
func (v Verdict) MarshalText() ([]byte, error) {
	return input.WriteChoice("verdict", v, NotJudged, verdicts)
}

// UnmarshalText reads what MarshalText writes.
func (v *Verdict) UnmarshalText(text []byte) (err error) {
	*v, err = input.ReadChoice("verdict", text, NotJudged, verdicts)
	return err
}

// Finding is the verdict on one stage, with a sentence for people.
type Finding struct {
	Stage    Stage
	Verdict  Verdict
	Sentence string
}

// Checkup is what readings tell about a system.
type Checkup struct {
	Rejection   units.Fraction // of the membrane
	Uncertainty units.Fraction // of that, standard
	Findings    [4]Finding     // in the order of the water
	Cautions    []advice.Caution
}

// coverage is the factor from a standard uncertainty to one that is exceeded one
// time in twenty [GUM, 6.2]; for a display alone it is never exceeded.
const coverage = 2

// judge compares a value that should be low with its limit.
func judge(value, uncertainty, limit float64) Verdict {
	switch doubt := coverage * uncertainty; {
	case value-doubt > limit:
		return Replace
	case value+doubt <= limit:
		return Keep
	}
	return Unsure
}

// Judge says which stage is due, as far as the readings can tell: a stage is
// kept or replaced if twice the standard uncertainty of its reading leaves no
// doubt. Readings at one moment tell of membrane, resin and carbon; a rejection
// is best compared with that of the same membrane in its first weeks.
//
// It asks for the step of the meter: without one, 1 ppm behind the resin would be
// told from 0 for certain.
func Judge(r Readings, limit Limits) (Checkup, error) {
	var noStep error
	if r.Step == 0 {
		noStep = input.Bad("step", "none", "the step of the meter's display in ppm, 1 where it shows no decimals")
	}
	found, u, noRejection := rejection("afterMembrane", r.Feed, r.AfterMembrane, r.Step)
	sediment, noSediment := r.sediment(limit)
	carbon, noCarbon := r.carbon(limit)
	resin, noResin := r.resin(limit)
	err := input.Join(input.In("limits", limit.check()), cmp.Or(noStep, noRejection), noSediment, noCarbon, noResin)
	if err != nil {
		return Checkup{}, err
	}
	c := Checkup{
		Rejection: found, Uncertainty: u,
		Findings: [4]Finding{sediment, carbon, membraneFinding(found, u, limit), resin},
	}
	c.Cautions = []advice.Caution{flushFirst, drinkingLine, chlorineKills}
	if r.AfterResin != (units.TDS{}) {
		c.Cautions = append(c.Cautions, notForDrinking)
	}
	return c, nil
}

func (r Readings) sediment(limit Limits) (Finding, error) {
	f := Finding{
		Stage: StageSediment,
		Sentence: "Two pressures, before the sediment filter and behind the carbon while water flows, would tell whether " +
			"they are clogged.",
	}
	if err := input.NotNegative("gaugeStep", float64(r.GaugeStep), "bar"); err != nil {
		return f, err
	}
	if r.GaugeStep == 0 {
		if r.Before != 0 || r.Behind != 0 {
			return f, input.Bad("gaugeStep", r.GaugeStep.String(), "the step of the gauge that the pressures were read from")
		}
		return f, nil
	}
	if err := input.NotNegative("behind", float64(r.Behind), "bar"); err != nil {
		return f, err
	}
	doubt := math.Sqrt2 * displayed(float64(r.GaugeStep)) // of a difference
	drop := r.Before - r.Behind
	if !(float64(drop) >= -coverage*doubt) || math.IsInf(float64(drop), 0) {
		return f, input.Bad("before", r.Before.String(), "at least the pressure behind, "+r.Behind.String())
	}
	f.Verdict = judge(float64(drop), doubt, float64(limit.PressureDrop))
	f.Sentence = "Sediment filter and carbon take " + input.Fixed(drop.Bars(), 2) + " ± " +
		input.Fixed(coverage*doubt, 2) + " bar; the limit is " + input.Number(limit.PressureDrop.Bars()) + " bar: " +
		choose(f.Verdict, "they are free.", "compare again in a week, or read a finer gauge.", "replace the sediment filter "+
			"first, and the carbon if that does not help.")
	return f, nil
}

func (r Readings) carbon(limit Limits) (Finding, error) {
	f := Finding{
		Stage: StageCarbon,
		Sentence: "A test of total chlorine behind the carbon would tell whether it still protects the membrane; " +
			"dissolved-solids readings do not.",
	}
	if err := input.NotNegative("chlorineStep", float64(r.ChlorineStep), "mg/L"); err != nil {
		return f, err
	}
	if r.ChlorineStep == 0 {
		if r.Chlorine != 0 {
			return f, input.Bad("chlorineStep", r.ChlorineStep.String(), "the least that the test tells from nothing")
		}
		return f, nil
	}
	if err := input.NotNegative("chlorine", float64(r.Chlorine), "mg/L"); err != nil {
		return f, err
	}
	doubt := displayed(float64(r.ChlorineStep))
	f.Verdict = judge(float64(r.Chlorine), doubt, float64(limit.Chlorine))
	f.Sentence = "Behind the carbon are " + input.Number(float64(r.Chlorine)) + " ± " + input.Fixed(coverage*doubt, 3) +
		" mg/L of chlorine; the limit is " + input.Number(float64(limit.Chlorine)) + " mg/L: " +
		choose(f.Verdict, "it still works.", "repeat with a finer test at full flow.",
			"replace it now, before the membrane is damaged.")
	return f, nil
}

func membraneFinding(held, u units.Fraction, limit Limits) Finding {
	f := Finding{
		Stage:   StageMembrane,
		Verdict: judge(float64(1-held.Value()), u.Value(), float64(1-limit.Rejection.Value())),
	}
	f.Sentence = "The membrane holds back " + input.Fixed(held.Percent(), 1) + " ± " +
		input.Fixed(coverage*u.Percent(), 1) + " % of the salt; the limit is " + input.Number(limit.Rejection.Percent()) +
		" %: " +
		choose(f.Verdict, "it is sound.", "read again after half an hour of running, with a finer meter if "+
			"there is one.", "check its seals, the pressure and the waste flow, then replace it.")
	return f
}

func (r Readings) resin(limit Limits) (Finding, error) {
	f := Finding{Stage: StageResin, Sentence: "A reading behind the resin would tell whether it is used up."}
	if r.AfterResin == (units.TDS{}) {
		return f, nil
	}
	if err := checkTDS("afterResin", r.AfterResin); err != nil {
		return f, err
	}
	doubt := displayed(r.Step)
	scale := r.AfterResin.Scale()
	most := onScale(limit.AfterResin, scale)
	f.Verdict = judge(r.AfterResin.PPM(), doubt, most)
	if gained := r.AfterResin.PPM() - onScale(r.AfterMembrane, scale); f.Verdict != Keep &&
		gained > r.Step { // more than two roundings can make
		f.Verdict = Replace
		f.Sentence = "Behind the resin is more salt than before it: it is used up and gives back what it took. Replace it."
		return f, nil
	}
	f.Sentence = "Behind the resin are " + input.Number(r.AfterResin.PPM()) + " ± " + input.Fixed(coverage*doubt, 1) +
		" ppm; the limit is " + input.Number(most) + " ppm: " +
		choose(f.Verdict, "it still works.", "have the next filling at hand and read again soon, with a finer meter if "+
			"there is one.", "replace it.")
	return f, nil
}

// onScale returns what a reading is on the scale of another meter, in ppm.
func onScale(r units.TDS, scale units.TDSScale) float64 {
	return r.Conductivity().MicrosiemensPerCentimetre() * float64(scale)
}

// displayed returns the standard uncertainty of a display of a step [GUM, 4.3.7].
func displayed(step float64) float64 { return step / math.Sqrt(12) }

func choose(v Verdict, keep, unsure, replace string) string {
	switch v {
	case Keep:
		return keep
	case Replace:
		return replace
	}
	return unsure
}

func (l Limits) check() error {
	var rejection error
	if !(l.Rejection.Value() > 0 && l.Rejection.Value() < 1) {
		rejection = input.Bad("rejection", l.Rejection.String(), "above 0 and below 100 %, see UsualLimits")
	}
	return input.Join(rejection,
		checkTDS("afterResin", l.AfterResin),
		input.Positive("pressureDrop", float64(l.PressureDrop), "bar"),
		input.Positive("chlorine", float64(l.Chlorine), "mg/L"))
}
