package input

import "errors"

// mostComplaints is more than anyone mends in one go.
const mostComplaints = 20

// Join is errors.Join for the complaints of a check: all that is wrong at once, but
// of a list of thousands the first ones only.
func Join(errs ...error) error {
	var kept []error
	for _, err := range errs {
		if err != nil && len(kept) < mostComplaints {
			kept = append(kept, err)
		}
	}
	if len(kept) == 1 {
		return kept[0]
	}
	return errors.Join(kept...)
}
