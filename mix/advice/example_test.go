package advice_test

import (
	"fmt"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

// May a bucket of 40 L be carried?
func ExampleTooHeavy() {
	if caution, heavy := advice.TooHeavy(41 * units.Kilogram); heavy {
		fmt.Println(caution.Severity, caution.ID)
	}
	// Output: danger heavy-water
}
