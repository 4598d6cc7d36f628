package units

// PracticalSalinity is salinity on the Practical Salinity Scale of 1978
// (PSS-78). It is a pure number with no unit; what the trade and old books
// call ppt, ‰ or PSU is this scale. It is made by Practical, so a bare
// number does not compile.
//
// The zero value is pure water.
type PracticalSalinity struct{ value float64 }

// Practical returns the practical salinity of value s.
func Practical(s float64) PracticalSalinity { return PracticalSalinity{s + 0} } // minus zero becomes zero

// Value returns the number on the practical salinity scale.
func (s PracticalSalinity) Value() float64 { return s.value }

var practicalUnits = table{
	quantity: "practical salinity", base: "PSS-78", example: `"35" (or "35 ppt", which is read the same way)`,
	units: []unit{
		{names: "|PSS-78|PSU|ppt|‰", size: 1},
		{names: "g/kg", refuse: practicalWant + `; a value in g/kg is absolute salinity (practical 35 is 35.165 g/kg)`},
		{names: "ppm", refuse: practicalWant + `; "ppm" could be a mass fraction or a dissolved-solids reading`},
	},
	limit: func(s float64, bare bool) string {
		switch {
		case s < 0:
			return "zero or more"
		case bare && s > 1 && s < 1.1:
			return practicalWant +
				`; a number just above 1 looks like a specific gravity: write "1.025 PSS-78" if you mean it`
		}
		return ""
	},
}

const practicalWant = `a practical salinity such as "35" (or "35 ppt", which is read the same way)`

// UnmarshalText reads "35", "35 PSS-78" and, as the trade writes it, "35 ppt",
// "35 PSU" or "35 ‰", which are all read as practical salinity. "35 g/kg" is
// refused: that is an AbsoluteSalinity, and a different number. So is a bare
// "1.025", which is a specific gravity in the wrong place.
func (s *PracticalSalinity) UnmarshalText(text []byte) error {
	x, err := practicalUnits.read(string(text))
	*s = Practical(x)
	return err
}

// String writes "35 PSS-78", as MarshalText does.
func (s PracticalSalinity) String() string { return withUnit(s.value, "PSS-78") }

// MarshalText writes "35 PSS-78"; reading that gives the same value back.
func (s PracticalSalinity) MarshalText() ([]byte, error) { return s.AppendText(nil) }

// AppendText appends what MarshalText writes.
func (s PracticalSalinity) AppendText(text []byte) ([]byte, error) {
	if s.value < 0 {
		return text, &InputError{"practical salinity", s.String(), "zero or more"}
	}
	return appendQuantity(text, "practical salinity", s.value, "PSS-78")
}

// AbsoluteSalinity is the mass of dissolved sea salt in a mass of seawater,
// in g/kg, on the Reference-Composition scale (Millero et al. 2008, adopted
// by TEOS-10). For water of reference composition practical salinity 35 is
// 35.16504 g/kg. It is made by Absolute, so a bare number does not compile.
//
// The zero value is pure water.
type AbsoluteSalinity struct{ gramsPerKilogram float64 }

// Absolute returns the absolute salinity of s grams of salt per kilogram of
// seawater.
func Absolute(s float64) AbsoluteSalinity { return AbsoluteSalinity{s + 0} } // minus zero becomes zero

// GramsPerKilogram returns the salinity in grams per kilogram of seawater.
func (s AbsoluteSalinity) GramsPerKilogram() float64 { return s.gramsPerKilogram }

var absoluteUnits = table{
	quantity: "absolute salinity", base: "g/kg", example: `"35.165 g/kg"`,
	units: []unit{{names: "g/kg", size: 1}},
	limit: func(s float64, _ bool) string {
		if s < 0 || s > 1000 {
			return "0 to 1000 g/kg"
		}
		return ""
	},
}

// UnmarshalText reads "35.165 g/kg" and nothing else: "35 ppt" and a bare
// number mean practical salinity in the trade.
func (s *AbsoluteSalinity) UnmarshalText(text []byte) error {
	x, err := absoluteUnits.read(string(text))
	*s = Absolute(x)
	return err
}

// String writes "35.165 g/kg", as MarshalText does.
func (s AbsoluteSalinity) String() string { return withUnit(s.gramsPerKilogram, "g/kg") }

// MarshalText writes "35.165 g/kg"; reading that gives the same value back.
func (s AbsoluteSalinity) MarshalText() ([]byte, error) { return s.AppendText(nil) }

// AppendText appends what MarshalText writes.
func (s AbsoluteSalinity) AppendText(text []byte) ([]byte, error) {
	if s.gramsPerKilogram < 0 || s.gramsPerKilogram > 1000 {
		return text, &InputError{"absolute salinity", s.String(), "0 to 1000 g/kg"}
	}
	return appendQuantity(text, "absolute salinity", s.gramsPerKilogram, "g/kg")
}
