package electrode

import (
	"strings"

	"example.org/wellmixed/internal/input"
)

// buffers are what String writes and UnmarshalText reads.
var buffers = [...]string{
	Phthalate: "phthalate", Phosphate: "phosphate", PhysiologicalPhosphate: "physiological phosphate",
	Borax: "borax", Carbonate: "carbonate", TrisInWater: "tris in water",
	TechnicalPhosphate: "technical phosphate", Bottle4: "bottle 4", Bottle7: "bottle 7", Bottle10: "bottle 10",
}

// String returns the name of the buffer, such as "bottle 7" or "borax".
func (b Buffer) String() string {
	if !b.exists() {
		return "no buffer"
	}
	return buffers[b]
}

// MarshalText writes the name of the buffer; a Buffer that is none is refused.
func (b Buffer) MarshalText() ([]byte, error) {
	if !b.exists() {
		return nil, input.Bad("buffer", input.Number(float64(b)), "one of the buffers of package electrode")
	}
	return []byte(buffers[b]), nil
}

// UnmarshalText reads a name as String writes it.
func (b *Buffer) UnmarshalText(text []byte) error {
	i := named(buffers[Phthalate:], text)
	*b = Buffer(i + 1)
	if i < 0 {
		return input.Bad("buffer", input.Quoted(string(text)), `a buffer such as "bottle 7" or "borax"`)
	}
	return nil
}

var conditionNames = [...]string{
	Unknown: "unknown", Good: "good", Clean: "clean", Replace: "replace", Doubtful: "doubtful",
}

// String returns "unknown", "good", "clean", "replace" or "doubtful".
func (c Condition) String() string {
	if int(c) >= len(conditionNames) {
		return "no condition"
	}
	return conditionNames[c]
}

// MarshalText writes what String returns; a Condition that is none is refused.
func (c Condition) MarshalText() ([]byte, error) {
	if int(c) >= len(conditionNames) {
		return nil, input.Bad("condition", input.Number(float64(c)), "one of the conditions of package electrode")
	}
	return []byte(conditionNames[c]), nil
}

// UnmarshalText reads a name as String writes it.
func (c *Condition) UnmarshalText(text []byte) error {
	i := named(conditionNames[:], text)
	*c = Condition(max(i, 0))
	if i < 0 {
		return input.Bad("condition", input.Quoted(string(text)), "unknown, good, clean, replace or doubtful")
	}
	return nil
}

// named returns which of the names a text is, without regard to case and space
// around it, or -1.
func named(names []string, text []byte) int {
	want := strings.TrimSpace(string(text))
	for i, name := range names {
		if strings.EqualFold(name, want) {
			return i
		}
	}
	return -1
}
