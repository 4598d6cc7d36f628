package mix

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Shows returns what the instruments that feel a property (density, conductivity,
// refractive index) show in a mix that has so much of this salt dissolved, as the
// practical salinity of seawater that would give the same reading. Salt of no stated
// composition is that of the ocean, for which all instruments agree.
//
//	source  ions.Composition.Shown, with its uncertainty in ions.Reading
//	range   5 to 35 °C, ordinary salt mixes: ions.Composition.CheckRange tells
func (s Salt) Shows(by ions.Property, dissolved units.AbsoluteSalinity,
	t units.Temperature) (units.PracticalSalinity, error) {
	if err := askable(teos10.PracticalFromAbsolute(dissolved), by, t); err != nil {
		return nothing(), err
	}
	if !s.differs() {
		return teos10.PracticalFromAbsolute(dissolved), nil
	}
	r, err := s.readings(dissolved, t)
	if err != nil {
		return nothing(), err
	}
	return teos10.PracticalFromAbsolute(r.By[by].Shown), nil
}

// Means is the inverse of Shows: what is dissolved when an instrument shows this in a
// mix of this salt. Make the sample of [Mixed] of its result to correct a batch.
func (s Salt) Means(by ions.Property, shown units.PracticalSalinity,
	t units.Temperature) (units.AbsoluteSalinity, error) {
	none := units.Absolute(math.NaN())
	if err := askable(shown, by, t); err != nil {
		return none, err
	}
	alike := teos10.AbsoluteFromPractical(shown)
	if !s.differs() {
		return alike, nil
	}
	var failed error
	off := func(x float64) float64 {
		y, err := s.Shows(by, units.Absolute(x), t)
		if err != nil {
			failed = err
			return math.NaN()
		}
		return y.Value() - shown.Value()
	}
	// Ordinary mixes move a reading by a few hundredths; salts that are hardly sea salt
	// by up to a third.
	guess, most := alike.GramsPerKilogram(), teos10.AbsoluteFromPractical(units.Practical(42)).GramsPerKilogram()
	x, ok := solve.Brent(off, 0.9*guess, math.Min(1.1*guess, most), 1e-10)
	if !ok && failed == nil {
		x, ok = solve.Brent(off, 0.65*guess, math.Min(1.5*guess, most), 1e-10)
	}
	switch {
	case failed != nil:
		return none, failed
	case !ok:
		return none, input.Bad("salinity", shown.String(), "a reading that a mix of this salt can give")
	}
	return units.Absolute(x), nil
}

// Holds returns a mix of this salt as a water with everything that the composition
// of the salt tells of it: a batch for a change of water. Of salt without one nothing
// but salinity and temperature is known.
func (s Salt) Holds(mix seawater.Portion) (tested.Water, error) {
	if !s.differs() {
		return tested.Water{Portion: mix}, nil
	}
	c, err := s.at(mix.Absolute())
	if err != nil {
		return tested.Water{}, err
	}
	w, err := tested.FromComposition(c, mix.Volume(), mix.Temperature())
	if err != nil {
		return tested.Water{}, input.In("salt.ions", err)
	}
	w.Portion = mix
	return w, nil
}

// askable refuses what no instrument shows.
func askable(s units.PracticalSalinity, by ions.Property, t units.Temperature) error {
	if by > ions.Index {
		return input.Bad("property", input.Number(float64(by)), "density, conductivity or index")
	}
	_, err := saltAt("salinity", s, "temperature", t)
	return err
}

func nothing() units.PracticalSalinity { return units.Practical(math.NaN()) }

// differs tells whether the salt has a composition of its own.
func (s Salt) differs() bool { return s.Ions != ions.Composition{} }

// at returns the composition of a mix that has so much dissolved.
func (s Salt) at(dissolved units.AbsoluteSalinity) (ions.Composition, error) {
	if err := s.Ions.Check(); err != nil {
		return ions.Composition{}, input.In("salt.ions", err)
	}
	has := s.Ions.SolutionSalinity().GramsPerKilogram()
	if !(has > 0) {
		return ions.Composition{}, input.Bad("salt.ions", s.Ions.SolutionSalinity().String(),
			"a mix of the salt, with something dissolved")
	}
	return s.Ions.Scale(dissolved.GramsPerKilogram() / has), nil
}

func (s Salt) readings(dissolved units.AbsoluteSalinity, t units.Temperature) (ions.Readings, error) {
	c, err := s.at(dissolved)
	if err != nil {
		return ions.Readings{}, err
	}
	r, err := c.Readings(t)
	return r, input.In("salt.ions", err)
}

// readsOf returns what the instruments show of a mix, and what to say about it.
func (s Salt) readsOf(mix seawater.Sample) (Reads, []string, error) {
	plain := reads(mix)
	if !s.differs() {
		return plain, nil, nil
	}
	at25 := units.Celsius(25)
	warm, err := s.readings(mix.Absolute(), at25)
	if err != nil {
		return Reads{}, nil, err
	}
	r, err := s.readings(mix.Absolute(), mix.Temperature())
	if err != nil {
		return Reads{}, nil, err
	}
	shown := func(r ions.Readings, p ions.Property) (seawater.Sample, error) {
		return seawater.FromAbsolute(r.By[p].Shown, r.Temperature)
	}
	dense, err := shown(warm, ions.Density)
	if err != nil {
		return Reads{}, nil, err
	}
	out := Reads{
		SpecificGravity: dense.SpecificGravity(units.SG25C()),
		Density:         r.Density,
		Conductivity:    r.Conductivity,
		Conductivity25:  warm.Conductivity,
		Hydrometer:      teos10.PracticalFromAbsolute(warm.By[ions.Density].Shown),
		Meter:           teos10.PracticalFromAbsolute(warm.By[ions.Conductivity].Shown),
		Refractometer:   teos10.PracticalFromAbsolute(warm.By[ions.Index].Shown),
	}
	say := []string{
		"The salt is not that of the ocean: in this mix a hydrometer shows " + input.Fixed(out.Hydrometer.Value(), 2) +
			", a conductivity meter " + input.Fixed(out.Meter.Value(), 2) + ", a refractometer for seawater " +
			input.Fixed(out.Refractometer.Value(), 2) +
			" (standard uncertainty of the model " + input.Fixed(warm.By[ions.Density].Uncertainty.GramsPerKilogram(), 2) +
			", " +
			input.Fixed(warm.By[ions.Conductivity].Uncertainty.GramsPerKilogram(), 2) + " and " +
			input.Fixed(warm.By[ions.Index].Uncertainty.GramsPerKilogram(), 2) +
			"). The salinity of the plan is what is dissolved; nearest to it comes the " + warm.Closest().String() + ".",
		"The volume of the plan is that of a mix of sea salt; a litre of this " +
			"one weighs " + moreOrLess(float64(r.Density/mix.Density())-1) + ".",
	}
	return out, say, nil
}

// moreOrLess writes a share as "0.123 % more".
func moreOrLess(share float64) string {
	word := " % more"
	if share < 0 {
		word = " % less"
	}
	return input.Fixed(math.Abs(100*share), 3) + word
}
