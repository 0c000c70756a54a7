package tiling

// Join puts documents one after the other into one, with its title; their subject and date are the first's. Bookmarks, sizes and artwork
// follow along.
func Join(title string, docs ...*Document) *Document {
	out := &Document{Title: title}
	var first []int // page at which each begins
	for i, d := range docs {
		if i == 0 {
			out.Subject, out.Date = d.Subject, d.Date
		}
		first = append(first, out.Pages)
		for _, b := range d.Bookmarks {
			out.Bookmarks = append(out.Bookmarks, b.moved(out.Pages))
		}
		if d.Sizes != nil {
			out.Sizes = append(out.Sizes, d.Sizes...)
		} else if d.Pages > 0 {
			var p Page
			p.Reset()
			d.Make(0, &p)
			for range d.Pages {
				out.Sizes = append(out.Sizes, Size{W: p.W, H: p.H})
			}
		}
		out.Shows = append(out.Shows, d.Shows...)
		out.Pages += d.Pages
	}
	out.Make = func(i int, p *Page) {
		k := len(first) - 1
		for first[k] > i {
			k--
		}
		docs[k].Make(i-first[k], p)
	}
	return out
}

// moved returns the bookmark so many pages further on.
func (b Bookmark) moved(by int) Bookmark {
	out := Bookmark{Title: b.Title, Page: b.Page + by}
	for _, c := range b.Children {
		out.Children = append(out.Children, c.moved(by))
	}
	return out
}
