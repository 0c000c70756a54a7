// Package pdf writes pages as a PDF 1.7 file, one after the other, so that a document of any number of pages
// costs the memory of a few.
//
// What is drawn stands in whole micrometres from the page's lower left corner under one scaling matrix, so that a
// position is within half a micrometre of the page's. Lines have butt ends, which measure true, and mitred corners,
// so that a corner's outside is where it is; corners sharper than 29° are cut off. Layers are painted furniture first
// and cut last: nothing covers a line that is cut.
//
// The file asks readers to print without scaling, to pick the paper by the page's size, and on one side. It carries
// the layers as optional content, page labels, and bookmarks; text is real text in subsets of Go Regular and Go Bold.
//
// Artwork is written before the pages, every show as a form in the picture's own measure: what pages share of it (gradients,
// masks, groups) stands once. Colours are DeviceRGB, greys DeviceGray. A JPEG is cut into the parts that pages show without
// decoding it; other pictures made of pixels are stored anew without loss. Pixels keep their edges, however large they are;
// a colour profile goes along where it is of the channels that are written.
//
// Its bytes depend on the document alone: not on the number of workers, a clock or the machine.
package pdf

import (
	"fmt"
	"io"
	"runtime"

	"markout/tiling"
)

// Options change how a document is written, never what is written.
type Options struct {
	Workers  int                   // pages made at the same time; 0 is one a processor
	Progress func(done, total int) // called now and then, in order, from the goroutine that called Write; may be nil
}

// Stats says what was written.
type Stats struct {
	Pages int
	Bytes int64
}

// Write makes every page of doc once and writes the file to w. An error of w stops the making of pages and is
// returned as it came, so a w that refuses to write is how to break off. Errors of its own: no pages, a page of no size,
// a bookmark to a page that is not there, a form that shows itself, artwork on a page that the document does not list or whose
// pixels cannot be read.
func Write(w io.Writer, doc *tiling.Document, opt Options) (Stats, error) {
	if doc.Pages <= 0 {
		return Stats{}, fmt.Errorf("pdf: a document of no pages")
	}
	if opt.Workers <= 0 {
		opt.Workers = runtime.GOMAXPROCS(0)
	}
	if err := checkBookmarks(doc.Bookmarks, doc.Pages); err != nil {
		return Stats{}, err
	}
	d := newDocument(w, doc)
	if err := d.hang(); err != nil {
		return Stats{}, err
	}
	if err := makeBlocks(doc, d.gallery.shows, opt, d.addPage, d.used.add); err != nil {
		return Stats{}, err
	}
	if err := d.finish(); err != nil {
		return Stats{}, err
	}
	return Stats{Pages: doc.Pages, Bytes: d.file.at}, nil
}
