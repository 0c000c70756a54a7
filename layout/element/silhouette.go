package element

import (
	"errors"

	"markout/layout/diag"
	"markout/layout/set"
	"markout/layout/silhouette"
)

// outlineKey is what a silhouette depends on.
type outlineKey struct {
	file string
	opt  silhouette.Options
}

// silhouette finds the outline of artwork, once for all figures that are made of it in the same way.
func (sc *scene) silhouette(e *elem, art *set.Artwork, opt silhouette.Options) (*silhouette.Outline, bool) {
	key := outlineKey{art.File, opt}
	if found, known := sc.outlines[key]; known {
		return found, found != nil
	}
	if sc.outlines == nil {
		sc.outlines = map[outlineKey]*silhouette.Outline{}
	}
	found, err := silhouette.Of(art.Picture, opt)
	sc.outlines[key] = found
	if err == nil {
		return found, true
	}
	sc.outlines[key] = nil
	hint := ""
	if errors.Is(err, silhouette.ErrNothing) {
		hint = "say what the background is: `background light`, `dark`, `border` or `alpha`"
		if art.Drawn {
			hint = "nothing in it is painted: look at it in the drawing program"
		}
	}
	e.sc.list.Add(diag.Diagnostic{Span: art.Span, Message: art.File + ": " + err.Error(), Hint: hint})
	return nil, false
}
