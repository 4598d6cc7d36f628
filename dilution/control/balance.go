package control

import (
	"math"

	"example.org/wellmixed/units"
)

// SaltBalance tells what the salinity of a tank has to be from what went in and out: salt
// does not evaporate. It counts practical salinity times litres, which errs by the
// contraction of mixing and the densities, 0.1 % of what was exchanged.
//
//	symbol   S = Σ V_i S_i / Σ V_i
type SaltBalance struct {
	Uncertainty float64 // standard, of a reading of the salinity, practical
	PerDay      float64 // standard, of what a day adds unseen: spray, salt creep, skimmer; practical

	salt, litres float64
	days         float64
	begun        bool
}

// Begin starts the balance from a salinity that was measured and the net volume.
func (b *SaltBalance) Begin(s units.PracticalSalinity, net units.Volume) {
	b.litres, b.days, b.begun = net.Litres(), 0, true
	b.salt = s.Value() * net.Litres()
}

// Add counts water that came in, of a salinity: 0 for the top-off.
func (b *SaltBalance) Add(v units.Volume, s units.PracticalSalinity) {
	b.litres += v.Litres()
	b.salt += float64(v.Litres() * s.Value())
}

// Draw counts water that was drawn from the tank.
func (b *SaltBalance) Draw(v units.Volume) {
	b.salt -= float64(v.Litres() * b.Salinity().Value())
	b.litres -= v.Litres()
}

// Evaporate counts pure water that the tank lost to the air.
func (b *SaltBalance) Evaporate(v units.Volume) { b.litres -= v.Litres() }

// Age counts days, in which the balance grows less certain.
func (b *SaltBalance) Age(days float64) {
	if days > 0 {
		b.days += days
	}
}

// Salinity returns what it has to be now, NaN before Begin or if nothing is left.
func (b *SaltBalance) Salinity() units.PracticalSalinity {
	if !positive(b.litres) || !(b.salt >= 0) {
		return units.Practical(math.NaN())
	}
	return units.Practical(b.salt / b.litres)
}

// Judge makes a good reading of the salinity suspect, Drifted, if it is more than three
// standard uncertainties from the balance, or if the balance has come to no number, as by a
// volume that was none. Before Begin it is left as it is.
func (b *SaltBalance) Judge(measured Reading) Reading {
	want := b.Salinity().Value()
	if !measured.good() || !b.begun {
		return measured
	}
	u := math.Hypot(b.Uncertainty, b.PerDay*math.Sqrt(b.days))
	if !(math.Abs(measured.Value-want) <= 3*u) {
		measured.Quality, measured.Reason = Suspect, Drifted
	}
	return measured
}
