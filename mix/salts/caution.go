package salts

import "example.org/wellmixed/mix/advice"

// Cautions that go with single compounds.
var (
	grade = advice.Caution{
		ID:       "reagent-grade",
		Severity: advice.Care,
		Text: "Use food, pharmaceutical or analytical grade with a certificate. Technical grades (de-icing salt, " +
			"fertiliser, pool chemical, hardware-store lime) may carry ammonia, heavy metals, anti-caking agents or fragrance.",
	}

	caustic = advice.Caution{
		ID:       "caustic",
		Severity: advice.Danger,
		Text: "Caustic: burns eyes and skin, also as dust. Goggles, gloves, a closed container, out of reach of " +
			"children; rinse splashes at once with much water and see a doctor for the eyes.",
	}
	heats = advice.Caution{
		ID:       "heats-in-water",
		Severity: advice.Danger,
		Text: "Gives off heat as it dissolves, enough to boil and spit: little by little into much cold water while " +
			"stirring, never water onto the solid.",
	}
	warms = advice.Caution{
		ID:       "warms-in-water",
		Severity: advice.Care,
		Text: "Warms the water as it dissolves, in a strong solution until it is too hot to touch: add it in parts " +
			"while stirring, and let it cool before it goes on.",
	}
	irritates = advice.Caution{
		ID:       "irritates-eyes",
		Severity: advice.Care,
		Text:     "Irritates the eyes badly: goggles; rinse with running water for many minutes.",
	}
	eyeDamage = advice.Caution{
		ID:       "eye-damage",
		Severity: advice.Danger,
		Text: "Can damage the eyes for good, as dust and as solution: tight goggles and gloves; rinse at once with " +
			"running water for many minutes and see a doctor.",
	}
	thyroid = advice.Caution{
		ID:       "thyroid",
		Severity: advice.Danger,
		Text: "Iodine compounds harm the thyroid if swallowed often or much, and with acid or bleach set free iodine " +
			"vapour: gloves, no food nearby, locked away.",
	}
	strongAcid = advice.Caution{
		ID:       "strong-acid",
		Severity: advice.Danger,
		Text: "Corrosive acid with biting fumes when concentrated: acid into water, never water into acid; goggles, " +
			"gloves, fresh air; far from chlorine bleach, which it turns into poison gas.",
	}
	poisonous = advice.Caution{
		ID:       "poisonous",
		Severity: advice.Danger,
		Text: "Harmful or poisonous if swallowed or breathed in as dust: gloves, no food nearby, labelled and locked " +
			"away; keep the poison-centre number at hand.",
	}
	reproduction = advice.Caution{
		ID:       "boron-compound",
		Severity: advice.Danger,
		Text: "Boric acid and borax are classified as able to harm fertility and the unborn child: avoid the dust, " +
			"wear gloves, keep them from children.",
	}
	oxidising = advice.Caution{
		ID:       "oxidising",
		Severity: advice.Danger,
		Text:     "Feeds fire: keep it away from anything that burns and from acids; stocks may be regulated where you live.",
	}
	flammable = advice.Caution{
		ID:       "flammable",
		Severity: advice.Danger,
		Text:     "Catches fire easily, its vapour too: no flame, spark or heater nearby.",
	}
	dusty = advice.Caution{
		ID:       "irritating-dust",
		Severity: advice.Note,
		Text:     "The dust or a strong solution irritates eyes and skin: pour low, wear goggles and gloves.",
	}
	raisesPH = advice.Caution{
		ID:       "raises-ph",
		Severity: advice.Care,
		Text: "Its solution is alkaline and raises pH on the spot: dose it slowly into strong flow, and never into " +
			"water with much calcium or magnesium in one shot.",
	}
	ammonia = advice.Caution{
		ID:       "ammonia",
		Severity: advice.Care,
		Text:     "Ammonium becomes toxic ammonia at the pH of seawater: never add it to water with animals.",
	}
	trace = advice.Caution{
		ID:       "trace-dose",
		Severity: advice.Care,
		Text: "Needed in traces only and toxic to invertebrates above them: dose it from a dilute stock made on a fine " +
			"balance, and only against a measurement.",
	}
	feedsBacteria = advice.Caution{
		ID:       "feeds-bacteria",
		Severity: advice.Care,
		Text:     "Food for bacteria, which then use up oxygen: small doses, strong aeration.",
	}
)

// Cautions returns what to mind with the compound, the advice on its grade
// first. Usual practice only: the safety data sheet of the supplier comes
// first.
func (c Compound) Cautions() []advice.Caution {
	if !c.Exists() {
		return nil
	}
	return append([]advice.Caution{grade}, compounds[c.index].cautions...)
}
