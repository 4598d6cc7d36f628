package carbonate

import (
	"math"
	"strconv"
)

// A pH is -log10 of a hydrogen ion concentration in mol/kg, and there are four
// ways to count hydrogen ions in seawater:
//
//	free      [H+]
//	total     [H+] (1 + TS/KS), with what sulfate holds
//	seawater  [H+] (1 + TS/KS + TF/KF), with what sulfate and fluoride hold
//	NBS       fH times that of the seawater scale: what an electrode shows that was set
//	          in dilute buffers
//
// At salinity 35 and 25 °C the total scale is 0.108 below the free, the seawater
// scale 0.010 below the total, and the NBS scale 0.147 above the seawater scale.
// Each scale is a type of its own. The zero value of each is a pH that nobody
// set, on whatever scale it is asked for, and no water has it.
type (
	// TotalPH is a pH on the total scale, the scale of this package.
	TotalPH struct{ value float64 }
	// FreePH is a pH on the free scale.
	FreePH struct{ value float64 }
	// SeawaterPH is a pH on the seawater scale.
	SeawaterPH struct{ value float64 }
	// NBSPH is a pH on the NBS (NIST) scale of dilute buffers. In seawater it
	// depends on the electrode and carries several 0.01 of doubt.
	NBSPH struct{ value float64 }
)

// PHTotal returns the pH of value x on the total scale.
func PHTotal(x float64) TotalPH { return TotalPH{kept(x)} }

// PHFree returns the pH of value x on the free scale.
func PHFree(x float64) FreePH { return FreePH{kept(x)} }

// PHSeawater returns the pH of value x on the seawater scale.
func PHSeawater(x float64) SeawaterPH { return SeawaterPH{kept(x)} }

// PHNBS returns the pH of value x on the NBS scale.
func PHNBS(x float64) NBSPH { return NBSPH{kept(x)} }

// Value returns the number on the total scale.
func (p TotalPH) Value() float64 { return p.value + 0 } // minus zero becomes zero

// Value returns the number on the free scale.
func (p FreePH) Value() float64 { return p.value + 0 }

// Value returns the number on the seawater scale.
func (p SeawaterPH) Value() float64 { return p.value + 0 }

// Value returns the number on the NBS scale.
func (p NBSPH) Value() float64 { return p.value + 0 }

// String writes "8.1 (total scale)".
func (p TotalPH) String() string { return number(p.Value()) + " (total scale)" }

// String writes "8.2 (free scale)".
func (p FreePH) String() string { return number(p.Value()) + " (free scale)" }

// String writes "8.1 (seawater scale)".
func (p SeawaterPH) String() string { return number(p.Value()) + " (seawater scale)" }

// String writes "8.2 (NBS scale)".
func (p NBSPH) String() string { return number(p.Value()) + " (NBS scale)" }

// kept returns a pH as it is stored: one of 0 is minus zero, which equals the
// plus zero of a pH that nobody set in every sum and comparison.
func kept(x float64) float64 {
	if x == 0 {
		return math.Copysign(0, -1)
	}
	return x
}

// isSet tells whether a stored pH was given.
func isSet(x float64) bool { return x != 0 || math.Signbit(x) }

// moved returns a stored pH on another scale. One that nobody set stays so.
func moved(x, by float64) float64 {
	if !isSet(x) {
		return x
	}
	return kept(x + by)
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// Free returns the same acidity on the free scale.
func (p TotalPH) Free(c *Constants) FreePH {
	return FreePH{moved(p.value, math.Log10(c.freeFactor()))}
}

// Seawater returns the same acidity on the seawater scale.
func (p TotalPH) Seawater(c *Constants) SeawaterPH {
	return SeawaterPH{moved(p.value, math.Log10(c.freeFactor()/c.seawaterFactor()))}
}

// NBS returns the same acidity on the NBS scale.
func (p TotalPH) NBS(c *Constants) NBSPH {
	return NBSPH{moved(p.value, math.Log10(c.freeFactor()/(c.seawaterFactor()*float64(c.FH))))}
}

// Total returns the same acidity on the total scale.
func (p FreePH) Total(c *Constants) TotalPH {
	return TotalPH{moved(p.value, -math.Log10(c.freeFactor()))}
}

// Total returns the same acidity on the total scale.
func (p SeawaterPH) Total(c *Constants) TotalPH {
	return TotalPH{moved(p.value, -math.Log10(c.freeFactor()/c.seawaterFactor()))}
}

// Total returns the same acidity on the total scale.
func (p NBSPH) Total(c *Constants) TotalPH {
	return TotalPH{moved(p.value, -math.Log10(c.freeFactor()/(c.seawaterFactor()*float64(c.FH))))}
}

// freeFactor is [H] on the total scale over [H] on the free scale.
func (c *Constants) freeFactor() float64 {
	return 1 + float64(c.Totals.Sulfate)/float64(perMole*c.KS)
}

// seawaterFactor is [H] on the seawater scale over [H] on the free scale.
func (c *Constants) seawaterFactor() float64 {
	return c.freeFactor() + float64(c.Totals.Fluoride)/float64(perMole*c.KF)
}

// fhCoef: fH = a + b T + (c + d T) S², from the measurements of Culberson and
// Pytkowicz 1973 [T82].
var fhCoef = [...]float64{1.2948, -0.002036, 0.0004607, -1.475e-6}

// takahashi returns fH, or NaN in hot brine, where the fit falls below 0.
func takahashi(c *conditions) float64 {
	fh := fhCoef[0] + fhCoef[1]*c.k + (fhCoef[2]+fhCoef[3]*c.k)*c.s*c.s
	if fh <= 0 {
		return math.NaN()
	}
	return fh
}
