package replenish

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/null"
	"example.org/wellmixed/units"
)

// Process is what bacteria do to the water.
type Process uint8

// The processes, each counted by what stands first in it. Food is ethanol or acetate.
const (
	Nitrification          Process = iota + 1 // NH₄⁺ + 2 O₂ → NO₃⁻ + H₂O + 2 H⁺
	EthanolDenitrification                    // 12 NO₃⁻ + 5 C₂H₅OH → 6 N₂ + 10 CO₂ + 9 H₂O + 12 OH⁻
	AcetateDenitrification                    // 8 NO₃⁻ + 5 CH₃COO⁻ → 4 N₂ + 10 CO₂ + H₂O + 13 OH⁻
	EthanolRespiration                        // C₂H₅OH + 3 O₂ → 2 CO₂ + 3 H₂O
	AcetateRespiration                        // CH₃COO⁻ + 2 O₂ → 2 CO₂ + H₂O + OH⁻

	processes
)

// String returns the name: "nitrification", "denitrification by ethanol".
func (p Process) String() string {
	switch p {
	case Nitrification:
		return "nitrification"
	case EthanolDenitrification:
		return "denitrification by ethanol"
	case AcetateDenitrification:
		return "denitrification by acetate"
	case EthanolRespiration:
		return "respiration of ethanol"
	case AcetateRespiration:
		return "respiration of acetate"
	}
	return "unknown"
}

// MarshalText writes the name.
func (p Process) MarshalText() ([]byte, error) {
	return input.WriteChoice("process", p, Nitrification, processes)
}

// UnmarshalText reads what MarshalText writes.
func (p *Process) UnmarshalText(text []byte) (err error) {
	*p, err = input.ReadChoice("process", text, Nitrification, processes)
	return err
}

// MarshalJSON writes the text, null where there is none.
func (p Process) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *Process) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// Turnover is what a process makes of a litre of water: above zero what comes, below zero
// what is used up.
type Turnover struct {
	Ammonia, Nitrate, Oxygen units.AmountPerLitre
	Food                     units.AmountPerLitre // ethanol or acetate
	Carbon                   units.AmountPerLitre // DIC
	Alkalinity               units.Alkalinity
}

// turnovers are moles per mole of what each process is counted by. Acetate counts as
// alkalinity for as long as it is there, so burning it brings none.
var turnovers = [processes]struct{ ammonia, nitrate, oxygen, food, carbon, alkalinity float64 }{
	Nitrification:          {ammonia: -1, nitrate: 1, oxygen: -2, alkalinity: -2},
	EthanolDenitrification: {nitrate: -1, food: -5. / 12, carbon: 10. / 12, alkalinity: 1},
	AcetateDenitrification: {nitrate: -1, food: -5. / 8, carbon: 10. / 8, alkalinity: 1},
	EthanolRespiration:     {food: -1, oxygen: -3, carbon: 2},
	AcetateRespiration:     {food: -1, oxygen: -2, carbon: 2},
}

// Turns returns what a process does that uses up so much of what it is counted by:
// ammonia, nitrate, or the food.
//
//	source   balance of the elements and the electrons; alkalinity by [WG]: -2 for each
//	         ammonium that is nitrified, +1 for each nitrate that becomes N₂
//	units    mmol/L
//	outside  no such process: the zero Turnover
//
// Acetate is part of the alkalinity, as ions.Composition.Alkalinity has it: a dose of sodium
// acetate raises it by one equivalent, which stays when the acetate is gone. What bacteria
// build of themselves is not in it, see [Feed].
func (p Process) Turns(x units.AmountPerLitre) Turnover {
	if p >= processes {
		return Turnover{}
	}
	t := &turnovers[p]
	of := func(moles float64) units.AmountPerLitre { return x * units.AmountPerLitre(moles) }
	return Turnover{
		Ammonia: of(t.ammonia), Nitrate: of(t.nitrate), Oxygen: of(t.oxygen), Food: of(t.food), Carbon: of(t.carbon),
		Alkalinity: units.MilliequivalentsPerLitre(x.MillimolesPerLitre() * t.alkalinity),
	}
}

// OxygenDemand returns the oxygen that a turnover uses up; below zero if it makes some.
func (t Turnover) OxygenDemand() units.MassPerLitre { return units.AsOxygen.MassPerLitre(0 - t.Oxygen) }
