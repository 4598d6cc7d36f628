package main

import (
	"strconv"

	"example.org/wellmixed/units"
)

// sample is one line of the log.
type sample struct {
	second       int64 // since 1970, UTC
	conductivity units.Conductivity
	temperature  units.Temperature
}

// parse reads "1767225600,53.071,25.01" with the end of the line and blanks before it.
func parse(line []byte) (sample, bool) {
	for begins(line, ' ') {
		line = line[1:]
	}
	second, rest, ok := whole(line)
	if !ok || !begins(rest, ',') {
		return sample{}, false
	}
	conductivity, rest, ok := decimal(rest[1:])
	if !ok || !begins(rest, ',') {
		return sample{}, false
	}
	temperature, rest, ok := decimal(rest[1:])
	if begins(rest, '\r') {
		rest = rest[1:]
	}
	if begins(rest, '\n') {
		rest = rest[1:]
	}
	return sample{
		second,
		units.Conductivity(conductivity) * units.MillisiemensPerCentimetre,
		units.Celsius(temperature),
	}, ok && len(rest) == 0
}

func begins(text []byte, b byte) bool { return len(text) > 0 && text[0] == b }

// whole reads the digits at the beginning of a text. Eighteen fit an int64.
func whole(text []byte) (x int64, rest []byte, ok bool) {
	i := 0
	for ; i < len(text) && text[i]-'0' <= 9; i++ {
		x = 10*x + int64(text[i]-'0')
	}
	return x, text[i:], i > 0 && i <= 18
}

// powers are the powers of ten for as many decimals as decimal reads itself; a
// float64 holds each exactly.
var powers = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// decimal reads the decimal number at the beginning of a text. Of up to 15
// digits both the number without its point and the power of ten are exact, so
// one division gives the float64 nearest to what is written, as strconv does,
// which is left the longer ones.
func decimal(text []byte) (x float64, rest []byte, ok bool) {
	i := 0
	if begins(text, '-') || begins(text, '+') {
		i = 1
	}
	start := i
	var number uint64 // wraps around if there are too many digits, and is then not used
	for ; i < len(text) && text[i]-'0' <= 9; i++ {
		number = 10*number + uint64(text[i]-'0')
	}
	digits, decimals := i-start, 0
	if i < len(text) && text[i] == '.' {
		point := i
		for i++; i < len(text) && text[i]-'0' <= 9; i++ {
			number = 10*number + uint64(text[i]-'0')
		}
		decimals = i - point - 1
		digits += decimals
	}
	switch {
	case digits == 0:
		return 0, text, false
	case digits >= len(powers):
		x, err := strconv.ParseFloat(string(text[:i]), 64)
		return x, text[i:], err == nil
	}
	x = float64(number) / powers[decimals]
	if text[0] == '-' {
		x = -x
	}
	return x, text[i:], true
}
