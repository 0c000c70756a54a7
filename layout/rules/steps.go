package rules

import (
	"fmt"
	"math"
	"slices"

	"markout/layout/set"
)

// steps looks at one flight, once for all its copies. Risers and treads are counted from the foot, from 1. The going of
// a riser is that of the tread it rises from, so that the first riser has none; nor has one that rises from a landing.
func (c *checker) steps(e *set.Element, s *set.Steps) {
	c.rises(e, s)
	c.goings(e, s)
	c.strides(e, s)
	c.pitches(e, s)
	c.uneven(e, s)
	c.unevenGoings(e, s)
	c.flights(e, s)
	c.widths(e, s)
	c.landings(e, s)
	c.nosing(e, s)
	c.taper(e, s)
	c.foot(e, s)
}

// going returns the depth of the tread with index i, counted from 0, unless it is a landing.
func going(s *set.Steps, i int) (float64, bool) {
	if i < 0 || i >= len(s.Goings) || slices.Contains(s.Landings, i+1) {
		return 0, false
	}
	return s.Goings[i], true
}

func (c *checker) rises(e *set.Element, s *set.Steps) {
	bands := c.book.rise
	k, n, of := bands[0].worst(len(s.Rises), c.visible(), func(i int) (float64, bool) { return s.Rises[i], true })
	if k < 0 {
		return
	}
	x := s.Rises[k]
	c.add(e, finding{code: "STEP-RISE", figure: c.length(x), limit: limits(bands, c.length), source: sources(bands),
		at: []string{"rises", "rise", "total", "risers"}},
		"riser %d is %s high: %s%s", k+1, c.length(x), verdict(bands, x, c.visible(), c.length), counted(n, of, "riser"))
}

func (c *checker) goings(e *set.Element, s *set.Steps) {
	bands := c.book.going
	plain := func(g float64) float64 { return g }
	figure := func(i int) (float64, bool) {
		w, ok := c.worstWalk(s, i, bands[0], c.visible(), plain)
		return w.going, ok
	}
	k, n, of := bands[0].worst(len(s.Goings), c.visible(), figure)
	if k < 0 {
		return
	}
	w, _ := c.worstWalk(s, k, bands[0], c.visible(), plain)
	x := w.going
	c.add(e, finding{code: "STEP-GOING", figure: c.length(x), limit: limits(bands, c.length), source: c.walkSources(bands, w),
		at: []string{"goings", "going"}},
		"tread %d has a going of %s%s: %s%s", k+1, c.length(x), w.where, verdict(bands, x, c.visible(), c.length), counted(n, of, "tread"))
}

// walkSources names where a limit of goings is from, and where it is said on which part of a tapered tread it is measured.
func (c *checker) walkSources(bands []band, w walk) string {
	if w.where == "" {
		return sources(bands)
	}
	return cite(sources(bands), sources(c.book.taper.least))
}

// Stride returns 2R + G of a riser and the going of the tread it rises from.
func Stride(rise, going float64) float64 { return 2*rise + going }

// Pitch returns the slope of a riser over the going of the tread it rises from, in degrees.
func Pitch(rise, going float64) float64 { return math.Atan2(rise, going) * 180 / math.Pi }

func (c *checker) strides(e *set.Element, s *set.Steps) {
	bands := c.book.stride
	at := func(i int) (walk, bool) {
		return c.worstWalk(s, i-1, bands[0], c.visible(), func(g float64) float64 { return Stride(s.Rises[i], g) })
	}
	k, n, of := bands[0].worst(len(s.Rises), c.visible(), func(i int) (float64, bool) {
		w, ok := at(i)
		return Stride(s.Rises[i], w.going), ok
	})
	if k < 0 {
		return
	}
	w, _ := at(k)
	x := Stride(s.Rises[k], w.going)
	c.add(e, finding{code: "STEP-2RG", figure: c.length(x), limit: limits(bands, c.length), source: c.walkSources(bands, w),
		at: []string{"rises", "goings", "going", "rise"}},
		"riser %d twice and the tread it rises from%s, 2 × %s + %s, make %s: %s%s", k+1, w.where, c.length(s.Rises[k]), c.length(w.going),
		c.length(x), verdict(bands, x, c.visible(), c.length), counted(n, of, "riser"))
}

