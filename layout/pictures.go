package layout

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"image"
	"io"

	"markout/layout/artwork"
	"markout/layout/diag"
	"markout/layout/notation"
	"markout/layout/pixels"
	"markout/layout/set"
)

// mostPicture is the size of the largest picture made of pixels that is read: its bytes are held as they are, its pixels never all
// at once.
const mostPicture = 256 << 20

// picture reads artwork that the text names; each file once, however many pieces are made of it.
func (r *reader) picture(t *notation.Text) (*set.Artwork, bool) {
	name, ok := r.name(t, "a picture", `artwork "pilot.svg"`)
	if !ok {
		return nil, false
	}
	if art, known := r.pictures[name]; known {
		if art == nil {
			return nil, false // the first that named it has said what is wrong
		}
		again := *art
		again.Span = t.Span
		return &again, true
	}
	art := r.readPicture(t.Span, name)
	r.pictures[name] = art
	return art, art != nil
}

func (r *reader) readPicture(at diag.Span, name string) *set.Artwork {
	f, err := r.files.Open(name)
	if err != nil {
		r.list.Errorf(at, "cannot read %s: %s", name, reason(err))
		return nil
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostPicture+1))
	if err == nil && len(data) > mostPicture {
		err = fmt.Errorf("it has more than %d MB, the limit", mostPicture>>20)
	}
	if err != nil {
		r.list.Errorf(at, "cannot read %s: %s", name, reason(err))
		return nil
	}
	art := &set.Artwork{File: name, Span: at, SHA256: sha256.Sum256(data)}
	source := set.SourceFile{Name: name, SHA256: art.SHA256, Bytes: int64(len(data))}
	if drawn(data) {
		if len(data) > mostBytes {
			r.list.Errorf(at, "cannot read %s: it has more than %d MB, the limit", name, mostBytes>>20)
			return nil
		}
		source.Text = data
		r.sources = append(r.sources, source)
		before := r.list.Errors()
		art.Picture, art.Drawn = artwork.ReadSVG(r.list, r.list.Sources.Add(name, data))
		if !art.Drawn || r.list.Errors() > before {
			return nil // what follows from what is missing is no second error
		}
		return art
	}
	picture, p, err := artwork.ReadPixels(data)
	if err != nil {
		r.unreadable(at, name, err)
		return nil
	}
	art.Picture, source.Pixels = picture, image.Pt(p.Width, p.Height)
	r.sources = append(r.sources, source)
	for _, n := range p.Notes {
		r.list.Add(diag.Diagnostic{Span: at, Severity: diag.Caution, Code: artwork.CodePixels, Message: name + ": " + n})
	}
	return art
}

// drawn reports whether a file is text of XML, as SVG is, and not a picture made of pixels.
func drawn(data []byte) bool {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	return bytes.HasPrefix(bytes.TrimLeft(data, " \t\r\n"), []byte("<"))
}

// unreadable says what is wrong with a picture made of pixels, and at which byte.
func (r *reader) unreadable(at diag.Span, name string, err error) {
	e := (*pixels.Error)(nil)
	if !errors.As(err, &e) {
		r.list.Errorf(at, "cannot read %s: %s", name, err)
		return
	}
	hint := e.Hint
	e = &pixels.Error{Format: e.Format, At: e.At, What: e.What}
	if e.Format == 0 && hint == "" {
		hint = "artwork is SVG, PNG or JPEG"
	}
	r.list.Add(diag.Diagnostic{Span: at, Message: "cannot read " + name + ": " + e.Error(), Hint: hint})
}
