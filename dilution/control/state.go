package control

import (
	"math"
	"time"
)

// What has to outlast a power cut is written into a fixed number of bytes: a version, the
// kind of part, numbers with the least byte first, and a check word (CRC-32 of IEEE
// 802.3). A state that does not pass is refused whole, and the part stays as it was made:
// safe.
const stateVersion = 2

// kinds of parts, so that the state of one is not taken for that of another.
const (
	stateOfTopOff byte = iota + 1
	stateOfDoser
	stateOfThermostat
	stateOfSignal
	stateOfExchange
	stateOfBalance
)

// Sizes of the states in bytes.
const (
	alarmsState     = 1 + 8 + mostAlarms*(1+1+8+8+8)
	dayState        = 25*8 + 1 + 8
	frame           = 2 + 4
	identity        = 4
	TopOffState     = frame + identity + alarmsState + dayState + 2 + 5*8 + 1 + 8 + 1 + 3*8 // of a TopOff
	DoserState      = frame + identity + alarmsState + dayState + 4*8 + 1 + 1 + 3*8         // of a Doser
	ThermostatState = frame + identity + alarmsState + 8                                    // of a Thermostat
	SignalState     = frame + identity + 8 + 2 + 8                                          // of a Signal
	ExchangeState   = frame + identity + alarmsState + 1 + 3*8                              // of an Exchange
	BalanceState    = frame + 1 + 3*8                                                       // of a SaltBalance
)

// coder writes numbers into bytes or reads them: one list of fields serves both ways.
type coder struct {
	b       []byte
	at      int
	reading bool
	failed  bool
}

func (c *coder) byte(x *byte) {
	if c.at >= len(c.b) {
		c.failed = true
		return
	}
	if c.reading {
		*x = c.b[c.at]
	} else {
		c.b[c.at] = *x
	}
	c.at++
}

func (c *coder) word(x *uint64, bytes int) {
	var v uint64
	for i := range bytes {
		part := byte(*x >> (8 * i))
		c.byte(&part)
		v |= uint64(part) << (8 * i)
	}
	if c.reading {
		*x = v
	}
}

func (c *coder) float(x *float64) {
	v := math.Float64bits(*x)
	c.word(&v, 8)
	*x = math.Float64frombits(v)
}

// identity is a word of the settings that a state belongs to: of another part, or of one
// whose pump was measured anew, it is refused.
func (c *coder) identity(settings ...float64) {
	var b [8]byte
	sum := uint32(0)
	for _, x := range settings {
		v := math.Float64bits(x)
		for i := range b {
			b[i] = byte(v >> (8 * i))
		}
		sum = checkWord(b[:]) ^ (sum<<1 | sum>>31)
	}
	want, got := uint64(sum), uint64(sum)
	c.word(&got, identity)
	c.failed = c.failed || got != want
}

// amount is a float that is finite and not negative.
func (c *coder) amount(x *float64) {
	c.float(x)
	if !(*x >= 0) || !finite(*x) {
		c.failed = true
	}
}

// duration is one that is not negative.
func (c *coder) duration(x *time.Duration) {
	v := uint64(*x)
	c.word(&v, 8)
	*x = time.Duration(v)
	if *x < 0 {
		c.failed = true
	}
}

func (c *coder) flag(x *bool) {
	v := byte(0)
	if *x {
		v = 1
	}
	c.byte(&v)
	*x = v == 1
	if v > 1 {
		c.failed = true
	}
}

func (c *coder) alarms(a *Alarms) {
	c.byte(&a.n)
	c.duration(&a.running)
	if a.n > mostAlarms {
		c.failed = true
	}
	for i := range a.list {
		x := &a.list[i]
		c.byte((*byte)(&x.Code))
		flags := byte(0)
		if x.Active {
			flags |= 1
		}
		if x.Latched {
			flags |= 2
		}
		c.byte(&flags)
		x.Active, x.Latched = flags&1 != 0, flags&2 != 0
		c.duration(&x.Since)
		c.float(&x.Value)
		c.float(&x.Limit)
		if x.Code >= codes || flags > 3 || x.Code == NoAlarm && i < int(a.n) {
			c.failed = true
		}
	}
}

func (c *coder) day(d *dayTotal) {
	for i := range d.hours {
		c.amount(&d.hours[i])
	}
	c.byte(&d.at)
	c.duration(&d.into)
	if int(d.at) >= len(d.hours) || d.into >= time.Hour {
		c.failed = true
	}
}

