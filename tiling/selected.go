package tiling

import "slices"

// Selected returns a document of only some of another's pages (from 0, in the order given), each marked after it was made; mark may
// be nil. Bookmarks are the caller's.
func Selected(title string, d *Document, pages []int, mark func(i int, p *Page)) *Document {
	out := &Document{Title: title, Subject: d.Subject, Date: d.Date, Pages: len(pages)}
	pages = slices.Clone(pages)
	var p Page
	shown := map[*Show]bool{}
	for _, i := range pages {
		p.Reset()
		d.Make(i, &p)
		out.Sizes = append(out.Sizes, Size{W: p.W, H: p.H})
		for l := range p.Layers {
			for _, s := range p.Layers[l].Shows {
				if !shown[s] {
					shown[s] = true
					out.Shows = append(out.Shows, s)
				}
			}
		}
	}
	out.Make = func(n int, p *Page) {
		d.Make(pages[n], p)
		if mark != nil {
			mark(pages[n], p)
		}
	}
	return out
}