func (c *checker) pitches(e *set.Element, s *set.Steps) {
	bands := c.book.pitch
	at := func(i int) (walk, bool) {
		return c.worstWalk(s, i-1, bands[0], visibleDeg, func(g float64) float64 { return Pitch(s.Rises[i], g) })
	}
	k, n, of := bands[0].worst(len(s.Rises), visibleDeg, func(i int) (float64, bool) {
		w, ok := at(i)
		return Pitch(s.Rises[i], w.going), ok
	})
	if k < 0 {
		return
	}
	w, _ := at(k)
	x := Pitch(s.Rises[k], w.going)
	c.add(e, finding{code: "STEP-PITCH", figure: degrees(x), limit: limits(bands, degrees), source: c.walkSources(bands, w),
		at: []string{"goings", "going", "rises", "rise"}},
		"riser %d goes %s up in %s along%s, a pitch of %s: %s%s", k+1, c.length(s.Rises[k]), c.length(w.going), w.where, degrees(x),
		verdict(bands, x, visibleDeg, degrees), counted(n, of, "riser"))
}

// uneven says how far the risers of one flight differ, in all and between neighbours.
func (c *checker) uneven(e *set.Element, s *set.Steps) {
	if len(s.Rises) < 2 {
		return
	}
	at := []string{"rises", "rise", "total", "risers"}
	lo, hi := slices.Min(s.Rises), slices.Max(s.Rises)
	if uneven[0].miss(hi-lo, c.visible()) > 0 {
		c.add(e, finding{code: "STEP-SPREAD", figure: c.length(hi - lo), limit: limits(uneven, c.length), source: sources(uneven), at: at},
			"the risers are uneven: the lowest is %s (riser %d), the highest %s (riser %d), a spread of %s; a foot expects the height it met before",
			c.length(lo), slices.Index(s.Rises, lo)+1, c.length(hi), slices.Index(s.Rises, hi)+1, c.length(hi-lo))
	}
	step := func(i int) (float64, bool) { return math.Abs(s.Rises[i+1] - s.Rises[i]), true }
	k, n, of := uneven[0].worst(len(s.Rises)-1, c.visible(), step)
	if k < 0 {
		return
	}
	d, _ := step(k)
	c.add(e, finding{code: "STEP-NEIGHBOURS", figure: c.length(d), limit: limits(uneven, c.length), source: sources(uneven), at: at},
		"riser %d is %s and riser %d is %s: the largest difference between neighbours is %s%s", k+1, c.length(s.Rises[k]), k+2,
		c.length(s.Rises[k+1]), c.length(d), counted(n, of, "pair"))
}

// unevenGoings compares the treads in the middle of their width.
func (c *checker) unevenGoings(e *set.Element, s *set.Steps) {
	lo, hi := -1, -1
	at := make([]float64, len(s.Goings))
	for k := range s.Goings {
		if _, ok := going(s, k); !ok {
			continue
		}
		at[k] = middle(s, k)
		if lo < 0 || at[k] < at[lo] {
			lo = k
		}
		if hi < 0 || at[k] > at[hi] {
			hi = k
		}
	}
	if lo < 0 || unevenGoing[0].miss(at[hi]-at[lo], c.visible()) == 0 {
		return
	}
	d := at[hi] - at[lo]
	c.add(e, finding{code: "STEP-GOINGS", figure: c.length(d), limit: limits(unevenGoing, c.length), source: sources(unevenGoing),
		at: []string{"goings", "going"}},
		"the goings are uneven: the shortest is %s (tread %d), the longest %s (tread %d), a spread of %s",
		c.length(at[lo]), lo+1, c.length(at[hi]), hi+1, c.length(d))
}

// flights looks at how many risers, and how much height, follow each other without a landing.
func (c *checker) flights(e *set.Element, s *set.Steps) {
	type run struct {
		from, to int
		rise     float64
	}
	runs := []run{{}}
	for k, r := range s.Rises {
		if k > 0 && slices.Contains(s.Landings, k) {
			runs = append(runs, run{from: k})
		}
		last := &runs[len(runs)-1]
		last.to, last.rise = k+1, last.rise+r
	}
	at := []string{"landing", "risers", "rises", "total"}
	longest := slices.MaxFunc(runs, func(a, b run) int { return (a.to - a.from) - (b.to - b.from) })
	if b := []band{c.book.risers}; b[0].miss(float64(longest.to-longest.from), 0) > 0 {
		n := float64(longest.to - longest.from)
		c.add(e, finding{code: "STEP-FLIGHT", figure: risers(n), limit: limits(b, risers), source: sources(b), at: at},
			"risers %d to %d follow each other without a landing, %s: %s", longest.from+1, longest.to, risers(n), verdict(b, n, 0, risers))
	}
	highest := slices.MaxFunc(runs, func(a, b run) int {
		switch {
		case a.rise < b.rise-1e-9:
			return -1
		case a.rise > b.rise+1e-9:
			return 1
		}
		return 0
	})
	if b := []band{c.book.flightRise}; b[0].miss(highest.rise, c.visible()) > 0 {
		c.add(e, finding{code: "STEP-FLIGHT", figure: c.length(highest.rise), limit: limits(b, c.length), source: sources(b), at: at},
			"risers %d to %d climb %s without a landing: %s", highest.from+1, highest.to, c.length(highest.rise),
			verdict(b, highest.rise, c.visible(), c.length))
	}
}

