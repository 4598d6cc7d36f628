// Package dilution tells what becomes of the water in a tank: water changes,
// one or many or continuous, evaporation and top-off, what builds up between
// changes, and how much water there is at all.
//
// Levels of detail:
//
//   - [Remaining] is the plain arithmetic of dilution for any quantity per
//     litre: how much of the old water is left, how often to change for a goal.
//     [Periodic] adds what the tank produces or uses between changes.
//   - [Swap], [SwapToReach], [Evaporate], [Unattended] treat salt water by mass,
//     with volumes from the equation of state.
//   - [PlanChange] does one water change with everything that was measured, and
//     lists assumptions and cautions; [PlanCourse] finds the changes that lead to a
//     goal under limits, at once, in steps or as a flow.
//
// [Routine] is how a tank is kept from day to day: [Routine.Forecast] tells what
// becomes of it, [Routine.Settles] where it comes to rest, [PlanSchedule] the
// cheapest changes that keep it within bounds. [PlanAcclimation] and [CalibratePump]
// serve the animals and the pumps. Estimates of a change and of a routine say how
// sure the numbers are and what makes most of the doubt.
//
// Tank and batch are taken as well mixed. Salt, heat content and amounts of
// solutes are conserved; volume and pH are not quantities that add up, so the
// one is recomputed from the density and the other from what does add up,
// alkalinity and dissolved inorganic carbon.
//
// Input that cannot be gives a [units.InputError] naming the field, a salinity
// or temperature outside the standards a [units.RangeError].
package dilution
