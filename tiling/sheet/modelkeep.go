package sheet

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/tiling"
)

// keep puts the pieces that were found in the earlier issue where they lay, on their sheets; one that is gone leaves a hole, and a
// sheet of which nothing is left is gone with its number. It returns which pieces lie. A record that was changed so that pieces lie
// over one another, beyond the sheet or as they may not be turned loses them their places.
func (c *CardModel) keep(k *matcher) []bool {
	lies := make([]bool, len(c.Model.Pieces))
	on := make([][]int, len(k.was.Sheets))
	for i, o := range k.of {
		if o >= 0 {
			at := k.old[o].sheet
			on[at] = append(on[at], i)
		}
	}
	c.last = k.was.Last
	for n, pieces := range on {
		r := &k.was.Sheets[n]
		s := CardSheet{Number: r.Number, Thickness: r.Thick, Size: c.bed.size, Area: c.bed.area, lo: c.bed.lo}
		if c.bed.roll {
			s.Size.W, s.Area.Max.X = r.Size[0], r.Size[0]
		}
		s.Used = s.Size.W
		var regions []geom.Region
		for _, i := range pieces {
			o, p := &k.old[k.of[i]], &c.Model.Pieces[i]
			l := Laid{Piece: i, At: geom.Point{X: o.At[0], Y: o.At[1]}, Turn: o.Turn}
			outline := p.Outline.Transform(l.move())
			turns := p.Turns(grainUp(c.bed))
			if math.Abs(p.Thickness-r.Thick) > geom.Tolerance || turns != nil && !slices.Contains(turns, l.Turn) || !s.open(outline, regions) {
				continue
			}
			lies[i] = true
			regions = append(regions, outline)
			s.Places = append(s.Places, l)
		}
		if len(s.Places) == 0 {
			continue
		}
		s.kept = true
		c.Sheets = append(c.Sheets, s)
		c.Kept += len(s.Places)
		c.Stopped = k.was.Stopped
	}
	return lies
}

// nameKept gives the sheets kept of a card its names.
func (c *CardModel) nameKept(k stockKind) {
	for i := range c.Sheets {
		if s := &c.Sheets[i]; math.Abs(s.Thickness-k.thickness) <= geom.Tolerance {
			s.Card = k.name
		}
	}
}

// open reports whether an area of a sheet is open card: inside where pieces may lie, and over none of others.
func (s *CardSheet) open(r geom.Region, others []geom.Region) bool {
	const reach = 1e-3 // less than a knife's width, more than places are rounded by
	b := r.Bounds()
	if !(b.Min.X >= s.Area.Min.X-reach && b.Min.Y >= s.Area.Min.Y-reach && b.Max.X <= s.Area.Max.X+reach && b.Max.Y <= s.Area.Max.Y+reach) {
		return false
	}
	return !slices.ContainsFunc(others, func(o geom.Region) bool { return geom.Overlaps(r, o) })
}

// noteKept gives small pieces of a kept sheet the lettering beside them, where there is room for it: a longer name has more than
// the one before. The list on the sheet says what has none. It is done when the sheet is first drawn, since few are.
func (c *CardModel) noteKept(s *CardSheet) {
	c.noting.Lock()
	defer c.noting.Unlock()
	if !s.kept || s.noted {
		return
	}
	s.noted = true
	var taken []geom.Region
	for _, l := range s.Places {
		taken = append(taken, c.Model.Pieces[l.Piece].Outline.Transform(l.move()))
	}
	for n := range s.Places {
		l := &s.Places[n]
		note := c.sideNoteOf(l.Piece, c.bed.big)
		if note == nil {
			continue
		}
		room := geom.Region{Outer: geom.Polygon(tiling.Box(note.box.Grow(lineClear)))}.Transform(l.move())
		if s.open(room, taken) {
			l.note = note
			taken = append(taken, room)
		}
	}
}