var risers = plainCount("riser")

func (c *checker) widths(e *set.Element, s *set.Steps) {
	if len(s.Widths) == 0 {
		return
	}
	bands := c.book.width
	k, n, of := bands[0].worst(len(s.Widths), c.visible(), func(i int) (float64, bool) { return s.Widths[i], true })
	if k < 0 {
		return
	}
	x := s.Widths[k]
	f := finding{code: "STEP-WIDTH", figure: c.length(x), limit: limits(bands, c.length), source: sources(bands), at: []string{"widths", "width"}}
	if slices.Min(s.Widths) == slices.Max(s.Widths) {
		c.add(e, f, "the flight is %s wide: %s", c.length(x), verdict(bands, x, c.visible(), c.length))
		return
	}
	c.add(e, f, "tread %d is %s wide: %s%s", k+1, c.length(x), verdict(bands, x, c.visible(), c.length), counted(n, of, "tread"))
}

// landings names the shallowest landing against the flight's own width there, where the book says so, and the depths
// that the book gives; a landing on a curve is measured in the middle of its width.
func (c *checker) landings(e *set.Element, s *set.Steps) {
	var least []band
	at, count, most := 0, 0, 0.0
	for _, k := range s.Landings {
		if k < 1 || k > len(s.Goings) {
			continue
		}
		bands := c.book.landing
		if c.book.ownLanding {
			bands = append([]band{{"landings as deep as the flight is wide", s.Width(k - 1), 0, adkLanding}}, bands...)
		}
		if m := bands[0].miss(middle(s, k-1), c.visible()); m > 0 {
			count++
			if m > most {
				at, most, least = k, m, bands
			}
		}
	}
	if count == 0 {
		return
	}
	depth := middle(s, at-1)
	c.add(e, finding{code: "STEP-LANDING", figure: c.length(depth), limit: limits(least, c.length), source: sources(least),
		at: []string{"landing"}},
		"the landing on riser %d is %s deep: %s%s", at, c.length(depth), verdict(least, depth, c.visible(), c.length),
		counted(count, len(s.Landings), "landing"))
}

func (c *checker) nosing(e *set.Element, s *set.Steps) {
	bands := c.book.nosing
	if bands[0].miss(s.Nosing, c.visible()) == 0 {
		return
	}
	c.add(e, finding{code: "STEP-NOSING", figure: c.length(s.Nosing), limit: limits(bands, c.length), source: sources(bands),
		at: []string{"nosing"}},
		"the nosing stands %s over the tread below: %s; a toe catches under it", c.length(s.Nosing),
		verdict(bands, s.Nosing, c.visible(), c.length))
}

// foot says where a flight that holds its top begins in the air, or below what lies there.
func (c *checker) foot(e *set.Element, s *set.Steps) {
	if s.FootOn != "" && math.Abs(s.FootGap) <= c.visible() {
		return
	}
	under := "the floor"
	if s.FootOn != "" && s.FootOn != "floor" {
		under = s.FootOn
	}
	way := "above"
	if s.FootGap < 0 {
		way = "below"
	}
	c.add(e, finding{code: "STEP-FOOT", figure: c.length(math.Abs(s.FootGap)) + " " + way, limit: "the foot stands on the floor or on a top", source: practice,
		at: []string{"rise", "total", "rises", "risers", "meets", "starts"}},
		"the foot stands %s %s %s, so that the first step is not as high as the riser says", c.length(math.Abs(s.FootGap)), way, under)
}

// counted says how many of a flight's parts miss the same limit, where there are several.
func counted(n, of int, what string) string {
	switch {
	case of < 2:
		return ""
	case n == of:
		return fmt.Sprintf("; the same limit is missed by all %d %ss", of, what)
	case n == 1:
		return fmt.Sprintf("; the other %ss keep this limit", what)
	}
	return fmt.Sprintf("; %d of %d %ss miss this limit", n, of, what)
}
