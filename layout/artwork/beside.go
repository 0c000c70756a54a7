package artwork

import (
	"errors"
	"net/url"
	"path"
	"regexp"
	"strings"

	"markout/layout/diag"
)

// Beside opens a picture made of pixels that a drawing names. The name is relative to the drawing's own folder, with slashes, and
// cleaned; it may begin with "..". ErrOutside says that no file may be had from there.
type Beside func(name string) ([]byte, error)

// ErrOutside says that a name leads to where nothing is opened.
var ErrOutside = errors.New("it lies outside the folder")

// scheme is how a link begins that is no path (RFC 3986, section 3.1), or a path with a drive's letter.
var scheme = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9+.-]*:`)

// fileName returns the path from the drawing's folder that a link names; ok is false for an absolute one and for what is no path.
func fileName(link string) (name string, ok bool) {
	if scheme.MatchString(link) || strings.ContainsAny(link, "?#") {
		return "", false
	}
	name, err := url.PathUnescape(link)
	if err != nil || name == "" || name[0] == '/' || scheme.MatchString(name) || strings.ContainsAny(name, "\\\x00") {
		return "", false
	}
	return path.Clean(name), true
}

// beside reads the picture in a file of its own that a link names; each file once.
func (r *reader) beside(at diag.Span, link string) *Image {
	name, ok := fileName(link)
	if !ok || r.open == nil {
		r.outside(at, link)
		return nil
	}
	if img, known := r.files[name]; known {
		return img // what is wrong with it has been said
	}
	r.files[name] = nil
	data, err := r.open(name)
	switch {
	case errors.Is(err, ErrOutside):
		r.outside(at, link)
		return nil
	case err != nil:
		r.fault(at, codeLink, "", "the picture %s cannot be read: %s", quote(link), err)
		return nil
	}
	if _, ok := formatOf(data); !ok {
		r.fault(at, codeLeft, "export it as PNG, or draw it in this picture", "the picture %s is neither PNG nor JPEG and is left out", quote(link))
		return nil
	}
	r.files[name] = r.pixels(at, "the picture "+quote(link), data)
	return r.files[name]
}

func (r *reader) outside(at diag.Span, link string) {
	if r.open == nil {
		r.fault(at, codeOutside, "embed the picture (in the drawing program: embed, not link) and export again", "the picture %s lies outside the file and is left out: nothing outside it is opened", quote(link))
		return
	}
	r.fault(at, codeOutside, "put the picture beside the drawing, or embed it, and export again", "the picture %s lies outside the set's folder and is left out: nothing outside it is opened", quote(link))
}
