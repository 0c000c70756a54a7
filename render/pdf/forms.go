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
	c := content{codes: codes(), used: d.used}
	c.begin(true)
	c.add(&f.Content)
	own := resources
	if len(c.forms) > 0 {
		var err error
		if own, err = d.resourcesWith(c.forms, append(inside, f)); err != nil {
			return 0, err
		}
	}
	r := d.file.alloc(1)
	d.forms[f] = r
	b := []byte("/Type/XObject/Subtype/Form/BBox[")
	b = appendInt(b, units(-beyond))
	b = appendInt(b, units(-beyond))
	b = appendInt(b, units(f.W+beyond))
	b = appendInt(b, units(f.H+beyond))
	b = appendRef(append(b, "]/Resources "...), own)
	d.file.stream(r, string(b), d.file.z.deflate(c.buf))
	return r, nil
}

// resourcesWith returns the resources of what shows forms; those that show the same forms share them. Inside are the
// forms that are being written.
func (d *document) resourcesWith(forms, inside []*tiling.Form) (ref, error) {
	var entries []byte
	for i, f := range forms {
		r, err := d.writeForm(f, inside)
		if err != nil {
			return 0, err
		}
		entries = appendRef(appendInt(append(entries, "/X"...), int64(i)), r)
	}
	r, ok := d.shown[string(entries)]
	if !ok {
		r = d.file.alloc(1)
		d.shown[string(entries)] = r
		d.file.object(r, resourceBody(entries))
	}
	return r, nil
}

// resourceBody is a resource dictionary: the document's fonts and layers, and the forms of entries.
func resourceBody(entries []byte) []byte {
	b := appendRef([]byte("<</Font "), fonts)
	b = appendRef(append(b, "/Properties "...), layerGroups)
	if len(entries) > 0 {
		b = append(append(append(b, "/XObject<<"...), entries...), ">>"...)
	}
	return append(b, ">>"...)
}
