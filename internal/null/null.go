// Package null writes values that have a text to JSON, and null where the text is
// empty: unknown, or never set. It lies below units.
package null

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Write quotes the text of a value, which is null if it is empty.
func Write(q interface{ MarshalText() ([]byte, error) }) ([]byte, error) {
	text, err := q.MarshalText()
	if err != nil {
		return nil, err
	}
	if len(text) == 0 {
		return []byte("null"), nil
	}
	return quoted(string(text)), nil
}

// quoted writes a text in the quotation marks of JSON.
func quoted(text string) []byte {
	out := []byte{'"'}
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			out = append(out, '\\', byte(r))
		case r < ' ':
			out = append(out, '\\', 'u', '0', '0', '0'+byte(r>>4), "0123456789abcdef"[r&15])
		default:
			out = utf8.AppendRune(out, r)
		}
	}
	return append(out, '"')
}

// Read reads what Write writes into a value. Null is an empty text, which a value reads as
// unknown, not as zero. What is no text, a bare number, is given to the value as it stands,
// so that the value refuses it in its own words.
func Read(token []byte, q interface{ UnmarshalText([]byte) error }) error {
	if string(token) == "null" {
		return q.UnmarshalText(nil)
	}
	text, err := strconv.Unquote(strings.ReplaceAll(string(token), `\/`, "/"))
	if err != nil || token[0] != '"' {
		return q.UnmarshalText(token)
	}
	return q.UnmarshalText([]byte(text))
}
