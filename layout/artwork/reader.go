package artwork

import (
	"strconv"

	"markout/layout/diag"
	"markout/layout/geom"
)

// reader draws one SVG file.
type reader struct {
	trouble
	data  []byte
	open  Beside // nil where nothing beside the file may be opened
	ids   map[string]*element
	sheet sheet

	styles    map[*element]*style    // of elements as they stand in the file, for clip paths and gradients
	gradients map[*element]*gradient // nil for one that cannot be used
	clips     map[clipKey]*Clip
	cuts      map[*Clip]int       // the areas in a clip, with those that it is cut down to each time counted
	images    map[*element]*Image // nil for one that cannot be used
	files     map[string]*Image   // by name, nil for one that cannot be used
	active    map[*element]bool   // what is being drawn through a reference, so that circles are seen

	uses, visits, points, bytes int
}

// Limits of what is drawn, with everything that is used more than once counted each time.
const (
	mostUses   = 100_000
	mostVisits = 1_000_000
	mostPoints = 10_000_000
	mostReread = 64 << 20 // bytes of attributes, not counting the first time
)

// ReadSVG reads the SVG picture that list.Sources holds under file. What is left out, or is read otherwise than it
// stands, comes into the list as a caution at its place; path data is drawn up to what is wrong in it. An error
// (the file is not XML, breaks off, has no size, or is beyond the limits) gives no picture; others, as of what lies outside, leave out what
// is wrong, so that all of it is said at once.
func ReadSVG(list *diag.List, file diag.FileID) (*Picture, bool) {
	return ReadSVGBeside(list, file, nil)
}

// ReadSVGBeside is ReadSVG with pictures made of pixels taken from files beside the drawing.
func ReadSVGBeside(list *diag.List, file diag.FileID, open Beside) (*Picture, bool) {
	r := &reader{
		open:      open,
		trouble:   trouble{list: list, file: file},
		data:      list.Sources.Text(file),
		styles:    map[*element]*style{},
		gradients: map[*element]*gradient{},
		clips:     map[clipKey]*Clip{},
		cuts:      map[*Clip]int{},
		images:    map[*element]*Image{},
		files:     map[string]*Image{},
		active:    map[*element]bool{},
	}
	root := r.tree()
	if root == nil {
		return nil, false
	}
	r.readSheets(root)
	p := r.picture(root)
	if r.failed {
		return nil, false
	}
	return p, true
}

// visit counts an element that is drawn; false means that nothing more is to be.
func (r *reader) visit(e *element) bool {
	r.visits++
	if r.visits > mostVisits {
		r.refuse(r.tag(e), "", "with all that is used more than once, more than %d elements are drawn", mostVisits)
	}
	return !r.failed
}

// work counts the attributes of an element that are read once more.
func (r *reader) work(e *element) {
	if !e.read {
		e.read = true
		return
	}
	r.bytes += e.size
	if r.bytes > mostReread {
		r.refuse(r.tag(e), "", "with all that is used more than once, more than %d MB are read again", mostReread>>20)
	}
}

// keep counts the points of paths that go into the picture.
func (r *reader) keep(e *element, paths []*geom.Path) bool {
	for _, p := range paths {
		r.points += 1 + 3*p.Len()
	}
	if r.points > mostPoints {
		r.refuse(r.tag(e), "", "with all that is used more than once, the picture has more than %d points", mostPoints)
	}
	return !r.failed
}

// quote shows a word of the file in a message, cut where it is long.
func quote(word string) string {
	if len(word) > 40 {
		word = word[:40] + "…"
	}
	return strconv.Quote(word)
}
