package replenish

import (
	"encoding/json"
	"math"

	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/units"
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

// useForm is a Use as JSON has it: what [Use.Until] reckons with goes along.
type useForm struct {
	plainUse
	Quantile  units.Scalar
	Variances [3]units.Scalar // of Now and of PerDay, and their covariance
}

// MarshalJSON writes null for what is not known.
func (u Use) MarshalJSON() ([]byte, error) {
	return json.Marshal(useForm{
		plainUse(u), units.Scalar(u.quantile),
		[...]units.Scalar{units.Scalar(u.now), units.Scalar(u.use), units.Scalar(u.joint)},
	})
}

// UnmarshalJSON reads what MarshalJSON writes. What is not there is not known.
func (u *Use) UnmarshalJSON(text []byte) error {
	nan := units.Scalar(math.NaN())
	form := useForm{plainUse{ChiSquare: nan, Probability: nan}, nan, [...]units.Scalar{nan, nan, nan}}
	if err := json.Unmarshal(text, &form); err != nil {
		return err
	}
	*u = Use(form.plainUse)
	v := &form.Variances
	u.quantile, u.now, u.use, u.joint = float64(form.Quantile), float64(v[0]), float64(v[1]), float64(v[2])
	return nil
}
