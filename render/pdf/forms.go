package pdf

import (
	"fmt"

	"markout/tiling"
)

// beyond is how far a form's content may reach out of its box in millimetres: half a line's width, a letter's tail.
const beyond = 5

// writeForm writes a form the first time it is met and returns its object.
func (d *document) writeForm(f *tiling.Form, inside []*tiling.Form) (ref, error) {
	if r, ok := d.forms[f]; ok {
		return r, nil
	}
	for _, outer := range inside {
		if outer == f {
			return 0, fmt.Errorf("pdf: a form shows itself")
		}
	}
	c := content{codes: codes(), used: usage{}, hung: d.gallery.shows}
	c.begin(true)
	c.art(f.Shows)
	c.add(&f.Content)
	d.used.add(c.used)
	shown, err := d.formEntries(c.forms, c.shows, append(inside, f))
	if err != nil {
		return 0, err
	}
	r := d.file.alloc(1)
	d.forms[f] = r
	b := []byte("/Type/XObject/Subtype/Form/BBox[")
	b = appendInt(b, units(-beyond))
	b = appendInt(b, units(-beyond))
	b = appendInt(b, units(f.W+beyond))
	b = appendInt(b, units(f.H+beyond))
	b = append(b, "]/Resources<<"...)
	if len(c.used) > 0 {
		b = d.appendFonts(append(b, "/Font"...), c.used)
	}
	b = append(appendForms(b, shown), ">>"...)
	d.file.stream(r, string(b), d.file.z.deflate(c.buf))
	return r, nil
}

// formEntries writes forms that are met for the first time and returns all, and artwork, as entries of a resource dictionary, by
// the names that content shows them by. Inside are the forms that are being written.
func (d *document) formEntries(forms []*tiling.Form, shows []*tiling.Show, inside []*tiling.Form) ([]byte, error) {
	var entries []byte
	for i, f := range forms {
		r, err := d.writeForm(f, inside)
		if err != nil {
			return nil, err
		}
		entries = appendRef(appendInt(append(entries, "/X"...), int64(i)), r)
	}
	for i, s := range shows {
		r, listed := d.gallery.shows[s]
		if !listed {
			return nil, fmt.Errorf("pdf: a page shows artwork that the document does not list")
		}
		entries = appendRef(appendInt(append(entries, "/A"...), int64(i)), r)
	}
	return entries, nil
}

func appendForms(b, entries []byte) []byte {
	if len(entries) == 0 {
		return b
	}
	return append(append(append(b, "/XObject<<"...), entries...), ">>"...)
}

// resourcesWith returns the resources of a page that shows forms or artwork; pages that show the same share them.
func (d *document) resourcesWith(forms []*tiling.Form, shows []*tiling.Show) (ref, error) {
	entries, err := d.formEntries(forms, shows, nil)
	if err != nil {
		return 0, err
	}
	r, ok := d.shown[string(entries)]
	if !ok {
		r = d.file.alloc(1)
		d.shown[string(entries)] = r
		d.file.object(r, resourceBody(entries))
	}
	return r, nil
}

// resourceBody is a page's resource dictionary: the document's fonts and layers, and the forms of entries. A form's own
// names no more than it needs: readers open every font of it again wherever the form is shown.
func resourceBody(entries []byte) []byte {
	b := appendRef([]byte("<</Font "), fonts)
	b = appendRef(append(b, "/Properties "...), layerGroups)
	return append(appendForms(b, entries), ">>"...)
}
