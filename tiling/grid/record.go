package grid

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/unit"
	"markout/tiling"
	"markout/tiling/paper"
)

// GridRecord is what an issue remembers of a grid, so that a later one can keep it. Lengths are millimetres, places in the view's.
// Columns and rows have places, counted from the window at Origin: 0 there, less to its left and below it. Of a roll, a column is a
// strip across it.
type GridRecord struct {
	Label   string     `json:"label"` // what its pages' labels begin with
	View    string     `json:"view"`
	Element string     `json:"element,omitempty"`
	Paper   string     `json:"paper"`
	Size    [2]float64 `json:"size_mm"` // of its sheets as they lie; of a roll its width and nothing
	Margins [4]float64 `json:"margins_mm"`
	Lap     float64    `json:"lap_mm"`
	Origin  [2]float64 `json:"origin_mm"` // where the window in column 0 and row 0 begins; of a roll, along it, from where its parts' ends are counted
	Step    [2]float64 `json:"step_mm"`   // of a roll the same both ways
	Columns Ruling     `json:"columns"`
	Rows    Ruling     `json:"rows,omitempty"`  // of sheets
	Pages   [][3]int   `json:"pages,omitempty"` // of sheets: column, row, and the pages around it that it shows a seam with, as bits: 1 left, 2 right, 4 below, 8 above, then the corners
	Roll    *Roll      `json:"roll,omitempty"`  // of strips
	Ink     string     `json:"ink,omitempty"`   // digest of the whole drawing, of a grid for one piece
}

// Roll is what a record says of strips.
type Roll struct {
	Along  string  `json:"along"`   // x or y, the way they run
	Each   float64 `json:"each_mm"` // their ends are rounded to it
	Strips []Strip `json:"strips"`
}

// Strip is the parts of one strip by their numbers. What a part was before, and parts that are gone, stand there too: what comes back
// has its number again, and nothing else has it.
type Strip struct {
	Place int    `json:"place"`
	Parts []Part `json:"parts"`
}

// Part is a page of a strip: where its window begins and ends along it.
type Part struct {
	Number int          `json:"number"`
	From   float64      `json:"from_mm"`
	To     float64      `json:"to_mm"`
	Near   int          `json:"near,omitempty"`     // as the third figure of a record's Pages has it
	Left   [][2]float64 `json:"left_mm,omitempty"`  // the stretches along it where it shows a seam with strips on its left, or below it
	Right  [][2]float64 `json:"right_mm,omitempty"` // the same on its other side
	Gone   bool         `json:"gone,omitempty"`
}

// Check says what cannot be in a record that markout wrote. What it lets pass lays every drawing whole.
func (r *GridRecord) Check() error {
	if err := r.check(); err != nil {
		return fmt.Errorf("the page grid `%s` of the earlier issue %w", r.Label, err)
	}
	return nil
}

func (r *GridRecord) check() error {
	if r.View == "" || !r.labelled() {
		return fmt.Errorf("has a name that none of a view `%s` has", r.View)
	}
	if !(math.Abs(r.Origin[0]) <= mostOrigin && math.Abs(r.Origin[1]) <= mostOrigin) {
		return errors.New("begins too far away")
	}
	m := paper.Margins{Left: r.Margins[0], Right: r.Margins[1], Bottom: r.Margins[2], Top: r.Margins[3]}
	if !(min(m.Left, m.Right, m.Bottom, m.Top) >= 0) {
		return errors.New("has margins of less than nothing")
	}
	w, h := r.Size[0], r.Size[1]
	if r.Roll != nil { // as long as it is wide, so that either way can be looked at
		h = w
	}
	if !(max(w, h) <= paper.Longest) {
		return errors.New("has paper larger than any")
	}
	live := geom.Point{X: w - m.Left - m.Right, Y: h - m.Bottom - m.Top}
	if r.Roll != nil {
		across := live.X
		if r.Roll.Along == "x" {
			across = live.Y
		}
		live = geom.Point{X: across, Y: across}
	}
	least := min(live.X, live.Y)
	if !(least >= leastLive) {
		return errors.New("has margins that leave no room on its paper")
	}
	if !(r.Lap >= 0 && r.Lap <= least/3) {
		return errors.New("has a lap that its paper cannot have")
	}
	for k, want := range [2]float64{live.X - r.Lap, live.Y - r.Lap} {
		if !(math.Abs(r.Step[k]-want) <= geom.Tolerance) {
			return fmt.Errorf("has pages %s mm apart where its paper, margins and lap make it %s", unit.FormatNumber(r.Step[k], 0.01), unit.FormatNumber(want, 0.01))
		}
	}
	if err := r.Columns.check(); err != nil {
		return fmt.Errorf("has columns that %w", err)
	}
	if r.Roll != nil {
		return r.Roll.check(r.Columns)
	}
	if err := r.Rows.check(); err != nil {
		return fmt.Errorf("has rows that %w", err)
	}
	for _, p := range r.Pages {
		if p[2] < 0 || p[2] > math.MaxUint8 || r.Columns.name(p[0]) == 0 || r.Rows.name(p[1]) == 0 {
			return errors.New("has a page that is in no column or row")
		}
	}
	return nil
}

// mostOrigin is how far from 0,0 a grid may begin: places are true to less than a micrometre there.
const mostOrigin = 1e9

