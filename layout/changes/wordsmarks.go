package changes

import (
	"math"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// marked says which points or lines of a mark are others. One that only lies elsewhere is moved, which is not said here.
func (c *comparison) marked(p, q *set.Mark) {
	if _, ok := slid(p, q); ok {
		return
	}
	c.size = true
	if len(p.Points) != len(q.Points) {
		c.say(countFrom("points", len(p.Points), len(q.Points), "none"))
	} else {
		for i := range q.Points {
			c.say(c.inside("point "+strconv.Itoa(i+1), p.Points[i], q.Points[i]))
		}
	}
	switch {
	case len(p.Paths) != len(q.Paths):
		c.say(countFrom("lines", len(p.Paths), len(q.Paths), "none"))
	case len(p.Paths) > 0:
		for i := range q.Paths {
			c.say(c.lineFrom("line", p.Paths[i], q.Paths[i]))
		}
	}
}

// lineFrom says that a line is another one, and how long it was and is.
func (w wording) lineFrom(name string, a, b *geom.Path) string {
	if sameLine(a, b) {
		return ""
	}
	if a == nil || b == nil {
		return name + " redrawn"
	}
	p, q := w.length(a.Length()), w.length(b.Length())
	if p == q {
		return name + " redrawn"
	}
	return name + " redrawn, length " + arrow(p, q)
}

// walked says where someone goes otherwise.
func (c *comparison) walked(p, q *set.Walk) {
	if _, ok := slid(p, q); !ok {
		c.say(c.lineFrom("way", p.Path, q.Path))
	}
	var was, is []string
	for _, f := range p.Over {
		was = append(was, c.foothold(f, c.names.now(f.Element)))
	}
	for _, f := range q.Over {
		is = append(is, c.foothold(f, f.Element))
	}
	c.say(fromTo("over", commas(was), commas(is), "nothing named"))
}

func commas(list []string) string { return joinWords(list...) }

// foothold names one piece that is walked over, with its copy's number where it is repeated in the new set.
func (c *comparison) foothold(f set.Foothold, name string) string {
	if e := c.set.Find(name); e != nil && !e.Repeated() && f.Copy == 1 {
		return name
	}
	return name + "." + strconv.Itoa(f.Copy)
}

// fixed says what changed of the fixings of a piece and of its tag.
func (c *comparison) fixed(p, q *set.Dressing) {
	n, m := fixingCount(p), fixingCount(q)
	if n != m {
		c.say(countFrom("fixings", n, m, "none"))
	} else if len(p.Fixings) != len(q.Fixings) {
		c.say(flagFrom("fixed at places that are given", len(p.Fixings) > 0, len(q.Fixings) > 0))
	} else {
		for i := range q.Fixings {
			if d := q.Fixings[i].Sub(p.Fixings[i]); d.Len() > geom.Tolerance {
				c.say("fixing " + strconv.Itoa(i+1) + " moves " + c.closely(d.Len()) + " on the piece")
			}
		}
	}
	c.say(c.weightFrom(p, q))
	c.say(countFrom("tag", p.Tag, q.Tag, "none"))
}

// weightFrom says what is known otherwise of a piece's weight: weight 38 kg → about 40 kg.
func (w wording) weightFrom(p, q *set.Dressing) string {
	if p.WeightIs == q.WeightIs && (p.Lot > 0) == (q.Lot > 0) && math.Abs(p.Weight-q.Weight) <= leastWeight && math.Abs(p.Lot-q.Lot) <= leastWeight {
		return ""
	}
	word := func(d *set.Dressing, step float64) string {
		kg, all := d.Weight, ""
		if d.Lot > 0 {
			kg, all = d.Lot, "all "
		}
		switch d.WeightIs {
		case set.Unknown:
			return ""
		case set.About:
			all += "about "
		}
		return all + unit.FormatWeight(kg, w.set.Units, step)
	}
	for step := 0.1; step > 1e-6; step /= 10 {
		if a, b := word(p, step), word(q, step); a != b {
			return fromTo("weight", a, b, "not known")
		}
	}
	return "weighed again"
}

func fixingCount(d *set.Dressing) int { return max(len(d.Fixings), d.Count) }
