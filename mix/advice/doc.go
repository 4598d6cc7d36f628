// Package advice is what stands between a right number and an animal or a
// person: cautions with their severity, the width of a number, and the limits and
// thresholds of the trade. Each figure stands here once, with its origin and its
// reason; planners, limits and the sentences of cautions take it from here.
//
// It imports no planner, so any package can warn.
package advice