// labelled reports whether a label is one that a grid of this view and name can have.
func (r *GridRecord) labelled() bool {
	rest := r.Label
	for _, base := range labelsOf(r.View, r.Element) {
		if rest == base {
			return true
		}
		if n, ok := strings.CutPrefix(rest, base+" ("); ok && strings.HasSuffix(n, ")") && len(n) < 8 && strings.Trim(n[:len(n)-1], "0123456789") == "" {
			return true
		}
	}
	return false
}

func (l *Roll) check(columns Ruling) error {
	if l.Along != "x" && l.Along != "y" {
		return errors.New("has strips that run neither along x nor along y")
	}
	if f, _ := math.Frexp(l.Each / rollEach); f != 0.5 || l.Each < rollEach || l.Each > 1e6 {
		return errors.New("has strips that end where none can")
	}
	last := math.MinInt
	for _, s := range l.Strips {
		if s.Place <= last || columns.name(s.Place) == 0 {
			return errors.New("has strips that are out of order or have no letter")
		}
		last = s.Place
		stands := map[int]bool{}
		for _, p := range s.Parts {
			if p.Number < 1 || p.Number > mostPlaces || stands[p.Number] && !p.Gone {
				return errors.New("has two parts of a strip with one number, or a part with none")
			}
			stands[p.Number] = stands[p.Number] || !p.Gone
			if !(math.Abs(p.From) <= mostOrigin && p.To > p.From && p.To-p.From <= paper.Longest) || p.Near < 0 || p.Near > math.MaxUint8 || !p.holds(p.Left) || !p.holds(p.Right) {
				return errors.New("has a part of a strip that cannot be")
			}
		}
	}
	return nil
}

// holds reports whether stretches lie on the part, no more of them than there can be.
func (p *Part) holds(stretches [][2]float64) bool {
	for _, s := range stretches {
		if !(p.From <= s[0] && s[0] < s[1] && s[1] <= p.To) {
			return false
		}
	}
	return len(stretches) <= paper.Longest/stripLeast+2
}

// Grids returns the grids in the document's order.
func (p *Plan) Grids() []GridRecord {
	out := make([]GridRecord, len(p.grids))
	for i, g := range p.grids {
		out[i] = g.record(p.opt.Paper.Name)
	}
	return out
}

func (g *grid) record(paper string) GridRecord {
	m := g.margins
	r := GridRecord{
		Label: g.prefix, View: g.view, Element: g.name, Paper: paper, Size: [2]float64{g.size.W, g.size.H},
		Margins: [4]float64{m.Left, m.Right, m.Bottom, m.Top}, Lap: g.lap,
		Origin: [2]float64{g.base.X, g.base.Y}, Step: [2]float64{g.step.X, g.step.Y},
		Columns: g.columns, Rows: g.lines, Ink: g.inkDigest(),
	}
	if g.strips != nil {
		r.Size[1] = 0
		r.Roll = g.roll()
		return r
	}
	r.Pages = make([][3]int, len(g.cells))
	for k := range g.cells {
		c := &g.cells[k]
		r.Pages[k] = [3]int{c.c + g.first[0], c.r + g.first[1], int(c.near)}
	}
	return r
}

// roll returns what a record says of the grid's strips.
func (g *grid) roll() *Roll {
	s := g.strips
	out := &Roll{Along: [2]string{"x", "y"}[s.along], Each: s.each}
	cells := map[pageKey]int{}
	for i := range g.cells {
		cells[g.keyOf(&g.cells[i])] = i
	}
	for place, parts := range s.parts {
		parts = slices.Clone(parts)
		for k := range parts {
			p := &parts[k]
			if i, ok := cells[pageKey{c: place, from: p.From, to: p.To}]; ok && !p.Gone {
				p.Near, p.Left, p.Right = int(g.cells[i].near), s.sides[i].left, s.sides[i].right
			}
		}
		out.Strips = append(out.Strips, Strip{place, parts})
	}
	slices.SortFunc(out.Strips, func(a, b Strip) int { return cmp.Compare(a.Place, b.Place) })
	return out
}

// inkDigest is the digest of the whole drawing of one piece, names aside; empty for the floor, which is known without.
func (g *grid) inkDigest() string {
	if g.view == "floor" || g.inkSum != "" {
		return g.inkSum
	}
	var d tiling.Digester
	d.Reset(g.view, g.info.scaleWords(), g.info.Sides.PlusWord, g.ink.bounds)
	var ps []geom.Point
	for i := range g.ink.tracks {
		t := &g.ink.tracks[i]
		if t.mark.Role != drawing.Name {
			ps = ps[:0]
			for k := range t.to - t.from {
				ps = append(ps, g.ink.at(t, k))
			}
			d.Line(t.mark, t.line, t.width, t.tone, 0, t.closed, ps)
		}
	}
	for i := range g.ink.pictures {
		s := &g.ink.pictures[i]
		d.Picture(s.Mark, s.art, s.Shown)
	}
	for i := range g.ink.areas {
		a := &g.ink.areas[i]
		d.Area(a.mark, a.tone, a.rings)
	}
	for i := range g.ink.words {
		if w := &g.ink.words[i]; counts(w) {
			d.Word(w.mark, &w.text)
		}
	}
	g.inkSum = fmt.Sprintf("%x", d.Sum())
	return g.inkSum
}
