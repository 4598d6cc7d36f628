package ions

import (
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// MarshalText writes what there is of each species, "Na+ 468963 µmol/kg,
// Mg++ 52817 µmol/kg", and nothing for the zero value; reading that gives the same composition
// back.
func (c Composition) MarshalText() ([]byte, error) {
	var text []byte
	for i, amount := range c.content {
		if amount == 0 {
			continue
		}
		written, err := amount.MarshalText()
		if err == nil && len(written) == 0 {
			err = input.Bad("content", "NaN", "a finite number")
		}
		if err != nil {
			return nil, input.In(Ion(i).Name(), err)
		}
		if len(text) > 0 {
			text = append(text, ", "...)
		}
		text = append(append(text, Ion(i).Symbol()...), ' ')
		text = append(text, written...)
	}
	return text, nil
}

// UnmarshalText reads what MarshalText writes, with any name of a species and any
// unit of amount per kilogram.
func (c *Composition) UnmarshalText(text []byte) error {
	*c = Composition{}
	if len(text) == 0 {
		return nil
	}
	read, err := parseComposition(string(text))
	if err != nil {
		*c = invalid()
		return err
	}
	*c = read
	return nil
}

func parseComposition(text string) (Composition, error) {
	var c Composition
	var seen [count]bool
	for part := range strings.SplitSeq(text, ",") {
		name, amount, found := strings.Cut(strings.TrimSpace(part), " ")
		if !found {
			return c, input.Bad("composition", input.Quoted(text), `amounts of ions such as "Na 469 mmol/kg, Cl 546 mmol/kg"`)
		}
		i, err := units.Parse[Ion](name)
		if err != nil {
			return c, input.In("composition", err)
		}
		if seen[i] {
			return c, input.Bad("composition", i.Symbol()+" twice", "each ion once")
		}
		seen[i] = true
		if c.content[i], err = units.Parse[units.AmountPerKilogram](amount); err != nil {
			return c, input.In("composition: "+i.Symbol(), err)
		}
	}
	return c, nil
}
