package artwork

import (
	"strings"
)

// linked returns the element that a link in an attribute or property of e names, nil where there is none; that is
// said at its place. A link out of the file is never followed.
func (r *reader) linked(e *element, name, link string) *element {
	id, inside := strings.CutPrefix(link, "#")
	if !inside {
		r.fault(r.where(e, name), codeOutside, "put it into the picture", "%s lies outside the file and is left out: nothing outside it is opened", quote(link))
		return nil
	}
	target := r.ids[id]
	if target == nil {
		r.caution(r.where(e, name), codeLink, "", "nothing in the picture is named %s", quote(id))
	}
	return target
}
