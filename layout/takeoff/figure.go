package takeoff

import (
	"markout/layout/figures"
	"markout/layout/geom"
	"markout/layout/set"
)

// HeadName is the name of a piece that is the head of a figure, made alone.
const HeadName = "head"

// figure takes off what a cut-out is sawn from, its face as it lies flat, and the timbers of its brace; of one of which only
// the head is wanted, the head and its pole.
func (w *work) figure(f *set.Figure) {
	if figures.HeadOnly(w.e, f) {
		w.head(f)
		return
	}
	for i, r := range f.Bodies {
		name := "figure"
		if len(f.Bodies) > 1 {
			name = nth("body", i+1, len(f.Bodies))
		}
		w.cutOut(r, spec{name: name, word: "thickness", thick: f.Thickness, count: 1})
	}
	if b := figures.BraceOf(f, w.set.Lengths, w.set.Units.Imperial()); b != nil {
		for _, t := range b.Timbers() {
			w.timber(t.Name, t.Length, b, joined(t.Note, "sizes: "+figures.Practice))
		}
	}
}

func (w *work) head(f *set.Figure) {
	h, err := figures.HeadOf(f, figures.Above(w.set, w.e))
	switch {
	case err != nil:
		w.missing(HeadName, "it cannot be parted from the figure: "+err.Error())
		return
	case h == nil:
		return
	}
	w.cutOut(h.Region, spec{name: HeadName, word: "thickness", thick: f.Thickness, count: 1})
	w.loose(h.Pole.Length, 0, spec{name: "pole", count: 1}, w.size(h.Pole.Behind)+" of it behind the head")
}

// timber takes off one timber of each brace, off a length of the file where one serves.
func (w *work) timber(name string, length float64, b *figures.Brace, note string) {
	n := b.Count
	if b.Length < 0 {
		w.loose(length, b.Deep, spec{name: name, thick: b.Thick, count: n}, note)
		return
	}
	l := &w.set.Lengths[b.Length]
	if length > l.Long+geom.Tolerance {
		w.missing(name, "it is "+w.size(length)+" long, and \""+l.Name+"\" is "+w.size(l.Long))
		return
	}
	w.q.Pieces = append(w.q.Pieces, Piece{Element: w.e.Name, Name: name, Board: -1, Bar: b.Length, Length: length, Width: l.Width,
		Thickness: l.Depth, Count: n * w.n, Note: note, Span: w.e.NameSpan})
}
