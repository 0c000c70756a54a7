package pdf

import (
	"fmt"

	"markout/tiling"
)

// checkBookmarks refuses bookmarks to pages that are not there.
func checkBookmarks(marks []tiling.Bookmark, pages int) error {
	for _, m := range marks {
		if m.Page < 0 || m.Page >= pages {
			return fmt.Errorf("pdf: bookmark %q leads to page %d of %d", m.Title, m.Page+1, pages)
		}
		if err := checkBookmarks(m.Children, pages); err != nil {
			return err
		}
	}
	return nil
}

// writeBookmarks writes the outline tree and returns its root. What is under a bookmark is shown when it is opened.
func (d *document) writeBookmarks() ref {
	root := d.file.alloc(1)
	first, last := d.writeLevel(d.doc.Bookmarks, root)
	b := appendRef([]byte("<</Type/Outlines/First "), first)
	b = append(b, "/Last "...)
	b = append(appendRef(b, last), "/Count "...)
	b = append(appendInt(b, int64(len(d.doc.Bookmarks))), ">>"...)
	d.file.object(root, b)
	return root
}

// writeLevel writes bookmarks of one level, and below, and returns the first and the last.
func (d *document) writeLevel(marks []tiling.Bookmark, parent ref) (first, last ref) {
	first = d.file.alloc(len(marks))
	for i := range marks {
		m, r := &marks[i], first+ref(i)
		b := appendText([]byte("<</Title"), m.Title)
		b = appendRef(append(b, "/Parent "...), parent)
		if i > 0 {
			b = appendRef(append(b, "/Prev "...), r-1)
		}
		if i < len(marks)-1 {
			b = appendRef(append(b, "/Next "...), r+1)
		}
		if len(m.Children) > 0 {
			from, to := d.writeLevel(m.Children, r)
			b = appendRef(append(b, "/First "...), from)
			b = appendRef(append(b, "/Last "...), to)
			b = appendInt(append(b, "/Count "...), -int64(len(m.Children)))
		}
		b = appendRef(append(b, "/Dest["...), d.pageRef(m.Page))
		d.file.object(r, append(b, "/Fit]>>"...))
	}
	return first, first + ref(len(marks)-1)
}
