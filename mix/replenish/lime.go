package replenish

import (
	"cmp"
	"math"
	"strconv"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// LimeWater is clear lime water, calcium hydroxide in pure water, that replaces
// what evaporates.
type LimeWater struct {
	Tank        tested.Water
	Air         carbonate.XCO2    // of the room; 0: the tank keeps the CO2 that it has
	TopOff      units.Flow        // of lime water, at most what evaporates
	Temperature units.Temperature // of the store in which it settles; warmer, it holds less
	Saturation  units.Fraction    // 100 % if undissolved lime lies at the bottom; 0 if Content is given

	// Content is so much Ca(OH)2 in a litre, of lime water of a known strength: weighed in
	// and all dissolved, or titrated. Temperature matters then only if it is set, and no more
	// may be in it than dissolves.
	Content units.MassPerLitre
	// Evaporation is what the tank loses to the air, if it is known: a TopOff of more than
	// that is noticed.
	Evaporation units.Flow

	Demand tested.Level  // of alkalinity in a day, if it is known
	Limits tested.Limits // of the pH; the zero value: the usual one
}

// LimeSupply is what lime water gives.
type LimeSupply struct {
	Content    units.MassPerLitre // of Ca(OH)2 in the lime water
	Hydroxide  units.Mass         // of Ca(OH)2, a day
	Alkalinity tested.Level       // a day, with Calcium in the proportion of skeletons
	Calcium    tested.Level
	// Uncertainty is the standard uncertainty of all these, relative: that of
	// the solubility; 0 for a Content that was given.
	Uncertainty units.Fraction

	Share  units.Fraction // of the demand that is met; 0 if it is not known
	Short  tested.Level   // what is missing of the demand, a day
	Needed units.Flow     // of such lime water, to meet the demand; 0 if it is not known

	// Portion is the most that may go in at once so that the pH moves by no more
	// than the limit; 0 if the carbonate side is not known.
	Portion units.Volume
	AtOnce  tested.Chemistry // of the tank after one such portion
	AllDay  tested.Chemistry // after the supply of a whole day, had no CO2 come in: what a stuck valve does
	Aired   tested.Chemistry // after the supply of a day, in balance with the air

	Assumptions []string
	Cautions    []advice.Caution
}

// solubilityOfLime is the relative standard uncertainty of the solubility of
// calcium hydroxide: the tables differ by 2 to 5 %.
const solubilityOfLime = 0.05

// Lime works out what lime water gives in a day and how slowly it has to go in.
//
// It replaces nothing but what evaporates, so evaporation bounds what it can
// give; the warmer its store, the less, as calcium hydroxide dissolves less in
// warm water than in cold.
func Lime(w LimeWater) (LimeSupply, error) {
	if err := w.check(); err != nil {
		return LimeSupply{}, err
	}
	lime, err := salts.Find("Ca(OH)2")
	if err != nil {
		return LimeSupply{}, err
	}
	content, strength, err := w.content(lime)
	if err != nil {
		return LimeSupply{}, err
	}
	perDay := units.Volume(w.TopOff.LitresPerDay()) * units.Litre
	moles := lime.Moles(content.Mass(1 * units.Litre))
	per := lime.Dose(units.AmountPerKilogram(moles) * units.MolePerKilogram) // µmol in a litre
	brings := per.Scale(perDay.Litres())

	s, assumed, err := start(w.Tank, w.Air)
	if err != nil {
		return LimeSupply{}, err
	}
	level := func(p tested.Parameter) tested.Level {
		return counting(w.Tank, p).WithBase(float64(p.In(brings)) / 1000 / w.Tank.Volume().Litres())
	}
	supply := LimeSupply{
		Content: content, Hydroxide: content.Mass(perDay), Uncertainty: units.Share(solubilityOfLime),
		Alkalinity: level(tested.Alkalinity), Calcium: level(tested.Calcium),
	}
	if w.Demand.Exists() {
		supply.Alkalinity = w.Demand.WithBase(supply.Alkalinity.Base())
		supply.Share = units.Share(supply.Alkalinity.Base() / w.Demand.Base())
		supply.Short = w.Demand.WithBase(max(0, w.Demand.Base()-supply.Alkalinity.Base()))
		supply.Needed = w.TopOff / units.Flow(supply.Share.Value())
	}
	if w.Content > 0 {
		supply.Uncertainty = units.Fraction{}
	}
	tank, err := s.found()
	if err != nil {
		return LimeSupply{}, err
	}
	if err := supply.drip(w, s, tank, per, perDay); err != nil {
		return LimeSupply{}, err
	}
	supply.Assumptions = append([]string{
		"The lime water is clear" + strength + ": " + input.Fixed(content.GramsPerLitre(), 2) +
			" g of Ca(OH)2 in a litre. " +
			"Left open to the air it grows weaker, as a crust of calcium carbonate forms.",
		"All the top-off is lime water, and the tank holds " + litres(w.Tank.Volume()) + " L.",
		"Limits: " + saySwing(w.Limits.List()) + ".",
	}, assumed...)
	supply.Cautions = finish(supply.cautions(w, tank), Dry(salts.Reagent{Compound: lime, Purity: units.Share(1)}))
	return supply, nil
}

// content returns how much lime is in a litre, and what that was taken from.
func (w LimeWater) content(lime salts.Compound) (content units.MassPerLitre, from string, err error) {
	if w.Content > 0 && !w.Temperature.IsSet() {
		return w.Content, " and as strong as was said", nil
	}
	saturated, err := salts.Saturated(lime, w.Temperature)
	if err == nil {
		content, err = saturated.PerLitre()
	}
	switch {
	case err != nil:
		return content, "", input.As("temperature", err)
	case w.Content > content*(1+coverage*solubilityOfLime):
		return content, "", input.Bad("content", w.Content.String(), "no more than dissolves at "+
			input.Number(w.Temperature.Celsius())+" °C, "+input.Fixed(content.GramsPerLitre(), 2)+
			" g/L: the rest is milk of lime, which kills")
	case w.Content > 0:
		return w.Content, " and as strong as was said", nil
	}
	return content * units.MassPerLitre(w.Saturation.Value()), ", settled at " +
		input.Number(w.Temperature.Celsius()) + " °C and " + input.Number(w.Saturation.Percent()) + " % saturated", nil
}

// coverage is the factor from a standard uncertainty to one that is exceeded one time in
// twenty (JCGM 100:2008, 6.2).
const coverage = 2

func (w LimeWater) check() error {
	noTank := checkTank(w.Tank, w.Air)
	list := []error{
		noTank, w.Limits.Check("limits"),
		input.Positive("topOff", w.TopOff.LitresPerDay(), "L/day"),
		input.NotNegative("evaporation", w.Evaporation.LitresPerDay(), "L/day"),
		input.NotNegative("content", w.Content.GramsPerLitre(), "g/L"),
	}
	switch {
	case w.Content == 0:
		list = append(list, input.Set("temperature", w.Temperature), input.Share("saturation", w.Saturation))
	case w.Saturation.Value() != 0:
		list = append(list, input.Bad("saturation", w.Saturation.String(), "a content or a saturation, one of the two"))
	}
	if noTank == nil && w.TopOff.LitresPerDay() > w.Tank.Volume().Litres() {
		list = append(list, input.Bad("topOff", input.Number(w.TopOff.LitresPerDay())+
			" L/day", "at most the volume of the tank in a day"))
	}
	switch {
	case !w.Demand.Exists():
	case w.Demand.Parameter() != tested.Alkalinity:
		list = append(list, input.Bad("demand", string(w.Demand.Parameter()), "alkalinity"))
	default:
		list = append(list, cmp.Or(w.Demand.Check("demand"), w.Demand.Must("demand", w.Demand.Base() > 0, "above zero")))
	}
	return input.Join(list...)
}

// drip works out the largest portion and the worst that can happen.
func (l *LimeSupply) drip(w LimeWater, s state, tank found, per ions.Composition, perDay units.Volume) error {
	l.AtOnce, l.AllDay, l.Aired = tested.NoChemistry(), tested.NoChemistry(), tested.NoChemistry()
	if !s.known {
		return nil
	}
	after := func(v float64, search bool) (now, aired tested.Chemistry, err error) {
		at := s
		at.search = search
		if err := at.dose(per.Scale(v)); err != nil {
			return now, aired, err
		}
		return at.settle("tank after the dose")
	}
	var err error
	if l.AllDay, l.Aired, err = after(perDay.Litres(), false); err != nil {
		return err
	}
	most, _ := swing(w.Limits.List())
	l.Portion, l.AtOnce = perDay, l.AllDay
	held := w.Limits.List()
	if !passes(held, tank, l.AllDay, l.Aired) {
		return nil
	}
	litres, ok := solve.Brent(func(v float64) float64 {
		now, aired, err := after(v, true)
		if err != nil {
			return math.NaN()
		}
		return tank.moved(now, aired) - most
	}, 0, perDay.Litres(), 1e-15*perDay.Litres())
	if !ok {
		return units.ErrNoConvergence
	}
	// The root may lie a little beyond the limit.
	for less := 1e-9 * litres; litres > less; less *= 2 {
		litres -= less
		now, aired, err := after(litres, true)
		if err != nil {
			return err
		}
		if !passes(held, tank, now, aired) {
			l.Portion = units.Volume(litres) * units.Litre
			l.AtOnce, _, err = after(litres, false)
			return err
		}
	}
	return input.Bad("limits.pH", input.Number(most), "one that some lime water keeps")
}

// short writes a level to three digits.
func short(l tested.Level) string {
	x, unit := l.Counted()
	return strconv.FormatFloat(x, 'g', 3, 64) + " " + unit
}

// tooMuch warns of more lime water than evaporates.
func (w LimeWater) tooMuch() []advice.Caution {
	if w.Evaporation == 0 || w.TopOff <= w.Evaporation {
		return nil
	}
	more := w.TopOff.LitresPerDay() - w.Evaporation.LitresPerDay()
	return []advice.Caution{{ID: "lime-beyond-evaporation", Severity: advice.Danger, Here: true,
		Text: "Of the lime water " + input.Number(more) + " L a day are more than evaporates, " +
			input.Number(w.Evaporation.LitresPerDay()) + " L: the tank fills by them and loses " +
			input.Fixed(100*more/w.Tank.Volume().Litres(), 1) + " % of its salinity a day, if as much tank water is taken " +
			"out, and overflows if not. Give no more than evaporates; the rest of the demand needs another additive."}}
}

func (l *LimeSupply) cautions(w LimeWater, tank found) []advice.Caution {
	list := append([]advice.Caution{limeWater, limeOverdose, fromChildren}, w.tooMuch()...)
	limit, origin, limited := w.Limits.List().PerDay(tested.Alkalinity)
	climbs := l.Alkalinity.Base()
	if w.Demand.Exists() {
		climbs -= w.Demand.Base()
	}
	switch text := "alkalinity would climb by " + short(l.Alkalinity.WithBase(climbs)) +
		" a day, more than the limit of " + counted(limit) + " (" + origin + "). Dilute the lime water, or " +
		"mix it into a part of the top-off only."; {
	case limited && climbs > limit.Base() && l.Share.Value() > 0:
		list = append(list, advice.Caution{
			ID:       "lime-climbs",
			Severity: advice.Danger,
			Text:     "All top-off as lime water of this strength gives more than the tank uses: " + text, Here: true,
		})
	case limited && climbs > limit.Base():
		list = append(list, advice.Caution{
			ID:       "lime-climbs",
			Severity: advice.Care,
			Text:     "Unless the tank uses it, " + text, Here: true,
		})
	case l.Share.Value() > 1:
		list = append(list, limeOversupply)
	}
	list = append(list, chemistryCautions(w.Tank, tank, w.Limits.List(), []Step{{AtOnce: l.AtOnce, Aired: l.Aired}})...)
	if l.AllDay.Brucite.Omega >= 1 || l.AllDay.Aragonite >= advice.SpontaneousAragonite ||
		l.AllDay.PH.Value() >= advice.BrucitePH {
		list = append(list, advice.Caution{
			ID:       "never-at-once",
			Severity: advice.Danger,
			Text: "The lime water of one day, in one go, would take the " +
				"tank to pH " + input.Fixed(l.AllDay.PH.Value(), 1) + " (total scale): minerals fall " +
				"out and animals die. Keep less than that in the store that a fault could empty.", Here: true,
		})
	}
	return append(list, testFirst)
}
