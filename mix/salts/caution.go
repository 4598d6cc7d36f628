package salts

import "example.org/wellmixed/mix"

// Cautions that go with single compounds.
var (
	grade = mix.Caution{ID: "reagent-grade", Severity: mix.Care, Text: "Use food, pharmaceutical or analytical grade with a certificate. Technical grades (de-icing salt, fertiliser, pool chemical, hardware-store lime) may carry ammonia, heavy metals, anti-caking agents or fragrance."}

	caustic       = mix.Caution{ID: "caustic", Severity: mix.Danger, Text: "Caustic: burns eyes and skin, also as dust. Goggles, gloves, a closed container, out of reach of children; rinse splashes at once with much water and see a doctor for the eyes."}
	heats         = mix.Caution{ID: "heats-in-water", Severity: mix.Danger, Text: "Gives off heat as it dissolves, enough to boil and spit: little by little into much cold water while stirring, never water onto the solid."}
	warms         = mix.Caution{ID: "warms-in-water", Severity: mix.Care, Text: "Warms the water as it dissolves, in a strong solution until it is too hot to touch: add it in parts while stirring, and let it cool before it goes on."}
	irritates     = mix.Caution{ID: "irritates-eyes", Severity: mix.Care, Text: "Irritates the eyes badly: goggles; rinse with running water for many minutes."}
	eyeDamage     = mix.Caution{ID: "eye-damage", Severity: mix.Danger, Text: "Can damage the eyes for good, as dust and as solution: tight goggles and gloves; rinse at once with running water for many minutes and see a doctor."}
	thyroid       = mix.Caution{ID: "thyroid", Severity: mix.Danger, Text: "Iodine compounds harm the thyroid if swallowed often or much, and with acid or bleach set free iodine vapour: gloves, no food nearby, locked away."}
	strongAcid    = mix.Caution{ID: "strong-acid", Severity: mix.Danger, Text: "Corrosive acid with biting fumes when concentrated: acid into water, never water into acid; goggles, gloves, fresh air; far from chlorine bleach, which it turns into poison gas."}
	poisonous     = mix.Caution{ID: "poisonous", Severity: mix.Danger, Text: "Harmful or poisonous if swallowed or breathed in as dust: gloves, no food nearby, labelled and locked away; keep the poison-centre number at hand."}
	reproduction  = mix.Caution{ID: "boron-compound", Severity: mix.Danger, Text: "Boric acid and borax are classified as able to harm fertility and the unborn child: avoid the dust, wear gloves, keep them from children."}
	oxidising     = mix.Caution{ID: "oxidising", Severity: mix.Danger, Text: "Feeds fire: keep it away from anything that burns and from acids; stocks may be regulated where you live."}
	flammable     = mix.Caution{ID: "flammable", Severity: mix.Danger, Text: "Catches fire easily, its vapour too: no flame, spark or heater nearby."}
	dusty         = mix.Caution{ID: "irritating-dust", Severity: mix.Note, Text: "The dust or a strong solution irritates eyes and skin: pour low, wear goggles and gloves."}
	raisesPH      = mix.Caution{ID: "raises-ph", Severity: mix.Care, Text: "Its solution is alkaline and raises pH on the spot: dose it slowly into strong flow, and never into water with much calcium or magnesium in one shot."}
	ammonia       = mix.Caution{ID: "ammonia", Severity: mix.Care, Text: "Ammonium becomes toxic ammonia at the pH of seawater: never add it to water with animals."}
	trace         = mix.Caution{ID: "trace-dose", Severity: mix.Care, Text: "Needed in traces only and toxic to invertebrates above them: dose it from a dilute stock made on a fine balance, and only against a measurement."}
	feedsBacteria = mix.Caution{ID: "feeds-bacteria", Severity: mix.Care, Text: "Food for bacteria, which then use up oxygen: small doses, strong aeration."}
)

// Cautions returns what to mind with the compound, the advice on its grade
// first. Usual practice only: the safety data sheet of the supplier comes
// first.
func (c Compound) Cautions() []mix.Caution {
	if !c.Exists() {
		return nil
	}
	return append([]mix.Caution{grade}, compounds[c.index].cautions...)
}
