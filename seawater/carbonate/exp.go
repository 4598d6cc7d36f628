package carbonate

import "math"

// exponentials replaces each number of the list by its exponential, to within
// 3e-16.
//
// The numbers of a list do not wait for each other, so a processor works on
// several at a time: the seventeen constants of a water take less than half
// the time of seventeen calls of math.Exp, which was half of all the time of At.
//
//	e^x = 2^(n/32) e^r, n the whole number nearest to 32 x/ln 2, |r| <= ln 2/64
func exponentials(list []float64) {
	for i, x := range list {
		if !(x > -700 && x < 700) {
			list[i] = math.Exp(x)
			continue
		}
		k := x*(32*math.Log2E) + shift // n stands in the last bits
		n := int64(math.Float64bits(k)<<13) >> 13
		k -= shift
		r := x - k*(ln2High/32) - k*(ln2Low/32)
		r2 := r * r
		p := r + r2*(1./2+r*(1./6)) + r2*r2*(1./24+r*(1./120)+r2*(1./720)) // e^r - 1, to r^7/5040
		y := rootsOfTwo[n&31]
		list[i] = (y + y*p) * math.Float64frombits(uint64(1023+n>>5)<<52)
	}
}

const (
	// shift is so large that adding it to a number leaves no bits behind the
	// point.
	shift = 3 << 51
	// ln 2 in two parts, the first short enough for k ln2High to be exact.
	ln2High = 6.93147180369123816490e-01
	ln2Low  = 1.90821492927058770002e-10
)

// rootsOfTwo is 2^(j/32) for j from 0 to 31, to the last bit.
var rootsOfTwo = [32]float64{
	1.0, 1.0218971486541166, 1.0442737824274138, 1.0671404006768237,
	1.0905077326652577, 1.1143867425958924, 1.1387886347566916, 1.1637248587775775,
	1.189207115002721, 1.215247359980469, 1.241857812073484, 1.2690509571917332,
	1.2968395546510096, 1.3252366431597413, 1.3542555469368927, 1.383909881963832,
	1.4142135623730951, 1.4451808069770467, 1.4768261459394993, 1.5091644275934228,
	1.5422108254079407, 1.5759808451078865, 1.6104903319492543, 1.645755478153965,
	1.681792830507429, 1.718619298122478, 1.7562521603732995, 1.7947090750031072,
	1.8340080864093424, 1.8741676341103, 1.9152065613971474, 1.9571441241754002,
}
