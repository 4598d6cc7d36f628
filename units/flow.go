package units

import "time"

// Flow is a volume per time in litres per hour.
type Flow float64

// Units of Flow.
const (
	LitrePerHour        Flow = 1
	LitrePerDay         Flow = 1. / 24
	LitrePerMinute      Flow = 60
	MillilitrePerMinute Flow = 0.06
	MillilitrePerHour   Flow = 0.001
	USGallonPerDay      Flow = 231 * inch * inch * inch / 24 // the rating of membranes
	USGallonPerHour     Flow = 231 * inch * inch * inch      // the rating of pumps
)

// LitresPerHour returns the flow in L/h.
func (f Flow) LitresPerHour() float64 { return float64(f) }

// LitresPerDay returns the flow in L/day.
func (f Flow) LitresPerDay() float64 { return float64(f / LitrePerDay) }

// LitresPerMinute returns the flow in L/min.
func (f Flow) LitresPerMinute() float64 { return float64(f / LitrePerMinute) }

// MillilitresPerMinute returns the flow in mL/min.
func (f Flow) MillilitresPerMinute() float64 { return float64(f / MillilitrePerMinute) }

// USGallonsPerDay returns the flow in US gallons per day.
func (f Flow) USGallonsPerDay() float64 { return float64(f / USGallonPerDay) }

// USGallonsPerHour returns the flow in US gallons per hour.
func (f Flow) USGallonsPerHour() float64 { return float64(f / USGallonPerHour) }

// Volume returns what flows in a time d.
func (f Flow) Volume(d time.Duration) Volume { return Volume(float64(f) * d.Hours()) }

// Time returns how long a volume v takes to flow. It is negative for a flow
// of zero or below, for NaN, and for more than the 292 years that a
// time.Duration can hold: such a volume never comes.
func (f Flow) Time(v Volume) time.Duration {
	ns := float64(v) / float64(f) * float64(time.Hour)
	if !(f > 0) || !(ns < 1<<63) {
		return -1
	}
	return time.Duration(ns)
}

var flowUnits = table{
	quantity: "flow", base: "L/h", example: `"8 L/h", "2 mL/min" or "75 US gal/day"`,
	units: []unit{
		{names: "L/h|L/hr|litre/hour|liter/hour", size: float64(LitrePerHour)},
		{names: "L/day|L/d|litre/day|liter/day", size: 1, per: 24},
		{names: "L/min|litre/minute|liter/minute", size: float64(LitrePerMinute), capitals: true},
		{names: "US gal/day|US gal/d|US gallon/day|US gpd", size: float64(USGallonPerDay)},
		{names: "US gal/h|US gal/hr|US gph|US gallon/hour", size: float64(USGallonPerHour)},
		{names: "US gpm", size: 60 * float64(USGallonPerHour), capitals: true},
		{names: "imp gpd|UK gpd", size: 4.54609, per: 24, capitals: true},
		{names: "imp gph|UK gph", size: 4.54609, capitals: true},
		{names: "gpd|gal/day|gal/d|gallon/day", refuse: `"US gal/day" or the flow in litres`},
		{names: "gph|gal/h|gal/hr|gallon/hour", refuse: `"US gal/h" or the flow in litres`},
		{names: "gpm|gal/min|gallon/minute", refuse: `"US gal/min" or the flow in litres`},
	},
	over: &volumeUnits, under: &durationUnits,
}

// UnmarshalText reads a flow such as "8 L/h", "2 mL/min" or "75 US gal/day": any unit of
// volume per any unit of time.
func (f *Flow) UnmarshalText(text []byte) error { return unmarshal(f, text, &flowUnits) }

// String writes the flow in L/h, as MarshalText does.
func (f Flow) String() string { return withUnit(float64(f), flowUnits.base) }

// AppendText appends what MarshalText writes.
func (f Flow) AppendText(text []byte) ([]byte, error) { return flowUnits.append(text, float64(f)) }

// MarshalText writes the flow in L/h; reading that gives the same value back.
func (f Flow) MarshalText() ([]byte, error) { return f.AppendText(nil) }
