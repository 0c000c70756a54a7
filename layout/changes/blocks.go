package changes

import (
	"math"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// Change says what is done to a thing.
type Change string

const (
	Moved    Change = "move"
	Turned   Change = "turn" // on its place
	CutDown  Change = "cut down"
	Built    Change = "build"
	TakeAway Change = "take away"
)

// Block is a loose block of steps, a tread's, that something is done to.
type Block struct {
	Element  string // with the copy's number: of what is taken away in the old set, otherwise in the new one
	Number   int    // of the block from the foot up, from 1
	Change   Change
	Words    string     // block 6 moves 120 stage left
	From, To geom.Point // middles on the plan, each in its own set's axes; From of what is built and To of what is taken away are 0,0
}

// Blocks returns what is done to loose blocks of steps, built of boards or of stock: those of the new set in their order, then
// those of the old one that serve nowhere. A block serves wherever one of its size is wanted, turned over on the plan or not; as
// few as can be are built, then as few as can be cut down, then as few as can be are moved, by the least way in all, and of equals the
// first in the file serves first. A block is cut down to a lower one of the same plan. Blocks in rooms overhead are pieces hung.
func Blocks(old, new *set.Set) []Block {
	was, is := blocksOf(old), blocksOf(new)
	x := newExchange(was, is)
	became := make([]Block, len(is))
	whole := func(t *thing) string { return t.kind + heightKey(t) }
	for _, p := range x.serve(whole, nil) {
		a, b := &was[p.old], &is[p.new]
		change := Moved
		switch {
		case a.stays(b):
			continue
		case a.apart(b) <= geom.Tolerance:
			change = Turned
		}
		became[p.new] = block(change, a, b, blockName(b)+" "+moveWords(new, a, b)+wasWords(a, b))
	}
	cut := func(a, b *thing) bool { return a.size[2] > b.size[2] }
	for _, p := range x.serve(func(t *thing) string { return t.kind }, cut) {
		a, b := &was[p.old], &is[p.new]
		words := blockName(b) + ": " + sizeWords(new, a, b)
		if move := moveWords(new, a, b); move != "" {
			words += ", " + move
		}
		became[p.new] = block(CutDown, a, b, words+wasWords(a, b))
	}
	for j := range is {
		if x.doneNew[j] {
			continue
		}
		b := &is[j]
		words := blockName(b) + ": build " + boxWords(new, b)
		for i := range was {
			if a := &was[i]; !x.doneOld[i] && a.element == b.element && a.number == b.number {
				words = blockName(b) + ": " + sizeWords(new, a, b)
			}
		}
		became[j] = block(Built, nil, b, words)
	}
	var out []Block
	for _, b := range became {
		if b.Change != "" {
			out = append(out, b)
		}
	}
	for i := range was {
		if a := &was[i]; !x.doneOld[i] {
			out = append(out, Block{Element: a.element, Number: a.number, Change: TakeAway, From: a.at.Plan(),
				Words: blockName(a) + ": take away " + boxWords(new, a)})
		}
	}
	return out
}

func block(c Change, from, to *thing, words string) Block {
	b := Block{Element: to.element, Number: to.number, Change: c, Words: words, To: to.at.Plan()}
	if from != nil {
		b.From = from.at.Plan()
	}
	return b
}

// blocksOf lists the loose blocks of a set in its order, those of all copies where they stand first.
func blocksOf(s *set.Set) []thing {
	var out []thing
	for _, e := range s.Elements {
		st, ok := e.Shape.(*set.Steps)
		if !ok || !st.Blocks {
			continue
		}
		for _, c := range e.Copies {
			pl := c.Places[0]
			if pl.Over != nil {
				continue
			}
			for k, t := range st.Treads() {
				b := thing{element: e.CopyName(c), number: k + 1}
				if st.Line == nil {
					b.box(t, pl.Frame)
				} else {
					b.tapered(st, k, pl.Frame)
				}
				out = append(out, b)
			}
		}
	}
	return out
}

// box describes a block that is a box: the longer side of its plan first, so that one that is turned is of the same kind.
func (b *thing) box(t set.Tread, f geom.Frame) {
	depth := t.Y1 - t.Y0
	b.at = f.Apply(geom.Vec{X: t.Mid, Y: (t.Y0 + t.Y1) / 2})
	b.turn, b.sides = f.TurnDeg(), 2
	b.size = [3]float64{t.Width, depth, t.Top}
	var k key
	k.word("box")
	k.numbers(max(t.Width, depth), min(t.Width, depth))
	b.kind = k.String()
	if depth > t.Width {
		b.turn += 90
	}
	if math.Abs(depth-t.Width) <= geom.Tolerance {
		b.sides = 4
	}
}

// tapered describes a block along a line, about the middle of its front edge.
func (b *thing) tapered(s *set.Steps, k int, f geom.Frame) {
	t := s.Treads()[k]
	outline := s.TreadOutline(k)
	own := geom.Move(geom.Point{}, 90-s.Ahead(t.Y0).Angle()*180/math.Pi) // its front edge along x
	left, right := s.Sides(k)
	front := s.Way((left+right)/2, t.Y0)
	middle := outline.Outer.Centroid()
	b.at = f.Apply(geom.Vec{X: middle.X, Y: middle.Y})
	b.turn, b.sides = f.TurnDeg()+s.Ahead(t.Y0).Angle()*180/math.Pi-90, 1
	box := outline.Outer.Transform(own).Bounds()
	b.size = [3]float64{box.W(), box.H(), t.Top}
	own.T = own.Vector(front).Mul(-1)
	var key key
	key.word("tapered")
	key.path(outline.Outer.Transform(own))
	b.kind = key.String()
}

func heightKey(t *thing) string {
	var k key
	k.numbers(t.size[2])
	return k.String()
}

func blockName(b *thing) string { return "block " + strconv.Itoa(b.number) }

// wasWords says which block it was, where it goes by another name now.
func wasWords(a, b *thing) string {
	switch {
	case a.element != b.element:
		return " (it was " + a.element + " " + blockName(a) + ")"
	case a.number != b.number:
		return " (it was " + blockName(a) + ")"
	}
	return ""
}

// boxWords gives a block's sizes, across, deep and high: 1250 x 340 x 645.
func boxWords(s *set.Set, t *thing) string {
	w := func(x float64) string { return unit.FormatLength(x, s.Units, 0.5) }
	return w(t.size[0]) + " x " + w(t.size[1]) + " x " + w(t.size[2])
}

// sizeWords gives the sizes that a block had and those that it gets: 1250 x 340 x 645 → 630 high.
func sizeWords(s *set.Set, a, b *thing) string {
	if a.kind == b.kind {
		return boxWords(s, a) + " → " + unit.FormatLength(b.size[2], s.Units, 0.5) + " high"
	}
	return boxWords(s, a) + " → " + boxWords(s, b)
}
