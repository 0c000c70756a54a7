package changes

import (
	"math"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/takeoff"
	"markout/layout/unit"
)

// timber is a piece of a board or a length, or of what nothing says, and how many of it are not spoken for yet.
type timber struct {
	element, name string
	label         string  // both
	of            string  // the board or length, empty where nothing says it
	material      string  // what can be cut out of one another
	kind          string  // what is the same: the material and the sizes or the outline
	length, width float64 // millimetres; of a length width is its section's
	region        *geom.Region
	either        bool // it may lie along the board and across it
	bar           bool
	count         int
	sizes         string // in words
}

func (t *timber) bulk() float64 {
	if t.bar {
		return t.length
	}
	return t.length * t.width
}

// timbers lists what was taken off a set, in its order. A board or length that the earlier set has under the same name and that is
// another one is of another material.
func timbers(q Taken, earlier *set.Set) []timber {
	out := make([]timber, 0, len(q.Pieces)+len(q.Loose))
	add := func(t timber, thick float64, another bool) {
		t.label = t.element + " " + t.name
		var k key
		k.word(strconv.Quote(t.of))
		k.flags(t.bar, another)
		if t.of == "" {
			k.numbers(thick)
		}
		t.material = k.String()
		t.sizes = unit.FormatLength(t.length, q.Set.Units, 0.5)
		if !t.bar {
			t.sizes += " x " + unit.FormatLength(t.width, q.Set.Units, 0.5)
		}
		switch {
		case t.region != nil:
			k.region(*t.region)
		case t.either:
			k.numbers(max(t.length, t.width), min(t.length, t.width))
		default:
			k.numbers(t.length, t.width)
		}
		t.kind = k.String()
		out = append(out, t)
	}
	for i := range q.Pieces {
		p := &q.Pieces[i]
		t := timber{element: p.Element, name: p.Name, length: p.Length, width: p.Width, count: p.Count, region: p.Outline}
		if p.Bar >= 0 {
			l := &q.Set.Lengths[p.Bar]
			t.of, t.bar = l.Name, true
			add(t, 0, anotherLength(earlier, l))
			continue
		}
		b := &q.Set.Boards[p.Board]
		t.of, t.either = b.Name, p.AsIs && p.Turned
		add(t, 0, anotherBoard(earlier, b))
	}
	for i := range q.Loose {
		l := &q.Loose[i]
		add(timber{element: l.Element, name: l.Name, length: l.Length, width: l.Width, count: l.Count}, l.Thickness, false)
	}
	return out
}

// A board of the same name whose thickness is further off than a board that is measured again is another one (common practice,
// no source).
const (
	offLeast = 1.0
	offShare = 0.1
)

func nearly(a, b float64) bool { return math.Abs(a-b) <= max(offLeast, offShare*a) }

func anotherBoard(earlier *set.Set, b *set.Board) bool {
	if earlier == nil {
		return false
	}
	for i := range earlier.Boards {
		if e := &earlier.Boards[i]; e.Name == b.Name {
			return !nearly(e.Thick, b.Thick)
		}
	}
	return false
}

func anotherLength(earlier *set.Set, l *set.Length) bool {
	if earlier == nil {
		return false
	}
	for i := range earlier.Lengths {
		if e := &earlier.Lengths[i]; e.Name == l.Name {
			return !nearly(e.Width, l.Width) || !nearly(e.Depth, l.Depth)
		}
	}
	return false
}

// holds reports whether t can be cut out of w: out of a bar as long, out of a rectangle as large, as the grain lies, or, of the same
// name, out of an outline that t lies within.
func (w *timber) holds(t *timber, own bool) bool {
	if t.bar {
		return w.length >= t.length-geom.Tolerance && math.Abs(w.width-t.width) <= max(offLeast, offShare*t.width)
	}
	if w.region != nil {
		return own && within(t, w)
	}
	fits := func(l, b float64) bool { return w.length >= l-geom.Tolerance && w.width >= b-geom.Tolerance }
	return fits(t.length, t.width) || t.either && fits(t.width, t.length)
}

// sawn is how near straight runs come to curves where it is asked whether one outline lies within another, in millimetres.
const sawn = 0.1

func within(t, w *timber) bool {
	if t.length > w.length+geom.Tolerance || t.width > w.width+geom.Tolerance {
		return false
	}
	region := func(t *timber) geom.Region {
		return (&takeoff.Piece{Outline: t.region, Length: t.length, Width: t.width}).Region()
	}
	in := region(t)
	out, err := geom.Difference([]geom.Region{in}, []geom.Region{region(w)}, sawn)
	if err != nil {
		return false
	}
	beyond := 0.0
	for _, r := range out {
		beyond += r.Area()
	}
	return beyond <= sawn*(in.Bounds().W()+in.Bounds().H())
}

// named says what it is in words: tread 2, 1800 x 309 of "ply 18".
func (t *timber) named() string { return t.name + ", " + t.sizes + t.ofWords() }

func (t *timber) ofWords() string {
	if t.of == "" {
		return ""
	}
	return ` of "` + t.of + `"`
}

func (t *timber) cut(change Change, n int, words string) Cut {
	c := Cut{Element: t.element, Piece: t.name, Change: change, Count: n, Material: t.of, Length: t.length, Width: t.width, Words: words}
	if t.bar {
		c.Width = 0
	}
	return c
}

// recut is n pieces t out of from.
func recut(from, t *timber, n int) Cut {
	c := t.cut(Recut, n, "")
	c.From = from.label
	switch own := from.label == t.label; {
	case own && from.sizes == t.sizes:
		c.Words = t.named() + ": its outline changes, cut out of the old one"
	case own:
		c.Words = t.name + ": " + from.sizes + " → " + t.sizes + t.ofWords() + ", cut out of the old one"
	default:
		c.Words = t.named() + ", cut out of " + from.label + ", " + from.sizes
	}
	return c
}

// anew is what is left of t to be cut; was is what of its name is over, nil for nothing.
func anew(was, t *timber) Cut {
	words := t.named()
	switch {
	case was == nil:
	case was.of != t.of:
		words = t.name + ": " + was.sizes + was.ofWords() + " → " + t.sizes + t.ofWords()
	case was.sizes == t.sizes:
		words += ": its outline changes"
	default:
		words = t.name + ": " + was.sizes + " → " + t.sizes + t.ofWords()
	}
	return t.cut(CutNew, t.count, words)
}
