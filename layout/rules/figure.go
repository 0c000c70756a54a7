package rules

import (
	"markout/layout/figures"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// snaps is the width in millimetres under which a part of a cut-out is likely to snap: common practice, no source.
const snaps = 30

// figure looks at a cut-out: whether it tips, what of it snaps, what holds it, and what was left out of its artwork.
func (c *checker) figure(e *set.Element, f *set.Figure) {
	if f.Box().Empty() {
		return
	}
	alone := figures.HeadOnly(e, f)
	switch {
	case aloft(e):
		if f.Hung {
			c.figureRighted(e)
		}
	case f.Hung:
		c.figureHung(e, f)
	case alone || figures.OnWall(c.set, e):
	default:
		c.figureTips(e, f)
		if f.Ground > geom.Tolerance && !f.Brace {
			c.add(e, finding{code: "FIG-AIR", figure: c.length(f.Ground), limit: "something that holds it", source: practice, at: []string{"ground"}},
				"%s of air under it, and nothing holds it: it is neither braced, nor hung, nor on a wall", c.length(f.Ground))
		}
	}
	c.figureThin(e, f, alone)
	if f.Others > 0 {
		them, are := "bodies", "are"
		if f.Others == 1 {
			them, are = "body", "is"
		}
		c.add(e, finding{code: "FIG-BODIES", figure: plain(f.Others) + " " + them + " left out", limit: "one body is one cut-out", source: practice, at: []string{"artwork"}},
			"%s %s of the artwork %s not part of the largest, and left out: join what belongs to the figure, or take what does not out of the picture",
			plain(f.Others), them, are)
	}
}

// figureTips holds a figure's height against what it stands on: its foot, or its board alone.
func (c *checker) figureTips(e *set.Element, f *set.Figure) {
	reach := f.Ground + f.Height
	fd := finding{code: "FIG-TIP", limit: limits(slenderBand, times), source: practice, at: []string{"brace", "height"}}
	if b := figures.BraceOf(f, c.set.Lengths, c.set.Units.Imperial()); b != nil {
		x := reach / b.Foot
		fd.figure = times(x)
		c.add(e, fd, "%s high on a foot that reaches %s behind it and nothing before it, %s: it tips easily, and forwards more so; weight the foot or fix it to the floor",
			c.length(reach), c.length(b.Foot), times(x))
		return
	}
	if f.Thickness <= geom.Tolerance {
		fd.figure = c.length(reach) + " high, no base given"
		c.add(e, fd, "%s high, without a brace and with no thickness said: it stands on nothing but its edge and tips; brace it or fix it", c.length(reach))
		return
	}
	if x := reach / f.Thickness; x > slender+0.05 {
		fd.figure = times(x)
		c.add(e, fd, "%s high on a board %s thick without a brace, %s as high as it is deep: it tips; brace it or fix it", c.length(reach), c.length(f.Thickness), times(x))
	}
}

// figureThin looks for parts that are likely to snap.
func (c *checker) figureThin(e *set.Element, f *set.Figure, alone bool) {
	areas := f.Bodies
	if alone {
		h, err := figures.HeadOf(f, 0)
		if err != nil || h == nil {
			return
		}
		areas = []geom.Region{h.Region}
	}
	n := 0
	var worst figures.Thin
	for _, r := range areas {
		for _, t := range c.memory.thin.Parts(r, snaps) {
			n++
			if t.Long > worst.Long {
				worst = t
			}
		}
	}
	if n == 0 {
		return
	}
	c.add(e, finding{code: "FIG-THIN", figure: plain(n) + " " + plural("part", n) + " under " + c.length(snaps), limit: "at least " + c.length(snaps), source: practice, at: []string{"artwork", "height"}},
		"%s %s of it thinner than %s, likely to snap; the longest is %s long, about %s wide and lies %s up, %s: back it, thicken the drawing or leave a web",
		plain(n), plural("part", n), c.length(snaps), c.length(worst.Long), c.length(worst.Wide), c.long(worst.At.Y), beside(c.words, worst.At.X))
}

// beside says how far to a side of a figure's middle something lies.
func beside(w words, x float64) string {
	switch {
	case x > 0.5:
		return w.long(x) + " right of its middle"
	case x < -0.5:
		return w.long(-x) + " left of its middle"
	}
	return "at its middle"
}

// figureHung says that what hangs overhead is a rigger's.
func (c *checker) figureHung(e *set.Element, f *set.Figure) {
	lowest := 0.0
	for i, cp := range e.Copies {
		for k, pl := range cp.Places {
			if z := pl.Level() + f.Ground; i+k == 0 || z < lowest {
				lowest = z
			}
		}
	}
	weighs := "not weighed"
	if kg := c.figureWeight(e, f); kg > 0 {
		weighs = "about " + unit.FormatWeight(kg, c.set.Units, 0.1)
	}
	c.add(e, finding{code: "FIG-HUNG", figure: c.length(lowest) + " above the floor, " + weighs, limit: "a competent, licensed rigger decides", source: "the file's own figures", at: []string{"hung"}},
		"hung upside down, its lowest point %s above the floor, %s: how it is fixed and with what second line is for a competent, licensed rigger, who decides", c.length(lowest), weighs)
}

// figureRighted says that what is dressed upside down in a room that is turned over comes to hang head up.
func (c *checker) figureRighted(e *set.Element) {
	room := e.Copies[0].Places[0].Over.Room
	c.add(e, finding{code: "FIG-HUNG", figure: "head up", limit: "as it is meant", source: "the file's own figures", at: []string{"hung"}},
		"it is hung upside down in %s, which is turned over with all that is in it, so that it comes to be head up: leave `hung` out where its head is to be down", room)
}

// figureWeight is what a figure's board weighs, 0 where the file does not say.
func (c *checker) figureWeight(e *set.Element, f *set.Figure) float64 {
	for _, b := range c.set.Boards {
		if b.Name != e.Material {
			continue
		}
		area := 0.0
		for _, r := range f.Bodies {
			area += r.Area()
		}
		return set.Weigh(area*b.Thick, b.Density)
	}
	return 0
}
