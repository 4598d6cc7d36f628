package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// write writes the findings for the keeper of the tank.
func write(w io.Writer, c ions.Closure, r ions.Readings) error {
	p := &printer{w: w}
	p.charges(c)
	p.ions(c, r)
	p.instruments(r)
	p.assumptions(c)
	p.line("")
	p.line("Correct one thing at a time, slowly, and never on one report alone.")
	return p.err
}

// charges says whether the report is possible at all.
func (p *printer) charges(c ions.Closure) {
	p.line("1. Is the report sound?")
	p.line("")
	if q := c.Imbalance.MillimolesPerKilogram(); math.IsNaN(q) {
		p.line("Sodium or chloride is not reported, so the charges cannot be compared.")
	} else {
		verdict := "That is within what the uncertainties allow."
		if c.Unbalanced() {
			verdict = "That is more than the uncertainties allow."
		}
		p.line("Positive and negative charges differ by %+.1f ± %.1f "+
			"mmol/kg. %s", q, c.ImbalanceUncertainty.MillimolesPerKilogram(), verdict)
	}
	if c.Suspect != "" {
		p.line("The value that fits worst is that of %s: have it measured again.", c.Suspect)
	}
	for _, doubt := range c.Doubts {
		p.line("%s.", doubt)
	}
	p.line("")
	moved := false
	for _, f := range c.Fits {
		if math.Abs(f.Sigmas()) < 0.2 {
			continue
		}
		if !moved {
			p.line("  %-14s %10s %10s          %s", "", "reported", "closed", "off by")
			moved = true
		}
		scale, unit := 0.001, "mmol/kg"
		if f.Unit == "g/kg" {
			scale, unit = 1, "g/kg"
		}
		p.line("  %-14s %10.2f %10.2f %-8s %+.1f of its uncertainty", f.Quantity, f.Measured*scale, f.Closed*scale, unit,
			f.Sigmas())
	}
	if moved {
		p.line("")
		p.line("All other values fit within 0.2 of their uncertainty.")
	} else if math.IsNaN(float64(c.Imbalance)) {
		p.line("With sodium or chloride not reported, hardly any value of this report tests another: a wrong one shows " +
			"only where it is far from the sea. Compare each with the sea below.")
	} else {
		p.line("All values fit within 0.2 of their uncertainty.")
	}
}

// rows are the contents that a keeper asks about, in the unit of the trade.
var rows = []struct {
	name string
	of   func(ions.Composition) float64 // mmol/kg
	mass float64                        // g/mol as it is counted
}{
	{"sodium", ion(ions.Sodium), ions.Sodium.MolarMass().GramsPerMole()},
	{"chloride", ion(ions.Chloride), ions.Chloride.MolarMass().GramsPerMole()},
	{"magnesium", ion(ions.Magnesium), units.AsMagnesium.GramsPerMole()},
	{"calcium", ion(ions.Calcium), units.AsCalcium.GramsPerMole()},
	{"potassium", ion(ions.Potassium), units.AsPotassium.GramsPerMole()},
	{"sulfate", ion(ions.Sulfate), units.AsSulfate.GramsPerMole()},
	{"strontium", ion(ions.Strontium), units.AsStrontium.GramsPerMole()},
	{"bromide", ion(ions.Bromide), units.AsBromide.GramsPerMole()},
	{"boron", func(c ions.Composition) float64 { return c.Boron().MillimolesPerKilogram() }, units.AsBoron.GramsPerMole()},
	{"fluoride", ion(ions.Fluoride), units.AsFluoride.GramsPerMole()},
}

// symbols are the species whose origin is that of a row.
var symbols = map[string]string{
	"sodium": "Na", "chloride": "Cl", "magnesium": "Mg", "calcium": "Ca", "potassium": "K", "sulfate": "SO4",
	"strontium": "Sr", "bromide": "Br", "boron": "B(OH)3", "fluoride": "F",
}

func ion(i ions.Ion) func(ions.Composition) float64 {
	return func(c ions.Composition) float64 { return c.Amount(i).MillimolesPerKilogram() }
}

