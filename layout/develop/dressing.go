package develop

import (
	"fmt"

	"markout/layout/set"
)

// boxed returns a piece of dressing that is to be modelled as what it is made as: a box of its outline and height, as a platform is, or a
// rod or tube, as a post is. What is no dressing it returns as it is.
func boxed(e *set.Element) *set.Element {
	d, ok := e.Shape.(*set.Dressing)
	if !ok || e.Model == "" || e.Model == "no" {
		return e
	}
	out := *e
	switch e.Model {
	case "rod", "tube":
		p := &set.Post{Outline: d.Outline, Height: d.Height}
		if d.Outline.Form == "circle" {
			p.Diameter = d.Outline.Path.Bounds().W()
		}
		out.Shape = p
	default:
		out.Shape = &set.Platform{Outline: d.Outline, Height: d.Height}
	}
	return &out
}

// leaveOut says, once, that dressing is left out of the model where nothing says how it is modelled.
func (m *Model) leaveOut(s *set.Set) {
	first, count := "", 0
	for _, e := range s.Elements {
		if _, ok := e.Shape.(*set.Dressing); ok && e.Model == "" {
			if count++; count == 1 {
				first = e.Name
			}
		}
	}
	switch {
	case count == 1:
		m.Notes = append(m.Notes, Note{first, "dressing is left out of the model; `model` with a card's name makes a box of it"})
	case count > 1:
		m.Notes = append(m.Notes, Note{first, fmt.Sprintf("dressing, %d pieces in all, is left out of the model; `model` with a card's name makes a box of it", count)})
	}
}

// mirrored says of each room that hangs mirrored how what is in it is made: its pieces of card are drawn as they are dressed.
func (m *Model) mirrored(s *set.Set) {
	said := map[string]bool{}
	for _, e := range s.Elements {
		if len(e.Copies) == 0 || len(e.Copies[0].Places) == 0 || !modelled(boxed(e).Shape) {
			continue
		}
		if o := e.Copies[0].Places[0].Over; o != nil && o.Mirrored && !said[o.Room] {
			said[o.Room] = true
			m.Notes = append(m.Notes, Note{o.Room, "it hangs mirrored, and pieces of what is in it are drawn as it is dressed: make them opposite-handed, the printed side outside, every half-cut and bevel on the other face"})
		}
	}
}
