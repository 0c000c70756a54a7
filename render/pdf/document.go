package pdf

import (
	"fmt"
	"io"
	"strings"

	"markout/layout/drawing"
	"markout/tiling"
)

// kidsANode is how many pages hang on one node of the page tree.
const kidsANode = 128

// Objects that every file has, by number. Their bodies are written last, when what they speak of is known.
const (
	catalog ref = 1 + iota
	pageTree
	resources // of every page that shows no form
	info
	fonts
	layerGroups
	prologue // what every page's content begins with
)

// document is a file in the making.
type document struct {
	doc  *tiling.Document
	file *file

	nodes, pages, contents ref // the first of each; nodes is 0 where all pages hang on the root

	w, h   float64 // of the first page, which others inherit
	labels labels
	layers [drawing.Layers]bool
	used   usage
	fonts  map[fontKey]ref // the first of a font's objects
	forms  map[*tiling.Form]ref
	shown  map[string]ref // resource dictionaries by the forms in them
	body   []byte         // scratch

	gallery *gallery
}

func newDocument(w io.Writer, doc *tiling.Document) *document {
	d := &document{doc: doc, file: newFile(w), used: usage{}, fonts: map[fontKey]ref{}, forms: map[*tiling.Form]ref{}, shown: map[string]ref{}}
	d.file.alloc(int(prologue))
	if n := (doc.Pages + kidsANode - 1) / kidsANode; n > 1 {
		d.nodes = d.file.alloc(n)
	}
	d.pages = d.file.alloc(doc.Pages)
	d.contents = d.file.alloc(doc.Pages)
	scale := appendReal(nil, pointsPerMillimetre/perMillimetre, 16)
	b := append(append([]byte{}, scale...), " 0 0 "...)
	b = append(append(b, scale...), " 0 0 cm 4 M\n"...)
	d.file.stream(prologue, "", d.file.z.deflate(b))
	return d
}

func (d *document) pageRef(i int) ref { return d.pages + ref(i) }

// addPage writes page i.
func (d *document) addPage(i int, p *madePage, deflated []byte) error {
	if !(p.w > 0 && p.h > 0) || units(p.w) >= furthest || units(p.h) >= furthest {
		return fmt.Errorf("pdf: page %d is %g by %g mm", i+1, p.w, p.h)
	}
	if i == 0 {
		d.w, d.h = p.w, p.h
	}
	for l, used := range p.layers {
		d.layers[l] = d.layers[l] || used
	}
	d.file.stream(d.contents+ref(i), "", deflated)

	b := append(d.body[:0], "<</Type/Page/Parent "...)
	parent := pageTree
	if d.nodes != 0 {
		parent = d.nodes + ref(i/kidsANode)
	}
	b = appendRef(b, parent)
	b = appendRef(append(b, "/Contents["...), prologue)
	b = append(appendRef(append(b, ' '), d.contents+ref(i)), ']')
	if p.w != d.w || p.h != d.h {
		b = appendMediaBox(b, p.w, p.h)
	}
	if len(p.shows) > 0 { // what shows through is mixed as it is on a screen
		b = append(b, "/Group<</S/Transparency/CS/DeviceRGB>>"...)
	}
	if len(p.forms)+len(p.shows) > 0 {
		r, err := d.resourcesWith(p.forms, p.shows)
		if err != nil {
			return err
		}
		b = appendRef(append(b, "/Resources "...), r)
	}
	d.body = append(b, ">>"...)
	d.file.object(d.pageRef(i), d.body)
	d.addLabel(i, p.label)
	return d.file.err
}

func appendMediaBox(b []byte, w, h float64) []byte {
	b = append(b, "/MediaBox[0 0 "...)
	b = append(appendReal(b, w*pointsPerMillimetre, 4), ' ')
	return append(appendReal(b, h*pointsPerMillimetre, 4), ']')
}

// finish writes what is known only now.
func (d *document) finish() error {
	b := []byte("<</Type/Catalog/ViewerPreferences<</PrintScaling/None/PickTrayByPDFSize true/Duplex/Simplex/DisplayDocTitle true>>")
	b = appendRef(append(b, "/Pages "...), pageTree)
	if tree := d.writeLabels(); tree != nil {
		b = append(append(b, "/PageLabels"...), tree...)
	}
	if len(d.doc.Bookmarks) > 0 {
		b = appendRef(append(b, "/PageMode/UseOutlines/Outlines "...), d.writeBookmarks())
	}
	if properties := d.writeLayers(); properties != nil {
		b = append(append(b, "/OCProperties"...), properties...)
	}
	d.writeFonts()
	d.file.object(resources, resourceBody(nil))
	d.writePageTree()
	d.file.object(info, d.info())
	d.file.object(catalog, append(b, ">>"...))
	return d.file.close(appendRef(append(appendRef([]byte("/Root "), catalog), "/Info "...), info))
}

func (d *document) writePageTree() {
	kids := func(b []byte, first ref, n int) []byte {
		b = append(b, "/Kids["...)
		for i := range n {
			b = append(appendRef(b, first+ref(i)), ' ')
		}
		return append(b, ']')
	}
	n := d.doc.Pages
	root := appendMediaBox([]byte("<</Type/Pages"), d.w, d.h)
	root = appendRef(append(root, "/Resources "...), resources)
	root = appendInt(append(root, "/Count "...), int64(n))
	if d.nodes == 0 {
		root = kids(root, d.pages, n)
	} else {
		nodes := (n + kidsANode - 1) / kidsANode
		root = kids(root, d.nodes, nodes)
		for i := range nodes {
			count := min(kidsANode, n-i*kidsANode)
			b := appendInt(append(appendRef([]byte("<</Type/Pages/Parent "), pageTree), "/Count "...), int64(count))
			b = kids(b, d.pageRef(i*kidsANode), count)
			d.file.object(d.nodes+ref(i), append(b, ">>"...))
		}
	}
	d.file.object(pageTree, append(root, ">>"...))
}

// info is what the document says of itself; its dates are the issue's.
func (d *document) info() []byte {
	b := []byte("<<")
	if d.doc.Title != "" {
		b = appendText(append(b, "/Title"...), d.doc.Title)
	}
	if d.doc.Subject != "" {
		b = appendText(append(b, "/Subject"...), d.doc.Subject)
	}
	b = append(b, "/Creator(markout)/Producer(markout)"...)
	if date, ok := compactDate(d.doc.Date); ok {
		for _, key := range []string{"/CreationDate", "/ModDate"} {
			b = append(append(append(b, key...), "(D:"...), date...)
			b = append(b, "000000Z)"...)
		}
	}
	return append(b, ">>"...)
}

// compactDate returns 20061102 for 2006-11-02.
func compactDate(s string) (string, bool) {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return "", false
	}
	s = strings.ReplaceAll(s, "-", "")
	if len(s) != 8 || strings.Trim(s, "0123456789") != "" {
		return "", false
	}
	return s, true
}