// ions compares the water with the sea.
func (p *printer) ions(c ions.Closure, r ions.Readings) {
	sea := ions.Reference(teos10.PracticalFromAbsolute(r.Dissolved))
	litre := r.Density.GramsPerMillilitre()
	p.line("")
	p.line("2. How does the water differ from the sea with as much dissolved (%.2f g/kg)?", r.Dissolved.GramsPerKilogram())
	p.line("")
	p.line("  %-12s %9s %9s", "", "tank", "sea")
	var high, low []string
	for _, row := range rows {
		tank, usual := row.of(c.Composition)*row.mass*litre, row.of(sea)*row.mass*litre
		made := ""
		if i, known := ions.Lookup(symbols[row.name]); known && c.Origin(i) != ions.Measured {
			made = "  (" + c.Origin(i).String() + ")"
		}
		p.line("  %-12s %9s %9s mg/L  %s %%%s", row.name, digits(tank), digits(usual), percent(tank/usual-1), made)
		if made != "" {
			continue // nobody measured it
		}
		switch {
		case tank > 1.1*usual:
			high = append(high, row.name)
		case tank < 0.9*usual:
			low = append(low, row.name)
		}
	}
	p.line("  %-12s %9.2f %9.2f dKH", "alkalinity", c.Composition.Alkalinity().Alkalinity(r.Density).DKH(),
		sea.Alkalinity().Alkalinity(r.Density).DKH())
	for _, n := range []struct {
		ion  ions.Ion
		as   units.MolarMass
		name string
	}{
		{ions.Nitrate, units.AsNitrate, "nitrate"},
		{ions.Phosphate, units.AsPhosphate, "phosphate"},
		{ions.Silicate, units.AsSilica, "silica"},
	} {
		if x := c.Composition.Amount(n.ion).MillimolesPerKilogram(); x > 0 {
			p.line("  %-12s %9s %9s mg/L", n.name, digits(x*n.as.GramsPerMole()*litre), "-")
		}
	}
	p.line("")
	p.line("More than 10 %% above the sea: %s. More than 10 %% below: %s.", list(high), list(low))
}

// instruments says what each shows and what to add.
func (p *printer) instruments(r ions.Readings) {
	p.line("")
	p.line("3. What do the instruments make of it at %.1f °C?", r.Temperature.Celsius())
	p.line("")
	p.line("Dissolved are %.2f g/kg. Sea salt of that mass would be practical "+
		"salinity %.2f.", r.Dissolved.GramsPerKilogram(), practical(r.Dissolved))
	p.line("")
	p.line("  %-32s %8s %16s  %s", "", "shows", "as salinity", "add")
	h := hydrometer.Hydrometer{Pair: units.SG25C(), Expansion: hydrometer.Glass}
	float, err := h.Reading(r.By[ions.Density].Shown, r.Temperature)
	p.instrument("hydrometer, 25/25 °C", fmt.Sprintf("%.4f", float), err, r.By[ions.Density])
	p.instrument("conductivity meter, mS/cm", fmt.Sprintf("%.2f", r.Conductivity.MillisiemensPerCentimetre()), nil,
		r.By[ions.Conductivity])
	i := refractometer.Instrument{
		Graduation: refractometer.PracticalScale(),
		Zero: refractometer.Zeroing{
			Standard:    refractometer.SeawaterStandard(units.Practical(35)),
			Temperature: r.Temperature,
			Mark:        35,
		},
		Compensation: refractometer.Automatic(refractometer.PureWater()),
	}
	line, err := i.Reading(r.By[ions.Index].Shown, r.Temperature)
	p.instrument("refractometer, set in seawater 35", fmt.Sprintf("%.1f", float64(line)), err, r.By[ions.Index])
	p.line("")
	p.line("Nearest to what is dissolved comes the %s.", instrumentOf[r.Closest()])
}

var instrumentOf = [...]string{
	ions.Density:      "hydrometer",
	ions.Conductivity: "conductivity meter",
	ions.Index:        "refractometer",
}

func (p *printer) instrument(name, shows string, err error, by ions.Reading) {
	if err != nil { // outside what the instrument can do
		shows = "-"
	}
	p.line("  %-33s %7s %8.2f ± %.2f   %+.2f", name, shows, practical(by.Shown), practical(by.Uncertainty),
		practical(by.Correction))
}

// assumptions lists what the report did not say.
func (p *printer) assumptions(c ions.Closure) {
	p.line("")
	p.line("4. What was assumed?")
	p.line("")
	for _, a := range c.Assumed {
		p.line("  - %s", a)
	}
	if len(c.Assumed) == 0 {
		p.line("  Nothing.")
	}
}

func practical(s units.AbsoluteSalinity) float64 { return s.GramsPerKilogram() * 35 / 35.16504 }

// digits writes three digits, and no decimals that nobody measures.
func digits(x float64) string {
	switch {
	case x >= 100:
		return fmt.Sprintf("%.0f", x)
	case x >= 1:
		return fmt.Sprintf("%.1f", x)
	}
	return fmt.Sprintf("%.2f", x)
}

// percent writes a signed percentage, and zero without a sign.
func percent(x float64) string {
	if math.Abs(x) < 0.005 {
		return "    0"
	}
	return fmt.Sprintf("%+5.0f", 100*x)
}

func list(names []string) string {
	if len(names) == 0 {
		return "nothing"
	}
	return strings.Join(names, ", ")
}

// printer writes lines until the first error.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}
