package replenish

import (
	"cmp"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Upkeep is the wish to give back every day what the tank uses.
type Upkeep struct {
	Tank     tested.Water
	Air      carbonate.XCO2 // of the room; 0: the tank keeps the CO2 that it has
	Use      Use            // from Consumption, or with PerDay alone
	Additive Additive
	Limits   tested.Limits // of the pH; the zero value: the usual one
}

// UpkeepPlan is the answer to an Upkeep.
type UpkeepPlan struct {
	PerDay    Amount
	Low, High Amount // PerDay lies between them with a probability of 95 %; zero without an uncertainty
	// Parts is into how many doses, hours apart, a day's dose has to be cut so
	// that none moves the pH by more than the limit; 0 if pH is not known, and
	// then in as many as can be.
	Parts  int
	AtOnce tested.Chemistry // of the tank after one of the parts
	Aired  tested.Chemistry

	// Raises is by how much a day's dose raises each parameter that it brings.
	Raises []tested.Level
	// LeavesPerDay stays behind in a kilogram of tank water, every day, until
	// water changes take it; PerMonth is what thirty such days do to salinity.
	LeavesPerDay ions.Composition
	PerMonth     SalinityRise

	Assumptions []string
	Cautions    []advice.Caution
}

const (
	daysPerMonth = 30
	mostParts    = 48 // doses a day, one each half hour
)

// Maintain works out the dose a day that gives back what the tank uses, so that
// the level stays where it is.
func Maintain(u Upkeep) (UpkeepPlan, error) {
	use := u.Use.PerDay
	assumed, noAdditive := u.Additive.check("additive")
	err := input.Join(
		checkTank(u.Tank, u.Air), u.Limits.Check("limits"), noAdditive,
		cmp.Or(use.CheckCounting("use"), use.Must("use", use.Base() > 0 &&
			!math.IsInf(use.Base(), 0), "above zero: there is nothing to give back")))
	if err != nil {
		return UpkeepPlan{}, err
	}
	per := u.Additive.per()
	strength := float64(use.Parameter().In(per))
	if !(strength > 0) {
		return UpkeepPlan{}, input.Bad("additive", u.Additive.String(), "one that raises "+string(use.Parameter()))
	}
	give := func(l tested.Level) Amount {
		return u.Additive.amount(max(0, l.Base()) * 1000 * u.Tank.Volume().Litres() / strength)
	}
	p := UpkeepPlan{PerDay: give(use)}
	if low, high := u.Use.Low, u.Use.High; low.Exists() && high.Exists() {
		p.Low, p.High = give(low), give(high)
	}
	total, err := u.Additive.count("dose", p.PerDay)
	if err != nil {
		return UpkeepPlan{}, err
	}
	brings := per.Scale(total)
	s, more, err := start(u.Tank, u.Air)
	if err != nil {
		return UpkeepPlan{}, err
	}
	if !s.known && per.Amount(ions.Hydroxide) > 0 {
		return UpkeepPlan{}, noCarbon()
	}
	if err := u.Additive.fits(p.PerDay, u.Tank); err != nil {
		return UpkeepPlan{}, err
	}
	p.Raises = raises(u.Tank, brings)
	p.LeavesPerDay = leaves(brings.Scale(1/s.mass.Kilograms()), use.Parameter())
	month := brings.Scale(daysPerMonth)
	if p.PerMonth, err = s.rise(month, leaves(month, use.Parameter())); err != nil {
		return UpkeepPlan{}, err
	}
	tank, err := s.found()
	if err != nil {
		return UpkeepPlan{}, err
	}
	if err := u.cut(&p, s, tank, brings); err != nil {
		return UpkeepPlan{}, err
	}
	p.Assumptions = append([]string{
		"The tank is well mixed and holds " + litres(u.Tank.Volume()) + " L of water; topping off keeps " +
			"that volume, and the water of a dose takes the place of top-off.",
		"It goes on using " + use.String() + " a day.",
		"Limits: " + saySwing(u.Limits.List()) + ".",
	}, append(assumed, more...)...)
	p.Cautions = u.cautions(p, tank)
	return p, nil
}

// cut finds into how many parts a day's dose has to be cut.
func (u Upkeep) cut(p *UpkeepPlan, s state, tank found, brings ions.Composition) error {
	p.AtOnce, p.Aired = tested.NoChemistry(), tested.NoChemistry()
	if !s.known {
		return nil
	}
	held := u.Limits.List()
	part := func(search bool) (now, aired tested.Chemistry, err error) {
		at := s
		at.search = search
		if err = at.dose(brings.Scale(1 / float64(p.Parts))); err != nil {
			return now, aired, err
		}
		return at.settle("tank after the dose")
	}
	for p.Parts = 1; p.Parts <= mostParts; p.Parts++ {
		now, aired, err := part(true)
		if err != nil {
			return err
		}
		if !passes(held, tank, now, aired) {
			p.AtOnce, p.Aired, err = part(false)
			return err
		}
	}
	most, origin := swing(held)
	return input.Bad("additive", u.Additive.String(),
		"a milder one, or a limit of your own: even in "+input.Number(mostParts)+
			" parts a day each dose would move pH by more than "+input.Number(most)+" ("+origin+")")
}

func (u Upkeep) cautions(p UpkeepPlan, tank found) []advice.Caution {
	held := u.Limits.List()
	list := []advice.Caution{fromChildren, testFirst, slowly}
	list = append(list, chemistryCautions(u.Tank, tank, held, []Step{{AtOnce: p.AtOnce, Aired: p.Aired}})...)
	if limit, origin, limited := held.PerDay(u.Use.PerDay.Parameter()); limited && u.Use.PerDay.Base() > limit.Base() {
		list = append(list, advice.Caution{
			ID:       "large-use",
			Severity: advice.Care,
			Text: "The tank uses more in a day than it should move in one (" + counted(limit) + ", " + origin +
				"): a missed day will show. " +
				"Dose in many parts, by a pump that stops when it fails.", Here: true,
		})
	}
	if r := p.PerMonth; r.Lasting.Value()-r.Before.Value() > advice.LastingSalinity {
		list = append(list, advice.Caution{
			ID:       "salinity-rises",
			Severity: advice.Care,
			Text: "What is left of the doses raises salinity by " + input.Fixed(r.Lasting.Value()-r.Before.Value(), 2) +
				" a month: measure it, and " +
				"take out tank water for pure water.", Here: true,
		})
	}
	if p.Parts == 0 && tested.Alkalinity.In(u.Additive.per()) != 0 {
		list = append(list, advice.Caution{
			ID:       "many-parts",
			Severity: advice.Care,
			Text:     "How far a dose moves pH is not known: give the day's dose in many small parts.",
		})
	}
	list = append(list, volumeCaution(p.PerDay, u.Tank)...)
	list = append(list, u.Additive.limeCautions(p.PerDay)...)
	list = append(list, forParameter(u.Use.PerDay.Parameter())...)
	return finish(list, u.Additive)
}

// litres writes the volume of a tank as a keeper knows it.
func litres(v units.Volume) string {
	if v < 100*units.Litre {
		return input.Fixed(v.Litres(), 1)
	}
	return input.Fixed(v.Litres(), 0)
}
