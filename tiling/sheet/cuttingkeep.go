package sheet

import (
	"slices"

	"markout/layout/geom"
	"markout/tiling/cut"
)

// keepBoards puts the boards of a material back whose pieces were found; where one is gone an offcut stays, and a board of which
// nothing is left is gone with its number. A board whose record was changed so that its pieces cannot lie on it is laid anew.
func (c *Cutting) keepBoards(k *cutMatcher, b int) {
	s := &c.boards[b]
	if k == nil || !s.fits {
		return
	}
	m := slices.IndexFunc(k.was.Boards, func(r BoardsOf) bool { return r.Name == s.was.Name })
	whole := true
	for n := range s.was.Boards {
		board, lost, ok := c.keptBoard(b, &s.was.Boards[n], k.boards[m][n])
		whole = whole && ok && !lost
		if !ok || len(board.Cuts) == 0 {
			continue
		}
		for i := range board.Cuts {
			p := board.Cuts[i].Piece
			board.Cuts[i].Copy = c.first[p]
			c.first[p]++
			c.left[p]--
		}
		s.kept++
		c.Kept += len(board.Cuts)
		c.Boards = append(c.Boards, board)
	}
	s.patched = s.kept > 0 && (s.was.Patched || !whole)
	if s.kept > 0 && whole {
		s.unproven, s.free = s.was.Unproven, s.was.Free
	}
	c.Stopped = c.Stopped || s.kept > 0 && k.was.Stopped
}

// keptBoard is one board with the pieces that were found for it; lost says that some were not. It is not ok where they cannot lie so.
func (c *Cutting) keptBoard(b int, r *BoardRecord, found []int) (out CutBoard, lost, ok bool) {
	mat := &c.set.Boards[b]
	out = CutBoard{Board: b, Number: r.Number, kept: true, sheet: r.Sheet, list: r.List}
	place := make([]int, len(found))
	var regions []geom.Region
	for n, p := range found {
		if place[n] = -1; p < 0 {
			lost = true
			continue
		}
		place[n] = len(out.Cuts)
		one := BoardCut{Piece: p, At: geom.Point{X: r.Cuts[n].At[0], Y: r.Cuts[n].At[1]}, Turn: r.Cuts[n].Turn}
		if !c.mayTurn(one) {
			return out, true, false
		}
		out.Cuts = append(out.Cuts, one)
		out.Used += c.Taken.Pieces[p].Area()
		regions = append(regions, c.lies(one))
	}
	if r.Part == nil {
		return out, lost, openBoard(regions, geom.Rect{Max: geom.Point{X: mat.Length, Y: mat.Width}}, mat.Kerf)
	}
	root, ok := partOf(r.Part, geom.Rect{Max: geom.Point{X: mat.Length, Y: mat.Width}}, mat.Kerf)
	if !ok {
		return out, true, false
	}
	root = pruned(root, place)
	out.Part = root
	return out, lost, fills(root, regions)
}

// mayTurn reports whether a piece may lie turned as it does.
func (c *Cutting) mayTurn(k BoardCut) bool {
	p := &c.Taken.Pieces[k.Piece]
	if p.Outline != nil {
		return p.Turns == nil || k.Turn == 0 && p.AsIs || k.Turn == 90 && p.Turned || slices.Contains(p.Turns, k.Turn)
	}
	return k.Turn == 0 && p.AsIs || k.Turn == 90 && p.Turned
}

// fills reports whether all pieces fill parts.
func fills(p *cut.Part, regions []geom.Region) bool {
	filled := 0
	var walk func(p *cut.Part) bool
	walk = func(p *cut.Part) bool {
		if p == nil {
			return true
		}
		if p.Placed >= 0 {
			filled++
			return holds(p, regions[p.Placed].Bounds())
		}
		return walk(p.Near) && walk(p.Far)
	}
	return walk(p) && filled == len(regions)
}

// openBoard reports whether pieces lie on a board with the saw's width between any two.
func openBoard(regions []geom.Region, board geom.Rect, kerf float64) bool {
	const slack = 5e-3 // of what is laid by other outlines than its own
	boxes := make([]geom.Rect, len(regions))
	for i := range regions {
		b := regions[i].Bounds()
		if b.Min.X < -slack || b.Min.Y < -slack || b.Max.X > board.Max.X+slack || b.Max.Y > board.Max.Y+slack {
			return false
		}
		boxes[i] = b
		for k := range i {
			o := boxes[k].Grow(kerf - slack)
			if o.Max.X <= b.Min.X || b.Max.X <= o.Min.X || o.Max.Y <= b.Min.Y || b.Max.Y <= o.Min.Y {
				continue
			}
			if d, _, _ := geom.Distance(regions[i], regions[k]); d < kerf-slack || geom.Overlaps(regions[i], regions[k]) {
				return false
			}
		}
	}
	return true
}

// keepBars puts the bars of a length back, likewise.
func (c *Cutting) keepBars(k *cutMatcher, b int) {
	s := &c.bars[b]
	if k == nil || !s.fits {
		return
	}
	m := slices.IndexFunc(k.was.Bars, func(r BarsOf) bool { return r.Name == s.wasBars.Name })
	whole := true
	for n := range s.wasBars.Bars {
		r := &s.wasBars.Bars[n]
		bar, lost, ok := c.keptBar(b, r, k.bars[m][n])
		whole = whole && ok && !lost
		if !ok || len(bar.Cuts) == 0 {
			continue
		}
		for i := range bar.Cuts {
			p := bar.Cuts[i].Piece
			bar.Cuts[i].Copy = c.first[p]
			c.first[p]++
			c.left[p]--
		}
		s.kept++
		c.Kept += len(bar.Cuts)
		c.Bars = append(c.Bars, bar)
	}
	s.patched = s.kept > 0 && (s.wasBars.Patched || !whole)
	s.unproven = s.kept > 0 && whole && s.wasBars.Unproven
}

func (c *Cutting) keptBar(b int, r *BarRecord, found []int) (out CutBar, lost, ok bool) {
	mat := &c.set.Lengths[b]
	out = CutBar{Bar: b, Number: r.Number, kept: true, strip: r.Strip, list: r.List}
	free := 0.0
	for n, p := range found {
		if p < 0 {
			lost = true
			continue
		}
		from := r.Cuts[n].From
		end := from + c.Taken.Pieces[p].Length
		if from < free-partSlack || end > mat.Long+partSlack {
			return out, true, false
		}
		out.Cuts = append(out.Cuts, BarCut{Piece: p, From: from})
		free = from + (c.Taken.Pieces[p].Length + mat.Kerf) // as the plan of bars reckons it
	}
	out.Offcut = max(0, mat.Long-free)
	return out, lost, true
}