// open begins to read: version, kind and check word have to be right.
func open(b []byte, kind byte) coder {
	n := len(b) - 4
	c := coder{b: b[:n], reading: true}
	var version, which byte
	c.byte(&version)
	c.byte(&which)
	sum := uint32(b[n]) | uint32(b[n+1])<<8 | uint32(b[n+2])<<16 | uint32(b[n+3])<<24
	c.failed = c.failed || version != stateVersion || which != kind || checkWord(b[:n]) != sum
	return c
}

// create begins to write.
func create(b []byte, kind byte) coder {
	c := coder{b: b[:len(b)-4]}
	version := byte(stateVersion)
	c.byte(&version)
	c.byte(&kind)
	return c
}

// seal ends what was written with its check word.
func (c *coder) seal(b []byte) {
	n := len(b) - 4
	for ; c.at < n; c.at++ {
		c.b[c.at] = 0
	}
	sum := checkWord(b[:n])
	b[n], b[n+1], b[n+2], b[n+3] = byte(sum), byte(sum>>8), byte(sum>>16), byte(sum>>24)
}

// checkWord is the CRC-32 of IEEE 802.3, polynomial 0xEDB88320 reflected, four bits at a
// time.
func checkWord(b []byte) uint32 {
	crc := ^uint32(0)
	for _, x := range b {
		crc ^= uint32(x)
		crc = crc>>4 ^ crcTable[crc&15]
		crc = crc>>4 ^ crcTable[crc&15]
	}
	return ^crc
}

// crcTable holds what four bits of zeros make of each four bits.
var crcTable = [16]uint32{
	0x00000000, 0x1DB71064, 0x3B6E20C8, 0x26D930AC, 0x76DC4190, 0x6B6B51F4, 0x4DB26158, 0x5005713C,
	0xEDB88320, 0xF00F9344, 0xD6D6A3E8, 0xCB61B38C, 0x9B64C2B0, 0x86D3D2D4, 0xA00AE278, 0xBDBDF21C,
}

// Save writes what has to outlast a power cut.
func (t *TopOff) Save(b *[TopOffState]byte) {
	c := create(b[:], stateOfTopOff)
	t.fields(&c)
	c.seal(b[:])
}

// Restore takes a state that Save wrote and tells whether it was one. A pump that ran when
// it was written is charged with the longest run, because nobody knows how long it went on.
// A state that is refused changes nothing.
func (t *TopOff) Restore(b *[TopOffState]byte) bool {
	next := *t
	c := open(b[:], stateOfTopOff)
	next.fields(&c)
	if c.failed || !t.sane || next.learned.days > mostDays || next.learned.into > day {
		return false
	}
	next.alarms.unsaved, next.alarms.acked = next.pumping, false
	if next.pumping {
		rest := max(t.s.MaxRun-next.ran, 0)
		next.pumping = false
		next.today.add(t.litres(rest))
		next.left = max(next.left-t.litres(rest), 0)
		next.unseen = min(next.unseen+t.s.Watchdog, 366*day)
		next.learned.spoilt = true
	}
	next.held, next.calm, next.tick = false, 0, ticker{}
	*t = next
	return true
}

func (t *TopOff) fields(c *coder) {
	c.identity(t.s.Tank.Litres(), t.s.Area.SquareMetres(), t.s.Flow.LitresPerHour())
	c.alarms(&t.alarms)
	c.day(&t.today)
	days := uint64(t.learned.days)
	c.word(&days, 2)
	t.learned.days = uint16(days)
	c.amount(&t.learned.mean)
	c.amount(&t.learned.variance)
	c.amount(&t.learned.pumped)
	c.duration(&t.learned.into)
	c.duration(&t.learned.paused)
	c.flag(&t.learned.spoilt)
	c.float(&t.left)
	c.flag(&t.pumping)
	c.duration(&t.ran)
	c.duration(&t.unseen)
	c.float(&t.from)
	if !finite(t.from) {
		t.from = math.NaN()
	}
	if !(t.left >= 0) || !finite(t.left) {
		t.left = math.NaN()
	}
}

// Save writes the balance, which nothing else can find again. Write it with every Add and
// Draw.
func (b *SaltBalance) Save(to *[BalanceState]byte) {
	c := create(to[:], stateOfBalance)
	b.fields(&c)
	c.seal(to[:])
}

// Restore takes a state that Save wrote and tells whether it was one. A state that is
// refused changes nothing: a balance that has not begun judges nothing.
func (b *SaltBalance) Restore(from *[BalanceState]byte) bool {
	next := *b
	c := open(from[:], stateOfBalance)
	next.fields(&c)
	if c.failed {
		return false
	}
	*b = next
	return true
}

func (b *SaltBalance) fields(c *coder) {
	c.flag(&b.begun)
	c.float(&b.salt)
	c.float(&b.litres)
	c.amount(&b.days)
}
