package ions

import (
	"math"
	"strconv"
	"strings"

	"example.org/wellmixed/internal/input"
)

// Measurement is one line of a laboratory report, in the words of the report.
//
//	Measurement{Quantity: "Ca", Value: 412, Unit: "mg/L"}
//	Measurement{Quantity: "NO3 as N", Value: 0.8, Unit: "mg/L", Uncertainty: 0.1}
//
// Quantity is an element or an ion, by formula or by name, or one of
// alkalinity, pH, DIC, temperature, salinity, density, specific gravity, conductivity,
// chlorinity, refractive index. A specific gravity has its pair of temperatures for a unit,
// "25/25 °C". What could be counted in two ways says as what:
// "NO3 as N" or "NO3-N", "PO4 as PO4", "NH4 as N".
type Measurement struct {
	Quantity    string
	Value       float64
	Unit        string
	Uncertainty float64 // standard uncertainty in the same unit; 0 if the report gives none
	Below       bool    // the report says "less than Value"
}

// Report is what a laboratory found in one sample.
type Report []Measurement

// mostLines keeps the work on any text bounded: a report of every element has
// less than a hundred.
const mostLines = 200

// mostWrong is after how many lines that cannot be read nobody reads on.
const mostWrong = 20

// ReadReport reads a report from text: a line for each measurement, with quantity,
// value, unit and, if there is one, the standard uncertainty in the same unit or
// in percent, separated by commas, semicolons or tabs. Empty lines, lines that
// start with #, and a first line of headings are skipped. A value such as "<0.01"
// is below the limit of detection.
//
//	Ca, 412, mg/L, 4
//	SO4 as S, 890, mg/L, 2 %
//	Li, <0.2, mg/L
//
// Whether the quantities and units make sense, [Report.Close] tells. The error
// is a *units.InputError that names the line, joined if there are several.
func ReadReport(text string) (Report, error) {
	var report Report
	var wrong []error
	started := false
	for number := 1; text != ""; number++ {
		var line string
		line, text, _ = strings.Cut(text, "\n")
		line = strings.TrimSpace(strings.TrimPrefix(line, "\ufeff"))
		if strings.Trim(line, ";,\t ") == "" || line[0] == '#' {
			continue
		}
		m, err := readLine(line)
		if err != nil && !started && isHeading(line) {
			started = true
			continue
		}
		started = true
		if err != nil {
			wrong = append(wrong, input.When("line "+strconv.Itoa(number), err))
			if len(wrong) == mostWrong {
				break
			}
			continue
		}
		if len(report) == mostLines {
			return nil, input.Bad("report", "more than "+strconv.Itoa(mostLines)+" measurements", "one sample")
		}
		report = append(report, m)
	}
	if err := input.Join(wrong...); err != nil {
		return nil, err
	}
	if len(report) == 0 {
		return nil, input.Bad("report", "no measurement", `lines such as "Ca, 412, mg/L"`)
	}
	return report, nil
}

// isHeading tells whether a line names no quantity and no field of it starts like
// a number.
func isHeading(line string) bool {
	fields, _ := split(line)
	if _, err := meaning(fields[0]); err == nil {
		return false
	}
	for _, f := range fields {
		if f != "" && strings.IndexByte("0123456789.-+<", f[0]) >= 0 {
			return false
		}
	}
	return len(fields) >= 2
}

// split takes a line apart at semicolons, tabs or commas, whichever it has in
// this order. An empty field past the third is dropped.
func split(line string) (fields []string, separator string) {
	for _, separator = range [...]string{";", "\t", ","} {
		if strings.Contains(line, separator) {
			break
		}
	}
	fields = strings.Split(line, separator)
	for i, f := range fields {
		f = strings.TrimSpace(f)
		if len(f) >= 2 && f[0] == '"' && f[len(f)-1] == '"' {
			f = strings.TrimSpace(f[1 : len(f)-1])
		}
		fields[i] = f
	}
	for len(fields) > 3 && fields[len(fields)-1] == "" {
		fields = fields[:len(fields)-1]
	}
	return fields, separator
}

func readLine(line string) (Measurement, error) {
	var none Measurement
	f, separator := split(line)
	if len(f) < 2 || len(f) > 4 {
		return none, input.Bad("measurement", input.Quoted(line),
			`quantity, value, unit and perhaps uncertainty, such as "Ca, 412, mg/L, 4"`)
	}
	m := Measurement{Quantity: f[0]}
	if m.Quantity == "" || len(m.Quantity) > mostText {
		return none, input.Bad("measurement", input.Quoted(line), "a quantity first")
	}
	value := f[1]
	if rest, found := strings.CutPrefix(value, "<"); found {
		m.Below, value = true, strings.TrimSpace(rest)
	}
	x, err := number(value)
	if err != nil {
		want := `a number such as "412.5" or "<0.01"`
		if separator != "," && strings.Contains(value, ",") {
			want = `a point for decimals and no mark for thousands, as in "1.5" or "1500"`
		}
		return none, input.Bad(m.Quantity, input.Quoted(f[1]), want)
	}
	m.Value = x
	if len(f) > 3 && separator == "," {
		if _, err := number(f[2]); err == nil {
			return none, input.Bad(m.Quantity, input.Quoted(f[1]+","+f[2]),
				"a point for decimals, or semicolons between the fields")
		}
	}
	if len(f) > 2 {
		m.Unit = f[2]
	}
	if len(f) > 3 {
		text := strings.TrimSpace(strings.TrimPrefix(f[3], "±"))
		part, percent := strings.CutSuffix(text, "%")
		u, err := number(strings.TrimSpace(part))
		if err != nil || u < 0 {
			return none, input.Bad(m.Quantity+".uncertainty", input.Quoted(f[3]), `a standard uncertainty such as "4" or "2 %"`)
		}
		if percent {
			u *= math.Abs(m.Value) / 100
		}
		m.Uncertainty = u
	}
	return m, nil
}

// number reads a finite decimal number, and not what else Go takes for one.
func number(text string) (float64, error) {
	if text == "" || strings.Trim(text, "0123456789.+-eE") != "" {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(text, 64)
}

// mostText is the length of a quantity or unit that means something.
const mostText = 60
