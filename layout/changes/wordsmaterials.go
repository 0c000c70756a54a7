package changes

import (
	"math"
	"strconv"

	"markout/layout/set"
)

func (w wording) boards(old *set.Set, n *names) (now, gone []Element) {
	return listing[set.Board]{
		name: func(b set.Board) string { return "board " + b.Name },
		is:   func(b set.Board) string { return "board " + lookUp(n.material, b.Name) },
		words: func(b set.Board) string {
			return w.length(b.Length) + " x " + w.length(b.Width) + ", thick " + w.length(b.Thick)
		},
		from: w.boardWords,
	}.compare(old.Boards, w.set.Boards)
}

func (w wording) boardWords(a, b set.Board) []string {
	return some(
		w.sizeFrom("", []float64{a.Length, a.Width}, []float64{b.Length, b.Width}),
		w.lengthFrom("thick", a.Thick, b.Thick, ""),
		densityFrom(a.Density, b.Density),
		w.lengthFrom("kerf", a.Kerf, b.Kerf, "none"),
		fromTo("grain", string(a.Grain), string(b.Grain), "free"),
		countFrom("count", a.Count, b.Count, "any"),
	)
}

func (w wording) lengths(old *set.Set, n *names) (now, gone []Element) {
	return listing[set.Length]{
		name: func(l set.Length) string { return "length " + l.Name },
		is:   func(l set.Length) string { return "length " + lookUp(n.material, l.Name) },
		words: func(l set.Length) string {
			return w.length(l.Width) + " x " + w.length(l.Depth) + ", long " + w.length(l.Long)
		},
		from: w.lengthWords,
	}.compare(old.Lengths, w.set.Lengths)
}

func (w wording) lengthWords(a, b set.Length) []string {
	return some(
		w.sizeFrom("", []float64{a.Width, a.Depth}, []float64{b.Width, b.Depth}),
		w.lengthFrom("long", a.Long, b.Long, ""),
		densityFrom(a.Density, b.Density),
		w.lengthFrom("kerf", a.Kerf, b.Kerf, "none"),
		countFrom("count", a.Count, b.Count, "any"),
	)
}

// stock compares boxes by their sizes, which are all that tells them apart.
func (w wording) stock(old *set.Set) (now, gone []Element) {
	name := func(b set.StockBox) string {
		return "stock box " + w.length(b.Length) + " x " + w.length(b.Width) + " x " + w.length(b.Height)
	}
	count := func(b set.StockBox) string {
		if b.Count == 0 {
			return "any number"
		}
		return strconv.Itoa(b.Count)
	}
	return listing[set.StockBox]{
		name: name, is: name, words: count,
		from: func(a, b set.StockBox) []string {
			return some(
				w.sizeFrom("size", []float64{a.Length, a.Width, a.Height}, []float64{b.Length, b.Width, b.Height}),
				countFrom("count", a.Count, b.Count, "any"))
		},
	}.compare(old.Stock, w.set.Stock)
}

func (w wording) parts(old *set.Set, n *names) (now, gone []Element) {
	name := func(p set.Part) string { return "part " + p.Name }
	return listing[set.Part]{
		name: name, is: name,
		words: func(p set.Part) string {
			size := w.length(p.Length)
			if p.Width > 0 {
				size += " x " + w.length(p.Width)
			}
			return strconv.Itoa(p.Count) + " of " + p.Of + ", " + size
		},
		from: func(a, b set.Part) []string {
			return some(
				fromTo("of", lookUp(n.material, a.Of), b.Of, ""),
				w.lengthFrom("length", a.Length, b.Length, ""),
				w.lengthFrom("width", a.Width, b.Width, "none"),
				countFrom("count", a.Count, b.Count, "none"),
				fromTo("grain", string(a.Grain), string(b.Grain), "free"),
			)
		},
	}.compare(old.Parts, w.set.Parts)
}

// sizeFrom says sizes that stand together: 2440 x 1220 → 2400 x 1220.
func (w wording) sizeFrom(label string, a, b []float64) string {
	p, q, other := "", "", false
	for i := range a {
		x, y := w.apartOr(a[i], b[i])
		if i > 0 {
			p, q = p+" x ", q+" x "
		}
		p, q = p+x, q+y
		other = other || !same(a[i], b[i])
	}
	if !other {
		return ""
	}
	return fromTo(label, p, q, "")
}

func densityFrom(a, b float64) string {
	if math.Abs(a-b) <= leastWeight {
		return ""
	}
	p, q := density(a), density(b)
	if p == q {
		x, y := numbersApart(a, b)
		p, q = x+" kg/m³", y+" kg/m³"
	}
	return fromTo("density", p, q, "not said")
}
