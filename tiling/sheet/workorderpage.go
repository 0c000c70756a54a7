package sheet

import (
	"math"
	"strings"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
	"markout/tiling"
)

// workPage is a work order laid out on one page.
type workPage struct {
	frame *frame
	spots []workSpot
	box   geom.Rect // round the cautions, empty for none
	under float64   // the rule under what is taken along
}

// Measures of a work order's page in millimetres.
const (
	workTitle   = drawing.Lettering10
	workSmall   = drawing.Lettering7   // of the title where it does not stand beside the issues otherwise
	workLeast   = drawing.Lettering2_5 // of what is read at arm's length
	workCaution = drawing.Lettering3_5 // at most
	workColumns = 3                    // at most
	workApart   = 8.0                  // between columns
	workReads   = 170.0                // a wider column of sentences is hard to read
	workShare   = 0.45                 // of the page, that cautions may take; half of it, what is taken along
)

// workLetters are the heights a work order may have, the best first.
var workLetters = [...]float64{drawing.Lettering5, drawing.Lettering3_5, workLeast}

// layWorkOrder lays a work order on one page, in the tallest lettering in which all of it finds room on the sheet lying or else
// upright; where it finds none even in the least, as much as does, of most steps and of them most.
func layWorkOrder(s *set.Set, w *WorkChange, o *WorkOrder, frames []frame) (best *workPage) {
	mostSaid, mostThings := -1, -1
	for _, h := range workLetters {
		last := h == workLeast
		for i := range frames {
			f := &frames[i]
			live := f.live
			live.Min = live.Min.Add(geom.Point{X: gap, Y: stripHeight + gap})
			live.Max = live.Max.Sub(geom.Point{X: gap, Y: gap + workTitle*(lettering.Ascent-1)})
			page := &workPage{frame: f}
			box, whole := page.surround(s, w, o, live, h)
			body := measureSteps(o.Steps, w.Rest, h, box)
			if spots, ok := body.whole(); ok && whole {
				page.spots = append(page.spots, spots...)
				return page
			}
			if !last {
				continue
			}
			spots, said, things := body.fill()
			if said > mostSaid || said == mostSaid && things > mostThings {
				page.spots = append(page.spots, spots...)
				best, mostSaid, mostThings = page, said, things
			}
		}
	}
	return best
}

// surround lays the title, what is taken along and the cautions in a lettering height, and returns the box that is left between
// them; whole is false where some of it is only counted.
func (g *workPage) surround(s *set.Set, w *WorkChange, o *WorkOrder, live geom.Rect, h float64) (body geom.Rect, whole bool) {
	body, whole = live, true
	g.title(o.Trade+": work order", workSince(s, w.Since), &body)
	if len(o.Takes) > 0 {
		whole = g.takes(o.Takes, w.Rest, &body, h, live.H()*workShare/2)
	}
	g.under = body.Max.Y
	body.Max.Y -= max(gap, h)
	if len(o.Cautions) > 0 {
		all := g.cautions(o.Cautions, w.Rest, &body, min(h, workCaution), live.H()*workShare)
		whole = whole && all
	}
	return body, whole
}

// title sets the title, and at its right on the same line, or under it where there is no room, between which issues the work lies.
func (g *workPage) title(title, since string, body *geom.Rect) {
	const beside = drawing.Lettering5
	w := tiling.Widest(beside, false, since)
	size := workTitle
	if tiling.Widest(size, true, title)+workApart+w > body.W() {
		size, _ = fitted(title, workSmall, true, body.W())
		size = max(size, workLeast)
	}
	add := func(p workPart, left, top float64) {
		g.spots = append(g.spots, workSpot{&p, geom.Point{X: left, Y: top}})
	}
	head := workWords(title, size, true, body.W())
	add(head, body.Min.X, body.Max.Y)
	y := body.Max.Y - head.tall
	if tiling.Widest(size, true, title)+workApart+w <= body.W() {
		add(workWords(since, beside, false, w+1), body.Max.X-w, body.Max.Y-size+beside)
	} else {
		under := workWords(since, drawing.Lettering3_5, false, body.W())
		add(under, body.Min.X, y)
		y -= under.tall
	}
	body.Max.Y = y
}

