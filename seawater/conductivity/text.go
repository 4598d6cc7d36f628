package conductivity

import "example.org/wellmixed/internal/input"

// The choices of this package are written by these names.
var (
	schemeNames   = [...]string{Raw: "raw", Linear: "linear", NaturalWater: "natural water", Seawater: "seawater"}
	solutionNames = [...]string{
		0: "none", SodiumChloride: "sodium chloride", PotassiumChloride: "potassium chloride",
		SulfateBicarbonateChloride: "sulfate, bicarbonate and chloride",
	}
	standardNames = [...]string{
		0: "none", KCl001Molal: "KCl 0.01 molal", KCl01Molal: "KCl 0.1 molal", KCl1Molal: "KCl 1 molal",
		KCl001Demal: "KCl 0.01 demal", KCl01Demal: "KCl 0.1 demal", KCl1Demal: "KCl 1 demal",
		KCl1413: "KCl 1413 µS/cm", KCl12880: "KCl 12.88 mS/cm", Seawater35: "seawater 35",
	}
)

func nameOf(names []string, i uint8) string {
	if int(i) < len(names) {
		return names[i]
	}
	return "unknown"
}

// String returns "raw", "linear", "natural water" or "seawater".
func (s Scheme) String() string { return nameOf(schemeNames[:], uint8(s)) }

// String returns "sodium chloride" and the like, and "none" for the zero value.
func (s Solution) String() string { return nameOf(solutionNames[:], uint8(s)) }

// String returns "KCl 0.01 molal" and the like, and "none" for the zero value.
func (s Standard) String() string { return nameOf(standardNames[:], uint8(s)) }

// MarshalText writes what String returns.
func (s Scheme) MarshalText() ([]byte, error) {
	return input.WriteChoice("scheme", s, 0, Scheme(len(schemeNames)))
}

// UnmarshalText reads what String returns.
func (s *Scheme) UnmarshalText(text []byte) (err error) {
	*s, err = input.ReadChoice("scheme", text, 0, Scheme(len(schemeNames)))
	return err
}

// MarshalText writes what String returns, and nothing for none.
func (s Solution) MarshalText() ([]byte, error) {
	return input.WriteChoice("solution", s, 1, Solution(len(solutionNames)))
}

// UnmarshalText reads what String returns.
func (s *Solution) UnmarshalText(text []byte) (err error) {
	*s, err = input.ReadChoice("solution", text, 1, Solution(len(solutionNames)))
	return err
}

// MarshalText writes what String returns, and nothing for none.
func (s Standard) MarshalText() ([]byte, error) {
	return input.WriteChoice("standard", s, 1, Standard(len(standardNames)))
}

// UnmarshalText reads what String returns.
func (s *Standard) UnmarshalText(text []byte) (err error) {
	*s, err = input.ReadChoice("standard", text, 1, Standard(len(standardNames)))
	return err
}
