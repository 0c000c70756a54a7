package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/tiling"
)

// Measures of a tag in millimetres: a card to cut out and tie on by its hole.
const (
	tagWide, tagHigh = 92.0, 58.0
	tagHole          = 6.0
	tagIn            = 4.0 // from its edge to what it says
)

// tags adds the sheets of tags of a room's dressing, in the order of their numbers' pieces.
func (o *overheadBook) tags(r *overhead.Room) {
	var tagged []*overhead.Piece
	for i := range r.Pieces {
		if r.Pieces[i].Tag > 0 {
			tagged = append(tagged, &r.Pieces[i])
		}
	}
	f, across, down := o.tagFrame()
	each := across * down
	for from := 0; from < len(tagged); from += each {
		cards := tagged[from:min(from+each, len(tagged))]
		d := digester(o.set)
		d.Reset("tags", "", o.set.Sides, geom.Rect{})
		for k, p := range cards {
			for n, l := range tagLines(o.set, r, p) {
				d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{At: geom.Point{X: float64(k), Y: float64(n)}, Text: l})
			}
		}
		sum := d.Sum()
		e := tiling.Entry{
			Label: r.Element.Name + " tags", View: "tags", Title: r.Element.Name + ": tags", Element: r.Element.Name, Paper: f.paper,
			Mark: tiling.ContentMark(sum), Digest: sum, Size: [2]float64{f.live.W(), f.live.H()},
		}
		if len(tagged) > each {
			e.Label += " " + strconv.Itoa(from/each+1)
		}
		o.pages = append(o.pages, page{entry: e, size: f.size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
			f.drawFrame(p)
			left := f.live.Min.X + (f.live.W()-float64(across)*tagWide)/2
			top := f.live.Max.Y - gap - drawing.Lettering3_5 - 4
			p.Layers[drawing.Furniture].Write(geom.Point{X: left, Y: top + 3}, drawing.Lettering3_5, false,
				"Print on card, cut along the lines, punch the hole, tie each to its piece while the room is the right way up.")
			for k, q := range cards {
				at := geom.Point{X: left + float64(k%across)*tagWide, Y: top - float64(k/across+1)*tagHigh}
				drawTag(p, at, o.set, r, q)
			}
			titleStrip(p, f.strip(), o.set, o.titles(e, "Tags", f, n, of))
		}})
	}
}

// tagFrame is the sheet that holds most tags, and how many stand beside and under one another on it.
func (o *overheadBook) tagFrame() (best *frame, across, down int) {
	for i := range o.frames {
		f := &o.frames[i]
		a := max(1, int((f.live.W()-2*gap)/tagWide))
		d := max(1, int((f.live.H()-stripHeight-3*gap-drawing.Lettering3_5)/tagHigh))
		if best == nil || a*d > across*down {
			best, across, down = f, a, d
		}
	}
	return best, across, down
}

// tagLines are what a tag says: its number, its piece, then the rest.
func tagLines(s *set.Set, r *overhead.Room, p *overhead.Piece) []string {
	weight := "NOT WEIGHED"
	switch p.Is {
	case set.About:
		weight = "about " + weightWords(s, p.Weight)
	case set.Measured:
		weight = weightWords(s, p.Weight)
	}
	panel := ""
	if p.Panel != "" {
		panel = "Panel " + p.Panel
	}
	if p.On >= 0 {
		panel = strings.TrimPrefix(panel+", on "+r.Pieces[p.On].Name, ", ")
	}
	out := []string{strconv.Itoa(p.Tag), p.Name, weight,
		"FRONT looks " + looks(s, overhead.Facing(p.Overhead)),
		"Hangs at " + place(s, p.Overhead.T.Plan()),
		fmt.Sprintf("Fixed at level %s, lowest %s", length(s, p.Overhead.T.Z), length(s, p.Lowest)),
	}
	if panel != "" {
		out = append(out, panel)
	}
	if w := warned(r, p); w != "" {
		out = append(out, lookOut+w)
	}
	return out
}

// lookOut begins what a tag warns of, which is never cut short.
const lookOut = "LOOK OUT: "

// wrappedIn wraps a text at the largest height of lettering at which it keeps within a width and a height, otherwise at the least.
func wrappedIn(text string, width, height float64) (float64, []string) {
	for _, h := range []float64{drawing.Lettering3_5, drawing.Lettering2_5} {
		lines := lettering.Wrap(text, h, false, width)
		if h*(1+float64(len(lines)-1)*lettering.Leading) <= height {
			return h, lines
		}
	}
	return drawing.Lettering1_8, lettering.Wrap(text, drawing.Lettering1_8, false, width)
}

// drawTag draws one tag, its lower left corner at a place.
func drawTag(p *tiling.Page, at geom.Point, s *set.Set, r *overhead.Room, q *overhead.Piece) {
	box := boxAt(at, tagWide, tagHigh)
	cut, c := &p.Layers[drawing.Cut], &p.Layers[drawing.Notes]
	cut.Polyline(p, tiling.Thin, true, tiling.Box(box)...)
	hole := geom.Circle(tagHole).Transform(geom.Move(geom.Point{X: box.Max.X - tagIn - tagHole/2, Y: box.Max.Y - tagIn - tagHole/2}, 0))
	cut.Polyline(p, tiling.Thin, true, hole.Flatten(flatness, nil)...)
	lines := tagLines(s, r, q)
	left, y := box.Min.X+tagIn, box.Max.Y-tagIn
	width := tagWide - 2*tagIn
	size, text := fitted(lines[0], drawing.Lettering20, true, 40)
	if w := lettering.Width(lines[0], drawing.Lettering20, true); w <= 40 {
		size, text = drawing.Lettering20*0.7, lines[0]
	}
	c.Write(geom.Point{X: left, Y: y - size}, size, true, text)
	beside := left + lettering.Width(text, size, true) + 4
	for _, l := range lines[1:3] {
		h, t := fitted(l, drawing.Lettering5, true, box.Max.X-tagIn-tagHole-2-beside)
		c.Write(geom.Point{X: beside, Y: y - h}, h, true, t)
		y -= drawing.Lettering5 + 3
	}
	note := lettering.Wrap(overhead.Note, drawing.Lettering1_8, false, width)
	foot := box.Min.Y + 2 + float64(len(note))*drawing.Lettering1_8*lettering.Leading
	y = box.Max.Y - tagIn - drawing.Lettering20*0.7 - 3
	for _, l := range lines[3:] {
		h, t := fitted(l, drawing.Lettering3_5, false, width)
		wrapped := []string{t}
		if strings.HasPrefix(l, lookOut) {
			h, wrapped = wrappedIn(l, width, y-foot)
		}
		y -= c.WriteLines(left, y, h, false, wrapped) + 1.6
	}
	c.WriteLines(left, foot, drawing.Lettering1_8, false, note)
}
