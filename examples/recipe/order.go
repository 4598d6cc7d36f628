package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"example.org/wellmixed/mix/recipe"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// order is the JSON file: what to mix and of what. All quantities are texts,
// so that every complaint can name its field.
type order struct {
	Name        string
	Salinity    string
	Volume      string
	Temperature string
	Tolerance   string                                           // of every ion
	Like        string                                           // a published recipe; empty: seawater
	Targets     []struct{ Of, Amount, Tolerance, Weight string } // in the place of what the water has
	Shelf       []struct{ Compound, Purity, Price, Package, Left, Allowed string }
}

func parse(data []byte) (order, error) {
	var o order
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&o); err != nil {
		return order{}, fmt.Errorf("the shelf: %w", err)
	}
	if _, err := d.Token(); err != io.EOF {
		return order{}, fmt.Errorf("the shelf: more than one JSON object")
	}
	return o, nil
}

// replace puts the flags in the place of the fields.
func (o *order) replace(by order) {
	for _, f := range []struct{ field, text *string }{
		{&o.Salinity, &by.Salinity}, {&o.Volume, &by.Volume}, {&o.Temperature, &by.Temperature},
		{&o.Tolerance, &by.Tolerance}, {&o.Like, &by.Like},
	} {
		if *f.text != "" {
			*f.field = *f.text
		}
	}
}

// reader reads quantities and keeps the first complaint.
type reader struct{ err error }

func (r *reader) fail(field string, err error) {
	if r.err == nil && err != nil {
		r.err = fmt.Errorf("%s: %w", field, err)
	}
}

// get reads a quantity that must be given.
func get[Q any, P interface {
	*Q
	UnmarshalText([]byte) error
}](r *reader, field, text string) Q {
	q, err := units.Parse[Q, P](text)
	r.fail(field, err)
	return q
}

// optional reads a quantity that may be left out, and then is zero.
func optional[Q any, P interface {
	*Q
	UnmarshalText([]byte) error
}](r *reader, field, text string) Q {
	if text == "" {
		var none Q
		return none
	}
	return get[Q, P](r, field, text)
}

// job turns the texts into what Solve works on.
func (o order) job() (recipe.Job, error) {
	var r reader
	salinity := get[units.PracticalSalinity](&r, "salinity", o.Salinity)
	job := recipe.Job{
		Volume:      get[units.Volume](&r, "volume", o.Volume),
		Temperature: get[units.Temperature](&r, "temperature", o.Temperature),
	}
	tolerance := get[units.Fraction](&r, "tolerance", o.Tolerance)
	if !(tolerance.Value() >= 0 && tolerance.Value() < 1) {
		r.fail("tolerance", &units.InputError{Field: "share", Got: tolerance.String(), Want: "0 % and more, below 100 %"})
	}
	if r.err != nil {
		return recipe.Job{}, r.err
	}
	sea, err := seawater.FromPractical(salinity, job.Temperature)
	if err != nil {
		return recipe.Job{}, err
	}
	water, err := o.aim(salinity, job)
	if err != nil {
		return recipe.Job{}, err
	}
	job.Targets = recipe.TargetsOf(water, tolerance)
	for i, t := range o.Targets {
		o.set(&r, &job, "targets["+strconv.Itoa(i)+"]", t.Of, t.Amount, t.Tolerance, t.Weight, tolerance, sea.Density())
	}
	for i, jar := range o.Shelf {
		field := "shelf[" + strconv.Itoa(i) + "]"
		job.Shelf = append(job.Shelf, recipe.Jar{
			Reagent: salts.Reagent{
				Compound: get[salts.Compound](&r, field, jar.Compound),
				Purity:   get[units.Fraction](&r, field+".purity", jar.Purity),
			},
			Price:   optional[units.Money](&r, field+".price", jar.Price),
			Package: optional[units.Mass](&r, field+".package", jar.Package),
			Left:    optional[units.Mass](&r, field+".left", jar.Left),
			Allowed: jar.Allowed == "yes",
		})
		if jar.Allowed != "" && jar.Allowed != "yes" {
			r.fail(field+".allowed", &units.InputError{
				Field: "allowed",
				Got:   units.Quoted(jar.Allowed),
				Want:  `"yes", for a compound that would be left on the shelf by itself; or leave the field out`,
			})
		}
		if jar.Left != "" && !(job.Shelf[i].Left > 0) { // an empty jar is no jar
			r.fail(field+".left", &units.InputError{
				Field: "mass",
				Got:   units.Quoted(jar.Left),
				Want:  "above zero; leave an empty jar out, and the field if there is plenty",
			})
		}
	}
	return job, r.err
}

// aim is the water to come near to: the reference composition of seawater, or
// that of a published recipe brought to the salinity.
func (o order) aim(s units.PracticalSalinity, job recipe.Job) (ions.Composition, error) {
	if o.Like == "" {
		return ions.Reference(s), nil
	}
	like, err := recipe.Find(o.Like)
	if err != nil {
		return ions.Composition{}, err
	}
	batch, err := like.Batch(s, job.Volume, job.Temperature)
	return batch.Composition, err
}

// set adds a target or puts it in the place of the one for the same component.
func (o order) set(r *reader, job *recipe.Job, field, of, amount, tolerance, weight string, share units.Fraction,
	density units.Density) {
	t := recipe.Target{Of: get[recipe.Component](r, field+".of", of), Weight: 1}
	t.Amount = content(r, field+".amount", t.Of, amount, density)
	if tolerance != "" {
		share = get[units.Fraction](r, field+".tolerance", tolerance)
	}
	t.Tolerance = t.Amount * units.AmountPerKilogram(share.Value())
	if weight != "" {
		var err error
		if t.Weight, err = strconv.ParseFloat(weight, 64); err != nil {
			r.fail(field+".weight", &units.InputError{Field: "weight", Got: units.Quoted(weight), Want: `a number such as "3"`})
		}
	}
	for i := range job.Targets {
		if job.Targets[i].Of == t.Of {
			job.Targets[i] = t
			return
		}
	}
	job.Targets = append(job.Targets, t)
}

// content reads "10.3 mmol/kg", or as a test kit gives it "430 mg/L" of the
// ion (of the element boron) or "8 dKH".
func content(r *reader, field string, of recipe.Component, text string, density units.Density) units.AmountPerKilogram {
	if q, err := units.Parse[units.AmountPerKilogram](text); err == nil {
		return q
	}
	if of == recipe.Alkalinity() {
		return get[units.Alkalinity](r, field, text).PerKilogram(density)
	}
	counted := units.AsBoron
	if i, ok := ions.Lookup(of.String()); ok {
		counted = i.MolarMass()
	} else if of == recipe.Carbon() {
		counted = units.AsCarbon
	}
	q, err := units.Parse[units.MassPerLitre](text)
	if err != nil {
		r.fail(field, &units.InputError{
			Field: "content",
			Got:   units.Quoted(text),
			Want:  `"10.3 mmol/kg", "430 mg/L" or, of alkalinity, "8 dKH"`,
		})
	}
	return counted.AmountPerLitre(q).PerKilogram(density)
}
