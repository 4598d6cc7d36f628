package control

import (
	"math"
	"time"
)

// mostInMedian is the longest median.
const mostInMedian = 9

// Median is the median of the last N values, which leaves out spikes that are shorter than
// half of N. Values may come at any time.
type Median struct {
	N int // odd, 1 to 9; others count as the next odd number in that range below, at least 1

	values [mostInMedian]float64
	at     [mostInMedian]Clock
	next   int
	filled int
}

// Add takes a value and returns the median of those that are there, and by how much it lags
// behind a steady rise: the age of the value in the middle. What is no number is left out.
func (m *Median) Add(now Clock, x float64) (median float64, delay time.Duration) {
	n := min(max(m.N, 1), mostInMedian)
	n -= 1 - n%2
	if finite(x) {
		m.next = (min(max(m.next, 0), n) + 1) % n
		m.values[m.next], m.at[m.next] = x, now
		m.filled = min(max(m.filled, 0)+1, n)
	}
	if m.filled < 1 {
		return math.NaN(), 0
	}
	have := min(m.filled, n)
	var sorted [mostInMedian]float64
	for i := range have { // the newest first, each put in its place
		v := m.values[((m.next-i)%n+n)%n]
		j := i
		for ; j > 0 && sorted[j-1] > v; j-- {
			sorted[j] = sorted[j-1]
		}
		sorted[j] = v
	}
	median = sorted[have/2]
	if have%2 == 0 {
		median = sorted[have/2-1]/2 + sorted[have/2]/2
	}
	middle := ((m.next-have/2)%n + n) % n
	return median, max(now.Since(m.at[middle]), 0)
}

// Reset forgets all values.
func (m *Median) Reset() { m.next, m.filled = 0, 0 }

// Smooth is an exponential filter. Values may come at any time; between two of them the
// signal is taken as a straight line, so that a steady rise lags by exactly TimeConstant.
//
//	symbol   y = u y₀ + (v - u) x₀ + (1 - v) x, u = exp(-a), v = (1 - u)/a, a = Δt/τ
//	source   the solution of τ dy/dt = x - y for x linear in t
type Smooth struct {
	TimeConstant time.Duration // τ; 0 does not filter
	Gap          time.Duration // after a longer one the filter begins anew; 0 for five time constants

	tick    ticker
	x, y    float64
	running bool
}

// Add takes a value and returns the filtered one, and by how much it lags behind a steady
// rise. What is no number leaves it as it was.
func (s *Smooth) Add(now Clock, x float64) (y float64, delay time.Duration) {
	if !finite(x) {
		if !s.running {
			return math.NaN(), 0
		}
		return s.y, s.TimeConstant
	}
	d := s.tick.forward(now)
	gap := s.Gap
	if gap <= 0 {
		gap = s.TimeConstant * 5
	}
	if !s.running || s.TimeConstant <= 0 || d > gap {
		s.running, s.x, s.y = true, x, x
		return x, 0
	}
	if a := float64(d) / float64(s.TimeConstant); a > 0 {
		u := math.Exp(-a)
		v := -math.Expm1(-a) / a
		s.y = u*s.y + (v-u)*s.x + (1-v)*x
	}
	s.x = x
	return s.y, s.TimeConstant
}

// Reset forgets all values.
func (s *Smooth) Reset() { s.running = false }
