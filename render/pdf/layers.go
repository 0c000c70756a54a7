package pdf

import "markout/layout/drawing"

// layerKey is a layer's name in the resources of pages.
func layerKey(l drawing.Layer) byte { return "cfnru"[l] }

// writeLayers writes an optional-content group for each layer used and returns the catalog's OCProperties, nil where none is.
func (d *document) writeLayers() []byte {
	var list []byte
	entries := []byte("<<")
	for l := range drawing.Layers {
		if !d.layers[l] {
			continue
		}
		r := d.file.alloc(1)
		d.file.object(r, append(appendText([]byte("<</Type/OCG/Name"), l.String()), ">>"...))
		entries = append(entries, '/', layerKey(l), ' ')
		entries = appendRef(entries, r)
		list = append(appendRef(list, r), ' ')
	}
	d.file.object(layerGroups, append(entries, ">>"...))
	if list == nil {
		return nil
	}
	properties := append([]byte("<</OCGs["), list...)
	properties = append(append(properties, "]/D<</Order["...), list...)
	return append(properties, "]>>>>"...)
}