// workSince says between which issues the work lies.
func workSince(s *set.Set, since string) string {
	to := strings.Replace(issueLine(s), "Issue", "issue", 1)
	switch {
	case s.Trial:
		to = "a trial"
	case to == "":
		to = "this issue"
	}
	return "From issue " + since + ", to " + to
}

// takes lists what is taken along in rows across the top of the body, no higher than the limit; all is false where some is only counted.
func (g *workPage) takes(list []string, rest string, body *geom.Rect, h, limit float64) (all bool) {
	w := body.W()
	widest := min(w, tiling.Widest(h, false, list...))
	n := max(1, int((w+workApart)/(widest+workApart)))
	columns := columnsIn(*body, n, workApart)
	head := workWords("What it takes", h, true, w)
	y := body.Max.Y - h*wordsBelow
	g.spots = append(g.spots, workSpot{&head, geom.Point{X: body.Min.X, Y: y}})
	y -= head.tall
	for from := 0; from < len(list); from += n {
		row := make([]workPart, 0, n)
		tall := 0.0
		for _, l := range list[from:min(from+n, len(list))] {
			p := workWords(l, h, false, columns[0].W())
			row, tall = append(row, p), max(tall, p.tall)
		}
		if body.Max.Y-y+tall > limit {
			p := workWords(moreWords(len(list)-from, "line", rest), h, true, w)
			g.spots = append(g.spots, workSpot{&p, geom.Point{X: body.Min.X, Y: y}})
			body.Max.Y = y - p.tall
			return false
		}
		for i := range row {
			g.spots = append(g.spots, workSpot{&row[i], geom.Point{X: columns[i].Min.X, Y: y}})
		}
		y -= tall
	}
	body.Max.Y = y
	return true
}

// cautions sets the cautions into a box at the foot of the body, no higher than the limit, the line that defers last and over the whole
// width; all is false where some are only counted.
func (g *workPage) cautions(list []string, rest string, body *geom.Rect, h, limit float64) (all bool) {
	if n := len(list); list[n-1] == caution.Defer {
		list = list[:n-1]
	}
	const in = 2.5
	inner := *body
	inner.Min = inner.Min.Add(geom.Point{X: in, Y: in})
	inner.Max.X -= in
	last := workWords(caution.Defer, h, true, inner.W())
	title := workWords("CAUTIONS", h, true, inner.W())
	foot := inner.Min.Y + last.tall
	n := min(max(1, int(math.Round(inner.W()/workReads))), max(1, len(list)))
	box := geom.Rect{Min: geom.Point{X: inner.Min.X, Y: foot}, Max: geom.Point{X: inner.Max.X, Y: inner.Min.Y + limit - title.tall - 2*in}}
	width := columnsIn(box, n, workApart)[0].W()
	parts := func(shown int) []workPart {
		var out []workPart
		for _, l := range list[:shown] {
			out = append(out, workWords(l, h, false, width))
		}
		if shown < len(list) {
			out = append(out, workWords(moreWords(len(list)-shown, "caution", rest), h, true, width))
		}
		return out
	}
	shown := max(0, greatest(len(list), func(k int) bool { _, ok := flowParts(parts(k), columnsIn(box, n, workApart)); return ok }))
	set := parts(shown)
	top := foot + level(set, n)
	box.Max.Y = top
	spots, _ := flowParts(set, columnsIn(box, n, workApart))
	g.spots = append(g.spots, spots...)
	g.spots = append(g.spots, workSpot{&last, geom.Point{X: inner.Min.X, Y: foot}},
		workSpot{&title, geom.Point{X: inner.Min.X, Y: top + title.tall}})
	g.box = geom.Rect{Min: body.Min, Max: geom.Point{X: body.Max.X, Y: top + title.tall + in}}
	body.Min.Y = g.box.Max.Y + gap
	return shown == len(list)
}

// draw draws the page but for the frame and the title strip.
func (g *workPage) draw(p *tiling.Page) {
	c := &p.Layers[drawing.Notes]
	for i := range g.spots {
		s := &g.spots[i]
		s.part.draw(p, s.at.X, s.at.Y)
	}
	c.Line(p, tiling.Pen{Width: drawing.WideLine}, g.frame.live.Min.X+gap, g.under, g.frame.live.Max.X-gap, g.under)
	if g.box.H() > 0 {
		c.Polyline(p, tiling.Pen{Width: drawing.WideLine}, true, tiling.Box(g.box)...)
	}
}
