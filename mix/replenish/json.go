package replenish

import (
	"encoding/json"
	"math"

	"example.org/wellmixed/mix/salts"
)

// additiveForm is an Additive as JSON has it.
type additiveForm struct {
	Dry   *salts.Reagent `json:",omitempty"`
	Stock []Ingredient   `json:",omitempty"`
}

// MarshalJSON writes {"Dry": ...}, {"Stock": [...]}, or null for none.
func (a Additive) MarshalJSON() ([]byte, error) {
	if !a.Exists() {
		return []byte("null"), nil
	}
	form := additiveForm{Stock: a.stock}
	if a.dry != (salts.Reagent{}) {
		form.Dry = &a.dry
	}
	return json.Marshal(form)
}

// UnmarshalJSON reads what MarshalJSON writes.
func (a *Additive) UnmarshalJSON(text []byte) error {
	var form additiveForm
	*a = Additive{}
	if err := json.Unmarshal(text, &form); err != nil {
		return err
	}
	a.stock = form.Stock
	if form.Dry != nil {
		a.dry = *form.Dry
	}
	return nil
}

// plainUse is a Use without methods.
type plainUse Use

// useForm is a Use as JSON has it: unknown is null, and what [Use.Until] reckons with
// goes along.
type useForm struct {
	plainUse
	ChiSquare, Probability *float64
	Quantile               *float64
	Variances              *[3]float64 // of Now and of PerDay, and their covariance
}

// MarshalJSON writes null for what is not known.
func (u Use) MarshalJSON() ([]byte, error) {
	form := useForm{
		plainUse:  plainUse(u),
		ChiSquare: known(u.ChiSquare), Probability: known(u.Probability), Quantile: known(u.quantile),
	}
	if known(u.now) != nil && known(u.use) != nil && known(u.joint) != nil {
		form.Variances = &[3]float64{u.now, u.use, u.joint}
	}
	return json.Marshal(form)
}

// UnmarshalJSON reads what MarshalJSON writes.
func (u *Use) UnmarshalJSON(text []byte) error {
	var form useForm
	if err := json.Unmarshal(text, &form); err != nil {
		return err
	}
	*u = Use(form.plainUse)
	u.ChiSquare, u.Probability, u.quantile = number(form.ChiSquare), number(form.Probability), number(form.Quantile)
	u.now, u.use, u.joint = math.NaN(), math.NaN(), math.NaN()
	if v := form.Variances; v != nil {
		u.now, u.use, u.joint = v[0], v[1], v[2]
	}
	return nil
}

// known is nil for a number that JSON does not have.
func known(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}

// number is the way back.
func number(x *float64) float64 {
	if x == nil {
		return math.NaN()
	}
	return *x
}
