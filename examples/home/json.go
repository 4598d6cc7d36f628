package home

import (
	"bytes"
	"encoding"
	"encoding/json"
	"io"
	"math"
	"reflect"
	"strings"
)

// writeJSON writes as encoding/json does, but null for a number that JSON does not have: a
// ratio that is not known, a day that never comes.
func writeJSON(w io.Writer, numbers any) error {
	var b, indented bytes.Buffer
	if err := put(&b, reflect.ValueOf(numbers)); err != nil {
		return err
	}
	if err := json.Indent(&indented, b.Bytes(), "", "  "); err != nil {
		return err
	}
	indented.WriteByte('\n')
	_, err := indented.WriteTo(w)
	return err
}

func put(b *bytes.Buffer, v reflect.Value) error {
	if !v.IsValid() {
		b.WriteString("null")
		return nil
	}
	switch v.Interface().(type) {
	case json.Marshaler, encoding.TextMarshaler:
		if v.Kind() != reflect.Pointer {
			return leaf(b, v)
		}
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		return put(b, v.Elem())
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			b.WriteString("null")
			return nil
		}
	case reflect.Slice:
		return putList(b, v)
	case reflect.Struct:
		return putFields(b, v)
	}
	return leaf(b, v)
}

func leaf(b *bytes.Buffer, v reflect.Value) error {
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	return e.Encode(v.Interface())
}

func putList(b *bytes.Buffer, v reflect.Value) error {
	if v.IsNil() {
		b.WriteString("null")
		return nil
	}
	b.WriteByte('[')
	for i := range v.Len() {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := put(b, v.Index(i)); err != nil {
			return err
		}
	}
	b.WriteByte(']')
	return nil
}

func putFields(b *bytes.Buffer, v reflect.Value) error {
	b.WriteByte('{')
	first := true
	for _, f := range reflect.VisibleFields(v.Type()) {
		tag := f.Tag.Get("json")
		if !f.IsExported() || f.Anonymous || tag == "-" {
			continue
		}
		value, err := v.FieldByIndexErr(f.Index)
		if err != nil || strings.Contains(tag, "omitempty") && isNothing(value) {
			continue
		}
		if !first {
			b.WriteByte(',')
		}
		first = false
		b.WriteString(`"` + f.Name + `":`)
		if err := put(b, value); err != nil {
			return err
		}
	}
	b.WriteByte('}')
	return nil
}

// isNothing is what encoding/json leaves out.
func isNothing(v reflect.Value) bool {
	if v.Kind() == reflect.Slice {
		return v.Len() == 0
	}
	return v.Kind() != reflect.Struct && v.IsZero()
}
