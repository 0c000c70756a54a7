package layout

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"image"
	"io"
	"path"
	"slices"
	"strings"

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
	art := r.recall(t.Span, name)
	r.pictures[name] = art
	return art, art != nil
}

// recall returns artwork from the memory, or reads it.
func (r *reader) recall(at diag.Span, name string) *set.Artwork {
	if p, ok := r.memory.picture(name); ok {
		for _, f := range p.sources {
			r.source(f)
		}
		p.art.Span = at
		return &p.art
	}
	said, before := len(r.list.Sorted()), r.sources
	r.sources = slices.Clone(before[:1]) // the main file's folder is that of what it reads
	art := r.readPicture(at, name)
	mine := r.sources[1:]
	r.sources = before
	for _, f := range mine {
		r.source(f)
	}
	if art != nil && len(r.list.Sorted()) == said {
		r.memory.keep(name, picture{*art, mine})
	}
	return art
}

func (r *reader) readPicture(at diag.Span, name string) *set.Artwork {
	data, err := r.bytes(name)
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
		r.source(source)
		before := r.list.Errors()
		art.Picture, art.Drawn = artwork.ReadSVGBeside(r.list, r.list.Sources.Add(name, data), r.beside(name))
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
	r.source(source)
	for _, n := range p.Notes {
		r.list.Add(diag.Diagnostic{Span: at, Severity: diag.Caution, Code: artwork.CodePixels, Message: name + ": " + n})
	}
	return art
}

// bytes reads a picture's file.
func (r *reader) bytes(name string) ([]byte, error) {
	f, err := r.files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostPicture+1))
	if err == nil && len(data) > mostPicture {
		err = fmt.Errorf("it has more than %d MB, the limit", mostPicture>>20)
	}
	return data, err
}

// source adds a file to those that the set is made from, once.
func (r *reader) source(f set.SourceFile) {
	if !slices.ContainsFunc(r.sources, func(g set.SourceFile) bool { return g.Name == f.Name }) {
		r.sources = append(r.sources, f)
	}
}

// beside opens pictures that a drawing names: in the main file's folder, or in the drawing's own where that is another that the user
// allowed.
func (r *reader) beside(drawing string) artwork.Beside {
	return func(name string) ([]byte, error) {
		name = path.Join(path.Dir(drawing), name)
		if !below(path.Dir(r.sources[0].Name), name) && !below(path.Dir(drawing), name) {
			return nil, artwork.ErrOutside
		}
		data, err := r.bytes(name)
		if err != nil {
			return nil, errors.New(reason(err))
		}
		source := set.SourceFile{Name: name, SHA256: sha256.Sum256(data), Bytes: int64(len(data))}
		if p, err := pixels.Open(bytes.NewReader(data), int64(len(data))); err == nil {
			source.Pixels = image.Pt(p.Width, p.Height)
		}
		r.source(source)
		return data, nil
	}
}

// below reports whether a cleaned name stands in a folder or in one within it.
func below(folder, name string) bool {
	if folder == "." {
		return name != ".." && !strings.HasPrefix(name, "../") && !path.IsAbs(name)
	}
	return strings.HasPrefix(name, strings.TrimSuffix(folder, "/")+"/")
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
