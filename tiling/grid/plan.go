package grid

import (
	"runtime"
	"strings"
	"sync"

	"markout/layout/geom"
	"markout/layout/unit"
	"markout/tiling"
	"markout/tiling/paper"
)

// Count returns the number of sheets or strips, covers aside.
func (p *Plan) Count() int { return len(p.pages) }

// Paper returns the paper's name.
func (p *Plan) Paper() string { return p.opt.Paper.Name }

// paperOf says what a page is printed on: "A4 portrait", "roll 914 x 2140".
func (g *grid) paperOf(c *cell, name string) string {
	if g.strips != nil {
		return name + " x " + unit.FormatNumber(g.cutLength(c), 1)
	}
	return name + " " + paper.Lie(g.size.W, g.size.H)
}

// cutLength returns the length of roll that a strip takes.
func (g *grid) cutLength(c *cell) float64 {
	if g.strips.along == 0 {
		return g.sizeOf(c).W
	}
	return g.sizeOf(c).H
}

// CutLengths returns the lengths to cut off the roll, in the order of the strips; nil for sheets. The cover's comes first.
func (p *Plan) CutLengths() []float64 {
	if !p.opt.Paper.Roll {
		return nil
	}
	var out []float64
	for range p.cover {
		out = append(out, p.size.H)
	}
	for _, r := range p.pages {
		g := p.grids[r.grid]
		out = append(out, g.cutLength(&g.cells[r.cell]))
	}
	return out
}

// elementsOf returns the names of the pieces on a page, in the file's order, joined with commas.
func (g *grid) elementsOf(ci int32, seen []bool) string {
	clear(seen)
	lo, hi := len(g.owners), -1
	g.ownersOf(ci, func(o int32) {
		seen[o] = true
		lo, hi = min(lo, int(o)), max(hi, int(o))
	})
	var names []string
	for o := lo; o <= hi; o++ {
		if seen[o] {
			names = append(names, g.owners[o])
		}
	}
	return strings.Join(names, ", ")
}

// Entries returns what a register says of every sheet or strip, in the document's order.
func (p *Plan) Entries() []tiling.Entry {
	out := make([]tiling.Entry, len(p.pages))
	workers := min(runtime.GOMAXPROCS(0), 8)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			var d tiling.Digester
			var buf []geom.Point
			seen := make([][]bool, len(p.grids))
			for i, g := range p.grids {
				seen[i] = make([]bool, len(g.owners))
			}
			for i := w; i < len(p.pages); i += workers {
				r := p.pages[i]
				g := p.grids[r.grid]
				c := &g.cells[r.cell]
				e := &out[i]
				e.Page, e.Label = len(p.cover)+i+1, c.label
				e.Element, e.View, e.Title = g.elementsOf(r.cell, seen[r.grid]), g.view, g.title
				e.Scale, e.Paper = p.info.scaleWords(), g.paperOf(c, p.opt.Paper.Name)
				e.Digest, buf = g.sumOf(r.cell, &d, buf)
				e.Mark = tiling.ContentMark(e.Digest)
				e.Origin = [2]float64{c.win.Min.X, c.win.Min.Y}
				live := g.liveOf(c)
				e.Size = [2]float64{live.X, live.Y}
				st := g.stamps[c.stamp]
				e.Letter, e.Date = st.letter, st.date
			}
		})
	}
	wg.Wait()
	return out
}

// Document returns the pages to write: the cover, then the sheets or strips. It may be made as often as wanted, by
// several workers at once.
func (p *Plan) Document() *tiling.Document {
	first := len(p.cover)
	d := &tiling.Document{
		Title:   joined(": ", p.info.Set, "full-size paper"),
		Subject: p.issueWords(),
		Date:    p.info.Date,
		Pages:   first + len(p.pages),
	}
	makers := sync.Pool{New: func() any { return &maker{plan: p} }}
	d.Make = func(i int, page *tiling.Page) {
		if i < first {
			p.cover[i].Draw(page)
			page.Label = "cover"
			if first > 1 {
				page.Label = "cover " + unit.FormatNumber(float64(i+1), 1)
			}
			return
		}
		m := makers.Get().(*maker)
		m.make(p.pages[i-first], i-first+1, page)
		makers.Put(m)
	}
	for _, s := range p.shows {
		d.Shows = append(d.Shows, s...)
	}
	d.Sizes = p.sizes()
	d.Bookmarks = p.bookmarks()
	return d
}

// sizes returns the size of every page; nil where all are of one.
func (p *Plan) sizes() []tiling.Size {
	same := !p.opt.Paper.Roll
	for _, g := range p.grids {
		same = same && g.size == p.size
	}
	if same {
		return nil
	}
	var out []tiling.Size
	for _, c := range p.cover {
		out = append(out, tiling.Size{W: c.Form.W, H: c.Form.H})
	}
	for _, r := range p.pages {
		g := p.grids[r.grid]
		out = append(out, g.sizeOf(&g.cells[r.cell]))
	}
	return out
}

// mostPageMarks is how many bookmarks of single pages a document has at most; beyond, a piece has one for its first page.
const mostPageMarks = 500

// bookmarks lists the cover, each grid, and under it each piece with its pages.
func (p *Plan) bookmarks() []tiling.Bookmark {
	out := []tiling.Bookmark{{Title: "cover"}}
	index := p.index()
	total := 0
	for _, pieces := range index {
		for _, pages := range pieces {
			total += len(pages)
		}
	}
	for gi, g := range p.grids {
		b := tiling.Bookmark{Title: g.title, Page: -1}
		for o, pages := range index[gi] {
			if len(pages) == 0 {
				continue
			}
			one := tiling.Bookmark{Title: g.owners[o], Page: len(p.cover) + int(pages[0])}
			if total <= mostPageMarks && len(pages) > 1 {
				for _, i := range pages {
					one.Children = append(one.Children, tiling.Bookmark{Title: g.cells[p.pages[i].cell].label, Page: len(p.cover) + int(i)})
				}
			}
			b.Children = append(b.Children, one)
		}
		for i, r := range p.pages {
			if int(r.grid) == gi {
				b.Page = len(p.cover) + i
				break
			}
		}
		if b.Page < 0 {
			continue
		}
		if len(b.Children) == 1 && len(g.owners) == 1 {
			b.Children = b.Children[0].Children
		}
		out = append(out, b)
	}
	return out
}

// index returns for each grid and each of its pieces the pages that show it, counted from 0, covers aside.
func (p *Plan) index() [][][]int32 {
	if p.shown != nil {
		return p.shown
	}
	out := make([][][]int32, len(p.grids))
	for i, g := range p.grids {
		out[i] = make([][]int32, len(g.owners))
	}
	for i, r := range p.pages {
		pieces := out[r.grid]
		p.grids[r.grid].ownersOf(r.cell, func(o int32) {
			if n := len(pieces[o]); n == 0 || pieces[o][n-1] != int32(i) {
				pieces[o] = append(pieces[o], int32(i))
			}
		})
	}
	p.shown = out
	return out
}
