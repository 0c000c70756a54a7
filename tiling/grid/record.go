package grid

import (
	"fmt"
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// GridRecord is what an issue remembers of a grid, so that a later one can keep it. Lengths are millimetres. Columns and rows have
// places, counted from the window at Origin: 0 there, less to its left and below it. Of a roll, a column is a strip across it, and a
// row a part along a strip.
type GridRecord struct {
	Label   string     `json:"label"` // what its pages' labels begin with
	View    string     `json:"view"`
	Element string     `json:"element,omitempty"`
	Paper   string     `json:"paper"`
	Size    [2]float64 `json:"size_mm"` // of its sheets as they lie; of a roll its width and nothing
	Margins [4]float64 `json:"margins_mm"`
	Lap     float64    `json:"lap_mm"`
	Origin  [2]float64 `json:"origin_mm"` // where the window in column 0 and row 0 begins; of a roll, along it, where its parts are counted from
	Step    [2]float64 `json:"step_mm"`
	Along   string     `json:"along,omitempty"`   // of a roll: x or y, the way its strips run
	Each    float64    `json:"each_mm,omitempty"` // of a roll: to what its strips' ends are rounded
	Columns Ruling     `json:"columns"`
	Rows    Ruling     `json:"rows"`
	Ink     string     `json:"ink,omitempty"`      // digest of the whole drawing, of a grid for one piece
	Parts   []float64  `json:"parts_mm,omitempty"` // of a roll: where each page's window begins and ends along its strip
	Pages   []int      `json:"pages"`              // three figures a page: its column's and its row's place, and which of the pages around it there are, a bit each: left, right, below, above, left below, right below, left above, right above
}

// Ruling names the columns or the rows of a grid, from the place First on: 1 is row 1 or column A. Names that are given never come
// again, whatever becomes of their pages.
type Ruling struct {
	First int   `json:"first"`
	Names []int `json:"names"`
}

// newRuling names n places from 0 on, in their order.
func newRuling(n int) Ruling {
	r := Ruling{Names: make([]int, n)}
	for i := range r.Names {
		r.Names[i] = i + 1
	}
	return r
}

// name returns the name of a place.
func (r *Ruling) name(place int) int { return r.Names[place-r.First] }

// reach names all places from lo to hi that have no name yet with the next ones, those beyond first, then those before, from the
// nearest.
func (r Ruling) reach(lo, hi int) Ruling {
	next := 0
	for _, n := range r.Names {
		next = max(next, n)
	}
	out := Ruling{First: min(r.First, lo)}
	before := r.First - out.First
	beyond := max(0, hi-(r.First+len(r.Names)-1))
	out.Names = make([]int, before, before+len(r.Names)+beyond)
	out.Names = append(out.Names, r.Names...)
	for range beyond {
		next++
		out.Names = append(out.Names, next)
	}
	for i := before - 1; i >= 0; i-- {
		next++
		out.Names[i] = next
	}
	return out
}

// mostPlaces is how many columns or rows a record may name: as many as 40 km have of the least windows.
const mostPlaces = 1_000_000

// check says what cannot be in a record.
func (r *GridRecord) check() error {
	wrong := func(what string) error {
		return fmt.Errorf("the page grid of %s that an earlier issue has cannot be: %s", r.Label, what)
	}
	for _, x := range append(append(r.Size[:], r.Margins[:]...), r.Lap, r.Origin[0], r.Origin[1], r.Step[0], r.Step[1], r.Each) {
		if math.IsNaN(x) || math.Abs(x) > 1e8 {
			return wrong("a length of it is none")
		}
	}
	if r.Step[0] <= 0 || r.Step[1] <= 0 || r.Each < 0 {
		return wrong("its pages are no size")
	}
	for _, k := range [2]*Ruling{&r.Columns, &r.Rows} {
		if len(k.Names) == 0 || len(k.Names) > mostPlaces || k.First < -mostPlaces || k.First > mostPlaces {
			return wrong("its columns or rows are none or too many")
		}
		seen := make(map[int]bool, len(k.Names))
		for _, n := range k.Names {
			if n < 1 || n > 1<<30 || seen[n] {
				return wrong("two columns or rows share a name, or have none")
			}
			seen[n] = true
		}
	}
	if len(r.Pages)%3 != 0 || r.Along != "" && 2*len(r.Pages) != 3*len(r.Parts) {
		return wrong("its list of pages is cut off")
	}
	return nil
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
		Columns: g.colsNamed, Rows: g.rowsNamed, Ink: g.inkDigest(), Pages: make([]int, 0, 3*len(g.cells)),
	}
	if g.strips != nil {
		r.Size[1] = 0
		r.Along, r.Each = "x", g.strips.each
		if g.strips.along == 1 {
			r.Along = "y"
		}
	}
	for k := range g.cells {
		c := &g.cells[k]
		r.Pages = append(r.Pages, c.c+g.first[0], c.r+g.first[1], int(c.near))
		if g.strips != nil {
			from, _ := g.strips.alongOf(c.win.Min)
			to, _ := g.strips.alongOf(c.win.Max)
			r.Parts = append(r.Parts, from, to)
		}
	}
	return r
}

// inkDigest is the digest of the whole drawing of one piece, names aside; empty for the floor, which is known without.
func (g *grid) inkDigest() string {
	if g.view == "floor" {
		return ""
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
	return fmt.Sprintf("%x", d.Sum())
}
