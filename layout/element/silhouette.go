package element

import (
	"errors"
	"sync"

	"markout/layout/diag"
	"markout/layout/set"
	"markout/layout/silhouette"
)

// outlineKey is what a silhouette depends on.
type outlineKey struct {
	file string
	opt  silhouette.Options
}

// Outlines keeps the silhouettes of artwork, each found once, for sets that are made from the same files. Many may use it at
// one time.
type Outlines struct {
	mu    sync.Mutex
	found map[outlineKey]*traced
}

// traced is a silhouette, or why there is none.
type traced struct {
	once    sync.Once
	outline *silhouette.Outline
	err     error
}

func (o *Outlines) of(key outlineKey, art *set.Artwork) (*silhouette.Outline, error) {
	o.mu.Lock()
	if o.found == nil {
		o.found = map[outlineKey]*traced{}
	}
	t := o.found[key]
	if t == nil {
		t = &traced{}
		o.found[key] = t
	}
	o.mu.Unlock()
	t.once.Do(func() { t.outline, t.err = silhouette.Of(art.Picture, key.opt) })
	return t.outline, t.err
}

// silhouette finds the outline of artwork, once for all figures that are made of it in the same way; where there is none, the
// first of them says so.
func (sc *scene) silhouette(e *elem, art *set.Artwork, opt silhouette.Options) (*silhouette.Outline, bool) {
	key := outlineKey{art.File, opt}
	found, err := sc.outlines.of(key, art)
	if err == nil {
		return found, true
	}
	if sc.untraced[key] {
		return nil, false
	}
	if sc.untraced == nil {
		sc.untraced = map[outlineKey]bool{}
	}
	sc.untraced[key] = true
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
