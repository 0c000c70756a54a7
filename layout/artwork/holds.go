package artwork

import "markout/layout/geom"

// Holds reports whether a clip lets a place of the picture through.
func (c *Clip) Holds(q geom.Point) bool {
	if c.Clip != nil && !c.Clip.Holds(q) {
		return false
	}
	for i := range c.Outlines {
		if c.Outlines[i].holds(q) {
			return true
		}
	}
	return false
}

func (o *Outline) holds(q geom.Point) bool {
	n := 0
	for _, p := range o.Paths {
		n += p.Winding(q)
	}
	inside := n != 0
	if o.EvenOdd {
		inside = n%2 != 0
	}
	return inside && (o.Clip == nil || o.Clip.Holds(q))
}
