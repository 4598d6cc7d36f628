package input

import "strings"

// choice is one of a list that a package names.
type choice interface {
	~uint8
	String() string
}

// WriteChoice writes a choice by its name. The choices end before end; where they
// begin at 1, zero is none and written as nothing.
func WriteChoice[C choice](field string, c, begin, end C) ([]byte, error) {
	switch {
	case c >= begin && c < end:
		return []byte(c.String()), nil
	case c == 0:
		return nil, nil
	}
	return nil, Bad(field, Number(float64(c)), choices(begin, end))
}

// ReadChoice reads what WriteChoice writes, without regard to case. Beside an error
// stands end, which is no choice.
func ReadChoice[C choice](field string, text []byte, begin, end C) (C, error) {
	name := strings.TrimSpace(string(text))
	if name == "" && begin > 0 {
		return 0, nil
	}
	for c := begin; c < end; c++ {
		if strings.EqualFold(c.String(), name) {
			return c, nil
		}
	}
	return end, Bad(field, Quoted(string(text)), choices(begin, end))
}

// choices writes "note, care or danger".
func choices[C choice](begin, end C) string {
	var list strings.Builder
	for c := begin; c < end; c++ {
		switch {
		case c == begin:
		case c+1 == end:
			list.WriteString(" or ")
		default:
			list.WriteString(", ")
		}
		list.WriteString(c.String())
	}
	return list.String()
}
