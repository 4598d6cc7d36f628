package salts

import (
	"strconv"

	"example.org/wellmixed/internal/formula"
)

// String writes the formula in the order of Hill 1900, carbon and hydrogen first and the
// others by the alphabet, with the water of crystallisation behind a dot: "CaCl2.2H2O".
func (f Formula) String() string {
	text, dry := "", f.dry()
	for last := ""; ; {
		next := dry.after(last)
		if next < 0 {
			break
		}
		last = formula.Elements[next].Symbol
		text += last
		if n := dry.counts.Atoms[next]; n > 1 {
			text += strconv.Itoa(int(n))
		}
	}
	switch {
	case f.counts.Water == 1:
		text += ".H2O"
	case f.counts.Water > 1:
		text += "." + strconv.Itoa(int(f.counts.Water)) + "H2O"
	}
	return text
}

// after returns the element that is written next, -1 behind the last.
func (f Formula) after(last string) int {
	next := -1
	for i, n := range f.counts.Atoms {
		symbol := f.rank(formula.Elements[i].Symbol)
		if n > 0 && symbol > f.rank(last) && (next < 0 || symbol < f.rank(formula.Elements[next].Symbol)) {
			next = i
		}
	}
	return next
}

// rank is a text by which the symbols come in order.
func (f Formula) rank(symbol string) string {
	if organic := f.Atoms("C") > 0; organic && (symbol == "C" || symbol == "H") {
		return " " + symbol
	}
	return symbol
}

// MarshalText writes what String returns, and nothing for no formula; reading that gives
// an equal formula back.
func (f Formula) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText reads what ParseFormula reads. An empty text is no formula.
func (f *Formula) UnmarshalText(text []byte) error {
	*f = Formula{}
	if len(text) == 0 {
		return nil
	}
	made, err := ParseFormula(string(text))
	*f = made
	return err
}
