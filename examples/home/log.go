package home

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/units"
)

// Log is what the file tells of tests, doses and changes of water.
type Log struct {
	replenish.Log
	Lacking []string // keys of what was not tested in the water of a change, whose tests are left out

	entry []int // of the file, for each test
}

// Log is that of a tank that holds so much.
func (h *Home) Log(tank units.Volume) Log {
	log := Log{Log: replenish.Log{Volume: tank}}
	for _, c := range h.Changed {
		log.Changes = append(log.Changes, replenish.WaterChange{At: c.At, Swapped: c.Swap, Fresh: c.Levels})
	}
	for entry, t := range h.Tests {
		for _, l := range t.Levels {
			if i := slices.IndexFunc(h.Changed, func(c Changed) bool {
				_, has := c.Levels.Of(l.Parameter())
				return !has && c.Swap > 0
			}); i >= 0 {
				if key := fmt.Sprintf("changed[%d].%s", i, l.Parameter()); !slices.Contains(log.Lacking, key) {
					log.Lacking = append(log.Lacking, key)
				}
				continue
			}
			u, _ := h.Doubts.Levels.Of(l.Parameter())
			log.Tests = append(log.Tests, replenish.Test{At: t.At, Level: l, Uncertainty: u})
			log.entry = append(log.entry, entry)
		}
	}
	for _, d := range h.Dosed {
		a := h.Named(d.Additive).Is
		log.Doses = append(log.Doses, replenish.Dosed{From: d.From, To: d.To, Additive: a, Amount: d.Amount})
	}
	return log
}

// TooFew tells whether the log is sound, but has too few tests to tell what is used.
func (log *Log) TooFew(err error) bool {
	var short *units.InputError
	return errors.As(err, &short) && (short.Field == "tests" || strings.HasPrefix(short.Field, "tests."))
}

// ofTest is what an error of the log says of one test: of all that was tested at one time,
// and of the doubts that the file has once for all.
var ofTest = regexp.MustCompile(`tests\[(\d+)\](\.uncertainty)?`)

// AsWritten gives errors the paths of the file.
func (log *Log) AsWritten(err error) error {
	if err == nil {
		return nil
	}
	text := strings.NewReplacer("doses[", "dosed[", "changes[", "changed[", ".swapped", ".swap", ".fresh.", ".",
		"tank.carbon", "tank.ph or room.co2").Replace(err.Error())
	text = ofTest.ReplaceAllStringFunc(text, func(path string) string {
		m := ofTest.FindStringSubmatch(path)
		if n, err := strconv.Atoi(m[1]); err == nil && n < len(log.entry) && m[2] == "" {
			return fmt.Sprintf("tests[%d]", log.entry[n])
		}
		return "doubts"
	})
	return errors.New(strings.Join(slices.Compact(strings.Split(text, "\n")), "\n"))
}
