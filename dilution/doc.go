// Package dilution tells what becomes of the water in a tank: water changes,
// one or many or continuous, evaporation and top-off, what builds up between
// changes, and how much water there is at all.
//
// Three levels of detail:
//
//   - [Remaining] is the plain arithmetic of dilution for any quantity per
//     litre: how much of the old water is left, how often to change for a goal.
//     [Periodic] adds what the tank produces or uses between changes.
//   - [Swap], [SwapToReach], [Evaporate], [Unattended] treat salt water by mass,
//     with volumes from the equation of state.
//   - [PlanChange] does one water change with everything that was measured, and
//     lists assumptions and cautions.
//
// Tank and batch are taken as well mixed. Salt, heat content and amounts of
// solutes are conserved; volume and pH are not quantities that add up, so the
// one is recomputed from the density and the other is left out here.
//
// Input that cannot be gives a [units.InputError] naming the field, a salinity
// or temperature outside the standards a [units.RangeError].
package dilution
