package changes

import (
	"slices"
	"strconv"
	"strings"

	"markout/layout/develop"
)

// carry says which old pieces are kept as which new ones.
type carry struct {
	old, new *develop.Model
	then     map[string]string // what copies of the new model were called in the old one
	to, of   []int             // of each old piece the new one, of each new piece the old one; −1 for none
}

func carried(old, new *develop.Model) *carry {
	c := &carry{old: old, new: new, to: make([]int, len(old.Pieces)), of: make([]int, len(new.Pieces))}
	was, is := keysOf(old, c.to), keysOf(new, c.of)
	c.then = calledThen(old, new, was, is)
	for _, like := range []func(p *develop.Piece, copyName string) string{
		numbered,
		called,
		func(p *develop.Piece, copyName string) string { return copyName },
		func(*develop.Piece, string) string { return "" },
	} {
		free := map[[2]string][]int{}
		for i := range was {
			if c.to[i] < 0 {
				p := &old.Pieces[i]
				k := [2]string{was[i], like(p, p.Element)}
				free[k] = append(free[k], i)
			}
		}
		for j := range is {
			if c.of[j] >= 0 {
				continue
			}
			p := &new.Pieces[j]
			k := [2]string{is[j], like(p, c.then[p.Element])}
			if list := free[k]; len(list) > 0 {
				c.of[j], c.to[list[0]] = list[0], j
				free[k] = list[1:]
			}
		}
	}
	return c
}

// numbered is a piece by its copy and its number, called by its copy and its name.
func numbered(p *develop.Piece, copyName string) string {
	return copyName + "-" + strconv.Itoa(p.Number)
}

func called(p *develop.Piece, copyName string) string { return copyName + "/" + p.Name }

func keysOf(m *develop.Model, none []int) []string {
	out := make([]string, len(m.Pieces))
	for i := range m.Pieces {
		out[i], none[i] = pieceKey(&m.Pieces[i]), -1
	}
	return out
}

// pieceKey writes what a piece is as it is cut.
func pieceKey(p *develop.Piece) string {
	var k key
	k.numbers(p.Thickness)
	k.flags(p.Hidden)
	k.region(p.Outline)
	line := func(l develop.Line) { k.numbers(l.From.X, l.From.Y, l.To.X, l.To.Y) }
	for _, e := range p.Edges {
		if e.Bevel != 0 || e.Front != 0 || e.Back != 0 {
			line(e.Line)
			k.numbers(e.Bevel, e.Front, e.Back)
		}
	}
	for _, f := range p.Folds {
		line(f.Line)
		k.numbers(f.Angle)
		k.flags(f.Away, f.Front)
	}
	for _, r := range p.Rolls {
		k.numbers(r.From, r.To, r.Radius, r.Sweep)
		k.flags(r.Away)
	}
	if t := p.Taper; t != nil {
		k.numbers(t.Apex.X, t.Apex.Y, t.Sector)
		k.flags(t.Away)
	}
	for _, r := range p.Rims {
		k.numbers(r.Centre.X, r.Centre.Y, r.Radius, r.Bevel, r.Front, r.Back)
	}
	for _, r := range p.Relief {
		line(r.Line)
		k.flags(r.Front)
	}
	for _, t := range p.Tabs {
		line(t.Base)
		k.numbers(t.Angle)
	}
	return k.String()
}

// replaced returns of each new piece the old one in whose place it is made, −1 for none: of what is not kept the one of its
// copy and name, or else of its copy and number.
func (c *carry) replaced() []int {
	out := make([]int, len(c.new.Pieces))
	for j := range out {
		out[j] = -1
	}
	for _, like := range []func(p *develop.Piece, copyName string) string{called, numbered} {
		taken := map[int]bool{}
		for _, i := range out {
			taken[i] = true
		}
		free := map[string][]int{}
		for i := range c.old.Pieces {
			if c.to[i] < 0 && !taken[i] {
				k := like(&c.old.Pieces[i], c.old.Pieces[i].Element)
				free[k] = append(free[k], i)
			}
		}
		for j := range out {
			if c.of[j] >= 0 || out[j] >= 0 {
				continue
			}
			k := like(&c.new.Pieces[j], c.then[c.new.Pieces[j].Element])
			if list := free[k]; len(list) > 0 {
				out[j], free[k] = list[0], list[1:]
			}
		}
	}
	return out
}

// glued says what of the old model is kept and is glued to the old piece i.
func (c *carry) glued(i int) []string {
	return c.words(i, func(other int, _ *develop.Joint) bool { return c.to[other] >= 0 })
}

// words says along which joints pieces are glued to the old piece i, of those that count.
func (c *carry) words(i int, counts func(other int, j *develop.Joint) bool) []string {
	along := map[int][]string{}
	var order []int
	for k := range c.old.Joints {
		j := &c.old.Joints[k]
		other := j.A.Piece
		switch i {
		case j.A.Piece:
			other = j.B.Piece
		case j.B.Piece:
		default:
			continue
		}
		if other == i || !counts(other, j) {
			continue
		}
		if along[other] == nil {
			order = append(order, other)
		}
		along[other] = append(along[other], j.Label())
	}
	slices.Sort(order)
	var out []string
	for _, o := range order {
		out = append(out, c.old.Pieces[o].Label()+" is glued to it along "+listWords(along[o]))
	}
	return out
}

// parted lists the pieces that are kept and are glued in the old model to another one that is kept, as they are not in the new one:
// each such joint once, at the earlier of its pieces.
func (c *carry) parted() []Piece {
	stay := map[string]int{}
	for k := range c.new.Joints {
		j := &c.new.Joints[k]
		stay[jointKey(j.A.Piece, j.B.Piece, j)]++
	}
	loose := map[*develop.Joint]bool{}
	var first []int
	for k := range c.old.Joints {
		j := &c.old.Joints[k]
		a, b := c.to[j.A.Piece], c.to[j.B.Piece]
		if a < 0 || b < 0 {
			continue
		}
		if key := jointKey(a, b, j); stay[key] > 0 {
			stay[key]--
			continue
		}
		loose[j] = true
		first = append(first, min(j.A.Piece, j.B.Piece))
	}
	slices.Sort(first)
	var out []Piece
	for _, i := range slices.Compact(first) {
		p := &c.old.Pieces[i]
		out = append(out, Piece{Element: p.Element, Piece: p.Label(), Name: p.Name, Change: Part,
			Glued: c.words(i, func(other int, j *develop.Joint) bool { return loose[j] && i <= other })})
	}
	return out
}

// jointKey is a joint between two pieces where it runs on each of them.
func jointKey(a, b int, j *develop.Joint) string {
	side := func(piece int, s *develop.Side) string {
		var k key
		k.word(strconv.Itoa(piece))
		for _, p := range s.Line {
			k.numbers(p.X, p.Y)
		}
		return k.String()
	}
	p, q := side(a, &j.A), side(b, &j.B)
	return min(p, q) + max(p, q)
}

func listWords(list []string) string {
	if len(list) == 1 {
		return list[0]
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}
