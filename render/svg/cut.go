package svg

import (
	"io"
	"math"

	"markout/layout/geom"
	"markout/tiling"
)

// WriteCut writes a sheet for a machine that cuts: black only, in millimetres, in the groups `notes`, `registration`, `fold` and
// `cut`, all four always, in that order, so that what is half-cut comes before what is cut loose. In `cut` each piece is one
// group with its number as data-piece; in `fold` and `notes` the groups name the piece as data-of. Circular and elliptical arcs
// stay arcs and cubics stay cubics.
func WriteCut(w io.Writer, s *tiling.CutSheet) error {
	pic := picture{height: s.H, perUnit: 1000, decimals: 3, text: allText}
	pic.open(&tiling.Page{W: s.W, H: s.H, Label: s.Label})
	pic.put("<g id=\"notes\">\n")
	pic.content(&s.Notes, geom.Point{}, 0)
	for i := range s.Pieces {
		p := &s.Pieces[i]
		if len(p.Lines) == 0 && empty(&p.Notes) && empty(&p.Named) {
			continue
		}
		pic.group("data-of", p.Name)
		for _, l := range p.Lines {
			pic.curve(l.Path, l.Pen)
		}
		pic.content(&p.Notes, geom.Point{}, 0)
		pic.content(&p.Named, geom.Point{}, 0)
		pic.put("</g>\n")
	}
	pic.put("</g>\n<g id=\"registration\">\n")
	pic.content(&s.Registration, geom.Point{}, 0)
	pic.put("</g>\n<g id=\"fold\">\n")
	for i := range s.Pieces {
		if p := &s.Pieces[i]; len(p.Folds)+len(p.Bends) > 0 {
			pic.group("data-of", p.Name)
			for _, l := range p.Folds {
				pic.curve(l.Path, l.Pen)
			}
			for _, l := range p.Bends {
				pic.curve(l.Path, l.Pen)
			}
			pic.put("</g>\n")
		}
	}
	pic.put("</g>\n<g id=\"cut\">\n")
	for i := range s.Pieces {
		p := &s.Pieces[i]
		pic.group("data-piece", p.Name)
		// Openings first: what lies loose cannot be cut true.
		for k := len(p.Cut) - 1; k >= 0; k-- {
			pic.curve(p.Cut[k], p.Pen)
		}
		pic.put("</g>\n")
	}
	pic.put("</g>\n</svg>\n")
	if pic.err != nil {
		return pic.err
	}
	_, err := w.Write(pic.buf)
	return err
}

func (pic *picture) group(attribute, name string) {
	pic.put("<g " + attribute + `="`)
	pic.escaped(name)
	pic.put("\">\n")
}

// curve writes a path with its curves as they are.
func (pic *picture) curve(p *geom.Path, pen tiling.Pen) {
	if p.Empty() {
		return
	}
	pic.put(`<path fill="none" stroke="#000"`)
	pic.number(` stroke-width="`, pen.Width)
	pic.put(`"`)
	pic.dashes(pen.Dash, 0)
	pic.put(` d="M`)
	pic.place(p.Start())
	last := p.Len() - 1
	for i, s := range p.Segments() {
		switch s.Kind {
		case geom.Line:
			if i == last && p.Closed() {
				continue // Z draws it
			}
			pic.put("L")
			pic.place(s.To)
		case geom.Arc, geom.EllipticalArc:
			pic.arc(s)
		case geom.Cubic:
			pic.put("C")
			pic.place(s.C1)
			pic.put(" ")
			pic.place(s.C2)
			pic.put(" ")
			pic.place(s.To)
		}
	}
	if p.Closed() {
		pic.put("Z")
	}
	pic.put("\"/>\n")
}

// place writes a place, y turned over.
func (pic *picture) place(p geom.Point) {
	pic.pair(pic.step(p.X), pic.step(pic.height-p.Y))
}

// arc writes an arc as two where it goes more than half round, so that rounding leaves no doubt of its way (an arc of a whole turn
// has no ends to tell it by).
func (pic *picture) arc(s geom.Segment) {
	if math.Abs(s.Sweep) > math.Pi*0.999 {
		pic.arc(s.Split(0, 0.5))
		pic.arc(s.Split(0.5, 1))
		return
	}
	pic.number("A", s.RX)
	pic.number(" ", s.RY)
	pic.put(" ")
	phi := 0.0
	if s.Kind == geom.EllipticalArc {
		phi = -s.Phi * 180 / math.Pi
	}
	pic.buf = appendFixed(pic.buf, phi, 6)
	if s.Sweep > 0 { // anticlockwise, y up
		pic.put(" 0 0 ")
	} else {
		pic.put(" 0 1 ")
	}
	pic.place(s.To)
}
