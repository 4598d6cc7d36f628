// Package formula reads chemical formulas, for all packages that take a compound by its own.
package formula

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Formula is a chemical formula, as its count of atoms: B(OH)3 and H3BO3 are equal. The zero
// value is no formula and weighs nothing.
type Formula struct {
	Atoms [len(Elements)]uint16
	Water uint16 // of crystallisation: what stands behind a dot as H2O
}

// Parse reads a formula: elements, counts, groups in round or square
// brackets, and parts joined by a dot or colon with a leading count, "Ca(OH)2",
// "CaCl2.2H2O", "CaCl₂·2H₂O". A half hydrate is written doubled,
// "2CaSO4.H2O". Charges are not part of a formula.
//
// What cannot be read is an *units.InputError that says where. So is an element
// outside the table of weights, which has the 43 of salts, stocks and their
// usual impurities: no noble gas but helium, no rare earths, no titanium or gold.
func Parse(text string) (Formula, error) {
	p := parser{whole: text, rest: text}
	var f Formula
	for {
		p.spaces()
		times, counted := p.count()
		p.spaces()
		part, ok := p.units(0)
		switch {
		case p.err != nil:
			return Formula{}, p.err
		case !ok && counted:
			return Formula{}, p.bad("an element after the " + strconv.Itoa(times))
		case !ok:
			return Formula{}, p.bad("an element")
		}
		if !f.add(part, times) {
			return Formula{}, p.bad("counts up to " + strconv.Itoa(mostAtoms))
		}
		if n := part.waters(); n > 0 && p.parts > 0 {
			f.Water += uint16(n * times)
		}
		p.spaces()
		if p.rest == "" {
			return f, nil
		}
		if !p.dot() {
			return Formula{}, p.bad("an element, a count, a bracket or a dot")
		}
		p.parts++
	}
}

// mostAtoms of one element in a formula, and the largest count that is read:
// far above any compound here, far below an overflow.
const mostAtoms = 9999

// deepest nesting of brackets that is read.
const deepest = 8

// waterMolecule is H2O; hydrogen and oxygen are the first and the eighth of
// the table.
var waterMolecule = Formula{Atoms: [len(Elements)]uint16{0: 2, 7: 1}}

// waters returns how many molecules of water a part of a formula is, 2 for
// (H2O)2, and 0 if it is anything else.
func (f Formula) waters() int {
	n := int(f.Atoms[7])
	water := Formula{}
	if n > 0 && water.add(waterMolecule, n) && f == water {
		return n
	}
	return 0
}

// add adds so many times another formula and tells whether it fits.
func (f *Formula) add(g Formula, times int) bool {
	for i, n := range g.Atoms {
		sum := int(f.Atoms[i]) + int(n)*times
		if sum > mostAtoms {
			return false
		}
		f.Atoms[i] = uint16(sum)
	}
	return true
}

// parser walks along the text of a formula.
type parser struct {
	whole, rest string
	parts       int // dots passed
	err         error
}

func (p *parser) bad(want string) error {
	got := input.Quoted(p.whole)
	if done := len(p.whole) - len(p.rest); done > 0 && done < len(p.whole) {
		got += " at " + input.Quoted(p.rest)
	}
	return input.Bad("formula", got, want)
}

func (p *parser) spaces() { p.rest = strings.TrimLeft(p.rest, " ") }

// dot passes the sign between the parts of a formula.
func (p *parser) dot() bool {
	for _, sign := range [...]string{".", "·", "•", "⋅", "∙", "*", ":"} {
		if rest, ok := strings.CutPrefix(p.rest, sign); ok {
			p.rest = rest
			return true
		}
	}
	return false
}

// count reads a number, 1 if there is none.
func (p *parser) count() (n int, given bool) {
	for {
		r, size := utf8.DecodeRuneInString(p.rest)
		if r >= '₀' && r <= '₉' {
			r += '0' - '₀'
		}
		if r < '0' || r > '9' {
			break
		}
		n = n*10 + int(r-'0')
		if n > mostAtoms {
			p.err = p.bad("counts up to " + strconv.Itoa(mostAtoms))
			return 0, true
		}
		p.rest = p.rest[size:]
		given = true
	}
	if !given {
		return 1, false
	}
	if n == 0 && p.err == nil {
		p.err = p.bad("counts from 1")
	}
	return n, true
}

// units reads elements and groups with their counts, and tells whether there
// were any.
func (p *parser) units(depth int) (f Formula, any bool) {
	for p.err == nil {
		var g Formula
		symbol := symbolAt(p.rest)
		switch {
		case symbol != "":
			i := Index(symbol)
			if i < 0 {
				p.err = p.bad("a known element instead of " + input.Quoted(symbol))
				return f, any
			}
			p.rest = p.rest[len(symbol):]
			g.Atoms[i] = 1
		case p.rest != "" && (p.rest[0] == '(' || p.rest[0] == '['):
			if depth == deepest {
				p.err = p.bad("fewer brackets in brackets")
				return f, any
			}
			end := byte(')')
			if p.rest[0] == '[' {
				end = ']'
			}
			p.rest = p.rest[1:]
			var ok bool
			if g, ok = p.units(depth + 1); p.err != nil {
				return f, any
			}
			if !ok || p.rest == "" || p.rest[0] != end {
				p.err = p.bad("a group with its closing bracket")
				return f, any
			}
			p.rest = p.rest[1:]
		default:
			return f, any
		}
		n, _ := p.count()
		if p.err == nil && !f.add(g, n) {
			p.err = p.bad("counts up to " + strconv.Itoa(mostAtoms))
		}
		any = true
	}
	return f, any
}

// symbolAt returns the capital letter and the small letters that a text begins
// with: a symbol, known or not.
func symbolAt(text string) string {
	n := 0
	for n < len(text) && (n == 0 && text[n] >= 'A' && text[n] <= 'Z' || n > 0 && text[n] >= 'a' && text[n] <= 'z') {
		n++
	}
	return text[:n]
}

// MolarMass returns the molar mass of the formula.
//
//	symbol  M = Σ n A
//	source  atomic weights A: IUPAC 2021, abridged (Prohaska et al. 2022)
func (f Formula) MolarMass() units.MolarMass {
	var m units.MolarMass
	for i, n := range f.Atoms {
		m += units.MolarMass(n) * Elements[i].Weight
	}
	return m
}

// Dry returns the formula without its water of crystallisation, which is the
// same for all hydrates of a salt.
func (f Formula) Dry() Formula {
	for i, n := range waterMolecule.Atoms {
		f.Atoms[i] -= f.Water * n
	}
	f.Water = 0
	return f
}
