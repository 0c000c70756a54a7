package rules

import (
	"fmt"

	"markout/layout/set"
)

// ramp looks at one ramp, once for all its copies.
func (c *checker) ramp(e *set.Element, r *set.Ramp) {
	if r.Length <= 0 || r.Rise <= 0 {
		return
	}
	slope := r.Rise / r.Length
	if bands := c.book.rampSlope; bands[0].miss(slope, visibleSlope) > 0 {
		c.add(e, finding{code: "RAMP-SLOPE", figure: oneIn(slope), limit: limits(bands, oneIn), source: sources(bands),
			at: []string{"slope", "length", "rise"}},
			"the ramp rises %s in %s, %s: steeper than the %s of %s", c.length(r.Rise), c.length(r.Length), oneIn(slope),
			oneIn(bands[0].Most), bands[0].For)
	}
	c.rampFlight(e, r, slope)
	if most := c.book.rampRail; most > 0 && r.Rise > most+c.visible() {
		b := []band{{"ramps without a handrail", 0, most, adkRamp}}
		c.add(e, finding{code: "RAMP-RAIL", figure: c.length(r.Rise), limit: limits(b, c.length), source: sources(b), at: []string{"rise", "slope"}},
			"the ramp rises %s: %s, so that it wants a handrail", c.length(r.Rise), verdict(b, r.Rise, c.visible(), c.length))
	}
	if bands := c.book.rampWidth; r.Width > 0 && bands[0].miss(r.Width, c.visible()) > 0 {
		c.add(e, finding{code: "RAMP-WIDTH", figure: c.length(r.Width), limit: limits(bands, c.length), source: sources(bands), at: []string{"width"}},
			"the ramp is %s wide: %s", c.length(r.Width), verdict(bands, r.Width, c.visible(), c.length))
	}
}

// rampFlight looks at how long and how high the ramp goes without a level landing.
func (c *checker) rampFlight(e *set.Element, r *set.Ramp, slope float64) {
	most := c.book.rampFlight(slope)
	long := most.Going > 0 && r.Length > most.Going+c.visible()
	high := r.Rise > most.Rise+1
	if !long && !high {
		return
	}
	limit := c.length(most.Rise) + " of rise"
	if most.Going > 0 {
		limit += " and " + c.length(most.Going) + " of length"
	}
	c.add(e, finding{code: "RAMP-FLIGHT", figure: fmt.Sprintf("%s of rise in %s", c.length(r.Rise), c.length(r.Length)),
		limit: "at most " + limit + " without a landing", source: most.Source, at: []string{"length", "slope", "rise"}},
		"the ramp rises %s in %s without a level landing; %s are the most at this slope or the steepest that is given",
		c.length(r.Rise), c.length(r.Length), limit)
}
