package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/tiling"
)

// binder gathers the pages of a book.
type binder struct {
	set    *set.Set
	frames []frame
	stamps tiling.Stamps
	first  []page // covers
	pages  []page
}

// digester is one to which a piece that is called otherwise now is what an earlier issue calls it.
func digester(s *set.Set) *tiling.Digester { return &tiling.Digester{Names: s.Called} }

func (b *binder) titles(e *tiling.Entry, kind string, f *frame, n, of int) titles {
	letter, date := issueOf(b.set), b.set.Date
	if e.Letter != "" {
		letter, date = e.Letter, e.Date
	}
	return titles{letter: letter, date: date, kind: kind, label: e.Label, sheet: strconv.Itoa(n) + " / " + strconv.Itoa(of), scale: e.Scale, mark: e.Mark, paper: f.paper}
}

func (b *binder) plan(s *planSheet) {
	e := tiling.Entry{
		Label: "plan", View: "plan", Title: "Mark-out plan", Scale: s.scale.text, Paper: s.frame.paper,
		Mark: tiling.ContentMark(s.digest), Digest: s.digest,
	}
	o := s.at.world.Add(s.plan.Min.Sub(s.at.at).Mul(s.scale.n))
	e.Origin, e.Size = [2]float64{o.X, o.Y}, [2]float64{s.plan.W(), s.plan.H()}
	b.pages = append(b.pages, page{entry: e, size: s.frame.size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		copyPage(p, s.page)
		s.frame.drawFrame(p)
		titleBlock(p, s.title, b.set, b.titles(e, "Mark-out plan", s.frame, n, of))
	}})
}

func (b *binder) table(label, kind string, t *tableSheets) {
	was := b.asCalled(t)
	for i := range t.pages {
		d := was.digest(i)
		e := tiling.Entry{
			Label: label, View: "table", Title: t.t.Title, Element: t.elements(i), Paper: t.frame.paper,
			Mark: tiling.ContentMark(d), Digest: d, Size: [2]float64{t.frame.live.W(), t.frame.live.H()},
		}
		if len(t.pages) > 1 {
			e.Label += " " + strconv.Itoa(i+1)
		}
		b.pages = append(b.pages, page{entry: e, size: t.frame.size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
			t.frame.drawFrame(p)
			t.draw(p, i)
			titleStrip(p, t.frame.strip(), b.set, b.titles(e, kind, t.frame, n, of))
		}})
	}
}

// strip is the box of the title strip along the frame's foot.
func (f *frame) strip() geom.Rect {
	return geom.Rect{Min: f.live.Min, Max: geom.Point{X: f.live.Max.X, Y: f.live.Min.Y + stripHeight}}
}

// elements returns the names of the pieces whose rows stand on a page of the tape table, without their copies' numbers.
func (s *tableSheets) elements(i int) string {
	if !s.ticks {
		return ""
	}
	var names []string
	for r := s.pages[i].from; r < s.pages[i].to; r++ {
		n, _, _ := strings.Cut(s.t.Rows[r][0].Text, " ")
		n, _, _ = strings.Cut(n, ".")
		if !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return strings.Join(names, ",")
}

// bind numbers the pages and makes the document.
func (b *binder) bind(title string) *Book {
	pages := append(b.first, b.pages...)
	book := &Book{Document: &tiling.Document{
		Title: title, Subject: b.set.Production, Date: b.set.Date, Pages: len(pages),
	}}
	doc := book.Document
	var last string
	for i := range pages {
		e := &pages[i].entry
		e.Page = i + 1
		if letter, date, ok := b.stamps.Of(e.Label, e.Digest); ok && !b.set.Trial {
			e.Letter, e.Date = letter, date
		}
		book.Entries = append(book.Entries, pages[i].entry)
		doc.Sizes = append(doc.Sizes, pages[i].size)
		doc.Shows = append(doc.Shows, pages[i].shows...)
		if t := pages[i].entry.Title; t != last {
			doc.Bookmarks = append(doc.Bookmarks, tiling.Bookmark{Title: t, Page: i})
			last = t
		}
	}
	doc.Make = func(i int, p *tiling.Page) {
		p.W, p.H, p.Label = pages[i].size.W, pages[i].size.H, pages[i].entry.Label
		pages[i].draw(p, &pages[i].entry, i+1, len(pages))
	}
	return book
}

// copyPage adds what a page made beforehand holds; its points are shared, which nothing changes.
func copyPage(to, from *tiling.Page) {
	for l := range from.Layers {
		to.Layers[l].Add(&from.Layers[l])
	}
}

// sheets lists for the cover what the document holds.
func (b *binder) sheets() []string {
	var out []string
	for i := 0; i < len(b.pages); i++ {
		e := &b.pages[i].entry
		n := 1
		for i+n < len(b.pages) && b.pages[i+n].entry.Title == e.Title {
			n++
		}
		line := e.Title
		if e.Scale != "" {
			line += ", " + e.Scale
		}
		line += ", " + e.Paper
		if n > 1 {
			line += fmt.Sprintf(", %d sheets", n)
		}
		out = append(out, line)
		i += n - 1
	}
	return out
}

// covers lays the cover and puts it first.
func (b *binder) covers(c *tiling.Cover, f *frame) {
	live := f.live
	live.Min = live.Min.Add(geom.Point{X: 2 * gap, Y: stripHeight + 2*gap})
	live.Max = live.Max.Sub(geom.Point{X: 2 * gap, Y: 2 * gap})
	under, issue := c.Under, issueLine(b.set)
	lay := func() []tiling.CoverPage {
		if c.Under = under; issue != "" {
			c.Under = append(slices.Clip(under), issue)
		}
		return c.Lay(f.size, live)
	}
	d := digester(b.set)
	digest := func(page *tiling.CoverPage) [32]byte {
		var words []string // as they are read: where lines break does not count
		for i := range page.Form.Texts {
			if t := page.Form.Texts[i].Text; t != issue {
				words = append(words, t)
			}
		}
		d.Reset("cover", "", b.set.Sides, geom.Rect{})
		d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{Text: strings.Join(words, " ")})
		return d.Sum()
	}
	laid := lay()
	if letter, date, ok := b.stamps.Of("cover", digest(&laid[0])); ok && !b.set.Trial {
		issue = strings.TrimSuffix("Issue "+letter+", "+date, ", ")
		laid = lay()
	}
	for i := range laid {
		sum := digest(&laid[i])
		e := tiling.Entry{Label: "cover", View: "cover", Title: "Cover", Paper: f.paper, Mark: tiling.ContentMark(sum), Digest: sum,
			Size: [2]float64{f.live.W(), f.live.H()}}
		if len(laid) > 1 {
			e.Label += " " + strconv.Itoa(i+1)
		}
		cp := &laid[i]
		b.first = append(b.first, page{entry: e, size: f.size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
			cp.Draw(p)
			f.drawFrame(p)
			titleStrip(p, f.strip(), b.set, b.titles(e, "Cover", f, n, of))
		}})
	}
}
