package words_test

import (
	"fmt"

	"example.org/wellmixed/dilution/control"
	"example.org/wellmixed/dilution/control/words"
)

// A display has room for a line: what is wrong, with what was found and the limit.
func ExampleAppendAlarm() {
	alarm := control.Alarm{Code: control.LongRun, Latched: true, Value: 255, Limit: 240}
	line := make([]byte, 0, 80) // on the stack of whoever calls
	fmt.Println(string(words.AppendAlarm(line, alarm)))
	// Output: pump ran too long! 255, limit 240 s
}
