package changes

import (
	"math"
	"path"
	"unicode"
	"unicode/utf8"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

func figureFacts(s *set.Figure) []fact {
	return []fact{sizeFact("height", s.Height), maybeFact("ground", s.Ground), maybeFact("thickness", s.Thickness),
		maybeFact("margin", s.Margin), besides(maybeFact("eye", s.Eye)), besides(maybeFact("head shown", s.Head)), wordFact("facing", s.Facing, "not said"),
		flagFact("flipped", s.Flipped), flagFact("hung upside down", s.Hung), flagFact("drawn on both sides", s.BothSides),
		flagFact("braced", s.Brace), {label: "traced within pixels", how: asNumber, x: s.Tolerance, none: "none", aside: true}}
}

func clothFacts(s *set.Cloth) []fact {
	return []fact{sizeFact("width", s.Width), sizeFact("height", s.Height), wordFact("fit", s.Fit, "not said"),
		maybeFact("allowed at the top", s.Allow.Top), maybeFact("allowed at the bottom", s.Allow.Bottom),
		maybeFact("allowed at the left", s.Allow.Left), maybeFact("allowed at the right", s.Allow.Right),
		besides(maybeFact("grid", s.Grid)), besides(maybeFact("pounce", s.Pounce))}
}

// picture says that another picture is drawn; one that only lies in a file of another name is the same.
func (c *comparison) picture(p, q *set.Artwork) bool {
	switch {
	case p == nil || q == nil:
		if p != q {
			c.say("another picture")
		}
		return p != q
	case p.SHA256 == q.SHA256:
		return false
	}
	was, is := path.Base(p.File), path.Base(q.File) // the folder that a version was opened from says nothing
	if was != is {
		c.say("another picture: " + arrow(was, is))
	} else {
		c.say("another picture in " + is)
	}
	return true
}

// figure says what else changed of a figure: its picture, how it is cut, what it looks at.
func (c *comparison) figure(p, q *set.Figure) {
	before := len(c.own)
	other := c.picture(p.Art, q.Art)
	c.size = c.size || other
	if other {
		c.say(fromTo("width", c.length(p.Width), c.length(q.Width), ""))
	}
	if before == 0 && !other && !sameRegions(p.Bodies, q.Bodies) {
		c.size = true
		c.say(c.redrawn("outline", areaOf(p.Bodies), areaOf(q.Bodies), boxOf(p.Bodies), boxOf(q.Bodies)))
	}
	switch a, b := p.LookAt, q.LookAt; {
	case a == nil && b != nil:
		c.say("now looks at " + c.looked(b))
	case a != nil && b == nil:
		c.say("no longer looks at " + c.looked(a))
	case a != nil && !near(a.At, b.At):
		if p, q := c.looked(a), c.looked(b); p != q {
			c.say("looks at " + arrow(p, q))
		} else {
			by := geom.Vec{X: b.At.X - a.At.X, Y: b.At.Y - a.At.Y, Z: b.At.Z - a.At.Z}
			c.say(passage{by: by}.words(c.wording, "what it looks at"))
		}
	}
}

// looked says what is looked at: by its name, or a bare place by the letters of its sides.
func (w wording) looked(l *set.Look) string { return w.placeNamed(l.Words, l.At.Plan()) }

// placeNamed says a place as it was named, or where it was typed as figures with the letters of its sides.
func (w wording) placeNamed(words string, at geom.Point) string {
	if first, _ := utf8.DecodeRuneInString(words); unicode.IsLetter(first) || first == '_' {
		return words
	}
	return placeWords(w.set, at.X, at.Y)
}

func sameRegions(a, b []geom.Region) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !sameLoop(a[i].Outer, b[i].Outer) || len(a[i].Holes) != len(b[i].Holes) {
			return false
		}
		for j := range a[i].Holes {
			if !sameLoop(a[i].Holes[j], b[i].Holes[j]) {
				return false
			}
		}
	}
	return true
}

func areaOf(list []geom.Region) float64 {
	sum := 0.0
	for _, r := range list {
		sum += math.Abs(r.Area())
	}
	return sum
}

func boxOf(list []geom.Region) geom.Rect {
	box := geom.EmptyRect()
	for _, r := range list {
		box = box.Union(r.Bounds())
	}
	return box
}

// cloth says what else changed of a cloth: its picture, the part of it that is shown, its closer grids.
func (c *comparison) cloth(p, q *set.Cloth) {
	other := c.picture(p.Art, q.Art)
	if !other && !sameRect(p.Crop, q.Crop) {
		c.say("crop " + arrow(c.cropWords(p), c.cropWords(q)))
	}
	grids := func(list []set.FineGrid) []string {
		var out []string
		for _, g := range list {
			out = append(out, c.length(g.Step)+" over "+c.length(g.Over.W())+" x "+c.length(g.Over.H()))
		}
		return out
	}
	if !sameGrids(p.Fine, q.Fine) {
		a, b := commas(grids(p.Fine)), commas(grids(q.Fine))
		if a == b {
			c.say("fine grid moves")
		} else {
			c.say(fromTo("fine grid", a, b, "none"))
		}
	}
	if len(c.own) == 0 && !other && (!sameMatrix(p, q) || !sameRect(p.Shown, q.Shown)) {
		c.say("the picture lies otherwise on it")
	}
}

// cropWords says a part of the artwork in its own measure: millimetres of what is drawn, pixels of what is made of them.
func (c *comparison) cropWords(s *set.Cloth) string {
	n := func(x float64) string { return unit.FormatNumber(math.Abs(x), 0.1) }
	words := n(s.Crop.W()) + " x " + n(s.Crop.H()) + " from " + n(s.Crop.Min.X) + "," + n(s.Crop.Min.Y)
	if s.Art != nil && !s.Art.Drawn {
		return words + " px"
	}
	return words + " mm"
}

func sameRect(a, b geom.Rect) bool { return a.Min.Near(b.Min) && a.Max.Near(b.Max) }

func sameGrids(a, b []set.FineGrid) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !same(a[i].Step, b[i].Step) || !sameRect(a[i].Over, b[i].Over) {
			return false
		}
	}
	return true
}

// sameMatrix reports whether the pictures of two cloths lie alike on their faces.
func sameMatrix(p, q *set.Cloth) bool {
	m, n := p.Frame, q.Frame
	for _, d := range [4]float64{m.A - n.A, m.B - n.B, m.C - n.C, m.D - n.D} {
		if math.Abs(d) > 1e-9 {
			return false
		}
	}
	return same(m.E, n.E) && same(m.F, n.F)
}
