package cut

import (
	"cmp"
	"slices"

	"markout/layout/geom"
)

// area is what a board's pieces take, kerfs included, in square grains.
func (j *boardJob) area(counts []int) float64 {
	sum := 0.0
	for i, n := range counts {
		sum += float64(n) * j.items[i].area()
	}
	return sum
}

// plan writes the boards out in millimetres, and says whose piece each is.
func (j *boardJob) plan(boards []chosen) *BoardPlan {
	p := &BoardPlan{Bound: j.least, BuyBound: j.buyLeast, Proven: j.proven}
	slices.SortStableFunc(boards, func(a, b chosen) int {
		return cmp.Or(cmp.Compare(a.lot, b.lot), cmp.Compare(j.area(b.counts), j.area(a.counts)), -slices.Compare(a.counts, b.counts))
	})
	j.settle(boards)
	w := writer{boardJob: j, next: make([]place, len(j.items)), short: make([]int, len(j.pieces))}
	number := map[string]int{}
	for _, b := range boards {
		s := j.stock[b.lot]
		number[s.Name]++
		w.left = slices.Clone(b.counts)
		w.board = CutBoard{Stock: b.lot, Name: s.Name, Number: number[s.Name], Length: s.Length, Width: s.Width, Buy: b.buy}
		root := b.layout.(*cell)
		if root.loose != nil {
			for _, c := range root.loose {
				w.put(c, float64(c.x)*w.grainMM(), float64(c.y)*w.grainMM())
			}
		} else {
			w.board.Part = w.part(root, 0, 0, s.Length, s.Width)
		}
		if b.buy {
			p.Buy++
			for _, c := range w.board.Placed {
				w.short[c.Piece]++
			}
		}
		p.Area += s.Length * s.Width
		p.Boards = append(p.Boards, w.board)
	}
	for i, n := range w.short {
		if n > 0 {
			p.Short = append(p.Short, Short{Piece: i, ID: j.pieces[i].ID, Count: n})
		}
	}
	return p
}

// place is how far an item's pieces have been given out: which of its members, and how many of it.
type place struct{ member, given int }

// writer writes one board after the other.
type writer struct {
	*boardJob
	board CutBoard
	left  []int // of each item, what this board still owes
	next  []place
	short []int
}

func (w *writer) grainMM() float64 { return float64(w.grain) * geom.Tolerance }

// side is a side in millimetres, without its kerf.
func (w *writer) side(v int64) float64 { return float64(v)*w.grainMM() - w.kerf }

// put writes down a piece, if the board owes it, and gives its number on the board.
func (w *writer) put(c *cell, x, y float64) int {
	if w.left[c.item] == 0 {
		return -1
	}
	w.left[c.item]--
	at := &w.next[c.item]
	piece := w.members[c.item][at.member]
	p := w.pieces[piece]
	if at.given++; at.given == p.Count {
		at.member, at.given = at.member+1, 0
	}
	// An item's first side may be the piece's second where pieces may be turned.
	swapped := p.Turn && p.Width > p.Length
	pl := Placed{Piece: piece, ID: p.ID, X: x, Y: y, Length: p.Length, Width: p.Width, Turned: c.turned != swapped}
	if pl.Turned {
		pl.Length, pl.Width = p.Width, p.Length
	}
	if p.Length == p.Width {
		pl.Turned = false
	}
	w.board.Placed = append(w.board.Placed, pl)
	w.board.Used += p.Length * p.Width
	return len(w.board.Placed) - 1
}

// owes says whether any piece of c is still to be written.
func (w *writer) owes(c *cell) bool {
	return c != nil && (c.item >= 0 && w.left[c.item] > 0 || w.owes(c.near) || w.owes(c.far))
}

// part writes c, which is of a size in millimetres without the kerfs at its far ends. Cuts that part no piece
// are left out.
func (w *writer) part(c *cell, x, y, length, width float64) *Part {
	p := &Part{X: x, Y: y, Length: length, Width: width, Placed: -1}
	if c == nil || !w.owes(c) {
		return p
	}
	near, far := c, (*cell)(nil)
	dir, at := c.cut, 0.0
	switch dir {
	case Across:
		near, far, at = c.near, c.far, w.side(c.near.size.l)
	case Along:
		near, far, at = c.near, c.far, w.side(c.near.size.w)
	case None:
		// Grains are as large as the pieces allow, so that a board may be longer than its grains.
		if at = w.side(c.size.l); length-at > 2*geom.Tolerance {
			dir = Across
		} else if at = w.side(c.size.w); width-at > 2*geom.Tolerance {
			dir = Along
		} else {
			p.Placed = w.put(c, x, y)
			return p
		}
	}
	p.Cut, p.At = dir, at
	if dir == Across {
		if length-at <= 2*geom.Tolerance { // the far part is a rounding
			return w.part(near, x, y, length, width)
		}
		p.Near = w.part(near, x, y, at, width)
		if rest := length - at - w.kerf; rest > geom.Tolerance {
			p.Far = w.part(far, x+at+w.kerf, y, rest, width)
		}
		return p
	}
	if width-at <= 2*geom.Tolerance {
		return w.part(near, x, y, length, width)
	}
	p.Near = w.part(near, x, y, length, at)
	if rest := width - at - w.kerf; rest > geom.Tolerance {
		p.Far = w.part(far, x, y+at+w.kerf, length, rest)
	}
	return p
}
