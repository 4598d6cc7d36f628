package units

import (
	"math"
	"strings"
)

// Money is an amount in a currency named by its three-letter code (ISO 4217).
// The zero value is no price at all.
type Money struct {
	Amount   float64
	Currency string // "EUR"
}

// Times returns x times the amount.
func (m Money) Times(x float64) Money { return Money{m.Amount * x, m.Currency} }

const moneyWant = `an amount with a currency code such as "18.50 EUR" or "20 USD"`

// UnmarshalText reads "18.50 EUR", and an empty text as no price. A sign such as
// "$" is refused: a dozen currencies share it.
func (m *Money) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*m = Money{}
		return nil
	}
	*m = Money{Amount: math.NaN()}
	var t typed
	t.take(string(text))
	if want := t.fault(); want != "" {
		return t.refuse("price", want)
	}
	if !t.sound || !isCurrency(t.rest) || t.x < 0 {
		return t.refuse("price", moneyWant)
	}
	*m = Money{t.x, strings.Clone(t.rest)}
	return nil
}

func isCurrency(code string) bool {
	if len(code) != 3 {
		return false
	}
	for i := 0; i < 3; i++ {
		if code[i] < 'A' || code[i] > 'Z' {
			return false
		}
	}
	return true
}

// String writes "18.5 EUR", as MarshalText does.
func (m Money) String() string {
	if m == (Money{}) {
		return ""
	}
	return withUnit(m.Amount, m.Currency)
}

// AppendText appends what MarshalText writes.
func (m Money) AppendText(text []byte) ([]byte, error) {
	if m == (Money{}) {
		return text, nil
	}
	if m.Amount < 0 || !isCurrency(m.Currency) {
		return text, &InputError{"price", m.String(), moneyWant}
	}
	return appendQuantity(text, "price", m.Amount, m.Currency)
}

// MarshalText writes "18.5 EUR", and nothing for no price; reading that gives
// the same value back.
func (m Money) MarshalText() ([]byte, error) { return m.AppendText(nil) }
